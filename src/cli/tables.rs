//! The tables of `plan`: which are written, under which names, in which format.

use std::path::Path;

use super::args::{Plan as Options, Table as Format};
use crate::engine::{Listener, Plan, Run, Table, TableColumn, Tables};
use crate::error::Result;
use crate::inventory::Inventory;
use crate::report::Matter;
use crate::report::scenarios::scenarios;
use crate::table::ColumnHead;
use crate::write::csv::{self, CsvTable};
use crate::write::folder::OutputFolder;
use crate::write::parquet::{self, ParquetTable};

/// Names of the tables in each format; one of them left by an earlier run is cleared away.
pub(super) const NAMES: [&str; 6] =
    ["visits.csv", "treatments.csv", "scenarios.csv", "visits.parquet", "treatments.parquet", "scenarios.parquet"];

/// The columns of the tables that stream out while the lists are read.
struct Columns {
    visits: Option<Vec<TableColumn>>,
    treatments: Vec<TableColumn>,
}

impl Columns {
    fn of(options: &Options, plan: &Plan<'_>) -> Result<Self> {
        if options.columns.is_empty() {
            return Ok(Self { visits: Some(plan.visit_columns()), treatments: Plan::treatment_columns() });
        }
        Ok(Self { visits: None, treatments: plan.columns_named(&options.columns)? })
    }
}

/// Name of the treatments table, where there is one.
pub(super) const fn treatments(format: Format) -> Option<&'static str> {
    match format {
        Format::Csv => Some(NAMES[1]),
        Format::Parquet => Some(NAMES[4]),
        Format::None => None,
    }
}

/// Runs the lists, and writes the tables of visits and treatments as they come; gives their names too.
///
/// # Errors
/// Unknown columns, and whatever keeps a run from its end.
pub(super) fn run(
    options: &Options,
    plan: &Plan<'_>,
    inventory: &mut Inventory,
    staged: &OutputFolder,
    keep: usize,
    listener: &mut dyn Listener,
) -> Result<(Run, Vec<&'static str>)> {
    let columns = Columns::of(options, plan)?;
    match options.table {
        Format::None => Ok((plan.run(inventory, &Tables::none(), keep, listener)?, Vec::new())),
        Format::Csv => {
            let create = |path: &Path, heads: &[ColumnHead]| CsvTable::create(path, heads);
            let (tables, names) = open(columns, plan, staged, [NAMES[0], NAMES[1]], create)?;
            let run = plan.run(inventory, &tables, keep, listener)?;
            tables.visits.sink.map_or(Ok(()), CsvTable::finish)?;
            tables.treatments.sink.map_or(Ok(()), CsvTable::finish)?;
            Ok((run, names))
        }
        Format::Parquet => {
            let create = |path: &Path, heads: &[ColumnHead]| ParquetTable::create(path, heads);
            let (tables, names) = open(columns, plan, staged, [NAMES[3], NAMES[4]], create)?;
            let run = plan.run(inventory, &tables, keep, listener)?;
            tables.visits.sink.map_or(Ok(()), ParquetTable::finish)?;
            tables.treatments.sink.map_or(Ok(()), ParquetTable::finish)?;
            Ok((run, names))
        }
    }
}

/// Opens the tables that are wanted.
fn open<S>(
    columns: Columns,
    plan: &Plan<'_>,
    staged: &OutputFolder,
    [visits, treatments]: [&'static str; 2],
    create: impl Fn(&Path, &[ColumnHead]) -> Result<S>,
) -> Result<(Tables<Option<S>>, Vec<&'static str>)> {
    let table = |columns: Vec<TableColumn>, name: &str| -> Result<Table<Option<S>>> {
        let sink = create(&staged.path(name), &plan.heads(&columns))?;
        Ok(Table { columns, sink: Some(sink) })
    };
    let mut names = vec![treatments];
    let of_visits = match columns.visits {
        Some(columns) => {
            names.insert(0, visits);
            table(columns, visits)?
        }
        None => Table { columns: Vec::new(), sink: None },
    };
    Ok((Tables { visits: of_visits, treatments: table(columns.treatments, treatments)? }, names))
}

/// Writes the table of scenarios; gives its name, where there is one.
///
/// # Errors
/// When the file cannot be written.
pub(super) fn write_scenarios(
    format: Format,
    staged: &OutputFolder,
    matter: &Matter<'_>,
) -> Result<Option<&'static str>> {
    match format {
        Format::None => Ok(None),
        Format::Csv => csv::write_grid(&staged.path(NAMES[2]), &scenarios(matter)).map(|()| Some(NAMES[2])),
        Format::Parquet => parquet::write_grid(&staged.path(NAMES[5]), &scenarios(matter)).map(|()| Some(NAMES[5])),
    }
}
