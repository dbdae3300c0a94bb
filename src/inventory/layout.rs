//! Where things stand on a sheet: the row of headings, groups above it, units below it, notes above and below the table.

use super::dated_heading;
use super::heading::{self, HeadingUnit, tidy};
use super::legend;
use super::lexicon::{self, Language};
use super::notes;
use super::rows::{CellKind, Rows};
use crate::field::Field;
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::finding::{Finding, catalogue};
use crate::place::{Origin, Place};
use crate::quantity::parse::plain;
use crate::quantity::unit::Gallon;

/// How many rows at the top of a table are looked at for the heading.
const WITHIN: usize = 40;

/// How many rows of groups may stand above the headings.
const MOST_GROUP_ROWS: usize = 3;

/// Letters of the name of a group, of a question over its answers, and how many questions make a survey.
const LONGEST_GROUP: usize = 60;
const LONGEST_QUESTION: usize = 200;
const FEWEST_QUESTIONS: usize = 4;

/// The layout of a table.
#[derive(Debug, Clone, Default)]
pub struct Layout {
    /// The row of the headings, in the sample.
    pub heading_row: usize,
    /// The first row below the headings.
    pub first_row: usize,
    /// Headings as written, trimmed; where the row of headings is blank, what stands above in the same column.
    pub headings: Vec<String>,
    /// The groups above each heading, outermost first, joined; empty where there are none.
    pub groups: Vec<String>,
    /// Units in a row of their own below the headings; empty where there is none.
    pub units: Vec<String>,
    /// Whether the units are those of another sheet.
    pub units_from_elsewhere: bool,
    /// What the file says of each heading in other words: `Dip = from the measuring point down`; empty where nothing.
    pub explained: Vec<String>,
    /// Lines of words above the table and below it.
    pub notes: Vec<String>,
    /// The language of the headings.
    pub language: Language,
}

/// Finds the layout of a sample; nothing where it has no rows.
pub fn find(sample: &Rows, rules: &ReadingRules, heading_row: Option<usize>) -> Option<Layout> {
    let gallon = rules.system.and_then(UnitSystem::gallon);
    let heading_row = heading_row.or_else(|| find_row(sample, rules))?;
    let heading_row = if goes_on_below(sample, heading_row) { heading_row + 1 } else { heading_row };
    let mut headings = heading::cells(sample, heading_row);
    let group_rows = group_rows(sample, heading_row);
    // What stands one row higher may reach further than the row of headings does.
    let reaches = group_rows.iter().map(|row| heading::cells(sample, *row).len()).max().unwrap_or(0);
    headings.resize(headings.len().max(reaches), String::new());
    // What spans the headings' row from above, or stands one row higher, is the heading itself.
    for row in group_rows.iter().rev() {
        for (column, heading) in headings.iter_mut().enumerate() {
            if heading.is_empty() {
                *heading = tidy(sample.cell(*row, column));
            }
        }
    }
    let mut first_row = heading_row + 1;
    let mut units = unit_row(sample, first_row, &headings, gallon);
    if !units.is_empty() {
        first_row += 1;
    }
    if units.iter().all(String::is_empty) {
        units.clear();
    }
    let words: Vec<String> = headings.iter().flat_map(|heading| lexicon::tokens(heading)).collect();
    let above = heading_row.saturating_sub(group_rows.len());
    let mut notes: Vec<String> = (0..above).filter_map(|row| note(sample, row)).collect();
    notes.extend((first_row..sample.len()).filter_map(|row| note(sample, row)));
    Some(Layout {
        heading_row,
        first_row,
        groups: groups(sample, &group_rows, &headings, heading_row),
        headings,
        units,
        notes,
        language: lexicon::language(&words),
        units_from_elsewhere: false,
        explained: Vec::new(),
    })
    .map(|mut layout| {
        layout.explained = layout.headings.iter().map(|heading| explained(heading, &layout.notes)).collect();
        layout
    })
}

impl Layout {
    /// Takes what another sheet says of the headings, where it speaks of at least three of them.
    pub fn take_words<'a>(&mut self, words: impl Iterator<Item = &'a (String, String)> + Clone) {
        let of =
            |heading: &String| words.clone().find(|(name, _)| *name == heading::squash(heading)).map(|(_, says)| says);
        if self.headings.iter().filter(|heading| !heading.is_empty() && of(heading).is_some()).count() < 3 {
            return;
        }
        for (heading, explained) in self.headings.iter().zip(&mut self.explained) {
            if let (true, Some(says)) = (explained.is_empty(), of(heading)) {
                explained.clone_from(says);
            }
        }
    }

    /// Takes units of columns from another sheet, where at least two of its names are headings here.
    pub fn take_units<'a>(&mut self, units: impl Iterator<Item = &'a (String, String)>) {
        let mut taken = vec![String::new(); self.headings.len()];
        for (name, unit) in units {
            if let Some(at) = self.headings.iter().position(|heading| heading::squash(heading) == *name) {
                taken[at].clone_from(unit);
            }
        }
        if self.units.is_empty() && taken.iter().filter(|unit| !unit.is_empty()).count() >= 2 {
            self.units = taken;
            self.units_from_elsewhere = true;
        }
    }

    /// What there is to say about where the table stands.
    pub fn findings(&self, sample: &Rows, origin: &Origin) -> Vec<Finding> {
        let mut notes = Vec::new();
        let mut say = |code, says: String, help: &'static str| {
            notes.push(Finding::new(code, Place::whole(origin), says, help));
        };
        if !self.units.is_empty() {
            let row = sample.number(self.first_row - 1);
            say(catalogue::UNIT_ROW, format!("row {row} holds units; they are read as those of the columns"), IF_RIGHT);
        }
        let grouped = self.groups.iter().any(|group| !group.is_empty());
        if grouped {
            let says =
                "the row above the headings names groups of columns; each heading is read with its group before it";
            say(catalogue::GROUPED_HEADINGS, says.to_owned(), IF_RIGHT);
        }
        if self.heading_row > usize::from(grouped) {
            let number = sample.number(self.heading_row);
            let says = format!("the heading is row {number}; the rows above it were left out");
            say(catalogue::ROWS_ABOVE_HEADING, says, "no action needed if those rows are a title");
        }
        notes
    }
}

const IF_RIGHT: &str = "no action needed if correct";

fn filled(rows: &Rows, row: usize) -> usize {
    (0..rows.width(row)).filter(|column| !rows.cell(row, *column).trim().is_empty()).count()
}

/// How much a row looks like headings: one for each cell that names something of wells, less for each that is a value.
pub fn likeness(rows: &Rows, row: usize, rules: &ReadingRules) -> f64 {
    let gallon = rules.system.and_then(UnitSystem::gallon);
    let mut score = 0.0;
    let mut texts = 0;
    for column in 0..rows.width(row) {
        let cell = rows.cell(row, column);
        let heading = tidy(cell);
        if heading.is_empty() {
            continue;
        }
        if rows.kind(row, column) != CellKind::Text || plain(&heading).is_some() {
            score -= 1.0;
            continue;
        }
        texts += 1;
        if heading.len() < 160
            && (heading::mapped(&heading, rules).is_some() || heading::mapped_beside(&heading, rules).is_some())
        {
            score += 1.5;
        } else if heading.len() < 120
            && (heading::name(&heading, gallon).is_some() || heading::is_water_depth(&heading, gallon))
        {
            score += 1.2;
        } else {
            let words = lexicon::tokens(heading::spaced(&heading, gallon).as_ref().unwrap_or(&heading));
            let meaning = lexicon::meaning(&words, lexicon::language(&words));
            let known = meaning.concepts.len();
            if known > 0 && heading.len() < 160 {
                // A heading is mostly words of the trade; a remark is mostly others.
                score += known as f64 / (known + meaning.unknown.len()) as f64;
            }
        }
    }
    if texts >= 2 || score > 1.0 { score } else { score.min(0.5) }
}

/// The row that looks most like headings; the first at all where none does.
pub fn find_row(rows: &Rows, rules: &ReadingRules) -> Option<usize> {
    let within = rows.len().min(WITHIN);
    let mut best = None;
    let mut most = 0.4;
    for row in 0..within {
        let score = likeness(rows, row, rules);
        if score > most + 1e-9 {
            most = score;
            best = Some(row);
        }
    }
    // One word such as "Depth" in a title does not make a heading when a row below it is wider.
    best.or_else(|| (0..within).find(|row| filled(rows, *row) >= 2)).or(if rows.is_empty() { None } else { Some(0) })
}

/// What notes say of a heading: the words after `heading =` or `heading:`, to the end of the sentence.
fn explained(heading: &str, notes: &[String]) -> String {
    let whole = explained_as(heading.trim(), notes);
    if !whole.is_empty() {
        return whole;
    }
    // `Luz (m)` is explained as `Luz = inner width`, `DTW Spr 25` as `DTW = depth to water`.
    let outer = heading.split(['(', '[']).next().filter(|outer| outer.len() < heading.len());
    let undated = dated_heading::without_date(heading);
    let shorter = outer.map(|outer| explained_as(outer.trim(), notes)).filter(|says| !says.is_empty());
    shorter.or_else(|| undated.map(|measured| explained_as(&measured, notes))).unwrap_or_default()
}

/// What notes say of these very words.
fn explained_as(wanted: &str, notes: &[String]) -> String {
    if wanted.is_empty() || wanted.chars().count() > 24 {
        return String::new();
    }
    let folded = lexicon::fold(wanted);
    for note in notes {
        let lower = lexicon::fold(note);
        let mut from = 0;
        while let Some(found) = lower.get(from..).and_then(|rest| rest.find(&folded)) {
            let (start, end) = (from + found, from + found + folded.len());
            from = end;
            let before = lower[..start].chars().next_back();
            // `TC by the static = taped off the casing` says what the mark means, not what the column is.
            if before.is_some_and(char::is_alphanumeric) || stands_beside(&lower[..start]) {
                continue;
            }
            let rest = lower[end..].trim_start();
            let Some(says) = rest.strip_prefix('=').or_else(|| rest.strip_prefix(": ")) else { continue };
            // `LEN_UOM applies to DPTH and LVL: F=feet M=metres` lists codes.
            if says.split_whitespace().next().is_some_and(|word| word.contains('=')) {
                continue;
            }
            let end = says.find(['.', ';', '\n']).unwrap_or(says.len());
            return says[..end].trim().to_owned();
        }
    }
    String::new()
}

/// Whether words end in those by which something stands beside what follows: `TC by the`, `an asterisk after`.
fn stands_beside(before: &str) -> bool {
    let before = before.trim_end();
    let before = before.strip_suffix(" the").unwrap_or(before);
    before.rsplit([' ', '.', ',', ';']).next().is_some_and(|word| notes::BESIDE.contains(&word))
}

/// Names with other words beside them on a sheet of two columns or three: `SWL | standing level`.
pub fn words_by_name(rows: &Rows) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let codes = legend::codes_of_table(rows);
    for row in 0..rows.len() {
        // `USE | D | Domestic` says what a code means, not what the column is.
        if codes.is_some_and(|(head, column)| row > head && !rows.cell(row, column).trim().is_empty()) {
            continue;
        }
        let cells: Vec<String> = (0..rows.width(row).min(6))
            .map(|column| tidy(rows.cell(row, column)))
            .filter(|cell| !cell.is_empty())
            .collect();
        if let [name, rest @ ..] = cells.as_slice()
            && (1..=4).contains(&rest.len())
            && name.chars().count() <= 24
            && plain(name).is_none()
        {
            // What stands beside the name says what it is; the rest says more of it.
            let says = match rest {
                [alias, more @ ..] if more.len() >= 2 => format!("{alias} ({})", more.join("; ")),
                _ => rest.join(" "),
            };
            found.push((heading::squash(name), says));
        }
    }
    found
}

/// The row of headings of a sheet that may be a list of wells or of anything else.
pub fn find_row_of_any(rows: &Rows, rules: &ReadingRules) -> Option<usize> {
    let within = rows.len().min(WITHIN);
    let best = (0..within).map(|row| likeness(rows, row, rules)).fold(0.0, f64::max);
    if best < 2.5 { (0..within).find(|row| filled(rows, *row) >= 2) } else { find_row(rows, rules) }
}

/// Names with a unit beside them, as a sheet of explanations has them: `TOT_DPTH | (ft) | finished depth`.
pub fn units_by_name(rows: &Rows) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for row in 0..rows.len() {
        let cells: Vec<String> = (0..rows.width(row).min(8))
            .map(|column| tidy(rows.cell(row, column)))
            .filter(|cell| !cell.is_empty())
            .collect();
        let [name, rest @ ..] = cells.as_slice() else { continue };
        let unit = rest.iter().take(2).find_map(|cell| {
            let inner = cell.trim_matches(['(', ')', '[', ']']).trim();
            let is_unit = super::notes::unit_of(&lexicon::tokens(inner), Some(Gallon::Us)).is_some();
            (is_unit && inner.split_whitespace().count() <= 5 && plain(inner).is_none()).then(|| inner.to_owned())
        });
        if let Some(unit) = unit {
            found.push((heading::squash(name), unit));
        }
    }
    found
}

/// The rows of groups directly above the headings, from the top down: each names at least two groups, in words.
fn group_rows(rows: &Rows, heading_row: usize) -> Vec<usize> {
    let mut found = Vec::new();
    let mut below = heading_row;
    while found.len() < MOST_GROUP_ROWS
        && let Some(above) = below.checked_sub(1)
        && rows.number(above) + 1 == rows.number(below)
    {
        let cells: Vec<String> = (0..rows.width(above)).map(|column| tidy(rows.cell(above, column))).collect();
        let words = cells.iter().filter(|cell| !cell.is_empty());
        // Questions of a survey are long, and there are many of them.
        let longest = if words.clone().count() >= FEWEST_QUESTIONS { LONGEST_QUESTION } else { LONGEST_GROUP };
        let sound = words.clone().all(|cell| plain(cell).is_none() && cell.len() <= longest);
        // A title says the same in one cell; a merged title in all of them.
        let different = {
            let mut texts: Vec<&String> = words.clone().collect();
            texts.dedup();
            texts.len()
        };
        if words.count() < 2 || different < 2 && !is_one_band(&cells) || !sound {
            break;
        }
        found.push(above);
        below = above;
    }
    found.reverse();
    found
}

/// Whether a row is one cell that was merged over some of the columns, with others to its left and right.
fn is_one_band(cells: &[String]) -> bool {
    let first = cells.iter().position(|cell| !cell.is_empty());
    let last = cells.iter().rposition(|cell| !cell.is_empty());
    let (Some(first), Some(last)) = (first, last) else { return false };
    first > 0 && last > first && cells[first..=last].iter().all(|cell| *cell == cells[first])
}

/// Whether the headings stand in two rows, of which the upper one names groups over some columns and headings over others:
/// `Farm | TAPE FROM TOP | | Flooded` above `| to bottom | to water |`.
fn goes_on_below(rows: &Rows, upper: usize) -> bool {
    let lower = upper + 1;
    if lower >= rows.len() || rows.number(upper) + 1 != rows.number(lower) {
        return false;
    }
    let (above, below) = (heading::cells(rows, upper), heading::cells(rows, lower));
    let at = |cells: &[String], column: usize| cells.get(column).map_or("", String::as_str).to_owned();
    let columns = above.len().max(below.len());
    let some =
        |fits: &dyn Fn(&str, &str) -> bool| (0..columns).any(|column| fits(&at(&above, column), &at(&below, column)));
    let filled: Vec<&String> = below.iter().filter(|cell| !cell.is_empty()).collect();
    let words = filled.iter().filter(|cell| {
        let meaning = lexicon::meaning(&lexicon::tokens(cell), Language::English);
        plain(cell).is_none() && !meaning.concepts.is_empty()
    });
    some(&|above, below| above.is_empty() && !below.is_empty())
        && some(&|above, below| !above.is_empty() && below.is_empty())
        && filled.len() >= 2
        && (words.count() * 10 >= filled.len() * 6 || fills_groups(&above, &below))
        && filled.iter().all(|cell| plain(cell).is_none())
}

/// Whether a row stands below groups and nowhere else: it fills each blank between the cells above, and what is left of the
/// blanks. A well would fill the columns that have a heading of their own.
fn fills_groups(above: &[String], below: &[String]) -> bool {
    const FEWEST_BLANKS: usize = 2;
    let at = |cells: &[String], column: usize| cells.get(column).is_some_and(|cell| !cell.is_empty());
    let mut blanks = 0;
    for column in 0..above.len().max(below.len()) {
        let blank = !at(above, column) && (0..column).any(|before| at(above, before));
        let of_group = blank || at(above, column) && column + 1 < below.len() && !at(above, column + 1);
        if at(below, column) != of_group {
            return false;
        }
        blanks += usize::from(blank);
    }
    blanks >= FEWEST_BLANKS
}

/// The groups above each heading. A group reaches to the right until the next one, or until a group above it ends.
fn groups(rows: &Rows, group_rows: &[usize], headings: &[String], heading_row: usize) -> Vec<String> {
    let mut groups = vec![String::new(); headings.len()];
    let mut starts = vec![false; headings.len()];
    for row in group_rows {
        let mut current = String::new();
        let mut merged = false;
        for (column, group) in groups.iter_mut().enumerate() {
            let cell = tidy(rows.cell(*row, column));
            if !cell.is_empty() {
                merged = cell == current;
                current = cell;
                starts[column] = true;
            } else if starts[column] || merged {
                current = String::new();
            }
            // What stands above a blank is that column's heading, not its group.
            let is_heading = tidy(rows.cell(heading_row, column)).is_empty() && headings[column] == current;
            if !current.is_empty() && !is_heading && !group.split(" > ").any(|part| part == current) {
                if !group.is_empty() {
                    group.push_str(" > ");
                }
                group.push_str(&current);
            }
        }
    }
    groups
}

/// A line of words in one or two cells: what people write above and below a table.
fn note(rows: &Rows, row: usize) -> Option<String> {
    let cells: Vec<String> =
        (0..rows.width(row)).map(|column| tidy(rows.cell(row, column))).filter(|cell| !cell.is_empty()).collect();
    let mut different = cells.clone();
    different.dedup();
    let text = different.join(": ");
    (different.len() <= 2 && text.len() >= 10 && text.split_whitespace().count() >= 3).then_some(text)
}

/// The cells of the row below the heading, if it holds units and little else: at least two, and no values.
fn unit_row(rows: &Rows, row: usize, headings: &[String], gallon: Option<Gallon>) -> Vec<String> {
    if row >= rows.len() || rows.width(row) == 0 {
        return Vec::new();
    }
    let gallon = gallon.or(Some(Gallon::Us));
    let (mut units, mut others) = (0, 0);
    let mut cells = Vec::new();
    for column in 0..rows.width(row).max(headings.len()) {
        let cell = tidy(rows.cell(row, column));
        if rows.kind(row, column) != CellKind::Text || plain(&cell).is_some() {
            return Vec::new();
        }
        let inner = cell.trim_matches(['(', ')', '[', ']']).trim().to_owned();
        if !inner.is_empty() {
            let exact = |field| matches!(heading::unit_below(&inner, field, gallon).0, HeadingUnit::Unit(_));
            let spoken = super::notes::unit_of(&lexicon::tokens(&inner), gallon).is_some();
            // `180 ft` is a size and no unit: such a row is a well.
            // `in above grade`
            let reaches = inner.split_once(' ').is_some_and(|(unit, rest)| {
                unit.eq_ignore_ascii_case("in") && ["above", "below", "from"].iter().any(|word| rest.starts_with(word))
            });
            let is_unit = !inner.starts_with(|c: char| c.is_ascii_digit())
                && (spoken || reaches || [Field::TotalDepth, Field::Iron, Field::WellYield].into_iter().any(exact));
            units += usize::from(is_unit && inner.len() <= 30);
            others += usize::from(!is_unit && (inner.len() > 12 || inner.chars().any(|c| c.is_ascii_digit())));
        }
        cells.push(inner);
    }
    // Beside three units and more, a word or two may stand over columns of other things: `our house no.`
    if units >= 2 && others == 0 || units >= 3 && others * 3 <= units { cells } else { Vec::new() }
}
