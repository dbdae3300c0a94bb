//! What a card says of older stock that may be poured in place of what it is counted for.

use super::from_stock::InPlace;
use super::job::{Job, Steps, figure, text};
use super::phrases::Phrase;
use super::strength::age_and_strength;
use crate::document::card::Sentence;

/// The amounts of each stock that may be poured in place, behind those of the card.
pub(super) fn amounts(job: &Job<'_>) -> Vec<Sentence> {
    let said = |other: &InPlace<'_>| {
        let fills =
            vec![("amount", figure(job.of(other).poured())), ("age", text(age_and_strength(other.stock, job.words)))];
        job.words.sentence(Phrase::CardFromStock, fills)
    };
    job.in_place.iter().map(said).collect()
}

/// The step that says everything that is poured of such stock.
pub(super) fn step(steps: &mut Steps<'_>) {
    let job = steps.job;
    for other in job.in_place {
        let own = job.of(other);
        let amounts = own.amounts();
        let fills = vec![
            ("amount", figure(own.poured())),
            ("age", text(age_and_strength(other.stock, job.words))),
            ("more", figure(own.top_up())),
        ];
        steps.say(Phrase::StepFromStock, fills);
        if let Some(wash) = other.need.wash {
            let wash = figure(amounts.measured(wash.amount, wash.unit));
            steps.add(Phrase::StepFromStockWash, vec![("wash", wash)]);
        }
        if let Some(feed) = other.need.feed {
            let said = |amount| figure(amounts.product(amount, &other.stock.prepared.stock).unwrap_or_default());
            let fills = vec![("feed", said(feed.per_hour)), ("feed_all", said(feed.in_all))];
            steps.add(Phrase::StepFromStockFeed, fills);
        }
    }
}
