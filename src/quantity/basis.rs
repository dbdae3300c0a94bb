//! Quantities with their chemical basis in the type.
//!
//! `Of<Chlorine, Mass>` and `Of<Product, Mass>` have the same dimension but are different kinds of thing. Only the
//! products and quotients that mean something in the trade are implemented, each written out once below.

use std::marker::PhantomData;
use std::ops::{Add, Div, Mul, Sub};

use uom::si::f64::{Length, Mass, MassConcentration, Ratio, ThermodynamicTemperature, Time, Volume, VolumeRate};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_concentration::kilogram_per_cubic_meter;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::day;
use uom::si::volume::cubic_meter;
use uom::si::volume_rate::cubic_meter_per_second;

/// Marker: available chlorine, counted as Cl2, the basis of every dose.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub enum Chlorine {}
/// Marker: a chlorine product as it is bought and poured.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub enum Product {}
/// Marker: a neutralizing agent as it is bought.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub enum Neutralizer {}
/// Marker: calcium carbonate, the basis on which alkalinity and hardness are reported.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub enum CalciumCarbonate {}
/// Marker: chlorate, ClO3-, what hypochlorite turns into as it ages.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub enum Chlorate {}

/// What can be dissolved in water and counted in mg/L.
pub trait Solute {}
impl Solute for Chlorine {}
impl Solute for Neutralizer {}
impl Solute for CalciumCarbonate {}
impl Solute for Chlorate {}

/// A quantity `Q` of the substance `S`.
#[derive(Debug)]
pub struct Of<S, Q> {
    quantity: Q,
    substance: PhantomData<S>,
}

// Written by hand: a derive would ask the marker `S` for bounds that it has no use for.
impl<S, Q: Copy> Clone for Of<S, Q> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<S, Q: Copy> Copy for Of<S, Q> {}
impl<S, Q: PartialEq> PartialEq for Of<S, Q> {
    fn eq(&self, other: &Self) -> bool {
        self.quantity == other.quantity
    }
}
impl<S, Q: PartialOrd> PartialOrd for Of<S, Q> {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        self.quantity.partial_cmp(&other.quantity)
    }
}

/// Grams, kilograms of available chlorine (as Cl2).
pub type ChlorineMass = Of<Chlorine, Mass>;
/// Milligrams of available chlorine (as Cl2) per litre of water.
pub type ChlorineConcentration = Of<Chlorine, MassConcentration>;
/// Mass of a product as bought.
pub type ProductMass = Of<Product, Mass>;
/// Volume of a liquid product as bought.
pub type ProductVolume = Of<Product, Volume>;
/// Mass of a neutralizing agent as bought.
pub type AgentMass = Of<Neutralizer, Mass>;
/// Milligrams of alkalinity or hardness, counted as CaCO3, per litre of water.
pub type CarbonateConcentration = Of<CalciumCarbonate, MassConcentration>;
/// Milligrams of chlorate (ClO3-) per liter of water.
pub type ChlorateConcentration = Of<Chlorate, MassConcentration>;
/// Mass of a neutralizing agent per volume of water or solution.
pub type AgentConcentration = Of<Neutralizer, MassConcentration>;
/// Strength of a liquid product: grams of available chlorine per litre of product.
pub type ChlorinePerLiquid = Of<(Chlorine, Product), MassConcentration>;
/// Strength of a dry product: mass of available chlorine per mass of product (0 to 1).
pub type ChlorinePerDry = Of<(Chlorine, Product), Ratio>;
/// Neutralizer needed per chlorine present: milligrams of agent per milligram of chlorine (as Cl2).
pub type AgentPerChlorine = Of<(Neutralizer, Chlorine), Ratio>;

impl<S, Q: Copy> Of<S, Q> {
    /// Declares that `quantity` is of the substance `S`.
    pub const fn new(quantity: Q) -> Self {
        Self { quantity, substance: PhantomData }
    }

    /// The quantity without its basis.
    pub const fn quantity(self) -> Q {
        self.quantity
    }
}

impl<S, Q: Add<Output = Q> + Copy> Add for Of<S, Q> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.quantity + other.quantity)
    }
}
impl<S, Q: Sub<Output = Q> + Copy> Sub for Of<S, Q> {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.quantity - other.quantity)
    }
}
impl<S, Q: Mul<f64, Output = Q> + Copy> Mul<f64> for Of<S, Q> {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.quantity * factor)
    }
}

impl<S: Solute> Of<S, MassConcentration> {
    /// From mg/L of the substance (chlorine as Cl2, alkalinity as CaCO3).
    pub fn from_milligrams_per_liter(value: f64) -> Self {
        Self::new(MassConcentration::new::<kilogram_per_cubic_meter>(value / 1000.0))
    }
    /// In mg/L of the substance.
    pub fn milligrams_per_liter(self) -> f64 {
        self.quantity.get::<kilogram_per_cubic_meter>() * 1000.0
    }
}

impl ChlorinePerLiquid {
    /// From grams of available chlorine per litre of product.
    pub fn from_grams_per_liter(value: f64) -> Self {
        Self::new(MassConcentration::new::<kilogram_per_cubic_meter>(value))
    }
    /// In grams of available chlorine per litre of product.
    pub fn grams_per_liter(self) -> f64 {
        self.quantity.get::<kilogram_per_cubic_meter>()
    }
}

impl<A, B> Of<(A, B), Ratio> {
    /// From a mass fraction or mass ratio (mass per mass).
    pub fn from_ratio(value: f64) -> Self {
        Self::new(Ratio::new::<ratio>(value))
    }
    /// As a mass ratio (mass per mass).
    pub fn ratio(self) -> f64 {
        self.quantity.get::<ratio>()
    }
}

impl<S> Of<S, Mass> {
    /// Takes grams of the substance itself: chlorine as Cl2, a product or an agent as bought.
    pub fn from_grams(value: f64) -> Self {
        Self::new(Mass::new::<kilogram>(value / 1000.0))
    }
    /// Grams of the substance itself, not of what it holds: a product's grams are not its chlorine.
    pub fn grams(self) -> f64 {
        self.quantity.get::<kilogram>() * 1000.0
    }
    /// Takes kilograms of the substance itself, which is also what is stored.
    pub fn from_kilograms(value: f64) -> Self {
        Self::new(Mass::new::<kilogram>(value))
    }
    /// Kilograms of the substance itself, as stored: nothing is converted.
    pub fn kilograms(self) -> f64 {
        self.quantity.get::<kilogram>()
    }
}

impl<S> Of<S, Volume> {
    /// Liters; it is stored as cubic meters.
    pub fn liters(self) -> f64 {
        liters(self.quantity)
    }
}

/// A volume of water from litres.
pub fn liters_of(value: f64) -> Volume {
    Volume::new::<cubic_meter>(value / 1000.0)
}

/// A volume in litres.
pub fn liters(volume: Volume) -> f64 {
    volume.get::<cubic_meter>() * 1000.0
}

/// A length from metres.
pub fn meters(value: f64) -> Length {
    Length::new::<meter>(value)
}

/// A temperature from degrees Celsius.
pub fn celsius_of(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(value)
}

/// A temperature in degrees Celsius.
pub fn celsius(temperature: ThermodynamicTemperature) -> f64 {
    temperature.get::<degree_celsius>()
}

/// A time from days of 86 400 s.
pub fn days_of(value: f64) -> Time {
    Time::new::<day>(value)
}

/// A time in days of 86 400 s.
pub fn days(time: Time) -> f64 {
    time.get::<day>()
}

/// A flow from litres per minute.
pub fn liters_per_minute_of(value: f64) -> VolumeRate {
    VolumeRate::new::<cubic_meter_per_second>(value / 60_000.0)
}

/// A flow in litres per minute.
pub fn liters_per_minute(rate: VolumeRate) -> f64 {
    rate.get::<cubic_meter_per_second>() * 60_000.0
}

/// Dose times water: the chlorine that is needed.
impl Mul<Volume> for ChlorineConcentration {
    type Output = ChlorineMass;
    fn mul(self, water: Volume) -> ChlorineMass {
        Of::new(self.quantity * water)
    }
}

/// Chlorine in water: the concentration that results.
impl Div<Volume> for ChlorineMass {
    type Output = ChlorineConcentration;
    fn div(self, water: Volume) -> ChlorineConcentration {
        Of::new((self.quantity / water).into())
    }
}

/// Chlorine needed over liquid strength: the product to measure out.
impl Div<ChlorinePerLiquid> for ChlorineMass {
    type Output = ProductVolume;
    fn div(self, strength: ChlorinePerLiquid) -> ProductVolume {
        Of::new(self.quantity / strength.quantity)
    }
}

/// Chlorine needed over dry strength: the product to weigh out.
impl Div<ChlorinePerDry> for ChlorineMass {
    type Output = ProductMass;
    fn div(self, strength: ChlorinePerDry) -> ProductMass {
        Of::new(self.quantity / strength.quantity)
    }
}

/// Liquid product times its strength: the chlorine it brings.
impl Mul<ChlorinePerLiquid> for ProductVolume {
    type Output = ChlorineMass;
    fn mul(self, strength: ChlorinePerLiquid) -> ChlorineMass {
        Of::new(self.quantity * strength.quantity)
    }
}

/// Dry product times its strength: the chlorine it brings.
impl Mul<ChlorinePerDry> for ProductMass {
    type Output = ChlorineMass;
    fn mul(self, strength: ChlorinePerDry) -> ChlorineMass {
        Of::new(self.quantity * strength.quantity)
    }
}

/// Chlorine to remove times agent per chlorine: the neutralizer.
impl Mul<AgentPerChlorine> for ChlorineMass {
    type Output = AgentMass;
    fn mul(self, need: AgentPerChlorine) -> AgentMass {
        Of::new(self.quantity * need.quantity)
    }
}
