//! Whether a row that is said to be given up tells of people or dangers all the same.

use super::super::phrases::tokens;
use super::Draft;
use crate::hazard::{self, Hazard};

impl Draft {
    /// Whether the row says something that is said of a well in use: who drinks from it, or what a crew must mind there. What
    /// goes with a well that is given up, that it is broken, open, locked or lost, stands in a pit
    /// or has no power, is no such thing.
    pub(super) fn points_to_use(&self) -> bool {
        // A latrine beside it is a fact of the place, in use or not.
        const OF_RUINS: [Hazard; 10] = [
            Hazard::Sewage,
            Hazard::Damaged,
            Hazard::Uncovered,
            Hazard::Pit,
            Hazard::CannotPump,
            Hazard::NotFound,
            Hazard::RoadClosed,
            Hazard::Locked,
            Hazard::Flowing,
            Hazard::UnderWater,
        ];
        let tells = |text: &str| hazard::find(text).iter().any(|hit| !OF_RUINS.contains(&hit.hazard));
        let columns = self.table.plan.columns.len().min(self.rows.width(self.row));
        (0..columns).map(|column| (column, self.cell(column))).any(|(column, text)| {
            tells(text)
                || hazard::is_yes(text) && tells(&self.table.plan.columns[column].heading)
                || tokens(text).windows(2).any(|pair| {
                    pair[0].word == "still"
                        && ["use", "uses", "used", "using", "drink", "drinks", "in"].contains(&pair[1].word.as_str())
                })
        })
    }
}
