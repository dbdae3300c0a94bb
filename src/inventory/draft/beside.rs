//! What stands in the column beside a value, as its unit or its sign, and changes how it is read.

use super::super::cell::{Datum, Said, is_aside, same_family};
use super::super::columns::Feed;
use super::super::unit_columns::{Qualifier, UnitWritten};
use super::Draft;
use crate::field::Field;
use crate::field::species::Species;
use crate::finding::{Code, catalogue};
use crate::place::Place;
use crate::quantity::format::quantity;
use crate::quantity::parse::Reference;

impl Draft {
    /// Shows the sign beside a value with what was said because of it, from the finding `said` on; a word that is not a sign
    /// that is known is said too.
    pub(super) fn qualified(&mut self, field: Field, feed: &Feed, qualifier: &str, said: usize) {
        let Some(column) = feed.qualifier_column.and_then(|at| self.table.plan.columns.get(at)) else { return };
        if qualifier.is_empty() || self.table.cells.is_missing(qualifier) && Qualifier::of(qualifier).is_none() {
            return;
        }
        let place = Place::cell(self.origin(), self.row(), column);
        let beside = (place, format!("{} = \"{qualifier}\"", column.heading).into());
        if Qualifier::of(qualifier).is_none() && self.number(field).is_some() {
            let says = format!("\"{qualifier}\", beside it, is not a recognized sign; the number is read as it stands");
            self.say(catalogue::REMARK_AFTER_NUMBER, field, says, "no action needed if correct");
        }
        for finding in &mut self.findings[said..] {
            finding.related.push(beside.clone());
        }
    }

    /// What a unit beside a value changes of what the heading says.
    pub(super) fn unit_beside(&mut self, field: Field, feed: &Feed, beside: &UnitWritten) {
        if let Some(column) = feed.unit.filter(|column| feed.unit_in_heading && !same_family(column, beside.unit))
            && !std::ptr::eq(column, beside.unit)
        {
            let says = format!(
                "the unit beside it says {}, the heading {}; the one beside it counts",
                beside.unit.symbol, column.symbol
            );
            self.say(catalogue::UNIT_DIFFERS_FROM_COLUMN, field, says, "no action needed if correct");
        }
        if beside.from_top && field == Field::StaticWaterLevel {
            self.keep_said(field, Said { from: Some(Reference::Top), ..Said::default() });
        }
    }

    /// A unit beside a value that cannot be read; what has no part in the dose does not keep a well from being treated.
    pub(super) fn unit_beside_unread(&mut self, slot: usize, field: Field, code: Code, says: &str) {
        if is_aside(field) {
            let says = format!("{says}; {} is left blank", field.name());
            let help = "write the unit in other words, or leave the cells blank";
            self.say(catalogue::ASIDE_NOT_UNDERSTOOD, field, says, help);
            return;
        }
        self.data[slot] = Datum::Unread;
        self.say(code, field, says.to_owned(), "write the unit as in ft, m, in, mm");
    }

    pub(super) fn say_counted_as(&mut self, field: Field, species: &'static Species, column: Option<&'static Species>) {
        let converts = |species: &Species| species.factor != 1.0;
        if let (Some(si), true) = (self.number(field), converts(species) || column.is_some_and(converts)) {
            let read = self.shown_unit(field).map_or_else(String::new, |unit| quantity(si, unit, 4));
            let says = format!("counted as {}; read as {read} as {}", species.symbol, species.of_field());
            self.say(catalogue::SPECIES_CONVERTED, field, says, "no action needed if correct");
        }
    }
}
