//! A cell in the words that the reader of sizes knows, where the list writes in its own way.

use super::super::columns::{Feed, feet_and_inches, unlettered};
use super::super::heading::Datum as CountedFrom;
use super::Draft;
use crate::field::{FIELDS, Field};
use crate::finding::catalogue;
use crate::quantity::format::number;
use crate::quantity::parse::plain;
use crate::quantity::unit::Dimension;

/// A cell in the words that the reader of sizes knows, where the list writes in its own way.
pub(super) fn rewritten(feed: &Feed, text: &str) -> Option<String> {
    let lettered = || unlettered(text).filter(|_| feed.lettered).map(str::to_owned);
    unhyphened(feed, text).or_else(|| above(feed, text)).or_else(|| gallons(feed, text)).or_else(lettered)
}

/// `62.3 gal` with the gallon that the list means, where that is known of the column.
fn gallons(feed: &Feed, text: &str) -> Option<String> {
    const BARE: [&str; 4] = ["gal", "gals", "gallon", "gallons"];
    let symbol = feed.unit.map(|unit| unit.symbol).filter(|symbol| symbol.ends_with(" gal"))?;
    let start = text.find(|c: char| c.is_alphabetic())?;
    let (number, unit) = text.split_at(start);
    let is_bare = BARE.iter().any(|bare| unit.trim_end_matches('.').eq_ignore_ascii_case(bare));
    is_bare.then(|| format!("{} {symbol}", number.trim_end()))
}

/// `24-6` as `24 ft 6 in`, where hyphens join feet and inches in the column.
fn unhyphened(feed: &Feed, text: &str) -> Option<String> {
    let (feet, inches) = feed.feet_hyphen_inches.then(|| feet_and_inches(text)).flatten()?;
    Some(format!("{feet} ft {inches} in"))
}

/// `+2.5` as so much above what the level is counted from, where the list says that this is what a plus sign means.
fn above(feed: &Feed, text: &str) -> Option<String> {
    let number = text.strip_prefix('+').filter(|_| feed.level.plus_is_above)?.trim();
    plain(number).is_some().then(|| format!("-{number}"))
}

/// `4,10 d/b` without the mark that a note explains, and what it says.
pub(super) fn marked<'a>(feed: &Feed, text: &'a str) -> Option<(&'a str, CountedFrom)> {
    let plain = text.trim_end_matches(')');
    feed.level.marks.iter().find_map(|(mark, datum)| {
        let start = plain.len().checked_sub(mark.len())?;
        let ends = plain.get(start..).is_some_and(|end| end.eq_ignore_ascii_case(mark));
        ends.then(|| (plain[..start].trim_end_matches([' ', '(']), *datum))
    })
}

impl Draft {
    /// `8 anéis` in the unit in which a note of the list gives the length of one, which is said.
    pub(super) fn in_own_unit(&mut self, field: Field, text: &str) -> Option<String> {
        if !field.quantity().is_some_and(|quantity| quantity.dimension == Dimension::Length) {
            return None;
        }
        let units = &self.table.plan.own_units;
        let (value, unit) = units.iter().find_map(|unit| Some((unit.count(text)?, unit)))?;
        let plan = &self.table.plan;
        let is_remark = |column: &usize| {
            let fed = FIELDS.iter().zip(&plan.feeds);
            // `poço de anel` is a kind of well, and no remark.
            let fed = fed.filter(|(one, _)| one.field.quantity().is_some() || one.field == Field::WellType);
            !fed.filter_map(|(_, feed)| feed.as_ref()).any(|feed| feed.columns().any(|of| of == *column))
        };
        let columns = (0..plan.columns.len()).filter(is_remark);
        let mut remarks = columns.map(|column| self.cell(column));
        if remarks.any(|remark| unit.is_spoken_of(remark)) {
            return None; // Asked: the size may be another one here.
        }
        let written = format!("{} {}", number(value, 6), unit.unit.symbol);
        let says = format!("read as {written}: the list says \"{}\"", unit.says);
        self.say(catalogue::OWN_UNIT, field, says, "no action needed if correct");
        Some(written)
    }
}
