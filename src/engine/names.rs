//! Names of depots and regions over all lists: which are one, and which are nearly one.

use std::collections::{BTreeMap, HashMap};

use foldhash::fast::FixedState;

use crate::field::Field;
use crate::field::names::{is_near, spellings_that_count};
use crate::finding::{Finding, catalogue};
use crate::inventory::Draft;

/// More spellings than this are not names of depots; they are not looked at further.
const MOST_NAMES: usize = 20_000;
/// Of so many names each is compared with each.
const MOST_COMPARED: usize = 1_000;
/// The fields that are looked at.
const FIELDS: [Field; 2] = [Field::Depot, Field::Region];

/// How many rows have a spelling, and a finding at the first of them, still without words.
struct Seen {
    rows: u64,
    first: Finding,
}

/// Every spelling of a depot or a region.
#[derive(Default)]
pub(super) struct Names([HashMap<Box<str>, Seen, FixedState>; 2]);

impl Names {
    /// Takes rows into account, in reading order.
    pub(super) fn take(&mut self, drafts: &[Draft]) {
        for draft in drafts.iter().filter(|draft| draft.no_well().is_none()) {
            for (field, names) in FIELDS.into_iter().zip(&mut self.0) {
                let Some(name) = draft.text(field) else { continue };
                if let Some(seen) = names.get_mut(name) {
                    seen.rows += 1;
                } else if names.len() < MOST_NAMES {
                    let first = draft.finding(catalogue::NAMES_FOLDED, field, "", "");
                    names.insert(name.into(), Seen { rows: 1, first });
                }
            }
        }
    }

    /// One finding for each spelling that is counted under another, and for each pair of names that are nearly one.
    pub(super) fn findings(&self, stated_depots: &[String]) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (field, names) in FIELDS.into_iter().zip(&self.0) {
            let stated = if field == Field::Depot { stated_depots } else { &[] };
            let spellings: BTreeMap<String, u64> =
                names.iter().map(|(name, seen)| (name.to_string(), seen.rows)).collect();
            let counted = spellings_that_count(&spellings, stated);
            for (name, as_name) in &counted {
                let Some(seen) = names.get(name.as_str()) else { continue };
                let mut finding = seen.first.clone();
                finding.says = format!(
                    "{} of {} {} counted as \"{as_name}\", which differs in capitals, blanks or marks only",
                    rows(seen.rows),
                    field.name(),
                    if seen.rows == 1 { "is" } else { "are" }
                )
                .into();
                finding.suggested = Some(as_name.as_str().into());
                finding.help = "no action needed if they are the same; otherwise give one of them another name".into();
                finding.well = None;
                findings.push(finding);
            }
            let mut distinct: Vec<&String> = spellings.keys().filter(|name| !counted.contains_key(*name)).collect();
            distinct.extend(stated.iter().filter(|stated| !spellings.contains_key(*stated)));
            distinct.truncate(MOST_COMPARED);
            for (at, one) in distinct.iter().enumerate() {
                for other in distinct[at + 1..].iter().filter(|other| is_near(one, other)) {
                    // Said of the rarer one: it is the likelier slip.
                    let count = |name: &str| names.get(name).map_or(u64::MAX, |seen| seen.rows);
                    let (rare, common) = if count(other) < count(one) { (other, one) } else { (one, other) };
                    let Some(seen) = names.get(rare.as_str()) else { continue };
                    let mut finding = seen.first.clone();
                    finding.code = catalogue::NAMES_NEARLY_ALIKE;
                    finding.says = format!(
                        "{} of {}; \"{common}\" is one letter away; they are counted as two",
                        rows(seen.rows),
                        field.name()
                    )
                    .into();
                    finding.help = format!(
                        "write both the same way, if they are one; once for all rows: [inventory.words.{}] {rare:?} = {common:?}",
                        field.name()
                    )
                    .into();
                    finding.suggested = Some(common.as_str().into());
                    finding.well = None;
                    findings.push(finding);
                }
            }
        }
        findings.sort_by(|a, b| a.sort_key().cmp(&b.sort_key()));
        findings
    }
}

fn rows(count: u64) -> String {
    if count == 1 { "1 row".to_owned() } else { format!("{count} rows") }
}
