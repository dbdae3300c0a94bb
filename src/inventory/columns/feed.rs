//! From the assignment of columns to feeds: each with its unit, and with what there is to say about it.

use std::sync::Arc;

use super::assignment::Assignment;
use super::evidence::{LIKELY, Reading, SURE};
use super::plan::AlsoWhen;
use super::units::{self, Settled, Source, Statements};
use super::{Feed, Planner, follow_up, is_diameter, level, map_line};
use crate::field::rules::{Beside, UnitSystem};
use crate::field::{FIELD_COUNT, FIELDS, Field, Kind};
use crate::finding::catalogue;
use crate::inventory::heading::{self, Datum as CountedFrom, HeadingUnit};
use crate::inventory::lexicon::Language;
use crate::inventory::unit_columns::Aside;
use crate::quantity::unit::{Dimension, Unit};

/// What a dose rests on.
pub const fn is_deciding(field: Field) -> bool {
    matches!(
        field,
        Field::WellType
            | Field::TotalDepth
            | Field::StaticWaterLevel
            | Field::WaterColumn
            | Field::CasingDiameter
            | Field::CasingOutsideDiameter
            | Field::WallThickness
            | Field::StickUp
            | Field::CasingDepth
            | Field::OpenHoleDiameter
            | Field::WaterVolume
            | Field::DischargeRoute
    )
}

impl Planner<'_> {
    /// What the other columns say of a reading: a casing ends at the bottom or above it.
    pub(super) fn by_the_others(&self, readings: &mut [Reading]) {
        let depth = readings
            .iter()
            .filter(|reading| reading.named.field == Field::TotalDepth && reading.score >= LIKELY)
            .max_by(|a, b| a.score.total_cmp(&b.score))
            .map(|reading| reading.column);
        let Some(depth) = depth else { return };
        for reading in readings.iter_mut().filter(|reading| reading.named.field == Field::CasingDepth && !reading.exact)
        {
            let pairs = self.pairs(reading.column, depth);
            let within = pairs.iter().filter(|(casing, depth)| casing <= depth).count();
            let long = pairs.iter().filter(|(casing, depth)| casing * 20.0 >= *depth).count();
            if pairs.len() >= 6 && within * 20 >= pairs.len() * 19 && long * 10 >= pairs.len() * 8 {
                reading.score += 0.3;
            }
        }
    }

    /// Feeds of every field.
    pub(super) fn feeds(&mut self, assignment: &Assignment, asides: &[Aside]) -> Vec<Option<Feed>> {
        let mut feeds: Vec<Option<Feed>> = vec![None; FIELD_COUNT];
        let headings = &self.table.headings;
        let feet_elsewhere = assignment.chosen.iter().flatten().any(|reading| {
            matches!(reading.named.unit, HeadingUnit::Unit(unit) if unit.symbol == "ft") && !reading.named.bare_in
        });
        let outer_beside = headings.iter().any(|heading| heading::squash(heading).ends_with("diameterout"));
        self.type_column = assignment.chosen[Field::WellType as usize].as_ref().map(|reading| reading.column);
        self.own_types = self.codes_of_types();
        let known = self.stated_units(assignment);
        for definition in &FIELDS {
            let field = definition.field;
            let Some(reading) = &assignment.chosen[field as usize] else { continue };
            let alone = matches!(definition.kind, Kind::Text | Kind::Flag) || !is_deciding(field);
            if reading.score < LIKELY && !reading.by_hand && !reading.exact {
                if !alone {
                    self.open(reading);
                }
                continue;
            }
            if reading.score < OPEN_EXACT && reading.exact && !reading.by_hand {
                // Named so, and its cells are something else altogether: `Casing (inches)` of words.
                self.unlike(reading);
                continue;
            }
            let named_so = |other: &Reading| other.named.field == field && other.exact && other.score >= OPEN_EXACT;
            if is_deciding(field) && !reading.exact && !reading.by_hand && assignment.others.iter().any(named_so) {
                // Its cells speak for this column and its name for another: a person says which.
                self.open(reading);
                continue;
            }
            let aside =
                |says: Beside| asides.iter().find(|aside| aside.says == says && aside.is_of(reading.column, field));
            let unit_column = aside(Beside::Unit).map(|aside| aside.column);
            let mut feed = self.feed(reading, unit_column, feet_elsewhere, outer_beside, &known);
            feed.qualifier_column = aside(Beside::Qualifier).map(|aside| aside.column);
            feed.species = self.species(reading);
            if !reading.exact {
                self.likely(reading, &feed);
            }
            feed.also = self.complement(reading, assignment, feet_elsewhere, &known);
            if let Some(column) = follow_up::of_other(headings, reading.column).filter(|_| feed.also.is_none()) {
                let told = Reading { column, ..reading.clone() };
                feed.also = Some(Box::new(self.feed(&told, None, feet_elsewhere, false, &known)));
                feed.also_when = AlsoWhen::Other;
            }
            if field == Field::StaticWaterLevel {
                self.earlier_levels(reading.column, &mut feed, feet_elsewhere, &known);
            }
            let also = feed.also.as_ref().map(|also| also.column);
            if is_diameter(field) {
                self.second_of(reading, assignment, also);
            }
            for other in &assignment.others {
                if other.named.field == field && Some(other.column) != also && other.exact {
                    self.two_columns(field, reading, other);
                }
            }
            feeds[field as usize] = Some(feed);
        }
        feeds
    }

    /// Adds the two levels of earlier dates to that of the latest: the one is taken where the other bears it out.
    fn earlier_levels(
        &mut self,
        latest: usize,
        feed: &mut Feed,
        feet_elsewhere: bool,
        known: &[(Field, &'static Unit, String)],
    ) {
        let of_it = self.before_latest.iter().filter(|(of, _)| *of == latest).map(|(_, reading)| reading.clone());
        if let [before, older, ..] = of_it.collect::<Vec<Reading>>().as_slice() {
            let mut also = self.feed(before, None, feet_elsewhere, false, known);
            also.also = Some(Box::new(self.feed(older, None, feet_elsewhere, false, known)));
            feed.also = Some(Box::new(also));
            feed.also_when = AlsoWhen::NotAtRest;
        }
    }

    /// Units that headings, groups and notes state outright, of the lengths of the table.
    fn stated_units(&self, assignment: &Assignment) -> Vec<(Field, &'static Unit, String)> {
        let mut known = Vec::new();
        for reading in assignment.chosen.iter().flatten() {
            let field = reading.named.field;
            let is_length = field.quantity().is_some_and(|quantity| quantity.dimension == Dimension::Length);
            if !is_length || reading.score < LIKELY {
                continue;
            }
            let heading = &self.table.headings[reading.column];
            let statements =
                units::statements(reading, heading, &self.table.layout, self.rules.system, &self.own_types);
            let own = units::of_heading(&reading.named.unit);
            let own = own.filter(|_| !heading::ends_in_preposition(heading, field));
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

    /// Another column for the same field, where rows that fill one mostly leave the other blank.
    fn complement(
        &mut self,
        reading: &Reading,
        assignment: &Assignment,
        feet_elsewhere: bool,
        known: &[(Field, &'static Unit, String)],
    ) -> Option<Box<Feed>> {
        let field = reading.named.field;
        if reading.by_hand || !is_deciding(field) {
            return None;
        }
        let sample = &self.table.sample;
        let filled = |row: usize, column: usize| {
            let cell = sample.cell(row, column).trim();
            !cell.is_empty() && !self.cells.says_nothing(field, cell)
        };
        let complements = |other: &&Reading| {
            let (mut both, mut one, mut only_other) = (0, 0, 0);
            for row in self.table.first_row..sample.len() {
                match (filled(row, reading.column), filled(row, other.column)) {
                    (true, true) => both += 1,
                    (true, false) => one += 1,
                    (false, true) => only_other += 1,
                    (false, false) => {}
                }
            }
            // A few wells were sounded anew: the newer figure where there is one, the older one elsewhere.
            let fills_in = only_other >= 10 && only_other >= both + one && one + both >= 3;
            only_other >= 3 && one >= 3 && both * 5 <= only_other
                || fills_in
                || only_other >= 3 && !is_diameter(field) && self.agree(reading.column, other.column)
                || only_other >= 1 && self.sounded_and_logged(reading.column, other.column)
        };
        let other = assignment
            .others
            .iter()
            .filter(|other| other.named.field == field && other.score >= LIKELY && !other.by_hand)
            .find(complements)?
            .clone();
        let feed = self.feed(&other, None, feet_elsewhere, false, known);
        let heading = &self.table.headings[reading.column];
        let says = format!(
            "this column and \"{heading}\" both give {}; each row is read from the one it fills",
            field.name().replace('_', " ")
        );
        let help = format!(
            "no action needed if correct; else map one: {}",
            map_line(&self.table.headings[other.column], field.name())
        );
        self.say(catalogue::COLUMNS_COMPLEMENT, Some(other.column), says, help);
        Some(Box::new(feed))
    }

    /// Settles the unit of a field's column.
    fn feed(
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
        let statements = units::statements(
            claim,
            &self.table.headings[column],
            &self.table.layout,
            self.rules.system,
            &self.own_types,
        );
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
        let written = if preposition { &HeadingUnit::None } else { &claim.named.unit };
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
                feed.unit = imposed;
                if imposed.is_none() {
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
            let layout = &self.table.layout;
            feed.level.flowing = level::flowing(&layout.notes);
            feed.level.pumped = level::pumped(&layout.notes);
            let explained = layout.explained.get(column).into_iter();
            let said = layout.notes.iter().chain(explained).chain(std::iter::once(&self.table.headings[column]));
            let said: Vec<&str> = said.chain(layout.units.get(column)).map(String::as_str).collect();
            feed.level.plus_is_above = level::plus_is_above(said.iter().copied());
            feed.level.minus_is_below = self.minus_is_below(column, said.into_iter());
            feed.level.plus_is_above |= feed.level.minus_is_below;
            feed.level.marks = level::marks(&layout.notes, layout.language);
            feed.level.datum_by_place = self.datum_by_place();
            if feed.level.datum_by_place.is_some() {
                feed.datum = None;
            }
        }
        if field == Field::CasingDiameter {
            feed.middle_of_type = self.middle_of_type(&feed);
            feed.unless_noted = self.sizes_unless_noted();
        }
        feed.units_beside = feed.unit_column.map_or_else(Vec::new, |beside| self.units_written(beside));
        feed.lettered = is_diameter(field) && self.is_lettered(column);
        feed.feet_hyphen_inches = feed.unit.is_some_and(|unit| unit.symbol == "ft") && self.hyphens_join(column);
        feed
    }

    /// The unit of a column whose heading has none.
    fn silent_heading(
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

/// An exact name with a score below this is contradicted by its cells.
const OPEN_EXACT: f64 = 0.5;

/// Whether two units belong to one way of measuring.
fn same_measure(one: &Unit, other: &Unit) -> bool {
    customary(one) == customary(other)
}

/// Whether a unit belongs to feet and inches.
fn customary(unit: &Unit) -> bool {
    matches!(unit.symbol, "ft" | "in" | "yd" | "mil")
}

/// Whether a reading needs no word.
pub fn is_sure(reading: &Reading) -> bool {
    reading.by_hand || reading.exact || reading.score >= SURE
}
