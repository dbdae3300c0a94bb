//! The unit that a column is read in.

use std::sync::Arc;

use super::assignment::Assignment;
use super::evidence::{LIKELY, Reading};
use super::statements::{Statements, statements};
use super::units::{Settled, Source};
use super::{Feed, Planner, is_diameter, map_line, units};
use crate::field::rules::UnitSystem;
use crate::field::{Field, Kind};
use crate::finding::catalogue;
use crate::inventory::heading::{self, Datum as CountedFrom, HeadingUnit};
use crate::quantity::unit::{self, Dimension, Meaning, Unit};

impl Planner<'_> {
    /// Units that headings, groups and notes state outright, of the lengths of the table.
    pub(super) fn stated_units(&self, assignment: &Assignment) -> Vec<(Field, &'static Unit, String)> {
        let mut known = Vec::new();
        for reading in assignment.chosen.iter().flatten() {
            let field = reading.named.field;
            let is_length = field.quantity().is_some_and(|quantity| quantity.dimension == Dimension::Length);
            if !is_length || reading.score < LIKELY {
                continue;
            }
            let heading = &self.table.headings[reading.column];
            let statements = self.statements(reading);
            let own = reading.named.unit.known().filter(|_| !heading::ends_in_preposition(heading, field));
            // What the scenario file says of one speaks for its neighbors.
            let imposed = self.rules.units.get(&field).copied();
            let stated = imposed.or(own).or(statements.unit.map(|settled| settled.unit)).or_else(|| {
                units::by_cells(field, &self.profiles[reading.column], &self.typed_values(reading.column))
                    .map(|settled| settled.unit)
            });
            if let Some(unit) = stated {
                known.push((field, unit, heading.clone()));
            }
        }
        known
    }

    /// What the file states of how a column is measured.
    fn statements(&self, claim: &Reading) -> Statements {
        let heading = &self.table.headings[claim.column];
        statements(claim, heading, &self.table.layout, self.rules.system, &self.own_types)
    }

    /// Settles the unit of a field's column.
    pub(super) fn feed(
        &mut self,
        claim: &Reading,
        unit_column: Option<usize>,
        feet_elsewhere: bool,
        outer_beside: bool,
        known: &[(Field, &'static Unit, String)],
    ) -> Feed {
        let field = claim.named.field;
        let column = claim.column;
        let preposition = heading::ends_in_preposition(&self.table.headings[column], field);
        let mut feed = Feed {
            unit_in_heading: !preposition && matches!(claim.named.unit, HeadingUnit::Unit(_)),
            shape: self.shape(claim),
            unit_column,
            datum: claim.named.datum,
            ..Feed::of(column, None)
        };
        let Kind::Quantity(quantity) = field.definition().kind else { return feed };
        let imposed = self.rules.units.get(&field).copied();
        let statements = self.statements(claim);
        if imposed.is_none() {
            feed.unit_of_type.clone_from(&statements.by_type);
        }
        feed.datum = feed.datum.or(statements.datum);
        feed.datum_of_type.clone_from(&statements.datum_by_type);
        let unit_line = |unit: &str| format!("[inventory.units] {} = \"{unit}\"", field.name());
        if feed.datum == Some(CountedFrom::SeaLevel) && field != Field::GroundElevation && !self.has_ground_elevation()
        {
            let says = "this is an elevation, not a depth; it is not read";
            self.say(catalogue::ELEVATION_FOR_DEPTH, Some(column), says, "give the depth from the ground");
            feed.barred = true;
            return feed;
        }
        // `Gal. standing in well` begins with its unit.
        let gallons = HeadingUnit::EitherGallon("gal".to_owned());
        let begins = || self.speaks_of_gallons(column);
        let written = match &claim.named.unit {
            _ if preposition => &HeadingUnit::None,
            HeadingUnit::None | HeadingUnit::Unknown(_) if quantity.dimension == Dimension::Volume && begins() => {
                &gallons
            }
            unit => unit,
        };
        match written {
            HeadingUnit::Unit(unit) if unit.dimension != quantity.dimension => {
                let says = format!(
                    "\"{}\" is a unit of {}, and {} is a {}; the column is not read",
                    unit.symbol,
                    unit.dimension.name(),
                    field.name(),
                    quantity.dimension.name()
                );
                let help = format!(
                    "correct the unit in the heading, or map the column to the field it is: {}",
                    map_line(&self.columns[column].heading, "field")
                );
                self.say(catalogue::HEADING_UNIT_OF_OTHER_DIMENSION, Some(column), says, help);
                feed.barred = true;
            }
            HeadingUnit::Unit(unit) => {
                feed.unit = Some(unit);
                let of_rows = self.row_units.as_ref().filter(|units| imposed.is_none() && units.overrule_headings());
                if let Some(by_row) = of_rows.filter(|units| units.concern(field)) {
                    feed.unit_of_row = Some(Arc::clone(by_row));
                    let says = format!("each row is read in its own unit: {}", by_row.says(&self.table.headings));
                    let help = format!("no action needed if correct; else {}", unit_line(quantity.unit));
                    self.say(catalogue::UNIT_BY_EVIDENCE, Some(column), says, help);
                }
                if claim.named.bare_in && imposed.is_none() {
                    let metric = self.rules.system == Some(UnitSystem::Metric);
                    if outer_beside || metric && !feet_elsewhere {
                        let says = "\"in\" could mean inches or inner; the column is not read";
                        self.say(catalogue::AMBIGUOUS_IN, Some(column), says, unit_line("in"));
                        feed.barred = true;
                    } else if !feet_elsewhere || heading::goes_down(field) {
                        let says = "\"in\" is read as inches; it could also mean inner";
                        self.say(catalogue::IN_READ_AS_INCHES, Some(column), says, unit_line("in"));
                    }
                }
                if let Some(imposed) = imposed.filter(|imposed| imposed.symbol != unit.symbol) {
                    if claim.named.bare_in {
                        feed.unit = Some(imposed);
                    } else {
                        let says = format!(
                            "the heading says {}, the scenario file {}; the heading counts",
                            unit.symbol, imposed.symbol
                        );
                        let help = format!("take {} out of [inventory.units], or correct the heading", field.name());
                        self.say(catalogue::UNIT_CONTRADICTED, Some(column), says, help);
                    }
                }
            }
            HeadingUnit::EitherGallon(written) => {
                let said = self.gallon_said(column).filter(|_| imposed.is_none());
                let of = |gallon| match unit::look_up(written, Some(gallon)) {
                    Some(Meaning::Unit(unit)) => Some(unit),
                    _ => None,
                };
                feed.unit = imposed.or(said.as_ref().and_then(|(gallon, _)| of(*gallon)));
                if let (Some((_, note)), Some(unit)) = (said, feed.unit) {
                    self.unit_by_evidence(field, column, &Settled { unit, source: Source::Note(note) });
                } else if imposed.is_none() {
                    let says = format!(
                        "\"{written}\" is a US or an imperial measure, and nothing says which; the column is not read"
                    );
                    let symbol = quantity.default_units.map_or("US gal", |units| units[0]);
                    let help = format!("[campaign] units = \"us\" or \"imperial\", or {}", unit_line(symbol));
                    self.say(catalogue::HEADING_GALLON_UNDECLARED, Some(column), says, help);
                    feed.barred = true;
                }
            }
            HeadingUnit::Unknown(written)
                if imposed.is_none()
                    && !self.is_remark(written)
                    && statements.unit.is_none()
                    && statements.by_type.is_empty() =>
            {
                let says = format!("\"{written}\" is not a unit that is known; the column is not read");
                self.say(catalogue::HEADING_UNIT_UNKNOWN, Some(column), says, unit_line(quantity.unit));
                feed.barred = true;
            }
            HeadingUnit::None | HeadingUnit::Unknown(_) => {
                feed.unit = imposed;
                if let Some(by_row) = self.row_units.as_ref().filter(|units| imposed.is_none() && units.concern(field))
                {
                    feed.unit_of_row = Some(Arc::clone(by_row));
                    feed.unit_stated = true;
                    let says = format!(
                        "the heading gives no unit; each row is read in its own: {}",
                        by_row.says(&self.table.headings)
                    );
                    let help = format!("no action needed if correct; else {}", unit_line(quantity.unit));
                    self.say(catalogue::UNIT_BY_EVIDENCE, Some(column), says, help);
                } else if imposed.is_none() && preposition && !self.is_unit_stated(&statements, claim) {
                    let says = "\"in\" could mean inches, or the water or the depth in a well; the column is not read";
                    self.say(catalogue::AMBIGUOUS_IN, Some(column), says, unit_line("ft"));
                    feed.barred = true;
                } else if imposed.is_none() {
                    let written_in_cells = unit_column.is_some() || self.cells_carry_units(column);
                    self.silent_heading(&mut feed, claim, statements, known, written_in_cells);
                    feed.unit_unsaid |= written_in_cells && !feed.unit_stated;
                }
            }
        }
        // What no well is computed from alone, and nobody named so, is left where it stands if its unit is not known.
        let spare =
            matches!(field, Field::PlumbingVolume | Field::StickUp | Field::GroundElevation | Field::WallThickness);
        let unknown = feed.unit.is_none()
            && feed.unit_of_type.is_empty()
            && feed.unit_of_row.is_none()
            && !self.cells_carry_units(column);
        if spare && unknown && !claim.exact && !claim.by_hand {
            feed.barred = true;
        }
        self.level_from_top(&feed, field, column);
        if field == Field::StaticWaterLevel {
            self.ways_of_levels(&mut feed, column);
        }
        if field == Field::CasingDiameter {
            self.by_storage(&mut feed);
            feed.middle_of_type = self.middle_of_type(&feed);
            feed.unless_noted = self.sizes_unless_noted();
        }
        feed.units_beside = feed.unit_column.map_or_else(Vec::new, |beside| self.units_written(beside));
        feed.lettered = is_diameter(field) && self.is_lettered(column);
        self.with_left_over(&mut feed);
        feed.feet_hyphen_inches = feed.unit.is_some_and(|unit| unit.symbol == "ft") && self.hyphens_join(column);
        feed
    }
}
