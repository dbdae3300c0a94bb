//! How far the sheets of a book are filled in, counted from what is stated.

use super::form::sheet;
use super::lists::Understood;
use super::sheets::tables;
use crate::parameter::PRACTICE;
use crate::scenario::stated::Table;

/// How each sheet stands that is about no list.
pub(super) fn of_stated(stated: &Table) -> Vec<(&'static str, String)> {
    let packages: Vec<&Table> = ["product", "neutralizer"]
        .into_iter()
        .flat_map(|key| tables(stated, key))
        .flat_map(|table| tables(table, "packages"))
        .collect();
    let unpriced = packages.iter().filter(|package| package.get("price").is_none()).count();
    let currency = stated.get("campaign").and_then(|stated| stated.value.table()?.get("currency"));
    let prices = match (packages.len(), unpriced) {
        (0, _) => "no packages: nothing is ordered in whole packages".to_owned(),
        (all, 0) if currency.is_none() => format!("all {all} packages are priced; the currency is not stated"),
        (all, 0) => format!("all {all} packages are priced"),
        (all, open) => format!("{open} of {all} prices open: without a price an order says nothing of its cost"),
    };
    let own = stated.get("practice").and_then(|stated| stated.value.table()).map_or(0, |table| table.entries.len());
    let practice = match own {
        0 => "nothing stated: all as the column Otherwise says".to_owned(),
        own => format!("{own} of {} stated, the others as the column Otherwise says", PRACTICE.own.len()),
    };
    let count = |key: &str, one: &str, more: &str, none: &str| match tables(stated, key).count() {
        0 => none.to_owned(),
        1 => format!("1 {one}"),
        several => format!("{several} {more}"),
    };
    let rules = stated.get("missing").and_then(|stated| stated.value.table());
    let rules: usize = rules
        .map_or(0, |types| types.entries.iter().map(|of| of.stated.value.table().map_or(1, |t| t.entries.len())).sum());
    let missing = match rules {
        0 => "no rule: a well that lacks a value is held back".to_owned(),
        1 => "1 rule".to_owned(),
        several => format!("{several} rules"),
    };
    vec![
        (sheet::PRACTICE, practice),
        (sheet::PACKAGES, prices),
        (sheet::SCENARIOS, count("scenario", "scenario", "scenarios", "1 open: name a scenario and its product")),
        (sheet::EXCEPTIONS, count("override", "exception", "exceptions", "none: every well is treated alike")),
        (sheet::MISSING, missing),
        (sheet::STOCK, count("stock", "line", "lines", "none stated: everything is ordered")),
        (sheet::CREWS, count("crew", "crew", "crews", "none: visits get no crew and no day")),
    ]
}

/// Points that wait for an answer on all sheets.
pub fn open_points(stated: &Table, lists: &Understood) -> u64 {
    let own = of_stated(stated);
    let states = lists.status.iter().map(|(_, state)| state).chain(own.iter().map(|(_, state)| state));
    states.filter_map(|state| open(state)).sum()
}

/// How many points of a state are open.
pub(super) fn open(state: &str) -> Option<u64> {
    let before = state.find(" open").map(|at| &state[..at])?;
    // "3 of 12 prices open" and "2 open" begin with their number.
    before.split(' ').find_map(|word| word.parse().ok())
}
