//! What an order is alerted of: a need that is not covered, cards that measure out more than is bought and there, and a count of
//! packages that another would cost less than. One order of words for lines, sums and what stands above the signature.

use super::super::crew::Measured;
use super::model::{Alert, Model};
use crate::document::formula::Pieces;
use crate::rollup::orders::OrderLine;

/// What an alert says, the gravest first.
pub(super) const NOT_COVERED: &str = "NOT COVERED";
pub(super) const CARDS: &str = "CARDS: MORE";
pub(super) const CHEAPER: &str = "CHEAPER NOW";

/// Names of the columns of Needs that hold them.
pub(super) const SHORT: &str = "Needs_short";
pub(super) const CARDS_SHORT: &str = "Needs_cards_short";
pub(super) const IS_CHEAPER: &str = "Needs_cheaper";

/// How many needs of some lines are alerted of each.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Open {
    pub(super) short: usize,
    pub(super) cards: usize,
    pub(super) cheaper: usize,
}

impl Open {
    /// Of lines of the plan, with their places.
    pub(super) fn of<'l>(model: &Model<'_>, lines: impl Iterator<Item = (usize, &'l OrderLine)>) -> Self {
        let mut open = Self::default();
        for (at, line) in lines {
            let alert = model.alerts.get(at).copied().unwrap_or_default();
            open.short += usize::from(line.is_not_covered());
            open.cards += usize::from(alert.cards_short > 0.0);
            open.cheaper += usize::from(alert.is_cheaper);
        }
        open
    }

    /// The gravest of them in a word; empty where there is none.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self { short: 1.., .. } => NOT_COVERED,
            Self { cards: 1.., .. } => CARDS,
            Self { cheaper: 1.., .. } => CHEAPER,
            _ => "",
        }
    }

    /// What stands above the signature.
    pub(super) fn sentence(self) -> String {
        let said = |[before, behind]: [&str; 2], count: usize| format!("{before}{count}{behind}");
        match self {
            Self { short: count @ 1.., .. } => said(SENTENCES[0], count),
            Self { cards: count @ 1.., .. } => said(SENTENCES[1], count),
            Self { cheaper: count @ 1.., .. } => said(SENTENCES[2], count),
            _ => String::new(),
        }
    }
}

/// What is said above the signature, before and behind the count of needs.
const SENTENCES: [[&str; 2]; 3] = [
    [
        "THIS TOTAL DOES NOT COVER THE NEED. Needs that are not covered: ",
        " (column Alert). Change counts on Packages, or plan this workbook again, before anyone signs.",
    ],
    [
        "THE CARDS TAKE MORE THAN IS BOUGHT AND THERE, because they round each amount up. Needs that this concerns: ",
        " (column Alert). Add a package on Packages, or state a handling loss, or a higher one, and plan again, before anyone signs.",
    ],
    [
        "ANOTHER COUNT OF PACKAGES COSTS LESS NOW. Needs that this concerns: ",
        " (column Alert). Counts stay those of the plan: empty them on Packages, and plan this workbook again.",
    ],
];

/// A formula that gives the first of three words whose condition holds, else what follows.
pub(super) fn first_of(conditions: [Pieces; 3], words: [Pieces; 3], otherwise: Pieces) -> Pieces {
    let all: Vec<(Pieces, Pieces)> = conditions.into_iter().zip(words).collect();
    all.into_iter().rev().fold(otherwise, |rest, (when, then)| Pieces::call("IF", [when, then, rest]))
}

/// The three words, quoted.
pub(super) fn words() -> [Pieces; 3] {
    [NOT_COVERED, CARDS, CHEAPER].map(Pieces::quoted)
}

/// The sentence above the signature as a formula, for the scenario that is picked.
pub(super) fn sentence() -> Pieces {
    let count = |name: &str| Pieces::text(format!("COUNTIFS({name},\">0\",Needs_scenario,Picked)"));
    let names = [SHORT, CARDS_SHORT, IS_CHEAPER];
    let said = |at: usize| {
        let [before, behind] = SENTENCES[at].map(Pieces::quoted);
        before.then("&").and(count(names[at])).then("&").and(behind)
    };
    first_of(names.map(|name| count(name).then(">0")), [said(0), said(1), said(2)], Pieces::quoted(""))
}

/// How many needs of the scenario with a number are not covered, or take more by the cards.
pub(super) fn uncovered(scenario: Pieces) -> Pieces {
    Pieces::text("SUMPRODUCT((Needs_scenario=").and(scenario).then(format!(")*(({SHORT}>0)+({CARDS_SHORT}>0)))"))
}

/// What the cards measure out of each line of the orders.
pub(super) fn of_cards(model: &Model<'_>) -> Vec<Alert> {
    let matter = model.matter;
    let measured: Vec<Option<Measured>> = (0..matter.plan.cases.len()).map(|at| Measured::of(matter, at)).collect();
    let alert = |line: &OrderLine| match measured.get(line.scenario).and_then(Option::as_ref) {
        Some(measured) => Alert { times: measured.times(line), cards_short: measured.short(line), is_cheaper: false },
        None => Alert { times: 1.0, ..Alert::default() },
    };
    matter.orders.lines.iter().map(alert).collect()
}
