//! What a list says of a row beside what the dose rests on; it travels with the row even where nothing is computed.

use super::left_over::{left_over, material_in};
use crate::field::{FIELDS, Field};
use crate::finding::{Code, catalogue};
use crate::hazard::Hazards;
use crate::inventory::{Datum, Draft};
use crate::well::Well;

/// What a row that is held back gives for a field.
#[derive(Debug, Clone, PartialEq)]
pub enum Known {
    /// In SI, or a pure number.
    Number(f64),
    /// Text, or the word of a choice.
    Text(Box<str>),
    /// Whether a cell for yes or no says yes.
    Flag(bool),
}

/// Facts and words of a row that is held back.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Facts {
    /// What its cells give, field by field.
    known: Vec<(Field, Known)>,
    /// Words of cells that could not be read and were left blank, and what no field took of those read in part, each behind its heading.
    pub not_understood: Option<Box<str>>,
    /// What a person must know before going there.
    pub hazards: Hazards,
}

impl Facts {
    /// What a row says, with the hazards that were found in its words.
    pub(super) fn of(draft: &Draft, hazards: Hazards) -> Self {
        let of = |field| match draft.datum(field) {
            Datum::Number(si) => Some(Known::Number(si)),
            Datum::Flag(flag) => Some(Known::Flag(flag)),
            Datum::Choice(_) => draft.choice(field).map(|word| Known::Text(word.into())),
            Datum::Text => draft.text(field).map(|text| Known::Text(text.into())),
            Datum::Missing if field == Field::CasingMaterial => material_beside_width(draft).map(Known::Text),
            Datum::Missing | Datum::Unread => None,
        };
        Self {
            known: FIELDS.iter().filter_map(|entry| Some((entry.field, of(entry.field)?))).collect(),
            not_understood: not_understood(draft),
            hazards,
        }
    }

    /// What a proven well says that cannot be planned for another reason than its row.
    pub fn of_well(well: &Well) -> Self {
        let of = |field| {
            let number = well.si_value(field).map(Known::Number);
            let text = || well.text(field).map(|text| Known::Text(text.into()));
            number.or_else(text).or_else(|| well.flag(field).map(Known::Flag))
        };
        Self {
            known: FIELDS.iter().filter_map(|entry| Some((entry.field, of(entry.field)?))).collect(),
            not_understood: well.not_understood.clone(),
            hazards: well.hazards,
        }
    }

    /// What is known of a field.
    pub fn known(&self, field: Field) -> Option<&Known> {
        self.known.iter().find(|(of, _)| *of == field).map(|(_, known)| known)
    }
}

/// Findings that leave a cell blank which holds words all the same.
const LEFT_BLANK: [Code; 4] = [
    catalogue::ASIDE_NOT_UNDERSTOOD,
    catalogue::UNKNOWN_CHOICE,
    catalogue::FLAG_NOT_UNDERSTOOD,
    catalogue::ASIDE_IMPOSSIBLE,
];

/// Findings that read a cell whose other words no field took.
const READ_IN_PART: [Code; 2] = [catalogue::REMARK_AFTER_NUMBER, catalogue::CHOICE_FROM_PHRASE];

/// What the casing is made of where the cell of its width says so and no cell of its own does: `6" stl`.
pub(super) fn material_beside_width(draft: &Draft) -> Option<Box<str>> {
    let widths = [Field::CasingDiameter, Field::CasingOutsideDiameter].into_iter();
    widths.filter_map(|field| material_in(draft.typed(field))).next().map(Into::into)
}

/// `Flush to: behind the barn; Submerged: partly`: a person reads what no field could take.
pub(super) fn not_understood(draft: &Draft) -> Option<Box<str>> {
    let mut words: Option<String> = None;
    for finding in &draft.findings {
        let seen = match finding.code {
            code if LEFT_BLANK.contains(&code) => Some(&*finding.seen),
            code if READ_IN_PART.contains(&code) => left_over(draft, finding),
            _ => None,
        };
        let Some(seen) = seen.filter(|seen| !seen.is_empty()) else { continue };
        let Some(column) = finding.place.column.as_ref() else { continue };
        let words = words.get_or_insert_default();
        let between = if words.is_empty() { "" } else { "; " };
        words.push_str(&format!("{between}{}: {seen}", column.heading));
    }
    words.map(Into::into)
}
