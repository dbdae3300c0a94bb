//! Flush water that the chosen agent leaves too acid: its pH for cards and sheets, and the visits in words for the orders.

use std::collections::BTreeSet;

use super::Matter;
use crate::caution::Caution;
use crate::engine::raised;
use crate::kernel::constants::ACID_PH;
use crate::kernel::requirement::Requirement;

/// How many visits of a scenario want another agent, and which; nothing where none does.
pub fn text(matter: &Matter<'_>, scenario: usize) -> Option<String> {
    let count = raised(matter.run, scenario, Caution::AcidAfterNeutralizing);
    let needs = matter.run.kept.iter().filter_map(|treated| treated.need(scenario));
    let names: BTreeSet<&str> =
        needs.filter_map(|need| need.neutralizer_instead).map(|agent| agent.plain_name()).collect();
    let names = names.into_iter().collect::<Vec<_>>().join(" or ");
    (count > 0 && !names.is_empty()).then(|| {
        format!(
            "The neutralizer on order leaves the flush water of {count} {} too acidic for a stream: buy {names} for {}, as the \
             load lists and cards say.",
            if count == 1 { "visit" } else { "visits" },
            if count == 1 { "it" } else { "them" },
        )
    })
}

/// The pH that the agent leaves, where that is too acid to let go; rounded down, because a tenth must not hide the line.
pub(super) fn acid_left(need: &Requirement) -> Option<String> {
    let (least, _) = need.ph_neutralized?;
    (least < ACID_PH.value).then(|| format!("{:.1}", (least * 10.0).floor() / 10.0))
}
