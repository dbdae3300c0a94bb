//! What a cell takes from the rows above it: ditto marks, names written once, the section a row stands under; and the id
//! that a well has by it.
//!
//! Goes through the drafts in reading order, so that neither batches nor threads matter. Merged cells are filled in by the
//! reader of workbooks, which knows where they are.

use super::ditto::section_name;
use super::draft::Draft;
use super::naming::{Naming, Part, groups_rows};
use super::row_kind::RowKind;
use crate::field::Field;
use crate::finding::catalogue;
use crate::place::Origin;

/// The rows so far, as far as later ones need them.
#[derive(Default)]
pub struct FillDown {
    above: Option<Draft>,
    section: Option<Box<str>>,
    /// For each column that is filled only where it changes, what it holds now.
    down: Vec<Option<Box<str>>>,
    said_ditto: Option<Origin>,
    /// The row that says that what follows is in feet and inches.
    in_feet: Option<u32>,
}

impl FillDown {
    /// Goes through the next drafts, which must come in reading order, those of one table after those of another.
    pub fn apply(&mut self, drafts: &mut [Draft]) {
        let mut above: Option<usize> = None;
        let named = drafts.first().is_some_and(|draft| draft.naming().is_some_and(Naming::is_active));
        for at in 0..drafts.len() {
            // Nearly every row stands for itself; whether the table changed is only asked where it matters.
            let plain = self.in_feet.is_none() && !drafts[at].has_dittos();
            if !named && plain && drafts[at].no_well().is_none() {
                above = Some(at);
                continue;
            }
            let (before, rest) = drafts.split_at_mut(at);
            let Some(draft) = rest.first_mut() else { break };
            let last = above.map_or(self.above.as_ref(), |above| before.get(above));
            if last.is_some_and(|last| last.origin() != draft.origin()) {
                self.section = None;
                self.in_feet = None;
                self.down.clear();
            }
            if let Some(no_well) = draft.no_well() {
                if no_well.kind == RowKind::Section {
                    self.section = Some(section_name(&no_well.seen).into());
                }
                if no_well.kind.is_thing() {
                    above = Some(at);
                } else if let Some(feet) = draft.says_units() {
                    self.in_feet = feet.then(|| draft.row());
                }
                continue;
            }
            let last = last.filter(|last| last.origin() == draft.origin());
            if draft.has_dittos() {
                draft.fill_dittos(last);
                if self.said_ditto.as_ref() != Some(draft.origin()) {
                    self.said_ditto = Some(draft.origin().clone());
                    let says = "ditto marks are used in this list; each stands for the cell above it";
                    draft.say(catalogue::FILLED_DOWN, Field::WellId, says, "no action needed if correct");
                }
            }
            if let Some(row) = self.in_feet {
                draft.read_in_feet(row);
            }
            self.name(draft);
            above = Some(at);
        }
        if let Some(above) = above.and_then(|above| drafts.get(above)) {
            self.above = Some(above.clone());
        }
    }

    /// Fills in the names written once, and makes the id that the well has by its section, system or sheet.
    fn name(&mut self, draft: &mut Draft) {
        let Some(naming) = draft.naming() else { return };
        if !naming.is_active() {
            return;
        }
        let naming = naming.clone();
        self.down.resize(naming.down.len(), None);
        for (column, held) in naming.down.iter().zip(&mut self.down) {
            match draft.cell(*column) {
                "" => {
                    if let Some(held) = held {
                        draft.fill(*column, held);
                    }
                }
                // What is no name is of its own row; whether the name above still holds below it is not known.
                text => *held = groups_rows(text).then(|| text.into()),
            }
        }
        let part = match naming.part {
            Some(Part::Column(column)) => draft.cell(column).to_owned(),
            Some(Part::Section) => self.section.as_deref().unwrap_or_default().to_owned(),
            None => String::new(),
        };
        let sheet = if naming.by_sheet {
            draft.origin().sheet.as_deref().unwrap_or(&draft.origin().file).to_owned()
        } else {
            String::new()
        };
        draft.known_by(&[&sheet, &part]);
    }
}
