//! A table of intervals, read to its end and joined by the id.

use std::sync::atomic::AtomicBool;

use super::layout::{Layout, Lengths, layout};
use super::{Fault, Intervals, ListedInterval, Listing};
use crate::error::Result;
use crate::field::Field;
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::finding::{Code, Finding, Words, catalogue};
use crate::inventory::cell::{CellRules, ColumnUnit, Datum, Remark};
use crate::inventory::identity::identity;
use crate::inventory::rows::{Rows, trim};
use crate::inventory::table::{Opened, Payload};
use crate::inventory::unit_columns;
use crate::place::{Column, Origin, Place};
use crate::quantity::unit::{self, Gallon};
use crate::quantity::{format, parse};

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
