//! The days of crews, each with its visits in the order of its stops.

use std::collections::BTreeMap;

use super::amounts::Amounts;
use super::containers::{self, Out};
use super::facts::first_upper;
use super::from_stock::Pours;
use super::load::{Loaded, poured};
use super::phrases::Phrase;
use super::transport;
use super::words::{Language, Words};
use crate::report::Matter;
use crate::schedule::Schedule;
use crate::visit::{CrewDay, TreatedVisit, Visit};

/// A crew's day and what it makes then.
pub(super) struct Outing<'a> {
    pub(super) day: &'a CrewDay,
    pub(super) visits: Vec<&'a TreatedVisit>,
}

/// The days all of whose visits are at hand, in their order; of the others something would be missing from the load.
pub(super) fn whole<'a>(schedule: &'a Schedule, kept: &'a [TreatedVisit]) -> Vec<Outing<'a>> {
    let mut outings: Vec<Outing<'a>> = schedule.days.iter().map(|day| Outing { day, visits: Vec::new() }).collect();
    for treated in kept {
        let outing = treated.visit.turn().and_then(|turn| outings.get_mut(turn.of.place));
        outing.into_iter().for_each(|outing| outing.visits.push(treated));
    }
    for outing in &mut outings {
        outing.visits.sort_by_key(|treated| treated.visit.turn().map(|turn| turn.stop));
    }
    outings.retain(|outing| outing.visits.len() == outing.day.stops as usize);
    outings
}

/// A day as a language says it.
pub(super) fn said(day: &CrewDay, words: &Words) -> String {
    match day.date {
        Some(date) => date.to_string(),
        None => words.with(Phrase::FileDayNumber, &[("number", &day.number.to_string())]),
    }
}

/// What a crew takes along on a day, in a few words.
pub(in crate::report) struct DayLoad<'a> {
    pub(in crate::report) day: &'a CrewDay,
    /// Ids of the wells in the order of the stops, separated by commas.
    pub(in crate::report) wells: String,
    /// Product as the cards pour it.
    pub(in crate::report) product: String,
    /// The same with topping up, out of the containers of the depot.
    pub(in crate::report) containers: String,
    /// Agents with their amounts.
    pub(in crate::report) agents: String,
    /// Water to mix with.
    pub(in crate::report) water: String,
}

/// What crews take along for the first scenario, by crew and day; none of days that are not wholly at hand.
pub(in crate::report) fn loads<'a>(matter: &Matter<'a>) -> Vec<DayLoad<'a>> {
    let (Some(schedule), Some(case)) = (&matter.plan.schedule, matter.plan.cases.first()) else { return Vec::new() };
    let campaign = matter.plan.campaign;
    let product = &campaign.products[case.scenario.product];
    let amounts = Amounts { words: Words::of(Language::English), system: campaign.system };
    let load = |outing: &Outing<'a>| {
        let mut loaded = Loaded::default();
        let pours = Pours::at(&outing.day.depot, case, product, matter.orders);
        let stock = pours.stock(&case.stock);
        for treated in &outing.visits {
            let (Visit::Planned { well, .. }, Some(need)) = (&treated.visit, treated.need(0)) else { continue };
            // Its conditions were asked when it was planned.
            let Ok((practice, _)) = matter.plan.practice_for(case, well) else { continue };
            let own = pours.need(well, &practice);
            let need = own.as_ref().unwrap_or(need);
            loaded.add(need, &stock.prepared.stock, &amounts);
            loaded.top_up(need, &practice, stock.measured_for(&practice));
        }
        (loaded, pours)
    };
    let outings = whole(schedule, &matter.run.kept);
    let loads: Vec<(Loaded, Pours<'_>)> = outings.iter().map(load).collect();
    let out = outings.iter().zip(&loads).map(|(outing, (loaded, pours))| Out {
        day: outing.day,
        loaded,
        pours,
        stock: &pours.stock(&case.stock).prepared.stock,
    });
    let out: Vec<Out<'_>> = out.collect();
    let containers = containers::taken(&out, matter.orders, product, &amounts);
    let said = |((outing, out), containers): ((&Outing<'a>, &Out<'_>), Option<String>)| {
        let Out { loaded, pours, stock, .. } = out;
        let agents =
            loaded.agents(&amounts).into_iter().map(|(agent, said)| format!("{said} of {}", agent.replace('_', " ")));
        DayLoad {
            day: outing.day,
            wells: outing.visits.iter().map(|treated| treated.visit.id()).collect::<Vec<_>>().join(", "),
            product: loaded.product(stock, &amounts).unwrap_or_default() + pours.marked(),
            containers: containers.unwrap_or_default(),
            agents: agents.collect::<Vec<_>>().join(", "),
            water: loaded.water(&amounts).unwrap_or_default(),
        }
    };
    outings.iter().zip(&out).zip(containers).map(said).collect()
}

/// What holds for the containers that the first scenario's product goes out in, a sentence.
pub(in crate::report) fn on_containers(matter: &Matter<'_>) -> Option<String> {
    let campaign = matter.plan.campaign;
    let product = &campaign.products[matter.plan.cases.first()?.scenario.product];
    let said = transport::containers(product, Words::of(Language::English), campaign.system);
    Some(first_upper(&said) + ".")
}

/// What the cards of each depot measure out for the first scenario, in liters or kilograms of what it pours, by the depot as its lists
/// spell it; nothing where not every visit is at hand.
pub(in crate::report) fn poured_by_depot(matter: &Matter<'_>) -> Option<BTreeMap<String, f64>> {
    let case = matter.plan.cases.first()?;
    let visits = matter.visits();
    if (visits.len() * matter.plan.cases.len()) as u64 != matter.run.table_rows {
        return None;
    }
    let campaign = matter.plan.campaign;
    let by = campaign.products[case.scenario.product].bought_by();
    let mut depots: BTreeMap<String, f64> = BTreeMap::new();
    for treated in visits {
        let Some(need) = treated.need(0) else { continue };
        let amount = by.amount(poured(need, &case.stock.prepared.stock));
        match depots.get_mut(treated.visit.depot()) {
            Some(sum) => *sum += amount,
            None => drop(depots.insert(treated.visit.depot().to_owned(), amount)),
        }
    }
    Some(depots)
}
