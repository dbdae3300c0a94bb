//! Springs that flow and whose choice is not stated: held back here, because the choice and the hold belong to the practice,
//! which the checks of single rows do not know.

use std::collections::BTreeMap;

use crate::checks::{Facts, HeldBack};
use crate::field::{Field, WellType};
use crate::finding::{Finding, catalogue};
use crate::inventory::Draft;
use crate::kernel::moving::unsettled_turnover;
use crate::kernel::requirement::Practice;
use crate::place::Place;
use crate::quantity::format::number;
use crate::visit::Visit;
use crate::well::Well;

/// A spring box with an inflow, as its row gave it.
pub(super) struct Inflow {
    /// Which visit of the batch.
    visit: usize,
    /// Where the findings of its row end among those of the batch.
    findings_end: usize,
    row: Place,
    cell: Place,
    typed: String,
}

impl Inflow {
    /// The inflow that a row gives, if it does.
    pub(super) fn of(draft: &Draft) -> Option<Self> {
        draft.number(Field::WellYield).filter(|_| draft.choice(Field::WellType) == Some(WellType::SpringBox.name()))?;
        Some(Self {
            visit: 0,
            findings_end: 0,
            row: Place::row(draft.origin(), draft.row()),
            cell: draft.place(Field::WellYield),
            typed: draft.typed(Field::WellYield).to_owned(),
        })
    }

    /// The same, once it is known which visit it became and how many findings there are up to it.
    pub(super) fn at(self, visit: usize, findings_end: usize) -> Self {
        Self { visit, findings_end, ..self }
    }

    /// The same, where the findings of the visits end elsewhere since.
    pub(super) fn end_anew(&mut self, ends: &[usize]) {
        self.findings_end = ends.get(self.visit).copied().unwrap_or(self.findings_end);
    }
}

/// What is said of a well that flows without a stated choice; `None` where it can be planned under all these practices.
pub fn unsettled(well: &Well, practices: &[Practice]) -> Option<(String, &'static str)> {
    let (volumes, hold) = practices.iter().find_map(|practice| {
        unsettled_turnover(well, practice).map(|volumes| (volumes, practice.hold.value / 3600.0))
    })?;
    let says = format!(
        "the spring flows: in a contact time of {} h its yield replaces the water {} times, and the scenario file does not say what is done about it",
        number(hold, 3),
        number(volumes, 2)
    );
    Some((
        says,
        "state in [practice] or an [[override]]: flowing_spring = \"isolated\" (overflow closed, supply off) or \"feed\" \
         (chlorine fed all through the hold)",
    ))
}

/// The practices for each set of overrides that holds for some visit.
pub(super) fn practices_by_mask(masks: &[u64], of: impl Fn(u64) -> Vec<Practice>) -> BTreeMap<u64, Vec<Practice>> {
    let mut practices = BTreeMap::new();
    for mask in masks {
        practices.entry(*mask).or_insert_with(|| of(*mask));
    }
    practices
}

/// Turns springs that flow without a stated choice into rows held back, with a finding each; `masks` has one for each visit.
pub(super) fn hold_back(
    inflows: Vec<Inflow>,
    practices: &BTreeMap<u64, Vec<Practice>>,
    masks: &[u64],
    visits: &mut [Visit],
    findings: &mut Vec<Finding>,
) {
    // From the last to the first, so that places before stay where they are.
    for inflow in inflows.into_iter().rev() {
        let Some((visit, mask)) = visits.get_mut(inflow.visit).zip(masks.get(inflow.visit)) else { continue };
        let Some(well) = visit.well() else { continue };
        let Some((says, help)) = practices.get(mask).and_then(|practices| unsettled(well, practices)) else {
            continue;
        };
        let finding =
            Finding::new(catalogue::SPRING_FLOWS, inflow.cell, says, help).seen(&inflow.typed).of_well(Some(&well.id));
        let row = HeldBack {
            id: well.id.clone(),
            visit: well.visit.clone(),
            region: well.region.clone(),
            depot: well.depot.clone(),
            well_type: Some(well.well_type),
            carried: well.carried.clone(),
            facts: Facts::of_well(well),
            place: inflow.row,
            findings: Vec::new(),
        };
        findings.insert(inflow.findings_end.min(findings.len()), finding);
        let flags = row.facts.hazards.words();
        let code = catalogue::SPRING_FLOWS;
        *visit = Visit::HeldBack { row: Box::new(row), codes: vec![code], reasons: code.id().to_owned(), flags };
    }
}

/// The cell that a row's water rests on most.
pub(super) fn water_cell(draft: &Draft) -> Place {
    let given = |field: &Field| draft.number(*field).is_some();
    let field = [Field::WaterVolume, Field::CasingDiameter].into_iter().find(given);
    field.map_or_else(|| Place::row(draft.origin(), draft.row()), |field| draft.place(field))
}
