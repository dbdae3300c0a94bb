//! The crew's file: what holds for every well first, then crew by crew and day by day, or depot by depot, load list and cards.

use std::collections::BTreeMap;

use super::amounts::Amounts;
use super::containers::{self, Out};
use super::dates::Dates;
use super::from_stock::{self, Pours};
use super::job::Job;
use super::load::{For, Loaded};
use super::phrases::Phrase;
use super::rules::{FIRST_SAMPLE_DAYS, SECOND_SAMPLE_DAYS, usual_end_residual};
use super::strength::age_and_strength;
use super::words::{Language, Terms, Words};
use super::{days, held_back, notice, older, outing, planned, strength};
use crate::caution;
use crate::document::card::{Card, CardLabels, CrewSheets, Depot, Notice, Notices};
use crate::engine::{Case, Plan};
use crate::error::Result;
use crate::field::rules::UnitSystem;
use crate::kernel::constants::STOCK_NEARLY_GONE;
use crate::relation::Given;
use crate::report::defaults::Treated;
use crate::rollup::orders::Orders;
use crate::scenario::stock::StockOnTheDay;
use crate::visit::{TreatedVisit, Visit};

/// Cards in one file: more make it slow to open, and nobody prints them in one go.
const MOST_CARDS: usize = 2_000;

/// What crews take along: sheets to work by, notices and tags to leave behind.
pub struct Papers {
    /// Cards and load lists.
    pub sheets: CrewSheets,
    /// A notice for the users of each well and tags for their taps; in the file of a whole plan a blank notice comes first.
    pub notices: Notices,
}

/// How many visits a run planned, held back and left out.
#[derive(Debug, Clone, Copy)]
pub struct Counts {
    /// Visits for which amounts were computed.
    pub planned: u64,
    /// Visits that findings hold back: nothing is computed for them.
    pub held_back: u64,
    /// Left out by a rule.
    pub excluded: u64,
}

/// Cards that belong together: of a crew's day, or of a depot.
#[derive(Default)]
struct Group<'a> {
    /// What is poured at its wells.
    pours: Pours<'a>,
    /// The containers that go out with a crew.
    containers: Option<String>,
    loaded: Loaded,
    with_amounts: Vec<Card>,
    to_measure: Vec<Card>,
    stops: Vec<[String; 4]>,
    notices: Vec<Notice>,
}

/// What crews take along, for the first scenario of a plan.
///
/// # Errors
/// When a condition of the scenario file cannot be evaluated.
pub fn of_run(
    plan: &Plan<'_>,
    kept: &[TreatedVisit],
    orders: &Orders,
    counts: Counts,
    language: Language,
) -> Result<Option<Papers>> {
    let Some(case) = plan.cases.first() else { return Ok(None) };
    let words = Words::of(language);
    let (campaign, system) = (plan.campaign, plan.campaign.system);
    let amounts = Amounts { words, system };
    let product = &campaign.products[case.scenario.product];
    let add = |group: &mut Group<'_>, treated: &TreatedVisit, older: Option<usize>| -> Result<()> {
        let visit = &treated.visit;
        match (visit, treated.need(0)) {
            (Visit::Planned { well, turn, .. }, Some(need)) => {
                let (practice, stated) = plan.practice_for(case, well)?;
                let (practice, carried, turn) = (&practice, &plan.carried, turn.as_ref());
                let stock = group.pours.stock(&case.stock);
                let of_stock = group.pours.need(well, practice);
                let need = of_stock.as_ref().unwrap_or(need);
                let given = Given { well, practice, product, stock, need };
                let age_stated = case.scenario.age.is_some() || of_stock.is_some();
                let treated = Treated { given, age_stated };
                let taken = &treated.by_default(&|key| stated.contains(&key));
                let in_place = &group.pours.in_place(well, practice);
                let job = Job { treated, taken, carried, words, turn, in_place };
                let older = older.and_then(|place| in_place.get(place));
                match older {
                    Some(older) => group.loaded.add_older(older, &well.id, &amounts),
                    None => group.loaded.add(need, &stock.prepared.stock, &amounts),
                }
                group.loaded.meet(&job);
                let card = planned::card(&job);
                let stop = turn.map_or_else(String::new, |turn| turn.stop.to_string());
                let well = match &card.visit_words {
                    Some(words) => format!("{}, {words}", card.well),
                    None => card.well.clone(),
                };
                group.notices.extend(Dates::of(&job).map(|_| notice::of(&job)));
                let poured = match older {
                    Some(older) => {
                        let age = age_and_strength(older.stock, words);
                        words.with(Phrase::LoadStopOlder, &[("amount", &job.of(older).poured()), ("age", &age)])
                    }
                    None => job.poured(),
                };
                // Who reads the list alone must not pour where the card says not yet.
                let poured = match job.stopped() {
                    Some(_) => format!("{}: {poured}", words.say(Phrase::CardStopped)),
                    None => poured,
                };
                group.stops.push([stop, well, card.kind.clone(), poured]);
                group.with_amounts.push(card);
            }
            (Visit::HeldBack { .. }, _) => {
                group.to_measure.push(held_back::card(visit, &plan.carried, words, system));
            }
            _ => {}
        }
        Ok(())
    };
    let mut days_out = Vec::new();
    let mut parts = Vec::new();
    let mut cards = 0;
    let outings = plan.schedule.as_ref().map_or_else(Vec::new, |schedule| outing::whole(schedule, kept));
    let older = older::shared_out(&outings, plan, orders);
    for (outing, older) in outings.iter().zip(older) {
        if cards + outing.visits.len() > MOST_CARDS {
            break;
        }
        cards += outing.visits.len();
        let pours = Pours::at(&outing.day.depot, case, product, orders);
        let mut group = Group { pours, ..Group::default() };
        for (treated, older) in outing.visits.iter().zip(older) {
            add(&mut group, treated, older)?;
        }
        let no_depot = words.say(Phrase::FileNoDepot);
        let depot = if outing.day.depot.is_empty() { &no_depot } else { &outing.day.depot };
        let fills = [("crew", outing.day.crew.as_str()), ("day", &days::said(outing.day, words)), ("depot", depot)];
        let title = words.with(Phrase::FileDay, &fills);
        parts.push((title, words.with(Phrase::LoadTitleDay, &fills), None, group));
        days_out.push(outing.day);
    }
    let out = days_out.into_iter().zip(&parts).map(|(day, (.., group))| Out {
        day,
        loaded: &group.loaded,
        pours: &group.pours,
        stock: &group.pours.stock(&case.stock).prepared.stock,
    });
    let taken = containers::taken(&out.collect::<Vec<_>>(), orders, product, &amounts);
    for ((.., group), taken) in parts.iter_mut().zip(taken) {
        group.containers = taken;
    }
    // Those without a depot come last.
    let mut depots: BTreeMap<(bool, &str), Group<'_>> = BTreeMap::new();
    let by_depot = kept.iter().filter(|treated| treated.visit.turn().is_none());
    for treated in by_depot.filter(|treated| !matches!(treated.visit, Visit::Excluded { .. })) {
        if cards == MOST_CARDS {
            break;
        }
        cards += 1;
        let depot = treated.visit.depot().trim();
        let group = depots
            .entry((depot.is_empty(), depot))
            .or_insert_with(|| Group { pours: Pours::at(depot, case, product, orders), ..Group::default() });
        add(group, treated, None)?;
    }
    for ((_, name), group) in depots {
        let no_depot = words.say(Phrase::FileNoDepot);
        let named = if name.is_empty() { no_depot.as_str() } else { name };
        let title = match (&plan.schedule, name) {
            (Some(_), _) if !group.with_amounts.is_empty() => words.with(Phrase::FileNoDay, &[("depot", named)]),
            (_, "") => no_depot.clone(),
            _ => words.with(Phrase::FileDepot, &[("depot", named)]),
        };
        let held_back = Some(group.to_measure.len());
        parts.push((title, words.with(Phrase::LoadTitle, &[("depot", named)]), held_back, group));
    }
    // A blank one for visits whose date nobody knows.
    let mut notices = vec![notice::blank(words)];
    let depots = parts.into_iter().map(|(title, load_title, held_back, mut group)| {
        notices.append(&mut group.notices);
        let of = For {
            title: load_title,
            held_back,
            product,
            stock: &group.pours.stock(&case.stock).prepared.stock,
            containers: group.containers.take(),
            // On a crew's day it is settled which wells get the older stock.
            ages: if held_back.is_some() { group.pours.ages(words) } else { Vec::new() },
            supplies: &campaign.supplies,
            stops: held_back.is_none().then_some(group.stops),
        };
        let load = group.loaded.list(of, &amounts);
        group.with_amounts.append(&mut group.to_measure);
        Depot { title, load, cards: group.with_amounts }
    });
    let depots: Vec<Depot> = depots.collect();
    let mut about = about(plan, case, counts, cards as u64, words);
    // Behind the strength of what the scenario pours.
    about.splice(2..2, from_stock::about(case, product, orders, words));
    let title = words.with(Phrase::FileTitle, &[("title", &campaign.title)]);
    let mut sheets = file(title, about, depots, (&case.stock, system, language));
    if notices.len() > 1 {
        sheets.reading.push(words.say(Phrase::FileReadPlanned));
    }
    Ok(Some(Papers { sheets, notices: notice::notices(notices, language) }))
}

/// What the file holds, and what it does not.
fn about(plan: &Plan<'_>, case: &Case<'_>, counts: Counts, cards: u64, words: &Words) -> Vec<String> {
    let product = &plan.campaign.products[case.scenario.product];
    let all = counts.planned + counts.held_back + counts.excluded;
    let missing = (counts.planned + counts.held_back).saturating_sub(cards);
    let mut about = vec![
        words.with(Phrase::FileScenario, &[("scenario", &case.scenario.name)]),
        strength::said(Phrase::FileStrength, product, &case.stock, case.scenario.age.is_some(), words),
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
        about.push(words.with(Phrase::FileOthers, &[("scenario", &case.scenario.name)]));
    }
    let Some(schedule) = &plan.schedule else {
        about.push(words.say(Phrase::FileOrder));
        return about;
    };
    about.extend([words.say(Phrase::FileDays), words.say(Phrase::FileOneVisit)]);
    if schedule.left() > 0 {
        let (left, planned) = (schedule.left().to_string(), schedule.planned.to_string());
        about.push(words.with(Phrase::FileWithoutDay, &[("left", &left), ("planned", &planned)]));
    }
    about
}

/// Card, notice and tag of one well, alone.
pub fn of_well(job: &Job<'_>, language: Language) -> Papers {
    let words = Words::of(language);
    let about = vec![strength::said(Phrase::FileStrength, job.product, job.stock, job.age_stated, words)];
    let mut loaded = Loaded::default();
    let stock = &job.stock.prepared.stock;
    let system = job.practice.system;
    loaded.add(job.need, stock, &job.amounts());
    loaded.meet(job);
    let title = words.with(Phrase::LoadTitle, &[("depot", &job.well.id)]);
    let of = For {
        title,
        held_back: Some(0),
        product: job.product,
        stock,
        containers: None,
        ages: Vec::new(),
        supplies: &[],
        stops: None,
    };
    let load = loaded.list(of, &job.amounts());
    let title = words.with(Phrase::FileTitle, &[("title", &job.well.id)]);
    let depots = vec![Depot { title: String::new(), load, cards: vec![planned::card(job)] }];
    Papers {
        sheets: file(title, about, depots, (job.stock, system, language)),
        notices: notice::notices(vec![notice::of(job)], language),
    }
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
            say(Phrase::FileReadDefault),
            say(Phrase::FileReadChlorate),
            words.with(Phrase::FileReadSample, &days),
            say(match system {
                UnitSystem::Us => Phrase::FileReadRounded,
                UnitSystem::Metric | UnitSystem::Imperial => Phrase::FileReadRoundedSpoon,
            }),
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
