//! The crew's card of one well, with a notice and a tag behind it.

use std::path::Path;

use super::super::args::Well as Options;
use super::super::language;
use crate::error::Result;
use crate::report::crew::{self, Job};
use crate::write::cards;

/// Writes the card to a file that is not there yet.
pub(super) fn write(file: &Path, job: &Job<'_>, options: &Options) -> Result<()> {
    let language = language(options.language);
    let job = Job { words: crew::Words::of(language), ..*job };
    let papers = crew::of_well(&job, language);
    cards::write_new_sheets(file, &papers.sheets, &papers.notices)
}
