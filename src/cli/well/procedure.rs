//! The answer for one well as a procedure: the amount first, the steps in the order of the work, the amount again.

use std::io::Write;

use super::super::moving;
use super::super::width;
use crate::caution::{self, Caution};
use crate::field::{DischargeRoute, WellType};
use crate::kernel::measure::weigh;
use crate::kernel::requirement::{Practice, Requirement};
use crate::quantity::format::number;
use crate::quantity::{kitchen, liters};
use crate::report::moving::way_out_words;
use crate::report::show::Shown;
use crate::report::working;
use crate::scenario::product::Product;
use crate::well::Well;
use crate::write::terminal;

/// Blanks before the text of a step.
const INDENT: usize = 19;
/// Cautions for every well that are said here.
const GENERAL: usize = 7;

/// One step: its label, and what is done.
type Step = (&'static str, String);

/// `1 quart 1 1/2 cups of bleach 6`.
pub(super) fn amount(product: &Product, need: &Requirement) -> String {
    format!("{} of {}", kitchen::words(need.measured_amount, need.measured_unit), product.name)
}

/// What the amount gives, in how much water.
pub(super) fn gives(practice: &Practice, need: &Requirement) -> String {
    let shown = Shown::of("L", practice.system);
    let water = format!("{} {}", number(shown.value(liters(need.treated_volume)), 3), shown.symbol);
    let (gives, least) = (need.measured_dose.milligrams_per_liter(), need.least_dose.milligrams_per_liter());
    let side = if least < gives * (1.0 - 1e-9) {
        format!(
            "; at least {} if there is more water or weaker product than planned ({} reading)",
            number(least, 3),
            need.measure_for.name()
        )
    } else {
        String::new()
    };
    format!("gives {} mg/L as Cl2 in {water}{side}", number(gives, 3))
}

/// Writes the numbered steps.
pub(super) fn write(
    (well, practice, product, need): (&Well, &Practice, &Product, &Requirement),
    out: &mut dyn Write,
) -> std::io::Result<()> {
    writeln!(out, "\nSteps")?;
    for (at, (label, text)) in steps(well, practice, product, need).iter().enumerate() {
        writeln!(out, "{:>3}. {label:<14}{}", at + 1, terminal::wrap(text, width(), INDENT))?;
    }
    Ok(())
}

fn steps(well: &Well, practice: &Practice, product: &Product, need: &Requirement) -> Vec<Step> {
    let drilled = matches!(well.well_type, WellType::Drilled | WellType::Driven);
    let mut steps: Vec<Step> = vec![(
        "Before",
        "wait until the flood has gone; pump off and locked; repair the well, clean it, pump it clear; tell the users"
            .to_owned(),
    )];
    if need.cautions.has(Caution::FlowingWell) {
        let stop = "with a valve or a standpipe, or leave it to a licensed contractor: the flow carries the chlorine out at once";
        steps.push(("Stop the flow", stop.to_owned()));
    }
    for (label, text) in moving::lines(practice, &product.name, need) {
        // What only explains the amount has no label and is said beside it.
        if label == "Wall wash" {
            steps.push((label, text));
        }
    }
    steps.push((
        "Dilute in",
        format!(
            "{}; {} goes into the water, never water onto it",
            working::dilution(need, practice),
            amount(product, need)
        ),
    ));
    let pour = if drilled {
        "below the pitless adapter, and down the casing all around; circulate by hose for about half an hour (common practice)"
    } else {
        "all over the water from above, and stir; no one goes in"
    };
    steps.push(("Pour", format!("{pour}; open each tap until it smells of chlorine")));
    for (label, text) in moving::lines(practice, &product.name, need) {
        if label == "Feed" {
            steps.push((label, text));
        }
    }
    let rule = match need.hold_required {
        Some(least) => format!("; the chosen rule requires at least {} h", number(least.value / 3600.0, 3)),
        None => String::new(),
    };
    let rule = match practice.hold_stated {
        Some(stated) => format!("{rule}, more than the {} h stated", number(stated.value / 3600.0, 3)),
        None => rule,
    };
    let hours = number(need.hold.value / 3600.0, 3);
    steps.push(("Contact time", format!("{hours} h{rule}; no one uses the water; measure what is left at the end")));
    let time = match need.flush_time {
        Some(time) => format!("about {} h", number(time.value / 3600.0, 2)),
        None => "time not known without --pump-rate or --yield".to_owned(),
    };
    steps.push(("Flush", format!("{}, {time}; stop on a measured residual", way_out_words(well, practice, need))));
    steps.push(("Neutralizer", neutralizer(practice, need)));
    steps.push((
        "Sample",
        "once no chlorine is left, as the authority says; no drinking before it is free of coliforms".to_owned(),
    ));
    steps
}

/// How much of which agent, and where the water goes.
fn neutralizer(practice: &Practice, need: &Requirement) -> String {
    let route = match need.route {
        Some(DischargeRoute::Septic) => "open ground or is hauled away, not into the septic system".to_owned(),
        Some(route) => route.name().replace('_', " "),
        None => "an unknown place".to_owned(),
    };
    let weight =
        |kilograms: f64| weigh(kilograms, practice.system).map(|weight| kitchen::words(weight.amount, weight.unit));
    match need.neutralizer {
        Some(agent) => {
            let amount = match weight(need.neutralizer_mass.kilograms()) {
                Some(weight) => format!("{weight} of {}", agent.plain_name()),
                None => "none needed: the chlorine left is below the limit".to_owned(),
            };
            let instead = need.neutralizer_instead.map_or(String::new(), |other| {
                let kilograms = need.neutralizer_instead_mass.map_or(0.0, |mass| mass.kilograms());
                let weight = weight(kilograms).map_or(String::new(), |weight| format!("{weight} of "));
                format!("; leaves this water too acidic: use {weight}{} instead", other.plain_name())
            });
            format!("{amount} (water goes to {route}){instead}")
        }
        None if need.route == Some(DischargeRoute::Septic) => {
            "none included: nothing goes into the septic system; all of it goes to open ground or is hauled away"
                .to_owned()
        }
        None => format!("none included (water goes to {route}); keep flush water away from streams"),
    }
}

/// Cautions: those of this well whole, those of every well in a sentence each, and where the rest is.
pub(super) fn cautions(need: &Requirement, out: &mut dyn Write) -> std::io::Result<()> {
    writeln!(out, "\nCautions for this well")?;
    for entry in need.cautions.iter() {
        writeln!(out, "- {}", terminal::wrap(entry.text, width(), 2))?;
    }
    writeln!(out, "\nCautions for every well (`aftercrest explain cautions` has them whole)")?;
    for text in caution::in_short().take(GENERAL) {
        writeln!(out, "- {}", terminal::wrap(text, width(), 2))?;
    }
    Ok(())
}
