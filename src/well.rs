//! The proven record: a well that the checks let through.
//!
//! [`Well`] can only be had from [`Well::prove`], which refuses what cannot exist; nothing past the checks asks "is it
//! positive?" again. Its fields are read through `Deref` to [`Record`]. Knows no files and no scenarios.

use std::ops::Deref;

use compact_str::CompactString;

use crate::field::{DischargeRoute, Field, WellType};
use crate::hazard::{Hazard, Hazards};
use crate::quantity::{Band, Length, ThermodynamicTemperature, Volume, VolumeRate};

/// A stretch of the well with one diameter, by depth from the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Depth of the top.
    pub top: Length,
    /// Depth of the bottom.
    pub bottom: Length,
    /// Inside diameter of the casing or of the open hole, which holds all through the stretch.
    pub diameter: Length,
}

/// The standing water, as the list describes it.
#[derive(Debug, Clone, PartialEq)]
pub enum StandingWater {
    /// A cylinder or several: from the water level (not above ground) to the bottom, through intervals of given diameter.
    Bore {
        /// Depth of the resting water surface; above ground (negative) where the well flows.
        water_level: Length,
        /// Depth of the bottom.
        bottom: Length,
        /// Intervals from the ground to the bottom, in order, without gaps or overlaps.
        intervals: Vec<Interval>,
    },
    /// A height of water of one diameter, where the list gives the height outright.
    Column {
        /// Height of the standing water.
        height: Length,
        /// Inside diameter, taken as the same all through the height.
        diameter: Length,
    },
    /// A volume given outright: spring boxes, measured wells.
    Volume {
        /// The volume of standing water.
        volume: Volume,
    },
}

/// Measured water quality; `None` where nothing was measured. Concentrations in mg/L of the basis named.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WaterQuality {
    /// Of the water in the well, not of the air; `None` leaves it to what the practice assumes.
    pub temperature: Option<ThermodynamicTemperature>,
    /// Measured before treatment; `None` leaves the pH after dosing unknown.
    pub ph: Option<f64>,
    /// Alkalinity, mg/L as CaCO3.
    pub alkalinity_mg_per_l: Option<f64>,
    /// Iron, mg/L as Fe.
    pub iron_mg_per_l: Option<f64>,
    /// Manganese, mg/L as Mn.
    pub manganese_mg_per_l: Option<f64>,
    /// Sulfide, mg/L as H2S.
    pub sulfide_mg_per_l: Option<f64>,
    /// Ammonia, mg/L as N.
    pub ammonia_n_mg_per_l: Option<f64>,
    /// Nitrite, mg/L as N.
    pub nitrite_n_mg_per_l: Option<f64>,
    /// Organic carbon, mg/L as C.
    pub organic_carbon_mg_per_l: Option<f64>,
}

/// The content of a proven well.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// The program's id, as typed.
    pub id: CompactString,
    /// The visit, as typed; `1` where the list has no visits.
    pub visit: CompactString,
    /// Region as typed, for totals and for values drawn from wells nearby.
    pub region: Option<CompactString>,
    /// Depot that its product comes from, as typed.
    pub depot: Option<CompactString>,
    /// How it was made, which decides what may be assumed of it and how it is flushed.
    pub well_type: WellType,
    /// Decimal degrees, north positive.
    pub latitude: Option<f64>,
    /// Decimal degrees, east positive.
    pub longitude: Option<f64>,
    /// How far the casing stands above the ground, where given.
    pub stick_up: Option<Length>,
    /// Height of the ground above sea level, where given.
    pub ground_elevation: Option<Length>,
    /// Outside diameter of the casing, where given.
    pub casing_outside_diameter: Option<Length>,
    /// Thickness of the casing's wall, where given.
    pub wall_thickness: Option<Length>,
    /// Depth of the bottom, where given or assumed.
    pub total_depth: Option<Length>,
    /// Depth of the water surface, where given or assumed.
    pub static_water_level: Option<Length>,
    /// Inside diameter, where given or assumed.
    pub casing_diameter: Option<Length>,
    /// Depth of the bottom of the casing, where given or assumed.
    pub casing_depth: Option<Length>,
    /// Diameter of the open hole, where given or assumed.
    pub open_hole_diameter: Option<Length>,
    /// Casing material, as typed.
    pub casing_material: Option<CompactString>,
    /// The standing water that is planned with.
    pub standing_water: StandingWater,
    /// The same with every assumed value taken so that the volume is least, and greatest; `None` where nothing that the
    /// volume rests on was assumed.
    pub standing_water_range: Option<Box<(StandingWater, StandingWater)>>,
    /// Volume of plumbing treated with the well, where the list gives it.
    pub plumbing_volume: Option<Volume>,
    /// What its pump delivers, where given: the flush takes no longer than this and the yield allow.
    pub pump_rate: Option<VolumeRate>,
    /// What flows into it lastingly, where given.
    pub well_yield: Option<VolumeRate>,
    /// What was measured of its water before treatment.
    pub water: WaterQuality,
    /// Where the flushed water can go.
    pub discharge_route: Option<DischargeRoute>,
    /// Whether flood water stood over it.
    pub flooded: Option<bool>,
    /// People who use it, where given; no amount rests on it.
    pub users_served: Option<f64>,
    /// Whether sea water got in.
    pub seawater: Option<bool>,
    /// Whether it flows over: its level stands above the ground, or the list says so.
    pub flows: bool,
    /// State of the well, as typed.
    pub status: Option<Box<str>>,
    /// Remarks of the list, as typed; hazards are read out of them.
    pub notes: Option<Box<str>>,
    /// Words of cells that could not be read and were left blank, each behind its heading.
    pub not_understood: Option<Box<str>>,
    /// What a person must know before going there, by the words of the list.
    pub hazards: Hazards,
    /// Fields whose value was assumed by a stated rule.
    pub assumed: Vec<Field>,
    /// Columns of the list that are not fields, in the order of the campaign's carried columns; empty text where the
    /// row's own file lacks the column.
    pub carried: Vec<CompactString>,
}

/// A well that the checks let through; a pointer, because it is handed on many times.
#[derive(Debug, Clone, PartialEq)]
pub struct Well(Box<Record>);

/// Why a record cannot be a well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Impossible {
    /// An id or a visit is empty.
    Nameless,
    /// A length, volume or rate that must be positive is not, or is not finite.
    NotPositive(Field),
    /// The water level is not above the bottom.
    NoWater,
    /// Intervals overlap, leave a gap, or do not reach from the ground to the bottom.
    BrokenIntervals,
}

impl Deref for Well {
    type Target = Record;
    fn deref(&self) -> &Record {
        &self.0
    }
}

impl Well {
    /// Proves a record.
    ///
    /// # Errors
    /// The first thing that cannot be; the checks report everything before they come here.
    pub fn prove(record: Record) -> Result<Self, Impossible> {
        if record.id.is_empty() || record.visit.is_empty() {
            return Err(Impossible::Nameless);
        }
        record.standing_water.prove()?;
        if let Some(range) = &record.standing_water_range {
            range.0.prove()?;
            range.1.prove()?;
        }
        for (field, rate) in [(Field::PumpRate, record.pump_rate), (Field::WellYield, record.well_yield)] {
            if rate.is_some_and(|rate| !(rate.value > 0.0 && rate.value.is_finite())) {
                return Err(Impossible::NotPositive(field));
            }
        }
        if record.plumbing_volume.is_some_and(|volume| !(volume.value >= 0.0 && volume.value.is_finite())) {
            return Err(Impossible::NotPositive(Field::PlumbingVolume));
        }
        Ok(Self(Box::new(record)))
    }

    /// The standing water: as it is planned with, between the least and the most that what was assumed allows.
    pub fn standing(&self) -> Band<&StandingWater> {
        let mid = &self.0.standing_water;
        let range = self.0.standing_water_range.as_deref();
        range.map_or(Band::exactly(mid), |(low, high)| Band { low, mid, high })
    }

    /// The SI value of a measured field, given or assumed; `None` where the record has none.
    pub fn si_value(&self, field: Field) -> Option<f64> {
        let record = &self.0;
        let per_liter = |value: Option<f64>| value.map(|value| value / 1000.0);
        match field {
            Field::Latitude => record.latitude,
            Field::Longitude => record.longitude,
            Field::StickUp => record.stick_up.map(|length| length.value),
            Field::GroundElevation => record.ground_elevation.map(|length| length.value),
            Field::CasingOutsideDiameter => record.casing_outside_diameter.map(|length| length.value),
            Field::WallThickness => record.wall_thickness.map(|length| length.value),
            Field::TotalDepth => record.total_depth.map(|length| length.value),
            Field::StaticWaterLevel => record.static_water_level.map(|length| length.value),
            Field::WaterColumn => match &record.standing_water {
                StandingWater::Bore { water_level, bottom, .. } => Some(bottom.value - water_level.value.max(0.0)),
                StandingWater::Column { height, .. } => Some(height.value),
                StandingWater::Volume { .. } => None,
            },
            Field::CasingDiameter => record.casing_diameter.map(|length| length.value),
            Field::CasingDepth => record.casing_depth.map(|length| length.value),
            Field::OpenHoleDiameter => record.open_hole_diameter.map(|length| length.value),
            Field::WaterVolume => match &record.standing_water {
                StandingWater::Volume { volume } => Some(volume.value),
                _ => None,
            },
            Field::PlumbingVolume => record.plumbing_volume.map(|volume| volume.value),
            Field::PumpRate => record.pump_rate.map(|rate| rate.value),
            Field::WellYield => record.well_yield.map(|rate| rate.value),
            Field::WaterTemperature => record.water.temperature.map(|temperature| temperature.value),
            Field::Ph => record.water.ph,
            Field::Alkalinity => per_liter(record.water.alkalinity_mg_per_l),
            Field::Iron => per_liter(record.water.iron_mg_per_l),
            Field::Manganese => per_liter(record.water.manganese_mg_per_l),
            Field::Sulfide => per_liter(record.water.sulfide_mg_per_l),
            Field::AmmoniaN => per_liter(record.water.ammonia_n_mg_per_l),
            Field::NitriteN => per_liter(record.water.nitrite_n_mg_per_l),
            Field::OrganicCarbon => per_liter(record.water.organic_carbon_mg_per_l),
            Field::UsersServed => record.users_served,
            _ => None,
        }
    }

    /// Whether its list says that it stands in a pit.
    pub fn is_in_pit(&self) -> bool {
        self.hazards.has(Hazard::Pit)
    }

    /// The text of a text or choice field; `None` where the record has none.
    pub fn text(&self, field: Field) -> Option<&str> {
        let record = &self.0;
        match field {
            Field::WellId => Some(&record.id),
            Field::Visit => Some(&record.visit),
            Field::Region => record.region.as_deref(),
            Field::Depot => record.depot.as_deref(),
            Field::WellType => Some(record.well_type.name()),
            Field::CasingMaterial => record.casing_material.as_deref(),
            Field::DischargeRoute => record.discharge_route.map(DischargeRoute::name),
            Field::Status => record.status.as_deref(),
            Field::Notes => record.notes.as_deref(),
            _ => None,
        }
    }

    /// The answer of a yes-or-no field; `None` where the record has none.
    pub fn flag(&self, field: Field) -> Option<bool> {
        match field {
            Field::Flooded => self.0.flooded,
            Field::Seawater => self.0.seawater,
            _ => None,
        }
    }
}

impl StandingWater {
    fn prove(&self) -> Result<(), Impossible> {
        let positive = |length: Length| length.value > 0.0 && length.value.is_finite();
        match self {
            Self::Bore { water_level, bottom, intervals } => {
                if !positive(*bottom) {
                    return Err(Impossible::NotPositive(Field::TotalDepth));
                }
                if !water_level.value.is_finite() || water_level >= bottom {
                    return Err(Impossible::NoWater);
                }
                let mut at = 0.0;
                for interval in intervals {
                    if !positive(interval.diameter) {
                        return Err(Impossible::NotPositive(Field::CasingDiameter));
                    }
                    if interval.top.value != at || interval.bottom <= interval.top {
                        return Err(Impossible::BrokenIntervals);
                    }
                    at = interval.bottom.value;
                }
                if at == bottom.value { Ok(()) } else { Err(Impossible::BrokenIntervals) }
            }
            Self::Column { height, diameter } => {
                if !positive(*height) {
                    Err(Impossible::NotPositive(Field::WaterColumn))
                } else if !positive(*diameter) {
                    Err(Impossible::NotPositive(Field::CasingDiameter))
                } else {
                    Ok(())
                }
            }
            Self::Volume { volume } => {
                if volume.value > 0.0 && volume.value.is_finite() {
                    Ok(())
                } else {
                    Err(Impossible::NotPositive(Field::WaterVolume))
                }
            }
        }
    }
}
