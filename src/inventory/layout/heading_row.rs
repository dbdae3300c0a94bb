//! The row of a sheet that holds the headings.

use crate::field::rules::{ReadingRules, UnitSystem};
use crate::inventory::heading::{self, tidy};
use crate::inventory::lexicon::{self, Language};
use crate::inventory::rows::{CellKind, Rows};
use crate::quantity::parse::plain;
use crate::quantity::unit::{self, Dimension, Meaning};

/// How many rows at the top of a table are looked at for the heading.
const WITHIN: usize = 40;

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

/// The row of headings of a sheet that may be a list of wells or of anything else.
pub fn find_row_of_any(rows: &Rows, rules: &ReadingRules) -> Option<usize> {
    let within = rows.len().min(WITHIN);
    let best = (0..within).map(|row| likeness(rows, row, rules)).fold(0.0, f64::max);
    if best < 2.5 { (0..within).find(|row| filled(rows, *row) >= 2) } else { find_row(rows, rules) }
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

/// How many cells of a row hold anything.
fn filled(rows: &Rows, row: usize) -> usize {
    (0..rows.width(row)).filter(|column| !rows.cell(row, *column).trim().is_empty()).count()
}

/// Whether the headings stand in two rows, of which the upper one names groups over some columns and headings over others:
/// `Farm | TAPE FROM TOP | | Flooded` above `| to bottom | to water |`.
pub(super) fn goes_on_below(rows: &Rows, upper: usize) -> bool {
    let lower = upper + 1;
    if lower >= rows.len() || rows.number(upper) + 1 != rows.number(lower) {
        return false;
    }
    let (above, below) = (heading::cells(rows, upper), heading::cells(rows, lower));
    if units_below_bands(&above, &below) {
        return true;
    }
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

/// Whether the upper row names bands and the lower one what stands below them, some of it by its unit alone: `| | DEPTH | |` above
/// `Tag | Kind | ft | in`. What stands left of the first band has a heading in the lower row alone.
fn units_below_bands(above: &[String], below: &[String]) -> bool {
    const FEWEST: usize = 2;
    let first = |cells: &[String]| cells.iter().position(|cell| !cell.is_empty());
    let (Some(band), Some(left)) = (first(above), first(below)) else { return false };
    let is_unit = |cell: &&String| matches!(unit::look_up(cell.trim_end_matches('.'), None), Some(Meaning::Unit(unit)) if unit.dimension == Dimension::Length);
    let words = below.iter().filter(|cell| !cell.is_empty());
    left < band
        && words.clone().filter(is_unit).count() >= FEWEST
        && words.clone().all(|cell| plain(cell).is_none())
        && below[left..band].iter().all(|cell| !cell.is_empty() && !is_unit(&cell))
        && above[band..].iter().zip(&below[band..]).all(|(band, cell)| band.is_empty() || !cell.is_empty())
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
