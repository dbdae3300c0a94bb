//! The groups that stand above headings.

use std::ops::Range;

use crate::inventory::dated_heading;
use crate::inventory::heading::tidy;
use crate::inventory::lexicon::{self, Concept};
use crate::inventory::notes;
use crate::inventory::rows::Rows;
use crate::quantity::parse::plain;

/// How many rows of groups may stand above the headings.
const MOST_GROUP_ROWS: usize = 3;

/// Letters of the name of a group, of a question over its answers, and how many questions make a survey.
const LONGEST_GROUP: usize = 60;
const LONGEST_QUESTION: usize = 200;
const FEWEST_QUESTIONS: usize = 4;

/// The rows of groups directly above the headings, from the top down: each names at least two groups, in words.
pub(super) fn group_rows(rows: &Rows, heading_row: usize) -> Vec<usize> {
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
        let alone = found.is_empty() && alone(rows, above, below).is_some();
        if words.count() < 2 && !alone || different < 2 && !alone && !is_one_band(&cells) || !sound || is_title(&cells)
        {
            break;
        }
        found.push(above);
        below = above;
    }
    found.reverse();
    found
}

/// Whether the cells of a row are a title that is spread over two or three of them: `Lake Association`, `wells that stood under
/// water in the high water of June`. A sentence that gives a unit or a reference says something of the columns below it.
fn is_title(cells: &[String]) -> bool {
    const WORDS: usize = 6;
    const CELLS: usize = 3;
    let told: Vec<&String> = cells.iter().filter(|cell| !cell.is_empty()).collect();
    let says = |cell: &str| {
        let words = lexicon::tokens(cell);
        words.len() < WORDS || !notes::stated(cell, lexicon::language(&words), None, &[]).is_empty()
    };
    cells.first().is_some_and(|first| !first.is_empty()) && told.len() <= CELLS && !told.iter().all(|cell| says(cell))
}

/// Whether a row is one cell that was merged over some of the columns, with others to its left and right.
fn is_one_band(cells: &[String]) -> bool {
    let first = cells.iter().position(|cell| !cell.is_empty());
    let last = cells.iter().rposition(|cell| !cell.is_empty());
    let (Some(first), Some(last)) = (first, last) else { return false };
    first > 0 && last > first && cells[first..=last].iter().all(|cell| *cell == cells[first])
}

/// Over which columns the only cell of a row stands: over dates, which say nothing alone, `Depth to water` over `11/12`, `2/20`;
/// or over bottom and water, where it says what they are counted from, `below pump base` over `Bottom`, `Water`.
fn alone(rows: &Rows, above: usize, heading_row: usize) -> Option<Range<usize>> {
    let mut filled = (0..rows.width(above)).filter(|column| !rows.cell(above, *column).trim().is_empty());
    let (first, None) = (filled.next()?, filled.next()) else { return None };
    let heading = |at: usize| tidy(rows.cell(heading_row, at));
    let dates = (first..rows.width(heading_row)).take_while(|at| dated_heading::is_date(&heading(*at))).count();
    let counted = if says_from_where(&tidy(rows.cell(above, first))) {
        (first..rows.width(heading_row)).take_while(|at| is_counted(&heading(*at))).count()
    } else {
        0
    };
    let end = first + dates.max(counted);
    (first > 0 && end >= first + 2).then_some(first..end)
}

/// How far a row of groups reaches whose last one stands over the same headings as the one before it: `Diam. | To` below
/// `UPPER CASING` and below `LOWER CASING`, then what belongs to neither.
fn alike(rows: &Rows, above: usize, heading_row: usize) -> Option<Range<usize>> {
    let starts: Vec<usize> =
        (0..rows.width(above)).filter(|column| !rows.cell(above, *column).trim().is_empty()).collect();
    let [.., before, last] = starts.as_slice() else { return None };
    let wide = last - before;
    let heading = |at: usize| tidy(rows.cell(heading_row, at)).to_lowercase();
    let is_alike = (0..wide).all(|at| !heading(before + at).is_empty() && heading(before + at) == heading(last + at));
    (wide > 1 && is_alike).then_some(0..last + wide)
}

/// Whether a band says what is counted from, or that what stands below it are depths: `below pump base`, `Feet down to`.
fn says_from_where(band: &str) -> bool {
    let words = lexicon::tokens(band);
    let language = lexicon::language(&words);
    let meaning = lexicon::meaning(&words, language);
    band.len() <= LONGEST_GROUP && (notes::datum(&words, &meaning).is_some() || meaning.concepts == [Concept::Depth])
}

/// Whether a heading is of something that is counted from the ground or the rim: a bottom, a level.
fn is_counted(heading: &str) -> bool {
    let words = lexicon::tokens(heading);
    let meaning = lexicon::meaning(&words, lexicon::language(&words));
    meaning.concepts.first().is_some_and(|concept| concept.is_counted_down())
}

/// The groups above each heading. A group reaches to the right until the next one, or until a group above it ends.
pub(super) fn groups(rows: &Rows, group_rows: &[usize], headings: &[String], heading_row: usize) -> Vec<String> {
    let mut groups = vec![String::new(); headings.len()];
    let mut starts = vec![false; headings.len()];
    for row in group_rows {
        let mut current = String::new();
        let mut merged = false;
        let over = alone(rows, *row, heading_row).or_else(|| alike(rows, *row, heading_row)).unwrap_or(0..usize::MAX);
        for (column, group) in groups.iter_mut().enumerate().filter(|(column, _)| over.contains(column)) {
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
