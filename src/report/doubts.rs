//! What makes a whole scenario doubtful: a stock that is spent. Said where the amounts are said, not among the cautions.

use super::Matter;
use crate::kernel::constants::{STOCK_NEARLY_GONE, STOCK_SPENT};
use crate::quantity::format::number;

/// One sentence for each scenario whose product is spent, worst word first.
pub fn stock_doubts(matter: &Matter<'_>) -> Vec<String> {
    let doubt = |case: &crate::engine::Case<'_>| {
        let prepared = &case.stock.prepared;
        let name = &case.scenario.name;
        if prepared.share_left < STOCK_NEARLY_GONE.value {
            return Some(format!(
                "DO NOT TREAT by the figures of {name:?}: by its age only {} % of the product's strength is left. Test it, or buy \
                 fresh.",
                number(prepared.share_left * 100.0, 2)
            ));
        }
        let share = prepared.stock.share_of_label();
        (share < STOCK_SPENT.value).then(|| {
            format!(
                "Spent: the product of {name:?} has {} % of the strength on its label. Have it tested, or buy fresh.",
                number(share * 100.0, 2)
            )
        })
    };
    matter.plan.cases.iter().filter_map(doubt).collect()
}
