//! The record of a run: what was run on what.

use chrono::NaiveDate;
use serde::Serialize;

use super::counts::Counts;
use super::messages::FORMAT;
use crate::engine::{Plan, Run};
use crate::field::rules::Correction;
use crate::inventory::Inventory;

/// `run.json`: what was run on what; everything that decides the outputs, and nothing that does not.
#[derive(Serialize)]
pub(super) struct Record {
    /// Version of the messages; a change that a reader must know of raises it.
    format: u32,
    /// Name of the program.
    program: &'static str,
    /// Version of the program.
    version: &'static str,
    /// Day of the plan; nothing where none was stated.
    date: Option<String>,
    /// Title of the campaign.
    title: String,
    /// File of the treatments; nothing where no table was written.
    table: Option<&'static str>,
    /// The lists, in the order they were read.
    lists: Vec<ListRecord>,
    /// The scenario file or campaign book.
    pub(super) scenario_file: FileRecord,
    /// The scenarios that were run.
    scenarios: Vec<ScenarioRecord>,
    #[serde(flatten)]
    counts: Counts,
    /// Planned visits with a value that was assumed.
    visits_resting_on_assumptions: u64,
    /// Rows of the table of treatments.
    treatment_rows: u64,
    /// How often each finding was made, by its code.
    findings: std::collections::BTreeMap<&'static str, u64>,
    /// Everything else in the folder that the run wrote: what a later run may replace, unless it was edited since.
    pub(super) outputs: Vec<FileRecord>,
    /// The corrections that were laid over the lists, where some were given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) corrections: Option<CorrectionsRecord>,
}

/// Corrections of a run.
#[derive(Serialize)]
pub(super) struct CorrectionsRecord {
    /// The file of corrections.
    pub(super) file: FileRecord,
    /// Each correction that was applied.
    applied: Vec<CorrectionRecord>,
}

/// A correction that was applied.
#[derive(Serialize)]
pub(super) struct CorrectionRecord {
    /// File, sheet, row and column of the cell.
    place: String,
    /// The heading, as it stands in the list.
    heading: String,
    /// What stood in it.
    typed: String,
    /// What was read instead.
    corrected: String,
    /// Who corrected it, as the file says.
    who: String,
    /// Where in the file of corrections.
    written_in: String,
}

/// A file with its digest.
#[derive(Serialize, Default)]
pub(super) struct FileRecord {
    /// The file, by its name.
    pub(super) file: String,
    /// Digest of the file (SHA-256).
    pub(super) sha256: String,
}

/// A list, or a sheet of it.
#[derive(Serialize)]
pub(super) struct ListRecord {
    /// The file, by its name.
    pub(super) file: String,
    /// The sheet; nothing where the file has none.
    sheet: Option<String>,
    /// Digest of the file (SHA-256).
    pub(super) sha256: String,
    /// Rows that were read.
    rows: u64,
    /// How each heading was read.
    read_as: Vec<ReadAs>,
}

/// A heading, and what it was read as.
#[derive(Serialize)]
pub(super) struct ReadAs {
    /// The heading, as it stands in the list.
    heading: String,
    /// Name of the field, as in `reports/headings.md`.
    field: &'static str,
    /// Unit of bare numbers in the column; nothing where there is none.
    unit: Option<String>,
}

/// A scenario that was run.
#[derive(Serialize)]
pub(super) struct ScenarioRecord {
    /// Its number, as in `--only S3`.
    id: String,
    /// Name of the scenario.
    name: String,
    /// Name of the product.
    product: String,
}

impl CorrectionsRecord {
    pub(super) fn of(file: FileRecord, inventory: &Inventory) -> Self {
        let record = |correction: Correction| CorrectionRecord {
            place: correction.place,
            heading: correction.heading,
            typed: correction.typed,
            corrected: correction.corrected,
            who: correction.who,
            written_in: correction.written_in,
        };
        let applied = inventory.applied_corrections().into_iter().map(record).collect();
        Self { file, applied }
    }
}

impl Record {
    pub(super) fn of(
        inventory: &Inventory,
        date: Option<NaiveDate>,
        plan: &Plan<'_>,
        run: &Run,
        table: Option<&'static str>,
    ) -> Self {
        Self {
            format: FORMAT,
            program: env!("CARGO_PKG_NAME"),
            version: env!("CARGO_PKG_VERSION"),
            date: date.map(|date| date.to_string()),
            title: plan.campaign.title.clone(),
            table,
            lists: inventory
                .sources()
                .into_iter()
                .map(|source| ListRecord {
                    file: source.origin.file.to_string(),
                    sheet: source.origin.sheet.as_deref().map(str::to_owned),
                    sha256: source.sha256,
                    rows: source.rows,
                    read_as: source
                        .fields
                        .into_iter()
                        .map(|(heading, field, unit)| ReadAs { heading, field: field.name(), unit })
                        .collect(),
                })
                .collect(),
            scenario_file: FileRecord::default(),
            scenarios: plan
                .cases
                .iter()
                .map(|case| ScenarioRecord {
                    id: format!("S{}", case.scenario.number),
                    name: case.scenario.name.clone(),
                    product: plan.campaign.products[case.scenario.product].name.clone(),
                })
                .collect(),
            counts: Counts::of(plan, run),
            visits_resting_on_assumptions: run.assumed,
            treatment_rows: run.table_rows,
            findings: run.finding_counts.iter().map(|(code, count)| (code.id(), *count)).collect(),
            outputs: Vec::new(),
            corrections: None,
        }
    }
}
