//! A row that another row of the list puts out of force.

use super::super::pointed::Standing;
use super::super::row_kind::RowKind;
use super::Draft;
use crate::field::Field;
use crate::finding::catalogue;

impl Draft {
    /// Leaves out a row that another entry of the list counts instead of, or asks where it only points to another.
    pub fn take_replacement(&mut self) {
        let replaced = self.table.naming.get().and_then(|naming| naming.replaced.get(&self.row())).cloned();
        match replaced {
            Some(Standing::Second(words)) => self.be_no_well(RowKind::Duplicate, &words),
            Some(Standing::Asked(words)) => {
                let says =
                    format!("{words} points to another entry of the same well: which of them counts is not clear");
                let help = "take out the entry that does not count, or write \"duplicate\" in its remarks";
                self.say(catalogue::PERHAPS_NO_WELL, Field::WellId, says, help);
            }
            None => {}
        }
    }
}
