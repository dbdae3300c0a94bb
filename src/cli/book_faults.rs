//! What is wrong with a book beside its lists: columns that no list has, depots that no well has, right values that come to
//! nothing. Told with everything else that is wrong in it, so that nobody is refused twice.

use std::collections::BTreeSet;

use super::repair_faults;
use crate::book::{Book, names_in};
use crate::engine;
use crate::error::{Error, Fault, FaultPlace, Result};
use crate::field::Field;
use crate::field::names::is_same;
use crate::field::rules::{ReadingRules, RepeatPolicy};
use crate::inventory::Inventory;
use crate::scenario::Campaign;
use crate::scenario::section::near;
use crate::scenario::stated::{At, Document};

/// Rows of a batch.
const BATCH_ROWS: usize = 8192;

/// Notes what is wrong beside the lists with the document, and gives the faults that know their place already.
///
/// # Errors
/// When a list is damaged on the way.
pub(super) fn beside_lists(book: &Book, campaign: &Campaign, document: &Document<'_>) -> Result<Vec<Fault>> {
    if book.lists.is_empty() || !book.lists.iter().all(|list| list.is_file()) {
        return Ok(Vec::new());
    }
    // Neither the latest visit nor values of the list are asked for: the lists need to be read once.
    let mut rules = ReadingRules { repeats: RepeatPolicy::SeparateVisits, ..campaign.rules.clone() };
    rules.drawn.clear();
    // Values for blank cells are proved by themselves.
    rules.fixed.clear();
    rules.lists.iter_mut().for_each(|list| list.rules.fixed.clear());
    rules.corrections = book.corrections();
    let mut inventory = match Inventory::open(&book.lists, &rules) {
        Ok(inventory) => inventory,
        Err(Error::Input { path, reason, .. }) => {
            return Ok(vec![Fault { path, place: FaultPlace::Whole, reason }]);
        }
        Err(Error::Scenario(faults)) => return Ok(faults),
        Err(other) => return Err(other),
    };
    repair_faults::unreadable(book, &rules, &inventory, document);
    let faults = match engine::prove_columns(campaign, inventory.carried_columns()) {
        Err(Error::Scenario(faults)) => faults,
        Err(other) => return Err(other),
        Ok(()) => Vec::new(),
    };
    let (stated, named) = (depots_stated(book), names_in_exceptions(book));
    if !(stated.is_empty() && named.is_empty() && book.repairs.is_empty()) {
        let listed = Listed::of(&mut inventory, &named)?;
        repair_faults::unapplied(book, &inventory, document);
        let known: Vec<&str> = listed.depots.iter().map(String::as_str).collect();
        for (depot, at) in stated {
            if !known.is_empty() && !known.iter().any(|one| is_same(one, &depot)) {
                let near = near(&depot, &known);
                let reason = format!(
                    "no well of the lists belongs to a depot {depot:?}{near}: write it as the lists do, or take the line out"
                );
                document.fault(at, reason);
            }
        }
        for (place, (field, name, at)) in named.iter().enumerate() {
            if !listed.is_found[place] {
                let near = if *field == Field::Depot { near(name, &known) } else { String::new() };
                let what = field.name().replace('_', " ");
                let reason = format!(
                    "no well of the lists has the {what} {name:?}{near}: an exception for it would do nothing; write it as the lists do"
                );
                document.fault(at, reason);
            }
        }
    }
    Ok(faults)
}

/// Names of wells, depots and regions that exceptions speak of in columns of their own.
fn names_in_exceptions(book: &Book) -> Vec<(Field, String, &At)> {
    let list = book.stated.value.table().and_then(|whole| whole.get("override")?.value.list()).unwrap_or_default();
    let conditions = list.iter().filter_map(|line| line.value.table()?.get("where"));
    let names = conditions.filter_map(|stated| Some((names_in(stated.value.text()?), &stated.at)));
    names.flat_map(|(names, at)| names.into_iter().map(move |(field, name)| (field, name, at))).collect()
}

/// The depots that stock, counts of packages and crews are stated for.
fn depots_stated(book: &Book) -> Vec<(String, &At)> {
    let whole = book.stated.value.table();
    let lines = ["stock", "buy", "crew"].into_iter().filter_map(|key| whole?.get(key)?.value.list()).flatten();
    let depots = lines.filter_map(|line| line.value.table()?.get("depot"));
    depots.filter_map(|depot| Some((depot.value.text()?.to_owned(), &depot.at))).collect()
}

/// What of names the lists hold.
struct Listed {
    /// The depots, as they are written there.
    depots: BTreeSet<String>,
    /// Whether each of the names that are asked for is there, letter by letter.
    is_found: Vec<bool>,
}

impl Listed {
    fn of(inventory: &mut Inventory, asked: &[(Field, String, &At)]) -> Result<Self> {
        let mut listed = Self { depots: BTreeSet::new(), is_found: vec![false; asked.len()] };
        while let Some(batch) = inventory.next_batch(BATCH_ROWS)? {
            for draft in batch.drafts() {
                if let Some(depot) = draft.text(Field::Depot).map(str::trim).filter(|depot| !depot.is_empty())
                    && !listed.depots.contains(depot)
                {
                    listed.depots.insert(depot.to_owned());
                }
                for ((field, name, _), is_found) in asked.iter().zip(&mut listed.is_found) {
                    *is_found = *is_found || draft.text(*field).is_some_and(|text| text.trim() == name);
                }
            }
        }
        Ok(listed)
    }
}
