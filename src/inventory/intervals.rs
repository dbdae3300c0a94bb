//! A table of casing intervals beside the list of wells: one row for each stretch of one diameter, joined by the id.
//!
//! Registers keep casings in such a child table (well, from, to, diameter). A table is one when it has an id, a from, a
//! to and a diameter, and neither depth nor level of its own. It is read at once and kept, sorted by depth. Refuses to
//! know how intervals make a volume.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::atomic::{AtomicBool, Ordering};

use super::cell::{CellRules, ColumnUnit, Datum, Remark};
use super::heading::{self, HeadingUnit};
use super::identity::identity;
use super::lexicon;
use super::rows::{Rows, trim};
use super::table::{Opened, Payload};
use super::unit_columns::{self, Aside};
use crate::error::Result;
use crate::field::Field;
use crate::field::rules::{Beside, ReadingRules, UnitSystem};
use crate::finding::{Code, Finding, Words, catalogue};
use crate::place::{Column, Origin, Place};
use crate::quantity::unit::{self, Dimension, Gallon, Unit};
use crate::quantity::{format, parse};

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

/// What is listed for one id.
#[derive(Debug)]
struct Listing {
    id: Box<str>,
    rows: Vec<ListedInterval>,
    /// The deepest bottom in tables whose bottom is mapped to the depth of the well.
    depth: Option<f64>,
    /// Whether a row of the lists has this id.
    joined: AtomicBool,
}

/// Intervals of all wells, by the hash of the well's id.
#[derive(Debug, Default)]
pub struct Intervals {
    wells: HashMap<[u64; 2], Listing>,
    give_depths: bool,
}

impl Intervals {
    /// Whether no table of intervals was read.
    pub fn is_empty(&self) -> bool {
        self.wells.is_empty()
    }

    /// Whether the deepest interval of a well may stand for its depth.
    pub fn give_depths(&self) -> bool {
        self.give_depths
    }

    /// The intervals of a well, from the top down.
    pub fn of(&self, id: &str) -> &[ListedInterval] {
        self.listing(id).map_or(&[], |listing| listing.rows.as_slice())
    }

    /// The depth of a well by its deepest interval, in metres, where the campaign says that it may be taken so.
    pub fn depth_of(&self, id: &str) -> Option<f64> {
        self.listing(id)?.depth
    }

    /// Remembers that a row of the lists has this id.
    pub fn join(&self, id: &str) {
        if let Some(listing) = self.listing(id) {
            listing.joined.store(true, Ordering::Relaxed); // Only ever set; read when all rows are done.
        }
    }

    fn listing(&self, id: &str) -> Option<&Listing> {
        if self.wells.is_empty() {
            return None;
        }
        self.wells.get(&identity(id, ""))
    }

    /// Ids that no row of the lists has: one finding for each table. Known when everything is read.
    pub fn without_well(&self) -> Vec<Finding> {
        let mut all: BTreeMap<&Origin, usize> = BTreeMap::new();
        let mut lost: BTreeMap<&Origin, Vec<(&Place, &str)>> = BTreeMap::new();
        for listing in self.wells.values() {
            let mut tables: Vec<&Place> = Vec::new();
            for row in &listing.rows {
                match tables.iter_mut().find(|place| place.origin == row.place.origin) {
                    Some(first) => *first = (*first).min(&row.place),
                    None => tables.push(&row.place),
                }
            }
            for place in tables {
                *all.entry(&place.origin).or_default() += 1;
                if !listing.joined.load(Ordering::Relaxed) {
                    lost.entry(&place.origin).or_default().push((place, &listing.id));
                }
            }
        }
        let one = |(origin, mut ids): (&Origin, Vec<(&Place, &str)>)| {
            ids.sort_unstable();
            let few: Vec<&str> = ids.iter().take(EXAMPLES).map(|(_, id)| *id).collect();
            let rest =
                if ids.len() > few.len() { format!(" and {} more", ids.len() - few.len()) } else { String::new() };
            let says = format!(
                "not found in any list of wells: {} of the {} ids in this table ({}{rest})",
                ids.len(),
                all[origin],
                few.join(", ")
            );
            let help = "no action needed if the lists are only a part of the register; otherwise compare how ids are written in both";
            let first = ids.iter().take(EXAMPLES).map(|(place, id)| ((*place).clone(), (*id).into()));
            Finding::new(catalogue::INTERVALS_WITHOUT_WELL, Place::whole(origin), says, help).related(first.collect())
        };
        lost.into_iter().map(one).collect()
    }
}

/// How many ids are named where many have the same trouble.
const EXAMPLES: usize = 5;

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
struct Lengths {
    column: usize,
    /// What a bare number is in.
    unit: Option<&'static Unit>,
    /// The column beside it that says the unit.
    unit_column: Option<usize>,
    /// What it measures.
    field: Field,
}

/// The columns of a table of intervals.
struct Layout {
    id: usize,
    from: Lengths,
    to: Lengths,
    diameter: Lengths,
    /// The bottom is mapped to the depth of the well.
    gives_depth: bool,
}

/// The layout, if this is a table of intervals.
fn layout(table: &Opened, rules: &ReadingRules) -> Option<Layout> {
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

/// Whether this table holds intervals and not wells.
pub fn is_intervals(table: &Opened, rules: &ReadingRules) -> bool {
    layout(table, rules).is_some()
}

/// Reads a table of intervals to its end, each run of rows after `correct` has been over it.
pub fn read(
    table: &mut Opened,
    rules: &ReadingRules,
    cells: &CellRules,
    correct: impl Fn(&Origin, &mut Rows),
    into: &mut Intervals,
    findings: &mut Vec<Finding>,
) -> Result<u64> {
    let (Some(layout), Some(mut source)) = (layout(table, rules), table.source.take()) else { return Ok(0) };
    let gallon = rules.system.and_then(UnitSystem::gallon);
    let mut count = 0;
    into.give_depths |= layout.gives_depth;
    let reader = Reader { table, layout: &layout, cells, gallon };
    while let Some(payload) = source.next(4096)? {
        let mut rows = match payload {
            Payload::Chunk(chunk) => chunk.cells(),
            Payload::Rows(rows) => rows,
        };
        correct(&table.origin, &mut rows);
        for row in 0..rows.len() {
            count += 1;
            reader.row(&rows, row, into, findings);
        }
    }
    let mut wells = 0;
    for listing in into.wells.values_mut() {
        wells += usize::from(listing.rows.iter().any(|row| row.place.origin == table.origin));
        // By depth, then by diameter, so that the order of the file does not matter.
        listing.rows.sort_by(|a, b| {
            let key = |interval: &ListedInterval| (interval.top.unwrap_or(0.0), interval.diameter.unwrap_or(0.0));
            let ((a_top, a_diameter), (b_top, b_diameter)) = (key(a), key(b));
            a_top.total_cmp(&b_top).then(a_diameter.total_cmp(&b_diameter)).then(a.place.cmp(&b.place))
        });
    }
    let unit = |lengths: &Lengths| lengths.unit.map_or("the unit of each cell", |unit| unit.symbol);
    let depth = if layout.gives_depth { ", and the deepest is a well's depth where the list gives none" } else { "" };
    let says = format!(
        "{count} casing intervals of {wells} wells, from and to in {} and {}, diameters in {}; they are joined to the list by the id{depth}",
        unit(&layout.from),
        unit(&layout.to),
        unit(&layout.diameter)
    );
    let place = Place::whole(&table.origin);
    findings.push(Finding::new(catalogue::INTERVAL_TABLE, place, says, "no action needed if correct"));
    Ok(count)
}

/// A length, and what there is to remark on its cell.
type Read = (Option<f64>, Vec<Remark>);

struct Reader<'a> {
    table: &'a Opened,
    layout: &'a Layout,
    cells: &'a CellRules,
    gallon: Option<Gallon>,
}

impl Reader<'_> {
    fn row(&self, rows: &Rows, row: usize, into: &mut Intervals, findings: &mut Vec<Finding>) {
        let id = trim(rows.cell(row, self.layout.id));
        let number = rows.number(row);
        let cell = |at: usize| {
            let heading = self.table.headings.get(at).map_or("", String::as_str);
            let column = Column { number: at as u32 + 1, heading: heading.into() };
            (Place::cell(&self.table.origin, number, &column), trim(rows.cell(row, at)))
        };
        let mut say = |code: Code, at: usize, says: Words, help: Words| {
            let (place, seen) = cell(at);
            let finding = Finding::new(code, place, says, help);
            findings.push(finding.seen(seen).of_well((!id.is_empty()).then_some(id)));
        };
        if id.is_empty() {
            let (says, help) = ("this interval has no id".into(), "write the well's id".into());
            say(catalogue::INTERVAL_UNUSABLE, self.layout.id, says, help);
            return;
        }
        let mut unread = false;
        let mut value = |lengths: &Lengths| match self.length(rows, row, lengths) {
            Ok((value, remarks)) => {
                for remark in remarks {
                    say(remark.code, lengths.column, remark.says, remark.help);
                }
                value
            }
            Err(says) => {
                let help = "correct the cell; the interval is left out";
                say(catalogue::INTERVAL_UNUSABLE, lengths.column, says.into(), help.into());
                unread = true;
                None
            }
        };
        let (top, bottom, diameter) = (value(&self.layout.from), value(&self.layout.to), value(&self.layout.diameter));
        let listing = into.wells.entry(identity(id, "")).or_insert_with(|| Listing {
            id: id.into(),
            rows: Vec::new(),
            depth: None,
            joined: AtomicBool::new(false),
        });
        let place = Place::row(&self.table.origin, number);
        if unread {
            // Said already, and known to belong to this id.
            listing.rows.push(ListedInterval { top: None, bottom: None, diameter: None, place, fault: None });
            return;
        }
        let from = top.unwrap_or(0.0);
        let fault = match (bottom, diameter) {
            (Some(bottom), Some(_)) if bottom > from.max(0.0) => None,
            (_, None) => Some((self.layout.diameter.column, "has no diameter that can be used")),
            (None, _) => Some((self.layout.to.column, "has no bottom")),
            (Some(bottom), _) if bottom <= 0.0 && from <= 0.0 => Some((self.layout.to.column, "lies above the ground")),
            _ => Some((self.layout.to.column, "ends above its own top")),
        };
        let fault = fault.map(|(at, says)| {
            let (place, seen) = cell(at);
            Box::new(Fault { place, seen: seen.into(), says })
        });
        if self.layout.gives_depth {
            // An interval upside down is not believed in this either.
            let bottom = bottom.filter(|bottom| *bottom > from.max(0.0));
            listing.depth = listing.depth.into_iter().chain(bottom).reduce(f64::max);
        }
        listing.rows.push(ListedInterval { top, bottom, diameter, place, fault });
    }

    /// A length in metres, read as a cell of a list is; nothing where the cell says nothing, words where it says nothing that
    /// can be used.
    fn length(&self, rows: &Rows, row: usize, lengths: &Lengths) -> std::result::Result<Read, String> {
        let text = trim(rows.cell(row, lengths.column));
        let is_diameter = lengths.field == Field::CasingDiameter;
        let zero = parse::plain(text) == Some(0.0);
        if text.is_empty() || zero && is_diameter || self.cells.says_nothing(lengths.field, text) {
            return Ok((None, Vec::new())); // A diameter of zero is a blank in disguise.
        }
        if zero {
            return Ok((Some(0.0), Vec::new())); // The ground, in any unit.
        }
        let written = lengths.unit_column.map_or("", |column| trim(rows.cell(row, column)));
        let beside =
            unit_columns::unit_written(written, lengths.field, self.cells, self.gallon).map_err(|(_, says)| says)?;
        let unit = beside.map(|beside| beside.unit).or(lengths.unit);
        let column = ColumnUnit { unit, stated: lengths.unit.is_some() };
        let read = self.cells.read(lengths.field, text, rows.kind(row, lengths.column), column, self.table.comma);
        let si = match read.datum {
            Datum::Number(si) => si,
            Datum::Missing => return Ok((None, read.remarks)),
            _ => return Err(read.remarks.first().map_or_else(String::new, |remark| remark.says.to_string())),
        };
        let possible = lengths.field.quantity().map_or((0.0, f64::MAX), |quantity| {
            let si = |value| unit::by_symbol(quantity.unit).map_or(value, |unit| unit.to_si(value));
            (si(quantity.possible.0), si(quantity.possible.1))
        });
        // A top lies at the ground or a little above it, where the casing stands out.
        if si > possible.1 || is_diameter && si < possible.0 {
            let unit = read.unit.or(unit).or_else(|| unit::by_symbol("m"));
            let show = |si| unit.map_or_else(String::new, |unit| format::quantity(si, unit, 5));
            let least = if is_diameter { format!("{} to ", show(possible.0)) } else { "up to ".to_owned() };
            return Err(format!("{} is outside what is possible ({least}{})", show(si), show(possible.1)));
        }
        Ok((Some(si), read.remarks))
    }
}
