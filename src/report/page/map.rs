//! Where the visits lie, by depot and by what became of them.

use std::collections::BTreeMap;

use super::depots::name;
use super::{Pages, counted};
use crate::document::block::{Block, Section};
use crate::document::chart::{Map, Place};
use crate::field::rules::UnitSystem;
use crate::rollup::sites::{Site, State};

const STATES: [(State, &str); 3] = [
    (State::Planned, "planned (filled)"),
    (State::HeldBack, "held back (hollow)"),
    (State::Excluded, "left out by a rule (crossed out)"),
];

/// How many times the spread of the middle half a place may lie away from it before it is taken for a slip of the pen.
const FAR: f64 = 8.0;

pub(super) fn section(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("map", "Where the wells are");
    let sites = &pages.matter.run.sites;
    let all: Vec<&Site> = sites.points().iter().collect();
    let with: u64 = STATES.iter().map(|(state, _)| sites.with_place(*state)).sum();
    if all.is_empty() {
        section.say("No list gives coordinates.");
        return section;
    }
    let near = nearby(&all);
    let far = all.len() - near.len();
    let mut says = format!(
        "{} of {} have coordinates.",
        crate::document::figure::number(with as f64, 0),
        counted(with + sites.without_place(), "visit", "visits")
    );
    if sites.step() > 1 {
        says += &format!(" Of so many, one in {} is drawn.", sites.step());
    }
    section.say(says);
    if far > 0 {
        section.flag(format!(
            "{} so far from the others that the coordinates are in doubt: not drawn. The findings name those outside of the \
             campaign's bounds.",
            counted(far as u64, "place lies", "places lie")
        ));
    }
    let mut groups: BTreeMap<&str, usize> = BTreeMap::new();
    for site in &near {
        let next = groups.len();
        groups.entry(name(&site.depot)).or_insert(next);
    }
    let mut names: Vec<(&str, usize)> = groups.iter().map(|(depot, at)| (*depot, *at)).collect();
    names.sort_by_key(|(_, at)| *at);
    let places = near
        .iter()
        .map(|site| Place {
            latitude: site.latitude,
            longitude: site.longitude,
            group: groups.get(name(&site.depot)).copied().unwrap_or_default(),
            state: STATES.iter().position(|(state, _)| *state == site.state).unwrap_or_default(),
        })
        .collect();
    let states: Vec<String> = STATES.iter().map(|(_, words)| (*words).to_owned()).collect();
    let counts: Vec<String> = STATES
        .iter()
        .filter(|(state, _)| sites.with_place(*state) > 0)
        .map(|(state, words)| format!("{} {words}", sites.with_place(*state)))
        .collect();
    section.push(Block::Map(Map {
        title: "Visits by depot (shape and color) and by state (filled or hollow)".to_owned(),
        text: format!(
            "A map of {} around {}: {}.",
            counted(near.len() as u64, "visit", "visits"),
            counted(names.len() as u64, "depot", "depots"),
            counts.join(", ")
        ),
        groups: names.into_iter().map(|(depot, _)| depot.to_owned()).collect(),
        states,
        places,
        miles: pages.matter.plan.campaign.system == UnitSystem::Us,
    }));
    section
}

/// Places without those that lie far from all others.
fn nearby<'a>(sites: &[&'a Site]) -> Vec<&'a Site> {
    let bounds = |get: fn(&Site) -> f64| {
        let mut values: Vec<f64> = sites.iter().map(|site| get(site)).collect();
        values.sort_by(f64::total_cmp);
        let quarter = |part: usize| values.get((values.len() - 1) * part / 4).copied().unwrap_or_default();
        let (low, high) = (quarter(1), quarter(3));
        // A hundredth of a degree, about a kilometer, where half of the places are one.
        let reach = (high - low).max(0.01) * FAR;
        low - reach..=high + reach
    };
    let (latitudes, longitudes) = (bounds(|site| site.latitude), bounds(|site| site.longitude));
    sites
        .iter()
        .copied()
        .filter(|site| latitudes.contains(&site.latitude) && longitudes.contains(&site.longitude))
        .collect()
}
