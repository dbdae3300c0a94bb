//! The card of a visit with amounts.

use super::facts::{Told, flags};
use super::job::{Job, figure};
use super::phrases::Phrase;
use super::words::{Terms, filled};
use super::{bring, in_place, steps, strength, taken};
use crate::caution::{self, Caution};
use crate::document::card::{Card, Fact, Part, Sentence};
use crate::kernel::measure::MeasureFor;
use crate::kernel::moving::HOUSE_PLUMBING_L;

/// The visit of a well that has one.
const ONLY_VISIT: &str = "1";

/// The card of a visit that is planned.
pub fn card(job: &Job<'_>) -> Card {
    let (well, need, words, amounts) = (job.well, job.need, job.words, job.amounts());
    let dose = figure(amounts.chlorine(need.measured_dose));
    let volume = figure(amounts.volume(need.treated_volume));
    let short = need.least_dose < need.measured_dose * (1.0 - 1e-9);
    let gives = if short {
        let least = figure(amounts.chlorine(need.least_dose));
        let side = if need.measure_for == MeasureFor::High { Phrase::CardGivesHigh } else { Phrase::CardGives };
        words.sentence(side, vec![("dose", dose), ("volume", volume), ("least", least)])
    } else {
        words.sentence(Phrase::CardGivesPlain, vec![("dose", dose), ("volume", volume)])
    };
    let fills = vec![("amount", figure(job.poured())), ("product", job.product_fill())];
    // Where nothing may be poured yet, the amount is not what is read first.
    let (headline, gives) = if job.stops() {
        let Sentence(mut after) = words.sentence(Phrase::CardAfterRelease, fills);
        after.push(Part::Text(", ".to_owned()));
        after.extend(gives.0);
        (words.sentence(Phrase::CardStopped, Vec::new()), Sentence(after))
    } else {
        (words.sentence(Phrase::CardPour, fills), gives)
    };
    let mut gives = gives;
    for other in in_place::amounts(job) {
        gives.0.push(Part::Text(". ".to_owned()));
        gives.0.extend(other.0);
    }
    let told = Told {
        visit: well,
        carried: job.carried,
        not_understood: well.not_understood.as_deref().unwrap_or_default(),
        flows: well.flows,
        words,
        system: job.practice.system,
    };
    let banner = if need.cautions.has(Caution::StockNearlyGone) {
        Some(words.say(Phrase::CardNotTreat))
    } else {
        job.stops().then(|| words.say(Phrase::CardSettle))
    };
    let strength = strength::said(Phrase::CardStrength, job.product, job.stock, job.age_stated, words);
    let mut facts = vec![Fact { label: words.say(Phrase::CardProduct), text: strength }];
    facts.extend(taken::said(job).map(|text| Fact { label: words.say(Phrase::CardTaken), text }));
    facts.extend(told.facts());
    Card {
        size: job.size(),
        well: well.id.to_string(),
        visit: well.visit.to_string(),
        visit_words: (&*well.visit != ONLY_VISIT).then(|| words.with(Phrase::CardVisit, &[("visit", &well.visit)])),
        kind: words.term(Terms::Kind, well.well_type.name()).to_owned(),
        headline,
        gives: Some(gives),
        stop: job.turn.map(|turn| {
            let (stop, stops) = (turn.stop.to_string(), turn.of.stops.to_string());
            words.with(Phrase::CardStop, &[("stop", &stop), ("stops", &stops)])
        }),
        banner,
        flags: flags(well.hazards, words),
        facts,
        assumed: assumed(job),
        bring: bring::of(job),
        steps: steps::of(job),
        steps_title: words.say(Phrase::CardSteps),
        cautions: cautions(job),
        boxes: boxes(job),
    }
}

fn assumed(job: &Job<'_>) -> Option<String> {
    let fields: Vec<&str> = job.well.assumed.iter().map(|field| job.words.term(Terms::Field, field.name())).collect();
    (!fields.is_empty()).then(|| job.words.with(Phrase::CardAssumed, &[("fields", &fields.join(", "))]))
}

fn cautions(job: &Job<'_>) -> Vec<String> {
    let amounts = job.amounts();
    let spread = job.need.dose_if_spread.map_or_else(String::new, |dose| amounts.chlorine(dose));
    let plumbing = amounts.liters(HOUSE_PLUMBING_L);
    let said = |word| {
        let text = job.words.term(Terms::Caution, word).to_owned();
        filled(text, &[("spread", &spread), ("plumbing", &plumbing)])
    };
    // The hours of a well that is emptied stand in the tables alone.
    let raised = caution::raised().filter(|(caution, _)| job.need.cautions.has(*caution));
    raised.filter(|(caution, _)| *caution != Caution::HoursAtLeast).map(|(_, entry)| said(entry.word)).collect()
}

/// What a crew writes down: what the next one, the office and the laboratory ask for.
fn boxes(job: &Job<'_>) -> Vec<String> {
    // Where the step has the strip held, the reading is written.
    let residual = match job.is_open() || job.spread_below_target().is_some() {
        _ if job.is_spring() => Phrase::BoxResidualSpring,
        true => Phrase::BoxResidualWell,
        false => Phrase::BoxResidualStart,
    };
    let mut boxes = vec![
        Phrase::BoxArrived,
        Phrase::BoxPh,
        Phrase::BoxPoured,
        residual,
        Phrase::BoxHoldEnd,
        Phrase::BoxResidualEnd,
        Phrase::BoxAdded,
    ];
    if job.need.feed.is_some() {
        boxes.push(Phrase::BoxFed);
    }
    boxes.push(Phrase::BoxFlushTimes);
    boxes.push(if job.need.emptyings.is_some() { Phrase::BoxEmptied } else { Phrase::BoxFlushVolume });
    boxes.extend([Phrase::BoxResidualFlushed, Phrase::BoxSampleFirst, Phrase::BoxSampleSecond]);
    boxes.into_iter().map(|phrase| job.words.say(phrase)).collect()
}
