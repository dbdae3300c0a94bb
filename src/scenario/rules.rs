//! `[inventory]`, `[[list]]` and `[missing]`: what the campaign says about reading its lists, as [`ReadingRules`].

use chrono::NaiveDate;

use super::product::read_date;
use super::written::{Section, Spot, near};
use crate::error::Result;
use crate::field::lists::ListRules;
use crate::field::rules::{Assumption, Beside, NO_WELL, NOT_KNOWN, ReadingRules, RepeatPolicy, UnitSystem};
use crate::field::{FIELDS, Field, Kind, WellType, species};
use crate::quantity::unit::{self, Meaning};

/// Names of all fields, for messages.
pub fn field_names() -> Vec<&'static str> {
    FIELDS.iter().map(|definition| definition.name).collect()
}

fn field_named(section: &Section<'_>, span: &std::ops::Range<usize>, name: &str) -> Result<Field> {
    Field::by_name(name).ok_or_else(|| {
        let known = field_names();
        section.error_at(span, format!("no field `{name}`{}; fields: {}", near(name, &known), known.join(", ")))
    })
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
    /// The field.
    pub field: Field,
    /// The line.
    pub spot: Spot,
}

/// Reads `[inventory]`, `[[list]]` and `[missing]`.
///
/// # Errors
/// An unknown field, unit or policy, a unit of the wrong dimension, no date, or low/mid/high out of order.
pub(super) fn read(file: &Section<'_>, system: UnitSystem, bounding_box: Option<[f64; 4]>) -> Result<AboutLists> {
    let rules = ReadingRules { system: Some(system), bounding_box, ..ReadingRules::default() };
    let mut lists = AboutLists { rules, date: None, fixed_spots: Vec::new() };
    if let Some(inventory) = file.section("inventory")? {
        lists.date = read_date(&inventory, "date")?;
        read_inventory(&inventory, system, &mut lists)?;
    }
    for section in file.sections("list")? {
        read_list(&section, system, &mut lists)?;
    }
    if let Some(missing) = file.section("missing")? {
        read_missing(&missing, system, &mut lists.rules)?;
    }
    Ok(lists)
}

/// Reads one `[[list]]`.
fn read_list(section: &Section<'_>, campaign: UnitSystem, lists: &mut AboutLists) -> Result<()> {
    let file = section.required_text("file")?;
    if file.contains(['/', '\\']) {
        let reason = "give the name of the file alone, without its folder: the lists themselves are named in the call";
        return Err(section.error_at(&section.span_of("file"), reason));
    }
    let sheet = section.has("sheet").then(|| section.required_text("sheet")).transpose()?;
    let of = |list: &ListRules| list.file == file && list.sheet == sheet;
    if lists.rules.lists.iter().any(of) {
        let sheet = sheet.map_or(String::new(), |sheet| format!(", sheet {sheet:?}"));
        return Err(section.error(format!("a second [[list]] for {file:?}{sheet}: write all of it in one")));
    }
    let system = section.text("system")?.map(|word| system_named(section, "system", Some(&word))).transpose()?;
    let mut list = ListRules { file, sheet, rules: ReadingRules { system, ..ReadingRules::default() } };
    let place = lists.rules.lists.len();
    let spots = &mut lists.fixed_spots;
    read_cells(section, system.unwrap_or(campaign), &mut list.rules, |field, spot| {
        spots.push(FixedSpot { list: Some(place), field, spot });
    })?;
    section.finish()?;
    lists.rules.lists.push(list);
    Ok(())
}

/// The system of units that a key names.
pub(super) fn system_named(section: &Section<'_>, key: &str, word: Option<&str>) -> Result<UnitSystem> {
    match word {
        Some("us") => Ok(UnitSystem::Us),
        Some("metric") => Ok(UnitSystem::Metric),
        Some("imperial") => Ok(UnitSystem::Imperial),
        other => {
            let found = other.map_or("nothing".to_owned(), |word| format!("{word:?}"));
            let reason = format!("`{key}` must be \"us\", \"metric\" or \"imperial\", not {found}");
            Err(section.error_at(&section.span_of(key), reason))
        }
    }
}

fn read_inventory(section: &Section<'_>, system: UnitSystem, lists: &mut AboutLists) -> Result<()> {
    let rules = &mut lists.rules;
    if let Some(word) = section.text("repeats")? {
        rules.repeats = match word.as_str() {
            "hold_back" => RepeatPolicy::HoldBack,
            "separate_visits" => RepeatPolicy::SeparateVisits,
            "latest" => RepeatPolicy::Latest,
            other => {
                let reason =
                    format!("`repeats` must be \"hold_back\", \"separate_visits\" or \"latest\", not {other:?}");
                return Err(section.error_at(&section.span_of("repeats"), reason));
            }
        };
    }
    let spots = &mut lists.fixed_spots;
    read_cells(section, system, rules, |field, spot| spots.push(FixedSpot { list: None, field, spot }))?;
    section.finish()
}

/// Reads what concerns headings and cells: of all lists, or of one.
fn read_cells(
    section: &Section<'_>,
    system: UnitSystem,
    rules: &mut ReadingRules,
    mut fixed_at: impl FnMut(Field, Spot),
) -> Result<()> {
    if let Some(texts) = section.texts("missing_texts")? {
        rules.missing_texts = texts.into_iter().map(|(text, _)| text).collect();
    }
    if let Some(columns) = section.section("columns")? {
        for (heading, _, value) in columns.entries() {
            let Some(name) = value.get_ref().as_str() else {
                return Err(columns.error_at(&value.span(), "a heading maps to the name of a field, in quotes"));
            };
            let of = |beside: Beside| name.strip_prefix(beside.name()).and_then(|rest| rest.strip_prefix(" of "));
            let beside = [Beside::Unit, Beside::Qualifier].into_iter().find_map(|beside| Some((beside, of(beside)?)));
            if let Some((beside, name)) = beside {
                let field = field_named(&columns, &value.span(), name.trim())?;
                if field.quantity().is_none() {
                    let reason = format!("`{}` is not a measured quantity and has no {}", field.name(), beside.name());
                    return Err(columns.error_at(&value.span(), reason));
                }
                rules.beside.insert(heading.to_owned(), (beside, field));
                continue;
            }
            let field = if name.is_empty() { None } else { Some(field_named(&columns, &value.span(), name)?) };
            rules.columns.insert(heading.to_owned(), field);
        }
    }
    if let Some(units) = section.section("units")? {
        for (name, span, value) in units.entries() {
            let field = field_named(&units, &span, name)?;
            let written = value.get_ref().as_str().unwrap_or_default();
            let Some(quantity) = field.quantity() else {
                return Err(units.error_at(&span, format!("`{name}` is not a measured quantity and has no unit")));
            };
            let wanted = || {
                let known: Vec<&str> =
                    unit::all().filter(|unit| unit.dimension == quantity.dimension).map(|unit| unit.symbol).collect();
                format!("units of {}: {}", quantity.dimension.name(), known.join(", "))
            };
            let (unit_written, species) = species::at_end(field, written);
            match unit::look_up(unit_written, system.gallon()) {
                Some(Meaning::Unit(unit)) if unit.dimension == quantity.dimension => {
                    rules.units.insert(field, unit);
                    rules.species.extend(species.map(|species| (field, species)));
                }
                Some(Meaning::Unit(_)) => {
                    let reason = format!("{written:?} is not a unit of {}; {}", quantity.dimension.name(), wanted());
                    return Err(units.error_at(&value.span(), reason));
                }
                Some(Meaning::EitherGallon) => {
                    let reason =
                        format!("{written:?} may be US or imperial: write \"US {written}\" or \"imp {written}\"");
                    return Err(units.error_at(&value.span(), reason));
                }
                None => {
                    return Err(units.error_at(&value.span(), format!("unknown unit {written:?}; {}", wanted())));
                }
            }
        }
    }
    if let Some(fixed) = section.section("fixed")? {
        for (name, span, value) in fixed.entries() {
            let field = field_named(&fixed, &span, name)?;
            let Some(text) = value.get_ref().as_str() else {
                return Err(fixed.error_at(&value.span(), "write the value as it would be typed in a cell, in quotes"));
            };
            rules.fixed.insert(field, text.to_owned());
            fixed_at(field, fixed.source().spot(&value.span()));
        }
    }
    if let Some(words) = section.section("words")? {
        read_words(&words, rules)?;
    }
    Ok(())
}

/// Reads `words`: by field, what a list's own words mean.
fn read_words(section: &Section<'_>, rules: &mut ReadingRules) -> Result<()> {
    for (name, span, value) in section.entries() {
        let field = field_named(section, &span, name)?;
        let mut meanings: Vec<&str> = match field.definition().kind {
            Kind::Choice(choices) => choices.iter().map(|(choice, _)| *choice).collect(),
            Kind::Flag => vec!["yes", "no"],
            Kind::Text | Kind::Quantity(_) => {
                let reason =
                    format!("`{name}` is neither a choice nor yes or no: its cells have no words of their own");
                return Err(section.error_at(&span, reason));
            }
        };
        meanings.push(NOT_KNOWN);
        if field == Field::WellType {
            meanings.push(NO_WELL);
        }
        let of_field = section.open(name, value)?;
        for (word, span, value) in of_field.entries() {
            if word.trim().is_empty() {
                let reason = "a blank cell has no word; [inventory.fixed] gives a value for blank cells";
                return Err(of_field.error_at(&span, reason));
            }
            let meaning = value.get_ref().as_str().unwrap_or_default();
            if !meanings.contains(&meaning) {
                let reason = format!(
                    "{word:?} must mean one of: {}{}",
                    meanings.iter().map(|meaning| format!("{meaning:?}")).collect::<Vec<_>>().join(", "),
                    near(meaning, &meanings)
                );
                return Err(of_field.error_at(&value.span(), reason));
            }
            rules.words.entry(field).or_default().insert(word.to_owned(), meaning.to_owned());
        }
    }
    Ok(())
}

fn read_missing(section: &Section<'_>, system: UnitSystem, rules: &mut ReadingRules) -> Result<()> {
    for (name, span, value) in section.entries() {
        let Some(well_type) = WellType::by_name(name) else {
            let known = WellType::ALL.map(WellType::name);
            let reason = format!("no well type `{name}`{}; types: {}", near(name, &known), known.join(", "));
            return Err(section.error_at(&span, reason));
        };
        let of_type = section.open(name, value)?;
        for (name, span, value) in of_type.entries() {
            let field = field_named(&of_type, &span, name)?;
            let Some(quantity) = field.quantity() else {
                let reason = format!("`{name}` is not a measured quantity; only those can be assumed");
                return Err(of_type.error_at(&span, reason));
            };
            match value.get_ref().as_str() {
                Some("from_list") => {
                    rules.drawn.insert((well_type, field));
                    continue;
                }
                Some(other) => {
                    let reason = format!(
                        "an assumed `{name}` is {{ low = …, mid = …, high = … }}, or \"from_list\" to draw it from the \
                         list's own wells of the same type, not {other:?}"
                    );
                    return Err(of_type.error_at(&value.span(), reason));
                }
                None => {}
            }
            let assumption = of_type.open(name, value)?;
            if let Some(drawn) = assumption.value("from_list") {
                // Drawn first; low, mid and high are for lists that have too few wells to draw from.
                match drawn.get_ref().as_bool() {
                    Some(true) => {
                        rules.drawn.insert((well_type, field));
                    }
                    Some(false) => {}
                    None => return Err(assumption.error_at(&drawn.span(), "`from_list` must be true or false")),
                }
            }
            let part = |key: &'static str| -> Result<f64> {
                let Some(written) = assumption.value(key) else {
                    return Err(assumption.error(format!("an assumed `{name}` needs low, mid and high")));
                };
                if let (
                    Some(number),
                    crate::quantity::unit::Dimension::Number | crate::quantity::unit::Dimension::Concentration,
                ) = (super::written::number_of(written.get_ref()), quantity.dimension)
                {
                    // A bare number is unmistakable where the field has one unit everywhere.
                    return Ok(unit::by_symbol(quantity.unit).map_or(number, |unit| unit.to_si(number)));
                }
                if let Some((_, Some(species))) = written.get_ref().as_str().map(|text| species::at_end(field, text)) {
                    let own = species.of_field();
                    if species.symbol != own {
                        let reason = format!("an assumed `{name}` is given as {own}, not as {}", species.symbol);
                        return Err(assumption.error_at(&written.span(), reason));
                    }
                }
                assumption.quantity_of(key, written, quantity.dimension, system.gallon())
            };
            let (low, mid, high) = (part("low")?, part("mid")?, part("high")?);
            assumption.finish()?;
            if !(low <= mid && mid <= high) {
                return Err(assumption.error(format!("an assumed `{name}` needs low <= mid <= high")));
            }
            let printed = unit::by_symbol(quantity.unit);
            for si in [low, mid, high] {
                let value = printed.map_or(si, |unit| unit.from_si(si));
                if !(quantity.possible.0..=quantity.possible.1).contains(&value) {
                    let (least, most) = quantity.possible;
                    let reason = format!("an assumed `{name}` must lie from {least} to {most} {}", quantity.unit);
                    return Err(assumption.error(reason));
                }
            }
            rules.assumptions.insert((well_type, field), Assumption { low, mid, high });
        }
    }
    Ok(())
}
