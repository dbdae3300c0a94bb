//! Parquet files, one row group in memory at a time.
//!
//! Columns become text cells like those of every other kind of file: numbers with every digit, dates as ISO text, yes and
//! no. The headings count as row 1, so that rows are numbered as in the same table saved as a workbook. What has no text
//! (binary, lists, structures) is carried as a word in brackets that says so.

use std::fs::File;
use std::io::{Cursor, Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use polars::prelude::PolarsResult;
use polars_arrow::array::{Array, BooleanArray, PrimitiveArray, Utf8ViewArray};
use polars_arrow::datatypes::{ArrowDataType, ArrowSchema, Field as ArrowField, TimeUnit};
use polars_arrow::types::NativeType;
use polars_buffer::Buffer;
use polars_parquet::read::{
    BasicDecompressor, FileMetadata, Filter, PageReader, RowGroupMetadata, column_iter_to_arrays, infer_schema,
    read_metadata,
};
use polars_parquet::write::CompressedPage;

use super::bytes::{self, Tally};
use super::heading;
use super::rows::{CellKind, Rows};
use super::table::{Opened, Payload, RowSource};
use crate::error::{Error, Result};
use crate::finding::{Finding, catalogue};
use crate::place::{Origin, Place};
use crate::quantity::parse::Comma;

/// Rows looked at for the plan.
const SAMPLE_ROWS: usize = 200;

/// A row group that unpacks to more than this is not read: no inventory has one, and a hostile file may claim it.
const MOST_BYTES: usize = 4 << 30;

/// Neither is one with more rows than this, or a page that unpacks to more bytes.
const MOST_ROWS: usize = 1 << 26;
const MOST_PAGE_BYTES: usize = 1 << 29;

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
        group_row: Vec::new(),
        unit_row: Vec::new(),
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
        let damaged = |what: &str| polars::error::PolarsError::ComputeError(what.to_owned().into());
        if group.total_byte_size() > MOST_BYTES || group.num_rows() > MOST_ROWS {
            return Err(damaged("a row group is too great; write the file with smaller ones"));
        }
        let mut columns = Vec::with_capacity(self.fields.len());
        for field in &self.fields {
            if let Some(word) = without_text(&field.dtype) {
                columns.push(Column::Word(word));
                continue;
            }
            let mut pages = Vec::new();
            let mut types = Vec::new();
            for chunk in group.columns_under_root_iter(&field.name).into_iter().flatten() {
                let range = chunk.byte_range();
                if range.end > self.length || range.start > range.end {
                    return Err(damaged("a column lies beyond the end of the file"));
                }
                let mut packed = vec![0; (range.end - range.start) as usize];
                let mut file = &self.file;
                file.seek(SeekFrom::Start(range.start))?;
                file.read_exact(&mut packed)?;
                let packed = Buffer::from(packed);
                let reader = || PageReader::new(Cursor::new(packed.clone()), chunk, Vec::new(), MOST_BYTES);
                // What a page claims to hold is believed by the library, and reserved: it is asked beforehand.
                let mut values = 0_usize;
                for page in reader() {
                    let CompressedPage::Data(page) = page? else { continue };
                    values = values.saturating_add(page.num_values());
                    if page.num_values() > group.num_rows() || page.uncompressed_size() > MOST_PAGE_BYTES {
                        return Err(damaged("a page claims more than it can hold"));
                    }
                }
                if chunk.num_values() != group.num_rows() as i64 || values != group.num_rows() {
                    return Err(damaged("a column has fewer or more values than there are rows"));
                }
                pages.push(BasicDecompressor::new(reader(), Vec::new()));
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

/// The type a column is read as: one form of text, and dictionaries as what they hold.
fn plain_type(dtype: &ArrowDataType) -> ArrowDataType {
    match dtype {
        ArrowDataType::Utf8 | ArrowDataType::LargeUtf8 => ArrowDataType::Utf8View,
        ArrowDataType::Dictionary(_, values, _) => plain_type(values),
        ArrowDataType::Extension(extension) => plain_type(&extension.inner),
        other => other.clone(),
    }
}

/// A word for what no text can be made of.
fn without_text(dtype: &ArrowDataType) -> Option<&'static str> {
    use ArrowDataType as Type;
    match dtype {
        Type::Binary | Type::LargeBinary | Type::BinaryView | Type::FixedSizeBinary(_) => Some("(binary)"),
        Type::List(_) | Type::LargeList(_) | Type::FixedSizeList(..) => Some("(list)"),
        Type::Struct(_) | Type::Map(..) | Type::Union(_) => Some("(structure)"),
        Type::Interval(_) | Type::Decimal256(..) | Type::Unknown => Some("(not readable)"),
        _ => None,
    }
}

/// Adds rows, as cells, numbered from `number`.
fn push_rows(into: &mut Rows, columns: &[Column], rows: std::ops::Range<usize>, number: u32) {
    for (at, row) in rows.enumerate() {
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

fn native<T: NativeType>(array: &dyn Array, row: usize) -> Option<T> {
    array.as_any().downcast_ref::<PrimitiveArray<T>>().map(|array| array.value(row))
}

fn push_cell(into: &mut Rows, array: &dyn Array, row: usize) {
    use ArrowDataType as Type;
    let whole = |value: Option<i64>| value.map(|value| value.to_string());
    let number = match array.dtype() {
        Type::Utf8View => {
            let text = array.as_any().downcast_ref::<Utf8ViewArray>().map_or("", |array| array.value(row));
            return into.push_typed(text, CellKind::Text);
        }
        Type::Boolean => {
            let value = array.as_any().downcast_ref::<BooleanArray>().is_some_and(|array| array.value(row));
            return into.push_typed(if value { "yes" } else { "no" }, CellKind::Text);
        }
        Type::Date32 => {
            let seconds = native::<i32>(array, row).map(|days| i64::from(days) * 86_400);
            return into.push_typed(&moment(seconds, 0), CellKind::Date);
        }
        Type::Timestamp(unit, _) => {
            let per_second = match unit {
                TimeUnit::Second => 1,
                TimeUnit::Millisecond => 1_000,
                TimeUnit::Microsecond => 1_000_000,
                TimeUnit::Nanosecond => 1_000_000_000,
            };
            let value = native::<i64>(array, row);
            let rest = value.map_or(0, |value| value.rem_euclid(per_second));
            return into.push_typed(&moment(value.map(|value| value.div_euclid(per_second)), rest), CellKind::Date);
        }
        Type::Int8 => whole(native::<i8>(array, row).map(i64::from)),
        Type::Int16 => whole(native::<i16>(array, row).map(i64::from)),
        Type::Int32 | Type::Time32(_) => whole(native::<i32>(array, row).map(i64::from)),
        Type::Int64 | Type::Time64(_) | Type::Duration(_) | Type::Date64 => whole(native::<i64>(array, row)),
        Type::UInt8 => whole(native::<u8>(array, row).map(i64::from)),
        Type::UInt16 => whole(native::<u16>(array, row).map(i64::from)),
        Type::UInt32 => whole(native::<u32>(array, row).map(i64::from)),
        Type::UInt64 => native::<u64>(array, row).map(|value| value.to_string()),
        Type::Float32 => native::<f32>(array, row).filter(|value| !value.is_nan()).map(|value| value.to_string()),
        Type::Float64 => native::<f64>(array, row).filter(|value| !value.is_nan()).map(|value| value.to_string()),
        Type::Decimal(_, scale) | Type::Decimal32(_, scale) | Type::Decimal64(_, scale) => {
            let digits = native::<i128>(array, row)
                .or_else(|| native::<i64>(array, row).map(i128::from))
                .or_else(|| native::<i32>(array, row).map(i128::from));
            digits.map(|digits| decimal(digits, *scale))
        }
        Type::Null => None,
        _ => Some("(not readable)".to_owned()),
    };
    into.push_typed(number.as_deref().unwrap_or(""), CellKind::Number);
}

/// A day or a moment as ISO text, without the time at midnight.
fn moment(seconds: Option<i64>, rest: i64) -> String {
    let Some(moment) = seconds.and_then(|seconds| chrono::DateTime::from_timestamp(seconds, 0)) else {
        return String::new();
    };
    if seconds.is_some_and(|seconds| seconds.rem_euclid(86_400) == 0) && rest == 0 {
        moment.format("%Y-%m-%d").to_string()
    } else {
        moment.format("%Y-%m-%d %H:%M:%S").to_string()
    }
}

fn decimal(digits: i128, scale: usize) -> String {
    let figures = format!("{:0>width$}", digits.unsigned_abs(), width = scale + 1);
    let (whole, part) = figures.split_at(figures.len() - scale);
    let sign = if digits < 0 { "-" } else { "" };
    let part = part.trim_end_matches('0');
    if part.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{part}") }
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
            push_rows(&mut given, &loaded.columns, loaded.given..end, self.read);
            self.read = self.read.saturating_add((end - loaded.given) as u32);
            loaded.given = end;
            if end == loaded.rows {
                self.loaded = None;
            }
            if !given.is_empty() {
                return Ok(Some(Payload::Rows(given)));
            }
        }
    }
}
