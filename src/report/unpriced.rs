//! Packages without a price, which are left out where others of their item have one, in words for whoever signs the order.

use super::Matter;
use crate::rollup::orders::{ItemKind, OrderLine};
use crate::scenario::supply::Package;

/// What is left out because it has no price while other packages of the item have one; nothing where nothing is.
pub fn text(matter: &Matter<'_>) -> Option<String> {
    let campaign = matter.plan.campaign;
    let mut items: Vec<(ItemKind, &str)> = Vec::new();
    let mut left_out = Vec::new();
    for line in &matter.orders.lines {
        if items.contains(&(line.kind, &line.item)) {
            continue;
        }
        items.push((line.kind, &line.item));
        let packages: &[Package] = match line.kind {
            ItemKind::Product => {
                campaign.products.iter().find(|product| product.name == line.item).map_or(&[], |of| &of.packages)
            }
            ItemKind::Neutralizer => {
                campaign.neutralizers.iter().find(|of| of.agent.name() == line.item).map_or(&[], |of| &of.packages)
            }
            ItemKind::Supply => &[],
        };
        if packages.iter().all(|package| package.price.is_none()) {
            continue;
        }
        let same = |other: &&OrderLine| (other.kind, &other.item) == (line.kind, &line.item);
        let is_bought = |kind: usize| {
            let lines = matter.orders.lines.iter().filter(same);
            lines.flat_map(|line| &line.bought).any(|bought| bought.kind == kind)
        };
        let without =
            packages.iter().enumerate().filter(|(kind, package)| package.price.is_none() && !is_bought(*kind));
        let without: Vec<&str> = without.map(|(_, package)| package.text.as_str()).collect();
        if !without.is_empty() {
            left_out.push(format!("{} in {}", line.item_name(), without.join(", ")));
        }
    }
    (!left_out.is_empty()).then(|| {
        format!("Left out, because no price is given for it while another package has one: {}.", left_out.join("; "))
    })
}
