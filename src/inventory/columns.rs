//! The plan of one table: which column feeds which field, in which unit, and what is carried along.
//!
//! Whatever cannot be settled from the headings becomes a finding that names the line of the scenario file which settles
//! it. Nothing is guessed silently.

mod species;

use std::sync::Arc;

use super::beside::{self, Aside};
use super::heading::{self, Datum, HeadingUnit, Named};
use super::intervals::Intervals;
use super::table::Opened;
use crate::field::rules::{Beside, ReadingRules, UnitSystem};
use crate::field::species::Species;
use crate::field::{FIELD_COUNT, FIELDS, Field, Kind, same_column};
use crate::finding::{Code, Finding, Words, catalogue};
use crate::place::{Column, Origin, Place};
use crate::quantity::unit::{self, Unit};

/// How a field's column is read.
#[derive(Debug, Clone)]
pub struct Feed {
    /// Index of the column.
    pub column: usize,
    /// Unit of a number without one; `None`: nobody has said.
    pub unit: Option<&'static Unit>,
    /// Whether the heading or the scenario file states that unit; else it is the campaign's usual one.
    pub unit_stated: bool,
    /// Whether the heading itself carries it.
    pub unit_in_heading: bool,
    /// Whether a number without a unit needs a word of its own, because nothing was said about the column.
    pub unit_unsaid: bool,
    /// Index of the column beside it that holds the unit.
    pub unit_column: Option<usize>,
    /// Index of the column beside it that holds a sign or a word before the value.
    pub qualifier_column: Option<usize>,
    /// What the mg/L of a bare number are counted as, where anybody has said.
    pub species: Option<&'static Species>,
    /// What a depth is counted from, where the heading says.
    pub datum: Option<Datum>,
    /// The column is not read at all: its heading carries a unit that cannot be used.
    pub barred: bool,
}

/// The plan of one table.
#[derive(Debug, Clone, Default)]
pub struct Plan {
    /// Columns as written.
    pub columns: Vec<Column>,
    /// One for each field.
    pub feeds: Vec<Option<Feed>>,
    /// Columns that are carried: index of the column, and the heading it is carried under.
    pub carried: Vec<(usize, String)>,
}

struct Candidate {
    column: usize,
    named: Named,
    by_hand: bool,
}

/// Makes the plan of a table.
///
/// `intervals` are the casing intervals that were read from tables beside the list.
pub fn plan(table: &Opened, rules: &ReadingRules, intervals: &Intervals, findings: &mut Vec<Finding>) -> Plan {
    let gallon = rules.system.and_then(UnitSystem::gallon);
    let columns: Vec<Column> = table
        .headings
        .iter()
        .enumerate()
        .map(|(at, heading)| Column { number: at as u32 + 1, heading: heading.as_str().into() })
        .collect();
    let mut planner = Planner { table, rules, intervals, columns: &columns, findings };
    let mut taken = vec![false; columns.len()];
    let mut candidates: Vec<Candidate> = Vec::new();
    for (at, heading) in table.headings.iter().enumerate() {
        if heading.is_empty() {
            continue;
        }
        if let Some((_, target)) = heading::mapped(heading, rules) {
            if let Some(field) = target {
                let (unit, datum, bare_in) = heading::unit_for(heading, field, gallon);
                let species = heading::species_for(heading, field);
                let named = Named { field, rank: 0, unit, datum, bare_in, species };
                candidates.push(Candidate { column: at, named, by_hand: true });
            }
            taken[at] = true; // Left out of the fields, or claimed: either way nobody else reads it.
        } else if heading::mapped_beside(heading, rules).is_some() {
            taken[at] = true;
        } else if let Some(named) = table
            .group_row
            .get(at)
            .and_then(|group| heading::together(group, heading, gallon))
            .and_then(|together| heading::name(&together, gallon))
            .or_else(|| heading::name(heading, gallon))
        {
            candidates.push(Candidate { column: at, named, by_hand: false });
        } else if heading::is_water_depth(heading, gallon) {
            planner.water_depth(at);
            taken[at] = true;
        }
    }
    for candidate in &mut candidates {
        if let (HeadingUnit::None, Some(cell)) = (&candidate.named.unit, table.unit_row.get(candidate.column)) {
            let (unit, datum, species) = heading::unit_below(cell, candidate.named.field, gallon);
            candidate.named.unit = unit;
            candidate.named.species = candidate.named.species.or(species);
            candidate.named.datum = candidate.named.datum.or(datum);
        }
    }
    let asides = beside::columns(table, rules, |column| {
        candidates.iter().find(|candidate| candidate.column == column).map(|candidate| candidate.named.field)
    });
    for aside in &asides {
        taken[aside.column] = true;
    }
    candidates.retain(|candidate| !asides.iter().any(|aside| aside.column == candidate.column));
    let feet_elsewhere = candidates.iter().any(|candidate| {
        matches!(candidate.named.unit, HeadingUnit::Unit(unit) if unit.symbol == "ft") && !candidate.named.bare_in
    });
    let outer_beside = table.headings.iter().any(|heading| heading::squash(heading).ends_with("diameterout"));
    let mut feeds: Vec<Option<Feed>> = vec![None; FIELD_COUNT];
    for definition in &FIELDS {
        let mut claims: Vec<&Candidate> =
            candidates.iter().filter(|candidate| candidate.named.field == definition.field).collect();
        // `long_minutes` is no longitude, unless nothing better is there.
        let misfit = |claim: &Candidate| match (&claim.named.unit, definition.kind) {
            (HeadingUnit::Unit(unit), Kind::Quantity(quantity)) => unit.dimension != quantity.dimension,
            _ => false,
        };
        claims.sort_by_key(|claim| (!claim.by_hand, misfit(claim), claim.named.rank, claim.column));
        let sound = claims.iter().filter(|claim| !misfit(claim)).count();
        claims.truncate(sound.max(1));
        let Some(first) = claims.first() else { continue };
        if claims.len() > 1 {
            planner.two_columns(definition.field, &claims);
        }
        taken[first.column] = true;
        let aside = |says: Beside| {
            asides.iter().find(|aside| aside.says == says && aside.is_of(first.column, definition.field))
        };
        let unit_column = aside(Beside::Unit).map(|aside| aside.column);
        let mut feed = planner.feed(first, unit_column, feet_elsewhere, outer_beside);
        feed.qualifier_column = aside(Beside::Qualifier).map(|aside| aside.column);
        feed.species = planner.species(first);
        feeds[definition.field as usize] = Some(feed);
    }
    for (at, heading) in table.headings.iter().enumerate() {
        if !taken[at] && !heading.is_empty() && !candidates.iter().any(|candidate| candidate.column == at) {
            planner.near_miss(at, &feeds);
        }
    }
    let carried = planner.carried(&feeds, &asides);
    if !table.headings.is_empty() && feeds.iter().all(Option::is_none) {
        planner.say(
            catalogue::NO_KNOWN_HEADING,
            None,
            "no heading of this table names a field",
            map_line("heading as written", "field"),
        );
    } else if !table.headings.is_empty()
        && feeds[Field::WellId as usize].is_none()
        && !rules.fixed.contains_key(&Field::WellId)
    {
        planner.say(
            catalogue::NO_ID_COLUMN,
            None,
            "no column holds the wells' ids; each well is named by its file and row",
            format!("if a column names the wells: {}", map_line("heading as written", "well_id")),
        );
    }
    planner.missing_columns(&feeds);
    Plan { columns, feeds, carried }
}

/// The line of the scenario file that maps a heading.
fn map_line(heading: &str, field: &str) -> String {
    format!("[inventory.columns] \"{heading}\" = \"{field}\"")
}

struct Planner<'a> {
    table: &'a Opened,
    rules: &'a ReadingRules,
    intervals: &'a Intervals,
    columns: &'a [Column],
    findings: &'a mut Vec<Finding>,
}

impl Planner<'_> {
    fn say(&mut self, code: Code, column: Option<usize>, says: impl Into<Words>, help: impl Into<Words>) {
        let finding = self.finding(code, column, says, help);
        self.findings.push(finding);
    }

    fn finding(&self, code: Code, column: Option<usize>, says: impl Into<Words>, help: impl Into<Words>) -> Finding {
        let origin: &Origin = &self.table.origin;
        let place = match column {
            Some(at) => Place::cell(origin, self.table.heading_row, &self.columns[at]),
            None => Place::whole(origin),
        };
        let seen = column.map_or("", |at| self.columns[at].heading.as_ref());
        Finding::new(code, place, says, help).seen(seen)
    }

    fn water_depth(&mut self, at: usize) {
        let heading = Arc::clone(&self.columns[at].heading);
        let help = format!(
            "{} if it is measured from the ground down to the water, or {} if it is the height of the water",
            map_line(&heading, "static_water_level"),
            map_line(&heading, "water_column"),
        );
        let says = "this could be the depth to the water or the height of the water; it is not read";
        self.say(catalogue::AMBIGUOUS_WATER_DEPTH, Some(at), says, help);
    }

    fn two_columns(&mut self, field: Field, claims: &[&Candidate]) {
        let read = Arc::clone(&self.columns[claims[0].column].heading);
        for claim in &claims[1..] {
            let other = Arc::clone(&self.columns[claim.column].heading);
            let says = format!("this column and \"{read}\" both name {}; \"{read}\" is read", field.name());
            let help = format!("to read this one instead: {}", map_line(&other, field.name()));
            let place = Place::cell(&self.table.origin, self.table.heading_row, &self.columns[claims[0].column]);
            let finding = self.finding(catalogue::TWO_COLUMNS_FOR_ONE_FIELD, Some(claim.column), says, help);
            self.findings.push(finding.related(vec![(place, "is read".into())]));
        }
    }

    /// Names the columns without which no row can be computed, unless the campaign says what to take instead.
    fn missing_columns(&mut self, feeds: &[Option<Feed>]) {
        let has = |field: Field| {
            feeds[field as usize].as_ref().is_some_and(|feed| !feed.barred)
                || self.rules.fixed.contains_key(&field)
                || self.rules.assumptions.keys().any(|(_, assumed)| *assumed == field)
                || self.rules.drawn.iter().any(|(_, drawn)| *drawn == field)
        };
        if self.table.headings.is_empty()
            || feeds.iter().all(Option::is_none)
            || has(Field::WaterVolume) && has(Field::WellType)
        {
            return;
        }
        let mut missing = Vec::new();
        if !has(Field::WellType) {
            missing.push(Field::WellType);
        }
        if !has(Field::WaterVolume) {
            if !has(Field::WaterColumn) {
                let listed = |field: Field| field == Field::TotalDepth && self.intervals.give_depths();
                let both = [Field::TotalDepth, Field::StaticWaterLevel];
                missing.extend(both.into_iter().filter(|field| !has(*field) && !listed(*field)));
            }
            if !has(Field::CasingDiameter) && self.intervals.is_empty() {
                missing.push(Field::CasingDiameter);
            }
        }
        if missing.is_empty() {
            return;
        }
        let names = missing.iter().map(|field| field.name()).collect::<Vec<_>>().join(", ");
        let says = format!("no column is read for {names}; every row lacks it");
        let help = "map the column in [inventory.columns], or give a value in [inventory.fixed] or [missing]";
        self.say(catalogue::NO_COLUMN, None, says, help);
    }

    fn near_miss(&mut self, at: usize, feeds: &[Option<Feed>]) {
        let heading = Arc::clone(&self.columns[at].heading);
        let Some((field, name)) = heading::near(&heading, None) else { return };
        if feeds[field as usize].is_some() {
            return;
        }
        let says = format!("this heading is not known; did you mean \"{name}\" ({})?", field.name());
        let finding = self.finding(catalogue::NEAR_MISS, Some(at), says, map_line(&heading, field.name()));
        self.findings.push(finding.suggesting(Some(name.to_owned())));
    }

    /// Settles the unit of a field's column.
    fn feed(
        &mut self,
        claim: &Candidate,
        unit_column: Option<usize>,
        feet_elsewhere: bool,
        outer_beside: bool,
    ) -> Feed {
        let field = claim.named.field;
        let column = claim.column;
        let mut feed = Feed {
            column,
            unit: None,
            unit_stated: true,
            unit_in_heading: matches!(claim.named.unit, HeadingUnit::Unit(_)),
            unit_unsaid: false,
            unit_column,
            qualifier_column: None,
            species: None,
            datum: claim.named.datum,
            barred: false,
        };
        let Kind::Quantity(quantity) = field.definition().kind else { return feed };
        let imposed = self.rules.units.get(&field).copied();
        let unit_line = |unit: &str| format!("[inventory.units] {} = \"{unit}\"", field.name());
        if feed.datum == Some(Datum::SeaLevel) && field != Field::GroundElevation {
            let says = "this is an elevation, not a depth; it is not read";
            self.say(catalogue::ELEVATION_FOR_DEPTH, Some(column), says, "give the depth from the ground");
            feed.barred = true;
            return feed;
        }
        match &claim.named.unit {
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
                if claim.named.bare_in && imposed.is_none() {
                    let metric = self.rules.system == Some(UnitSystem::Metric);
                    if outer_beside || metric && !feet_elsewhere {
                        let says = "\"in\" could mean inches or inner; the column is not read";
                        self.say(catalogue::AMBIGUOUS_IN, Some(column), says, unit_line("in"));
                        feed.barred = true;
                    } else if !feet_elsewhere {
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
            HeadingUnit::Unknown(written) => {
                feed.unit = imposed;
                if imposed.is_none() {
                    let says = format!("\"{written}\" is not a unit that is known; the column is not read");
                    self.say(catalogue::HEADING_UNIT_UNKNOWN, Some(column), says, unit_line(quantity.unit));
                    feed.barred = true;
                }
            }
            HeadingUnit::None => {
                feed.unit = imposed;
                if imposed.is_none() {
                    let written_in_cells = unit_column.is_some() || self.cells_carry_units(column);
                    feed.unit = self.default_unit(field, column, written_in_cells);
                    feed.unit_stated = quantity.default_units.is_none();
                    feed.unit_unsaid = written_in_cells && !feed.unit_stated;
                }
            }
        }
        if field == Field::StaticWaterLevel && feed.datum == Some(Datum::TopOfCasing) && !feed.barred {
            let says = "the level is counted from the top of the casing; it is read as if from the ground";
            let help = "nothing, if casings stand less than a hand above the ground; else take the stick-up off";
            self.say(catalogue::LEVEL_FROM_TOP_OF_CASING, Some(column), says, help);
        }
        feed
    }

    /// The unit of a column whose heading has none: one for all, or the campaign's system, which is said aloud.
    fn default_unit(&mut self, field: Field, column: usize, written_in_cells: bool) -> Option<&'static Unit> {
        let quantity = field.quantity()?;
        let Some(units) = quantity.default_units else { return unit::by_symbol(quantity.unit) };
        let Some(system) = self.rules.system else {
            if !written_in_cells {
                let says = format!(
                    "no unit stands in the heading, and no system is declared; {} cannot be read",
                    field.name()
                );
                let help = format!(
                    "[inventory.units] {} = \"{}\" (or whatever it is), or [campaign] units = \"us\"",
                    field.name(),
                    quantity.default_units.map_or("", |units| units[0])
                );
                self.say(catalogue::NO_UNIT, Some(column), says, help);
            }
            return None;
        };
        let unit = unit::by_symbol(units[system.index()])?;
        if !written_in_cells {
            let says = format!(
                "no unit stands in the heading; read as {} because the campaign is \"{}\"",
                unit.symbol,
                system.name()
            );
            let help = format!("[inventory.units] {} = \"{}\" (or whatever it is)", field.name(), unit.symbol);
            let with_unit = format!("{} ({})", self.columns[column].heading, unit.symbol);
            let finding = self.finding(catalogue::UNIT_FROM_CAMPAIGN, Some(column), says, help);
            self.findings.push(finding.suggesting(Some(with_unit)));
        }
        Some(unit)
    }

    /// Whether every filled cell of the sample has letters or marks after its number.
    fn cells_carry_units(&self, column: usize) -> bool {
        let sample = &self.table.sample;
        let mut some = false;
        for row in self.table.first_row..sample.len() {
            let cell = sample.cell(row, column).trim();
            if cell.starts_with(|c: char| c.is_ascii_digit()) {
                some = true;
                if !cell.ends_with(|c: char| c.is_alphabetic() || matches!(c, '\'' | '"' | '′' | '″' | '’' | '”'))
                {
                    return false;
                }
            }
        }
        some
    }

    /// Columns that are carried along, under their heading; a repeated heading gets a number.
    ///
    /// A sign beside a value is carried as well: it may hold more than was understood.
    fn carried(&mut self, feeds: &[Option<Feed>], asides: &[Aside]) -> Vec<(usize, String)> {
        let mut carried: Vec<(usize, String)> = Vec::new();
        let widest = (self.table.first_row..self.table.sample.len()).map(|row| self.table.sample.width(row)).max();
        for at in 0..self.columns.len().max(widest.unwrap_or(0)) {
            let fed = feeds.iter().flatten().any(|feed| feed.column == at && !feed.barred);
            if fed || asides.iter().any(|aside| aside.column == at && aside.says == Beside::Unit) {
                continue;
            }
            let heading = self.table.headings.get(at).map_or("", String::as_str);
            if heading.is_empty() {
                let filled = (self.table.first_row..self.table.sample.len())
                    .find(|row| !self.table.sample.cell(*row, at).trim().is_empty());
                if filled.is_none() || at >= self.columns.len() {
                    continue;
                }
                self.say(
                    catalogue::BLANK_HEADING,
                    Some(at),
                    "this column has cells but no heading; it is carried along",
                    "give it a heading",
                );
            }
            let name = if heading.is_empty() { format!("column {}", at + 1) } else { heading.to_owned() };
            let mut unique = name.clone();
            let mut count = 1;
            while carried.iter().any(|(_, other)| same_column(other, &unique)) || Field::by_name(&unique).is_some() {
                count += 1;
                unique = format!("{name} ({count})");
            }
            carried.push((at, unique));
        }
        carried
    }
}
