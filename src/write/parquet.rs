//! Tables as Parquet: one row group a batch, encoded and compressed where the batch was made, written in order.
//!
//! Texts, and numbers that repeat from row to row (a well's own figures stand once for every scenario), go out as
//! dictionaries: that is most of a treatments table, and it is what makes writing it cheaper than computing it. The file
//! says plain text and plain numbers to whoever reads it.

use std::collections::HashMap;
use std::fs::File;
use std::io::BufWriter;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use foldhash::fast::FixedState;
use polars::error::{PolarsError, PolarsResult};
use polars_arrow::array::{Array, DictionaryArray, PrimitiveArray, Utf8ViewArray};
use polars_arrow::bitmap::Bitmap;
use polars_arrow::datatypes::{ArrowDataType, ArrowSchema, Field};
use polars_buffer::Buffer;
use polars_parquet::write::{
    CompressedPage, CompressionOptions, DynIter, DynStreamingIterator, Encoding, FileWriter, ParquetType,
    StatisticsOptions, Version, WriteOptions, ZstdLevel, array_to_columns, compress, fallible_streaming_iterator,
};

use crate::document::cell::{Grid, Value};
use crate::error::{Error, Result};
use crate::table::{BatchColumn, ColumnCells, ColumnHead, ColumnKind, Groups, TableBatch, TableSink, Varies};

/// A Parquet file being written.
pub struct ParquetTable {
    path: PathBuf,
    fields: Vec<ParquetType>,
    options: WriteOptions,
    writer: Mutex<FileWriter<BufWriter<File>>>,
}

/// A row group, encoded and compressed, waiting for its turn in the file.
pub struct RowGroup {
    rows: u64,
    columns: Vec<Vec<Arc<CompressedPage>>>,
}

impl ParquetTable {
    /// Opens a file for these columns.
    ///
    /// # Errors
    /// When the file cannot be made.
    pub fn create(path: &Path, heads: &[ColumnHead]) -> Result<Self> {
        let file = File::create(path).map_err(|error| Error::unwritten(path, error))?;
        let schema: ArrowSchema = heads
            .iter()
            .map(|head| {
                let kind = match head.kind {
                    ColumnKind::Text => ArrowDataType::Utf8View,
                    ColumnKind::Number => ArrowDataType::Float64,
                };
                let name: polars::prelude::PlSmallStr = head.name.as_str().into();
                (name.clone(), Field::new(name, kind, true))
            })
            .collect();
        let level = ZstdLevel::try_new(1).map_err(|error| Error::unwritten(path, error))?;
        let options = WriteOptions {
            statistics: StatisticsOptions::empty(),
            version: Version::V1,
            compression: CompressionOptions::Zstd(Some(level)),
            data_page_size: None,
        };
        let writer = FileWriter::try_new(BufWriter::with_capacity(1 << 20, file), schema, options)
            .map_err(|error| Error::unwritten(path, error))?;
        let fields = writer.parquet_schema().fields().to_vec();
        Ok(Self { path: path.to_owned(), fields, options, writer: Mutex::new(writer) })
    }

    /// Ends the file.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub fn finish(self) -> Result<()> {
        // No Arrow schema beside the Parquet one: it would tell readers about dictionaries that are nobody's business.
        let mut writer = self.writer.into_inner().unwrap_or_else(PoisonError::into_inner);
        writer.end(Some(Vec::new())).map(|_| ()).map_err(|error| Error::unwritten(&self.path, error))
    }
}

/// Writes a plain table.
///
/// # Errors
/// When the file cannot be written.
pub fn write_grid(path: &Path, grid: &Grid) -> Result<()> {
    let is_text = |at: usize| grid.rows.iter().any(|row| row.get(at).is_some_and(|cell| cell.as_text().is_some()));
    let heads: Vec<ColumnHead> = grid
        .heads
        .iter()
        .enumerate()
        .map(|(at, name)| ColumnHead {
            name: name.clone(),
            kind: if is_text(at) { ColumnKind::Text } else { ColumnKind::Number },
        })
        .collect();
    let column = |(at, head): (usize, &ColumnHead)| {
        let cells = grid.rows.iter().map(|row| row.get(at).unwrap_or(&Value::Empty));
        let cells = match head.kind {
            ColumnKind::Text => ColumnCells::Text(cells.map(|cell| cell.as_text().unwrap_or_default()).collect()),
            ColumnKind::Number => ColumnCells::Number(cells.map(|cell| cell.figure().unwrap_or(f64::NAN)).collect()),
        };
        BatchColumn { varies: Varies::Row, cells }
    };
    let table = ParquetTable::create(path, &heads)?;
    let batch = TableBatch {
        columns: heads.iter().enumerate().map(column).collect(),
        blocks: grid.rows.len(),
        block_rows: 1,
        groups: Groups::default(),
    };
    table.write(table.encode(batch)?)?;
    table.finish()
}

impl TableSink for ParquetTable {
    type Encoded = RowGroup;

    fn encode(&self, mut batch: TableBatch<'_>) -> Result<RowGroup> {
        let rows = batch.rows();
        batch.columns =
            std::mem::take(&mut batch.columns).into_iter().map(|column| by_blocks(column, batch.block_rows)).collect();
        let failed = |error: PolarsError| Error::output(&self.path, error);
        let mut columns = Vec::with_capacity(batch.columns.len());
        // Codes of columns that hold one cell a block, or one a place in it, are the same for all of them.
        let codes_of = |varies| -> Buffer<u32> {
            let occurs = batch.columns.iter().any(|column| column.varies == varies);
            let mut codes: Vec<u32> = Vec::new();
            if occurs {
                codes.reserve_exact(rows);
                codes.extend(batch.cells_of(varies).map(|cell| cell as u32));
            }
            codes.into()
        };
        let [by_block, by_place, by_group] = [Varies::Block, Varies::Place, Varies::Group].map(codes_of);
        // So is the page of them, where the same cells are absent: it is made once.
        let mut pages_of_codes: Vec<(Varies, Vec<bool>, Vec<Arc<CompressedPage>>)> = Vec::new();
        for (column, field) in batch.columns.into_iter().zip(&self.fields) {
            let BatchColumn { varies, cells } = column;
            let codes = match varies {
                Varies::Row => None,
                Varies::Block => Some(&by_block),
                Varies::Place => Some(&by_place),
                Varies::Group => Some(&by_group),
            };
            let compression = match &cells {
                ColumnCells::Number(numbers) if codes.is_none() && is_noise(numbers) => {
                    CompressionOptions::Uncompressed
                }
                _ => self.options.compression,
            };
            let present = codes.map(|_| present(&cells));
            let same = |known: &&(Varies, Vec<bool>, _)| known.0 == varies && Some(&known.1) == present.as_ref();
            let shared = pages_of_codes.iter().find(same).map(|(.., pages)| pages.clone());
            let (array, encoding) = match (cells, codes.zip(present.as_ref())) {
                (ColumnCells::Text(texts), None) => (text_array(&texts).map_err(failed)?, Encoding::RleDictionary),
                (ColumnCells::Number(numbers), None) => number_array(numbers).map_err(failed)?,
                (cells, Some((codes, present))) => {
                    // Of a column whose codes are packed already only the dictionary is wanted.
                    let codes = if shared.is_some() { &Buffer::default() } else { codes };
                    (coded_array(cells, codes, present).map_err(failed)?, Encoding::RleDictionary)
                }
            };
            for pages in array_to_columns(array, field.clone(), self.options, &[encoding]).map_err(failed)? {
                // Compressed here and now, on the thread that made the batch.
                let mut compressed = pages
                    .map(|page| Ok(Arc::new(compress(page?, Vec::new(), compression).map_err(PolarsError::from)?)));
                let mut made = Vec::new();
                if present.is_some() {
                    made.extend(compressed.next().transpose().map_err(failed)?);
                }
                if let Some(shared) = &shared {
                    made.extend(shared.iter().cloned());
                    columns.push(made);
                    continue;
                }
                let rest = compressed.collect::<PolarsResult<Vec<_>>>().map_err(failed)?;
                made.extend(rest.iter().cloned());
                columns.push(made);
                pages_of_codes.extend(present.clone().map(|present| (varies, present, rest)));
            }
        }
        Ok(RowGroup { rows: rows as u64, columns })
    }

    fn write(&self, group: RowGroup) -> Result<()> {
        if group.rows == 0 {
            return Ok(());
        }
        let columns = group.columns.iter().map(|pages| {
            Ok(DynStreamingIterator::new(fallible_streaming_iterator::convert(
                pages.iter().map(|page| PolarsResult::Ok(&**page)),
            )))
        });
        let mut writer = self.writer.lock().unwrap_or_else(PoisonError::into_inner);
        writer.write(group.rows, DynIter::new(columns)).map_err(|error| Error::unwritten(&self.path, error))
    }
}

/// Numbers that are the same throughout each block, and mostly differ from block to block, held once a block.
fn by_blocks<'a>(column: BatchColumn<'a>, block_rows: usize) -> BatchColumn<'a> {
    let ColumnCells::Number(numbers) = &column.cells else { return column };
    if column.varies != Varies::Row || block_rows < 2 {
        return column;
    }
    let differ = |one: &f64, other: &f64| one.to_bits() != other.to_bits();
    let blocks = || numbers.chunks(block_rows);
    if blocks().any(|block| block.iter().any(|number| differ(number, &block[0]))) {
        return column;
    }
    let firsts: Vec<f64> = blocks().map(|block| block[0]).collect();
    let changes = firsts.windows(2).filter(|pair| differ(&pair[0], &pair[1])).count();
    if changes < firsts.len() / 2 {
        return column;
    }
    BatchColumn { varies: Varies::Block, cells: ColumnCells::Number(firsts) }
}

/// Which cells there are.
fn present(cells: &ColumnCells<'_>) -> Vec<bool> {
    match cells {
        ColumnCells::Text(texts) => texts.iter().map(|text| !text.is_empty()).collect(),
        ColumnCells::Number(numbers) => numbers.iter().map(|number| !number.is_nan()).collect(),
    }
}

/// Cells as a dictionary by codes that are known already.
fn coded_array(cells: ColumnCells<'_>, codes: &Buffer<u32>, present: &[bool]) -> PolarsResult<Box<dyn Array>> {
    let values: Box<dyn Array> = match cells {
        ColumnCells::Text(texts) => Box::new(Utf8ViewArray::from_slice_values(&texts)),
        ColumnCells::Number(numbers) => Box::new(PrimitiveArray::new(ArrowDataType::Float64, numbers.into(), None)),
    };
    let all_present = present.iter().all(|present| *present);
    let validity = (!all_present).then(|| Bitmap::from_iter(codes.iter().map(|code| present[*code as usize])));
    let keys = PrimitiveArray::new(ArrowDataType::UInt32, codes.clone(), validity);
    Ok(Box::new(DictionaryArray::try_from_keys(keys, values, false)?))
}

/// Texts as a dictionary; an empty text is an absent cell.
fn text_array(texts: &[&str]) -> PolarsResult<Box<dyn Array>> {
    let mut values: Vec<&str> = Vec::new();
    let mut known: HashMap<&str, u32, FixedState> = HashMap::default();
    let mut codes = Vec::with_capacity(texts.len());
    // Rows of one well share the very same text, and so do rows of one scenario: most need not be looked up by content.
    let mut recent = [(std::ptr::null(), 0, 0_u32); 8];
    let mut oldest = 0;
    for text in texts {
        let same = |entry: &&(*const u8, usize, u32)| std::ptr::eq(entry.0, text.as_ptr()) && entry.1 == text.len();
        let code = match recent.iter().find(same) {
            Some((.., code)) => *code,
            None => {
                let code = *known.entry(text).or_insert_with(|| {
                    values.push(text);
                    (values.len() - 1) as u32
                });
                recent[oldest] = (text.as_ptr(), text.len(), code);
                oldest = (oldest + 1) % recent.len();
                code
            }
        };
        codes.push(code);
    }
    let absent = texts.iter().any(|text| text.is_empty());
    let validity = absent.then(|| Bitmap::from_iter(texts.iter().map(|text| !text.is_empty())));
    let keys = PrimitiveArray::new(ArrowDataType::UInt32, codes.into(), validity);
    let values = Utf8ViewArray::from_slice_values(&values);
    Ok(Box::new(DictionaryArray::try_from_keys(keys, Box::new(values), false)?))
}

/// Whether nearly every number differs from every other: such figures are noise in all but their first bytes, and compressing
/// them would take as long as everything else of a run, for a tenth of their size. Judged by the first few of a batch.
fn is_noise(numbers: &[f64]) -> bool {
    const LOOKED_AT: usize = 256;
    let mut sample: Vec<u64> = numbers.iter().take(LOOKED_AT).map(|number| number.to_bits()).collect();
    sample.sort_unstable();
    sample.dedup();
    sample.len() * 10 > LOOKED_AT * 9
}

/// Numbers, as a dictionary of runs where they repeat; NaN is an absent cell.
fn number_array(numbers: Vec<f64>) -> PolarsResult<(Box<dyn Array>, Encoding)> {
    let absent = numbers.iter().any(|number| number.is_nan());
    let validity = absent.then(|| Bitmap::from_iter(numbers.iter().map(|number| !number.is_nan())));
    let changes = numbers.windows(2).filter(|pair| pair[0].to_bits() != pair[1].to_bits()).count();
    if changes + 1 > numbers.len() / 3 {
        let array = PrimitiveArray::new(ArrowDataType::Float64, numbers.into(), validity);
        return Ok((Box::new(array), Encoding::Plain));
    }
    let mut values: Vec<f64> = Vec::with_capacity(changes + 1);
    let mut codes = Vec::with_capacity(numbers.len());
    for number in &numbers {
        if values.last().is_none_or(|last| last.to_bits() != number.to_bits()) {
            values.push(*number);
        }
        codes.push((values.len() - 1) as u32);
    }
    let keys = PrimitiveArray::new(ArrowDataType::UInt32, codes.into(), validity);
    let values = PrimitiveArray::new(ArrowDataType::Float64, values.into(), None);
    Ok((Box::new(DictionaryArray::try_from_keys(keys, Box::new(values), false)?), Encoding::RleDictionary))
}
