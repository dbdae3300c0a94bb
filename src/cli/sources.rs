//! What a command works on: lists and a scenario file, or a campaign book that names its lists.

use std::path::{Path, PathBuf};

use super::campaign_and_digest;
use crate::book;
use crate::engine;
use crate::error::{Error, Result};
use crate::inventory::corrections;
use crate::scenario::Campaign;
use crate::scenario::stated::Document;

/// Lists with what is stated about them.
pub(super) struct Sources {
    /// The lists.
    pub(super) lists: Vec<PathBuf>,
    /// What the campaign states.
    pub(super) campaign: Campaign,
    /// The scenario file or the book, and the SHA-256 of its bytes.
    pub(super) stated_in: PathBuf,
    pub(super) digest: String,
}

/// The campaign book among what is named, where nothing else is.
pub(super) fn book_of(files: &[PathBuf], scenarios: Option<&PathBuf>) -> Option<PathBuf> {
    match (files, scenarios) {
        ([only], None) if book::is_book(only) => Some(only.clone()),
        _ => None,
    }
}

impl Sources {
    /// A book: its campaign, its lists and its repairs.
    ///
    /// # Errors
    /// Everything in it that cannot be followed, with sheet and cell.
    pub(super) fn of_book(path: &Path) -> Result<Self> {
        let (read, campaign) = read_book(path)?;
        let mut campaign = campaign;
        if read.has_repairs {
            campaign.rules.corrections = corrections::read(path)?.0;
        }
        if read.lists.is_empty() {
            let reason = "it names no list of wells on its sheet Lists, and its sheet Wells holds none";
            return Err(Error::input(path, reason));
        }
        Ok(Self { lists: read.lists, campaign, stated_in: path.to_owned(), digest: super::digest_of(path)? })
    }

    /// Lists with a scenario file.
    ///
    /// # Errors
    /// Everything in the file that cannot be followed, with its line.
    pub(super) fn of_files(lists: &[PathBuf], scenarios: &Path) -> Result<Self> {
        let (campaign, digest) = campaign_and_digest(scenarios)?;
        Ok(Self { lists: lists.to_vec(), campaign, stated_in: scenarios.to_owned(), digest })
    }
}

/// A book and the campaign that it states.
///
/// # Errors
/// Everything in it that cannot be followed.
pub(super) fn read_book(path: &Path) -> Result<(book::Book, Campaign)> {
    let document = Document::new(path, "");
    let read = book::read(path, &document)?;
    let campaign = Campaign::of(&document, &read.stated);
    let Some(campaign) = campaign else {
        return Err(document.refusal().unwrap_or_else(|| Error::input(path, "it states no campaign")));
    };
    // Conditions and fixed values are proved by the rooms that read them; their faults are told with the others.
    let mut faults = Vec::new();
    let proved = [engine::prove_fixed(&campaign).err(), engine::prove_conditions(&campaign).err()];
    for error in document.refusal().into_iter().chain(proved.into_iter().flatten()) {
        match error {
            Error::Scenario(more) => faults.extend(more),
            other => return Err(other),
        }
    }
    if faults.is_empty() { Ok((read, campaign)) } else { Err(Error::Scenario(faults)) }
}
