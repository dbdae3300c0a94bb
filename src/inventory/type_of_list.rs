//! The type of every well of a list that has no column for it, where its own note says so: `All wells here are drilled`.

use std::sync::Arc;

use super::columns::Plan;
use super::draft::Fixed;
use super::notes;
use super::one_cell::fixed_value;
use super::table::Opened;
use crate::field::Field;
use crate::field::rules::ReadingRules;
use crate::finding::{Finding, catalogue};
use crate::place::Place;

/// Takes the type that a note gives as that of every row, and says so once.
pub(super) fn take(table: &Opened, plan: &Plan, fixed: &mut Arc<Fixed>, findings: &mut Vec<Finding>) {
    const TYPE: Field = Field::WellType;
    let is_read = plan.feeds[TYPE as usize].is_some() || plan.questions.iter().any(|question| question.field == TYPE);
    if is_read || fixed[TYPE as usize].is_some() {
        return;
    }
    let said = table.layout.notes.iter().find_map(|note| Some((note, notes::type_of_all(note)?)));
    let Some((note, well_type)) = said else { return };
    let rules = ReadingRules { fixed: [(TYPE, well_type.name().to_owned())].into(), ..ReadingRules::default() };
    let Ok(value @ Some(_)) = fixed_value(&rules, TYPE) else { return };
    Arc::make_mut(fixed)[TYPE as usize] = value;
    let says = format!(
        "no column gives the type of well; {} taken for every row, as the note beside the table says",
        well_type.name().replace('_', " ")
    );
    let help = "no action needed if correct; else [inventory.fixed] well_type = \"TYPE\"";
    findings.push(Finding::new(catalogue::TYPE_FROM_NOTE, Place::whole(&table.origin), says, help).seen(note));
}
