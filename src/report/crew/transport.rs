//! What holds for a product on the road and for what is left over of it: usual cautions; local codes and the label decide.
//!
//! - UN 1748 and UN 2880, class 5.1: 49 CFR 172.101, edition of 2018-10-01; more than 39 % available chlorine.
//! - UN 1791, class 8, and 100 lb of sodium hypochlorite to report: PHMSA interpretation 98-0413 (a solution of 12.5 %).
//! - Small amounts for one's own work: 49 CFR 173.6, containers of 30 L or 30 kg, 200 kg on a vehicle.
//! - UN 2208 of weaker dry products, and 10 lb of calcium hypochlorite to report (40 CFR 302.4): from memory.
//! - Leftovers and containers: common practice, no source; labels say the same.

use super::phrases::Phrase;
use super::words::{Language, Words};
use crate::field::rules::UnitSystem;
use crate::kernel::strength::Chemical;
use crate::scenario::product::Product;
use crate::scenario::supply::BoughtBy;

/// Dry products with more available chlorine than this, in percent, are calcium hypochlorite on the road, weaker ones a mixture:
/// 49 CFR 172.101.
const MIXTURE_UP_TO_PERCENT: f64 = 39.0;

/// Kilograms of such materials on a vehicle, containers and all, up to which small amounts for one's own work are such: 49 CFR 173.6.
const SMALL_AMOUNTS_KG: f64 = 200.0;

/// Liters or kilograms of such materials in one container up to which they are that: 49 CFR 173.6.
pub(super) const MOST_IN_ONE: f64 = 30.0;

/// Whether a truck's product alone is more than the small amounts of one's own work.
pub(super) fn is_over(kilograms: f64) -> bool {
    kilograms > SMALL_AMOUNTS_KG
}

/// What is said of a product, in order.
pub(super) fn phrases(product: &Product) -> [Phrase; 6] {
    let (what, spill) = match product.chemical {
        Chemical::SodiumHypochlorite => (Phrase::LoadRuleLiquid, Phrase::LoadRuleSpillLiquid),
        _ if product.label.number <= MIXTURE_UP_TO_PERCENT => (Phrase::LoadRuleWeak, Phrase::LoadRuleSpillDry),
        Chemical::CalciumHypochlorite | Chemical::ChlorinatedLime => (Phrase::LoadRuleDry, Phrase::LoadRuleSpillDry),
    };
    [what, Phrase::LoadRuleSmall, spill, Phrase::LoadRuleLeft, Phrase::LoadRuleEmpty, Phrase::LoadRuleUsual]
}

/// What holds for the containers that a product goes out in.
pub(super) fn containers(product: &Product, words: &Words, system: UnitSystem) -> String {
    let most = match (product.bought_by(), system) {
        (BoughtBy::Volume, UnitSystem::Us) => "8 US gal",
        (BoughtBy::Volume, _) => "30 L",
        (BoughtBy::Mass, UnitSystem::Metric) => "30 kg",
        (BoughtBy::Mass, _) => "66 lb",
    };
    words.with(Phrase::LoadContainersNote, &[("most", most)])
}

/// What is said of some products, each line once, in English: for whoever orders them.
pub fn on_the_road<'a>(products: impl Iterator<Item = &'a Product>) -> Vec<String> {
    let of_each: Vec<[Phrase; 6]> = products.map(phrases).collect();
    let mut said: Vec<Phrase> = Vec::new();
    // What a product is first, then what holds for all.
    for place in 0..6 {
        for phrase in of_each.iter().map(|phrases| phrases[place]) {
            if !said.contains(&phrase) {
                said.push(phrase);
            }
        }
    }
    let words = Words::of(Language::English);
    said.into_iter().map(|phrase| words.say(phrase)).collect()
}
