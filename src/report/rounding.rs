//! What buying depot by depot costs where a package shared by several would be cheaper, in words for whoever signs the order.

use super::Matter;
use super::show::Shown;
use crate::document::figure;
use crate::quantity::format::number;
use crate::rollup::orders::RoundingCost;

/// The items of a scenario that would cost less, or of a product without a price be less, bought once for all depots; nothing where
/// none would.
pub fn text(matter: &Matter<'_>, scenario: usize) -> Option<String> {
    let campaign = matter.plan.campaign;
    let is_product = |name: &str| campaign.products.iter().any(|product| product.name == name);
    let is_less = |rounding: &&RoundingCost| match rounding.cost {
        Some(cost) => cost >= 0.005,
        None => is_product(&rounding.item) && rounding.per_depot > rounding.once * (1.0 + 1e-9),
    };
    let own = matter.orders.rounding.iter().filter(|rounding| rounding.scenario == scenario);
    let less: Vec<&RoundingCost> = own.filter(is_less).collect();
    let said: Vec<String> = less.iter().map(|rounding| of_item(matter, rounding)).collect();
    let containers =
        if less.iter().any(|rounding| rounding.unit != "pieces") { " in closed, labeled containers" } else { "" };
    (!said.is_empty()).then(|| {
        format!(
            "Each depot buys its own whole packages. One order shared by all, where somebody can hand it out{containers}, takes \
             less: {}.",
            said.join("; ")
        )
    })
}

fn of_item(matter: &Matter<'_>, rounding: &RoundingCost) -> String {
    let campaign = matter.plan.campaign;
    let shown = Shown::of(rounding.unit, campaign.system);
    let said = |value: f64| format!("{} {}", number(shown.value(value), 3), shown.symbol);
    let cost =
        rounding.cost.map_or(String::new(), |cost| format!("{} {} and ", figure::number(cost, 2), campaign.currency));
    format!("{}: {cost}{} less ({})", rounding.name, said(rounding.per_depot - rounding.once), rounding.packages)
}
