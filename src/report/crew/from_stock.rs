//! What the cards of a depot are counted for: what the scenario pours, older stock that lies there, or either.
//!
//! Where the stock of a depot covers all that its first round needs, nothing else is there to be poured, and its cards are computed
//! for it. Where both are there, the cards say the amount of each.

use super::phrases::Phrase;
use super::strength;
use super::words::{Language, Words};
use crate::engine::Case;
use crate::field::names::is_same;
use crate::field::rules::UnitSystem;
use crate::kernel::requirement::{Practice, Requirement};
use crate::report::Matter;
use crate::report::field_words::{feed, measure, wash};
use crate::rollup::orders::{OrderLine, Orders};
use crate::scenario::depot_stock::OwnStock;
use crate::scenario::product::Product;
use crate::scenario::stock::StockOnTheDay;
use crate::visit::{Need, TreatedVisit};
use crate::well::Well;

/// What is poured at the wells of a depot.
#[derive(Debug, Clone, Default)]
pub(in crate::report) enum Pours<'a> {
    /// What the scenario pours.
    #[default]
    Product,
    /// Stock of the depot alone: it covers all.
    Stock(&'a OwnStock<'a>),
    /// What the scenario pours, or any of these.
    Either(Vec<&'a OwnStock<'a>>),
}

/// What a well needs of some stock in place of what the scenario pours.
#[derive(Debug, Clone)]
pub struct InPlace<'a> {
    /// The stock on the day of use.
    pub(super) stock: &'a StockOnTheDay,
    /// What the well needs of it.
    pub(super) need: Need,
}

impl<'a> Pours<'a> {
    /// What is poured at a depot's wells under the first scenario.
    pub(in crate::report) fn at(depot: &str, case: &'a Case<'a>, product: &Product, orders: &Orders) -> Self {
        let here = case.own_stock.iter().filter(|own| is_same(&own.line.depot, depot) && own.line.on_hand > 0.0);
        let here: Vec<&OwnStock<'_>> = here.collect();
        if here.is_empty() {
            return Self::Product;
        }
        match (&here[..], orders.poured_at(depot, &product.name)) {
            ([only], Some(line)) if line.bought.is_empty() && line.gap <= 0.0 && line.on_order <= 0.0 => {
                // Other stock of the depot, which counts as it is, would be poured as well.
                if line.on_hand > only.line.on_hand { Self::Either(here) } else { Self::Stock(only) }
            }
            _ => Self::Either(here),
        }
    }

    /// The product on the day of use that the cards are counted for, `poured` being what the scenario pours.
    pub(in crate::report) fn stock(&self, poured: &'a StockOnTheDay) -> &'a StockOnTheDay {
        match self {
            Self::Stock(own) => &own.today,
            Self::Product | Self::Either(_) => poured,
        }
    }

    /// What is there for a depot's wells beside what an order buys, in liters or kilograms of what is poured; older stock beside new
    /// product is shared out well by well, and not counted here.
    pub(super) fn loose(&self, line: &OrderLine) -> f64 {
        match self {
            Self::Stock(_) => line.on_hand,
            Self::Product => line.on_hand_counts + line.on_order,
            Self::Either(own) => {
                let older: f64 = own.iter().map(|own| own.line.on_hand * own.counts).sum();
                (line.on_hand_counts - older).max(0.0) + line.on_order
            }
        }
    }

    /// What a well needs of the stock that all its depot's cards are counted for; nothing where that is what the scenario pours.
    pub(in crate::report) fn need(&self, well: &Well, practice: &Practice) -> Option<Need> {
        match self {
            Self::Stock(own) => Need::of(well, practice, own.today.readings()),
            Self::Product | Self::Either(_) => None,
        }
    }

    /// A mark behind a sum of cards where older stock is poured: which stock it is of.
    pub(in crate::report) const fn marked(&self) -> &'static str {
        match self {
            Self::Product => "",
            Self::Stock(_) => " of the older stock",
            Self::Either(_) => " of new product",
        }
    }

    /// The ages of the stock that may be poured in place.
    pub(super) fn ages(&self, words: &Words) -> Vec<String> {
        match self {
            Self::Either(own) => own.iter().map(|own| strength::age_and_strength(&own.today, words)).collect(),
            Self::Product | Self::Stock(_) => Vec::new(),
        }
    }

    /// What a well needs of each stock that may be poured in place of what its card is counted for.
    pub(super) fn in_place(&self, well: &Well, practice: &Practice) -> Vec<InPlace<'a>> {
        let Self::Either(own) = self else { return Vec::new() };
        let of = |own: &&'a OwnStock<'a>| {
            Some(InPlace { stock: &own.today, need: Need::of(well, practice, own.today.readings())? })
        };
        own.iter().filter_map(of).collect()
    }
}

/// What is said on the cover of depots that pour older stock.
pub(super) fn about(case: &Case<'_>, product: &Product, orders: &Orders, words: &Words) -> Vec<String> {
    let of = |own: &OwnStock<'_>| {
        let depot = own.line.depot.as_str();
        let phrase = match Pours::at(depot, case, product, orders) {
            Pours::Product => return None,
            Pours::Stock(_) => Phrase::FileFromStock,
            Pours::Either(_) => Phrase::FileEither,
        };
        let said = strength::said(Phrase::CardStrength, product, &own.today, true, words);
        Some(words.with(phrase, &[("depot", depot), ("strength", &said)]))
    };
    case.own_stock.iter().filter_map(of).collect()
}

/// What the Crew sheet says in place of the amounts of what the scenario pours.
pub(in crate::report) struct InWords {
    pub(in crate::report) measure: String,
    pub(in crate::report) brush: String,
    pub(in crate::report) feed: String,
    /// What the visit needs of that stock, where nothing else is poured there.
    pub(in crate::report) need: Option<Need>,
}

/// What is measured out at a visit of a depot that pours older stock, under the first scenario: of that alone, or of either.
pub(in crate::report) fn of_older_stock(matter: &Matter<'_>, treated: &TreatedVisit) -> Option<InWords> {
    let case = matter.plan.cases.first()?;
    let (well, need) = (treated.visit.well()?, treated.need(0)?);
    let campaign = matter.plan.campaign;
    let pours = Pours::at(treated.visit.depot(), case, &campaign.products[case.scenario.product], matter.orders);
    if matches!(pours, Pours::Product) {
        return None;
    }
    let (practice, _) = matter.plan.practice_for(case, well).ok()?;
    let words = Words::of(Language::English);
    let said = |says: fn(&Requirement, UnitSystem) -> String| -> String {
        let of_stock = |need: &Requirement, stock: &StockOnTheDay| {
            let said = says(need, campaign.system);
            if said.is_empty() { said } else { format!("{said} of the stock at {}", strength::counted(stock, words)) }
        };
        match &pours {
            Pours::Stock(own) => {
                pours.need(well, &practice).map_or_else(String::new, |need| of_stock(&need, &own.today))
            }
            Pours::Product | Pours::Either(_) => {
                let others = pours.in_place(well, &practice);
                let others = others.iter().map(|other| of_stock(&other.need, other.stock));
                let all = std::iter::once(says(need, campaign.system)).chain(others);
                all.filter(|said| !said.is_empty()).collect::<Vec<_>>().join(", OR ")
            }
        }
    };
    let own = match &pours {
        Pours::Stock(_) => pours.need(well, &practice),
        Pours::Product | Pours::Either(_) => None,
    };
    Some(InWords { measure: said(|need, _| measure(need)), brush: said(wash), feed: said(feed), need: own })
}
