//! What the rules of a scenario file change for the typed well, and what is said of them.

use super::Said;
use crate::engine::Alone;
use crate::scenario::Campaign;

/// Says which rules hold, why the well is left out where it is, and which rules nobody could ask.
pub(super) fn said(campaign: &Campaign, alone: &Alone, said: &mut Said) {
    if let Some(reason) = &alone.left_out {
        said.doubts.push(format!(
            "left out by a rule of the scenario file ({reason}): what stands here is what it would need otherwise"
        ));
    }
    for (at, rule) in campaign.overrides.iter().enumerate() {
        let condition = &rule.condition;
        if alone.not_asked.contains(&at) {
            said.notes
                .push(format!("the rule for wells where {condition} names a column of lists: it is not applied here"));
        } else if alone.mask >> at & 1 == 1 && !rule.settings.is_empty() {
            let labels: Vec<&str> = rule.settings.iter().map(|setting| setting.label.as_str()).collect();
            said.notes.push(format!("by the rule for wells where {condition}: {}", labels.join(", ")));
        }
    }
}
