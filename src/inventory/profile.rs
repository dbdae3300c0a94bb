//! What the cells of a column are: numbers of which size, units written in them, words of a vocabulary, dates, names.
//!
//! Gathered once a column from the sample of a table; evidence for what the column is and in which unit.

use std::collections::{HashMap, HashSet};

use foldhash::fast::FixedState;

use super::cell::{CellRules, ColumnUnit, Datum, Form, Understood};
use super::dates;
use super::notes::OwnUnit;
use super::rows::CellKind;
use super::table::Opened;
use crate::field::Field;
use crate::quantity::parse::{self, Comma, plain, plain_or_comma};
use crate::quantity::unit::{Dimension, Gallon, Unit, by_symbol};

/// What a column's cells are.
#[derive(Debug, Clone, Default)]
pub struct Profile {
    /// Cells that hold anything but a word for "not known".
    pub filled: usize,
    /// Bare numbers, as written.
    pub numbers: Vec<f64>,
    /// Lengths with their own unit, in metres, and that unit.
    pub lengths: Vec<(f64, &'static Unit)>,
    /// Cells that are flows or volumes with their own unit.
    pub other_quantities: usize,
    /// Cells of several numbers that describe one size: `4 x 6`, `10 in. to 38 ft`.
    pub sizes: usize,
    /// Cells that are a nominal size: `DN 100`.
    pub nominal: usize,
    /// Those of them that are strings of casing, each to its depth.
    pub strings: usize,
    /// Cells that read as a date or a time of day.
    pub dates: usize,
    /// Cells that read as a type of well.
    pub types: usize,
    /// Different types among them.
    pub different_types: usize,
    /// Cells that read as a route of the flushed water.
    pub routes: usize,
    /// Cells that read as yes or no.
    pub flags: usize,
    /// Texts that differ from all others of the column.
    pub distinct: usize,
    /// Words in all cells.
    pub words: usize,
    /// Numbers that have decimals.
    pub decimals: usize,
    /// The cells count up by one.
    pub counts_up: bool,
}

impl Profile {
    /// The share of filled cells.
    pub fn share(&self, count: usize) -> f64 {
        if self.filled == 0 { 0.0 } else { count as f64 / self.filled as f64 }
    }

    /// Cells that are lengths, bare or with a unit.
    pub fn measures(&self) -> usize {
        self.numbers.len() + self.lengths.len() + self.sizes
    }

    /// How many words a filled cell has on the average.
    pub fn words_a_cell(&self) -> f64 {
        if self.filled == 0 { 0.0 } else { self.words as f64 / self.filled as f64 }
    }

    /// The share of the bare numbers that lie between these, in SI, if they are in this unit.
    pub fn within(&self, unit: &Unit, (low, high): (f64, f64)) -> f64 {
        if self.numbers.is_empty() {
            return 0.0;
        }
        let inside = |number: &&f64| (low * 0.999..=high * 1.001).contains(&unit.to_si(**number));
        self.numbers.iter().filter(inside).count() as f64 / self.numbers.len() as f64
    }

    /// The same of those that are not zero: an export may write a nought where there is nothing.
    pub fn filled_within(&self, unit: &Unit, (low, high): (f64, f64)) -> f64 {
        let filled = || self.numbers.iter().filter(|number| **number != 0.0);
        let inside = |number: &&f64| (low * 0.999..=high * 1.001).contains(&unit.to_si(**number));
        filled().filter(inside).count() as f64 / filled().count().max(1) as f64
    }

    /// Whether most of the bare numbers have a minus sign.
    pub fn is_mostly_negative(&self) -> bool {
        self.negative() * 2 > self.numbers.len()
    }

    /// Bare numbers with a minus sign.
    pub fn negative(&self) -> usize {
        self.numbers.iter().filter(|number| **number < 0.0).count()
    }

    /// The unit that most cells write, and how many of those with a unit write it.
    pub fn written_unit(&self) -> Option<(&'static Unit, usize)> {
        most_written(self.lengths.iter().map(|(_, unit)| *unit))
    }
}

/// The unit that stands most often among these, and how often.
pub fn most_written(units: impl Iterator<Item = &'static Unit>) -> Option<(&'static Unit, usize)> {
    let mut counts: Vec<(&'static Unit, usize)> = Vec::new();
    for unit in units {
        match counts.iter_mut().find(|(known, _)| std::ptr::eq(*known, unit)) {
            Some((_, count)) => *count += 1,
            None => counts.push((unit, 1)),
        }
    }
    counts.into_iter().max_by(|a, b| a.1.cmp(&b.1).then(b.0.symbol.cmp(a.0.symbol)))
}

/// Profiles of every column of a table, from its sample.
pub fn profiles(
    table: &Opened,
    columns: usize,
    cells: &CellRules,
    gallon: Option<Gallon>,
    own: &[OwnUnit],
) -> Vec<Profile> {
    let rows = &table.sample;
    let body: Vec<usize> = (table.first_row..rows.len()).filter(|row| rows.filled(*row).count() >= 2).collect();
    (0..columns).map(|column| profile(table, &body, column, cells, gallon, own)).collect()
}

fn profile(
    table: &Opened,
    body: &[usize],
    column: usize,
    cells: &CellRules,
    gallon: Option<Gallon>,
    own: &[OwnUnit],
) -> Profile {
    let (rows, comma) = (&table.sample, table.comma);
    let heading = table.headings.get(column).map_or("", String::as_str);
    let sheet = table.origin.sheet.as_deref().unwrap_or_default();
    let coded = table.legend.explains(sheet, heading);
    let mut profile = Profile::default();
    let mut texts: HashSet<String, FixedState> = HashSet::default();
    let mut types: HashSet<u8, FixedState> = HashSet::default();
    let mut read_as: HashMap<&str, [Datum; 3], FixedState> = HashMap::default();
    let mut last: Option<f64> = None;
    let (mut steps, mut pairs) = (0, 0);
    for row in body {
        let text = rows.cell(*row, column).trim();
        if text.is_empty() || cells.is_missing(text) {
            continue;
        }
        // A code counts as what the file says that it means, also where it is a number.
        if coded && let Some(meant) = table.legend.meaning(sheet, heading, text) {
            let read = |field| cells.read(field, meant, CellKind::Text, Default::default(), comma).datum;
            let (well_type, route) = (read(Field::WellType), read(Field::DischargeRoute));
            let says = [&well_type, &route].into_iter().any(|datum| matches!(datum, Datum::Choice(_)));
            profile.filled += usize::from(says || !cells.is_missing(meant));
            profile.types += usize::from(matches!(well_type, Datum::Choice(_)));
            profile.routes += usize::from(matches!(route, Datum::Choice(_)));
            profile.flags += usize::from(matches!(read(Field::Flooded), Datum::Flag(_)));
            if let Ok(size) = parse::quantity_with(meant, Dimension::Length, None, gallon, comma) {
                profile.lengths.push((size.si, size.unit));
            }
            texts.insert(text.to_lowercase());
            continue;
        }
        profile.filled += 1;
        profile.words += text.split_whitespace().count();
        texts.insert(text.to_lowercase());
        if rows.kind(*row, column) == CellKind::Date {
            profile.dates += 1;
            continue;
        }
        // A code counts as what the file says that it means, a number too where the codes are those of the column.
        let coded = table.legend.meaning(sheet, heading, text);
        let is_code = coded.is_some() && table.legend.explains(sheet, heading);
        if let Some(number) = plain_or_comma(text).or_else(|| mixed(text)).filter(|_| !is_code) {
            profile.numbers.push(number);
            profile.decimals += usize::from(number.fract() != 0.0);
            if let Some(before) = last {
                pairs += 1;
                steps += usize::from(number - before == 1.0);
            }
            last = Some(number);
            profile.flags += usize::from(number == 0.0 || number == 1.0);
            continue;
        }
        if let Some((count, unit)) = own.iter().find_map(|unit| Some((unit.count(text)?, unit.unit))) {
            profile.lengths.push((unit.to_si(count), unit));
            continue;
        }
        if dates::is_day_or_moment(text) {
            profile.dates += 1;
            continue;
        }
        if has_figure(text) && !is_code {
            profile.nominal += usize::from(parse::nominal_bore(text).is_some());
            measured(text, comma, gallon, cells, &mut profile);
        }
        let meant = coded.unwrap_or(text);
        // Columns of words repeat them.
        let [well_type, route, flooded] = *read_as.entry(meant).or_insert_with(|| {
            [Field::WellType, Field::DischargeRoute, Field::Flooded]
                .map(|field| cells.read(field, meant, CellKind::Text, Default::default(), comma).datum)
        });
        if let Datum::Choice(at) = well_type {
            profile.types += 1;
            types.insert(at);
        }
        profile.routes += usize::from(matches!(route, Datum::Choice(_)));
        profile.flags += usize::from(matches!(flooded, Datum::Flag(_)));
    }
    profile.distinct = texts.len();
    profile.different_types = types.len();
    profile.counts_up = pairs >= 4 && steps * 10 >= pairs * 8;
    profile
}

/// `1 1/2`, `6-5/8`: a size with its part of an inch.
fn mixed(text: &str) -> Option<f64> {
    const PARTS: [&str; 5] = ["2", "4", "8", "16", "32"];
    let (whole, part) = text.split_once([' ', '-'])?;
    let (top, bottom) = part.split_once('/').filter(|(_, bottom)| PARTS.contains(bottom))?;
    let (whole, top, bottom) = (plain(whole)?, plain(top)?, plain(bottom)?);
    (whole >= 1.0 && whole.fract() == 0.0 && top >= 1.0 && top < bottom).then_some(whole + top / bottom)
}

fn has_figure(text: &str) -> bool {
    text.bytes().any(|byte| byte.is_ascii_digit())
}

/// What a cell with a figure and more measures.
fn measured(text: &str, comma: Comma, gallon: Option<Gallon>, cells: &CellRules, profile: &mut Profile) {
    let numbers = text.split(|c: char| !c.is_ascii_digit()).filter(|part| !part.is_empty()).count();
    let read = (numbers > 1).then(|| across(text, comma, cells));
    if matches!(read.as_ref().and_then(form), Some(Form::Strings(_))) {
        profile.strings += 1;
        profile.sizes += 1;
        return;
    }
    let foot = by_symbol("ft");
    match parse::quantity_with(text, Dimension::Length, foot, gallon, comma) {
        Ok(reading) if reading.unit_was_written => profile.lengths.push((reading.si, reading.unit)),
        Ok(_) => {
            if let Some(number) = first_number(text) {
                profile.numbers.push(number);
            }
        }
        Err(_) => {
            let flow = parse::quantity_with(text, Dimension::Flow, None, Some(Gallon::Us), comma).is_ok();
            let volume = parse::quantity_with(text, Dimension::Volume, None, Some(Gallon::Us), comma).is_ok();
            let sized = || {
                let read = across(text, comma, cells);
                matches!(read.datum, Datum::Number(_)) || form(&read).is_some()
            };
            if flow || volume {
                profile.other_quantities += 1;
            } else if is_size(text, numbers) || sized() {
                profile.sizes += 1;
            }
        }
    }
}

/// `Ø100`, `6 inch I think`, `about a yard across`: a size, or strings of casing, by the reader of cells.
fn across(text: &str, comma: Comma, cells: &CellRules) -> Understood {
    let column = ColumnUnit { unit: by_symbol("in"), stated: false };
    cells.read(Field::CasingDiameter, text, CellKind::Text, column, comma)
}

/// What a cell says instead of one number.
fn form(read: &Understood) -> Option<&Form> {
    read.said.as_ref()?.form.as_ref()
}

fn first_number(text: &str) -> Option<f64> {
    let start = text.find(|c: char| c.is_ascii_digit())?;
    let end = text[start..].find(|c: char| !c.is_ascii_digit() && c != '.').map_or(text.len(), |end| start + end);
    plain(text[start..end].trim_end_matches('.'))
}

/// Words of a pump and what it gives.
const PUMPS: [&str; 8] = ["sub", "jet", "hp", "pump", "gpm", "psi", "bomba", "pompe"];

/// `4 x 6 ft`, `10 in. to 38 ft, 8 in. below`, `6-5/8 OD x .188`: begins with a figure and has another.
fn is_size(text: &str, numbers: usize) -> bool {
    let begins = text.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    // `555-0142`: a telephone.
    let figures = text.bytes().filter(u8::is_ascii_digit).count();
    let telephone = figures >= 7 && text.bytes().all(|byte| byte.is_ascii_digit() || b" -.()".contains(&byte));
    // `5883 Old Tanner Rd`: a house.
    let words = text.split(|c: char| !c.is_alphabetic()).filter(|word| word.len() > 3).count();
    // `1/2 sub @ 132, 1" poly`: a pump.
    let pump = text.to_lowercase().split(|c: char| !c.is_alphabetic()).any(|word| PUMPS.contains(&word));
    let house = numbers == 1 && words > 0 && !parse::unit_is_written(text);
    begins && !telephone && !house && !pump && (1..=12).contains(&numbers) && text.len() <= 80
}
