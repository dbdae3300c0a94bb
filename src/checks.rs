//! From unproven rows to wells, or to the reasons why not.
//!
//! [`Identities`] goes through the drafts in order, because a repeated visit is a matter of order; [`admit`] looks at one
//! draft alone and runs on all cores. Every row read comes out as a [`Verdict`]: admitted, held back or no well; none vanishes.
//! Refuses to know scenarios and chemistry.

mod bore;
mod casing;
mod contradictions;
mod facts;
mod geometry;
mod identity;
mod inferred;
mod left_over;
mod other_rows;
mod pipe;
mod plausibility;
mod position;
mod settle;
mod site;
mod spread;
mod standing;
mod water;

pub use facts::{Facts, Known};
pub use identity::Identities;
pub use other_rows::{OtherRow, OtherRows};

use compact_str::CompactString;

use crate::field::rules::ReadingRules;
use crate::field::{DischargeRoute, Field, WellType};
use crate::finding::{Code, Finding, Severity, catalogue};
use crate::hazard::{Hazard, Hazards};
use crate::inventory::Draft;
use crate::place::Place;
use crate::quantity::{Length, ThermodynamicTemperature, Volume, VolumeRate, meters};
use crate::well::{Record, WaterQuality, Well};

use standing::Standing;

/// A row that is not computed, with everything needed to count it.
#[derive(Debug, Clone, PartialEq)]
pub struct HeldBack {
    /// The id, as typed; the row's place where it has none.
    pub id: CompactString,
    /// Which treatment of the well it is, as typed; `1` where the list does not say.
    pub visit: CompactString,
    /// The region, as typed; nothing where the cell is blank or the list has no such column.
    pub region: Option<CompactString>,
    /// The depot that would serve it, as typed; nothing where the list does not say.
    pub depot: Option<CompactString>,
    /// Type, where it is known.
    pub well_type: Option<WellType>,
    /// Carried cells, in the order of the campaign's carried columns.
    pub carried: Vec<CompactString>,
    /// What the list says of it.
    pub facts: Facts,
    /// File, sheet and row that it was read from.
    pub place: Place,
    /// Every finding of the row, in canonical order.
    pub findings: Vec<Finding>,
}

impl HeldBack {
    /// Why it is held back: its findings of severity error; there is always one.
    pub fn reasons(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|finding| finding.code.severity() == Severity::Error)
    }
}

/// What became of a row.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    /// It is a well, with whatever there is to say about it.
    Admitted {
        /// What was proven, with what was assumed for it.
        well: Well,
        /// Warnings and notes, in canonical order.
        findings: Vec<Finding>,
    },
    /// It is not computed, for reasons that a person settles.
    HeldBack(Box<HeldBack>),
    /// It is not a well, and stands in no table of visits.
    NotAWell(OtherRow),
}

/// Decides what becomes of one row: settles what its cells leave open, checks them, and proves a well where no error is left.
pub fn admit(mut draft: Draft, rules: &ReadingRules) -> Verdict {
    if let Some(no_well) = draft.no_well() {
        let place = Place::row(draft.origin(), draft.row());
        return Verdict::NotAWell(OtherRow {
            place,
            kind: no_well.kind,
            seen: no_well.seen.clone(),
            people: site::people(&draft),
        });
    }
    let mut well_type = draft.choice(Field::WellType).and_then(WellType::by_name);
    let mut assumed = Vec::new();
    settle::settle(&mut draft, well_type, &mut assumed);
    plausibility::bounds(&mut draft);
    let hazards = site::hazards(&mut draft, well_type);
    if well_type.is_none() {
        well_type = inferred::well_type(&mut draft, &mut assumed);
    }
    if well_type.is_none() {
        let has_column = draft.place(Field::WellType).column.is_some();
        draft.say(
            catalogue::WELL_TYPE_MISSING,
            Field::WellType,
            if has_column { "the type of well is not given" } else { "the list has no column for the type of well" },
            "write drilled, driven, bored, dug or spring_box; for a whole list of one type: [inventory.fixed] well_type = \"drilled\"",
        );
    }
    let standing = geometry::standing(&mut draft, well_type, rules, &mut assumed);
    water::consistency(&mut draft);
    position::check(&mut draft, rules);
    let extra = Extra::of(&mut draft, well_type, rules, &mut assumed);
    let sound = !draft.findings.iter().any(|finding| finding.code.severity() == Severity::Error);
    let proven = match (sound, well_type, standing, draft.id()) {
        (true, Some(well_type), Some(standing), Some(_)) => {
            Some(prove(&draft, well_type, standing, &extra, (assumed, hazards)))
        }
        _ => None,
    };
    match proven {
        Some(Ok(well)) => {
            in_order(&mut draft.findings);
            Verdict::Admitted { well, findings: draft.findings }
        }
        Some(Err(impossible)) => {
            // The checks above should have said it in better words; that they did not must not lose the row.
            draft.say(
                catalogue::CANNOT_EXIST,
                Field::WellId,
                format!("such a well cannot exist ({impossible:?})"),
                "check depth, level, diameter and casing of this row",
            );
            held_back(draft, well_type, hazards)
        }
        None => held_back(draft, well_type, hazards),
    }
}

/// Canonical order; of one row only column, severity and code can differ.
fn in_order(findings: &mut [Finding]) {
    findings.sort_by_key(|finding| {
        let column = finding.place.column.as_ref().map(|column| column.number);
        (column, finding.code.severity(), finding.code)
    });
}

/// What says that something was assumed.
const ASSUMPTIONS: [Code; 4] =
    [catalogue::ASSUMED, catalogue::DRAWN_FROM_LIST, catalogue::WALL_ASSUMED, catalogue::HOLE_BELOW_ASSUMED];

fn held_back(mut draft: Draft, well_type: Option<WellType>, hazards: Hazards) -> Verdict {
    // Nothing is computed with what was assumed: not worth saying.
    draft.findings.retain(|finding| !ASSUMPTIONS.contains(&finding.code));
    in_order(&mut draft.findings);
    let place = Place::row(draft.origin(), draft.row());
    let id = draft.id().map_or_else(|| place.to_string().into(), CompactString::from);
    Verdict::HeldBack(Box::new(HeldBack {
        id,
        visit: draft.visit().into(),
        region: text(&draft, Field::Region),
        depot: text(&draft, Field::Depot),
        well_type,
        carried: draft.carried(),
        facts: Facts::of(&draft, hazards),
        place,
        findings: draft.findings,
    }))
}

fn text<'a, T: From<&'a str>>(draft: &'a Draft, field: Field) -> Option<T> {
    draft.text(field).map(Into::into)
}

/// Values beside the standing water that may be assumed.
struct Extra {
    plumbing: Option<f64>,
    pump_rate: Option<f64>,
    well_yield: Option<f64>,
    quality: [Option<f64>; 9],
}

/// The fields of [`WaterQuality`], in its order.
const QUALITY: [Field; 9] = [
    Field::WaterTemperature,
    Field::Ph,
    Field::Alkalinity,
    Field::Iron,
    Field::Manganese,
    Field::Sulfide,
    Field::AmmoniaN,
    Field::NitriteN,
    Field::OrganicCarbon,
];

impl Extra {
    fn of(draft: &mut Draft, well_type: Option<WellType>, rules: &ReadingRules, assumed: &mut Vec<Field>) -> Self {
        let mut value =
            |field| standing::given_or_assumed(draft, field, well_type, rules, assumed).map(|band| band.mid);
        Self {
            plumbing: value(Field::PlumbingVolume),
            pump_rate: value(Field::PumpRate),
            well_yield: value(Field::WellYield),
            quality: QUALITY.map(value),
        }
    }
}

fn prove(
    draft: &Draft,
    well_type: WellType,
    standing: Standing,
    extra: &Extra,
    (assumed, mut hazards): (Vec<Field>, Hazards),
) -> Result<Well, crate::well::Impossible> {
    // A crew is told of it whether a remark says so or the level does.
    let flows = well_type != WellType::SpringBox && flows(draft, hazards);
    if flows {
        hazards.add(Hazard::Flowing);
    }
    let mg_per_l = |at: usize| extra.quality[at].map(|si| si * 1000.0);
    let rate = |si: Option<f64>| si.map(|si| VolumeRate { value: si, ..VolumeRate::default() });
    Well::prove(Record {
        id: draft.id().unwrap_or_default().into(),
        visit: draft.visit().into(),
        region: text(draft, Field::Region),
        depot: text(draft, Field::Depot),
        well_type,
        latitude: draft.number(Field::Latitude),
        longitude: draft.number(Field::Longitude),
        stick_up: draft.number(Field::StickUp).map(meters),
        ground_elevation: draft.number(Field::GroundElevation).map(meters),
        casing_outside_diameter: draft.number(Field::CasingOutsideDiameter).map(meters),
        wall_thickness: draft.number(Field::WallThickness).map(meters),
        total_depth: standing.total_depth.map(meters),
        static_water_level: standing.static_water_level.map(meters),
        casing_diameter: standing.casing_diameter.map(meters),
        casing_depth: standing.casing_depth.map(meters),
        open_hole_diameter: standing.open_hole_diameter.map(meters),
        casing_material: text(draft, Field::CasingMaterial)
            .or_else(|| facts::material_beside_width(draft).map(Into::into)),
        standing_water: standing.water,
        standing_water_range: standing.range,
        plumbing_volume: extra.plumbing.map(volume),
        pump_rate: rate(extra.pump_rate),
        well_yield: rate(extra.well_yield),
        water: WaterQuality {
            temperature: extra.quality[0]
                .map(|si| ThermodynamicTemperature { value: si, ..ThermodynamicTemperature::default() }),
            ph: extra.quality[1],
            alkalinity_mg_per_l: mg_per_l(2),
            iron_mg_per_l: mg_per_l(3),
            manganese_mg_per_l: mg_per_l(4),
            sulfide_mg_per_l: mg_per_l(5),
            ammonia_n_mg_per_l: mg_per_l(6),
            nitrite_n_mg_per_l: mg_per_l(7),
            organic_carbon_mg_per_l: mg_per_l(8),
        },
        discharge_route: draft.choice(Field::DischargeRoute).and_then(DischargeRoute::by_name),
        flooded: draft.flag(Field::Flooded),
        users_served: draft.number(Field::UsersServed),
        seawater: hazards.has(Hazard::Seawater).then_some(true).or_else(|| draft.flag(Field::Seawater)),
        flows,
        status: text(draft, Field::Status),
        notes: text(draft, Field::Notes),
        not_understood: facts::not_understood(draft),
        hazards,
        assumed,
        carried: draft.carried(),
    })
}

/// Whether the well flows over, by its level or by the words of its row.
fn flows(draft: &Draft, hazards: Hazards) -> bool {
    hazards.has(Hazard::Flowing) || draft.findings.iter().any(|finding| finding.code == catalogue::FLOWING_WELL)
}

/// A volume from cubic meters.
fn volume(si: f64) -> Volume {
    Volume { value: si, ..Volume::default() }
}

/// A length in words, in the unit the list's own column uses.
fn shown(draft: &Draft, field: Field, si: f64) -> String {
    draft.shown_unit(field).map_or_else(String::new, |unit| crate::quantity::format::quantity(si, unit, 5))
}

/// A length from meters, for the rooms below.
fn length(si: f64) -> Length {
    meters(si)
}
