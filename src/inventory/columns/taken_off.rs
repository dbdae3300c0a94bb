//! A column of heights that a note names as what is taken off the levels: `Take off "Up" to get to ground`.

use super::Planner;
use super::assignment::assign;
use super::evidence::{Asked, LIKELY, Reading};
use super::plain_heading::without_brackets;
use crate::field::Field;
use crate::inventory::lexicon;

/// What notes call it, folded.
const TAKEN_OFF: [&str; 15] = [
    "take off",
    "takes off",
    "taken off",
    "come off",
    "comes off",
    "subtract",
    "deduct",
    "less",
    "minus",
    "restar",
    "reste",
    "descontar",
    "retrancher",
    "soustraire",
    "subtrair",
];

impl Planner<'_> {
    /// Adds the one column that a note says is taken off the levels, where no other is known for the height of the rim.
    pub(super) fn taken_off<'a>(&self, readings: &mut Vec<Reading>, asked: impl Fn(usize) -> Asked<'a>) {
        let first = assign(readings);
        if first.likely(Field::StickUp).is_some() || first.likely(Field::StaticWaterLevel).is_none() {
            return;
        }
        let named: Vec<usize> = (0..self.columns.len())
            .filter(|at| {
                let profile = &self.profiles[*at];
                let heading = without_brackets(&self.table.headings[*at]);
                !first.is_used(*at)
                    && profile.share(profile.measures()) >= 0.8
                    && self.table.layout.notes.iter().any(|note| takes_off(note, &heading))
            })
            .collect();
        let [at] = named.as_slice() else { return };
        let named = asked(*at).named(Field::StickUp, &Default::default());
        readings.push(Reading { column: *at, named, score: LIKELY, exact: false, by_hand: false });
    }
}

/// Whether a sentence of a note takes off what stands under these words: quoted, or as the heading writes them.
fn takes_off(note: &str, heading: &str) -> bool {
    const QUOTES: [char; 7] = ['"', '\'', '“', '”', '‘', '’', ','];
    let capitals = heading.starts_with(char::is_uppercase);
    note.split(['.', ';', '\n']).any(|sentence| {
        let words: Vec<&str> = sentence.split_whitespace().collect();
        let heading: Vec<&str> = heading.split_whitespace().collect();
        let says = format!(" {} ", lexicon::tokens(sentence).join(" "));
        let named = !heading.is_empty()
            && words.windows(heading.len()).enumerate().any(|(at, part)| {
                let quoted = part[0].starts_with(QUOTES);
                (quoted || capitals && at > 0)
                    && part.iter().zip(&heading).all(|(word, own)| word.trim_matches(QUOTES) == *own)
            });
        named && TAKEN_OFF.iter().any(|verb| says.contains(&format!(" {verb} ")))
    })
}
