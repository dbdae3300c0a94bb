//! Headings as people write them: which field they name, and which unit they carry.
//!
//! `Depth (ft)`, `depth_ft`, `WELL_DEPTH_FT`, `static_water_level_ft-btoc`, `well_yield_(m^3/hr)`, `DepthFt`. Knows the
//! vocabulary of [`crate::field`]; refuses to decide between columns, which is the work of `columns`.

use std::collections::HashMap;
use std::sync::OnceLock;

use super::lexicon;
use super::rows::Rows;
use crate::field::rules::{Beside, ReadingRules};
use crate::field::species::{self, Species};
pub use crate::field::squash;
use crate::field::{FIELDS, Field, Kind};
use crate::quantity::parse::{Reference, edits};
use crate::quantity::unit::{self, Dimension, Gallon, Meaning, Unit};

/// The unit a heading carries.
#[derive(Debug, Clone, PartialEq)]
pub enum HeadingUnit {
    /// None.
    None,
    /// This one.
    Unit(&'static Unit),
    /// A US or an imperial one, as written.
    EitherGallon(String),
    /// Something in brackets that is not a unit we know.
    Unknown(String),
}

/// What a heading says.
#[derive(Debug, Clone, PartialEq)]
pub struct Named {
    /// The field.
    pub field: Field,
    /// How good the name is: 0 is the canonical name, then the place in the list of other names.
    pub rank: usize,
    /// Its unit.
    pub unit: HeadingUnit,
    /// Depth is counted from here, where the heading says so (`btoc`).
    pub datum: Option<Datum>,
    /// The unit is a bare suffix `_in`, which may also mean "inner".
    pub bare_in: bool,
    /// What its mg/L are counted as, where the heading says so (`as NO2`).
    pub species: Option<&'static Species>,
}

impl Named {
    /// A field that other words than its names tell, without a unit.
    pub const fn told(field: Field) -> Self {
        Self { field, rank: usize::MAX, unit: HeadingUnit::None, datum: None, bare_in: false, species: None }
    }

    /// Whether this is plain `nitrite` or `ammonia`, which laboratories count as nitrogen or as what they are.
    pub fn leaves_nitrogen_open(&self) -> bool {
        let name = self.rank.checked_sub(1).and_then(|at| self.field.definition().headings.get(at));
        self.species.is_none() && name.is_some_and(|name| ["nitrite", "ammonia"].contains(name))
    }
}

/// What a depth is counted from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Datum {
    /// Ground.
    Ground,
    /// Top of casing, which stands above the ground.
    TopOfCasing,
    /// Sea level: an elevation, not a depth.
    SeaLevel,
}

impl Datum {
    /// The same, as cells say it.
    pub const fn reference(self) -> Reference {
        match self {
            Self::Ground => Reference::Ground,
            Self::TopOfCasing => Reference::Top,
            Self::SeaLevel => Reference::SeaLevel,
        }
    }
}

/// Names that could be a depth to water or a height of water.
const WATER_DEPTH: &[&str] =
    &["waterdepth", "depthofwater", "depthwater", "waterdepths", "wdepth", "level", "standingwater", "waterstanding"];

/// Words that look like one of ours and are another thing.
const NOT_NEAR: &[&str] =
    &["nitrate", "nitrates", "sulfate", "sulphate", "sulfates", "altitude", "magnesium", "potassium"];

/// Words in brackets or after the name that are not units and change nothing.
const REMARKS: &[&str] = &[
    "total",
    "est",
    "estimated",
    "approx",
    "reported",
    "measured",
    "if known",
    "optional",
    "required",
    "max",
    "decimal",
    "decimal degrees",
    "wgs84",
    "wgs 84",
    "nad83",
    "dd",
    "yes/no",
    "y/n",
    "text",
    "number",
    "field",
    "lab",
    "inside",
    "id",
    "nominal",
];

fn vocabulary() -> &'static HashMap<String, (Field, usize)> {
    static VOCABULARY: OnceLock<HashMap<String, (Field, usize)>> = OnceLock::new();
    VOCABULARY.get_or_init(|| {
        let mut names = HashMap::new();
        for definition in &FIELDS {
            let all = std::iter::once(&definition.name).chain(definition.headings);
            for (rank, name) in all.enumerate() {
                names.entry(squash(name)).or_insert((definition.field, rank));
            }
        }
        names
    })
}

/// Every name that a slip of the pen may be near to: its letters, its field, and as it is written.
fn names() -> &'static [(String, Field, &'static str)] {
    static NAMES: OnceLock<Vec<(String, Field, &'static str)>> = OnceLock::new();
    NAMES.get_or_init(|| {
        let each = FIELDS.iter().flat_map(|definition| {
            let all = std::iter::once(&definition.name).chain(definition.headings);
            all.map(|name| (squash(name), definition.field, *name))
        });
        each.filter(|(plain, ..)| plain.len() >= 5).collect()
    })
}

/// Whether a field is a depth, a level or a height, which hardly anybody measures in inches.
pub const fn goes_down(field: Field) -> bool {
    matches!(field, Field::TotalDepth | Field::StaticWaterLevel | Field::WaterColumn | Field::CasingDepth)
}

/// Whether a heading of a depth, a level or a height ends in a bare `in`, which may be the preposition: `Water in`, `Depth in`.
/// A bracket, a period, a comma or a joint makes a unit of it, and what goes across is measured in inches.
pub fn ends_in_preposition(heading: &str, field: Field) -> bool {
    let heading = heading.trim_end().to_lowercase();
    let rest = heading.strip_suffix("in").filter(|rest| rest.ends_with(char::is_whitespace)).map(str::trim_end);
    goes_down(field) && rest.is_some_and(|rest| rest.ends_with(char::is_alphanumeric))
}

/// What the heading says, if it names a field.
pub fn name(heading: &str, gallon: Option<Gallon>) -> Option<Named> {
    if let Some((rest, written)) = species::out_of(heading)
        && let Some(named) = name_and_unit(&rest, gallon)
        && let Some(species) = species::named(named.field, written)
    {
        return Some(Named { species: Some(species), ..named });
    }
    name_and_unit(heading, gallon).or_else(|| {
        // `Alkalinity mg/L CaCO3`
        species::endings(heading).find_map(|(rest, species)| {
            let named = name_and_unit(rest, gallon).filter(|named| named.field == species.field)?;
            Some(Named { species: Some(species), ..named })
        })
    })
}

fn name_and_unit(heading: &str, gallon: Option<Gallon>) -> Option<Named> {
    let (outer, inner) = brackets(heading);
    let found = vocabulary().get(&squash(outer)).copied();
    let named =
        |(field, rank)| Named { field, rank, unit: HeadingUnit::None, datum: None, bare_in: false, species: None };
    let symbol = || species::alone(outer.trim());
    let whole = found.map(named).or_else(|| {
        // After every name in words: `NO2-N` stands beside `NO2` in the same table.
        symbol().map(|species| Named { species: Some(species), ..named((species.field, usize::MAX)) })
    });
    match (whole, inner) {
        (Some(named), Some(inner)) => {
            let (inner, species) = species::at_end(named.field, inner);
            let (unit, datum) = bracket_unit(inner, named.field, gallon);
            Some(Named { unit, datum, species: species.or(named.species), ..named })
        }
        (Some(named), None) => Some(named),
        // `Depth ft (bgl)`: what is in brackets is a remark, the unit stands before it.
        (None, inner) => by_suffix(outer, gallon).map(|named| {
            let datum = inner.and_then(|inner| bracket_unit(inner, named.field, gallon).1);
            Named { datum: datum.or(named.datum), ..named }
        }),
    }
}

/// What the mg/L of a column are counted as by its heading, for a field it was mapped to by hand.
pub fn species_for(heading: &str, field: Field) -> Option<&'static Species> {
    let in_words = || {
        let words = words(heading);
        // A single letter could be anything but nitrogen, which is written so: `NO2-N`.
        let symbol = |word: &&String| word.len() > 1 || word.as_str() == "n";
        // More words first: `CaCO3` falls into `ca` and `co3`, `CaCO 3` into three, and none is meant.
        (0..words.len()).rev().find_map(|at| {
            let joined = |before: usize| {
                at.checked_sub(before).and_then(|from| species::named(field, &words[from..=at].concat()))
            };
            joined(2)
                .or_else(|| joined(1))
                .or_else(|| Some(&words[at]).filter(symbol).and_then(|word| species::named(field, word)))
        })
    };
    species::out_of(heading).and_then(|(_, written)| species::named(field, written)).or_else(in_words)
}

/// The unit a heading carries for a field it was mapped to by hand.
pub fn unit_for(heading: &str, field: Field, gallon: Option<Gallon>) -> (HeadingUnit, Option<Datum>, bool) {
    let Some(quantity) = field.quantity() else { return (HeadingUnit::None, None, false) };
    let without_species = species::out_of(heading).map(|(rest, _)| rest);
    let heading = without_species.as_deref().unwrap_or_else(|| species::at_end(field, heading).0);
    let (outer, inner) = brackets(heading);
    let inside = inner.map(|inner| bracket_unit(species::at_end(field, inner).0, field, gallon));
    if let Some((HeadingUnit::Unit(unit), datum)) = &inside
        && unit.dimension == quantity.dimension
    {
        return (HeadingUnit::Unit(unit), *datum, false);
    }
    // A mapping names the field and changes nothing else: what is not a unit of it is as much in the way as without one.
    let (unit, datum) = inside.unwrap_or((HeadingUnit::None, None));
    let words = words(outer);
    match suffix(&words, gallon).into_iter().find(|suffix| fits(suffix, quantity.dimension)) {
        Some(suffix) => (suffix.unit, datum.or(suffix.datum), suffix.bare_in),
        None => {
            let below = suffix(&words, gallon).into_iter().find_map(|suffix| suffix.datum);
            (unit, datum.or(below), false)
        }
    }
}

fn fits(suffix: &Suffix, dimension: Dimension) -> bool {
    match &suffix.unit {
        HeadingUnit::Unit(unit) => unit.dimension == dimension,
        HeadingUnit::EitherGallon(_) => matches!(dimension, Dimension::Volume | Dimension::Flow),
        HeadingUnit::None | HeadingUnit::Unknown(_) => false,
    }
}

/// The heading without its unit, squashed, and the unit.
pub fn stem(heading: &str, gallon: Option<Gallon>) -> (String, HeadingUnit) {
    let (outer, inner) = brackets(heading);
    if let Some(inner) = inner
        && let (unit @ HeadingUnit::Unit(_), _) = bracket_unit(inner, Field::TotalDepth, gallon)
    {
        return (squash(outer), unit);
    }
    let words = words(outer);
    match suffix(&words, gallon).into_iter().find(|suffix| matches!(suffix.unit, HeadingUnit::Unit(_))) {
        Some(suffix) => (words[..suffix.stem].concat(), suffix.unit),
        None => (words.concat(), HeadingUnit::None),
    }
}

/// A heading in the way that others write it: `Csg "` with its unit in brackets, one run of letters with blanks between its
/// words; nothing where it is known as it stands.
pub fn spaced(heading: &str, gallon: Option<Gallon>) -> Option<String> {
    if let Some(marked) = unit_of_mark(heading) {
        return Some(marked);
    }
    if heading.contains('@') {
        return Some(tidy(&heading.replace('@', " at ")));
    }
    let words = lexicon::tokens(heading);
    let known = name(heading, gallon).is_some()
        || words.len() != 1
        || !lexicon::meaning(&words, lexicon::Language::English).concepts.is_empty();
    if known { None } else { lexicon::spaced(heading) }
}

/// `Csg "` as `Csg (in)`, `Depth '` as `Depth (ft)`: a lone mark at the end, which closes no quotation and follows no owner.
fn unit_of_mark(heading: &str) -> Option<String> {
    const INCHES: [char; 3] = ['"', '″', '”'];
    const FEET: [char; 3] = ['\'', '′', '’'];
    let heading = heading.trim_end();
    let mark = heading.chars().next_back()?;
    let rest = &heading[..heading.len() - mark.len_utf8()];
    let lone = |marks: &[char]| marks.contains(&mark) && !rest.contains(marks) && !rest.contains(['(', '[', '“']);
    let unit = if lone(&INCHES) {
        "in"
    } else if lone(&FEET) && rest.ends_with(' ') {
        "ft"
    } else {
        return None;
    };
    rest.contains(char::is_alphabetic).then(|| format!("{} ({unit})", rest.trim_end()))
}

/// `Casing (in) or mouth (m)`, `write inches or feet`: the units of pipes and of wide wells, where one heading names both.
pub fn narrow_and_wide(heading: &str) -> Option<(&'static Unit, &'static Unit)> {
    const OR: [&str; 4] = ["or", "o", "ou", "u"];
    let length = |word: &str| match unit::look_up(word, None) {
        Some(Meaning::Unit(unit)) if unit.dimension == Dimension::Length => Some(unit),
        _ => None,
    };
    let mut units: Vec<&'static Unit> = heading
        .split(['(', '['])
        .skip(1)
        .filter_map(|part| part.split([')', ']']).next())
        .filter_map(|inner| length(&inner.trim().to_lowercase()))
        .collect();
    if units.len() < 2 {
        let words = words(heading);
        let either = |part: &[String]| OR.contains(&&*part[1]).then(|| Some([length(&part[0])?, length(&part[2])?]));
        units = words.windows(3).find_map(|part| either(part).flatten()).map_or(units, Vec::from);
    }
    let is_wide = |unit: &Unit| matches!(unit.symbol, "ft" | "m");
    match units.as_slice() {
        [one, other] if is_wide(one) != is_wide(other) => {
            Some(if is_wide(one) { (*other, *one) } else { (*one, *other) })
        }
        _ => None,
    }
}

/// Whether the heading could be a depth to water or a height of water.
pub fn is_water_depth(heading: &str, gallon: Option<Gallon>) -> bool {
    let (outer, _) = brackets(heading);
    let words = words(outer);
    let stems = suffix(&words, gallon).into_iter().map(|suffix| suffix.stem).chain(std::iter::once(words.len()));
    stems.into_iter().any(|stem| WATER_DEPTH.contains(&words[..stem].concat().as_str()))
}

/// The field whose name is nearly this, for headings that name none.
pub fn near(heading: &str, gallon: Option<Gallon>) -> Option<(Field, &'static str)> {
    let (outer, _) = brackets(heading);
    let words = words(outer);
    let stems = suffix(&words, gallon).into_iter().map(|suffix| suffix.stem).chain(std::iter::once(words.len()));
    for stem in stems {
        let written = words[..stem].concat();
        let letters = written.chars().count();
        if !(5..=40).contains(&letters) || NOT_NEAR.contains(&written.as_str()) {
            continue;
        }
        // `county_cd` and `construction_dt` are other things, not slips of the pen.
        let without_last = words[..stem.saturating_sub(1)].concat();
        let allowed = if letters >= 8 { 2 } else { 1 };
        let mut best: Option<(usize, Field, &'static str)> = None;
        for (plain, field, name) in names() {
            if plain.len().abs_diff(letters) > allowed {
                continue;
            }
            if *plain == without_last {
                return None;
            }
            let distance = edits(&written, plain);
            if distance <= allowed && best.is_none_or(|(least, ..)| distance < least) {
                best = Some((distance, *field, *name));
            }
        }
        if let Some((_, field, name)) = best {
            return Some((field, name));
        }
    }
    None
}

/// The part before the first bracket, and what is in the last pair of brackets.
fn brackets(heading: &str) -> (&str, Option<&str>) {
    let Some(open) = heading.find(['(', '[', '{']) else { return (heading, None) };
    let Some(close) = heading.rfind([')', ']', '}']).filter(|close| *close > open) else { return (heading, None) };
    let last = heading[..close].rfind(['(', '[', '{']).unwrap_or(open);
    (&heading[..open], Some(heading[last + 1..close].trim()))
}

fn bracket_unit(inner: &str, field: Field, gallon: Option<Gallon>) -> (HeadingUnit, Option<Datum>) {
    let lower = inner.to_lowercase();
    let mut rest = lower.trim();
    // Before anything is cut off: what is left of `fbgs` would be a degree Fahrenheit.
    if let Some(((_, unit), meaning)) = joined(rest) {
        return (HeadingUnit::Unit(unit), Some(meaning));
    }
    let mut datum = None;
    for (ending, meaning) in DATUM_PHRASES {
        if let Some(before) = rest.strip_suffix(ending) {
            rest = before.trim_end_matches([' ', '-', ',', '_']);
            datum = Some(*meaning);
            break;
        }
    }
    let after = |word: &&str| rest.strip_prefix(*word).filter(|rest| unit::look_up(rest, gallon).is_some());
    let rest = ["in ", "en ", "em "].iter().find_map(after).unwrap_or(rest);
    if rest.is_empty() || REMARKS.contains(&rest) || field.quantity().is_none() {
        return (HeadingUnit::None, datum);
    }
    let unit = match unit::look_up(rest, gallon) {
        Some(Meaning::Unit(unit)) => HeadingUnit::Unit(unit),
        Some(Meaning::EitherGallon) => HeadingUnit::EitherGallon(rest.to_owned()),
        None => HeadingUnit::Unknown(inner.to_owned()),
    };
    (unit, datum)
}

const DATUM_PHRASES: &[(&str, Datum)] = &[
    ("below ground level", Datum::Ground),
    ("below ground surface", Datum::Ground),
    ("below ground", Datum::Ground),
    ("below land surface", Datum::Ground),
    ("below surface", Datum::Ground),
    ("below top of casing", Datum::TopOfCasing),
    ("from top of casing", Datum::TopOfCasing),
    ("above sea level", Datum::SeaLevel),
    ("bgl", Datum::Ground),
    ("bgs", Datum::Ground),
    ("bls", Datum::Ground),
    ("btoc", Datum::TopOfCasing),
    ("btc", Datum::TopOfCasing),
    ("toc", Datum::TopOfCasing),
    ("amsl", Datum::SeaLevel),
    ("asl", Datum::SeaLevel),
];

/// `mbgl`, `fbgs`, `ftbgs`: unit and datum in one word.
fn joined(word: &str) -> Option<((&'static str, &'static Unit), Datum)> {
    for (ending, datum) in DATUM_PHRASES.iter().filter(|(ending, _)| !ending.contains(' ')) {
        if let Some(start) = word.strip_suffix(ending) {
            let symbol = match start.trim_end_matches(['-', '_']) {
                "m" => "m",
                "f" | "ft" => "ft",
                _ => continue,
            };
            return unit::by_symbol(symbol).map(|unit| ((symbol, unit), *datum));
        }
    }
    None
}

/// The words of a heading in lower case: cut at anything but letters and digits, and where a capital follows a small
/// letter.
fn words(heading: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut before = ' ';
    for c in heading.chars() {
        if c.is_alphanumeric() || matches!(c, '°' | 'µ' | '³' | '%') {
            if c.is_uppercase() && before.is_lowercase() {
                words.push(String::new());
            }
            if let Some(word) = words.last_mut() {
                word.extend(c.to_lowercase());
            }
        } else {
            words.push(String::new());
        }
        before = c;
    }
    words.retain(|word| !word.is_empty());
    words
}

/// A unit at the end of the words, and how many words stand before it.
struct Suffix {
    stem: usize,
    unit: HeadingUnit,
    datum: Option<Datum>,
    bare_in: bool,
}

/// Every way of seeing a unit at the end of these words, the longest first.
fn suffix(words: &[String], gallon: Option<Gallon>) -> Vec<Suffix> {
    let mut end = words.len();
    let mut datum = None;
    let mut found = Vec::new();
    if let Some(last) = words.last() {
        if let Some(((_, unit), meaning)) = joined(last) {
            found.push(Suffix { stem: end - 1, unit: HeadingUnit::Unit(unit), datum: Some(meaning), bare_in: false });
        }
        if let Some((_, meaning)) = DATUM_PHRASES.iter().find(|(phrase, _)| *phrase == last.as_str()) {
            datum = Some(*meaning);
            end -= 1;
            found.push(Suffix { stem: end, unit: HeadingUnit::None, datum, bare_in: false });
        }
    }
    for count in (1..=4.min(end.saturating_sub(1))).rev() {
        let parts = &words[end - count..end];
        let spelled: Vec<&str> = parts.iter().map(|part| if part == "per" { "/" } else { part.as_str() }).collect();
        for joint in ["/", " ", ""] {
            let written = spelled.join(joint).replace("///", "/").replace(" / ", "/");
            let unit = match unit::look_up(&written, gallon) {
                Some(Meaning::Unit(unit)) => HeadingUnit::Unit(unit),
                Some(Meaning::EitherGallon) => HeadingUnit::EitherGallon(written),
                None => continue,
            };
            let mut stem = end - count;
            if stem > 1 && words[stem - 1] == "in" {
                stem -= 1; // `depth in feet`
            }
            found.push(Suffix { stem, unit, datum, bare_in: count == 1 && parts[0] == "in" });
            break;
        }
    }
    found
}

/// What a heading names with its group before it: `Level` below `Static`.
pub fn named_together(group: &str, heading: &str, gallon: Option<Gallon>) -> Option<Named> {
    let sound = !group.is_empty() && group.len() <= 60 && !heading.is_empty();
    if sound { name(&format!("{group} {heading}"), gallon) } else { None }
}

/// The unit, and what it is counted from or as, that a row of units gives a column, for a field.
pub fn unit_below(
    cell: &str,
    field: Field,
    gallon: Option<Gallon>,
) -> (HeadingUnit, Option<Datum>, Option<&'static Species>) {
    let (cell, species) = species::at_end(field, cell);
    if cell.is_empty() {
        return (HeadingUnit::None, None, species);
    }
    let (unit, datum) = bracket_unit(cell, field, gallon);
    (unit, datum, species)
}

fn by_suffix(outer: &str, gallon: Option<Gallon>) -> Option<Named> {
    let words = words(outer);
    for suffix in suffix(&words, gallon) {
        if let Some((field, rank)) = vocabulary().get(&words[..suffix.stem].concat()).copied()
            && !matches!(FIELDS[field as usize].kind, Kind::Text | Kind::Flag | Kind::Choice(_))
        {
            return Some(Named {
                field,
                rank,
                unit: suffix.unit,
                datum: suffix.datum,
                bare_in: suffix.bare_in,
                species: None,
            });
        }
        // `no2_mg_l`; the word for word, because `No. 2` is a number of something.
        if let [word] = &words[..suffix.stem]
            && let Some(species) = species::alone(word)
        {
            return Some(Named {
                field: species.field,
                rank: usize::MAX,
                unit: suffix.unit,
                datum: None,
                bare_in: false,
                species: Some(species),
            });
        }
    }
    None
}

/// The headings of a row, trimmed, with inner line breaks and runs of blanks made single blanks; blank ones at the end
/// only where there are cells below.
pub fn cells(rows: &Rows, row: usize) -> Vec<String> {
    let mut headings: Vec<String> = (0..rows.width(row)).map(|column| tidy(rows.cell(row, column))).collect();
    while headings.last().is_some_and(String::is_empty)
        && !(row + 1..rows.len()).any(|below| !rows.cell(below, headings.len() - 1).trim().is_empty())
    {
        headings.pop();
    }
    headings
}

/// Blanks single, none outside.
pub fn tidy(text: &str) -> String {
    text.trim_start_matches('\u{feff}').split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What the campaign's mapping says about this heading, if it speaks of it.
pub fn mapped<'a>(heading: &str, rules: &'a ReadingRules) -> Option<(&'a str, Option<Field>)> {
    if rules.columns.is_empty() {
        return None;
    }
    let wanted = tidy(heading).to_lowercase();
    rules
        .columns
        .iter()
        .find(|(written, _)| tidy(written).to_lowercase() == wanted)
        .map(|(written, field)| (written.as_str(), *field))
}

/// What the campaign's mapping says about this heading, if it makes it the unit or the sign of another column.
pub fn mapped_beside<'a>(heading: &str, rules: &'a ReadingRules) -> Option<(&'a str, Beside, Field)> {
    if rules.beside.is_empty() {
        return None;
    }
    let wanted = tidy(heading).to_lowercase();
    rules
        .beside
        .iter()
        .find(|(written, _)| tidy(written).to_lowercase() == wanted)
        .map(|(written, (beside, field))| (written.as_str(), *beside, *field))
}
