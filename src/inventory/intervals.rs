//! A table of casing intervals beside the list of wells: one row for each stretch of one diameter, joined by the id.
//!
//! Registers keep casings in such a child table (well, from, to, diameter). A table is one when it has an id, a from, a
//! to and a diameter, and neither depth nor level of its own. It is read at once and kept, sorted by depth. Refuses to
//! know how intervals make a volume.

use std::collections::HashMap;

use super::draft::{identity, trim};
use super::heading::{self, HeadingUnit};
use super::rows::Rows;
use super::table::{Opened, Payload};
use crate::error::Result;
use crate::field::Field;
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::finding::{Finding, catalogue};
use crate::place::{Column, Origin, Place};
use crate::quantity::parse;
use crate::quantity::unit::{self, Dimension, Gallon, Unit};

/// A stretch of casing or open hole as its row gives it, in metres; `None` where the row does not say.
#[derive(Debug, Clone, PartialEq)]
pub struct ListedInterval {
    /// Depth of the top.
    pub top: Option<f64>,
    /// Depth of the bottom.
    pub bottom: Option<f64>,
    /// Inside diameter.
    pub diameter: Option<f64>,
    /// The row.
    pub place: Place,
    /// Why it cannot be used, where it cannot.
    pub fault: Option<Box<Fault>>,
}

/// What makes an interval unusable: the cell, what was typed there, and what is wrong with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// The cell to be corrected.
    pub place: Place,
    /// As typed; empty where nothing was.
    pub seen: Box<str>,
    /// `has no diameter`.
    pub says: &'static str,
}

/// Intervals of all wells, by the hash of the well's id.
#[derive(Debug, Default)]
pub struct Intervals {
    wells: HashMap<[u64; 2], Vec<ListedInterval>>,
}

impl Intervals {
    /// Whether no table of intervals was read.
    pub fn is_empty(&self) -> bool {
        self.wells.is_empty()
    }

    /// The intervals of a well, from the top down.
    pub fn of(&self, id: &str) -> &[ListedInterval] {
        if self.wells.is_empty() {
            return &[];
        }
        self.wells.get(&identity(id, "")).map_or(&[], Vec::as_slice)
    }
}

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

/// The columns of a table of intervals.
struct Layout {
    id: usize,
    from: (usize, Option<&'static Unit>),
    to: (usize, Option<&'static Unit>),
    diameter: (usize, Option<&'static Unit>),
}

/// The layout, if this is a table of intervals.
fn layout(table: &Opened, rules: &ReadingRules) -> Option<Layout> {
    let gallon = rules.system.and_then(UnitSystem::gallon);
    let field_of = |heading: &str| match heading::mapped(heading, rules) {
        Some((_, field)) => field,
        None => heading::name(heading, gallon).map(|named| named.field),
    };
    let stem = |heading: &str| heading::stem(heading, gallon);
    let find = |names: &[&str]| {
        table.headings.iter().position(|heading| {
            heading::mapped(heading, rules).is_none()
                && (names.contains(&stem(heading).0.as_str()) || names.contains(&heading::squash(heading).as_str()))
        })
    };
    let (from, to) = (find(FROM)?, find(TO)?);
    let feeds = |field: Field| {
        (0..table.headings.len()).find(|at| *at != from && *at != to && field_of(&table.headings[*at]) == Some(field))
    };
    let (id, diameter) = (feeds(Field::WellId)?, feeds(Field::CasingDiameter)?);
    if feeds(Field::TotalDepth).is_some()
        || feeds(Field::StaticWaterLevel).is_some()
        || feeds(Field::WaterColumn).is_some()
    {
        return None;
    }
    let by_system = |field: Field| {
        let units = field.quantity()?.default_units?;
        unit::by_symbol(units[rules.system?.index()])
    };
    let unit_of = |at: usize, field: Field| match stem(&table.headings[at]).1 {
        HeadingUnit::Unit(unit) if unit.dimension == Dimension::Length => Some(unit),
        _ => rules.units.get(&field).copied().or_else(|| by_system(field)),
    };
    Some(Layout {
        id,
        from: (from, unit_of(from, Field::TotalDepth)),
        to: (to, unit_of(to, Field::TotalDepth)),
        diameter: (diameter, unit_of(diameter, Field::CasingDiameter)),
    })
}

/// Whether this table holds intervals and not wells.
pub fn is_intervals(table: &Opened, rules: &ReadingRules) -> bool {
    layout(table, rules).is_some()
}

/// Reads a table of intervals to its end, each run of rows after `correct` has been over it.
pub fn read(
    table: &mut Opened,
    rules: &ReadingRules,
    correct: impl Fn(&Origin, &mut Rows),
    into: &mut Intervals,
    findings: &mut Vec<Finding>,
) -> Result<u64> {
    let (Some(layout), Some(mut source)) = (layout(table, rules), table.source.take()) else { return Ok(0) };
    let gallon = rules.system.and_then(UnitSystem::gallon);
    let mut count = 0;
    let before = into.wells.len();
    while let Some(payload) = source.next(4096)? {
        let mut rows = match payload {
            Payload::Chunk(chunk) => chunk.cells(),
            Payload::Rows(rows) => rows,
        };
        correct(&table.origin, &mut rows);
        for row in 0..rows.len() {
            count += 1;
            one(table, &layout, &rows, row, gallon, into, findings);
        }
    }
    for intervals in into.wells.values_mut() {
        // By depth, then by diameter, so that the order of the file does not matter.
        intervals.sort_by(|a, b| {
            let key = |interval: &ListedInterval| (interval.top.unwrap_or(0.0), interval.diameter.unwrap_or(0.0));
            let ((a_top, a_diameter), (b_top, b_diameter)) = (key(a), key(b));
            a_top.total_cmp(&b_top).then(a_diameter.total_cmp(&b_diameter)).then(a.place.cmp(&b.place))
        });
    }
    let unit = |unit: Option<&'static Unit>| unit.map_or("the unit of each cell", |unit| unit.symbol);
    let says = format!(
        "{count} casing intervals of {} wells, from and to in {} and {}, diameters in {}; they are joined to the list by the id",
        into.wells.len() - before,
        unit(layout.from.1),
        unit(layout.to.1),
        unit(layout.diameter.1)
    );
    findings.push(Finding {
        code: catalogue::INTERVAL_TABLE,
        place: Place::whole(&table.origin),
        well: None,
        seen: "".into(),
        says: says.into(),
        help: "nothing, if that is right".into(),
        related: Vec::new(),
    });
    Ok(count)
}

fn one(
    table: &Opened,
    layout: &Layout,
    rows: &Rows,
    row: usize,
    gallon: Option<Gallon>,
    into: &mut Intervals,
    findings: &mut Vec<Finding>,
) {
    let id = trim(rows.cell(row, layout.id));
    let number = rows.number(row);
    let cell = |at: usize| {
        let heading = table.headings.get(at).map_or("", String::as_str);
        let column = Column { number: at as u32 + 1, heading: heading.into() };
        (Place::cell(&table.origin, number, &column), Box::<str>::from(trim(rows.cell(row, at))))
    };
    let mut say = |column: usize, says: String, help: &str| {
        let (place, seen) = cell(column);
        findings.push(Finding {
            code: catalogue::INTERVAL_UNUSABLE,
            place,
            well: (!id.is_empty()).then(|| id.into()),
            seen,
            says: says.into(),
            help: help.into(),
            related: Vec::new(),
        });
    };
    if id.is_empty() {
        say(layout.id, "this interval has no id".to_owned(), "write the well's id");
        return;
    }
    let mut unread = false;
    let mut value = |(column, unit): (usize, Option<&'static Unit>)| {
        let text = trim(rows.cell(row, column));
        if text.is_empty() {
            return None;
        }
        match parse::quantity(text, Dimension::Length, unit, gallon) {
            Ok(reading) => Some(reading.si),
            Err(trouble) => {
                say(column, trouble.to_string(), "correct the cell; the interval is left out");
                unread = true;
                None
            }
        }
    };
    let (top, bottom, diameter) = (value(layout.from), value(layout.to), value(layout.diameter));
    if unread {
        return;
    }
    // A zero diameter is a blank in disguise.
    let diameter = diameter.filter(|diameter| *diameter > 0.0);
    let from = top.unwrap_or(0.0);
    let fault = match (bottom, diameter) {
        (_, None) => Some((layout.diameter.0, "has no diameter")),
        (None, _) => Some((layout.to.0, "has no bottom")),
        (Some(_), _) if from < 0.0 => Some((layout.from.0, "begins above the ground")),
        (Some(bottom), _) if bottom <= from => Some((layout.to.0, "does not end below its top")),
        _ => None,
    };
    let fault = fault.map(|(at, says)| {
        let (place, seen) = cell(at);
        Box::new(Fault { place, seen, says })
    });
    let place = Place::row(&table.origin, number);
    into.wells.entry(identity(id, "")).or_default().push(ListedInterval { top, bottom, diameter, place, fault });
}
