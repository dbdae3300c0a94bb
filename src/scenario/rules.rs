//! `[inventory]`, `[[list]]` and `[missing]`: what the campaign says about reading its lists, as [`ReadingRules`].

use chrono::NaiveDate;

use super::section::{FREE, Section, near};
use super::stated::{At, Spot, Stated, Written};
use crate::field::rules::{Beside, ListRules, NO_WELL, NOT_KNOWN, ReadingRules, RepeatPolicy, UnitSystem};
use crate::field::{FIELDS, Field, Kind, WellType, species};
use crate::parameter::{ASSUMED, MISSING};
use crate::quantity::Band;
use crate::quantity::unit::{self, Dimension, Meaning};

/// Names of all fields, for messages.
pub fn field_names() -> Vec<&'static str> {
    FIELDS.iter().map(|definition| definition.name).collect()
}

fn field_named(section: &Section<'_>, at: &At, name: &str) -> Option<Field> {
    let field = Field::by_name(name);
    if field.is_none() {
        let known = field_names();
        section.fault_at(at, format!("no field `{name}`{}; fields: {}", near(name, &known), known.join(", ")));
    }
    field
}

/// What `[inventory]` and `[missing]` say.
pub(super) struct AboutLists {
    /// How the lists are read.
    pub rules: ReadingRules,
    /// The day that they are of.
    pub date: Option<NaiveDate>,
    /// Where the values for blank cells are written.
    pub fixed_spots: Vec<FixedSpot>,
}

/// Where a value for blank cells is written.
#[derive(Debug, Clone, PartialEq)]
pub struct FixedSpot {
    /// The list it is for, by its place among [`ReadingRules::lists`]; nothing where it is for all.
    pub list: Option<usize>,
    /// The field whose blank cells it fills.
    pub field: Field,
    /// Where the value is written: a fault that shows later points there.
    pub spot: Spot,
}

/// Reads `[inventory]`, `[[list]]` and `[missing]`.
pub(super) fn read(file: &Section<'_>, system: UnitSystem, bounding_box: Option<[f64; 4]>) -> AboutLists {
    let rules = ReadingRules { system: Some(system), bounding_box, ..ReadingRules::default() };
    let mut lists = AboutLists { rules, date: None, fixed_spots: Vec::new() };
    if let Some(inventory) = file.section("inventory") {
        lists.date = inventory.date("date");
        read_inventory(&inventory, system, &mut lists);
    }
    for section in file.sections("list") {
        read_list(&section, system, &mut lists);
    }
    if let Some(missing) = file.section("missing") {
        read_missing(&missing, system, &mut lists.rules);
    }
    lists
}

/// Reads one `[[list]]`, which says how a single file or sheet is read.
fn read_list(section: &Section<'_>, campaign: UnitSystem, lists: &mut AboutLists) {
    section.finish();
    let file = section.needed_text("file");
    if file.as_ref().is_some_and(|file| file.contains('\\') || file.starts_with('/')) {
        let reason = "give the name of the file without its folder, or with the last folders, parted by /, where two lists are \
                      called the same: the lists themselves are named in the call";
        section.fault_of("file", reason);
    }
    let sheet = if section.has("sheet") { section.needed_text("sheet") } else { None };
    let system = system_stated(section, "system");
    let file = file.unwrap_or_default();
    if lists.rules.lists.iter().any(|list| list.file == file && list.sheet == sheet) {
        let sheet = sheet.as_ref().map_or(String::new(), |sheet| format!(", sheet {sheet:?}"));
        section.fault(format!("a second [[list]] for {file:?}{sheet}: write all of it in one"));
    }
    let mut list = ListRules { file, sheet, rules: ReadingRules { system, ..ReadingRules::default() } };
    let place = lists.rules.lists.len();
    let spots = &mut lists.fixed_spots;
    read_cells(section, system.unwrap_or(campaign), &mut list.rules, |field, spot| {
        spots.push(FixedSpot { list: Some(place), field, spot });
    });
    lists.rules.lists.push(list);
}

/// The system of units that a key names.
pub(super) fn system_stated(section: &Section<'_>, key: &str) -> Option<UnitSystem> {
    let word = section.word(key)?;
    [UnitSystem::Us, UnitSystem::Metric, UnitSystem::Imperial].into_iter().find(|system| system.name() == word)
}

fn read_inventory(section: &Section<'_>, system: UnitSystem, lists: &mut AboutLists) {
    section.finish();
    let rules = &mut lists.rules;
    match section.word("repeats") {
        Some("separate_visits") => rules.repeats = RepeatPolicy::SeparateVisits,
        Some("latest") => rules.repeats = RepeatPolicy::Latest,
        Some(_) => rules.repeats = RepeatPolicy::HoldBack,
        None => {}
    }
    let spots = &mut lists.fixed_spots;
    read_cells(section, system, rules, |field, spot| spots.push(FixedSpot { list: None, field, spot }));
}

/// Reads what concerns headings and cells: of all lists, or of one.
fn read_cells(
    section: &Section<'_>,
    system: UnitSystem,
    rules: &mut ReadingRules,
    mut fixed_at: impl FnMut(Field, Spot),
) {
    if let Some(texts) = section.texts("missing_texts") {
        rules.missing_texts = texts.into_iter().map(|(text, _)| text).collect();
    }
    if let Some(columns) = section.section("columns") {
        for (heading, _, stated) in columns.entries() {
            read_column(&columns, heading, stated, rules);
        }
    }
    if let Some(units) = section.section("units") {
        for (name, at, stated) in units.entries() {
            read_unit(&units, name, at, stated, system, rules);
        }
    }
    if let Some(fixed) = section.section("fixed") {
        for (name, at, stated) in fixed.entries() {
            let field = field_named(&fixed, at, name);
            let Some(text) = stated.value.text() else {
                fixed.fault_at(&stated.at, "write the value as it would be typed in a cell, in quotes");
                continue;
            };
            let Some(field) = field else { continue };
            rules.fixed.insert(field, text.to_owned());
            fixed_at(field, fixed.spot(&stated.at));
        }
    }
    if let Some(words) = section.section("words") {
        read_words(&words, rules);
    }
}

/// Reads what one column is read as.
fn read_column(columns: &Section<'_>, heading: &str, stated: &Stated, rules: &mut ReadingRules) {
    let Some(name) = stated.value.text() else {
        return columns.fault_at(&stated.at, "a heading maps to the name of a field, in quotes");
    };
    let of = |beside: Beside| name.strip_prefix(beside.name()).and_then(|rest| rest.strip_prefix(" of "));
    let beside = [Beside::Unit, Beside::Qualifier].into_iter().find_map(|beside| Some((beside, of(beside)?)));
    if let Some((beside, name)) = beside {
        let Some(field) = field_named(columns, &stated.at, name.trim()) else { return };
        if field.quantity().is_none() {
            let reason = format!("`{}` is not a measured quantity and has no {}", field.name(), beside.name());
            return columns.fault_at(&stated.at, reason);
        }
        rules.beside.insert(heading.to_owned(), (beside, field));
        return;
    }
    let field = if name.is_empty() { None } else { field_named(columns, &stated.at, name) };
    rules.columns.insert(heading.to_owned(), field);
}

/// Reads the unit of one field.
fn read_unit(units: &Section<'_>, name: &str, at: &At, stated: &Stated, system: UnitSystem, rules: &mut ReadingRules) {
    let Some(field) = field_named(units, at, name) else { return };
    let written = stated.value.text().unwrap_or_default();
    let Some(quantity) = field.quantity() else {
        return units.fault_at(at, format!("`{name}` is not a measured quantity and has no unit"));
    };
    let wanted = || {
        let known: Vec<&str> =
            unit::all().filter(|unit| unit.dimension == quantity.dimension).map(|unit| unit.symbol).collect();
        format!("units of {}: {}", quantity.dimension.name(), known.join(", "))
    };
    let (unit_written, species) = species::at_end(field, written);
    let reason = match unit::look_up(unit_written, system.gallon()) {
        Some(Meaning::Unit(unit)) if unit.dimension == quantity.dimension => {
            rules.units.insert(field, unit);
            rules.species.extend(species.map(|species| (field, species)));
            return;
        }
        Some(Meaning::Unit(_)) => {
            format!("{written:?} is not a unit of {}; {}", quantity.dimension.name(), wanted())
        }
        Some(Meaning::EitherGallon) => {
            format!("{written:?} may be US or imperial: write \"US {written}\" or \"imp {written}\"")
        }
        None => format!("unknown unit {written:?}; {}", wanted()),
    };
    units.fault_at(&stated.at, reason);
}

/// Reads `words`: by field, what a list's own words mean.
fn read_words(section: &Section<'_>, rules: &mut ReadingRules) {
    for (name, at, stated) in section.entries() {
        let Some(field) = field_named(section, at, name) else { continue };
        if field.is_name_of_places() {
            read_names(section, name, stated, field, rules);
            continue;
        }
        let Some(meanings) = meanings(field) else {
            let reason = format!("`{name}` is neither a choice nor yes or no: its cells have no words of their own");
            section.fault_at(at, reason);
            continue;
        };
        let Some(of_field) = section.open(name, stated, &FREE) else { continue };
        for (word, at, stated) in of_field.entries() {
            if word.trim().is_empty() {
                let reason = "a blank cell has no word; [inventory.fixed] gives a value for blank cells";
                of_field.fault_at(at, reason);
                continue;
            }
            let meaning = stated.value.text().unwrap_or_default();
            if !meanings.contains(&meaning) {
                let reason = format!(
                    "{word:?} must mean one of: {}{}",
                    meanings.iter().map(|meaning| format!("{meaning:?}")).collect::<Vec<_>>().join(", "),
                    near(meaning, &meanings)
                );
                of_field.fault_at(&stated.at, reason);
                continue;
            }
            rules.words.entry(field).or_default().insert(word.to_owned(), meaning.to_owned());
        }
    }
}

/// Reads names of depots or regions, each with the name that is kept in its place.
fn read_names(section: &Section<'_>, name: &str, stated: &Stated, field: Field, rules: &mut ReadingRules) {
    let Some(names) = section.open(name, stated, &FREE) else { return };
    for (written, at, stated) in names.entries() {
        match stated.value.text().map(str::trim) {
            _ if written.trim().is_empty() => {
                names.fault_at(at, "a blank cell has no name; [inventory.fixed] gives a value for blank cells");
            }
            Some(kept) if !kept.is_empty() => {
                rules.words.entry(field).or_default().insert(written.to_owned(), kept.to_owned());
            }
            _ => names.fault_at(&stated.at, format!("say under which name {written:?} is counted")),
        }
    }
}

/// What a word may mean in a field: its choices, or yes and no; nothing for a field of numbers or names.
pub fn meanings(field: Field) -> Option<Vec<&'static str>> {
    let mut meanings: Vec<&str> = match field.definition().kind {
        Kind::Choice(choices) => choices.iter().map(|(choice, _)| *choice).collect(),
        Kind::Flag => vec!["yes", "no"],
        Kind::Text | Kind::Quantity(_) => return None,
    };
    meanings.push(NOT_KNOWN);
    if field == Field::WellType {
        meanings.push(NO_WELL);
    }
    Some(meanings)
}

fn read_missing(section: &Section<'_>, system: UnitSystem, rules: &mut ReadingRules) {
    for (name, at, stated) in section.entries() {
        let well_type = WellType::by_name(name);
        if well_type.is_none() {
            let known = WellType::ALL.map(WellType::name);
            let reason = format!("no well type `{name}`{}; types: {}", near(name, &known), known.join(", "));
            section.fault_at(at, reason);
        }
        let Some(of_type) = section.open(name, stated, &MISSING) else { continue };
        for (name, at, stated) in of_type.entries() {
            let Some(field) = field_named(&of_type, at, name) else { continue };
            read_assumed(&of_type, well_type, field, at, stated, system, rules);
        }
    }
}

/// Reads what is assumed for one field of one type of well.
fn read_assumed(
    of_type: &Section<'_>,
    well_type: Option<WellType>,
    field: Field,
    at: &At,
    stated: &Stated,
    system: UnitSystem,
    rules: &mut ReadingRules,
) {
    let name = field.name();
    let Some(quantity) = field.quantity() else {
        return of_type.fault_at(at, format!("`{name}` is not a measured quantity; only those can be assumed"));
    };
    match stated.value.text() {
        Some("from_list") => {
            rules.drawn.extend(well_type.map(|well_type| (well_type, field)));
            return;
        }
        Some(other) => {
            let reason = format!(
                "an assumed `{name}` is {{ low = …, mid = …, high = … }}, or \"from_list\" to draw it from the list's own \
                 wells of the same type, not {other:?}"
            );
            return of_type.fault_at(&stated.at, reason);
        }
        None => {}
    }
    let Some(assumption) = of_type.open(name, stated, &ASSUMED) else { return };
    assumption.finish();
    if assumption.has("from_list") {
        // Drawn first; low, mid and high are for lists that have too few wells to draw from.
        if assumption.flag("from_list") == Some(true) {
            rules.drawn.extend(well_type.map(|well_type| (well_type, field)));
        }
    }
    if !["low", "mid", "high"].iter().all(|key| assumption.has(key)) {
        return assumption.fault(format!("an assumed `{name}` needs low, mid and high"));
    }
    let part = |key: &str| -> Option<f64> {
        let stated = assumption.value(key)?;
        if let (Written::Number(number), Dimension::Number | Dimension::Concentration) =
            (&stated.value, quantity.dimension)
        {
            // A bare number is unmistakable where the field has one unit everywhere.
            return Some(unit::by_symbol(quantity.unit).map_or(*number, |unit| unit.to_si(*number)));
        }
        if let Some((_, Some(species))) = stated.value.text().map(|text| species::at_end(field, text)) {
            let own = species.of_field();
            if species.symbol != own {
                let reason = format!("an assumed `{name}` is given as {own}, not as {}", species.symbol);
                assumption.fault_at(&stated.at, reason);
                return None;
            }
        }
        assumption.quantity_of(key, stated, quantity.dimension, system.gallon())
    };
    let (low, mid, high) = (part("low"), part("mid"), part("high"));
    let (Some(low), Some(mid), Some(high)) = (low, mid, high) else { return };
    if !(low <= mid && mid <= high) {
        assumption.fault(format!("an assumed `{name}` needs low <= mid <= high"));
    }
    let printed = unit::by_symbol(quantity.unit);
    let value = |si: f64| printed.map_or(si, |unit| unit.from_si(si));
    let (least, most) = quantity.possible;
    if [low, mid, high].into_iter().any(|si| !(least..=most).contains(&value(si))) {
        assumption.fault(format!("an assumed `{name}` must lie from {least} to {most} {}", quantity.unit));
    }
    rules.assumptions.extend(well_type.map(|well_type| ((well_type, field), Band { low, mid, high })));
}
