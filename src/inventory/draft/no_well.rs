//! Whether a row is a well at all, where its words say that it is none.

use super::super::fate::{Fate, Role, Told};
use super::super::row_kind::RowKind;
use super::Draft;
use crate::field::Field;
use crate::finding::catalogue;

impl Draft {
    /// Whether a person said that the row is no well: nobody reads it any more.
    pub(super) fn is_said_to_be_no_well(&mut self) -> bool {
        let is_said = self.rows.is_no_well(self.row);
        if is_said {
            let id = self.in_cell(Field::WellId).to_owned();
            let first = || self.rows.filled(self.row).next().map(|(_, text)| text.to_owned());
            let seen = if id.is_empty() { first().unwrap_or_default() } else { id };
            self.be_no_well(RowKind::SaidToBeNone, &seen);
        }
        is_said
    }

    /// Says whether the row is not a well.
    pub(super) fn take_fate(&mut self, told: Told, column: usize, role: Role) -> bool {
        let text = self.cell(column);
        let words = text.get(told.from..told.to).unwrap_or(text).to_owned();
        let measures = self.measures();
        let is_well = measures >= 2 && self.is_typed();
        // The column of types says what it is, also where one of our types is in the phrase: `geothermal bore, drilled`.
        let itself = self.column(Field::WellType) == Some(column);
        let no = match told.fate {
            Fate::No(kind) => Some(kind),
            Fate::Thing(kind) if itself || role == Role::Kind && !is_well || measures < 2 => Some(kind),
            Fate::Thing(RowKind::OtherHole) if role == Role::State => Some(RowKind::OtherHole),
            Fate::Water if itself || role == Role::Kind && !is_well || measures == 0 && role == Role::Name => {
                Some(RowKind::OtherSource)
            }
            _ => None,
        };
        let given_up = |kind: &RowKind| {
            matches!(kind, RowKind::Gone | RowKind::NeverMade | RowKind::Replaced | RowKind::Duplicate)
        };
        let no = no.filter(|kind| !(given_up(kind) && self.points_to_use()));
        if let Some(kind) = no {
            self.be_no_well(kind, &words);
            return true;
        }
        match told.fate {
            Fate::Doubt => self.ask_whether_well(
                column,
                &words,
                "may mean that this well no longer exists, or may refer to a part of it",
            ),
            Fate::Fallen => self.ask_whether_well(
                column,
                &words,
                "says that the well fell in: it is not treated before somebody says whether it is still a well",
            ),
            Fate::No(_) if no.is_none() => self.ask_whether_well(
                column,
                &words,
                "says that this well no longer exists, and the row says things that point to one in use",
            ),
            // A well that is called after what stands beside it: `Standpipe #2`, drilled, with all of its measures.
            Fate::Thing(RowKind::OtherSource) if role == Role::Name && is_well && measures >= 3 => self.say_in(
                catalogue::NOT_IN_USE,
                column,
                format!(
                    "\"{words}\" names something that is not a well; by its measures the row is one, and is planned"
                ),
                "if it is none, leave it out: an [[override]] with exclude = true and a reason",
            ),
            Fate::Thing(_) => self.ask_whether_well(
                column,
                &words,
                "names something that is not a well, and the row has the measures of one",
            ),
            Fate::NotOfHouse => self.ask_whether_well(
                column,
                &words,
                "says that it waters animals alone, and the house has its water from elsewhere: it may not belong to this campaign",
            ),
            Fate::Idle => self.say_in(
                catalogue::NOT_IN_USE,
                column,
                format!("\"{words}\": the well may not be in use, or not for drinking; it is planned all the same"),
                "to leave such wells out: an [[override]] with exclude = true and a reason",
            ),
            Fate::OtherWell => self.say_in(
                catalogue::NOT_IN_USE,
                column,
                format!("\"{words}\" is taken to be about another well; this one is planned"),
                "if it is about this well, write so: well sealed",
            ),
            Fate::No(_) | Fate::Water => {}
        }
        false
    }

    fn ask_whether_well(&mut self, column: usize, words: &str, why: &str) {
        let says = format!("\"{words}\" {why}");
        let help = "write what is so: \"well sealed\" or \"not a well\" leaves the row out; name the part, as in \"cap sealed\", where it is a well";
        self.say_in(catalogue::PERHAPS_NO_WELL, column, says, help);
    }
}
