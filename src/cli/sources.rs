//! What a command works on: lists and a scenario file, or a campaign book that names its lists.

use std::path::{Path, PathBuf};

use super::book_faults::beside_lists;
use super::campaign_and_digest;
use crate::book::{self, PRODUCTS_SHEET};
use crate::engine;
use crate::error::{Error, Fault, FaultPlace, Result};
use crate::inventory::list_names;
use crate::scenario::Campaign;
use crate::scenario::stated::Document;
use crate::scenario::{file_text, toml_text};

/// Lists with what is stated about them.
pub(super) struct Sources {
    pub(super) lists: Vec<PathBuf>,
    /// How the workbook of the plan names them: from the book's folder, or else by their files alone.
    pub(super) names: Vec<String>,
    /// What the campaign states.
    pub(super) campaign: Campaign,
    /// The same as the text of a scenario file.
    pub(super) text: String,
    /// The scenario file or the book, and the SHA-256 of its bytes.
    pub(super) stated_in: PathBuf,
    pub(super) digest: String,
}

/// The campaign book among what is named, or the workbook of a plan, where nothing else is.
pub(super) fn book_of(files: &[PathBuf], scenarios: Option<&PathBuf>) -> Option<PathBuf> {
    match (files, scenarios) {
        ([only], None) if book::is_book(only) || book::is_edited(only) => Some(only.clone()),
        _ => None,
    }
}

impl Sources {
    /// A book: its campaign, its lists and its repairs; or the workbook of a plan, with what was changed in it. What it is read
    /// for may ask more of the campaign.
    ///
    /// # Errors
    /// Everything in it that cannot be followed, with sheet and cell.
    pub(super) fn of_book(path: &Path, asks: impl FnOnce(&Campaign) -> Result<()>) -> Result<Self> {
        if book::is_edited(path) {
            let sources = Self::of_plan(path)?;
            asks(&sources.campaign)?;
            return Ok(sources);
        }
        let (read, mut campaign) = read_book(path, asks)?;
        campaign.rules.corrections = read.corrections();
        if read.lists.is_empty() {
            let reason = "it names no list of wells on its sheet Lists, and its sheet Wells holds none";
            return Err(Error::input(path, reason));
        }
        let text = read.stated.value.table().map(toml_text::text_of).unwrap_or_default();
        let (lists, names, digest) = (read.lists, read.list_names, super::digest_of(path)?);
        Ok(Self { lists, names, campaign, text, stated_in: path.to_owned(), digest })
    }

    /// The workbook of a plan: what it was made from, with the cells that were changed since.
    fn of_plan(path: &Path) -> Result<Self> {
        let edited = book::read_edited(path)?;
        let document = Document::new(path, &edited.text);
        let mut stated = file_text::read(&document);
        stated.iter_mut().for_each(|stated| edited.apply(&document, stated));
        let campaign = stated.as_ref().and_then(|stated| Campaign::of(&document, stated));
        let Some(campaign) = campaign else {
            return Err(document.refusal().unwrap_or_else(|| Error::input(path, "it states no campaign")));
        };
        let mut campaign = proved(&document, campaign)?;
        campaign.rules.corrections = edited.corrections.clone();
        let text = stated.as_ref().and_then(|stated| stated.value.table()).map(toml_text::text_of).unwrap_or_default();
        let lists = edited.lists.iter().map(|name| beside(path, name)).collect::<Result<_>>()?;
        let (names, digest) = (edited.lists.clone(), super::digest_of(path)?);
        Ok(Self { lists, names, campaign, text, stated_in: path.to_owned(), digest })
    }

    /// Lists with a scenario file.
    ///
    /// # Errors
    /// Everything in the file that cannot be followed, with its line.
    pub(super) fn of_files(lists: &[PathBuf], scenarios: &Path) -> Result<Self> {
        let (campaign, digest) = campaign_and_digest(scenarios)?;
        let content = std::fs::read_to_string(scenarios).unwrap_or_default();
        // In the form that a book comes to as well.
        let stated = file_text::read(&Document::new(scenarios, &content));
        let text = stated.as_ref().and_then(|stated| stated.value.table()).map(toml_text::text_of).unwrap_or_default();
        // By their files alone, so that outputs do not depend on where a machine keeps them.
        let names = list_names(lists);
        let (lists, stated_in) = (lists.to_vec(), scenarios.to_owned());
        Ok(Self { lists, names, campaign, text, stated_in, digest })
    }
}

/// A list of a plan: beside its workbook, in the folder above, or where the program was started.
fn beside(workbook: &Path, name: &str) -> Result<PathBuf> {
    let folder = workbook.parent().unwrap_or(Path::new(""));
    let above = folder.join("..");
    let places = [folder.join(name), above.join(name), above.join("..").join(name), PathBuf::from(name)];
    places.into_iter().find(|place| place.is_file()).ok_or_else(|| {
        let reason = format!(
            "it was made from the list {name}, which is found neither from its own folder nor from the folder above: put the workbook \
             back into the folder of its plan, beside the lists"
        );
        Error::input(workbook, reason)
    })
}

/// A book and the campaign that it states, of which somebody asks more than that it can be followed.
///
/// # Errors
/// Everything in it that cannot be followed.
pub(super) fn read_book(path: &Path, asks: impl FnOnce(&Campaign) -> Result<()>) -> Result<(book::Book, Campaign)> {
    let document = Document::new(path, "");
    let read = book::read(path, &document)?;
    let Some(campaign) = Campaign::of(&document, &read.stated) else {
        return Err(document.refusal().unwrap_or_else(|| Error::input(path, "it states no campaign")));
    };
    let beside = beside_lists(&read, &campaign, &document);
    let asked = asks(&campaign);
    let proved = proved(&document, campaign);
    let mut faults = match (beside, &proved) {
        (Ok(faults), _) => faults,
        // What the book itself says wrongly comes first.
        (Err(_), Err(_)) => Vec::new(),
        (Err(error), Ok(_)) => return Err(error),
    };
    match (asked, &proved) {
        (Err(Error::Scenario(more)), Ok(_)) => faults.extend(more),
        // What a wrong entry of its line or of its product leads to is no fault of its own.
        (Err(Error::Scenario(more)), Err(Error::Scenario(known))) => {
            faults.extend(more.into_iter().filter(|fault| !known.iter().any(|other| is_beside(fault, other))));
        }
        (Err(other), Ok(_)) => return Err(other),
        _ => {}
    }
    match proved {
        Ok(campaign) if faults.is_empty() => Ok((read, campaign)),
        Ok(_) => Err(Error::Scenario(faults)),
        Err(Error::Scenario(mut more)) => {
            // The same cell may be found wrong with and without the lists.
            faults.retain(|fault| !more.iter().any(|other| other.place == fault.place));
            more.extend(faults);
            Err(Error::Scenario(more))
        }
        Err(other) => Err(other),
    }
}

/// Whether a fault may come of another: both in one line of a sheet, or the other in what a product is.
fn is_beside(fault: &Fault, other: &Fault) -> bool {
    let line = |fault: &Fault| match &fault.place {
        FaultPlace::Cell { sheet, cell, .. } => {
            Some((sheet.clone(), cell.trim_start_matches(|letter: char| letter.is_ascii_alphabetic()).to_owned()))
        }
        _ => None,
    };
    let (line, other) = (line(fault), line(other));
    line == other || other.is_some_and(|(sheet, _)| sheet.eq_ignore_ascii_case(PRODUCTS_SHEET))
}

/// A campaign in which everything can be followed.
fn proved(document: &Document<'_>, campaign: Campaign) -> Result<Campaign> {
    // Conditions and fixed values are proved by the rooms that read them; their faults are told with the others.
    let mut faults = Vec::new();
    let proved = [engine::prove_fixed(&campaign).err(), engine::prove_conditions(&campaign).err()];
    for error in document.refusal().into_iter().chain(proved.into_iter().flatten()) {
        match error {
            Error::Scenario(more) => faults.extend(more),
            other => return Err(other),
        }
    }
    if faults.is_empty() { Ok(campaign) } else { Err(Error::Scenario(faults)) }
}
