//! The columns of parts that descriptions of whole wells are cut into.

use super::{Feed, Planner, is_diameter, map_line};
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::description::{self, Described};
use crate::inventory::profile::most_written;
use crate::quantity::unit::Unit;

impl Planner<'_> {
    /// Whether a column is a part of the descriptions of another.
    pub(super) fn is_part(&self, column: usize) -> bool {
        self.table.described.is_some_and(|described| described.is_part(column))
    }

    /// The unit that nearly all descriptions write for lengths of a kind: that of their bare numbers too.
    pub(super) fn unit_of_part(&self, field: Field, column: usize) -> Option<&'static Unit> {
        const FEWEST: usize = 3;
        let first = self.table.described.filter(|described| described.is_part(column))?.first;
        let across = is_diameter(field);
        let alike = description::FIELDS.iter().enumerate().filter(|(_, (of, _))| is_diameter(*of) == across);
        let units: Vec<&'static Unit> =
            alike.flat_map(|(at, _)| self.profiles[first + at].lengths.iter().map(|(_, unit)| *unit)).collect();
        let (unit, agree) = most_written(units.iter().copied())?;
        (agree >= FEWEST && agree * 10 >= units.len() * 9).then_some(unit)
    }

    /// Says that a column describes whole wells, and what is read of it.
    pub(super) fn say_described(&mut self, feeds: &[Option<Feed>]) {
        let Some(described) = self.table.described else { return };
        let parts = feeds.iter().flatten().filter(|feed| described.is_part(feed.column)).filter_map(|feed| {
            let (_, part) = description::FIELDS.get(feed.column - described.first)?;
            let unit = feed.unit.filter(|unit| !unit.symbol.is_empty());
            Some(unit.map_or((*part).to_owned(), |unit| format!("{part} (bare numbers in {})", unit.symbol)))
        });
        let parts: Vec<String> = parts.collect();
        if parts.is_empty() {
            return;
        }
        let Described { cells, understood, column, .. } = described;
        let parts = parts.join(", ");
        let says = if described.is_in_order() {
            format!(
                "{understood} of the first {cells} cells give several measures in the order of the heading: {parts}"
            )
        } else {
            format!("{understood} of the first {cells} cells describe a whole well; read from their words: {parts}")
        };
        let help = format!("no action needed if correct; else {}", map_line(&self.columns[column].heading, ""));
        self.say(catalogue::DESCRIPTIONS_READ, Some(column), says, help);
    }
}
