//! What is loaded for some cards, those of a depot or of a crew's day: product and agents as the cards measure them out, counted supplies, gear.

use std::collections::BTreeMap;

use super::after::agent_water;
use super::amounts::{ANY_WELL, Amounts};
use super::from_stock::InPlace;
use super::job::{Job, agent_instead_of, agent_of, text};
use super::phrases::Phrase;
use super::rules::drinking_water;
use super::strength::age_and_strength;
use super::transport;
use super::truck::{self, Truck};
use super::words::Terms;
use crate::document::card::{Load, LoadLine, Part, Sentence, Stops};
use crate::kernel::dose::liquid_weight;
use crate::kernel::requirement::{Amount, Practice, Prepared, Requirement, Stock};
use crate::kernel::top_up::measured_top_up;
use crate::quantity::format::number;
use crate::quantity::unit::{self, Dimension};
use crate::quantity::{Mass, Of, ProductVolume, Volume};
use crate::scenario::product::Product;
use crate::scenario::supply::SupplyLine;

/// What some cards take, summed: those of a depot, or of a crew's day.
#[derive(Debug, Default)]
pub(in crate::report) struct Loaded {
    /// Product in SI: cubic meters of a liquid, kilograms of a dry one.
    product: f64,
    /// Kilograms of each agent.
    agents: BTreeMap<&'static str, f64>,
    /// Water to mix product, walls and agents with, by the bucket.
    water: Volume,
    /// Kilograms of each agent that some cards name as the better one.
    instead: BTreeMap<&'static str, f64>,
    /// Visits at which chlorine is poured; those that are only measured are not counted.
    visits: usize,
    /// Product and topping up of each older stock that may be poured in place.
    in_place: Vec<f64>,
    /// What is poured of older stock on a crew's day, and at which wells.
    older: Vec<Poured>,
    /// Product that the cards add once where a strip reads too little, like `product`.
    top_up: f64,
    /// What the wells ask for beside it.
    truck: Truck,
}

/// What is poured of some older stock on a crew's day.
#[derive(Debug, Clone)]
struct Poured {
    /// Its age and strength, in words.
    age: String,
    /// In SI.
    product: f64,
    wells: Vec<String>,
}

/// What a list of what is loaded is made for.
pub(super) struct For<'a> {
    pub(super) title: String,
    /// Visits to be measured, where they go along.
    pub(super) held_back: Option<usize>,
    pub(super) product: &'a Product,
    /// The product on the day of use.
    pub(super) stock: &'a Stock,
    /// Containers that go out with a crew's day, in words.
    pub(super) containers: Option<String>,
    /// Ages of the older stock that may be poured in place.
    pub(super) ages: Vec<String>,
    /// What goes with each visit.
    pub(super) supplies: &'a [SupplyLine],
    /// The stops of a crew's day.
    pub(super) stops: Option<Vec<[String; 4]>>,
}

impl Loaded {
    /// Adds what one more card pours, mixes with and neutralizes with.
    pub(in crate::report) fn add(&mut self, need: &Requirement, stock: &Stock, amounts: &Amounts<'_>) {
        self.product += poured(need, stock);
        self.beside(need, amounts);
    }

    /// Adds a card of a well that older stock is poured at.
    pub(super) fn add_older(&mut self, older: &InPlace<'_>, well: &str, amounts: &Amounts<'_>) {
        let age = age_and_strength(older.stock, amounts.words);
        let product = poured(&older.need, &older.stock.prepared.stock);
        match self.older.iter_mut().find(|known| known.age == age) {
            Some(known) => {
                known.product += product;
                known.wells.push(well.to_owned());
            }
            None => self.older.push(Poured { age, product, wells: vec![well.to_owned()] }),
        }
        self.beside(&older.need, amounts);
    }

    /// What one more card mixes with and neutralizes with.
    fn beside(&mut self, need: &Requirement, amounts: &Amounts<'_>) {
        self.visits += 1;
        self.water += amounts.bucket_si(need.predilution, need.treated_volume);
        if let Some(wash) = need.wash {
            self.water += amounts.bucket_si(wash.solution, ANY_WELL);
        }
        if let Some((agent, _, kilograms)) = agent_of(need, amounts.system) {
            *self.agents.entry(agent.name()).or_default() += kilograms;
            if let Some(water) = agent_water(agent, kilograms) {
                self.water += amounts.bucket_si(water, ANY_WELL);
            }
        }
        if let Some((agent, _, kilograms)) = agent_instead_of(need, amounts.system) {
            *self.instead.entry(agent.name()).or_default() += kilograms;
        }
    }

    /// What one more visit asks for beside what is poured.
    pub(super) fn meet(&mut self, job: &Job<'_>) {
        self.truck.meet(job);
        self.top_up(job.need, job.practice, job.stock.measured_for(job.practice));
        self.in_place.resize(self.in_place.len().max(job.in_place.len()), 0.0);
        for (sum, other) in self.in_place.iter_mut().zip(job.in_place) {
            let product = other.stock.measured_for(job.practice);
            *sum += poured(&other.need, &product.stock) + topped_up(&other.need, job.practice, product);
        }
    }

    /// What one more visit adds where a strip reads too little.
    pub(super) fn top_up(&mut self, need: &Requirement, practice: &Practice, product: &Prepared) {
        self.top_up += topped_up(need, practice, product);
    }

    /// What is poured of older stock, in words: amount, age and wells of each.
    pub(in crate::report) fn older(&self, stock: &Stock, amounts: &Amounts<'_>) -> Vec<[String; 3]> {
        let said = |one: &Poured| {
            let product = amounts.product(amount(one.product, stock), stock).unwrap_or_default();
            [product, one.age.clone(), one.wells.join(", ")]
        };
        self.older.iter().map(said).collect()
    }

    /// The product in words; nothing where none is poured.
    pub(in crate::report) fn product(&self, stock: &Stock, amounts: &Amounts<'_>) -> Option<String> {
        amounts.product(amount(self.product, stock), stock).filter(|_| self.product > 0.0)
    }

    /// What the cards pour, in SI.
    pub(super) const fn poured(&self) -> f64 {
        self.product
    }

    /// What they add once where a strip reads too little, in SI.
    pub(super) const fn topping_up(&self) -> f64 {
        self.top_up
    }

    /// Agents in words, each with its amount.
    pub(in crate::report) fn agents(&self, amounts: &Amounts<'_>) -> Vec<(&'static str, String)> {
        weighed_all(&self.agents, amounts)
    }

    /// Water to mix with, in words; nothing where none is needed.
    pub(in crate::report) fn water(&self, amounts: &Amounts<'_>) -> Option<String> {
        amounts.bucket(self.water, ANY_WELL)
    }

    /// The list of what is loaded.
    pub(super) fn list(&self, of: For<'_>, amounts: &Amounts<'_>) -> Load {
        let words = amounts.words;
        let name = || vec![("product", text(of.product.name.clone()))];
        let mut lines = Vec::new();
        let mut line = |item: Sentence, name, said: String, note: Option<String>| {
            lines.push(LoadLine { item, amount: figure(name, said), note });
        };
        let noted = |phrase| Some(words.say(phrase));
        if let Some(said) = self.product(of.stock, amounts) {
            let item = words.sentence(Phrase::LoadProduct, name());
            line(item, "load_product", said, noted(Phrase::LoadProductNote));
            let with_more = amount(self.product + self.top_up, of.stock);
            if let Some(said) = amounts.product(with_more, of.stock).filter(|_| self.top_up > 0.0) {
                let item = words.sentence(Phrase::LoadTopUp, name());
                line(item, "load_top_up", said, noted(Phrase::LoadTopUpNote));
            }
        }
        let is_day = of.stops.is_some();
        for [said, age, wells] in self.older(of.stock, amounts) {
            let item = words.sentence(Phrase::LoadOlder, name().into_iter().chain([("age", text(age))]).collect());
            line(item, "load_older", said, Some(words.with(Phrase::LoadOlderNote, &[("wells", &wells)])));
        }
        for (si, age) in self.in_place.iter().zip(&of.ages) {
            if let Some(said) = amounts.product(amount(*si, of.stock), of.stock) {
                let fills = name().into_iter().chain([("age", text(age.clone()))]).collect();
                line(
                    words.sentence(Phrase::LoadFromStock, fills),
                    "load_from_stock",
                    said,
                    noted(Phrase::LoadFromStockNote),
                );
            }
        }
        if let Some(said) = of.containers {
            let item = words.sentence(Phrase::LoadContainers, name());
            line(item, "load_containers", said, Some(transport::containers(of.product, words, amounts.system)));
        }
        let agents = self.agents(amounts).into_iter().map(|agent| (Phrase::LoadAgent, agent));
        let instead = weighed_all(&self.instead, amounts).into_iter().map(|agent| (Phrase::LoadAgentInstead, agent));
        for (phrase, (agent, said)) in agents.chain(instead) {
            let name = words.term(Terms::Agent, agent);
            line(words.sentence(phrase, vec![("agent", text(name))]), "load_agent", said, None);
        }
        match self.water(amounts) {
            Some(said) => {
                line(words.sentence(Phrase::LoadWater, Vec::new()), "load_water", said, noted(Phrase::LoadWaterNote));
            }
            None => {
                let item = words.sentence(Phrase::LoadWaterRinse, Vec::new());
                line(item, "load_water", amounts.pail_held_words(), None);
            }
        }
        if let Some((users, water)) = self.truck.users() {
            let each = amounts.volume(drinking_water(amounts.system));
            let note = words.with(Phrase::LoadUsersNote, &[("users", &number(users, 6)), ("each", &each)]);
            let item = words.sentence(Phrase::LoadUsers, Vec::new());
            line(item, "load_users", amounts.volume(water), Some(note));
        }
        for supply in of.supplies {
            let count = (supply.per_visit * self.visits as f64 - 1e-9).ceil();
            let item = words.sentence(Phrase::LoadSupply, vec![("item", text(supply.name.clone()))]);
            line(item, "load_supply", number(count, 9), None);
        }
        for (item, note, name, each) in truck::usual(of.supplies).filter(|_| self.visits > 0) {
            let note = words.with(note, &[("count", &each.to_string())]);
            let count = f64::from(each) * self.visits as f64;
            line(words.sentence(item, Vec::new()), name, number(count, 9), Some(note));
        }
        let mut rules = transport::phrases(of.product).map(|phrase| words.say(phrase)).to_vec();
        if is_day && self.visits > 0 {
            let older: f64 = self.older.iter().map(|one| one.product).sum();
            let weight = kilograms(self.product + older + self.top_up, of.stock);
            let phrase = if transport::is_over(weight) { Phrase::LoadRuleOver } else { Phrase::LoadRuleWeight };
            let said = amounts.weight(weight).unwrap_or_default();
            // Behind the small amounts that it is held against.
            rules.insert(2, words.with(phrase, &[("weight", &said)]));
        }
        let gear = self.truck.gear(of.held_back.is_some_and(|held| held > 0));
        let visits = self.visits.to_string();
        Load {
            title: of.title,
            visits: match of.held_back {
                Some(held) => words.with(Phrase::LoadVisits, &[("visits", &visits), ("held", &held.to_string())]),
                None => words.with(Phrase::LoadVisitsDay, &[("visits", &visits)]),
            },
            heads: [Phrase::LoadItem, Phrase::LoadAmount, Phrase::LoadLoaded].map(|phrase| words.say(phrase)),
            lines,
            stops: of.stops.map(|rows| Stops {
                title: words.say(Phrase::LoadStops),
                heads: [Phrase::LoadStop, Phrase::LoadWell, Phrase::LoadKind, Phrase::LoadPour]
                    .map(|phrase| words.say(phrase)),
                rows,
            }),
            gear_title: words.say(Phrase::LoadGear),
            gear: gear.into_iter().map(|phrase| words.say(phrase)).collect(),
            rules_title: words.say(Phrase::LoadRules),
            rules,
        }
    }
}

/// Everything that a card pours, in SI, as it is measured out.
pub(super) fn poured(need: &Requirement, stock: &Stock) -> f64 {
    let wash = need.wash.map_or(0.0, |wash| in_si(wash.amount, wash.unit, stock));
    let feed = need.feed.map_or(0.0, |feed| match feed.in_all {
        Amount::Liquid { volume, .. } => volume.quantity().value,
        Amount::Dry(mass) => mass.kilograms(),
    });
    in_si(need.measured_amount, need.measured_unit, stock) + wash + feed
}

/// What a card adds once where a strip reads too little, in SI.
pub(super) fn topped_up(need: &Requirement, practice: &Practice, product: &Prepared) -> f64 {
    let more = measured_top_up(need.treated_volume, practice, product);
    more.map_or(0.0, |(amount, unit)| in_si(amount, unit, &product.stock))
}

/// What an amount of product in SI weighs.
fn kilograms(si: f64, stock: &Stock) -> f64 {
    match amount(si, stock) {
        Amount::Liquid { mass, .. } | Amount::Dry(mass) => mass.kilograms(),
    }
}

/// An amount of product in SI as what is measured out.
pub(super) fn amount(si: f64, stock: &Stock) -> Amount {
    match stock {
        Stock::Liquid { density, .. } => {
            let volume: ProductVolume = Of::new(Volume { value: si, ..Volume::default() });
            Amount::Liquid { volume, mass: liquid_weight(volume, *density) }
        }
        Stock::Dry { .. } => Amount::Dry(Of::new(Mass { value: si, ..Mass::default() })),
    }
}

fn figure(name: &'static str, text: String) -> Sentence {
    Sentence(vec![Part::Figure { name, text }])
}

/// A measured amount in SI: of a dry product that is measured by the cup, its weight.
pub(super) fn in_si(amount: f64, symbol: &str, stock: &Stock) -> f64 {
    let Some(unit) = unit::by_symbol(symbol) else { return f64::NAN };
    let si = unit.to_si(amount);
    match (unit.dimension, stock) {
        (Dimension::Volume, Stock::Dry { bulk_density: Some(density), .. }) => si * density.value,
        _ => si,
    }
}

/// Agents in words, each with its amount.
fn weighed_all(agents: &BTreeMap<&'static str, f64>, amounts: &Amounts<'_>) -> Vec<(&'static str, String)> {
    let weighed = |kilograms: f64| amounts.weight(kilograms).unwrap_or_default();
    agents.iter().map(|(agent, kilograms)| (*agent, weighed(*kilograms))).collect()
}
