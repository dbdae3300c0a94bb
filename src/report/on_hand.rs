//! Stock of depots that is older or weaker than what the scenario pours, and what it counts as, in words for whoever signs the order.

use super::Matter;
use super::show::Shown;
use crate::engine::Case;
use crate::kernel::constants::STOCK_NEARLY_GONE;
use crate::kernel::requirement::Stock;
use crate::quantity::basis::days;
use crate::quantity::format::number;
use crate::scenario::depot_stock::{OwnStock, StockLine};

/// One sentence for each line of stock with a strength of its own; then one about stock without an age.
pub fn texts(matter: &Matter<'_>) -> Vec<String> {
    let campaign = matter.plan.campaign;
    let cases = &matter.plan.cases;
    let mut texts: Vec<String> = Vec::new();
    for line in &campaign.stock {
        let under = cases.iter().filter_map(|case| Some((case, of_line(case, line)?)));
        let told: Vec<(&Case<'_>, &OwnStock<'_>)> = under.collect();
        let Some((_, first)) = told.first() else { continue };
        let counts = |own: &OwnStock<'_>| amount(matter, own, line.on_hand * own.counts);
        let as_first = told.iter().all(|(_, own)| counts(own) == counts(first));
        let counted = match as_first {
            true => counts(first),
            false => {
                let each = |(case, own): &(&Case<'_>, &OwnStock<'_>)| {
                    format!("{} under \"{}\"", counts(own), case.scenario.name)
                };
                told.iter().map(each).collect::<Vec<_>>().join(", ")
            }
        };
        let gone = if first.today.prepared.share_left < STOCK_NEARLY_GONE.value {
            " Most of its strength is gone: have it tested before anybody pours it."
        } else {
            ""
        };
        texts.push(format!(
            "Stock at {}: {} of {}, {}. By the chlorine that is left in it, it counts as {counted} of what is poured; the cards of \
             this depot say how much of it to pour.{gone}",
            line.depot,
            amount(matter, first, line.on_hand),
            line.item,
            age(first),
        ));
    }
    let pours = |name: &str| cases.iter().any(|case| campaign.products[case.scenario.product].name == name);
    let ageless = campaign.stock.iter().filter(|line| line.on_hand > 0.0 && !line.has_own_strength());
    let mut ageless: Vec<&str> = ageless.filter(|line| pours(&line.item)).map(|line| line.depot.as_str()).collect();
    ageless.sort_unstable();
    ageless.dedup();
    if !ageless.is_empty() {
        texts.push(format!(
            "No age is stated for the stock of product at {}: it counts as strong as what the scenario pours. If it is older, state its \
             age and where it was kept.",
            ageless.join(", ")
        ));
    }
    texts
}

fn of_line<'c>(case: &'c Case<'_>, line: &StockLine) -> Option<&'c OwnStock<'c>> {
    OwnStock::of(&case.own_stock, line).filter(|_| line.on_hand > 0.0)
}

fn amount(matter: &Matter<'_>, own: &OwnStock<'_>, value: f64) -> String {
    let unit = if matches!(own.today.prepared.stock, Stock::Liquid { .. }) { "L" } else { "kg" };
    let shown = Shown::of(unit, matter.plan.campaign.system);
    format!("{} {}", number(shown.value(value), 3), shown.symbol)
}

/// `60 days old, kept as the scenario says: 101 g/L today, 81 % of its label`.
fn age(own: &OwnStock<'_>) -> String {
    let old = number(days(own.today.age), 3);
    let mut said = if own.today.from_test && own.today.age.value <= 0.0 {
        "its strength tested".to_owned()
    } else if own.today.from_test {
        format!("{old} days since its strength was tested")
    } else {
        format!("{old} days old")
    };
    if own.line.storage.is_none() && own.today.age.value > 0.0 {
        said += " (no temperature of its own is stated: kept as the scenario or the product says)";
    }
    let strength = match own.today.prepared.stock {
        Stock::Liquid { used, .. } => format!("{} g/L", number(used.grams_per_liter(), 3)),
        Stock::Dry { used, .. } => format!("{} % available chlorine", number(used.ratio() * 100.0, 3)),
    };
    let left = number(own.today.prepared.stock.share_of_label() * 100.0, 2);
    format!("{said}: {strength} today, {left} % of its label")
}
