//! `explain`: the page of a finding, an equation with its sources, or the whole chain behind one well's result.

use std::io::Write;

use super::args::Explain as Options;
use super::{DONE, Stop, date_of_plan, width};
use crate::caution;
use crate::checks::{Verdict, admit};
use crate::engine::springs::unsettled;
use crate::engine::{Plan, find};
use crate::error::Error;
use crate::field::Field;
use crate::finding::{Code, catalogue};
use crate::hazard::{Hazard, Hazards};
use crate::inventory::{Draft, Inventory, corrections};
use crate::kernel::EQUATIONS;
use crate::kernel::discharge::{self, DischargeRule};
use crate::ledger;
use crate::quantity::format;
use crate::report::working;
use crate::scenario::section::near;
use crate::source::Equation;
use crate::visit::Need;
use crate::write::terminal;

pub(super) fn run(options: &Options, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    match &options.well {
        Some(id) => well(options, id, out),
        None if options.what.is_empty() => Err(Error::request(
            "name what to explain: a finding (G203), an equation (D3), or --well ID --scenarios FILE and the lists",
        )
        .into()),
        None => {
            for word in &options.what {
                if let Some(code) = catalogue::find(word) {
                    finding_page(code, out)?;
                } else if let Some(equation) = EQUATIONS.iter().find(|equation| equation.id.eq_ignore_ascii_case(word))
                {
                    equation_page(equation, out)?;
                } else if let Some((_, caution)) = caution::raised().find(|(_, caution)| caution.word == word) {
                    writeln!(out, "{} (caution)\n{}\n", caution.word, terminal::wrap(caution.text, width(), 0))?;
                    writeln!(out, "Source: {} ({})\n", caution.source.citation, caution.source.provenance.label())?;
                } else if let Some(hazard) = Hazard::by_word(word) {
                    let entry = hazard.entry();
                    writeln!(out, "{} (crew flag): the list reports {}", entry.word, entry.what)?;
                    writeln!(out, "{}\n", terminal::wrap(entry.text, width(), 0))?;
                    writeln!(out, "Source: {} ({})\n", entry.source.citation, entry.source.provenance.label())?;
                } else if word == "cautions" {
                    for entry in &caution::GENERAL {
                        writeln!(out, "{}\n{}", entry.word, terminal::wrap(entry.text, width(), 0))?;
                        writeln!(out, "Source: {} ({})\n", entry.source.citation, entry.source.provenance.label())?;
                    }
                } else if word == "discharge" {
                    discharge::RULES.iter().try_for_each(|rule| rule_page(rule, out))?;
                } else if let Some(rule) = discharge::rule(word) {
                    rule_page(rule, out)?;
                } else {
                    let known: Vec<&str> = catalogue::ALL
                        .iter()
                        .flat_map(|code| [code.id(), code.name()])
                        .chain(EQUATIONS.iter().map(|equation| equation.id))
                        .chain(crate::hazard::ENTRIES.iter().map(|entry| entry.word))
                        .collect();
                    return Err(Error::request(format!(
                        "neither a finding, an equation, a caution nor a crew flag is called {word:?}{}; findings have codes like G203, equations like D3; \"discharge\" lists the discharge rules, \"cautions\" those for every well",
                        near(word, &known)
                    ))
                    .into());
                }
            }
            Ok(DONE)
        }
    }
}

fn finding_page(code: Code, out: &mut dyn Write) -> std::io::Result<()> {
    writeln!(out, "{} {} ({})", code.id(), code.name().replace('-', " "), code.severity().word())?;
    writeln!(out, "{}\n", terminal::wrap(code.rule(), width(), 0))?;
    writeln!(out, "{}\n", terminal::wrap(code.page(), width(), 0))
}

fn equation_page(equation: &Equation, out: &mut dyn Write) -> std::io::Result<()> {
    writeln!(out, "{} {}", equation.id, equation.name)?;
    writeln!(out, "\n    {}\n", equation.statement)?;
    for (symbol, unit, meaning) in equation.symbols {
        writeln!(out, "    {symbol:<10} [{unit}]  {meaning}")?;
    }
    writeln!(out, "\nHolds: {}", terminal::wrap(equation.validity, width(), 7))?;
    for source in equation.sources {
        let locator = if source.locator.is_empty() { String::new() } else { format!(", {}", source.locator) };
        let text = format!("Source: {}{locator} ({})", source.citation, source.provenance.label());
        writeln!(out, "{}", terminal::wrap(&text, width(), 8))?;
    }
    let columns: Vec<&str> =
        ledger::COLUMNS.iter().filter(|column| column.equation == equation.id).map(|column| column.id).collect();
    if !columns.is_empty() {
        writeln!(out, "Fills: {}", columns.join(", "))?;
    }
    let checked = format!("Checked against: {}", checked_against(equation.checks));
    writeln!(out, "{}\n", terminal::wrap(&checked, width(), 17))
}

/// Where each outside check stands: a row's id alone would read like an equation's.
fn checked_against(checks: &[&str]) -> String {
    let is_test = |id: &str| id.contains("::");
    let is_dose = |id: &str| id.strip_prefix('D').is_some_and(|rest| rest.bytes().all(|byte| byte.is_ascii_digit()));
    let of = |what: &str, wanted: &dyn Fn(&str) -> bool| {
        let ids: Vec<&str> = checks.iter().copied().filter(|id| wanted(id)).collect();
        (!ids.is_empty()).then(|| format!("{what} {}", ids.join(", ")))
    };
    let parts = [
        of("published doses, dose_cases.csv rows", &is_dose),
        of("published chemistry, chemistry_cases.csv rows", &|id| !is_dose(id) && !is_test(id)),
        of("tests", &is_test),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join("; ")
}

fn rule_page(rule: &DischargeRule, out: &mut dyn Write) -> std::io::Result<()> {
    writeln!(out, "{}  {}: {}", rule.id, rule.place, rule.printed)?;
    writeln!(out, "    {}", terminal::wrap(rule.applies_to, width(), 4))?;
    let text = format!("Source: {} ({}); checked {}", rule.source.citation, rule.source.provenance.label(), rule.seen);
    writeln!(out, "    {}", terminal::wrap(&text, width(), 4))?;
    writeln!(out, "    {}\n", discharge::ADVICE)
}

fn well(options: &Options, id: &str, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let Some(file) = &options.scenarios else {
        return Err(Error::request("--well needs --scenarios FILE and the lists").into());
    };
    let mut campaign = super::campaign(file)?;
    if let Some(file) = &options.corrections {
        campaign.rules.corrections = corrections::read(file)?.0;
    }
    let only: Vec<String> = options.scenario.iter().cloned().collect();
    let scenarios = campaign.select(&only)?.into_iter().take(1).collect();
    let lists: Vec<std::path::PathBuf> = options.what.iter().map(Into::into).collect();
    let mut inventory = Inventory::open(&lists, &campaign.rules)?;
    let date = date_of_plan(options.date, Some(&campaign))?;
    let plan = Plan::prepare(&campaign, scenarios, date, inventory.carried_columns())?;
    let mut found = 0;
    let wanted =
        |draft: &Draft| draft.is_called(id) && options.visit.as_deref().is_none_or(|visit| draft.visit() == visit);
    find(&mut inventory, &campaign.rules, wanted, |draft| -> std::result::Result<(), Stop> {
        found += 1;
        chain(&plan, draft, out)
    })?;
    if found == 0 {
        return Err(Error::request(format!("no row of these lists has the well id {id:?}")).into());
    }
    Ok(DONE)
}

fn chain(plan: &Plan<'_>, draft: Draft, out: &mut dyn Write) -> std::result::Result<(), Stop> {
    let place = crate::place::Place::row(draft.origin(), draft.row());
    writeln!(out, "Well {} visit {}, read at {place}", draft.id().unwrap_or_default(), draft.visit())?;
    writeln!(out, "\nFrom the list")?;
    for definition in &crate::field::FIELDS {
        let typed = draft.typed(definition.field);
        if !typed.is_empty() {
            writeln!(out, "  {:<20} {:<24} {}", definition.name, typed, draft.place(definition.field))?;
        }
    }
    for interval in draft.intervals() {
        let show = |si: Option<f64>, of: Field| {
            let unit = draft.shown_unit(of);
            si.zip(unit).map_or_else(|| "?".to_owned(), |(si, unit)| format::quantity(si, unit, 5))
        };
        let (top, bottom) = (show(interval.top, Field::TotalDepth), show(interval.bottom, Field::TotalDepth));
        let stretch = format!("{top} to {bottom}, {}", show(interval.diameter, Field::CasingDiameter));
        writeln!(out, "  {:<20} {stretch:<24} {}", "casing interval", interval.place)?;
    }
    let (verdict, held, findings) = match admit(draft, &plan.campaign.rules) {
        Verdict::Admitted { well, findings } => (Some(well), Hazards::default(), findings),
        Verdict::HeldBack(row) => (None, row.facts.hazards, row.findings),
        Verdict::NotAWell(row) => {
            writeln!(out, "\nNot a well: {}.\n", row.kind.words(1))?;
            return Ok(());
        }
    };
    for finding in &findings {
        writeln!(
            out,
            "  {} [{}] {}: {}",
            finding.code.severity().word(),
            finding.code.id(),
            finding.place,
            terminal::wrap(&finding.says.to_string(), width(), 6)
        )?;
    }
    let hazards = verdict.as_ref().map_or(held, |well| well.hazards);
    if !hazards.is_empty() {
        writeln!(out, "\nFor the crew")?;
        for entry in hazards.iter() {
            writeln!(out, "- {}: {}", entry.word, terminal::wrap(entry.text, width(), 2))?;
        }
    }
    let Some(well) = verdict else {
        writeln!(out, "\nHeld back: no amount is computed.\n")?;
        return Ok(());
    };
    if let Some(reason) = plan.excluded(&well)? {
        writeln!(out, "\nExcluded by a rule of the campaign: {reason}. What it would need otherwise:")?;
    }
    for case in &plan.cases {
        let (practice, _) = plan.practice_for(case, &well)?;
        if let Some((says, help)) = unsettled(&well, std::slice::from_ref(&practice)) {
            writeln!(out, "\nScenario S{}: {}", case.scenario.number, case.scenario.name)?;
            let text = format!("{says}; {help}");
            writeln!(out, "Held back: no amount is computed: {}\n", terminal::wrap(&text, width(), 11))?;
            continue;
        }
        let product = &plan.campaign.products[case.scenario.product];
        let need = Need::of(&well, &practice, case.stock.readings())
            .ok_or_else(|| Error::Internal(format!("well {} cannot be measured out", well.id)))?;
        writeln!(out, "\nScenario S{}: {}", case.scenario.number, case.scenario.name)?;
        for step in working::steps(&well, &practice, product, &case.stock, &need) {
            writeln!(out, "  {:<4} {:<16} {}", step.equation, step.title, terminal::wrap(&step.working, width(), 24))?;
            writeln!(out, "  {:<4} {:<16} = {}", "", "", terminal::wrap(&step.result, width(), 26))?;
            if let Some(equation) = EQUATIONS.iter().find(|equation| equation.id == step.equation)
                && let Some(source) = equation.sources.first()
            {
                let text = format!("{} ({})", source.citation, source.provenance.label());
                writeln!(out, "  {:<4} {:<16}   source: {}", "", "", terminal::wrap(&text, width(), 34))?;
            }
        }
        writeln!(out, "\nCautions")?;
        for entry in need.cautions.iter() {
            writeln!(out, "- {}", terminal::wrap(entry.text, width(), 2))?;
        }
        writeln!(out)?;
    }
    Ok(())
}
