//! Everything read once, for what cannot be known row by row.

use std::path::PathBuf;

use super::draft::Draft;
use super::fill_down::FillDown;
use super::survey::Survey;
use super::{Inventory, can_be_read_again};
use crate::error::{Error, Result};
use crate::field::rules::{ReadingRules, RepeatPolicy};
use crate::field::{Field, WellType};
use crate::place::Place;

/// Reads everything once for what cannot be known row by row.
pub(super) fn first_reading(files: &[PathBuf], rules: &ReadingRules) -> Result<Survey> {
    if !files.iter().all(|file| can_be_read_again(file)) {
        return Err(Error::request(
            "the latest visit, or values estimated from the list, need the list to be read twice; standard input and pipes cannot be",
        ));
    }
    let mut plain = rules.clone();
    plain.repeats = RepeatPolicy::HoldBack;
    plain.drawn.clear();
    let mut inventory = Inventory::open(files, &plain)?;
    let mut survey = Survey::default();
    let mut above = FillDown::default();
    while let Some(batch) = inventory.next_batch(4096)? {
        let mut drafts = batch.drafts();
        above.apply(&mut drafts);
        drafts.iter().for_each(|draft| survey_row(&mut survey, draft, rules));
    }
    survey.finish();
    Ok(survey)
}

/// Takes a row into a first reading, as far as the rules ask for it.
fn survey_row(survey: &mut Survey, draft: &Draft, rules: &ReadingRules) {
    if draft.no_well().is_some() {
        return;
    }
    if rules.repeats == RepeatPolicy::Latest
        && let Some(id) = draft.id()
    {
        survey.visit(id, draft.visit(), Place::row(draft.origin(), draft.row()));
    }
    let Some(well_type) = draft.choice(Field::WellType).and_then(WellType::by_name) else { return };
    for (_, field) in rules.drawn.iter().filter(|(of, _)| *of == well_type) {
        if let Some(value) = draft.number(*field) {
            survey.value(well_type, *field, value, draft.text(Field::Region));
        }
    }
}
