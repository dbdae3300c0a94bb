//! What `plan` says at the end: first what to look at, then the scenarios side by side, and last the answer and where
//! everything is.

use std::collections::BTreeSet;
use std::io::Write;
use std::path::Path;

use super::super::{causes, width};
use super::FINDINGS;
use crate::caution;
use crate::quantity::format::number;
use crate::report::doubts::stock_doubts;
use crate::report::show::Shown;
use crate::report::{
    AS_IF_TOGETHER, Matter, crew_days, defaults, measured_out, on_hand, outsized, page, resting, site,
};
use crate::rollup::orders::{ItemKind, OrderLine, Orders};
use crate::write::terminal;

/// Cautions that are said here, in a sentence each; the others are where the last of them says.
const CAUTIONS: usize = 7;

/// Writes the summary; `files` are the names of what was written.
pub(super) fn write(matter: &Matter<'_>, folder: &Path, files: &str, out: &mut dyn Write) -> std::io::Result<()> {
    let width = width();
    let mut say = |text: &str| writeln!(out, "{}", terminal::wrap(text, width, 0));
    say(&matter.plan.campaign.title)?;
    say(&format!("{}.", matter.account()))?;
    for says in defaults::of_run(matter) {
        say(&says)?;
    }
    let reported: Vec<String> =
        site::reported(matter).map(|(entry, count)| format!("{} {count}", entry.word)).collect();
    if !reported.is_empty() {
        say(&format!(
            "Reported in the lists, visits by flag: {}. The sheet Wells says which, in its column Crew flags.",
            reported.join(", ")
        ))?;
    }
    for (told, _) in crew_days::told(matter) {
        say(&told)?;
    }
    for doubt in stock_doubts(matter) {
        say(&doubt)?;
    }
    for text in on_hand::texts(matter).into_iter().chain(measured_out::in_brief(matter)) {
        say(&text)?;
    }
    let lines = &matter.orders.lines;
    let unpriced: BTreeSet<&str> = lines.iter().filter(|line| line.cost.is_none()).map(OrderLine::item_name).collect();
    if !unpriced.is_empty() {
        let items: Vec<&str> = unpriced.into_iter().collect();
        say(&format!(
            "Without a price, or a package that has one: {}. What is called priced so far below is not the cost of an order.",
            items.join(", ")
        ))?;
    }
    if lines.iter().any(|line| line.kind == ItemKind::Product && line.short > 0.0) {
        say("Some orders are larger than what is available: see Shortfall on the Orders sheet.")?;
    }
    for text in outsized::texts(matter) {
        say(&text)?;
    }
    // The causes stand in lines of their own.
    for line in causes::summary(matter.causes, FINDINGS).lines() {
        let indent = line.len() - line.trim_start().len();
        writeln!(out, "{}{}", &line[..indent], terminal::wrap(line.trim_start(), width, indent))?;
    }
    cautions(width, out)?;
    writeln!(out, "\n{}", scenarios(matter, width))?;
    writeln!(out, "{}", terminal::wrap(AS_IF_TOGETHER, width, 0))?;
    writeln!(out, "{}", terminal::wrap(&answer(matter), width, 0))?;
    // Names are not cut apart: people copy them.
    writeln!(out, "Written to {}:\n  {}", folder.display(), terminal::wrap(files, width, 2))
}

/// What can hurt someone, in a sentence each, and where the rest is.
fn cautions(width: usize, out: &mut dyn Write) -> std::io::Result<()> {
    writeln!(out, "\nCautions")?;
    for text in caution::in_short().take(CAUTIONS) {
        writeln!(out, "- {}", terminal::wrap(text, width, 2))?;
    }
    writeln!(
        out,
        "- {}",
        terminal::wrap("All of them, with what these lists raise: end of report.html, sheet Cautions.", width, 2)
    )
}

/// The scenarios side by side.
fn scenarios(matter: &Matter<'_>, width: usize) -> String {
    let campaign = matter.plan.campaign;
    let volume = Shown::of("L", campaign.system);
    let mass = Shown::of("kg", campaign.system);
    let heads = [
        "Scenario",
        " First round",
        " Low",
        " High",
        " With repeats, losses",
        "Unit",
        &format!(" Neutralizer ({})", mass.symbol),
        &format!(" Order cost ({})", campaign.currency),
    ];
    let rows: Vec<Vec<String>> = (0..matter.plan.cases.len())
        .map(|index| {
            let sums = matter.run.totals.overall(index);
            let case = &matter.plan.cases[index];
            let shown = match campaign.products[case.scenario.product].bought_by().unit() {
                "L" => volume,
                _ => mass,
            };
            let amount = |value: f64| number(shown.value(value), 3);
            if sums.planned == 0 {
                // A zero would read as "nothing is needed".
                let mut row = vec![case.scenario.name.clone(), "nothing planned".to_owned()];
                row.resize(heads.len(), String::new());
                return row;
            }
            vec![
                case.scenario.name.clone(),
                amount(sums.product),
                amount(sums.product_low),
                amount(sums.product_high),
                amount(sums.product_in_all()),
                shown.symbol.to_owned(),
                number(mass.value(sums.neutralizer_first_kg()), 3),
                cost(matter.orders, index),
            ]
        })
        .collect();
    terminal::table(&heads, &rows, width)
}

/// What came of it, in the last lines: how many, and the cheapest choice.
fn answer(matter: &Matter<'_>) -> String {
    let run = matter.run;
    let mut text = format!("{}.", matter.coverage());
    if let Some(resting) = resting::text(matter, 0) {
        text += &format!(" {resting}");
    }
    if run.held_back > 0 {
        text += " Amounts leave out what is held back.";
    }
    match page::answer(matter) {
        Some(answer) => format!("{text}\n{answer}"),
        None => text,
    }
}

fn cost(orders: &Orders, scenario: usize) -> String {
    let so_far = orders.priced(scenario);
    let cost = number(so_far.cost.round_ties_even(), 9);
    if so_far.is_all() { cost } else { format!("{cost} priced so far, {}", so_far.share()) }
}
