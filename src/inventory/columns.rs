//! The plan of one table: which column feeds which field, in which unit, and what is carried along.
//!
//! Whatever cannot be settled from the headings becomes a finding that names the line of the scenario file which settles
//! it. Nothing is guessed silently.

mod assignment;
mod banded_strings;
pub mod basin;
mod below_water;
mod carried;
mod column_unit;
mod continued;
mod described;
mod elevations;
mod elimination;
mod ends_beside;
mod evidence;
mod feed;
mod fit;
pub mod follow_up;
mod gallons;
mod halves;
mod hyphens;
mod identities;
mod level;
mod measured;
mod named_strings;
mod one_name;
mod other_widths;
mod patterns;
mod plain_heading;
mod plan;
mod precedence;
mod prefixed;
mod rival_widths;
mod row_units;
mod said;
mod series;
pub mod sides;
mod silent_heading;
mod species;
mod statements;
mod storage;
pub mod strings;
mod taken_off;
mod telescoped;
mod ticks;
mod typed;
mod unit_first;
mod units;
mod unread;

use std::sync::Arc;

use super::cell::CellRules;
use super::heading::{self, HeadingUnit};
use super::intervals::Intervals;
use super::lexicon::{self, Concept};
use super::multiple_choice;
use super::notes;
use super::profile::{self, Profile};
use super::table::Opened;
use super::unit_columns;
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::field::{Field, WellType};
use crate::finding::{Code, Finding, Words};
use crate::place::{Column, Origin, Place};
pub use halves::smaller;
pub use hyphens::feet_and_inches;
pub use plan::{AlsoWhen, Feed, Plan, Shape, is_diameter};
pub use row_units::RowUnits;
pub use typed::unlettered;

use assignment::assign;
use evidence::{Asked, Reading};

/// Makes the plan of a table.
///
/// `intervals` are the casing intervals that were read from tables beside the list.
pub fn plan(
    table: &Opened,
    rules: &ReadingRules,
    cells: &CellRules,
    intervals: &Intervals,
    findings: &mut Vec<Finding>,
) -> Plan {
    let gallon = rules.system.and_then(UnitSystem::gallon);
    let place_of =
        |at: usize| table.described.filter(|described| described.is_part(at)).map_or(at, |described| described.column);
    let columns: Vec<Column> = (0..table.headings.len())
        .map(place_of)
        .map(|at| Column { number: at as u32 + 1, heading: table.headings[at].as_str().into() })
        .collect();
    let own_units: Vec<_> = table.layout.notes.iter().flat_map(|note| notes::own_units(note)).collect();
    let profiles = profile::profiles(table, columns.len(), cells, gallon, &own_units);
    let mut planner = Planner {
        table,
        rules,
        intervals,
        columns: &columns,
        profiles: &profiles,
        cells,
        type_column: None,
        own_types: Vec::new(),
        row_units: None,
        open: Vec::new(),
        strings: Vec::new(),
        beside: Vec::new(),
        first_width: None,
        upper_string: None,
        halves: halves::find(table, rules),
        before_latest: Vec::new(),
        both_elevations: false,
        findings,
    };
    planner.row_units = row_units::find(table, rules).map(Arc::new);
    let rows = table.sample.len().saturating_sub(table.first_row);
    let mut taken = vec![false; columns.len()];
    // Ways in which headings are read by more than their own words, the first that has something to say.
    let written = [
        unit_first::feet_marks(&table.headings),
        continued::continued(&table.headings, table.layout.language),
        prefixed::prefixed(&table.headings),
        prefixed::shared(&table.headings),
        prefixed::as_found(&table.headings),
        one_name::bracketed(&table.headings, table.layout.language),
        one_name::shortened(&table.headings),
        unit_first::unit_first(&table.headings),
    ];
    let spaced: Vec<Option<String>> = (0..columns.len())
        .map(|at| {
            let first = written.iter().find_map(|way| way[at].clone());
            first.or_else(|| heading::spaced(&table.headings[at], gallon))
        })
        .collect();
    let asked_of = |at: usize| Asked {
        column: at,
        heading: spaced[at].as_ref().unwrap_or(&table.headings[at]),
        profile: &profiles[at],
        layout: &table.layout,
        gallon,
        rows,
    };
    let mut readings: Vec<Reading> = Vec::new();
    let mut water_depths: Vec<usize> = Vec::new();
    let ticks: Vec<usize> =
        multiple_choice::questions(&table.headings, &table.layout.groups, &table.sample, table.first_row)
            .iter()
            .flat_map(|question| question.answers.iter().map(|(column, _)| *column).chain(question.whole))
            .collect();
    for column in planner.row_units.iter().flat_map(|units| units.columns()) {
        taken[column] = true;
    }
    if let Some(described) = table.described {
        taken[described.column] = true;
    }
    let basin = basin::find(table, rules);
    // The sides of a box whose water has a column too are none of a well.
    let of_box = |column: usize| basin.is_some_and(|basin| basin.measures.iter().any(|(of, _)| *of == column));
    let sides = sides::find(table, rules).filter(|sides| !sides.columns().any(of_box));
    for column in sides.iter().flat_map(sides::Sides::columns) {
        taken[column] = true;
    }
    for (column, _) in basin.iter().flat_map(|basin| basin.measures) {
        taken[column] = true;
    }
    for halves in &planner.halves {
        taken[halves.small] = true;
    }
    let says_of_level =
        unit_columns::level::column(table, |at| taken[at] || heading::mapped(&table.headings[at], rules).is_some());
    if let Some(column) = says_of_level {
        taken[column] = true;
    }
    for (at, heading) in table.headings.iter().enumerate() {
        if taken[at] || heading.is_empty() || ticks.contains(&at) && heading::mapped(heading, rules).is_none() {
            continue;
        }
        let asked = asked_of(at);
        if let Some((_, target)) = heading::mapped(heading, rules) {
            taken[at] = true; // Left out of the fields, or claimed: either way nobody else reads it.
            if let Some(field) = target {
                let named = asked.named(field, &Default::default());
                readings.push(Reading { column: at, named, score: 2.0, exact: true, by_hand: true });
            }
        } else if heading::mapped_beside(heading, rules).is_some() {
            taken[at] = true;
        } else if let Some(field) = table.described.and_then(|described| described.field_of(at)) {
            taken[at] = true;
            let in_order = table.described.is_some_and(|described| described.is_in_order());
            let named = if in_order { asked.named(field, &Default::default()) } else { heading::Named::told(field) };
            if profiles[at].filled > 0 {
                readings.push(Reading { column: at, named, score: evidence::SURE, exact: false, by_hand: false });
            }
        } else if let Some(named) = planner.width_of_storage(at) {
            readings.push(Reading { column: at, named, score: evidence::LIKELY, exact: false, by_hand: false });
        } else if asked.is_water_depth() && heading::name(heading, gallon).is_none() && !asked.is_named_with_group()
            || planner.is_depth_below_water(at)
        {
            let is_height = asked.is_told_as_height();
            if is_height || asked.is_counted_down() || says_of_level.is_some() {
                let field = if is_height { Field::WaterColumn } else { Field::StaticWaterLevel };
                let named = asked.named(field, &Default::default());
                readings.push(Reading { column: at, named, score: evidence::SURE, exact: false, by_hand: false });
            } else {
                water_depths.push(at);
                taken[at] = true;
            }
        } else {
            // What the scenario file fixes needs no column that only looks like it.
            let fixed = |reading: &Reading| rules.fixed.contains_key(&reading.named.field) && !reading.exact;
            readings.extend(asked.readings().into_iter().filter(|reading| !fixed(reading)));
        }
    }
    planner.before_latest = planner.latest_of_series(&mut readings);
    planner.telescoped(&mut readings, asked_of);
    let of_later_groups = planner.first_of_groups(&mut readings);
    planner.ends_beside_widths(&mut readings, asked_of);
    planner.strings_below_bands(&mut readings, asked_of);
    planner.casing_before_hole(&mut readings);
    planner.finished_before_drilled(&mut readings);
    planner.sounded_before_logged(&mut readings);
    planner.hole_below_before_above(&mut readings);
    planner.elevations(&mut readings, asked_of);
    planner.height_without_water(&mut readings, asked_of);
    for reading in &mut readings {
        if let (HeadingUnit::None, Some(cell)) =
            (&reading.named.unit, table.layout.units.get(reading.column).filter(|cell| !cell.is_empty()))
        {
            let (unit, datum, species) = heading::unit_below(cell, reading.named.field, gallon);
            if matches!(unit, HeadingUnit::Unit(_) | HeadingUnit::EitherGallon(_)) {
                reading.named.unit = unit;
            }
            reading.named.species = reading.named.species.or(species);
            reading.named.datum = reading.named.datum.or(datum);
        }
    }
    let levels_are_told = says_of_level.or_else(|| unit_columns::reference_column(table, &taken)).is_some();
    planner.told_by_units(&mut readings, levels_are_told);
    let first = assign(&readings);
    let mut asides = unit_columns::columns(table, rules, |column| first.field_of(column));
    // Units that are told of whole rows are none of the column beside them alone.
    let of_rows: Vec<usize> =
        planner.row_units.iter().filter(|units| units.are_two_columns()).flat_map(|units| units.columns()).collect();
    asides.retain(|aside| !of_rows.contains(&aside.column));
    for aside in &asides {
        taken[aside.column] = true;
    }
    readings.retain(|reading| !asides.iter().any(|aside| aside.column == reading.column));
    planner.by_the_others(&mut readings);
    planner.names_every_well(&mut readings);
    planner.by_elimination(&mut readings, &taken, !water_depths.is_empty());
    let first = assign(&readings);
    if let [at] = water_depths.as_slice()
        && first.likely(Field::StaticWaterLevel).is_none()
        && first.likely(Field::WaterColumn).is_none()
        && let Some(field) = planner.level_or_height(*at, &planner.depths(&readings))
    {
        let named = asked_of(*at).named(field, &Default::default());
        readings.push(Reading { column: *at, named, score: evidence::LIKELY, exact: false, by_hand: false });
        water_depths.clear();
    }
    planner.water_by_elimination(&mut readings, asked_of);
    planner.taken_off(&mut readings, asked_of);
    planner.second_is_below(&mut readings);
    planner.hole_is_the_well(&mut readings, asked_of);
    planner.change_by_elimination(&mut readings);
    let mut assignment = assign(&readings);
    planner.strings = planner.next_strings(&assignment);
    for column in planner.strings.iter().flat_map(|next| next.columns()) {
        taken[column] = true;
        assignment.leave(column);
        // A second string is no hole below the first one.
        let hole = &mut assignment.chosen[Field::OpenHoleDiameter as usize];
        if hole.as_ref().is_some_and(|hole| hole.column == column && !hole.by_hand) {
            *hole = None;
        }
    }
    planner.not_below(of_later_groups);
    // What belongs to a string below the first is no second column of the first.
    let below = |column: usize| planner.strings.iter().any(|next| next.columns().any(|of| of == column));
    assignment.others.retain(|other| other.by_hand || !below(other.column));
    water_depths.retain(|at| assignment.field_of(*at).is_none());
    let mut feeds = planner.feeds(&assignment, &asides);
    for at in water_depths {
        planner.water_depth(at);
    }
    for feed in feeds.iter().flatten().flat_map(Feed::columns) {
        taken[feed] = true;
    }
    let questions = planner.questions(&mut feeds, &mut taken);
    for (at, heading) in table.headings.iter().enumerate() {
        if !taken[at] && !heading.is_empty() {
            planner.near_miss(at, &feeds);
        }
    }
    if let Some(Feed { level, .. }) = &mut feeds[Field::StaticWaterLevel as usize] {
        if let Some(column) = says_of_level.or_else(|| unit_columns::reference_column(table, &taken)) {
            level.reference_column = Some(column);
            level.both_references = unit_columns::level::names_both(table, column);
            taken[column] = true;
            level.state_column = unit_columns::level::column(table, |at| taken[at]);
        }
        let asks = |at: &usize| !taken[*at] && follow_up::asks_pump_off(&table.headings[*at]);
        level.pump_off = (0..table.headings.len()).find(asks);
    }
    let finish = unit_columns::finish::column(table, |at| taken[at]);
    let screen_as_casing = feeds[Field::CasingDiameter as usize].as_ref().is_some_and(|feed| {
        let explained = table.layout.explained.get(feed.column).map_or("", String::as_str);
        lexicon::meaning(&lexicon::tokens(explained), table.layout.language).has(Concept::Screen)
    });
    let screens = planner.screens(&taken);
    let hole_is_drilled = planner.hole_is_drilled(&feeds);
    let (lower_length, hole_as_casing) = (planner.lower_length(&feeds), planner.hole_as_casing(&feeds));
    let (zeros_are_blanks, negative_blank) = (planner.zeros_are_blanks(&feeds), planner.negative_blank(&feeds));
    planner.blank_heights(&mut feeds);
    planner.unread_sizes(&taken, &feeds);
    let changes = planner.changes_in_words(&taken);
    let carried = planner.carried(&feeds, &asides);
    planner.no_fields(&feeds);
    planner.missing_columns(&feeds);
    planner.say_described(&feeds);
    let rival_widths = planner.rival_widths(&feeds);
    let open = std::mem::take(&mut planner.open);
    let strings = std::mem::take(&mut planner.strings);
    let wordy = planner.wordy(&carried, &feeds);
    Plan {
        columns,
        feeds,
        questions,
        open,
        rival_widths,
        wordy,
        changes,
        described: table.described,
        finish,
        screen_as_casing,
        hole_is_drilled,
        lower_length,
        hole_as_casing,
        zeros_are_blanks,
        negative_blank,
        language: table.layout.language,
        screens,
        sides,
        basin,
        strings,
        own_units,
        rim_height: table.layout.notes.iter().find_map(|note| notes::height_of_all(note, table.layout.language)),
        carried,
    }
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
    profiles: &'a [Profile],
    cells: &'a CellRules,
    type_column: Option<usize>,
    own_types: Vec<(String, WellType)>,
    row_units: Option<Arc<RowUnits>>,
    open: Vec<(usize, Field)>,
    strings: Vec<strings::NextString>,
    /// Strings that are told by the `to` beside their width, and the width before them.
    beside: Vec<strings::NextString>,
    first_width: Option<usize>,
    /// The end of the upper of two strings, where the lower one's is the bottom of the well, and the width of the lower one.
    upper_string: Option<(usize, usize)>,
    /// Lengths that have a column for each unit.
    halves: Vec<halves::Halves>,
    /// Levels of an earlier date, each with the column of the latest.
    before_latest: Vec<(usize, Reading)>,
    /// Bottom and water are both given as elevations.
    both_elevations: bool,
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
}
