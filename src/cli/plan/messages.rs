//! What `plan` says to a program: one message a line.

use std::io::Write;

use serde::Serialize;

use super::counts::Counts;
use crate::finding::Finding;
use crate::report::Matter;
use crate::write::json;

/// Version of the record and of every JSON message.
pub(in crate::cli) const FORMAT: u32 = 1;

/// `finding`, of `check` and `plan`: one finding, as it is made.
#[derive(Serialize)]
pub(in crate::cli) struct FindingMessage {
    /// Which message this is.
    message: &'static str,
    /// `error` (holds a row back), `warning` or `note`.
    severity: &'static str,
    /// Code of the finding, as in `reports/findings.md`; permanent.
    code: &'static str,
    /// Its name in words joined by hyphens; may change.
    name: &'static str,
    /// The list, by its name in this run.
    file: String,
    /// The sheet; nothing where the file has none.
    sheet: Option<String>,
    /// Row, as a spreadsheet program numbers it; nothing where it is about the whole list.
    row: Option<u32>,
    /// Column, in letters; nothing where it is about a whole row.
    column: Option<String>,
    /// The heading, as it stands in the list.
    heading: Option<String>,
    /// The id of the well, as typed.
    well_id: Option<String>,
    /// What stands in the cell, letter by letter.
    as_typed: String,
    /// What is wrong with it, in a sentence.
    says: String,
    /// The rule that it breaks.
    rule: &'static str,
    /// What to do about it.
    what_to_do: String,
    /// What may stand in the cell instead, where that is known.
    suggested_value: Option<String>,
}

impl FindingMessage {
    pub(in crate::cli) fn of(finding: &Finding) -> Self {
        let place = &finding.place;
        Self {
            message: "finding",
            severity: finding.code.severity().name(),
            code: finding.code.id(),
            name: finding.code.name(),
            file: place.origin.file.to_string(),
            sheet: place.origin.sheet.as_deref().map(str::to_owned),
            row: place.row,
            column: place.column.as_ref().map(|column| column.letters()),
            heading: place.column.as_ref().map(|column| column.heading.to_string()),
            well_id: finding.well.as_deref().map(str::to_owned),
            as_typed: finding.seen.to_string(),
            says: finding.says.to_string(),
            rule: finding.code.rule(),
            what_to_do: finding.help.to_string(),
            suggested_value: finding.suggested.as_deref().map(str::to_owned),
        }
    }
}

/// `total`, of `plan`: what a scenario comes to.
#[derive(Serialize)]
struct TotalMessage<'a> {
    /// Which message this is.
    message: &'static str,
    /// Name of the scenario.
    scenario: &'a str,
    /// Visits that are planned.
    visits_planned: u64,
    /// Visits that are held back, for which nothing is computed.
    visits_held_back: u64,
    /// Visits that a rule of the campaign leaves out.
    visits_excluded: u64,
    /// Of those planned, the visits with a value that was assumed.
    visits_assumed: u64,
    /// Water that is treated, in liters: what stands in the well, its allowance, and the plumbing treated with it.
    treated_volume_l: f64,
    /// Available chlorine, in grams as Cl2.
    chlorine_g: f64,
    /// What the product is bought by: L of a liquid, kg of a dry product.
    product_unit: &'static str,
    /// Product for the first round, in that unit.
    product: f64,
    /// The same with each well at its low reading, as if all erred together.
    product_low: f64,
    /// The same with each well at its high reading.
    product_high: f64,
    /// Product for wells that must be treated again.
    product_repeat: f64,
    /// Product lost in handling.
    product_loss: f64,
    /// Neutralizer of every agent together, in kilograms.
    neutralizer_kg: f64,
    /// Water to pump out, in liters.
    flush_volume_l: f64,
    /// Hours of pumping, of the wells whose rate is known.
    flush_h: f64,
}

/// `run_finished`, the last message of `plan`.
#[derive(Serialize)]
struct Finished {
    /// Which message this is.
    message: &'static str,
    /// Version of the messages; a change that a reader must know of raises it.
    format: u32,
    #[serde(flatten)]
    counts: Counts,
}

/// Writes what each scenario comes to, and the end of the run.
pub(super) fn write_totals(matter: &Matter<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    for (index, case) in matter.plan.cases.iter().enumerate() {
        let sums = matter.run.totals.overall(index);
        let message = TotalMessage {
            message: "total",
            scenario: &case.scenario.name,
            visits_planned: sums.planned,
            visits_held_back: sums.held_back,
            visits_excluded: sums.excluded,
            visits_assumed: sums.assumed,
            treated_volume_l: sums.treated_volume_l,
            chlorine_g: sums.chlorine_g,
            product_unit: matter.plan.campaign.products[case.scenario.product].bought_by().unit(),
            product: sums.product,
            product_low: sums.product_low,
            product_high: sums.product_high,
            product_repeat: sums.repeat,
            product_loss: sums.loss,
            neutralizer_kg: sums.neutralizer_first_kg(),
            flush_volume_l: sums.flush_volume_l,
            flush_h: sums.flush_h,
        };
        json::write_line(out, &message)?;
    }
    let finished = Finished { message: "run_finished", format: FORMAT, counts: Counts::of(matter.plan, matter.run) };
    json::write_line(out, &finished)
}
