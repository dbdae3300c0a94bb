//! OpenDocument spreadsheets, read cell by cell as they stand in `content.xml` (OASIS OpenDocument 1.2, part 1, section 9).
//!
//! A reader of our own: the library's lays out every repeated row and column before it hands over the first cell, so that
//! 800 bytes asked it for gigabytes, and it waits for ever for the end of a table that was cut short
//! (fixtures/dirty/repeated-without-end.ods, cut-in-a-table.ods). Tests hold it against the library on sound files.

use std::borrow::Cow;
use std::collections::HashSet;
use std::io::{BufRead, BufReader, Read};
use std::path::Path;

use quick_xml::events::{BytesStart, Event};
use quick_xml::name::QName;
use quick_xml::{Reader, XmlVersion};

use super::super::guard;
use super::cells::{Cells, Content, MOST_COLUMNS};
use super::{Told, told};

/// Rows of the largest sheet that a spreadsheet program opens.
const MOST_ROWS: u32 = 1 << 24;
/// Blanks that one mark stands for; more are not blanks between words.
const MOST_BLANKS: usize = 1024;
/// Bytes of one cell; more is not a cell of a list.
const LONGEST_CELL: usize = 1 << 20;
/// What repetition may add to a table before it is refused, and how much more with each cell that is really there.
const FREE_REPEATS: usize = 2_000_000;
const REPEATS_PER_CELL: usize = 16;

const TABLE: &str = "table:table";
const ROW: &str = "table:table-row";
const CELL: &str = "table:table-cell";
const COVERED: &str = "table:covered-table-cell";

/// A spreadsheet, read from its first table to its last.
pub(super) struct Spreadsheet<R> {
    xml: Reader<R>,
    buffer: Vec<u8>,
    /// Styles of tables that are not shown.
    hidden: HashSet<String>,
    /// Between the beginning and the end of a table.
    inside: bool,
}

/// What a cell holds.
enum Value {
    Number(f64),
    Percent(f64),
    Unsolved(String),
    Flag(bool),
    Text(String),
    Iso(String),
    Error(String),
}

/// Cells of one row that hold something: the first column, how many alike, and what.
type Row = Vec<(u32, u32, Value)>;

/// How many more cells may come of repetition.
struct Allowance(usize);

impl Allowance {
    fn spend(&mut self, cells: usize) -> Told<()> {
        self.0 = self.0.checked_sub(cells).ok_or(
            "rows or cells are repeated more often than any list needs; it is refused: clear the empty part of the sheet",
        )?;
        Ok(())
    }
}

/// Opens the spreadsheet at this path.
pub(super) fn open(path: &Path) -> Told<Spreadsheet<BufReader<Box<dyn Read + Send>>>> {
    let part = |name: &str| guard::part(path, name).map_err(told);
    if let Some(mut manifest) = part("META-INF/manifest.xml")? {
        let mut text = Vec::new();
        manifest.read_to_end(&mut text).map_err(told)?;
        if memchr::memmem::find(&text, b"encryption-data").is_some() {
            return Err("the workbook is protected by a password; save it without".to_owned());
        }
    }
    let content = part("content.xml")?.ok_or("the workbook holds no content.xml")?;
    Ok(Spreadsheet::new(BufReader::with_capacity(1 << 16, content)))
}

/// An attribute's value, unescaped.
fn attribute(element: &BytesStart<'_>, name: &str) -> Told<Option<String>> {
    let found = element.try_get_attribute(name).map_err(told)?;
    found.map(|found| found.normalized_value(XmlVersion::Implicit1_0).map(Cow::into_owned).map_err(told)).transpose()
}

/// How often an element stands there.
fn repeats(element: &BytesStart<'_>, name: &str) -> Told<u32> {
    let Some(written) = attribute(element, name)? else { return Ok(1) };
    if written.is_empty() || !written.bytes().all(|byte| byte.is_ascii_digit()) {
        return Err(told(format!("{written:?} is not a number of repetitions")));
    }
    // What does not fit is as good as without end.
    Ok(written.parse().unwrap_or(u32::MAX).max(1))
}

impl<R: BufRead> Spreadsheet<R> {
    fn new(content: R) -> Self {
        let mut xml = Reader::from_reader(content);
        xml.config_mut().expand_empty_elements = true;
        Self { xml, buffer: Vec::new(), hidden: HashSet::new(), inside: false }
    }

    /// Goes on to the next table: its name, and whether it is shown.
    pub(super) fn next_table(&mut self) -> Told<Option<(String, bool)>> {
        if self.inside {
            self.pass_over(TABLE)?;
            self.inside = false;
        }
        let mut style = None;
        loop {
            self.buffer.clear();
            match self.xml.read_event_into(&mut self.buffer).map_err(told)? {
                Event::Start(start) => match start.name().as_ref() {
                    "style:style" => style = attribute(&start, "style:name")?,
                    "style:table-properties" if attribute(&start, "table:display")?.as_deref() == Some("false") => {
                        self.hidden.extend(style.take());
                    }
                    TABLE => {
                        let name = attribute(&start, "table:name")?.unwrap_or_default();
                        let style = attribute(&start, "table:style-name")?;
                        self.inside = true;
                        return Ok(Some((name, style.is_none_or(|style| !self.hidden.contains(&style)))));
                    }
                    _ => {}
                },
                Event::Eof => return Ok(None),
                _ => {}
            }
        }
    }

    /// Hands over the cells of the table it has come to, as many as are wanted.
    pub(super) fn read(&mut self, cells: &mut dyn Cells) -> Told<()> {
        let mut number = 0_u32;
        let mut allowance = Allowance(FREE_REPEATS);
        loop {
            self.buffer.clear();
            match self.xml.read_event_into(&mut self.buffer).map_err(told)? {
                Event::Start(start) if start.name().as_ref() == ROW => {
                    let times = repeats(&start, "table:number-rows-repeated")?;
                    let row = self.row(&mut allowance)?;
                    if !row.is_empty() && !hand_over(&row, number, times, &mut allowance, cells)? {
                        return Ok(());
                    }
                    number = number.saturating_add(times);
                }
                // A table within a table, or what is drawn on it.
                Event::Start(start) if matches!(start.name().as_ref(), TABLE | "table:shapes") => {
                    let name = start.name().as_ref().to_owned();
                    self.pass_over(&name)?;
                }
                Event::End(end) if end.name().as_ref() == TABLE => {
                    self.inside = false;
                    return Ok(());
                }
                Event::Eof => return Err("the workbook ends in the middle of a table".to_owned()),
                _ => {}
            }
        }
    }

    /// To the end of an element that was begun.
    fn pass_over(&mut self, name: &str) -> Told<()> {
        self.xml.read_to_end_into(QName(name), &mut self.buffer).map_err(told)?;
        Ok(())
    }

    fn row(&mut self, allowance: &mut Allowance) -> Told<Row> {
        let mut row = Row::new();
        let mut column = 0_u32;
        loop {
            self.buffer.clear();
            match self.xml.read_event_into(&mut self.buffer).map_err(told)? {
                Event::Start(start) if matches!(start.name().as_ref(), CELL | COVERED) => {
                    let start = start.into_owned();
                    let times = repeats(&start, "table:number-columns-repeated")?;
                    if let Some(value) = self.cell(&start)?
                        && column < MOST_COLUMNS
                    {
                        row.push((column, times.min(MOST_COLUMNS - column), value));
                        allowance.0 = allowance.0.saturating_add(REPEATS_PER_CELL);
                    }
                    column = column.saturating_add(times);
                }
                Event::End(end) if end.name().as_ref() == ROW => return Ok(row),
                Event::Eof => return Err("the workbook ends in the middle of a row".to_owned()),
                _ => {}
            }
        }
    }

    /// What a cell holds, read to its end.
    fn cell(&mut self, start: &BytesStart<'_>) -> Told<Option<Value>> {
        let kind = attribute(start, "office:value-type")?.unwrap_or_default();
        let shown = self.text()?;
        let value = |name: &str| attribute(start, name);
        Ok(match kind.as_str() {
            "" => value("table:formula")?.filter(|_| shown.trim().is_empty()).map(Value::Unsolved),
            "boolean" => value("office:boolean-value")?.map(|flag| Value::Flag(flag == "true")),
            "date" => value("office:date-value")?.map(Value::Iso),
            "time" => value("office:time-value")?.map(Value::Iso),
            "string" if attribute(start, "calcext:value-type")?.as_deref() == Some("error") => {
                Some(Value::Error(shown))
            }
            "string" => Some(Value::Text(value("office:string-value")?.unwrap_or(shown))),
            // A number, a percentage, an amount of money. What is none is kept as it is written.
            _ => value("office:value")?.map(|written| match written.parse::<f64>() {
                Ok(number) if number.is_finite() && kind == "percentage" => Value::Percent(number),
                Ok(number) if number.is_finite() => Value::Number(number),
                _ => Value::Text(written),
            }),
        })
    }

    /// The paragraphs of a cell, to the cell's end; remarks and drawings are left out.
    fn text(&mut self) -> Told<String> {
        let mut text = String::new();
        let (mut depth, mut paragraphs, mut within) = (0_usize, 0_usize, 0_usize);
        loop {
            if text.len() > LONGEST_CELL {
                return Err("a cell holds a text longer than any list needs; it is refused".to_owned());
            }
            self.buffer.clear();
            match self.xml.read_event_into(&mut self.buffer).map_err(told)? {
                Event::Start(start) => {
                    let name = start.name();
                    match name.as_ref() {
                        "text:p" => {
                            if paragraphs > 0 {
                                text.push('\n');
                            }
                            paragraphs += 1;
                            within += 1;
                        }
                        "text:s" => {
                            let count = repeats(&start, "text:c")? as usize;
                            text.extend(std::iter::repeat_n(' ', count.min(MOST_BLANKS)));
                        }
                        "text:tab" => text.push('\t'),
                        "text:line-break" => text.push('\n'),
                        other if other == "office:annotation" || other == TABLE || other.starts_with("draw:") => {
                            let other = other.to_owned();
                            self.pass_over(&other)?;
                            continue;
                        }
                        _ => {}
                    }
                    depth += 1;
                }
                Event::End(end) => {
                    if depth == 0 {
                        return Ok(text);
                    }
                    depth -= 1;
                    within -= usize::from(end.name().as_ref() == "text:p");
                }
                Event::Text(piece) if within > 0 => text.push_str(&piece.xml10_content()),
                Event::CData(piece) if within > 0 => text.push_str(&piece.xml10_content()),
                Event::GeneralRef(reference) if within > 0 => match reference.resolve_char_ref().map_err(told)? {
                    Some(letter) => text.push(letter),
                    None => match quick_xml::escape::resolve_xml_entity(&reference) {
                        Some(known) => text.push_str(known),
                        None => return Err(told(format!("unknown entity &{};", &*reference))),
                    },
                },
                Event::Eof => return Err("the workbook ends in the middle of a cell".to_owned()),
                _ => {}
            }
        }
    }
}

/// Hands a row over as often as it stands there; says whether more is wanted.
fn hand_over(row: &Row, first: u32, times: u32, allowance: &mut Allowance, cells: &mut dyn Cells) -> Told<bool> {
    if first >= MOST_ROWS {
        return Err(format!("a row lies beyond row {MOST_ROWS}; it is refused"));
    }
    for number in first..first.saturating_add(times) {
        for (column, alike, value) in row {
            let (content, length) = match value {
                Value::Number(number) => (Content::Number(*number), 8),
                Value::Percent(number) => (Content::Percent(*number), 8),
                Value::Unsolved(formula) => (Content::Unsolved(formula), formula.len()),
                Value::Flag(flag) => (Content::Flag(*flag), 1),
                Value::Text(text) => (Content::Text(text), text.len()),
                Value::Iso(text) => (Content::Iso(text), text.len()),
                Value::Error(text) => (Content::Error(text.clone()), text.len()),
            };
            allowance.spend((*alike as usize - usize::from(number == first)) * (1 + length / 32))?;
            for column in *column..column + alike {
                if !cells.take(number, column, content.clone()) {
                    return Ok(false);
                }
            }
        }
    }
    Ok(true)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)] // A test may stop at what it did not expect.

    use std::path::Path;

    use calamine::{Ods, Reader, open_workbook};

    use super::super::cells::{Cells, Content};

    /// Cells as text, with where they lie.
    #[derive(Default, Debug, PartialEq)]
    struct Heap(Vec<(u32, u32, String)>);

    impl Cells for Heap {
        fn take(&mut self, row: u32, column: u32, content: Content<'_>) -> bool {
            let text = match content {
                Content::Empty => return true,
                Content::Text(text) | Content::Iso(text) => text.to_owned(),
                Content::Number(number) | Content::Percent(number) => number.to_string(),
                Content::Unsolved(formula) => formula.to_owned(),
                Content::Flag(flag) => flag.to_string(),
                Content::Date(date) => date.to_string(),
                Content::Error(error) => error,
            };
            self.0.push((row, column, text));
            true
        }
    }

    /// The library's reader of the same format, on files that a spreadsheet program wrote.
    #[test]
    fn cells_are_those_that_the_library_finds() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures");
        for (file, tables) in
            [("dirty/open-document.ods", 2), ("dirty/title-rows-above-heading.ods", 1), ("template/filled.ods", 2)]
        {
            let mut theirs: Ods<_> = open_workbook(root.join(file)).unwrap();
            let mut ours = super::open(&root.join(file)).unwrap();
            let mut found = 0;
            while let Some((name, _)) = ours.next_table().unwrap() {
                let mut mine = Heap::default();
                ours.read(&mut mine).unwrap();
                let range = theirs.worksheet_range(&name).unwrap();
                let mut other = Heap::default();
                let (top, left) = range.start().unwrap_or_default();
                for (row, column, value) in range.used_cells() {
                    other.take(row as u32 + top, column as u32 + left, value.into());
                }
                assert_eq!(mine, other, "{file}, {name}");
                found += 1;
            }
            assert_eq!(found, tables, "{file}");
        }
    }
}
