//! What was read of each table.

use std::path::PathBuf;
use std::sync::Arc;

use super::Inventory;
use super::bytes::Tally;
use super::draft::Table;
use super::table::{Opened, RowSource};
use crate::field::{FIELDS, Field};
use crate::place::Origin;

/// A table that was read, as far as it was read.
#[derive(Debug, Clone, PartialEq)]
pub struct SourceInfo {
    /// The file and the sheet that it stands in.
    pub origin: Origin,
    /// The file as named.
    pub path: PathBuf,
    /// Rows read so far, blank ones not counted.
    pub rows: u64,
    /// SHA-256 of the file's bytes; of what was read so far, until the file is read to its end.
    pub sha256: String,
    /// Columns that are read as fields: heading as written, field, unit of a bare number.
    pub fields: Vec<(String, Field, Option<String>)>,
    /// Columns that are no field and are read all the same: heading as written, and what for.
    pub beside: Vec<(String, String)>,
    /// Headings of the columns that are not fields.
    pub carried: Vec<String>,
    /// Headings in their order, each with the first cells below it that hold anything.
    pub examples: Vec<(String, Vec<String>)>,
}

/// A table of wells, open for reading.
pub(super) struct Source {
    pub(super) path: PathBuf,
    pub(super) tally: Arc<Tally>,
    pub(super) table: Arc<Table>,
    pub(super) rows_from: Option<Box<dyn RowSource>>,
    pub(super) rows: u64,
    pub(super) examples: Vec<(String, Vec<String>)>,
}

/// A table of casing intervals, read to its end at opening.
pub(super) struct Beside {
    pub(super) path: PathBuf,
    pub(super) tally: Arc<Tally>,
    pub(super) origin: Origin,
    pub(super) rows: u64,
}

impl Inventory {
    /// Every table, with what was read of it so far; tables of casing intervals last.
    pub fn sources(&self) -> Vec<SourceInfo> {
        self.sources
            .iter()
            .map(|source| SourceInfo {
                origin: source.table.origin.clone(),
                path: source.path.clone(),
                rows: source.rows,
                sha256: source.tally.sha256(),
                fields: fields(&source.table),
                beside: beside(&source.table),
                carried: source.table.plan.carried.iter().map(|(_, heading)| heading.clone()).collect(),
                examples: source.examples.clone(),
            })
            .chain(self.beside.iter().map(|beside| SourceInfo {
                origin: beside.origin.clone(),
                path: beside.path.clone(),
                rows: beside.rows,
                sha256: beside.tally.sha256(),
                fields: Vec::new(),
                beside: Vec::new(),
                carried: Vec::new(),
                examples: Vec::new(),
            }))
            .collect()
    }
}

fn fields(table: &Table) -> Vec<(String, Field, Option<String>)> {
    let mut fields: Vec<(usize, Field, Option<String>)> = FIELDS
        .iter()
        .filter_map(|definition| {
            let feed = table.plan.feeds.get(definition.field as usize)?.as_ref().filter(|feed| !feed.barred)?;
            let counted_as = feed.species.map_or(String::new(), |species| format!(" as {}", species.symbol));
            let unit = feed.unit.filter(|unit| !unit.symbol.is_empty());
            let unit = unit.map(|unit| format!("{}{counted_as}", unit.symbol));
            Some((feed.column, definition.field, unit))
        })
        .collect();
    fields.sort_unstable_by_key(|(column, ..)| *column);
    fields
        .into_iter()
        .map(|(column, field, unit)| (table.plan.columns[column].heading.as_ref().to_owned(), field, unit))
        .collect()
}

/// What columns are read for that are the column of no field.
fn beside(table: &Table) -> Vec<(String, String)> {
    let plan = &table.plan;
    let mut found: Vec<(usize, String)> = Vec::new();
    for definition in &FIELDS {
        let Some(feed) = plan.feeds.get(definition.field as usize).and_then(Option::as_ref) else { continue };
        let field = definition.name.replace('_', " ");
        let level = &feed.level;
        let mut put = |column: Option<usize>, what: String| found.extend(column.map(|column| (column, what)));
        put(feed.unit_column, format!("gives the unit of {field}"));
        put(feed.qualifier_column, format!("gives a sign or a word before {field}"));
        put(feed.left_over, format!("gives the inches beside the feet of {field}"));
        put(level.reference_column, format!("tells from where each {field} is counted"));
        put(
            level.datum_by_place.as_ref().map(|(column, _)| *column),
            format!("tells from where each {field} is counted"),
        );
        put(level.state_column, format!("tells whether each {field} was taken at rest"));
        put(level.pump_off, format!("tells whether each {field} was taken at rest"));
        let mut also = feed.also.as_deref();
        while let Some(feed) = also {
            put(Some(feed.column), format!("gives {field} where the column of {field} does not"));
            also = feed.also.as_deref();
        }
    }
    for question in &plan.questions {
        let field = question.field.name().replace('_', " ");
        let columns = question.answers.iter().map(|(column, _)| *column).chain(question.whole).chain(question.written);
        found.extend(columns.map(|column| (column, format!("one of the answers that give {field}"))));
    }
    for string in &plan.strings {
        let columns = [Some(string.width), Some(string.end), string.top].into_iter().flatten();
        found.extend(columns.map(|column| (column, "tells of the casing further down".to_owned())));
    }
    let told = [
        (plan.changes, "tells how the width changes further down"),
        (plan.finish, "tells how the well ends below its casing"),
        (plan.screens, "gives the width of the screen below the casing"),
        (plan.described.map(|described| described.column), "describes the whole well"),
    ];
    found.extend(told.into_iter().filter_map(|(column, what)| Some((column?, what.to_owned()))));
    let sides = plan.sides.iter().flat_map(|sides| [Some(sides.one), sides.other, sides.shape]).flatten();
    found.extend(sides.map(|column| (column, "gives the sides of wells that are not round".to_owned())));
    let basin = plan.basin.iter().flat_map(|basin| basin.measures.iter().map(|(column, _)| *column));
    found.extend(basin.map(|column| (column, "gives a measure of the box of a spring".to_owned())));
    let is_field = |column: usize| plan.feeds.iter().flatten().any(|feed| !feed.barred && feed.column == column);
    found.retain(|(column, _)| !is_field(*column));
    let heading = |column: usize| plan.columns.get(column).map(|column| column.heading.as_ref().to_owned());
    found.into_iter().filter_map(|(column, what)| Some((heading(column)?, what))).collect()
}

/// The first cells of each column that hold anything.
pub(super) fn examples(table: &Opened) -> Vec<(String, Vec<String>)> {
    const SHOWN: usize = 3;
    let filled = |column: usize| table.filled(column).take(SHOWN).map(str::to_owned).collect();
    table.headings.iter().enumerate().map(|(column, heading)| (heading.clone(), filled(column))).collect()
}
