//! What a crew brings to a well: product and agent of this well, and gear. Common practice, no source, but for the product's
//! certificate (NSF/ANSI/CAN 60: drinking water treatment chemicals, health effects).

use super::job::{Job, figure, text};
use super::phrases::Phrase;
use crate::document::card::{Sentence, Size};
use crate::field::WellType;

/// Product, agent and gear for one well.
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
    if job.size() == Size::Half {
        // A card of half a page has no room for what every well needs: the load list says it.
        if job.well.well_type == WellType::Driven {
            say(Phrase::BringFunnelDriven, Vec::new());
        }
        say(Phrase::BringLoadList, Vec::new());
        return bring;
    }
    if job.agent().is_some() {
        say(Phrase::BringBucketAgent, Vec::new());
    }
    if job.is_open() {
        say(Phrase::BringBrush, Vec::new());
    } else {
        say(Phrase::BringFunnel, Vec::new());
    }
    if job.is_spring() {
        say(if job.is_fed() { Phrase::BringFeeder } else { Phrase::BringPlug }, Vec::new());
    }
    if job.need.emptyings.is_some() {
        say(Phrase::BringPump, Vec::new());
    }
    let gear = [
        Phrase::BringMeasure,
        Phrase::BringHose,
        Phrase::BringWrenches,
        Phrase::BringTarp,
        Phrase::BringLight,
        Phrase::BringPower,
        Phrase::BringGear,
        Phrase::BringStrips,
        Phrase::BringBottles,
        Phrase::BringNotice,
    ];
    for phrase in gear {
        say(phrase, Vec::new());
    }
    bring
}

/// Everything of the product that the card pours: for water, walls and feed, each as it is measured out.
fn in_all(job: &Job<'_>) -> String {
    let amounts = job.amounts();
    let wash = job.need.wash.map(|wash| amounts.measured(wash.amount, wash.unit));
    let feed = job.need.feed.and_then(|feed| amounts.product(feed.in_all, &job.stock.prepared.stock));
    [Some(job.poured()), wash, feed].into_iter().flatten().collect::<Vec<_>>().join(" + ")
}
