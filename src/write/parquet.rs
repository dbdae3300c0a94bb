//! Tables as Parquet: one row group a batch, compressed where the batch was made, written in order.

use std::fs::File;
use std::io::BufWriter;
use std::path::{Path, PathBuf};

use polars::prelude::{Column, DataFrame, DataType, Field, Float64Chunked, IntoSeries, NewChunkedArray, PolarsError, PolarsResult, Schema, StringChunked};
use polars_io::parquet::write::{BatchedWriter, ParquetCompression, ParquetWriter, StatisticsOptions};
use polars_utils::compression::ZstdLevel;

use crate::table::{ColumnCells, ColumnHead, ColumnKind, TableBatch, TableSink};
use crate::error::{Error, Result};

/// A Parquet file being written.
pub struct ParquetTable {
    path: PathBuf,
    heads: Vec<ColumnHead>,
    writer: Writer,
}

type Writer = BatchedWriter<BufWriter<File>>;

/// A row group, encoded and compressed, waiting for its turn in the file.
pub struct RowGroup(Box<dyn FnOnce(&Writer) -> PolarsResult<()> + Send>);

impl ParquetTable {
    /// Opens a file for these columns.
    ///
    /// # Errors
    /// When the file cannot be made.
    pub fn create(path: &Path, heads: Vec<ColumnHead>) -> Result<Self> {
        let failed = |error: PolarsError| Error::output(path, error);
        let file = File::create(path).map_err(|error| Error::output(path, error))?;
        let schema: Schema = heads
            .iter()
            .map(|head| {
                let kind = match head.kind {
                    ColumnKind::Text => DataType::String,
                    ColumnKind::Number => DataType::Float64,
                };
                Field::new(head.name.as_str().into(), kind)
            })
            .collect();
        let level = ZstdLevel::try_new(1).map_err(failed)?;
        let writer = ParquetWriter::new(BufWriter::with_capacity(1 << 20, file))
            .with_compression(ParquetCompression::Zstd(Some(level)))
            .with_statistics(StatisticsOptions::empty())
            .batched(&schema)
            .map_err(failed)?;
        Ok(Self { path: path.to_owned(), heads, writer })
    }

    /// Ends the file.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub fn finish(self) -> Result<()> {
        self.writer.finish().map(|_| ()).map_err(|error| Error::output(&self.path, error))
    }
}

impl TableSink for ParquetTable {
    type Encoded = RowGroup;

    fn encode(&self, batch: &TableBatch<'_>) -> Result<RowGroup> {
        let failed = |error: PolarsError| Error::output(&self.path, error);
        let columns: Vec<Column> = self
            .heads
            .iter()
            .zip(&batch.columns)
            .map(|(head, cells)| {
                let name = head.name.as_str().into();
                match cells {
                    ColumnCells::Text(texts) => {
                        StringChunked::from_iter_options(name, texts.iter().map(|text| (!text.is_empty()).then_some(*text)))
                            .into_series()
                            .into()
                    }
                    ColumnCells::Number(numbers) => {
                        Float64Chunked::from_iter_options(name, numbers.iter().map(|number| (!number.is_nan()).then_some(*number)))
                            .into_series()
                            .into()
                    }
                }
            })
            .collect();
        let frame = DataFrame::new(batch.rows(), columns).map_err(failed)?;
        let groups: Vec<_> = self.writer.encode_and_compress(&frame).collect::<PolarsResult<_>>().map_err(failed)?;
        Ok(RowGroup(Box::new(move |writer| writer.write_row_groups(groups))))
    }

    fn write(&mut self, group: RowGroup) -> Result<()> {
        group.0(&self.writer).map_err(|error| Error::output(&self.path, error))
    }
}
