//! What was taken because nobody gave it, as a card says it: short, with what it would change.
//!
//! The list and its figures are those of the prompt (`report::defaults`).

use super::job::Job;
use super::phrases::Phrase;
use super::words::Terms;
use crate::quantity::format::number;
use crate::report::defaults::{Example, Grown, More, Taken, water_words};

/// One sentence with all of it; nothing where everything was given.
pub(super) fn said(job: &Job<'_>) -> Option<String> {
    let items: Vec<String> = job.taken.iter().map(|taken| item(job, taken)).collect();
    (!items.is_empty()).then(|| format!("{}.", items.join("; ")))
}

fn item(job: &Job<'_>, taken: &Taken) -> String {
    let (words, amounts, practice) = (job.words, job.amounts(), job.practice);
    let example = Example::of(practice.system);
    let more = |more: &More| match more.grown() {
        Grown::Percent(percent) => format!("+{percent} %"),
        Grown::Times(times) => words.with(Phrase::CardTakenTimes, &[("times", &times)]),
    };
    match taken {
        Taken::Age(None) => words.say(Phrase::CardTakenAgeUnknown),
        Taken::Age(Some(lost)) => words.with(
            Phrase::CardTakenAge,
            &[
                ("more", &more(&lost.more)),
                ("days", &number(example.age_days, 3)),
                ("storage", &example.storage_words()),
            ],
        ),
        Taken::Plumbing { more: including, .. } => words.with(
            Phrase::CardTakenPlumbing,
            &[("more", &more(including)), ("plumbing", &amounts.volume(example.plumbing()))],
        ),
        Taken::Demand(with_iron) => {
            let iron = format!("{} {}", number(example.iron_mg_per_l, 3), words.term(Terms::Unit, "mg/L"));
            words.with(Phrase::CardTakenDemand, &[("more", &more(with_iron)), ("iron", &iron)])
        }
        Taken::Allowance(other) => words.with(
            Phrase::CardTakenAllowance,
            &[
                ("used", &number(practice.volume_allowance, 3)),
                ("more", &more(other)),
                ("example", &number(example.allowance, 3)),
            ],
        ),
        Taken::Temperature { cold, .. } => words.with(
            Phrase::CardTakenWater,
            &[("used", &water_words(practice)), ("cold", &example.water_words()), ("ph", &format!("{cold:.1}"))],
        ),
    }
}
