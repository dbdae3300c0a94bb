//! The days of crews, each with its visits in the order of its stops.

use super::amounts::Amounts;
use super::containers::{self, Out};
use super::facts::first_upper;
use super::from_stock::Pours;
use super::load::Loaded;
use super::older;
use super::outing::{Outing, whole};
use super::phrases::Phrase;
use super::strength;
use super::transport;
use super::words::{Language, Words};
use crate::kernel::requirement::Stock;
use crate::report::Matter;
use crate::visit::{CrewDay, Visit};

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
    let outings = whole(schedule, &matter.run.kept);
    let older = older::shared_out(&outings, matter.plan, matter.orders);
    let load = |(outing, older): (&Outing<'a>, &Vec<Option<usize>>)| {
        let mut loaded = Loaded::default();
        let pours = Pours::at(&outing.day.depot, case, product, matter.orders);
        let stock = pours.stock(&case.stock);
        for (treated, older) in outing.visits.iter().zip(older) {
            let (Visit::Planned { well, .. }, Some(need)) = (&treated.visit, treated.need(0)) else { continue };
            // Its conditions were asked when it was planned.
            let Ok((practice, _)) = matter.plan.practice_for(case, well) else { continue };
            let own = pours.need(well, &practice);
            let need = own.as_ref().unwrap_or(need);
            let in_place = older.map_or_else(Vec::new, |_| pours.in_place(well, &practice));
            match older.and_then(|place| in_place.get(place)) {
                Some(older) => loaded.add_older(older, &well.id, &amounts),
                None => loaded.add(need, &stock.prepared.stock, &amounts),
            }
            loaded.top_up(need, &practice, stock.measured_for(&practice));
        }
        (loaded, pours)
    };
    let loads: Vec<(Loaded, Pours<'_>)> = outings.iter().zip(&older).map(load).collect();
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
            product: product_said(loaded, pours, stock, &amounts),
            containers: containers.unwrap_or_default(),
            agents: agents.collect::<Vec<_>>().join(", "),
            water: loaded.water(&amounts).unwrap_or_default(),
        }
    };
    outings.iter().zip(&out).zip(containers).map(said).collect()
}

/// `3 gallons of new product; 2 quarts of the older stock (45 days old, 99.5 g/L) at 95-896, 63-882`.
fn product_said(loaded: &Loaded, pours: &Pours<'_>, stock: &Stock, amounts: &Amounts<'_>) -> String {
    let new = loaded.product(stock, amounts).map(|said| said + pours.marked());
    let older = loaded.older(stock, amounts).into_iter();
    let older = older.map(|[said, age, wells]| format!("{said} of the older stock ({age}) at {wells}"));
    new.into_iter().chain(older).collect::<Vec<_>>().join("; ")
}

/// What strength and age the amounts on the cards are computed with, and that nothing weaker is poured by them.
pub(in crate::report) fn counted_for(matter: &Matter<'_>) -> Option<String> {
    let case = matter.plan.cases.first()?;
    let product = &matter.plan.campaign.products[case.scenario.product];
    let words = Words::of(Language::English);
    let said = strength::said(Phrase::CardCounted, product, &case.stock, case.scenario.age.is_some(), words);
    let stock = case.own_stock.iter().any(|own| own.line.on_hand > 0.0);
    let own = match (stock, &matter.plan.schedule) {
        (false, _) => "",
        (true, Some(_)) => {
            " Older stock that is stated with its age has amounts of its own on the cards; Crew days and the load lists name the wells \
             that get it, in the order of the stops, as long as a whole well's amount is left of it."
        }
        (true, None) => {
            " Older stock that is stated with its age has amounts of its own on the cards of its depot: any well there may get it, one \
             amount or the other, never both."
        }
    };
    Some(format!(
        "Amounts are for {said}. Nothing older or weaker is poured by them: test it, or plan again with its age.{own}"
    ))
}

/// What holds for the containers that the first scenario's product goes out in, a sentence.
pub(in crate::report) fn on_containers(matter: &Matter<'_>) -> Option<String> {
    let campaign = matter.plan.campaign;
    let product = &campaign.products[matter.plan.cases.first()?.scenario.product];
    let said = transport::containers(product, Words::of(Language::English), campaign.system);
    Some(first_upper(&said) + ".")
}
