//! Delimited text files: CSV, TSV, semicolons, pipes, and the tab-delimited RDB of the US Geological Survey.
//!
//! Encoding, delimiter and heading row are judged from the beginning of the file; the rest is streamed. Refuses to know
//! what the headings mean, beyond asking how many of them are known.

use std::io::Cursor;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use encoding_rs::{UTF_8, WINDOWS_1252};

use super::bytes::{self, CarriageReturns, Charset, HEAD_BYTES, Stream, Tally};
use super::layout;
use super::legend::{Legend, Page};
use super::rows::Rows;
use super::split::{Chunk, Splitter};
use super::stamp::can_be_read_again;
use super::table::{Opened, Payload, RowSource};
use super::{parquet, workbook};
use crate::error::{Error, Result};
use crate::field::rules::ReadingRules;
use crate::finding::{self, Finding, Words, catalogue};
use crate::place::{Origin, Place};
use crate::quantity::parse::{self, Comma};

/// Delimiters tried, the likeliest first.
const DELIMITERS: [u8; 4] = [b',', b'\t', b';', b'|'];

/// How many rows are looked at for the heading.
const HEADING_WITHIN: usize = 40;

/// Why a stream of bytes with zeros among them is not read as text.
fn not_text(head: &[u8], once: bool) -> &'static str {
    let is_binary_list = workbook::kind(Path::new(""), head).is_some() || head.starts_with(parquet::MARK);
    match (is_binary_list, once) {
        (true, true) => "only text can be piped in: save this workbook or Parquet file and name the file",
        (true, false) => "a workbook or Parquet file lies compressed in it: unpack it first",
        (false, _) => "it is neither text nor a workbook that can be read",
    }
}

/// Opens a text file as one table.
pub fn open(path: &Path, origin: Origin, rules: &ReadingRules, tally: &Arc<Tally>) -> Result<Opened> {
    let failed = |error: std::io::Error| Error::unread(path, error);
    let once = !can_be_read_again(path);
    // A file is judged first and opened again when its turn comes, so that a folder of thousands needs one open file.
    let judging = if once { Arc::clone(tally) } else { Arc::default() };
    let mut stream = bytes::open(path, &judging)?;
    let head = bytes::head(&mut stream, HEAD_BYTES).map_err(failed)?;
    let whole = head.len() < HEAD_BYTES;
    let charset = Charset::of(&head);
    if matches!(charset.encoding.name(), "UTF-8" | "windows-1252") && head.contains(&0) {
        return Err(Error::input(path, not_text(&head, once)));
    }
    let mut notes = Vec::new();
    let mut decoded =
        bytes::head(&mut charset.decode(Box::new(Cursor::new(head.clone()))), usize::MAX).map_err(failed)?;
    let old_line_ends = decoded.contains(&b'\r') && !decoded.contains(&b'\n');
    if old_line_ends {
        decoded = bytes::head(&mut CarriageReturns(Box::new(Cursor::new(decoded))), usize::MAX).map_err(failed)?;
    }
    if charset.encoding != UTF_8 {
        let (code, says) = if charset.encoding == WINDOWS_1252 {
            (catalogue::NOT_UTF_8, "the bytes are not UTF-8; they were read as Windows-1252".to_owned())
        } else {
            (catalogue::UTF_16, format!("the file is {}", charset.encoding.name()))
        };
        notes.push(about(&origin, code, says, "compare a name with an accent against the original"));
    }
    if !whole {
        // The last line may be cut in two.
        let end = decoded.iter().rposition(|byte| *byte == b'\n').map_or(decoded.len(), |at| at + 1);
        decoded.truncate(end);
    }
    let is_rdb = is_rdb(&decoded);
    let delimiter = if is_rdb { b'\t' } else { delimiter(&decoded, rules, path) };
    let sample = sample(decoded, delimiter).map_err(failed)?;
    let layout = layout::find(&sample, rules, if is_rdb { rdb_heading(&sample) } else { None });
    let Some(mut layout) = layout else {
        notes.push(about(
            &origin,
            catalogue::EMPTY_FILE,
            "the file holds no rows",
            "check that the export was complete",
        ));
        return Ok(Opened::empty(origin, notes));
    };
    if is_rdb {
        layout.first_row = layout.heading_row + 1 + usize::from(sample.len() > layout.heading_row + 1);
        layout.groups.clear();
        layout.units.clear();
        layout.notes.clear();
    } else {
        notes.extend(layout.findings(&sample, &origin));
    }
    let first_row = layout.first_row;
    let headings = layout.headings.clone();
    if !whole && first_row >= sample.len() {
        let reason = format!("no row ends below the headings within its first {} kB", HEAD_BYTES >> 10);
        return Err(Error::input(path, reason));
    }
    let skip = Skip {
        upto: if first_row < sample.len() { sample.number(first_row) } else { sample.number(first_row - 1) + 1 },
    };
    let columns = headings.len();
    let comma = comma(&sample, first_row, delimiter);
    if comma == Comma::Decimal {
        let says = "numbers are written with a comma for decimals, as in 12,5; they are read so";
        notes.push(about(&origin, catalogue::DECIMAL_COMMAS, says, "no action needed if correct"));
    }
    let resume = if once {
        Resume::Open(Box::new(std::io::Read::chain(Cursor::new(head), stream)))
    } else {
        Resume::Path(path.to_owned())
    };
    let source = TextSource {
        path: path.to_owned(),
        tally: Arc::clone(tally),
        charset,
        old_line_ends,
        delimiter,
        columns,
        skip,
        resume: Some(resume),
        splitter: None,
    };
    let legend = Legend::find(&[Page { sheet: "", rows: &sample, heading_row: Some(layout.heading_row) }]);
    Ok(Opened {
        origin,
        headings,
        heading_row: sample.number(layout.heading_row),
        first_row,
        layout,
        legend: Arc::new(legend),
        sample,
        described: None,
        comma,
        short_rows: is_rdb,
        notes,
        source: Some(Box::new(source)),
    })
}

fn about(origin: &Origin, code: finding::Code, says: impl Into<Words>, help: &'static str) -> Finding {
    Finding::new(code, Place::whole(origin), says, help)
}

fn sample(text: Vec<u8>, delimiter: u8) -> std::io::Result<Rows> {
    let mut splitter = Splitter::new(Box::new(Cursor::new(text)), delimiter, usize::MAX);
    Ok(splitter.next(400)?.map(|chunk| chunk.cells()).unwrap_or_default())
}

/// A slip is a number with a point to more than so many with a comma.
const MOST_SLIPS: usize = 10;

/// A list cut by semicolons usually is so because its decimals have commas; it is not where numbers with a point among them
/// are more than slips.
fn comma(sample: &Rows, first_row: usize, delimiter: u8) -> Comma {
    if delimiter != b';' {
        return Comma::ByForm;
    }
    let (mut commas, mut points) = (0, 0);
    for row in first_row..sample.len() {
        for column in 0..sample.width(row) {
            let cell = sample.cell(row, column).trim();
            let number = cell.bytes().all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b',' | b'-'));
            let bare_point = cell.contains('.') && !cell.contains(',');
            points += usize::from(number && bare_point && parse::plain(cell).is_some());
            commas += usize::from(number && cell.contains(','));
        }
    }
    if commas > MOST_SLIPS * points { Comma::Decimal } else { Comma::ByForm }
}

/// Comments, a row of names, and a row of types such as `5s 15s 50s`.
fn is_rdb(text: &[u8]) -> bool {
    text.starts_with(b"#")
        && text.split(|byte| *byte == b'\n').filter(|line| !line.starts_with(b"#")).nth(1).is_some_and(is_type_row)
}

fn is_type_row(line: &[u8]) -> bool {
    let line = line.strip_suffix(b"\r").unwrap_or(line);
    line.contains(&b'\t')
        && line.split(|byte| *byte == b'\t').all(|cell| {
            matches!(cell, [digits @ .., b's' | b'd' | b'n'] if !digits.is_empty() && digits.iter().all(u8::is_ascii_digit))
        })
}

fn rdb_heading(sample: &Rows) -> Option<usize> {
    (0..sample.len()).find(|row| !sample.cell(*row, 0).starts_with('#'))
}

/// The delimiter that cuts every line into the same number of cells, if only one does; else the one by which the most headings
/// are known; where none is, the one that cuts the lines most evenly.
fn delimiter(text: &[u8], rules: &ReadingRules, path: &Path) -> u8 {
    const FEW_LINES: usize = 4;
    let head: Vec<u8> = text.split_inclusive(|byte| *byte == b'\n').take(HEADING_WITHIN).flatten().copied().collect();
    let cut = |delimiter: u8| {
        let rows = sample(head.clone(), delimiter).ok()?;
        let mut widths: Vec<usize> = (0..rows.len()).map(|row| rows.width(row)).collect();
        widths.sort_unstable();
        let usual = widths.get(widths.len() / 2).copied().unwrap_or(0);
        let even = widths.iter().filter(|width| **width == usual && usual > 1).count() * 100 / widths.len().max(1);
        Some((delimiter, rows, even, even == 100 && widths.len() >= FEW_LINES))
    };
    let mut cuts: Vec<_> = DELIMITERS.into_iter().filter_map(cut).collect();
    // The headings need not be known where the lines say it.
    if cuts.iter().any(|(.., alike)| *alike) {
        cuts.retain(|(.., alike)| *alike);
    }
    if let [(only, ..)] = cuts[..] {
        return only;
    }
    let known = |delimiter: u8, rows: &Rows| {
        let likeness = (0..rows.len()).map(|row| layout::likeness(rows, row, rules)).fold(0.0, f64::max);
        let by_name = delimiter == b'\t' && path.extension().is_some_and(|end| end == "tsv" || end == "tab");
        (likeness * 4.0) as usize + usize::from(by_name)
    };
    // Of equals the first.
    let best = cuts.iter().rev().max_by_key(|(delimiter, rows, even, _)| (known(*delimiter, rows), *even));
    best.map_or(b',', |(delimiter, ..)| *delimiter)
}

enum Resume {
    Path(PathBuf),
    Open(Stream),
}

#[derive(Clone, Copy)]
struct Skip {
    /// Rows before this number are comments, titles and the heading.
    upto: u32,
}

struct TextSource {
    path: PathBuf,
    tally: Arc<Tally>,
    charset: Charset,
    old_line_ends: bool,
    delimiter: u8,
    columns: usize,
    skip: Skip,
    resume: Option<Resume>,
    splitter: Option<Splitter>,
}

impl TextSource {
    fn start(&mut self) -> Result<()> {
        let stream = match self.resume.take() {
            Some(Resume::Path(path)) => bytes::open(&path, &self.tally)?,
            Some(Resume::Open(stream)) => stream,
            None => return Ok(()),
        };
        let mut stream = self.charset.decode(stream);
        if self.old_line_ends {
            stream = Box::new(CarriageReturns(stream));
        }
        let mut splitter = Splitter::new(stream, self.delimiter, self.columns);
        splitter.skip(self.skip.upto).map_err(|error| Error::unread(&self.path, error))?;
        self.splitter = Some(splitter);
        Ok(())
    }
}

impl RowSource for TextSource {
    fn next(&mut self, rows: usize) -> Result<Option<Payload>> {
        self.start()?;
        let Some(splitter) = &mut self.splitter else { return Ok(None) };
        let chunk: Option<Chunk> = splitter.next(rows).map_err(|error| Error::unread(&self.path, error))?;
        Ok(chunk.map(Payload::Chunk))
    }
}
