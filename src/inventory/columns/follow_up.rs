//! Questions of a survey that follow on the answer to another: `Was the pump off?`, `If other, how wide?`

use crate::inventory::lexicon;

/// Words that begin a condition.
pub(super) const IF: [&str; 4] = ["if", "si", "se", "when"];

/// Words for an answer that is none of those offered.
const OTHER: [&str; 8] = ["other", "others", "otro", "otra", "autre", "autres", "outro", "outra"];

/// Words that ask for more of it.
const TELL: [&str; 8] =
    ["specify", "describe", "explain", "which", "especifique", "preciser", "precisez", "especificar"];

/// Whether a cell says that the answer is none of those offered.
pub fn is_other(cell: &str) -> bool {
    let words = lexicon::tokens(cell);
    words.len() <= 2 && words.first().is_some_and(|word| OTHER.contains(&word.as_str()))
}

/// The column that is filled in where the answer in this one is none of those offered: the next one, if it says so.
pub(super) fn of_other(headings: &[String], column: usize) -> Option<usize> {
    let next = column + 1;
    let words = lexicon::tokens(headings.get(next)?);
    let says = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
    (says(&OTHER) && (says(&IF) || says(&TELL))).then_some(next)
}

/// Whether a heading asks if the pump had been off before the level was taken.
pub(super) fn asks_pump_off(heading: &str) -> bool {
    let words = lexicon::tokens(heading);
    let says = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
    says(&["pump", "bomba", "pompe"])
        && says(&["off", "idle", "apagada", "parada", "arretee", "desligada", "rest"])
        && says(&["hour", "hours", "minutes", "min", "long", "before", "hora", "horas", "heure", "heures"])
}
