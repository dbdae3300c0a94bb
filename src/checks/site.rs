//! Words that change what a person does at the well: found, reported once a row, and kept as flags for the crew.

use crate::field::{Field, WellType};
use crate::finding::{Code, Finding, catalogue};
use crate::hazard::{self, Hazard, Hazards};
use crate::inventory::{Draft, RowKind};
use crate::place::Place;

/// Names that may have words behind them: `1 (dialysis, gate locked)`, `North (wires down)`.
const NAMES: [Field; 3] = [Field::WellId, Field::Depot, Field::Region];

/// Fields whose text is read for hazards, and that of the type, which may say that the well flows; the others hold names,
/// numbers and choices.
const FIELDS: [Field; 4] = [Field::Notes, Field::Status, Field::CasingMaterial, Field::WellType];

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
        Hazard::UnderWater => catalogue::UNDER_WATER_REPORTED,
        Hazard::Damaged => catalogue::DAMAGE_REPORTED,
        Hazard::Pit => catalogue::PIT_REPORTED,
        Hazard::Uncovered => catalogue::UNCOVERED,
        Hazard::Flowing => catalogue::FLOWING_REPORTED,
        Hazard::CannotPump => catalogue::CANNOT_PUMP_REPORTED,
        Hazard::Seawater => catalogue::SEAWATER_REPORTED,
        Hazard::Sewage => catalogue::SEWAGE_REPORTED,
        Hazard::DeadAnimal => catalogue::DEAD_ANIMAL_REPORTED,
        Hazard::Infant => catalogue::INFANT_REPORTED,
        Hazard::Patient => catalogue::PATIENT_REPORTED,
        Hazard::NotFound => catalogue::NOT_FOUND_REPORTED,
        Hazard::RoadClosed => catalogue::ROAD_CLOSED_REPORTED,
        Hazard::Locked => catalogue::LOCKED,
        Hazard::Dog => catalogue::DOG_REPORTED,
        Hazard::Stings => catalogue::STINGS_REPORTED,
    }
}

/// Reads a row's texts for hazards; each is reported where it is met first.
pub(super) fn hazards(draft: &mut Draft, well_type: Option<WellType>) -> Hazards {
    let mut hazards = Hazards::default();
    let mut found: Vec<Finding> = Vec::new();
    let below_ground = draft.number(Field::StaticWaterLevel).is_some_and(|level| level > 0.0);
    // A spring runs over by its nature, and what is done about it is asked elsewhere.
    let spring = well_type == Some(WellType::SpringBox);
    let find = |text: &str| {
        let mut hits = hazard::find(text);
        hits.retain(|hit| hit.hazard != Hazard::Flowing || !(spring || below_ground && hit.is_undone_by_level()));
        hits
    };
    let mut report = |hazard: Hazard, place: Place, typed: &str, by: &str| {
        if hazards.add(hazard) {
            let entry = hazard.entry();
            let says = format!("{by} reports {}", entry.what);
            found.push(Finding::new(code(hazard), place, says, entry.text).seen(typed));
        }
    };
    for field in FIELDS {
        let text = if field == Field::WellType { draft.typed(field) } else { draft.text(field).unwrap_or_default() };
        for hit in find(text) {
            report(hit.hazard, draft.place(field), text, &format!("\"{}\"", hit.words));
        }
    }
    for field in NAMES {
        let text = draft.cell_of(field);
        for hit in hazard::find_in_name(text) {
            report(hit.hazard, draft.place(field), text, &format!("\"{}\"", hit.words));
        }
    }
    for (column, text) in draft.carried_cells() {
        let place = || Place::cell(draft.origin(), draft.row(), column);
        for hit in find(text) {
            report(hit.hazard, place(), text, &format!("\"{}\"", hit.words));
        }
        if hazard::is_yes(text) || text.parse::<u16>().is_ok_and(|number| number > 0) {
            for hit in find(&column.heading) {
                let counts = matches!(hit.hazard, Hazard::Infant | Hazard::Patient | Hazard::Dog);
                // "Electric: yes" tells of the supply; a number counts people or dogs, or is an amount of something.
                if hit.hazard != Hazard::Electric && (counts || hazard::is_yes(text)) {
                    report(hit.hazard, place(), text, &format!("\"{text}\" below \"{}\"", column.heading));
                }
            }
        }
    }
    for left in draft.findings.iter().filter(|finding| LEFT_OVER.contains(&finding.code)) {
        for hit in find(&left.seen) {
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

/// Infants and patients that a row tells of which is no well: it gets no card, and must not make them vanish.
pub(super) fn people(draft: &Draft) -> Hazards {
    let mut people = Hazards::default();
    let Some(no_well) = draft.no_well() else { return people };
    // Headings once more and what codes mean tell of no one.
    if matches!(no_well.kind, RowKind::Heading | RowKind::Legend) {
        return people;
    }
    let of_people = |hazard: Hazard| matches!(hazard, Hazard::Infant | Hazard::Patient);
    let fields = FIELDS.into_iter().chain(NAMES).map(|field| draft.cell_of(field));
    for text in fields.chain(draft.carried_cells().map(|(_, text)| text)) {
        for hit in hazard::find(text).into_iter().filter(|hit| of_people(hit.hazard)) {
            people.add(hit.hazard);
        }
    }
    for (column, text) in draft.carried_cells().filter(|(_, text)| hazard::is_yes(text)) {
        for hit in hazard::find(&column.heading).into_iter().filter(|hit| !text.is_empty() && of_people(hit.hazard)) {
            people.add(hit.hazard);
        }
    }
    people
}
