//! Words that change what a person does at the well: found, reported once a row, and kept as flags for the crew.

use crate::field::Field;
use crate::finding::{Code, Finding, catalogue};
use crate::hazard::{self, Hazard, Hazards};
use crate::inventory::Draft;
use crate::place::Place;

/// Fields whose text is read for hazards; the others hold names, numbers and choices.
const FIELDS: [Field; 3] = [Field::Notes, Field::Status, Field::CasingMaterial];

/// Findings that quote words which no field took: `60 ft, caved in`, or `ditch, oil on it` for a route.
const LEFT_OVER: [Code; 6] = [
    catalogue::NUMBER_NOT_UNDERSTOOD,
    catalogue::ASIDE_NOT_UNDERSTOOD,
    catalogue::UNKNOWN_CHOICE,
    catalogue::FLAG_NOT_UNDERSTOOD,
    catalogue::REMARK_AFTER_NUMBER,
    catalogue::CHOICE_FROM_PHRASE,
];

/// The finding that reports a hazard.
const fn code(hazard: Hazard) -> Code {
    match hazard {
        Hazard::Electric => catalogue::ELECTRIC_DANGER,
        Hazard::Gas => catalogue::GAS_REPORTED,
        Hazard::Fuel => catalogue::FUEL_REPORTED,
        Hazard::Chemicals => catalogue::CHEMICALS_REPORTED,
        Hazard::Damaged => catalogue::DAMAGE_REPORTED,
        Hazard::Uncovered => catalogue::UNCOVERED,
        Hazard::Sewage => catalogue::SEWAGE_REPORTED,
        Hazard::DeadAnimal => catalogue::DEAD_ANIMAL_REPORTED,
        Hazard::Infant => catalogue::INFANT_REPORTED,
        Hazard::Patient => catalogue::PATIENT_REPORTED,
        Hazard::NotFound => catalogue::NOT_FOUND_REPORTED,
        Hazard::Locked => catalogue::LOCKED,
        Hazard::Dog => catalogue::DOG_REPORTED,
        Hazard::Stings => catalogue::STINGS_REPORTED,
    }
}

/// Reads a row's texts for hazards; each is reported where it is met first.
pub(super) fn hazards(draft: &mut Draft) -> Hazards {
    let mut hazards = Hazards::default();
    let mut found: Vec<Finding> = Vec::new();
    let mut report = |hazard: Hazard, place: Place, typed: &str, by: &str| {
        if hazards.add(hazard) {
            let entry = hazard.entry();
            let says = format!("{by} reports {}", entry.what);
            found.push(Finding::new(code(hazard), place, says, entry.text).seen(typed));
        }
    };
    for field in FIELDS {
        let Some(text) = draft.text(field) else { continue };
        for hit in hazard::find(text) {
            report(hit.hazard, draft.place(field), text, &format!("\"{}\"", hit.words));
        }
    }
    for (column, text) in draft.carried_cells() {
        let place = || Place::cell(draft.origin(), draft.row(), column);
        for hit in hazard::find(text) {
            report(hit.hazard, place(), text, &format!("\"{}\"", hit.words));
        }
        if hazard::is_yes(text) || text.parse::<u16>().is_ok_and(|number| number > 0) {
            for hit in hazard::find(&column.heading) {
                let counts = matches!(hit.hazard, Hazard::Infant | Hazard::Patient | Hazard::Dog);
                // "Electric: yes" tells of the supply; a number counts people or dogs, or is an amount of something.
                if hit.hazard != Hazard::Electric && (counts || hazard::is_yes(text)) {
                    report(hit.hazard, place(), text, &format!("\"{text}\" below \"{}\"", column.heading));
                }
            }
        }
    }
    for left in draft.findings.iter().filter(|finding| LEFT_OVER.contains(&finding.code)) {
        for hit in hazard::find(&left.seen) {
            report(hit.hazard, left.place.clone(), &left.seen, &format!("\"{}\"", hit.words));
        }
    }
    if found.is_empty() {
        return hazards;
    }
    let id = draft.id().map(str::to_owned);
    draft.findings.extend(found.into_iter().map(|finding| finding.of_well(id.as_deref())));
    hazards
}
