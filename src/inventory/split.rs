//! Delimited text into records and cells, by the quoting rules of RFC 4180 as spreadsheets practise them.
//!
//! A quotation mark opens a cell only at the cell's very start; elsewhere (`6"`) it is an ordinary character. A mark that
//! is never closed would swallow the rows after it: it is found out, and taken as an ordinary character, so that no row
//! vanishes. Records are found in one quick pass over the bytes; cells are cut later, on all cores.

use std::io::{self, Read};
use std::sync::Arc;

use memchr::{memchr, memchr2};

use super::rows::{BATCH_BYTES, Damage, Rows};

/// A quoted cell longer than this, or of more lines, is an unclosed quotation mark.
const LONGEST_CELL: usize = 256 * 1024;
const MOST_LINES: usize = 200;

/// No row of a list is longer; a file without line ends must not fill the memory.
const LONGEST_LINE: usize = 8 << 20;

/// A record's row, and where its bytes end.
#[derive(Debug, Clone, Copy)]
struct Record {
    end: u32,
    row: u32,
    damage: Option<Damage>,
}

/// Records cut from the stream, not yet into cells.
#[derive(Debug)]
pub struct Chunk {
    text: Arc<String>,
    records: Vec<Record>,
    delimiter: u8,
    /// How many of the records are not blank.
    pub rows: usize,
}

/// Cuts a stream of UTF-8 into chunks of whole records.
pub struct Splitter {
    stream: Box<dyn Read + Send>,
    delimiter: u8,
    /// How many columns the heading has, for finding swallowed rows.
    columns: usize,
    pending: Vec<u8>,
    row: u32,
    ended: bool,
}

enum End {
    At(usize, Option<Damage>),
    More,
}

impl Splitter {
    /// A splitter over UTF-8 without byte order mark.
    pub fn new(stream: Box<dyn Read + Send>, delimiter: u8, columns: usize) -> Self {
        Self { stream, delimiter, columns, pending: Vec::new(), row: 1, ended: false }
    }

    /// The next chunk of at most `rows` rows; nothing at the end of the stream.
    pub fn next(&mut self, rows: usize) -> io::Result<Option<Chunk>> {
        let mut records = Vec::with_capacity(rows.min(1 << 16));
        let mut start = 0;
        let mut found = 0;
        while found < rows.max(1) {
            match self.record_end(start) {
                End::More => {
                    if self.pending.len() - start > LONGEST_LINE {
                        let why = format!("row {} is longer than {} MB", self.row, LONGEST_LINE >> 20);
                        return Err(io::Error::new(io::ErrorKind::InvalidData, why));
                    }
                    if self.fill()? {
                        continue;
                    }
                    break;
                }
                End::At(end, damage) => {
                    let bytes = &self.pending[start..end];
                    if !bytes.iter().all(|byte| matches!(byte, b'\r' | b'\n')) {
                        let blank =
                            |byte: &u8| matches!(byte, b' ' | b'\t' | b'"' | b'\r' | b'\n') || *byte == self.delimiter;
                        found += usize::from(!bytes.iter().all(blank));
                        records.push(Record { end: end as u32, row: self.row, damage });
                    } else if let Some(last) = records.last_mut() {
                        last.end = end as u32; // An empty line belongs to nobody.
                    } else {
                        records.push(Record { end: end as u32, row: self.row, damage });
                    }
                    // A spreadsheet shows a record as one row, whatever line breaks its cells hold, and an empty line too.
                    self.row = self.row.saturating_add(1);
                    start = end;
                    // Spans are 32 bits wide; a chunk stays far below.
                    if start >= BATCH_BYTES {
                        break;
                    }
                }
            }
        }
        if records.is_empty() {
            return Ok(None);
        }
        let rest = self.pending.split_off(start);
        let bytes = std::mem::replace(&mut self.pending, rest);
        let text = match String::from_utf8(bytes) {
            Ok(text) => text,
            Err(error) => mend(error.as_bytes(), &mut records),
        };
        Ok(Some(Chunk { text: Arc::new(text), records, delimiter: self.delimiter, rows: found }))
    }

    /// Leaves out everything before this row.
    pub fn skip(&mut self, row: u32) -> io::Result<()> {
        while self.row < row {
            let mut start = 0;
            match self.record_end(start) {
                End::More => {
                    if !self.fill()? {
                        return Ok(());
                    }
                }
                End::At(end, _) => {
                    self.row = self.row.saturating_add(1);
                    start = end;
                }
            }
            self.pending.drain(..start);
        }
        Ok(())
    }

    fn fill(&mut self) -> io::Result<bool> {
        if self.ended {
            return Ok(false);
        }
        let before = self.pending.len();
        let count = (&mut self.stream).take(1 << 20).read_to_end(&mut self.pending)?;
        self.ended = count == 0;
        if self.ended && before > 0 && self.pending[before - 1] != b'\n' {
            self.pending.push(b'\n');
        }
        // Also when nothing came: that the stream has ended changes what an open quotation mark means.
        Ok(true)
    }

    /// Where the record that starts at `start` ends, its line end included.
    fn record_end(&self, start: usize) -> End {
        let bytes = self.pending.as_slice();
        let mut at = start;
        let mut damage = None;
        loop {
            let Some(next) = memchr2(b'\n', b'"', &bytes[at..]).map(|offset| at + offset) else { return End::More };
            if bytes[next] == b'\n' {
                return End::At(next + 1, damage);
            }
            let opens = next == start || bytes[next - 1] == self.delimiter;
            if !opens || damage.is_some() {
                at = next + 1;
                continue;
            }
            match self.closing(next + 1) {
                Some(close) => at = close,
                None if !self.ended && bytes.len() - next < LONGEST_CELL => return End::More,
                None => {
                    // From here on every mark of this record is an ordinary character.
                    damage = Some(Damage::UnclosedQuote);
                    at = start;
                }
            }
        }
    }

    /// The position after the mark that closes a cell opened before `from`; `None`: not there (yet).
    fn closing(&self, from: usize) -> Option<usize> {
        let bytes = self.pending.as_slice();
        let mut at = from;
        loop {
            let next = at + memchr(b'"', &bytes[at..])?;
            match bytes.get(next + 1) {
                Some(b'"') => at = next + 2,
                None if !self.ended => return None,
                _ => {
                    let cell = &bytes[from..next];
                    return (!self.swallows(cell)).then_some(next + 1);
                }
            }
        }
    }

    /// Whether a quoted cell holds what look like rows of this very table.
    fn swallows(&self, cell: &[u8]) -> bool {
        if memchr(b'\n', cell).is_none() {
            return false;
        }
        let mut lines = cell.split(|byte| *byte == b'\n');
        let _ = lines.next();
        let like_a_row = self.columns.saturating_sub(2).max(2);
        let mut count = 0;
        cell.len() > LONGEST_CELL
            || lines.any(|line| {
                count += 1;
                count > MOST_LINES || memchr::memchr_iter(self.delimiter, line).count() >= like_a_row
            })
    }
}

/// Decodes each record that is not UTF-8 as Windows-1252, and marks it.
fn mend(bytes: &[u8], records: &mut [Record]) -> String {
    let mut text = String::with_capacity(bytes.len() + 64);
    let mut start = 0;
    for record in records {
        let end = record.end as usize;
        match std::str::from_utf8(&bytes[start..end]) {
            Ok(sound) => text.push_str(sound),
            Err(_) => {
                text.push_str(&encoding_rs::WINDOWS_1252.decode_without_bom_handling(&bytes[start..end]).0);
                record.damage = record.damage.or(Some(Damage::ForeignBytes));
            }
        }
        start = end;
        record.end = text.len() as u32;
    }
    text
}

impl Chunk {
    /// Bytes that it holds.
    pub fn bytes(&self) -> usize {
        self.text.len()
    }

    /// Cuts the records into cells, leaving out blank ones.
    pub fn cells(&self) -> Rows {
        let mut rows = Rows::over(Arc::clone(&self.text));
        let bytes = self.text.as_bytes();
        let mut start = 0;
        for record in &self.records {
            let end = record.end as usize;
            let mut stop = end;
            while stop > start && matches!(bytes[stop - 1], b'\n' | b'\r') {
                stop -= 1;
            }
            if stop > start {
                rows.begin_row(record.row);
                self.cut(&mut rows, start, stop, record.damage != Some(Damage::UnclosedQuote));
                if let Some(damage) = record.damage {
                    rows.damage(damage);
                }
                rows.drop_blank_row(Some(char::from(self.delimiter)));
            }
            start = end;
        }
        rows
    }

    fn cut(&self, rows: &mut Rows, start: usize, stop: usize, quoting: bool) {
        let bytes = self.text.as_bytes();
        let mut at = start;
        loop {
            if quoting && bytes.get(at) == Some(&b'"') && at < stop {
                at = self.quoted(rows, at, stop);
            } else {
                // Cells are short: a plain loop is there before a quicker search has begun.
                let length = bytes[at..stop].iter().position(|byte| *byte == self.delimiter);
                let end = length.map_or(stop, |length| at + length);
                rows.push_span(at, end);
                at = end;
            }
            if at >= stop {
                return;
            }
            at += 1; // Past the delimiter.
            if at == stop {
                rows.push_span(stop, stop);
                return;
            }
        }
    }

    /// A quoted cell that opens at `open`; gives the position of the delimiter after it, or `stop`.
    fn quoted(&self, rows: &mut Rows, open: usize, stop: usize) -> usize {
        let bytes = self.text.as_bytes();
        let mut close = open + 1;
        let mut doubled = false;
        loop {
            match memchr(b'"', &bytes[close..stop]).map(|offset| close + offset) {
                None => {
                    close = stop;
                    break;
                }
                Some(mark) if mark + 1 < stop && bytes[mark + 1] == b'"' => {
                    doubled = true;
                    close = mark + 2;
                }
                Some(mark) => {
                    close = mark;
                    break;
                }
            }
        }
        let after = (close + 1).min(stop);
        let end = memchr(self.delimiter, &bytes[after..stop]).map_or(stop, |offset| after + offset);
        if !doubled && end == after {
            rows.push_span(open + 1, close);
        } else {
            let inside = self.text[open + 1..close].replace("\"\"", "\"");
            rows.push_text(&(inside + &self.text[after..end]));
        }
        end
    }
}
