//! What buying depot by depot costs where a package shared by several would be cheaper, in words for whoever signs the order.

use super::Matter;
use super::show::Shown;
use crate::document::figure;
use crate::quantity::format::number;
use crate::rollup::orders::RoundingCost;

/// One sentence for each item and scenario that would cost less, or of a product without a price be less, bought once for all depots.
pub fn texts(matter: &Matter<'_>) -> Vec<String> {
    let is_product = |name: &str| matter.plan.campaign.products.iter().any(|product| product.name == name);
    let less = |rounding: &&RoundingCost| match rounding.cost {
        Some(cost) => cost >= 0.005,
        None => is_product(&rounding.item) && rounding.per_depot > rounding.once * (1.0 + 1e-9),
    };
    matter.orders.rounding.iter().filter(less).map(|rounding| text(matter, rounding)).collect()
}

fn text(matter: &Matter<'_>, rounding: &RoundingCost) -> String {
    let campaign = matter.plan.campaign;
    let shown = Shown::of(rounding.unit, campaign.system);
    let said = |value: f64| format!("{} {}", number(shown.value(value), 3), shown.symbol);
    let under = match matter.plan.cases.get(rounding.scenario) {
        Some(case) if matter.plan.cases.len() > 1 => format!("Under \"{}\": ", case.scenario.name),
        _ => String::new(),
    };
    let less = match rounding.cost {
        Some(cost) => format!("{} {} less", figure::number(cost, 2), campaign.currency),
        None => format!("{} less", said(rounding.per_depot - rounding.once)),
    };
    format!(
        "{under}each depot buys its own whole packages of {}: {} in all, {} more than they need to buy. One order shared by all of them, {}, \
         would be {less}, where somebody can hand it out{}.",
        rounding.name,
        said(rounding.per_depot),
        said(rounding.per_depot - rounding.gap),
        rounding.packages,
        if rounding.unit == "pieces" { "" } else { " in closed, labeled containers" }
    )
}
