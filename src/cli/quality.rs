//! What `check` says about the data as a whole, after the findings.

use std::collections::BTreeMap;
use std::io::{Result, Write};

use serde::Serialize;

use super::width;
use crate::engine::quality::Quality;
use crate::field::{Field, WellType};
use crate::quantity::format::number;
use crate::report::quality::{Units, cluster_words, kinds, names, percent, place_words};
use crate::report::show::Shown;
use crate::write::{json, terminal};

/// For a person: a table of fields, and short lists.
pub(super) fn print(quality: &Quality, units: Units<'_>, out: &mut dyn Write) -> Result<()> {
    let rows = quality.rows();
    let all: u64 = rows.iter().sum();
    if all == 0 {
        return Ok(());
    }
    let kinds = kinds(quality);
    let mut heads = vec!["% filled in".to_owned(), " all".to_owned()];
    heads.extend(kinds.iter().map(|(_, name)| format!(" {}", name.replace('_', " "))));
    heads.extend([" min", " median", " max", "unit"].map(str::to_owned));
    let ranges: BTreeMap<Field, _> = quality
        .ranges()
        .into_iter()
        .filter(|range| range.well_type.is_none())
        .map(|range| (range.field, range))
        .collect();
    let share = |part: u64, whole: u64| format!("{:.0}", percent(part as f64, whole as f64));
    let table: Vec<Vec<String>> = quality
        .completeness()
        .iter()
        .map(|field| {
            let mut row = vec![field.field.name().to_owned(), share(field.given.iter().sum(), all)];
            row.extend(kinds.iter().map(|(kind, _)| share(field.given[*kind], rows[*kind])));
            if let Some(range) = ranges.get(&field.field) {
                let values = [range.least, range.median, range.greatest];
                row.extend(values.map(|si| number(units.value(field.field, si), 4)));
                row.push(units.unit(field.field).map_or("", |unit| unit.symbol).to_owned());
            }
            row
        })
        .collect();
    let heads: Vec<&str> = heads.iter().map(String::as_str).collect();
    writeln!(out, "{}", terminal::table(&heads, &table, width()))?;
    let clusters = quality.clusters();
    if !clusters.is_empty() {
        writeln!(out, "Worth checking; may be correct:")?;
        for cluster in &clusters {
            writeln!(out, "- {}", terminal::wrap(&cluster_words(cluster, units), width(), 2))?;
        }
        writeln!(out)?;
    }
    let volume = Shown::of("L", units.system());
    if !quality.rested.is_empty() {
        let heads =
            ["uses an assumed", "wells", " visits", &format!(" standing water ({})", volume.symbol), " % of all"];
        let table: Vec<Vec<String>> = quality
            .rested
            .iter()
            .map(|((well_type, field), rested)| {
                vec![
                    field.name().to_owned(),
                    well_type.name().replace('_', " "),
                    rested.visits.to_string(),
                    format!("{:.0}", volume.value(rested.volume_l)),
                    format!("{:.1}", percent(rested.volume_l, quality.volume_l)),
                ]
            })
            .collect();
        writeln!(out, "{}", terminal::table(&heads, &table, width()))?;
    }
    if !quality.repairs.is_empty() {
        let heads =
            ["measure first", "where", "field", &format!(" range (low-high, {})", volume.symbol), " % of total range"];
        let table: Vec<Vec<String>> = quality
            .repairs
            .iter()
            .map(|repair| {
                vec![
                    repair.well.to_string(),
                    place_words(repair),
                    names(&repair.fields),
                    format!("{:.0}", volume.value(repair.span_l)),
                    format!("{:.1}", percent(repair.span_l, quality.span_l)),
                ]
            })
            .collect();
        writeln!(out, "{}", terminal::table(&heads, &table, width()))?;
    }
    Ok(())
}

/// `completeness`, of `check`: how many rows give a field.
#[derive(Serialize)]
struct CompletenessMessage {
    /// Which message this is.
    message: &'static str,
    /// Name of the field, as in `reports/headings.md`.
    field: &'static str,
    /// Rows of wells of every type; rows that are no wells are not counted.
    rows: u64,
    /// Rows that give it.
    given: u64,
    /// Rows with something in the cell that could not be read.
    unread: u64,
    /// The same by type of well.
    by_type: BTreeMap<&'static str, Given>,
}

/// Rows of one type.
#[derive(Serialize)]
struct Given {
    /// Rows of this type.
    rows: u64,
    /// Rows of this type that give the field.
    given: u64,
}

/// `range`, of `check`: the values of a field.
#[derive(Serialize)]
struct RangeMessage {
    /// Which message this is.
    message: &'static str,
    /// Name of the field, as in `reports/headings.md`.
    field: &'static str,
    /// Type of well; nothing where it is not known.
    well_type: Option<&'static str>,
    /// How many rows give a value for the field.
    values: u64,
    /// Unit of the figures below.
    unit: &'static str,
    /// The least value, in that unit.
    least: f64,
    /// Half of the values are at most this.
    median: f64,
    /// The greatest value, in that unit.
    greatest: f64,
    /// The value that occurs most.
    most_frequent: f64,
    /// How often it occurs.
    most_frequent_count: u64,
}

/// `cluster`, of `check`: values that occur too often to be measured.
#[derive(Serialize)]
struct ClusterMessage {
    /// Which message this is.
    message: &'static str,
    /// What is odd, in a sentence: the same place for many wells, the same value in many rows.
    says: String,
}

/// `rests_on`, of `check`: how much of the water rests on an assumed field.
#[derive(Serialize)]
struct RestsOnMessage {
    /// Which message this is.
    message: &'static str,
    /// Type of the wells for which the field was assumed.
    well_type: &'static str,
    /// Name of the field, as in `reports/headings.md`.
    field: &'static str,
    /// Planned visits for which the field was assumed.
    visits: u64,
    /// Water standing in the well, in liters.
    standing_volume_l: f64,
    /// Liters between the low and the high reading of their water.
    low_to_high_l: f64,
    /// Their share of all planned water, from 0 to 1.
    share_of_volume: f64,
}

/// `repair`, of `check`: one of the rows to measure first.
#[derive(Serialize)]
struct RepairMessage<'a> {
    /// Which message this is.
    message: &'static str,
    /// The list, with its sheet.
    list: &'a str,
    /// Row, as a spreadsheet program numbers it.
    row: u32,
    /// The id of the well, as typed.
    well_id: &'a str,
    /// Which treatment of the well.
    visit: &'a str,
    /// Fields that were assumed for it.
    fields: Vec<&'static str>,
    /// Liters between the low and the high reading of its water.
    low_to_high_l: f64,
    /// Its share of the whole span between low and high, from 0 to 1.
    share_of_span: f64,
}

/// For a program: one message a line.
pub(super) fn messages(quality: &Quality, units: Units<'_>, out: &mut dyn Write) -> Result<()> {
    let rows = quality.rows();
    for field in quality.completeness() {
        let by_type = kinds(quality)
            .into_iter()
            .map(|(kind, name)| (name, Given { rows: rows[kind], given: field.given[kind] }))
            .collect();
        let message = CompletenessMessage {
            message: "completeness",
            field: field.field.name(),
            rows: rows.iter().sum(),
            given: field.given.iter().sum(),
            unread: field.unread,
            by_type,
        };
        json::write_line(out, &message)?;
    }
    for range in quality.ranges() {
        let value = |si: f64| units.value(range.field, si);
        let message = RangeMessage {
            message: "range",
            field: range.field.name(),
            well_type: range.well_type.map(WellType::name),
            values: range.count,
            unit: units.unit(range.field).map_or("", |unit| unit.symbol),
            least: value(range.least),
            median: value(range.median),
            greatest: value(range.greatest),
            most_frequent: value(range.most_frequent),
            most_frequent_count: range.most_frequent_count,
        };
        json::write_line(out, &message)?;
    }
    for cluster in quality.clusters() {
        json::write_line(out, &ClusterMessage { message: "cluster", says: cluster_words(&cluster, units) })?;
    }
    for ((well_type, field), rested) in &quality.rested {
        let message = RestsOnMessage {
            message: "rests_on",
            well_type: well_type.name(),
            field: field.name(),
            visits: rested.visits,
            standing_volume_l: rested.volume_l,
            low_to_high_l: rested.span_l,
            share_of_volume: rested.volume_l / quality.volume_l,
        };
        json::write_line(out, &message)?;
    }
    for repair in &quality.repairs {
        let message = RepairMessage {
            message: "repair",
            list: &repair.list,
            row: repair.row,
            well_id: &repair.well,
            visit: &repair.visit,
            fields: repair.fields.iter().map(|field| field.name()).collect(),
            low_to_high_l: repair.span_l,
            share_of_span: repair.span_l / quality.span_l,
        };
        json::write_line(out, &message)?;
    }
    Ok(())
}
