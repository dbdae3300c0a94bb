//! What a crew brings to a well: product and agent of this well, and gear. Common practice, no source, but for the product's
//! certificate (NSF/ANSI/CAN 60: drinking water treatment chemicals, health effects).

use super::job::{Job, figure, text};
use super::phrases::Phrase;
use crate::document::card::Sentence;
use crate::field::WellType;

/// Product, agent and gear for one well, the most needed first.
pub(super) fn of(job: &Job<'_>) -> Vec<Sentence> {
    let words = job.words;
    let mut bring = Vec::new();
    let mut say = |phrase, fills| bring.push(words.sentence(phrase, fills));
    let beside = job.need.wash.is_some() || job.need.feed.is_some();
    let fills = vec![("amount", figure(in_all(job))), ("product", job.product_fill())];
    if beside {
        let more = [("more", figure(job.top_up()))];
        say(Phrase::BringProductLong, fills.into_iter().chain(more).collect());
    } else {
        say(Phrase::BringProduct, fills);
    }
    for other in job.in_place {
        let own = job.of(other);
        say(Phrase::BringFromStock, vec![("amount", figure(in_all(&own))), ("more", figure(own.top_up()))]);
    }
    if let Some((agent, amount, _)) = job.agent() {
        say(Phrase::BringAgent, vec![("amount", figure(amount)), ("agent", text(job.agent_name(agent)))]);
        if let Some((other, amount, _)) = job.agent_instead() {
            let fills = vec![("other_amount", figure(amount)), ("other", text(job.agent_name(other)))];
            say(Phrase::BringAgentInstead, fills);
        }
    }
    if let Some(water) = job.amounts().bucket(job.need.predilution, job.need.treated_volume) {
        let fills = vec![("water", figure(water))];
        if job.need.predilution > job.amounts().pail_held() {
            let pail = text(job.amounts().pail_held_words());
            say(Phrase::BringDrum, fills.into_iter().chain([("pail", pail)]).collect());
        } else {
            say(Phrase::BringBucket, fills);
        }
    }
    // What this kind of well alone needs.
    if job.is_open() {
        say(Phrase::BringBrush, Vec::new());
    } else if job.well.well_type == WellType::Driven {
        say(Phrase::BringFunnelDriven, Vec::new());
    }
    if job.is_spring() {
        say(if job.is_fed() { Phrase::BringFeeder } else { Phrase::BringPlug }, Vec::new());
    }
    if job.need.emptyings.is_some() {
        say(Phrase::BringPump, Vec::new());
    }
    let of = |is_needed: bool, phrase: Phrase| is_needed.then_some(phrase);
    let gear = [
        of(!job.is_open() && job.well.well_type == WellType::Drilled, Phrase::BringFunnel),
        of(job.agent().is_some(), Phrase::BringBucketAgent),
        Some(Phrase::BringMeasure),
        Some(Phrase::BringGear),
        of(!job.is_spring(), Phrase::BringPower),
        Some(Phrase::BringStrips),
        Some(Phrase::BringHose),
        Some(Phrase::BringWrenches),
        Some(Phrase::BringLight),
        Some(Phrase::BringTarp),
        Some(Phrase::BringBottles),
        Some(Phrase::BringNotice),
    ];
    bring.extend(gear.into_iter().flatten().map(|phrase| words.sentence(phrase, Vec::new())));
    bring
}

/// The product of a well with what tops it up, in letters alone.
pub fn product_to_bring(job: &Job<'_>) -> String {
    of(job).first().map(Sentence::plain).unwrap_or_default()
}

/// Everything of the product that the card pours: for water, walls and feed, each as it is measured out.
fn in_all(job: &Job<'_>) -> String {
    let amounts = job.amounts();
    let wash = job.need.wash.map(|wash| amounts.measured(wash.amount, wash.unit));
    let feed = job.need.feed.and_then(|feed| amounts.product(feed.in_all, &job.stock.prepared.stock));
    [Some(job.poured()), wash, feed].into_iter().flatten().collect::<Vec<_>>().join(" + ")
}
