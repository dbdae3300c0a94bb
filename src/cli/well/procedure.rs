//! The answer for one well as a procedure: the amount first, what it rests on, the steps of its card, the working, the cautions,
//! the amount again. Where nothing may be poured yet, or nothing by this figure, that stands first and last instead.

use std::io::Write;

use super::super::args::Well as Options;
use super::super::{moving, width};
use super::{Said, is_spent, readings};
use crate::caution;
use crate::kernel::constants::CHLORATE_GUIDELINE;
use crate::kernel::moving::least_emptyings;
use crate::kernel::requirement::{Practice, Requirement};
use crate::kernel::strength::Chemical;
use crate::quantity::format::number;
use crate::quantity::{kitchen, liters};
use crate::report::crew::{self, Job};
use crate::report::show::Shown;
use crate::report::working;
use crate::scenario::product::Product;
use crate::visit::Need;
use crate::write::terminal;

/// Blanks before what stands beside a label.
const LABEL: usize = 14;
/// Blanks before the text of a step.
const INDENT: usize = 5;
/// Cautions for every well that are said here.
const GENERAL: usize = 7;

/// `1 quart 1 1/2 cups of bleach 6`.
fn amount(product: &Product, need: &Requirement) -> String {
    format!("{} of {}", kitchen::words(need.measured_amount, need.measured_unit), product.name)
}

/// What the amount gives, in how much water.
fn gives(practice: &Practice, need: &Need) -> String {
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

/// What is read first and last.
fn first_and_last(job: &Job<'_>) -> String {
    match job.stopped() {
        Some(stopped) => stopped,
        None if is_spent(job.need) => {
            "nothing by this figure: test the product, or buy fresh, and ask again".to_owned()
        }
        None => format!("{}: {}", amount(job.product, job.need), gives(job.practice, job.need)),
    }
}

/// A label, and a text behind it.
fn line(label: &str, text: &str, out: &mut dyn Write) -> std::io::Result<()> {
    writeln!(out, "{label:<13} {}", terminal::wrap(text, width(), LABEL))
}

/// Writes the whole answer.
pub(super) fn write(options: &Options, job: &Job<'_>, said: &Said, out: &mut dyn Write) -> std::io::Result<()> {
    let (practice, need) = (job.practice, job.need);
    let first = first_and_last(job);
    line("Measure out", &first, out)?;
    if job.stopped().is_some() && !is_spent(need) {
        let then = format!("{}: {}", amount(job.product, need), gives(practice, need));
        line("After release", &then, out)?;
    }
    let spread: Vec<String> = moving::if_spread(practice, need).into_iter().collect();
    let beside = [
        ("Check", &said.doubts),
        ("Assumed", &said.assumed),
        ("By default", &said.by_default),
        ("Note", &said.notes),
        ("Note", &spread),
    ];
    for (label, text) in beside.into_iter().flat_map(|(label, texts)| texts.iter().map(move |text| (label, text))) {
        line(label, text, out)?;
    }
    if job.stopped().is_none() && !is_spent(need) {
        line("Bring", &crew::product_to_bring(job), out)?;
    }
    // Those of the well's card: what a crew is told does not depend on where it is read.
    match &options.card {
        Some(file) => writeln!(out, "\nSteps, as on the card in {}", file.display())?,
        None => writeln!(out, "\nSteps, as on the well's card (--card writes it)")?,
    }
    for (at, text) in crew::procedure(job).iter().enumerate() {
        writeln!(out, "{:>3}. {}", at + 1, terminal::wrap(text, width(), INDENT))?;
    }
    writeln!(out)?;
    beside_the_steps(job, out)?;
    if !options.short {
        work(job, out)?;
    }
    cautions(need, out)?;
    writeln!(out)?;
    line("Measure out", &first, out)
}

/// Contact time by a rule, pH, and what the label may mean.
fn beside_the_steps(job: &Job<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    let need = job.need;
    let hours = |time: crate::quantity::Time| number(time.value / 3600.0, 3);
    if let Some(rule) = need.hold_required {
        let stated = job.practice.hold_stated;
        let stated = stated.map_or_else(String::new, |stated| format!(", more than the {} h stated", hours(stated)));
        let text = format!("{} h; the chosen rule requires at least {} h{stated}", hours(need.hold), hours(rule));
        line("Contact time", &text, out)?;
    }
    let ph = match (need.ph_after, need.hocl_share) {
        (Some(ph), Some(share)) => {
            format!("{} after dosing; {} % of the free chlorine is HOCl", number(ph, 3), number(share * 100.0, 2))
        }
        _ if job.product.chemical == Chemical::ChlorinatedLime => {
            "after dosing not known for bleaching powder: how much of its lime goes into the well is not known; measure it"
                .to_owned()
        }
        _ => "after dosing not known without --ph and --alkalinity".to_owned(),
    };
    line("pH", &ph, out)?;
    if let Some(chlorate) = chlorate(job) {
        line("Chlorate", &chlorate, out)?;
    }
    if let Some((readings, label)) = readings(job.product) {
        line("Label", &format!("{label}; READ YOURS. {readings}"), out)?;
    }
    Ok(())
}

/// What the product lost in storage and brings along, and what that asks of the flush.
fn chlorate(job: &Job<'_>) -> Option<String> {
    let (practice, need) = (job.practice, job.need);
    let brought = need.chlorate.map(|chlorate| chlorate.milligrams_per_liter()).filter(|brought| *brought > 0.0)?;
    let limit = CHLORATE_GUIDELINE.value;
    let says = format!("{} mg/L in the well, from what the product lost in storage", number(brought, 3));
    if brought <= limit {
        return Some(format!("{says}; drinking water may hold {} (WHO, provisional)", number(limit, 2)));
    }
    let shown = Shown::of("L", practice.system);
    let flush = match (need.emptyings, least_emptyings(practice, need.emptyings, need.chlorate)) {
        (Some(_), Some(times)) => format!("empty the well {} times at least", number(times, 2)),
        (Some(_), None) => "empty the well".to_owned(),
        (None, _) => format!("flush all {} {}", number(shown.value(liters(need.flush_volume)), 3), shown.symbol),
    };
    let until = if need.emptyings.is_some() { Some(practice.emptying.until) } else { practice.flush_until };
    let until = until.map_or_else(
        || "a test shows no chlorine".to_owned(),
        |until| format!("the residual is below {} mg/L", number(until.milligrams_per_liter(), 2)),
    );
    Some(format!(
        "{says}; drinking water may hold {} (WHO, provisional). A chlorine test does not show it: {flush} and until {until}, not by \
         the residual alone",
        number(limit, 2)
    ))
}

/// The working, equation by equation.
fn work(job: &Job<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    writeln!(out, "\nWorking (each step with its equation; `aftercrest explain D3` shows one)")?;
    for step in &working::steps(job.well, job.practice, job.product, job.stock, job.need) {
        writeln!(out, "  {:<4} {:<16} {}", step.equation, step.title, terminal::wrap(&step.working, width(), 24))?;
        writeln!(out, "  {:<4} {:<16} = {}", "", "", terminal::wrap(&step.result, width(), 26))?;
    }
    Ok(())
}

/// Cautions: those of this well whole, those of every well in a sentence each, and where the rest is.
fn cautions(need: &Requirement, out: &mut dyn Write) -> std::io::Result<()> {
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
