//! The crew's card of one well, with a notice and a tag behind it.

use std::path::Path;

use super::super::args::Well as Options;
use super::super::language;
use crate::error::Result;
use crate::kernel::requirement::{Practice, Requirement};
use crate::report::crew;
use crate::scenario::product::Product;
use crate::scenario::stock::StockOnTheDay;
use crate::well::Well;
use crate::write::cards;

/// Writes the card to a file that is not there yet.
pub(super) fn write(
    file: &Path,
    (well, practice, need): (&Well, &Practice, &Requirement),
    (product, stock): (&Product, &StockOnTheDay),
    options: &Options,
) -> Result<()> {
    let language = language(options.language);
    let words = crew::Words::of(language);
    let age_stated = options.age_days.is_some();
    let job = crew::Job { well, practice, need, product, stock, age_stated, carried: &[], words, turn: None };
    let papers = crew::of_well(&job, language);
    cards::write_new_sheets(file, &papers.sheets, &papers.notices)
}
