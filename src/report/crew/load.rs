//! What is loaded at a depot for its cards: product and agents as the cards measure them out, counted supplies, gear.

use std::collections::BTreeMap;

use super::amounts::Amounts;
use super::job::{Job, text};
use super::phrases::Phrase;
use super::words::{Terms, Words};
use crate::document::card::{Load, LoadLine, Part, Sentence};
use crate::field::rules::UnitSystem;
use crate::kernel::dose::liquid_weight;
use crate::kernel::requirement::{Amount, Stock};
use crate::quantity::format::number;
use crate::quantity::unit::{self, Dimension};
use crate::quantity::{Mass, Of, ProductVolume, Volume};
use crate::scenario::product::Product;
use crate::scenario::supply::SupplyLine;

/// What the cards of a depot take, summed.
#[derive(Debug, Default)]
pub(super) struct Loaded {
    /// Product in SI: cubic meters of a liquid, kilograms of a dry one.
    product: f64,
    /// Kilograms of each agent.
    agents: BTreeMap<&'static str, f64>,
    /// Visits with amounts.
    visits: usize,
}

impl Loaded {
    /// One more visit.
    pub(super) fn add(&mut self, job: &Job<'_>) {
        self.visits += 1;
        let need = job.need;
        let stock = &job.stock.prepared.stock;
        self.product += in_si(need.measured_amount, need.measured_unit, stock);
        if let Some(wash) = need.wash {
            self.product += in_si(wash.amount, wash.unit, stock);
        }
        self.product += need.feed.map_or(0.0, |feed| match feed.in_all {
            Amount::Liquid { volume, .. } => volume.quantity().value,
            Amount::Dry(mass) => mass.kilograms(),
        });
        if let Some((agent, _, kilograms)) = job.agent() {
            *self.agents.entry(agent.name()).or_default() += kilograms;
        }
    }

    /// The list of a depot.
    pub(super) fn list(
        &self,
        depot: &str,
        held_back: usize,
        (product, stock): (&Product, &Stock),
        supplies: &[SupplyLine],
        (words, system): (&Words, UnitSystem),
    ) -> Load {
        let amounts = Amounts { words, system };
        let mut lines = Vec::new();
        if let Some(said) = amounts.product(self.amount(stock), stock).filter(|_| self.product > 0.0) {
            lines.push(LoadLine {
                item: words.sentence(Phrase::LoadProduct, vec![("product", text(product.name.clone()))]),
                amount: figure("load_product", said),
                note: Some(words.say(Phrase::LoadProductNote)),
            });
        }
        for (agent, kilograms) in &self.agents {
            let name = words.term(Terms::Agent, agent);
            lines.push(LoadLine {
                item: words.sentence(Phrase::LoadAgent, vec![("agent", text(name))]),
                amount: figure("load_agent", amounts.weight(*kilograms).unwrap_or_default()),
                note: None,
            });
        }
        for supply in supplies {
            let count = (supply.per_visit * self.visits as f64 - 1e-9).ceil();
            lines.push(LoadLine {
                item: words.sentence(Phrase::LoadSupply, vec![("item", text(supply.name.clone()))]),
                amount: figure("load_supply", number(count, 9)),
                note: None,
            });
        }
        let gear = [
            Phrase::LoadGearMeasure,
            Phrase::LoadGearHose,
            Phrase::LoadGearPower,
            Phrase::LoadGearSafety,
            Phrase::LoadGearStrips,
            Phrase::LoadGearLow,
            Phrase::LoadGearDug,
            Phrase::LoadGearSpring,
            Phrase::LoadGearPaper,
            Phrase::LoadGearSorbent,
        ];
        Load {
            title: words.with(Phrase::LoadTitle, &[("depot", depot)]),
            visits: words
                .with(Phrase::LoadVisits, &[("visits", &self.visits.to_string()), ("held", &held_back.to_string())]),
            heads: [Phrase::LoadItem, Phrase::LoadAmount, Phrase::LoadLoaded].map(|phrase| words.say(phrase)),
            lines,
            gear_title: words.say(Phrase::LoadGear),
            gear: gear.map(|phrase| words.say(phrase)).to_vec(),
        }
    }

    fn amount(&self, stock: &Stock) -> Amount {
        match stock {
            Stock::Liquid { density, .. } => {
                let volume: ProductVolume = Of::new(Volume { value: self.product, ..Volume::default() });
                Amount::Liquid { volume, mass: liquid_weight(volume, *density) }
            }
            Stock::Dry { .. } => Amount::Dry(Of::new(Mass { value: self.product, ..Mass::default() })),
        }
    }
}

fn figure(name: &'static str, text: String) -> Sentence {
    Sentence(vec![Part::Figure { name, text }])
}

/// A measured amount in SI: of a dry product that is measured by the cup, its weight.
fn in_si(amount: f64, symbol: &str, stock: &Stock) -> f64 {
    let Some(unit) = unit::by_symbol(symbol) else { return f64::NAN };
    let si = unit.to_si(amount);
    match (unit.dimension, stock) {
        (Dimension::Volume, Stock::Dry { bulk_density: Some(density), .. }) => si * density.value,
        _ => si,
    }
}
