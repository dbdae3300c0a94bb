//! Levels of a list that writes those below the ground with a minus sign.

use super::Draft;
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::cell::Datum;
use crate::inventory::lexicon;

impl Draft {
    /// Turns a level of such a column around: a minus is below, a plus above, and a number without a sign is asked.
    pub(super) fn turn_signs(&mut self) {
        const LEVEL: Field = Field::StaticWaterLevel;
        let minus_is_below = |draft: &Self| {
            draft.table.plan.feeds[LEVEL as usize]
                .as_ref()
                .is_some_and(|feed| feed.level.minus_is_below && !feed.barred)
        };
        let (Some(level), true) = (self.number(LEVEL), minus_is_below(self)) else { return };
        let text = self.cell_of(LEVEL).trim_start_matches(['(', ' ']);
        let words = text.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()).count();
        if text.starts_with(['-', '\u{2212}', '\u{2013}']) && level < 0.0 {
            self.set(LEVEL, Datum::Number(-level));
            for (field, low, high) in &mut self.spreads {
                if *field == LEVEL {
                    (*low, *high) = (-*high, -*low);
                }
            }
        } else if level > 0.0 && (text.starts_with('+') || flows(self.cell_of(Field::Notes))) {
            self.set(LEVEL, Datum::Number(-level));
        } else if level > 0.0 && words <= 1 && !text.starts_with('+') && self.form(LEVEL).is_none() {
            let says =
                "in this column a level below the ground has a minus sign; without one the water would stand above";
            let help = "write it with a minus if it is below the ground, or \"flows\" if the well runs over";
            self.say(catalogue::TWO_READINGS, LEVEL, says, help);
            self.refuse(LEVEL);
        }
    }
}

/// Whether a remark says that the well flows: `flows`, `artesian, capped`; not `does not flow`, `flow test 12 gpm`.
fn flows(remark: &str) -> bool {
    const FLOWS: [&str; 10] = [
        "flows",
        "flowing",
        "overflows",
        "artesian",
        "surgente",
        "jaillissant",
        "artesien",
        "rebosa",
        "jorra",
        "repuxa",
    ];
    const DENIES: [&str; 16] = [
        "not", "no", "never", "doesn't", "doesn", "stopped", "used", "quit", "formerly", "once", "sin", "nunca", "pas",
        "jamais", "nao", "was",
    ];
    let words = lexicon::tokens(remark);
    words.iter().any(|word| FLOWS.contains(&word.as_str())) && !words.iter().any(|word| DENIES.contains(&word.as_str()))
}
