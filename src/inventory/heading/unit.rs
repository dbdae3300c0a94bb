//! The unit that a heading carries: in brackets, at its end, or in the row below.

use super::words::{brackets, words};
use crate::field::species::{self, Species};
use crate::field::{Field, squash};
use crate::quantity::parse::Reference;
use crate::quantity::unit::{self, Dimension, Gallon, Meaning, Unit};

/// The unit a heading carries.
#[derive(Debug, Clone, PartialEq)]
pub enum HeadingUnit {
    /// No word of it is a unit.
    None,
    /// One that is known.
    Unit(&'static Unit),
    /// A US or an imperial one, as written.
    EitherGallon(String),
    /// Something in brackets that is not a unit we know.
    Unknown(String),
}

impl HeadingUnit {
    /// The one unit that it is, where it is known.
    pub const fn known(&self) -> Option<&'static Unit> {
        match self {
            Self::Unit(unit) => Some(unit),
            _ => None,
        }
    }
}

/// What a depth is counted from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Datum {
    /// The ground, as depths are meant where nothing is said.
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

/// Words behind a unit that say which way a length was measured.
const WAYS: [&str; 10] = [" down", " dn", " deep", " below", " across", " wide", " inside", " up", " high", " long"];

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
    ("bg", Datum::Ground),
    ("below lawn", Datum::Ground),
    ("btoc", Datum::TopOfCasing),
    ("btc", Datum::TopOfCasing),
    ("toc", Datum::TopOfCasing),
    ("amsl", Datum::SeaLevel),
    ("asl", Datum::SeaLevel),
];

/// What stands alone in a bracket and says where from: `Water Level, ft (top of casing)`.
const FROM_WHERE: [(&[&str], Datum); 2] = [
    (&["top of casing", "casing top", "top of pipe", "rim", "top of rim", "top"], Datum::TopOfCasing),
    (&["ground", "ground level", "ground surface", "grade", "land surface", "surface"], Datum::Ground),
];

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

/// The unit in a pair of brackets, and what a depth is counted from by it.
pub(super) fn bracket_unit(inner: &str, field: Field, gallon: Option<Gallon>) -> (HeadingUnit, Option<Datum>) {
    let lower = inner.to_lowercase();
    let mut rest = lower.trim();
    // Before anything is cut off: what is left of `fbgs` would be a degree Fahrenheit.
    if let Some((unit, meaning)) = joined(rest) {
        return (HeadingUnit::Unit(unit), Some(meaning));
    }
    if let Some((_, datum)) = FROM_WHERE.iter().find(|(words, _)| words.contains(&rest)) {
        return (HeadingUnit::None, Some(*datum));
    }
    let mut datum = None;
    for (ending, meaning) in DATUM_PHRASES {
        if let Some(before) = rest.strip_suffix(ending) {
            rest = before.trim_end_matches([' ', '-', ',', '_']);
            datum = Some(*meaning);
            break;
        }
    }
    if is_feet_and_inches(rest) {
        return (unit::by_symbol("ft").map_or(HeadingUnit::None, HeadingUnit::Unit), datum);
    }
    // `ft down`, `in across`: which way it was measured, behind the unit.
    let before = |word: &&str| rest.strip_suffix(*word).filter(|rest| unit::look_up(rest, gallon).is_some());
    let rest = WAYS.iter().find_map(before).unwrap_or(rest);
    let after = |word: &&str| rest.strip_prefix(*word).filter(|rest| unit::look_up(rest, gallon).is_some());
    let rest = ["in ", "en ", "em "].iter().find_map(after).unwrap_or(rest);
    let undotted = rest
        .strip_suffix('.')
        .filter(|undotted| unit::look_up(rest, gallon).is_none() && unit::look_up(undotted, gallon).is_some());
    let rest = undotted.unwrap_or(rest);
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

/// `mbgl`, `fbgs`, `ftbgs`: unit and datum in one word.
fn joined(word: &str) -> Option<(&'static Unit, Datum)> {
    for (ending, datum) in DATUM_PHRASES.iter().filter(|(ending, _)| !ending.contains(' ')) {
        if let Some(start) = word.strip_suffix(ending) {
            let symbol = match start.trim_end_matches(['-', '_']) {
                "m" => "m",
                "f" | "ft" => "ft",
                _ => continue,
            };
            return unit::by_symbol(symbol).map(|unit| (unit, *datum));
        }
    }
    None
}

/// A unit at the end of the words, and how many words stand before it.
pub(super) struct Suffix {
    pub(super) stem: usize,
    pub(super) unit: HeadingUnit,
    pub(super) datum: Option<Datum>,
    pub(super) bare_in: bool,
}

/// Every way of seeing a unit at the end of these words, the longest first.
pub(super) fn suffix(words: &[String], gallon: Option<Gallon>) -> Vec<Suffix> {
    let mut end = words.len();
    let mut datum = None;
    let mut found = Vec::new();
    if let Some(last) = words.last() {
        if let Some((unit, meaning)) = joined(last) {
            found.push(Suffix { stem: end - 1, unit: HeadingUnit::Unit(unit), datum: Some(meaning), bare_in: false });
        }
        if let Some((_, meaning)) = DATUM_PHRASES.iter().find(|(phrase, _)| *phrase == last.as_str()) {
            datum = Some(*meaning);
            end -= 1;
            found.push(Suffix { stem: end, unit: HeadingUnit::None, datum, bare_in: false });
        }
    }
    // `Depth ft-in`: feet, with inches behind them.
    if let Some(stem) = feet_and_inches_behind(&words[..end])
        && let Some(unit) = unit::by_symbol("ft")
    {
        found.push(Suffix { stem, unit: HeadingUnit::Unit(unit), datum, bare_in: false });
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
            let asked = asked(&words, gallon).filter(|unit| unit.dimension == quantity.dimension);
            (asked.map_or(unit, HeadingUnit::Unit), datum.or(below), false)
        }
    }
}

/// Whether a heading says that its cells are feet with inches: `Depth ft-in`, `Depth (feet & inches)`.
pub fn is_feet_and_inches(text: &str) -> bool {
    let (outer, inner) = brackets(text);
    let said = |text: &str| feet_and_inches_behind(&words(text)).is_some();
    inner.is_some_and(said) || said(outer)
}

/// How many words stand before `ft in`, `feet and inches` at the end.
fn feet_and_inches_behind(words: &[String]) -> Option<usize> {
    const FEET: [&str; 3] = ["ft", "feet", "foot"];
    const INCHES: [&str; 4] = ["in", "ins", "inch", "inches"];
    let before = words.split_last().filter(|(last, _)| INCHES.contains(&last.as_str()))?.1;
    let before = before.split_last().filter(|(last, _)| *last == "and").map_or(before, |(_, before)| before);
    before.split_last().filter(|(last, _)| FEET.contains(&last.as_str())).map(|(_, before)| before.len())
}

/// The unit that a question counts: `How many inches is it across?`
fn asked(words: &[String], gallon: Option<Gallon>) -> Option<&'static Unit> {
    const MANY: [&str; 7] = ["many", "combien", "cuantos", "cuántos", "cuantas", "cuántas", "quantos"];
    let at = words.iter().position(|word| MANY.contains(&word.as_str()))?;
    let next = at + 1 + usize::from(words.get(at + 1).is_some_and(|word| word == "de"));
    match unit::look_up(words.get(next)?, gallon)? {
        Meaning::Unit(unit) => Some(unit),
        Meaning::EitherGallon => None,
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

/// `Csg "` as `Csg (in)`, `Depth '` as `Depth (ft)`: a lone mark at the end, which closes no quotation and follows no owner.
pub(super) fn unit_of_mark(heading: &str) -> Option<String> {
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

/// `in - Casing above grade` as `Casing above grade (in)`: a unit before a dash or a colon, with blanks around it.
pub(super) fn unit_before(heading: &str) -> Option<String> {
    let (first, rest) = [" - ", " – ", " — ", ": "].iter().find_map(|mark| heading.split_once(mark))?;
    let unit = unit::look_up(first.trim().trim_end_matches('.'), None)?;
    let long = matches!(unit, Meaning::Unit(unit) if unit.dimension == Dimension::Length);
    let carries_none = !rest.contains(['(', '[']) && rest.contains(char::is_alphabetic);
    (long && carries_none).then(|| format!("{} ({})", rest.trim(), first.trim()))
}

/// `Casing (in) or mouth (m)`, `write inches or feet`: the units of pipes and of wide wells, where one heading names both.
pub fn narrow_and_wide(heading: &str) -> Option<(&'static Unit, &'static Unit)> {
    const OR: [&str; 4] = ["or", "o", "ou", "u"];
    let length = |word: &str| match unit::look_up(word.trim_end_matches('.'), None) {
        Some(Meaning::Unit(unit)) if unit.dimension == Dimension::Length => Some(unit),
        _ => None,
    };
    let mut units: Vec<&'static Unit> = heading
        .split(['(', '['])
        .skip(1)
        .filter_map(|part| part.split([')', ']']).next())
        .filter_map(|inner| length(&inner.trim().to_lowercase()))
        .collect();
    if units.len() < 2
        && let Some(inner) = brackets(heading).1
    {
        // `(furos mm / poços m)`: a unit behind each kind of well.
        let last = |part: &str| words(part).last().and_then(|word| length(word));
        let each: Vec<Option<&'static Unit>> = inner.split(['/', ',', ';']).map(last).collect();
        units = each.into_iter().collect::<Option<Vec<_>>>().filter(|units| units.len() == 2).unwrap_or(units);
    }
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
