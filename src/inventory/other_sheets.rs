//! Sheets beside the wells that list none: a summary by township, the office's pick lists.

use std::path::PathBuf;

use super::columns::Plan;
use super::table::Opened;
use crate::field::Field;
use crate::finding::{Finding, catalogue};
use crate::place::Place;

/// A sheet with more rows is a list of something, and is asked about.
const MOST_ROWS: usize = 60;

/// What is measured of a well.
const MEASURES: [Field; 7] = [
    Field::TotalDepth,
    Field::StaticWaterLevel,
    Field::WaterColumn,
    Field::WaterVolume,
    Field::CasingDiameter,
    Field::CasingOutsideDiameter,
    Field::CasingDepth,
];

fn measures(plan: &Plan) -> usize {
    let is_read = |field: &&Field| plan.feeds.get(**field as usize).is_some_and(Option::is_some);
    MEASURES.iter().filter(is_read).count()
        + plan.open.len()
        + usize::from(plan.described.is_some() || plan.sides.is_some())
}

/// Which of the tables, each with its file, list no wells: nothing of a well is measured there and no column names one,
/// while another sheet of the file has the wells. Says so once a sheet, in place of what was missed there.
pub fn find(tables: &[(&PathBuf, &Opened, &Plan)], findings: &mut Vec<Finding>) -> Vec<bool> {
    let lists_none = |(path, table, plan): &(&PathBuf, &Opened, &Plan)| {
        let elsewhere = tables.iter().any(|(other, _, plan)| other == path && measures(plan) >= 2);
        let short = table.source.is_some() && table.sample.len() <= MOST_ROWS;
        let named = plan.feeds.get(Field::WellId as usize).is_some_and(Option::is_some);
        short && elsewhere && !named && measures(plan) == 0
    };
    let found: Vec<bool> = tables.iter().map(lists_none).collect();
    for ((_, table, _), _) in tables.iter().zip(&found).filter(|(_, lists_none)| **lists_none) {
        findings.retain(|finding| finding.place.origin != table.origin);
        findings.push(Finding::new(
            catalogue::SHEET_WITHOUT_WELLS,
            Place::whole(&table.origin),
            "no column of this sheet names a well or measures one, and another sheet of the file has the wells; its rows are \
             left out",
            "if it lists wells, say what its columns are: [inventory.columns] \"heading\" = \"field\"",
        ));
    }
    found
}
