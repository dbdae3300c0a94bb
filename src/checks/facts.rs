//! What a list says of a row beside what the dose rests on; it travels with the row even where nothing is computed.

use crate::field::{FIELDS, Field};
use crate::finding::{Code, Finding, catalogue};
use crate::hazard::Hazards;
use crate::inventory::{Datum, Draft};
use crate::quantity::unit;
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
    /// Words of cells that could not be read and were left blank, or were read in part, each behind its heading.
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

/// Words beside a number that say only how sure it is.
const SAY_NOTHING: [&str; 12] = [
    "about",
    "approx",
    "approximately",
    "around",
    "est",
    "estimated",
    "ca",
    "reported",
    "measured",
    "or",
    "so",
    "circa",
];

/// Whether a cell holds words beside its number and its unit: `180 ft wires down here`, not `about 120 ft`.
fn has_words(text: &str) -> bool {
    text.split(|letter: char| !letter.is_alphabetic() && letter != '/').any(|word| {
        word.len() > 1 && unit::look_up(word, None).is_none() && !SAY_NOTHING.contains(&word.to_lowercase().as_str())
    })
}

/// `Flush to: behind the barn; Submerged: partly`: a person reads what no field could take.
pub(super) fn not_understood(draft: &Draft) -> Option<Box<str>> {
    let mut words: Option<String> = None;
    let travels = |finding: &&Finding| {
        LEFT_BLANK.contains(&finding.code) || READ_IN_PART.contains(&finding.code) && has_words(&finding.seen)
    };
    for finding in draft.findings.iter().filter(travels) {
        let Some(column) = finding.place.column.as_ref().filter(|_| !finding.seen.is_empty()) else { continue };
        let words = words.get_or_insert_default();
        let between = if words.is_empty() { "" } else { "; " };
        words.push_str(&format!("{between}{}: {}", column.heading, finding.seen));
    }
    words.map(Into::into)
}
