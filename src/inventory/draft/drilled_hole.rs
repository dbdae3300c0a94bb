//! The hole that was drilled for a casing: wider than the casing, and no hole that water stands in.

use super::super::cell::{Datum, Form};
use super::Draft;
use crate::field::{Field, WellType};
use crate::finding::catalogue;
use crate::quantity::format;
use crate::quantity::parse::plain;
use crate::quantity::unit::by_symbol;

const HOLE: Field = Field::OpenHoleDiameter;
const ACROSS: Field = Field::CasingDiameter;

/// A hole below a casing is no wider than the casing that the bit went through, but for nominal sizes. Common practice, no
/// source.
const WIDER: f64 = 1.05;

/// A casing is not set into a hole more than so many times as wide: then one of the two is wrong. No source.
const TOO_WIDE: f64 = 3.0;

/// Casing of a wide well fills so much of its hole at least. No source.
const FILLS: f64 = 0.5;

impl Draft {
    /// Asks about a bare 3 in a column of inches, where the hole of a wide well is 36 inches: feet are likelier.
    fn casing_in_feet(&mut self, hole: f64) {
        let wide = matches!(self.type_of_row(), Some(WellType::Bored | WellType::Dug));
        let (Some(bare), Some(column), Some(foot)) =
            (plain(self.in_cell(ACROSS)), self.unit_of_bare(ACROSS), by_symbol("ft"))
        else {
            return;
        };
        let feet = foot.to_si(bare);
        if !wide || column.symbol != "in" || !(FILLS * hole..=WIDER * hole).contains(&feet) {
            return;
        }
        let (written, meant) = (format::quantity(column.to_si(bare), column, 4), format::quantity(feet, foot, 4));
        let says = format!(
            "{written} is far narrower than the hole of {}, and {meant} would fill it: one of the two is meant",
            format::quantity(hole, column, 4)
        );
        let help = format!("write the unit with the value: {written} or {meant}");
        let finding = self.finding(catalogue::UNIT_IN_DOUBT, ACROSS, says, help);
        self.findings.push(finding.suggesting(Some(meant)));
        self.refuse(ACROSS);
    }

    /// Passes over a hole that is wider than the casing in it, where the heading does not call it open: the water stands in
    /// the casing.
    pub(super) fn hole_for_the_casing(&mut self) {
        if !self.table.plan.hole_is_drilled {
            return;
        }
        let casing = match self.form(ACROSS) {
            Some(Form::Strings(pieces)) => pieces.iter().map(|piece| piece.diameter).reduce(f64::max),
            _ => self.number(ACROSS),
        };
        let (Some(hole), Some(casing)) = (self.number(HOLE), casing) else { return };
        if hole > casing * TOO_WIDE {
            self.casing_in_feet(hole);
            return;
        }
        if hole <= casing * WIDER {
            return;
        }
        let unit = self.table.plan.feeds[HOLE as usize].as_ref().and_then(|feed| feed.unit);
        let shown = |si: f64| match unit {
            Some(unit) => format::quantity(si, unit, 4),
            None => format!("{} m", format::number(si, 4)),
        };
        let says = format!(
            "a hole of {} is wider than the casing of {} in it: it was drilled for the casing, and water stands in the casing",
            shown(hole),
            shown(casing)
        );
        self.say(
            catalogue::OPEN_HOLE_WIDER,
            HOLE,
            says,
            "no action needed if correct; a hole that is open below the casing: write open_hole_diameter in the heading",
        );
        self.set(HOLE, Datum::Missing);
    }
}
