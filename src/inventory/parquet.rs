//! Parquet files, one row group in memory at a time.
//!
//! Columns become text cells like those of every other kind of file: numbers with every digit, dates as ISO text, yes and
//! no. The headings count as row 1, so that rows are numbered as in the same table saved as a workbook. What has no text
//! (binary, lists, structures) is carried as a word in brackets that says so.

mod cells;

use std::fs::File;
use std::io::{Cursor, Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use polars::prelude::{PolarsError, PolarsResult};
use polars_arrow::array::Array;
use polars_arrow::datatypes::{ArrowDataType, ArrowSchema, Field as ArrowField};
use polars_buffer::Buffer;
use polars_parquet::read::{
    BasicDecompressor, ColumnChunkMetadata, FileMetadata, Filter, PageReader, ParquetError, PhysicalType,
    RowGroupMetadata, column_iter_to_arrays, infer_schema, read_metadata,
};
use polars_parquet_format::thrift::protocol::TCompactInputProtocol;
use polars_parquet_format::{FileMetaData, PageHeader, PageType};

use cells::{push_cell, without_text};

use super::bytes::{self, Tally};
use super::heading;
use super::layout::Layout;
use super::rows::{BATCH_BYTES, CellKind, Rows};
use super::table::{Opened, Payload, RowSource};
use crate::error::{Error, Result};
use crate::finding::{Finding, catalogue};
use crate::place::{Origin, Place};
use crate::quantity::parse::Comma;

/// Rows looked at for the plan.
const SAMPLE_ROWS: usize = 200;

/// A row group that unpacks to more than this is not read: no inventory has one, and a hostile file may claim it.
const MOST_BYTES: usize = 2 << 30;

/// Neither is one with more cells than this: nulls take no bytes in the file, and up to 16 in memory.
const MOST_CELLS: usize = 1 << 27;

/// Neither is a page that unpacks to more bytes, or has an implausible compression ratio.
const MOST_PAGE_BYTES: usize = 1 << 29;
const HARMLESS_BYTES: usize = 1 << 24;
const MOST_HEADER_BYTES: usize = 1 << 24;

/// In memory a file's description may be so many times as long as it is in the file.
const DESCRIPTION_UNPACKS: usize = 64;

const STEEPEST: usize = 2000;

/// The first bytes of every Parquet file.
pub const MARK: &[u8] = b"PAR1";

/// Opens a Parquet file as one table.
pub fn open(path: &Path, origin: Origin, tally: &Arc<Tally>) -> Result<Opened> {
    bytes::digest(path, tally)?;
    let table = guarded(path, || Table::open(path))?;
    let mut sample = Rows::default();
    sample.begin_row(1);
    for field in &table.fields {
        sample.push_typed(&field.name, CellKind::Text);
    }
    let headings = heading::cells(&sample, 0);
    let layout = Layout { headings: headings.clone(), first_row: 1, ..Layout::default() };
    let mut empty = Vec::new();
    match table.metadata.row_groups.iter().find(|group| group.num_rows() > 0) {
        Some(group) => {
            let columns = guarded(path, || table.columns(group, SAMPLE_ROWS))?;
            push_rows(&mut sample, &columns, 0..group.num_rows().min(SAMPLE_ROWS), 2);
        }
        None if table.fields.is_empty() => empty.push(Finding::new(
            catalogue::EMPTY_FILE,
            Place::whole(&origin),
            "the file holds no columns",
            "check that the export was complete",
        )),
        None => {}
    }
    if !empty.is_empty() {
        return Ok(Opened::empty(origin, empty));
    }
    Ok(Opened {
        origin,
        headings,
        heading_row: 1,
        first_row: 1,
        sample,
        layout,
        legend: Arc::default(),
        described: None,
        comma: Comma::ByForm,
        short_rows: true,
        notes: Vec::new(),
        source: Some(Box::new(ParquetSource { path: path.to_owned(), table: None, group: 0, read: 2, loaded: None })),
    })
}

/// Errors and panics of the library become an error of this file.
fn guarded<T>(path: &Path, work: impl FnOnce() -> PolarsResult<T>) -> Result<T> {
    match std::panic::catch_unwind(std::panic::AssertUnwindSafe(work)) {
        Ok(Ok(value)) => Ok(value),
        Ok(Err(error)) => {
            Err(Error::input(path, format!("the Parquet file is damaged or of a kind that cannot be read ({error})")))
        }
        Err(_) => Err(Error::input(path, "the Parquet file is damaged: its reader gave up")),
    }
}

/// An open file with its description.
struct Table {
    file: File,
    length: u64,
    metadata: FileMetadata,
    fields: Vec<ArrowField>,
}

/// A column of a row group.
enum Column {
    /// Arrays one after the other.
    Arrays(Vec<Box<dyn Array>>),
    /// No text can be made of it.
    Word(&'static str),
}

impl Table {
    fn open(path: &Path) -> PolarsResult<Self> {
        let mut file = File::open(path)?;
        let length = file.metadata()?.len();
        check_footer(&mut file, length)?;
        let metadata = read_metadata(&mut file)?;
        let schema: ArrowSchema = infer_schema(&metadata)?;
        let fields = schema
            .iter_values()
            .map(|field| ArrowField::new(field.name.clone(), plain_type(&field.dtype), true))
            .collect();
        Ok(Self { file, length, metadata, fields })
    }

    /// Reads the columns of a row group, up to so many rows.
    fn columns(&self, group: &RowGroupMetadata, rows: usize) -> PolarsResult<Vec<Column>> {
        let cells = group.num_rows().saturating_mul(self.fields.len().max(1));
        if group.total_byte_size() > MOST_BYTES || cells > MOST_CELLS {
            return Err(damaged("a row group is too great; write the file with smaller ones"));
        }
        let mut columns = Vec::with_capacity(self.fields.len());
        let (mut packed_bytes, mut unpacked_bytes) = (0_u64, 0_usize);
        for field in &self.fields {
            if let Some(word) = without_text(&field.dtype) {
                columns.push(Column::Word(word));
                continue;
            }
            let mut pages = Vec::new();
            let mut types = Vec::new();
            for chunk in group.columns_under_root_iter(&field.name).into_iter().flatten() {
                let range = chunk.byte_range();
                packed_bytes = packed_bytes.saturating_add(range.end.saturating_sub(range.start));
                if range.end > self.length || range.start > range.end || packed_bytes > self.length {
                    return Err(damaged("a column lies beyond the end of the file, or on another"));
                }
                let mut packed = vec![0; (range.end - range.start) as usize];
                let mut file = &self.file;
                file.seek(SeekFrom::Start(range.start))?;
                file.read_exact(&mut packed)?;
                let packed = Buffer::from(packed);
                if chunk.num_values() != group.num_rows() as i64 {
                    return Err(damaged("a column has fewer or more values than there are rows"));
                }
                unpacked_bytes = unpacked_bytes.saturating_add(check_pages(&packed, chunk)?);
                if unpacked_bytes > MOST_BYTES {
                    return Err(damaged("a row group is too great; write the file with smaller ones"));
                }
                let reader = PageReader::new(Cursor::new(packed), chunk, Vec::new(), MOST_BYTES);
                pages.push(BasicDecompressor::new(reader, Vec::new()));
                types.push(&chunk.descriptor().descriptor.primitive_type);
            }
            if pages.len() != 1 {
                return Err(damaged("a column has no data, or too much"));
            }
            let filter = (rows < group.num_rows()).then(|| Filter::new_limited(rows));
            columns.push(Column::Arrays(column_iter_to_arrays(pages, types, field.clone(), filter)?.0));
        }
        Ok(columns)
    }
}

fn damaged(what: &str) -> PolarsError {
    PolarsError::ComputeError(what.to_owned().into())
}

/// Reads the file's description once within bounds: the library reserves as many entries as a list claims, and a file of 5 kB
/// claimed 28 GB (found by fuzzing; fixtures/dirty/entries-without-end.parquet).
fn check_footer(file: &mut File, length: u64) -> PolarsResult<()> {
    let mut end = [0; 8];
    file.seek(SeekFrom::Start(length.saturating_sub(8)))?;
    file.read_exact(&mut end)?;
    let size = u64::from(u32::from_le_bytes([end[0], end[1], end[2], end[3]]));
    let Some(start) = length.checked_sub(size + 8) else {
        return Err(damaged("its description is longer than the file"));
    };
    file.seek(SeekFrom::Start(start))?;
    let mut footer = Vec::new();
    file.take(size).read_to_end(&mut footer)?;
    let room = footer.len().saturating_mul(DESCRIPTION_UNPACKS).saturating_add(HARMLESS_BYTES);
    FileMetaData::read_from_in_protocol(&mut TCompactInputProtocol::new(footer.as_slice(), room))
        .map_err(ParquetError::from)?;
    Ok(())
}

/// Looks at what the pages of a column claim, because the library believes it and reserves the room; gives the bytes that they
/// unpack to. Headers as in parquet.thrift, PageHeader.
fn check_pages(packed: &[u8], chunk: &ColumnChunkMetadata) -> PolarsResult<usize> {
    let size = |claimed: i32| usize::try_from(claimed).map_err(|_| damaged("a page claims less than nothing"));
    // The least that a value of a dictionary takes.
    let least = match chunk.physical_type() {
        PhysicalType::FixedLenByteArray(length) => length.max(1),
        PhysicalType::Int64 | PhysicalType::Double => 8,
        _ => 4,
    };
    let rows = usize::try_from(chunk.num_values()).unwrap_or(0);
    let mut pages = Cursor::new(packed);
    let (mut values, mut all_unpacked) = (0_usize, 0_usize);
    while values < rows {
        let header = PageHeader::read_from_in_protocol(&mut TCompactInputProtocol::new(&mut pages, MOST_HEADER_BYTES))
            .map_err(ParquetError::from)?;
        let (packed, unpacked) = (size(header.compressed_page_size)?, size(header.uncompressed_page_size)?);
        let steep = unpacked > HARMLESS_BYTES && unpacked / packed.max(1) > STEEPEST;
        let dictionary = header.dictionary_page_header.map_or(Ok(0), |header| size(header.num_values))?;
        if steep || unpacked > MOST_PAGE_BYTES || dictionary > unpacked / least {
            return Err(damaged("a page claims more than it can hold"));
        }
        let here = match header.type_ {
            PageType::DATA_PAGE => header.data_page_header.map(|header| header.num_values),
            PageType::DATA_PAGE_V2 => header.data_page_header_v2.map(|header| header.num_values),
            _ => Some(0),
        };
        values = values.saturating_add(size(here.unwrap_or(-1))?);
        all_unpacked = all_unpacked.saturating_add(unpacked);
        pages.set_position(pages.position().saturating_add(packed as u64));
    }
    if values == rows { Ok(all_unpacked) } else { Err(damaged("a column has more values than there are rows")) }
}

/// The type a column is read as: one form of text, and dictionaries as what they hold.
fn plain_type(dtype: &ArrowDataType) -> ArrowDataType {
    match dtype {
        ArrowDataType::Utf8 | ArrowDataType::LargeUtf8 => ArrowDataType::Utf8View,
        ArrowDataType::Dictionary(_, values, _) => plain_type(values),
        ArrowDataType::Extension(extension) => plain_type(&extension.inner),
        other => other.clone(),
    }
}

/// Adds rows, as cells, numbered from `number`, until there are enough bytes; says how many it added.
fn push_rows(into: &mut Rows, columns: &[Column], rows: std::ops::Range<usize>, number: u32) -> usize {
    let all = rows.len();
    for (at, row) in rows.enumerate() {
        if into.bytes() >= BATCH_BYTES {
            return at;
        }
        into.begin_row(number.saturating_add(at as u32));
        for column in columns {
            match column {
                Column::Word(word) => into.push_typed(word, CellKind::Text),
                Column::Arrays(arrays) => match array_of(arrays, row) {
                    Some((array, at)) if array.is_valid(at) => push_cell(into, array, at),
                    _ => into.push_typed("", CellKind::Text),
                },
            }
        }
        into.drop_blank_row(None);
    }
    all
}

/// The array in which a row lies, and its place there.
fn array_of(arrays: &[Box<dyn Array>], mut row: usize) -> Option<(&dyn Array, usize)> {
    for array in arrays {
        if row < array.len() {
            return Some((array.as_ref(), row));
        }
        row -= array.len();
    }
    None
}

/// A row group on its way out.
struct Loaded {
    columns: Vec<Column>,
    rows: usize,
    given: usize,
}

struct ParquetSource {
    path: PathBuf,
    table: Option<Table>,
    group: usize,
    /// Number of the next row.
    read: u32,
    loaded: Option<Loaded>,
}

impl ParquetSource {
    /// Loads the next row group that has rows.
    fn load(&mut self) -> Result<bool> {
        if self.table.is_none() {
            self.table = Some(guarded(&self.path, || Table::open(&self.path))?);
        }
        let Some(table) = &self.table else { return Ok(false) };
        while let Some(group) = table.metadata.row_groups.get(self.group) {
            self.group += 1;
            let rows = group.num_rows();
            if rows > 0 {
                let columns = guarded(&self.path, || table.columns(group, rows))?;
                self.loaded = Some(Loaded { columns, rows, given: 0 });
                return Ok(true);
            }
        }
        Ok(false)
    }
}

impl RowSource for ParquetSource {
    fn next(&mut self, rows: usize) -> Result<Option<Payload>> {
        loop {
            if self.loaded.is_none() && !self.load()? {
                return Ok(None);
            }
            let Some(loaded) = &mut self.loaded else { return Ok(None) };
            let end = loaded.rows.min(loaded.given + rows.max(1));
            let mut given = Rows::default();
            let added = push_rows(&mut given, &loaded.columns, loaded.given..end, self.read);
            self.read = self.read.saturating_add(added as u32);
            loaded.given += added;
            if loaded.given == loaded.rows {
                self.loaded = None;
            }
            if !given.is_empty() {
                return Ok(Some(Payload::Rows(given)));
            }
        }
    }
}
