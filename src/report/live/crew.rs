//! How the Crew sheet follows the scenario that is picked, and the inputs: each row finds its row on Wells by its number, takes
//! figures from there, and says amounts in the words that stand there while they are still those of the plan.

use super::model::{indexed, named};
use crate::document::formula::{Copied, Formula, Pieces};

/// Rows of Wells up to which the Crew sheet follows; with more it holds values of the first scenario, so that the largest workbooks
/// open as fast: under five scenarios its formulas and words are a tenth of a workbook.
pub(super) const MOST_ROWS: u64 = 6_000;

/// Digits of an amount that no longer has words of the plan: their name and number.
pub(super) const DIGITS: (&str, f64) = ("Digits_in_words", 3.0);

/// What stands where something rests on more than the figures of a row.
pub(in crate::report) const CHANGED: &str = "inputs changed: plan again";

/// How a column follows.
#[derive(Debug, Clone, Copy)]
pub(in crate::report) enum Now {
    /// Not at all: it is the same in every scenario.
    Stays,
    /// A figure of Wells.
    Figure(&'static str),
    /// The same, said where there is none.
    FigureOr(&'static str, &'static str),
    /// A word of Wells.
    Word(&'static str),
    /// Words of the plan, which nothing stands for once inputs are changed.
    Said(&'static str),
    /// The amount to measure out.
    Measure,
    /// The water that it is diluted in.
    Dilution,
    /// Contact time of the practice, in hours.
    Hold,
    /// Neutralizing agent and amount.
    Neutralizer,
}

/// What formulas of the Crew sheet need to know.
#[derive(Debug, Clone, Copy)]
pub(in crate::report) struct Crew {
    /// The unit of volumes.
    pub volume: &'static str,
    /// The unit of masses.
    pub mass: &'static str,
}

/// The sum of the figures that the words of a row rest on, as they are now: a change of any of them shows in it.
fn figures(row: u16) -> Pieces {
    let here = || Pieces::here(row);
    let number = |name: &str| Pieces::call("N", [indexed(name, here())]);
    let hold = indexed(&named("Contact time"), indexed("Wells_practice", here()));
    ["Wells_chlorine", "Wells_predilution", "Wells_neutralizer_kg"]
        .into_iter()
        .fold(number("Wells_measured"), |sum, name| sum.then("+").and(number(name)))
        .then("+")
        .and(hold)
}

impl Crew {
    /// The number of a visit's row on Wells under the scenario that is picked; `before` holds the rows before those of the visit.
    pub fn row(before: u16) -> Copied {
        let number = Pieces::here(before).then("+Picked");
        Pieces::call("MATCH", [number, Pieces::text("Wells_row"), Pieces::text("0")]).copied()
    }

    /// 1 where the figures of a row are no longer those of the plan, else 0.
    pub fn changed(row: u16) -> Copied {
        let planned = indexed("Wells_as_planned", Pieces::here(row));
        let apart = Pieces::text("ABS(").and(figures(row)).then("-").and(planned.clone());
        let most = apart.then(format!(")<={}*MAX(1,", super::formula::SLACK)).and(planned).then(")");
        Pieces::call("IF", [most, Pieces::text("0"), Pieces::text("1")]).copied()
    }

    /// Words of the plan's first scenario, which nothing stands for under another or once inputs are changed.
    pub fn of_first(said: &str, changed: u16) -> Formula {
        let same = Pieces::call("AND", [Pieces::text("Picked=1"), Pieces::here(changed).then("=0")]);
        Pieces::call("IF", [same, Pieces::quoted(said), Pieces::quoted(CHANGED)]).saying(said)
    }

    /// The formula of a column, given where the number of the row on Wells and the mark of a change stand.
    pub fn made(self, now: Now, row: u16, changed: u16) -> Option<Copied> {
        let of = |name: &str| indexed(name, Pieces::here(row));
        let known = |name: &str| Pieces::call("ISNUMBER", [of(name)]);
        let unless = |name: &str, otherwise: Pieces| {
            Pieces::call("IF", [Pieces::here(changed).then("=0"), of(name).then("&\"\""), otherwise])
        };
        let digits = DIGITS.0;
        let pieces = match now {
            Now::Stays => return None,
            Now::Figure(name) => Pieces::call("IF", [known(name), of(name), Pieces::quoted("")]),
            Now::FigureOr(name, otherwise) => Pieces::call("IF", [known(name), of(name), Pieces::quoted(otherwise)]),
            Now::Word(name) => of(name).then("&\"\""),
            Now::Said(name) => unless(name, Pieces::quoted(CHANGED)),
            Now::Measure => {
                let amount = Pieces::call("ROUND", [of("Wells_measured"), Pieces::text(digits)]);
                unless("Said_measure", amount.then("&\" \"&").and(of("Wells_measure_unit")))
            }
            Now::Dilution => {
                let water = Pieces::call("ROUNDUP", [of("Wells_predilution"), Pieces::text(digits)]);
                let none = Pieces::call("N", [of("Wells_predilution")]).then("=0");
                let said = water.then("&").and(Pieces::quoted(&format!(" {}", self.volume)));
                unless("Said_dilution", Pieces::call("IF", [none, Pieces::quoted("not diluted"), said]))
            }
            Now::Hold => {
                let hours = indexed(&named("Contact time"), of("Wells_practice"));
                unless("Said_hold", Pieces::call("ROUND", [hours, Pieces::text(digits)]).then("&\"\""))
            }
            Now::Neutralizer => {
                let agent =
                    Pieces::call("SUBSTITUTE", [of("Wells_agent_name"), Pieces::quoted("_"), Pieces::quoted(" ")]);
                let mass = Pieces::call("ROUNDUP", [of("Wells_neutralizer_kg"), Pieces::text(digits)]);
                let said = mass.then("&").and(Pieces::quoted(&format!(" {} of ", self.mass))).then("&").and(agent);
                let none = Pieces::call("N", [of("Wells_neutralizer_kg")]).then("=0");
                unless("Said_neutralizer", Pieces::call("IF", [none, Pieces::quoted("none"), said]))
            }
        };
        Some(pieces.copied())
    }
}
