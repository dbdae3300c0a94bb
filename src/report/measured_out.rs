//! What the cards measure out beside what the order counts: they round up, so that no well gets less than its amount, and they name
//! what to add where a strip reads too little, which no order counts. Said in the same words wherever an order is called covered.

use super::Matter;
use super::crew::{Measured, there};
use super::page::depot_name;
use super::show::Shown;
use crate::document::figure;
use crate::quantity::format::number;
use crate::rollup::orders::{ItemKind, OrderLine};

/// Depots that are named for their topping up; the rest is counted.
const NAMED: usize = 6;

/// What is said of it for the first scenario, each with whether something is to be done about it; nothing where nothing is poured.
pub fn texts(matter: &Matter<'_>) -> Vec<(String, bool)> {
    let Some(case) = matter.plan.cases.first() else { return Vec::new() };
    let lines = matter.orders.lines.iter().filter(|line| line.scenario == 0 && line.first_round > 0.0);
    let lines: Vec<&OrderLine> = lines.collect();
    let product: Vec<&OrderLine> = lines.iter().copied().filter(|line| line.kind == ItemKind::Product).collect();
    if product.is_empty() {
        return Vec::new();
    }
    let Some(measured) = Measured::of(matter, 0) else {
        return vec![(
            "There are too many visits to add up what the cards measure out. They round each amount up, a few spoons by more than an \
             eighth, and name what to add where a strip reads too little: neither is in the order."
                .to_owned(),
            false,
        )];
    };
    let said = |line: &OrderLine, value: f64| {
        let shown = Shown::of(line.unit, matter.plan.campaign.system);
        format!("{} {}", number(shown.value(value), 3), shown.symbol)
    };
    let mut texts = Vec::new();
    let needed: f64 = product.iter().map(|line| line.first_round).sum();
    let in_all: f64 = product.iter().map(|line| measured.first_round(line)).sum();
    if in_all > needed * (1.0 + 1e-9) {
        texts.push((
            format!(
                "Under \"{}\" the cards measure out {} in the first round, {} % more than the {} that the order counts: they round each \
                 amount up, also of neutralizer, a few spoons by more than an eighth. Whole packages cover that, but for what is named here.",
                case.scenario.name,
                said(product[0], in_all),
                number((in_all / needed - 1.0) * 100.0, 2),
                said(product[0], needed)
            ),
            false,
        ));
    }
    for line in lines.iter().filter(|line| measured.short(line) > 0.0) {
        texts.push((
            format!(
                "{}: the cards measure out {} of {}, and {} is bought and there. Buy one more package, or state a handling loss, or a higher one.",
                depot_name(&line.depot),
                to_tell(line, measured.in_all(line), matter),
                line.item_name(),
                to_tell(line, there(line), matter)
            ),
            true,
        ));
    }
    texts.extend(top_up(&product, &measured, &said).map(|text| (text, false)));
    texts
}

/// The same without what whole packages cover anyway: for where there is little room.
pub fn in_brief(matter: &Matter<'_>) -> Vec<String> {
    let all = texts(matter).into_iter();
    all.filter(|(text, is_open)| *is_open || text.starts_with(TOPPING_UP)).map(|(text, _)| text).collect()
}

/// How the sentence about it begins.
const TOPPING_UP: &str = "Topping up is not in the order";

/// Two amounts that differ are told with so many digits that they do: four.
fn to_tell(line: &OrderLine, value: f64, matter: &Matter<'_>) -> String {
    let shown = Shown::of(line.unit, matter.plan.campaign.system);
    format!("{} {}", number(shown.value(value), 4), shown.symbol)
}

/// What the cards name to top up with, and where that is not there.
fn top_up(product: &[&OrderLine], measured: &Measured, said: &dyn Fn(&OrderLine, f64) -> String) -> Option<String> {
    let all: f64 = product.iter().map(|line| measured.top_up(line)).sum();
    if all <= 0.0 {
        return None;
    }
    let over = |line: &OrderLine| (there(line) - measured.in_all(line)).max(0.0);
    let lacks = |line: &&&OrderLine| measured.top_up(line) > over(line) * (1.0 + 1e-9);
    let lacking: Vec<&&OrderLine> = product.iter().filter(lacks).collect();
    let named = |line: &&&OrderLine| {
        format!("{} of {} at {}", said(line, over(line)), said(line, measured.top_up(line)), depot_name(&line.depot))
    };
    let names: Vec<String> = lacking.iter().take(NAMED).map(named).collect();
    let rest = match lacking.len().saturating_sub(NAMED) {
        0 => String::new(),
        rest => format!(", and less than all of it at {} more depots", figure::number(rest as f64, 0)),
    };
    let there = match names.is_empty() {
        true => "What the packages hold beyond the need is enough for all of it.".to_owned(),
        false => {
            format!(
                "What the packages hold beyond the need may serve for it: {}{rest}. To order all of it, state a handling loss, or a higher one.",
                names.join(", ")
            )
        }
    };
    Some(format!(
        "{TOPPING_UP}, and \"covered\" does not count it: the cards name {} for strips that read too little, if every card needs it once. \
         {there}",
        said(product[0], all)
    ))
}
