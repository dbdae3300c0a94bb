//! The steps of a card, in the order of work: what is done before chlorine is poured, pouring, and what comes after.
//!
//! The order is that of the guides named in `kernel::emptying`, `kernel::spring` and the cautions; what only experience says
//! is marked in `rules`. Each step is a phrase with the figures of this well.

use super::after;
use super::dates::Dates;
use super::in_place;
use super::job::{FOUND, Job, READING, Steps, figure};
use super::phrases::Phrase;
use super::rules::{
    CIRCULATE_MINUTES, CLEAR_MINUTES, FIRST_SAMPLE_DAYS, SECOND_SAMPLE_DAYS, SETTLE_MINUTES, end_residual,
};
use crate::caution::Caution;
use crate::document::card::Sentence;
use crate::field::WellType;
use crate::kernel::constants::SLOW_PH;
use crate::kernel::requirement::Amount;
use crate::kernel::strength::Chemical;

/// What a crew does at a well.
pub(super) fn of(job: &Job<'_>) -> Vec<Sentence> {
    let mut steps = Steps::of(job);
    before(&mut steps);
    pour(&mut steps);
    spread(&mut steps);
    hold(&mut steps);
    after::flush(&mut steps);
    after::neutralize(&mut steps);
    after::stop(&mut steps);
    samples(&mut steps);
    steps.said()
}

/// The same steps in letters alone, for who reads them without a card: on a screen.
pub fn procedure(job: &Job<'_>) -> Vec<String> {
    of(job).iter().map(Sentence::plain).collect()
}

fn before(steps: &mut Steps<'_>) {
    let job = steps.job;
    let (well, amounts) = (job.well, job.amounts());
    if job.need.cautions.has(Caution::StockNearlyGone) {
        steps.say(Phrase::StepSpent, Vec::new());
    }
    if job.stops() {
        steps.say(Phrase::StepStopFlag, Vec::new());
    }
    steps.say(Phrase::StepWaterGone, Vec::new());
    if !job.is_spring() {
        steps.say(Phrase::StepPowerOff, Vec::new());
    }
    steps.say(if job.is_open() { Phrase::StepLookAbove } else { Phrase::StepLook }, vec![("found", FOUND)]);
    if job.need.cautions.has(Caution::FlowingWell) {
        steps.say(Phrase::StepFlowing, Vec::new());
    }
    if job.need.cautions.has(Caution::SpringInflowUnknown) {
        steps.say(Phrase::StepInflow, vec![("found", READING)]);
    }
    let clean = match (job.is_open(), well.seawater == Some(true), well.well_type) {
        (true, true, _) => Phrase::StepCleanSea,
        (true, false, _) => Phrase::StepCleanDug,
        (false, true, _) => Phrase::StepCleanSeaCased,
        (false, false, WellType::Driven) => Phrase::StepCleanDriven,
        (false, false, _) => Phrase::StepClean,
    };
    steps.say(clean, vec![("minutes", figure(amounts.minutes(CLEAR_MINUTES)))]);
    steps.say(Phrase::StepWarn, vec![("days", figure(FIRST_SAMPLE_DAYS.to_string()))]);
    steps.say(Phrase::StepBypass, Vec::new());
    match job.need.ph_after {
        Some(ph) => {
            // A tenth is what a strip can show, but for a pH whose tenth would hide the caution.
            let above = job.need.cautions.has(Caution::PhAboveEight) && (ph * 10.0).round() / 10.0 <= SLOW_PH.value;
            let expected = if above { format!("{:.2}", (ph * 100.0).ceil() / 100.0) } else { format!("{ph:.1}") };
            steps.say(Phrase::StepPhExpected, vec![("ph", figure(expected))]);
        }
        None => steps.say(Phrase::StepPh, Vec::new()),
    }
}

fn pour(steps: &mut Steps<'_>) {
    let job = steps.job;
    let (need, amounts) = (job.need, job.amounts());
    if job.is_spring() {
        steps.say(if job.is_fed() { Phrase::StepLead } else { Phrase::StepShut }, Vec::new());
    }
    if job.is_fed() {
        after::neutralize_fed(steps);
    }
    let settles = job.stock.prepared.chemical == Chemical::ChlorinatedLime;
    let settle = |steps: &mut Steps<'_>| {
        if settles {
            steps.add(Phrase::StepSettle, vec![("minutes", figure(amounts.minutes(SETTLE_MINUTES)))]);
        }
    };
    if let Some(wash) = need.wash {
        steps.say(
            Phrase::StepWash,
            vec![
                ("wash", figure(amounts.measured(wash.amount, wash.unit))),
                ("product", job.product_fill()),
                ("wash_water", figure(amounts.pail(wash.solution))),
            ],
        );
        settle(steps);
    }
    let fills = vec![("amount", figure(job.poured())), ("product", job.product_fill())];
    match amounts.bucket(need.predilution, need.treated_volume) {
        Some(water) => {
            let fills = fills.into_iter().chain([("dilution", figure(water))]).collect();
            steps.say(Phrase::StepMix, fills);
        }
        None => steps.say(Phrase::StepMixPlain, fills),
    }
    settle(steps);
    in_place::step(steps);
    let how = match (job.is_open(), job.well.well_type) {
        (true, _) => Phrase::StepPourDug,
        (false, WellType::Driven) => Phrase::StepPourDriven,
        (false, WellType::Bored) => Phrase::StepPourBored,
        (false, _) => Phrase::StepPour,
    };
    steps.say(how, Vec::new());
}

fn spread(steps: &mut Steps<'_>) {
    let job = steps.job;
    let amounts = job.amounts();
    let target = || {
        let target = figure(amounts.chlorine(job.practice.target));
        vec![("target", target), ("more", figure(job.top_up()))]
    };
    if job.is_spring() {
        steps.say(Phrase::StepStripSpring, target());
    } else if job.is_open() {
        steps.say(Phrase::StepTapsDug, target());
    } else {
        steps.say(Phrase::StepCirculate, vec![("minutes", figure(amounts.minutes(CIRCULATE_MINUTES)))]);
        match job.spread_below_target() {
            Some(spread) => {
                let spread = ("spread", figure(amounts.chlorine(spread)));
                steps.say(Phrase::StepTapsThin, target().into_iter().chain([spread]).collect());
            }
            None if job.counts_plumbing() => steps.say(Phrase::StepTaps, target()),
            None => steps.say(Phrase::StepTapsNotCounted, target()),
        }
    }
    if job.is_spring() {
        steps.say(Phrase::StepCoverSpring, Vec::new());
    } else if job.is_open() {
        steps.say(Phrase::StepCover, Vec::new());
    } else {
        steps.say(Phrase::StepClose, Vec::new());
    }
}

fn hold(steps: &mut Steps<'_>) {
    let job = steps.job;
    let (need, amounts) = (job.need, job.amounts());
    let hold = || figure(amounts.hours(need.hold));
    let dates = Dates::of(job);
    let until = || ("until", job.moment(dates.map(|dates| dates.hold_end)));
    if let Some(feed) = need.feed {
        let product = |amount: Amount| amounts.product(amount, &job.stock.prepared.stock).unwrap_or_default();
        steps.say(
            Phrase::StepFeed,
            vec![
                ("feed", figure(product(feed.per_hour))),
                ("product", job.product_fill()),
                ("hold", hold()),
                ("feed_all", figure(product(feed.in_all))),
                ("poured", job.moment(dates.map(|dates| dates.poured))),
                until(),
                ("target", figure(amounts.chlorine(job.practice.target))),
            ],
        );
    } else {
        let fills = vec![("hold", hold()), until()];
        match need.hold_required {
            Some(rule) => {
                let fills = fills.into_iter().chain([("rule", figure(amounts.hours(rule)))]).collect();
                steps.say(Phrase::StepHoldRule, fills);
            }
            None => steps.say(Phrase::StepHold, fills),
        }
    }
    let least = || figure(amounts.chlorine(end_residual(job.practice)));
    if need.cautions.has(Caution::SpringIsolated) {
        steps.say(Phrase::StepTest, vec![("least", least()), ("more", figure(job.top_up()))]);
    }
    let fills = vec![("least", least()), ("more", figure(job.top_up())), ("hold", hold())];
    steps.say(if job.is_fed() { Phrase::StepEndFed } else { Phrase::StepEnd }, fills);
}

fn samples(steps: &mut Steps<'_>) {
    let mut fills =
        vec![("first", figure(FIRST_SAMPLE_DAYS.to_string())), ("second", figure(SECOND_SAMPLE_DAYS.to_string()))];
    match Dates::of(steps.job) {
        Some(dates) => {
            fills.push(("sample_first", figure(dates.first_sample.to_string())));
            fills.push(("sample_second", figure(dates.second_sample.to_string())));
            steps.say(Phrase::StepSamplePlanned, fills);
        }
        None => steps.say(Phrase::StepSample, fills),
    }
    steps.say(Phrase::StepPositive, Vec::new());
}
