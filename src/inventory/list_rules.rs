//! What the scenario file says of each table, and what of it was of no use.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::sync::Arc;

use super::cell::CellRules;
use super::draft::Fixed;
use super::one_cell::fixed;
use crate::error::Result;
use crate::field::rules::ReadingRules;
use crate::finding::{Finding, catalogue};
use crate::place::{Origin, Place};

/// The rules of one table, and what is made of them once.
#[derive(Clone)]
pub(super) struct Reading<'a> {
    pub(super) rules: Cow<'a, ReadingRules>,
    pub(super) cells: Arc<CellRules>,
    pub(super) fixed: Arc<Fixed>,
}

impl<'a> Reading<'a> {
    pub(super) fn new(rules: Cow<'a, ReadingRules>) -> Result<Self> {
        Ok(Self { cells: Arc::new(CellRules::new(&rules)), fixed: Arc::new(fixed(&rules)?), rules })
    }
}

/// What the scenario file says of all lists, and of this one: with its place among the lists, and as it is written.
pub(super) fn said_of<'a>(
    rules: &'a ReadingRules,
    origin: &Origin,
) -> impl Iterator<Item = (Option<usize>, &'a ReadingRules)> + use<'a> {
    let lists = rules.lists.iter().enumerate().filter(|(_, list)| list.concerns(origin));
    let own: Vec<_> = lists.map(|(at, list)| (Some(at), &list.rules)).collect();
    std::iter::once((None, rules)).chain(own)
}

/// Says what stands in the scenario file and was of no use: mappings of headings that are nowhere, and lists that were not
/// read. `used` are the headings that were found, with the list they were said of.
pub(super) fn unused(
    rules: &ReadingRules,
    used: &[(Option<usize>, &str)],
    origins: &[&Origin],
    findings: &mut Vec<Finding>,
) {
    let lists = rules.lists.iter().enumerate();
    for (at, list) in lists.clone().filter(|(_, list)| !origins.iter().any(|origin| list.concerns(origin))) {
        let names: BTreeSet<String> = origins.iter().map(|origin| format!("\"{}\"", Place::whole(origin))).collect();
        let sheet = list.sheet.as_deref().map(|sheet| format!(", sheet \"{sheet}\"")).unwrap_or_default();
        let says = format!(
            "[[list]] number {} is for \"{}\"{sheet}, and no such list is read; those that are: {}",
            at + 1,
            list.file,
            names.into_iter().collect::<Vec<_>>().join(", ")
        );
        let place = Place::whole(&Origin::file(&list.file));
        let help = "write the name of the file, and of the sheet, as it stands there";
        findings.push(Finding::new(catalogue::LIST_NOT_READ, place, says, help).seen(&list.file));
    }
    let concerned = lists.filter(|(_, list)| origins.iter().any(|origin| list.concerns(origin)));
    for list in std::iter::once(None).chain(concerned.map(Some)) {
        let rules = list.map_or(rules, |(_, list)| &list.rules);
        // A heading that is left out and is not there does no harm.
        let to_fields =
            rules.columns.iter().filter_map(|(written, field)| Some((written, field.as_ref()?.name().to_owned())));
        let beside_fields =
            rules.beside.iter().map(|(written, (says, of))| (written, format!("{} of {}", says.name(), of.name())));
        for (written, target) in to_fields.chain(beside_fields) {
            if used.contains(&(list.map(|(at, _)| at), written.as_str())) {
                continue;
            }
            let (origin, says) = match list {
                Some((_, list)) => (
                    Some(Origin::file(&list.file)),
                    format!("[[list]] maps \"{written}\" to \"{target}\", and this list has no such heading"),
                ),
                None => (
                    origins.first().map(|origin| (*origin).clone()),
                    format!("[inventory.columns] maps \"{written}\" to \"{target}\", and no table has such a heading"),
                ),
            };
            let place = Place::whole(&origin.unwrap_or_else(|| Origin::file("")));
            let help = "copy the heading from the file as it stands there";
            findings.push(Finding::new(catalogue::MAPPING_WITHOUT_COLUMN, place, says, help).seen(written));
        }
    }
}
