//! Remarks that set another number against the one of a cell, of which neither plainly holds: asked.

use super::super::phrases::Token;
use super::super::remarks;
use super::Draft;
use super::words::Note;
use crate::field::Field;

impl Draft {
    /// A remark that repeats the number of a cell and sets another one against it, as in `cust. says 210 not 255`, or says
    /// one outright, as in `log says 285 ft`: which of the two holds is asked.
    pub(super) fn doubted<'a>(&mut self, notes: impl Iterator<Item = &'a Note>) {
        for (column, words) in notes {
            let text = self.cell(*column);
            if text.len() < 8 || !words.iter().any(is_told) {
                continue;
            }
            let has = |known: &[&str]| words.iter().any(|token| known.contains(&token.word.as_str()));
            if has(&["doubt", "doubtful", "dispute", "disputed"])
                && has(&["depth", "deep", "td"])
                && self.measures() > 0
            {
                if self.is_repaired(Field::TotalDepth) {
                    continue;
                }
                let says = "this puts the depth of the cell in doubt";
                self.say_against(Field::TotalDepth, *column, says, "write the depth that holds");
                continue;
            }
            let numbers: Vec<f64> = words.iter().filter_map(|token| token.number).collect();
            self.width_doubted(*column, words, &numbers);
            let alone = remarks::one_length(words);
            // `+44 is not a phone number` sets nothing against a depth.
            let told = words.iter().any(|token| !["not", "stopped"].contains(&token.word.as_str()) && is_told(token));
            let fields = [Field::TotalDepth, Field::StaticWaterLevel, Field::CasingDiameter];
            // `tag says 146 deep, static 38` beside 146 and 38 agrees.
            let of_another = |number: f64, field: Field| {
                remarks::set_against(words).is_none()
                    && fields.iter().any(|other| *other != field && self.is_in(*other, number))
            };
            let field = fields.into_iter().filter(|field| !self.is_repaired(*field)).find(|field| {
                let Some(cell) = self.number(*field).zip(self.unit_of_bare(*field)).map(|(si, unit)| unit.from_si(si))
                else {
                    return false;
                };
                let repeats = numbers.iter().any(|number| (number - cell).abs() < 1e-6 * cell.abs().max(1.0));
                // Where the cell's own number is repeated, the other one may be anything but a count or a year.
                let near = match (field, repeats) {
                    // `he says 4 in pipe not 6`
                    (Field::CasingDiameter, _) => 0.3..=3.0,
                    (_, true) => 0.1..=10.0,
                    (_, false) => 0.25..=4.0,
                };
                let other = numbers
                    .iter()
                    .filter(|number| (**number - cell).abs() > 0.02 * cell.abs() && near.contains(&(**number / cell)))
                    .any(|number| !(repeats && of_another(*number, *field)));
                // Without the cell's own number only a depth is meant by `says 285 ft`, also where it is off by a place.
                let slip =
                    |number: f64| (0.05..=20.0).contains(&(number / cell)) && (number - cell).abs() > 0.02 * cell;
                // `not 6 but 8 ft to the barn` is about something else.
                let repeats = repeats && (*field != Field::CasingDiameter || told);
                let outright = *field == Field::TotalDepth && told && alone.is_some_and(slip);
                other && repeats || outright
            });
            // `tag says 185 not 85` beside 185 agrees.
            let agrees = |field: &Field| {
                let cell = self.number(*field).zip(self.unit_of_bare(*field));
                let right = remarks::set_against(words).map(|(right, _)| right);
                cell.zip(right).is_some_and(|((cell, unit), right)| {
                    let si = if right.unit.is_some() { right.value } else { unit.to_si(right.value) };
                    (si - cell).abs() < 1e-6 * cell.abs().max(1.0)
                })
            };
            if let Some(field) = field.filter(|field| !agrees(field)) {
                let says = format!(
                    "this sets another number against the {} of the cell, \"{}\"",
                    field.name().replace('_', " "),
                    self.typed(field)
                );
                self.say_against(field, *column, &says, "write the right one");
            }
        }
    }

    /// Whether a number is that of one of the measures of the row.
    pub(super) fn repeats(&self, number: f64) -> bool {
        [Field::TotalDepth, Field::StaticWaterLevel, Field::CasingDiameter]
            .into_iter()
            .any(|field| self.is_in(field, number))
    }

    /// Whether a bare number is that of a field's cell, in its unit.
    fn is_in(&self, field: Field, bare: f64) -> bool {
        let cell = self.number(field).zip(self.unit_of_bare(field)).map(|(si, unit)| unit.from_si(si));
        cell.is_some_and(|cell| (cell - bare).abs() < 1e-6 * cell.abs().max(1.0))
    }

    /// A remark by which somebody gives another width, and which is to be looked into: `technician says 1.00, check`.
    fn width_doubted(&mut self, column: usize, words: &[Token], numbers: &[f64]) {
        const FIELD: Field = Field::CasingDiameter;
        if self.is_repaired(FIELD) {
            return;
        }
        let has = |known: &[&str]| words.iter().any(|token| known.contains(&token.word.as_str()));
        let cell = self.number(FIELD).zip(self.unit_of_bare(FIELD)).map(|(si, unit)| unit.from_si(si));
        let other = |number: &f64| {
            cell.is_some_and(|cell| (number - cell).abs() > 0.05 * cell && (0.3..=3.0).contains(&(number / cell)))
        };
        let depth = self.number(Field::TotalDepth).zip(self.unit_of_bare(Field::TotalDepth));
        let of_depth =
            |number: &f64| depth.is_some_and(|(si, unit)| (0.4..=2.5).contains(&(number / unit.from_si(si))));
        let [number] = numbers else { return };
        if has(remarks::SAYS) && has(remarks::VERIFY) && other(number) && !of_depth(number) {
            let says = format!(
                "this sets another number against the diameter of the cell, \"{}\", and asks to look into it",
                self.typed(FIELD)
            );
            self.say_against(FIELD, column, &says, "write the right one");
        }
    }
}

/// Whether a word sets somebody's figure against the cell.
fn is_told(token: &Token) -> bool {
    let word = token.word.as_str();
    remarks::SAYS.contains(&word) || remarks::VERIFY.contains(&word)
}
