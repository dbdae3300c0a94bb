//! The crew's file: what holds for every well first, then depot by depot its load list and its cards.

use std::collections::BTreeMap;

use super::amounts::Amounts;
use super::job::Job;
use super::load::Loaded;
use super::phrases::Phrase;
use super::rules::{FIRST_SAMPLE_DAYS, SECOND_SAMPLE_DAYS, usual_end_residual};
use super::words::{Language, Terms, Words};
use super::{held_back, planned, strength};
use crate::caution;
use crate::document::card::{Card, CardLabels, CrewSheets, Depot, Size};
use crate::engine::Plan;
use crate::error::Result;
use crate::field::rules::UnitSystem;
use crate::kernel::constants::STOCK_NEARLY_GONE;
use crate::scenario::stock::StockOnTheDay;
use crate::visit::{TreatedVisit, Visit};

/// Cards in one file: more make it slow to open, and nobody prints them in one go.
const MOST_CARDS: usize = 2_000;

/// How many visits a run planned, held back and left out.
#[derive(Debug, Clone, Copy)]
pub struct Counts {
    /// Planned.
    pub planned: u64,
    /// Held back.
    pub held_back: u64,
    /// Left out by a rule.
    pub excluded: u64,
}

/// What a depot loads, its cards of half a page, and those of a whole one.
type DepotCards = (Loaded, Vec<Card>, Vec<Card>);

/// What crews take along, for the first scenario of a plan.
///
/// # Errors
/// When a condition of the scenario file cannot be evaluated.
pub fn of_run(
    plan: &Plan<'_>,
    kept: &[TreatedVisit],
    counts: Counts,
    language: Language,
) -> Result<Option<CrewSheets>> {
    let Some(case) = plan.cases.first() else { return Ok(None) };
    let words = Words::of(language);
    let (campaign, system) = (plan.campaign, plan.campaign.system);
    let product = &campaign.products[case.scenario.product];
    let age_stated = case.scenario.age.is_some();
    // Those without a depot come last.
    let mut depots: BTreeMap<(bool, &str), DepotCards> = BTreeMap::new();
    let mut cards = 0_u64;
    for treated in kept.iter().filter(|treated| !matches!(treated.visit, Visit::Excluded { .. })).take(MOST_CARDS) {
        cards += 1;
        let visit = &treated.visit;
        let depot = visit.depot().trim();
        let (loaded, with_amounts, to_measure) = depots.entry((depot.is_empty(), depot)).or_default();
        match (visit, treated.need(0)) {
            (Visit::Planned { well, .. }, Some(need)) => {
                let practice = plan.practice_for(case, well)?;
                let (practice, stock) = (&practice, &case.stock);
                let job = Job { well, practice, need, product, stock, carried: &plan.carried, age_stated, words };
                loaded.add(&job);
                with_amounts.push(planned::card(&job));
            }
            (Visit::HeldBack { .. }, _) => {
                to_measure.push(held_back::card(visit, &plan.carried, words, system));
            }
            _ => {}
        }
    }
    let stock = &case.stock.prepared.stock;
    let depots = depots.into_iter().map(|((_, name), (loaded, mut cards, to_measure))| {
        let title = match name {
            "" => words.say(Phrase::FileNoDepot),
            name => words.with(Phrase::FileDepot, &[("depot", name)]),
        };
        let named = if name.is_empty() { words.say(Phrase::FileNoDepot) } else { name.to_owned() };
        let load = loaded.list(&named, to_measure.len(), (product, stock), &campaign.supplies, (words, system));
        // Cards that share a page stand together, so that no page is half empty.
        cards.sort_by_key(|card| card.size == Size::Full);
        cards.extend(to_measure);
        Depot { title, load, cards }
    });
    let depots = depots.collect();
    let all = counts.planned + counts.held_back + counts.excluded;
    let missing = (counts.planned + counts.held_back).saturating_sub(cards);
    let mut about = vec![
        words.with(Phrase::FileScenario, &[("scenario", &case.scenario.name)]),
        strength::said(Phrase::FileStrength, product, &case.stock, age_stated, words),
        words.with(
            Phrase::FileCounted,
            &[
                ("planned", &counts.planned.to_string()),
                ("all", &all.to_string()),
                ("held", &counts.held_back.to_string()),
                ("excluded", &counts.excluded.to_string()),
            ],
        ),
    ];
    if missing > 0 {
        about.push(words.with(Phrase::FileRest, &[("missing", &missing.to_string())]));
    }
    if plan.cases.len() > 1 {
        about.push(words.say(Phrase::FileOthers));
    }
    about.push(words.say(Phrase::FileOrder));
    let title = words.with(Phrase::FileTitle, &[("title", &campaign.title)]);
    Ok(Some(file(title, about, depots, (&case.stock, system, language))))
}

/// The card of one well, alone.
pub fn of_well(job: &Job<'_>, language: Language) -> CrewSheets {
    let words = Words::of(language);
    let about = vec![strength::said(Phrase::FileStrength, job.product, job.stock, job.age_stated, words)];
    let mut loaded = Loaded::default();
    loaded.add(job);
    let stock = &job.stock.prepared.stock;
    let system = job.practice.system;
    let load = loaded.list(&job.well.id, 0, (job.product, stock), &[], (words, system));
    let title = words.with(Phrase::FileTitle, &[("title", &job.well.id)]);
    let depots = vec![Depot { title: String::new(), load, cards: vec![planned::card(job)] }];
    file(title, about, depots, (job.stock, system, language))
}

/// What holds for every card.
fn file(
    title: String,
    about: Vec<String>,
    depots: Vec<Depot>,
    (stock, system, language): (&StockOnTheDay, UnitSystem, Language),
) -> CrewSheets {
    let words = Words::of(language);
    let amounts = Amounts { words, system };
    let say = |phrase| words.say(phrase);
    let days = [("first", FIRST_SAMPLE_DAYS.to_string()), ("second", SECOND_SAMPLE_DAYS.to_string())];
    let days: Vec<(&str, &str)> = days.iter().map(|(name, days)| (*name, days.as_str())).collect();
    CrewSheets {
        language: language.code().to_owned(),
        title,
        about,
        banner: (stock.prepared.share_left < STOCK_NEARLY_GONE.value).then(|| say(Phrase::FileSpent)),
        cautions_title: say(Phrase::FileBefore),
        cautions: caution::GENERAL.iter().map(|entry| words.term(Terms::General, entry.word).to_owned()).collect(),
        reading_title: say(Phrase::FileRead),
        reading: vec![
            say(Phrase::FileReadStrip),
            words.with(Phrase::FileReadLeast, &[("least", &amounts.chlorine(usual_end_residual()))]),
            say(Phrase::FileReadMore),
            words.with(Phrase::FileReadSample, &days),
            say(Phrase::FileReadRounded),
        ],
        labels: CardLabels {
            bring: say(Phrase::CardBring),
            record: say(Phrase::CardRecord),
            cautions: say(Phrase::CardCautions),
            flags: say(Phrase::CardFlags),
            foot: say(Phrase::CardFoot),
        },
        depots,
    }
}
