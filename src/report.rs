//! From a run to sheets of typed cells and plain tables. No file formats: `write` makes bytes of them.
//!
//! Each sheet has a file of its own. This room knows what a number means and how people read it; it computes nothing that
//! is not a sum, a share or a conversion of units.

mod about;
mod agents;
mod assumptions;
pub mod by_sheet;
pub mod causes;
mod cautions;
mod compare;
mod consequences;
mod corrected;
pub mod corrections;
pub mod crew;
pub mod crew_days;
pub mod defaults;
pub mod doubts;
mod field;
mod field_words;
mod findings;
pub mod fitted;
pub mod flooded;
mod held_back;
mod live;
pub mod measured_out;
mod method;
pub mod moving;
pub mod on_hand;
pub mod outsized;
pub mod page;
pub mod quality;
pub mod question;
pub mod questions;
pub mod resting;
mod rounding;
pub mod scenarios;
pub mod settled;
pub mod show;
pub mod site;
mod stated;
mod step;
mod storage;
mod summary;
pub mod tables;
pub mod template;
mod unpriced;
mod wells;
pub mod working;

use crate::document::cell::{Book, Sheet};
use crate::engine::{Plan, Run};
use crate::error::Result;
use crate::field::rules::Correction;
use crate::finding::Finding;
use crate::rollup::orders::Orders;
use crate::visit::TreatedVisit;
use chrono::NaiveDate;
pub use storage::{SHELF_SHARE, SHELF_TEMPERATURES};

/// Said wherever the low and the high of a total are shown.
pub const AS_IF_TOGETHER: &str = "Low and high add up every well's low and every well's high, as if all of them erred to the same \
                                  side at once; the truth is likely to lie nearer the middle.";

/// What a report is made from.
#[derive(Debug, Clone, Copy)]
pub struct Matter<'a> {
    /// The campaign, its scenarios with their products on the day of use, and who makes which visit when.
    pub plan: &'a Plan<'a>,
    /// What became of the lists in the run: sums, counts and the visits that were kept.
    pub run: &'a Run,
    /// What to buy under each scenario, depot by depot, in whole packages.
    pub orders: &'a Orders,
    /// The first findings, in reading order.
    pub findings: &'a [Finding],
    /// All findings, by cause.
    pub causes: &'a causes::Causes,
    /// Cells that were read as corrected.
    pub corrections: &'a [Correction],
    /// Date of the plan.
    pub date: Option<NaiveDate>,
    /// Names of the lists.
    pub lists: &'a [String],
    /// What the plan was made from, as the text of a scenario file.
    pub stated: &'a str,
    /// Whether the campaign is stated in a book: what is to be done is then said by its sheets, not by lines of a file.
    pub is_of_book: bool,
    /// Name of the file that holds every row, where the workbook does not.
    pub table_file: Option<&'a str>,
    /// Whether the plan was made of a workbook: people who fill in cells are told of sheets, not of options.
    pub of_book: bool,
}

/// Rows of the treatments table that the workbook shows where it cannot show all: enough to see what they look like.
const SAMPLE_ROWS: usize = 2_000;

impl Matter<'_> {
    /// What is to be done about a cause, for whoever stated the campaign: by lines of a scenario file, or by sheets of a book.
    fn what_to_do(&self, cause: &causes::Cause) -> String {
        let line = questions::what_to_do(cause, self.causes);
        if self.is_of_book { by_sheet::by_sheet(&line) } else { line }
    }

    /// The visits that the workbook shows: all where they were all kept, else the first of them.
    pub fn visits(&self) -> &[TreatedVisit] {
        let kept = &self.run.kept;
        let cases = self.plan.cases.len().max(1);
        let all = (kept.len() * cases) as u64 == self.run.table_rows;
        if all { kept } else { &kept[..kept.len().min(SAMPLE_ROWS / cases)] }
    }

    /// Where the other rows are; `None` where the workbook shows all.
    fn rest(&self) -> Option<String> {
        let shown = self.visits().len() * self.plan.cases.len();
        (shown as u64 != self.run.table_rows).then(|| {
            let rest = match self.table_file {
                Some(file) => format!("every row is in {file}"),
                None => "run again with --table csv or parquet for the others".to_owned(),
            };
            format!("The first {shown} of {} rows are here; {rest}.", self.run.table_rows)
        })
    }

    /// How the cards of another scenario than the first are made.
    fn cards_of_another(&self) -> &'static str {
        if self.of_book {
            "put it in the first line of the sheet Scenarios of the campaign book and plan the book again"
        } else {
            "plan again with --only and its name"
        }
    }

    /// `222 of 246 well visits planned; 24 held back; 3 excluded; 5 rows are not wells`.
    pub fn coverage(&self) -> String {
        let run = self.run;
        let visits = run.planned + run.held_back;
        let mut text = format!("{} of {visits} well visits planned; {} held back", run.planned, run.held_back);
        if run.excluded > 0 {
            text.push_str(&format!("; {} excluded", run.excluded));
        }
        match run.other_rows.count() {
            0 => {}
            1 => text.push_str("; 1 row is not a well"),
            others => text.push_str(&format!("; {others} rows are not wells")),
        }
        text
    }

    /// `250 rows read: 222 planned + 24 held back + 3 excluded + 1 not wells`.
    pub fn account(&self) -> String {
        let run = self.run;
        format!(
            "{} rows read: {} planned + {} held back + {} excluded + {} not wells",
            run.read,
            run.planned,
            run.held_back,
            run.excluded,
            run.other_rows.count()
        )
    }
}

/// The workbook of a run.
///
/// # Errors
/// When an override cannot be asked of the wells.
pub fn book(matter: &Matter<'_>) -> Result<Book> {
    let live = live::sheets(matter)?;
    let (mut names, mut follows, mut order, mut charts, mut workings) = (Vec::new(), None, None, None, Vec::new());
    let (mut wells, mut back) = (None, Vec::new());
    if let Some(live) = live {
        (names, follows, workings) = (live.names, Some(live.follows), live.workings);
        (order, charts, wells, back) = (Some(live.order), Some(live.charts), live.wells, live.back);
    }
    let wells = wells.unwrap_or_else(|| wells::sheet(matter));
    let picked = follows.as_ref().map(|follows| (&mut names, follows));
    let mut sheets: Vec<Sheet> = vec![summary::sheet(matter, picked), compare::sheet(matter, follows.as_ref())];
    sheets.extend(charts.take().into_iter().chain(order.take()));
    sheets.extend([wells, field::sheet(matter, follows.as_ref())]);
    sheets.extend(held_back::sheet(matter));
    sheets.extend(crew_days::sheet(matter));
    sheets.extend([
        findings::sheet(matter),
        findings::by_cell(matter),
        quality::sheet(matter),
        storage::sheet(matter),
        assumptions::sheet(matter, &back, &mut names),
    ]);
    sheets.extend(corrected::sheet(matter));
    sheets.extend([method::sheet(matter), cautions::sheet(matter)]);
    sheets.extend(workings);
    let names_of_sheets: Vec<&str> = sheets.iter().map(|sheet| sheet.name).collect();
    let about = about::sheet(matter, &names_of_sheets);
    sheets.insert(1, about);
    for sheet in &mut sheets {
        sheet.layout.class = about::class_of(sheet.name);
    }
    // What is read back must be what was stated, letter by letter; all else is for eyes.
    sheets.iter_mut().filter(|sheet| sheet.name != assumptions::NAME).for_each(Sheet::show);
    let campaign = matter.plan.campaign;
    let paper = show::paper(campaign.system);
    Ok(Book { title: campaign.title.clone(), date: matter.date, sheets, names, paper })
}
