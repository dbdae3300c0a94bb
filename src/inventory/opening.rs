//! The lists opened, each table with its plan.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

use super::bytes::Tally;
use super::corrections::Corrections;
use super::draft::{self, Table};
use super::file::open_file;
use super::first_reading::first_reading;
use super::id_groups::{self, Beginning};
use super::intervals::{self, Intervals};
use super::list_rules::{Reading, said_of, unused};
use super::rows::Rows;
use super::sources::{Beside, Source, examples};
use super::stamp::Stamp;
use super::survey::{self, Survey};
use super::table::Opened;
use super::{Inventory, columns, heading, list_names, other_sheets, paths, stacked, suspicion, type_of_list};
use crate::error::Result;
use crate::field::rules::ReadingRules;
use crate::field::same_column;
use crate::finding::{Finding, catalogue};
use crate::place::{Origin, Place};

impl Inventory {
    /// Opens every file and makes the plan of its tables.
    ///
    /// # Errors
    /// [`crate::error::Error::Input`] where a file cannot be read at all, [`crate::error::Error::Request`] where the rules
    /// cannot be followed.
    pub fn open(paths: &[PathBuf], rules: &ReadingRules) -> Result<Self> {
        let files = paths::expand(paths)?;
        let names = list_names(&files);
        // Before anything is read, so that the list that is judged is the one whose rows are taken.
        let stamps: Vec<Option<Stamp>> = files.iter().map(|file| Stamp::of(file)).collect();
        let survey = Arc::new(if survey::is_needed(rules) { first_reading(&files, rules)? } else { Survey::default() });
        let mut findings = Vec::new();
        let all_lists = Reading::new(Cow::Borrowed(rules))?;
        let reading_of = |origin: &Origin| match rules.of(origin) {
            Cow::Borrowed(_) => Ok(all_lists.clone()),
            own @ Cow::Owned(_) => Reading::new(own),
        };
        let mut inventory = Self {
            sources: Vec::new(),
            beside: Vec::new(),
            intervals: Arc::default(),
            current: 0,
            carried: Vec::new(),
            findings: Vec::new(),
            corrections: Arc::new(Corrections::new(&rules.corrections)),
            total_bytes: 0,
        };
        let mut seen: BTreeMap<PathBuf, usize> = BTreeMap::new();
        let mut used: Vec<(Option<usize>, &str)> = Vec::new();
        let mut tables = Vec::new();
        let mut beside = Vec::new();
        let mut intervals = Intervals::default();
        for (at, path) in files.iter().enumerate() {
            let name = names[at].clone();
            let tally = Arc::<Tally>::default();
            let opened = open_file(path, &name, rules, &tally, stamps[at].as_ref())?;
            if let Ok(whole) = path.canonicalize()
                && let Some(first) = seen.insert(whole, at)
            {
                findings.push(named_twice(&name, &files[first], path));
            }
            inventory.total_bytes += path.metadata().map_or(0, |metadata| metadata.len());
            let mut tables_of_file = Vec::new();
            for table in opened {
                let rules = rules.of(&table.origin);
                tables_of_file.extend(stacked::apart(table, &rules)?);
            }
            let others_have_rows = tables_of_file.iter().any(|table| table.first_row < table.sample.len());
            for mut table in tables_of_file {
                inventory.corrections.prepare(&mut table);
                findings.append(&mut table.notes);
                for (list, rules) in said_of(rules, &table.origin) {
                    for heading in &table.headings {
                        used.extend(heading::mapped(heading, rules).map(|(written, _)| (list, written)));
                        used.extend(heading::mapped_beside(heading, rules).map(|(written, ..)| (list, written)));
                    }
                }
                let Reading { rules, cells, .. } = &reading_of(&table.origin)?;
                if intervals::is_intervals(&table, rules) {
                    let correct = |origin: &Origin, rows: &mut Rows| inventory.corrections.apply(origin, rows);
                    let rows = intervals::read(&mut table, rules, cells, correct, &mut intervals, &mut findings)?;
                    beside.push(Beside { path: path.clone(), tally: Arc::clone(&tally), origin: table.origin, rows });
                    continue;
                }
                table.describe(rules);
                if table.source.is_some() && table.first_row >= table.sample.len() {
                    findings.push(no_rows(&table.origin, others_have_rows));
                }
                tables.push((path.clone(), Arc::clone(&tally), table));
            }
        }
        let mut plans = Vec::new();
        for (path, tally, table) in tables {
            let mut reading = reading_of(&table.origin)?;
            let plan = columns::plan(&table, &reading.rules, &reading.cells, &intervals, &mut findings);
            type_of_list::take(&table, &plan, &mut reading.fixed, &mut findings);
            suspicion::units(&table, &plan, &reading.cells, &reading.fixed, &mut findings);
            plans.push((path, tally, reading, table, plan));
        }
        inventory.intervals = Arc::new(intervals);
        inventory.carried = union(plans.iter().map(|(.., table, plan)| (table, plan)), &mut findings);
        let origins: Vec<&Origin> = plans
            .iter()
            .map(|(.., table, _)| &table.origin)
            .chain(beside.iter().map(|beside| &beside.origin))
            .collect();
        unused(rules, &used, &origins, &mut findings);
        let tables: Vec<_> = plans.iter().map(|(path, _, _, table, plan)| (path, table, plan)).collect();
        let without_wells = other_sheets::find(&tables, &mut findings);
        let mut beginnings = Vec::new();
        for ((path, tally, reading, table, plan), lists_no_wells) in plans.into_iter().zip(without_wells) {
            let carried = inventory
                .carried
                .iter()
                .map(|name| {
                    plan.carried.iter().find(|(_, heading)| same_column(heading, name)).map(|(column, _)| *column)
                })
                .collect();
            let (slots, order) = draft::slots(&plan, &reading.fixed);
            let coded = draft::coded(&table, &plan, &mut findings);
            let worded = draft::worded(&plan);
            let no_wells_by_name = draft::no_wells_by_name(&table.origin, &plan, &reading.cells);
            let examples = examples(&table);
            let (sample, first_row) = (table.sample, table.first_row);
            inventory.sources.push(Source {
                path,
                examples,
                tally,
                table: Arc::new(Table {
                    origin: table.origin,
                    order,
                    slots,
                    plan,
                    carried,
                    coded,
                    legend: table.legend,
                    comma: table.comma,
                    short_rows: table.short_rows,
                    cells: reading.cells,
                    fixed: reading.fixed,
                    system: reading.rules.system,
                    system_of: reading.rules.whose_system(),
                    worded,
                    no_wells_by_name,
                    lists_no_wells,
                    naming: OnceLock::new(),
                    intervals: Arc::clone(&inventory.intervals),
                    survey: Arc::clone(&survey),
                }),
                rows_from: table.source,
                rows: 0,
            });
            if let Some(source) = inventory.sources.last() {
                beginnings.push(Beginning { table: Arc::clone(&source.table), sample, first_row });
            }
        }
        findings.extend(id_groups::decide(beginnings));
        inventory.beside = beside;
        findings.sort_by(|a, b| a.sort_key().cmp(&b.sort_key()));
        inventory.findings = findings;
        Ok(inventory)
    }
}

/// Carried headings of all tables, each once as it is first spelled, in order of appearance.
fn union<'a>(plans: impl Iterator<Item = (&'a Opened, &'a columns::Plan)>, findings: &mut Vec<Finding>) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for (table, plan) in plans {
        for (column, name) in &plan.carried {
            let Some(first) = names.iter().find(|first| same_column(first, name)) else {
                names.push(name.clone());
                continue;
            };
            if let Some(column) = plan.columns.get(*column).filter(|_| first != name) {
                let place = Place::cell(&table.origin, table.heading_row, column);
                let says = format!("carried along as \"{first}\", as an earlier list spells it");
                let help = "no action needed if they are the same; otherwise give one of them another heading";
                findings.push(Finding::new(catalogue::SPELLED_DIFFERENTLY, place, says, help).seen(&column.heading));
            }
        }
    }
    names
}

fn named_twice(name: &str, first: &Path, again: &Path) -> Finding {
    Finding::new(
        catalogue::SAME_FILE_TWICE,
        Place::whole(&Origin::file(name)),
        format!("this file is named twice, as {} and as {}", first.display(), again.display()),
        "name it once; its wells would be counted twice",
    )
}

fn no_rows(origin: &Origin, others_have_rows: bool) -> Finding {
    Finding::new(
        if others_have_rows { catalogue::EMPTY_SHEET } else { catalogue::EMPTY_FILE },
        Place::whole(origin),
        "there are headings and no rows below them",
        "check that the export was complete",
    )
}
