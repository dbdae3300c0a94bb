//! A level at the ground that the row makes doubtful: a zero that stands for nothing, a well that is full of the flood.

use super::super::phrases::tokens;
use super::super::remarks;
use super::Draft;
use super::words::Note;
use crate::field::Field;
use crate::finding::catalogue;
use crate::quantity::parse::plain;

const LEVEL: Field = Field::StaticWaterLevel;

impl Draft {
    /// Takes a zero for a level that was not measured, where remark or list says so; asks where the flood stands in the well.
    pub(super) fn doubtful_zero(&mut self, notes: &[Note]) {
        /// Beginnings of words of a well that flows by itself.
        const FLOWS: [&str; 7] = ["flow", "artes", "jorr", "coul", "jaill", "surg", "overflow"];
        self.negative_for_nothing();
        let Some(of_level) = self.column(LEVEL).filter(|_| self.number(LEVEL) == Some(0.0) && !self.is_repaired(LEVEL))
        else {
            return;
        };
        let is_zero = plain(self.in_cell(LEVEL)) == Some(0.0);
        let told = notes.iter().find(|(_, words)| remarks::level_not_measured(words)).map(|(column, _)| *column);
        if is_zero && (told.is_some() || self.table.plan.zeros_are_blanks) {
            let says = match told {
                Some(_) => "the zero of the water level stands for one that was not measured, as a remark says",
                None => {
                    "a zero; in this list, which has depths or widths of zero too, it stands for a level that nobody measured"
                }
            };
            self.say_in(
                catalogue::ZERO_FOR_MISSING,
                of_level,
                says,
                "blank the cell if it was not measured; write \"full\" if it stands so",
            );
            self.forget(LEVEL);
            return;
        }
        let cell = tokens(self.in_cell(LEVEL));
        if cell.iter().any(|token| FLOWS.iter().any(|stem| token.word.starts_with(stem))) {
            return;
        }
        if remarks::full_for_now(&cell) || notes.iter().any(|(_, words)| remarks::full_for_now(words)) {
            let says = "the well is told to be full in a flood: where its water stands at rest is not known";
            let help = "write the level at rest; write \"full\" if it stands so without the flood";
            self.say_in(catalogue::NOT_AT_REST, of_level, says, help);
            self.refuse(LEVEL);
        }
    }

    /// Takes a negative number for a level that was not measured, where the list has it for depths and widths as well.
    fn negative_for_nothing(&mut self) {
        let Some(code) = self.table.plan.negative_blank else { return };
        if self.number(LEVEL).is_some() && plain(self.in_cell(LEVEL)) == Some(code) {
            let says = "in this list, which has depths or widths of it too, this number stands for a level that nobody measured";
            self.say(catalogue::ZERO_FOR_MISSING, LEVEL, says, "blank the cell if it was not measured");
            self.forget(LEVEL);
        }
    }
}
