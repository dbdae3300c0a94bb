//! The columns of a table of intervals: which is the id, the top, the bottom, the diameter, in which unit.

use std::collections::BTreeSet;

use crate::field::Field;
use crate::field::rules::{Beside, ReadingRules, UnitSystem};
use crate::inventory::heading::{self, HeadingUnit};
use crate::inventory::lexicon;
use crate::inventory::table::Opened;
use crate::inventory::unit_columns::{self, Aside};
use crate::quantity::parse;
use crate::quantity::unit::{self, Dimension, Unit};

/// Headings of the depth of the top, squashed; then of the bottom.
const FROM: &[&str] = &[
    "casingfrom",
    "from",
    "depthfrom",
    "fromdepth",
    "topdepth",
    "depthtop",
    "intervalfrom",
    "top",
    "casingtop",
    "start",
];
const TO: &[&str] = &[
    "casingto",
    "to",
    "depthto",
    "todepth",
    "bottomdepth",
    "depthbottom",
    "intervalto",
    "bottom",
    "casingbottom",
    "end",
];

/// A column of lengths.
pub(super) struct Lengths {
    pub(super) column: usize,
    /// What a bare number is in.
    pub(super) unit: Option<&'static Unit>,
    /// The column beside it that says the unit.
    pub(super) unit_column: Option<usize>,
    /// The depth of the well stands for both ends, the diameter of the casing for the width.
    pub(super) field: Field,
}

/// The columns of a table of intervals.
pub(super) struct Layout {
    pub(super) id: usize,
    pub(super) from: Lengths,
    pub(super) to: Lengths,
    pub(super) diameter: Lengths,
    /// The bottom is mapped to the depth of the well.
    pub(super) gives_depth: bool,
}

/// `Top of water` is where the water stands, and no top of an interval.
fn says_water(heading: &str) -> bool {
    let meaning = lexicon::meaning(&lexicon::tokens(heading), lexicon::Language::English);
    meaning.has(lexicon::Concept::Water) || meaning.has(lexicon::Concept::Level)
}

/// The layout, if this is a table of intervals.
pub(super) fn layout(table: &Opened, rules: &ReadingRules) -> Option<Layout> {
    let gallon = rules.system.and_then(UnitSystem::gallon);
    let mapped = |heading: &str| heading::mapped(heading, rules).map(|(_, field)| field);
    let field_of =
        |heading: &str| mapped(heading).unwrap_or_else(|| heading::name(heading, gallon).map(|named| named.field));
    let stem = |heading: &str| heading::stem(heading, gallon);
    // The bottom may be mapped to what it is in a list of wells: the depth of the casing, or of the well itself.
    let find = |names: &[&str], also: &[Field]| {
        table.headings.iter().position(|heading| {
            mapped(heading).is_none_or(|field| field.is_some_and(|field| also.contains(&field)))
                && (names.contains(&stem(heading).0.as_str()) || names.contains(&heading::squash(heading).as_str()))
        })
    };
    let by_word = |words: &[&str], not: Option<usize>| {
        let says = |at: &usize| {
            let heading = &table.headings[*at];
            Some(*at) != not
                && mapped(heading).is_none()
                && lexicon::tokens(heading).iter().any(|word| words.contains(&word.as_str()))
                && !says_water(heading)
                && numbers_in(table, *at)
        };
        let mut found = (0..table.headings.len()).filter(says);
        found.next().filter(|_| found.next().is_none())
    };
    let from = find(FROM, &[]).or_else(|| by_word(&["top", "from", "start", "desde", "haut"], None))?;
    let to = find(TO, &[Field::CasingDepth, Field::TotalDepth])
        .or_else(|| by_word(&["bottom", "btm", "bot", "base", "to", "end", "hasta", "bas"], Some(from)))?;
    // The best name counts: CASING_ID could be an inside diameter, but not beside CASING_DIAMETER.
    let rank = |at: usize| heading::name(&table.headings[at], gallon).map_or(0, |named| named.rank);
    let feeds = |field: Field| {
        (0..table.headings.len())
            .filter(|at| *at != from && *at != to && field_of(&table.headings[*at]) == Some(field))
            .min_by_key(|at| (mapped(&table.headings[*at]).is_none(), rank(*at)))
    };
    // By other words only where the columns hold what they say, and the table is as narrow as such tables are.
    let narrow = table.headings.len() <= 12 && numbers_in(table, from) && numbers_in(table, to);
    let across = || by_word(&["diam", "dia", "diameter", "diametro", "diametre"], None).filter(|_| narrow);
    let id = feeds(Field::WellId).or_else(|| repeated_id(table).filter(|_| narrow))?;
    let diameter = feeds(Field::CasingDiameter).or_else(across)?;
    if feeds(Field::TotalDepth).is_some()
        || feeds(Field::StaticWaterLevel).is_some()
        || feeds(Field::WaterColumn).is_some()
    {
        return None;
    }
    let asides = unit_columns::columns(table, rules, |at| match at {
        _ if at == from || at == to => Some(Field::CasingDepth),
        _ if at == diameter => Some(Field::CasingDiameter),
        _ => None,
    });
    let by_system = |field: Field| {
        let units = field.quantity()?.default_units?;
        unit::by_symbol(units[rules.system?.index()])
    };
    let lengths = |column: usize, field: Field| {
        let unit = match stem(&table.headings[column]).1 {
            HeadingUnit::Unit(unit) if unit.dimension == Dimension::Length => Some(unit),
            _ => rules.units.get(&field).copied().or_else(|| by_system(field)),
        };
        // One column may give the unit of top and bottom.
        let of = |aside: &&Aside| {
            aside.says == Beside::Unit
                && (aside.is_of(column, field)
                    || field == Field::TotalDepth && (aside.is_of(from, Field::CasingDepth) || aside.is_of(to, field)))
        };
        Lengths { column, unit, unit_column: asides.iter().find(of).map(|aside| aside.column), field }
    };
    Some(Layout {
        id,
        from: lengths(from, Field::TotalDepth),
        to: lengths(to, Field::TotalDepth),
        diameter: lengths(diameter, Field::CasingDiameter),
        gives_depth: mapped(&table.headings[to]) == Some(Some(Field::TotalDepth)),
    })
}

/// Whether nearly all filled cells of a column are numbers.
fn numbers_in(table: &Opened, column: usize) -> bool {
    let filled: Vec<&str> = table.filled(column).collect();
    let numbers = filled.iter().filter(|cell| parse::plain(cell).is_some()).count();
    numbers >= 3 && numbers * 10 >= filled.len() * 9
}

/// The first column that speaks of a number or a name and repeats from row to row, as the id of a well does where each of its
/// intervals has a row: `PERMIT_NBR`.
fn repeated_id(table: &Opened) -> Option<usize> {
    let words = ["permit", "well", "id", "no", "nbr", "num", "number", "code", "tag"];
    (0..table.headings.len()).find(|at| {
        let named = lexicon::tokens(&table.headings[*at]).iter().any(|word| words.contains(&word.as_str()));
        let filled = table.filled(*at).count();
        let distinct = table.filled(*at).collect::<BTreeSet<&str>>().len();
        named && filled >= 6 && distinct * 5 <= filled * 4 && distinct * 8 >= filled
    })
}
