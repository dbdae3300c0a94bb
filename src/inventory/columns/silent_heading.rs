//! The unit of a column whose heading has none.

use super::evidence::Reading;
use super::statements::Statements;
use super::units::{self, Settled, Source, Trust};
use super::{Feed, Planner, is_diameter};
use crate::field::rules::UnitSystem;
use crate::field::{Field, WellType};
use crate::finding::catalogue;
use crate::inventory::lexicon::Language;
use crate::quantity::unit::{Dimension, Unit};

impl Planner<'_> {
    /// The unit of a column whose heading has none.
    pub(super) fn silent_heading(
        &mut self,
        feed: &mut Feed,
        claim: &Reading,
        statements: Statements,
        known: &[(Field, &'static Unit, String)],
        written_in_cells: bool,
    ) {
        let (field, column) = (claim.named.field, claim.column);
        let Some(quantity) = field.quantity() else { return };
        if quantity.default_units.is_none() || quantity.dimension != Dimension::Length {
            feed.unit = self.default_unit(field, column, written_in_cells);
            feed.unit_stated = quantity.default_units.is_none();
            return;
        }
        if let (Some(unit), None) = (self.unit_of_part(field, column), &statements.unit) {
            feed.unit = Some(unit);
            return;
        }
        let profile = &self.profiles[column];
        let by_system = units::of_system(field, self.rules);
        let typed = self.typed_values(column);
        let by_cells = units::by_cells(field, profile, &typed);
        if let Some(Settled { unit, source: Source::Heading }) = &statements.unit {
            feed.unit = Some(unit);
            return;
        }
        if statements.unit.is_none() && statements.by_type.is_empty() {
            let depths = known.iter().find(|(of, ..)| !is_diameter(*of)).map(|(_, unit, _)| customary(unit));
            let system = self.rules.system.map(|system| system != UnitSystem::Metric);
            let language = (self.table.layout.language != Language::English).then_some(false);
            let by_type = units::by_type(field, &typed, depths.or(system).or(language));
            if !by_type.is_empty() {
                self.units_by_type(field, column, &by_type);
                feed.unit_of_type = by_type;
                feed.unit_stated = true;
                return;
            }
        }
        let values = units::by_values(field, profile, &typed);
        let settled = statements.unit.or_else(|| {
            if let (Some(cells), Some(system)) = (&by_cells, by_system)
                && !same_measure(cells.unit, system)
                && !profile.numbers.is_empty()
            {
                return None;
            }
            by_cells
                .clone()
                .or(values)
                .or_else(|| {
                    // A declared system is obeyed: casings in inches go with depths in meters in many a country.
                    let counts =
                        |of: Field| of != field && (by_system.is_none() || is_diameter(of) == is_diameter(field));
                    let others: Vec<_> = known.iter().filter(|(of, ..)| counts(*of)).cloned().collect();
                    units::by_neighbors(field, profile, &others)
                })
                .or_else(|| {
                    units::by_language(field, profile, self.table.layout.language).filter(|_| by_system.is_none())
                })
        });
        // Types with a unit of their own say nothing of the others' unit.
        let own = |well_type: &WellType| feed.unit_of_type.iter().any(|(of, _)| of == well_type);
        let bare: Vec<_> = typed.iter().filter(|(well_type, _)| !own(well_type)).copied().collect();
        // What is said beside the column, or of the whole list, holds where the values bear it out.
        let beside = settled
            .as_ref()
            .filter(|settled| matches!(settled.source, Source::Note(_) | Source::Beside(_) | Source::Language(_)));
        let by_list = by_system.filter(|_| settled.is_none() && by_cells.is_none());
        let settled = match beside
            .map(|settled| settled.unit)
            .or(by_list)
            .map(|unit| (unit, units::trust(field, profile, &bare, unit)))
        {
            Some((_, Trust::Instead(instead))) => Some(instead),
            Some((unit, Trust::Open)) if settled.is_some() => {
                let says = format!(
                    "the heading gives no unit, and in {}, as is said beside it, hardly any value would be usual for its type of well; it is not read",
                    unit.symbol
                );
                let help = format!("[inventory.units] {} = \"{}\" (or the correct unit)", field.name(), unit.symbol);
                self.say(catalogue::NO_UNIT, Some(column), says, help);
                return;
            }
            _ => settled,
        };
        match (settled, by_system) {
            (Some(settled), system) => {
                feed.unit = Some(settled.unit);
                feed.unit_stated = true;
                let expected = system.is_some_and(|system| std::ptr::eq(system, settled.unit));
                if !expected || matches!(settled.source, Source::Note(_)) {
                    self.unit_by_evidence(field, column, &settled);
                } else {
                    self.default_unit(field, column, written_in_cells);
                    // Where the cells write their units, nothing was said of the column: each that does not is said.
                    feed.unit_unsaid = written_in_cells;
                }
            }
            (None, Some(_)) if by_cells.is_some() && !written_in_cells => {
                if let Some(cells) = by_cells {
                    self.unit_disputed(field, column, &cells);
                }
                feed.unit_stated = false;
            }
            (None, _) => {
                feed.unit = self.default_unit(field, column, written_in_cells);
                feed.unit_stated = false;
            }
        }
    }
}

/// Whether two units belong to one way of measuring.
fn same_measure(one: &Unit, other: &Unit) -> bool {
    customary(one) == customary(other)
}

/// Whether a unit belongs to feet and inches.
fn customary(unit: &Unit) -> bool {
    matches!(unit.symbol, "ft" | "in" | "yd" | "mil")
}
