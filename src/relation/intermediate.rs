//! What the chain computes on its way and no column of the tables shows, from the kernel's own functions; and the readings,
//! low and high, of what the tables show once.

use super::given::Given;
use super::observed::{Seen, seen};
use crate::kernel::emptying::wall_area;
use crate::kernel::requirement::{Amount, Stock, TreatedWater, Water};
use crate::kernel::{moving, volume};
use crate::quantity::{ChlorineMass, Reading, liters};

fn optional(value: Option<f64>) -> f64 {
    value.unwrap_or(f64::NAN)
}

fn treated<'a>(given: &Given<'a>, reading: Reading) -> TreatedWater<'a> {
    TreatedWater::of(given.well, given.practice, given.need.dose, Water::of(given.water(reading)))
}

fn water_chlorine(given: &Given<'_>, reading: Reading) -> ChlorineMass {
    treated(given, reading).water_chlorine(given.product(reading))
}

/// Product for the water, of the side that is measured for.
fn to_measure(given: &Given<'_>) -> Amount {
    given.product(given.side()).stock.holding(water_chlorine(given, given.side()))
}

fn measured(given: &Given<'_>) -> Option<Amount> {
    let side = given.side();
    let measured = given.product(side).stock.measured(water_chlorine(given, side), given.practice.system)?;
    Some(measured.product)
}

fn measured_chlorine(given: &Given<'_>, reading: Reading) -> Option<ChlorineMass> {
    Some(given.product(reading).stock.chlorine_in(measured(given)?))
}

/// Product of the first round that the repeat round takes again, and what is lost of both, as shares of it.
fn repeat_and_loss(given: &Given<'_>) -> (f64, f64) {
    let repeat = given.practice.repeat_share;
    (repeat, given.practice.handling_loss * (1.0 + repeat))
}

/// Every quantity on the way, by id, with unit and the function of the kernel that it comes from.
pub static INTERMEDIATE: &[Seen] = &[
    seen("standing_volume_l", "Standing volume", "L", |given, reading| {
        liters(volume::standing_volume(given.water(reading)))
    }),
    seen("water_held_l", "Water during the contact time", "L", |given, reading| {
        let standing = volume::standing_volume(given.water(reading));
        liters(moving::water_held(given.well, given.practice, standing))
    }),
    seen("treated_volume_l", "Treated volume", "L", |given, reading| liters(treated(given, reading).volume)),
    seen("wall_area_m2", "Wall", "m2", |given, reading| wall_area(given.water(reading)).value),
    seen("wash_solution_l", "Wall wash", "L", |given, reading| {
        treated(given, reading).wash.map_or(0.0, |(solution, _)| liters(solution))
    }),
    seen("wash_chlorine_g", "Chlorine in the wall wash", "g", |given, reading| {
        treated(given, reading).wash.map_or(0.0, |(_, chlorine)| chlorine.grams())
    }),
    seen("feed_chlorine_g", "Chlorine fed to the spring", "g", |given, _| {
        given.need.feed.map_or(0.0, |feed| feed.chlorine.grams())
    }),
    seen("water_chlorine_g", "Chlorine for the water", "g", |given, reading| water_chlorine(given, reading).grams()),
    seen("strength_used_g_per_l", "Strength used, liquid", "g/L", |given, reading| {
        match given.product(reading).stock {
            Stock::Liquid { used, .. } => used.grams_per_liter(),
            Stock::Dry { .. } => f64::NAN,
        }
    }),
    seen("strength_used_g_per_kg", "Strength used, dry", "g/kg", |given, reading| match given.product(reading).stock {
        Stock::Dry { used, .. } => used.ratio() * 1000.0,
        Stock::Liquid { .. } => f64::NAN,
    }),
    seen("density_kg_per_l", "Weight of a liter of product", "kg/L", |given, _| match given.stock.prepared.stock {
        Stock::Liquid { density, .. } => density.value / 1000.0,
        Stock::Dry { .. } => f64::NAN,
    }),
    seen("to_measure_l", "Product for the water, liquid", "L", |given, _| to_measure(given).liters()),
    seen("to_measure_kg", "Product for the water, dry", "kg", |given, _| to_measure(given).dry_kilograms()),
    seen("measured_product_l", "Product measured out, liquid", "L", |given, _| {
        optional(measured(given).map(Amount::liters))
    }),
    seen("measured_product_kg", "Product measured out, dry", "kg", |given, _| {
        optional(measured(given).map(Amount::dry_kilograms))
    }),
    seen("measured_chlorine_g", "Chlorine measured out", "g", |given, reading| {
        optional(measured_chlorine(given, reading).map(|chlorine| chlorine.grams()))
    }),
    seen("residual_mg_per_l", "Chlorine after the contact time", "mg/L", |given, _| {
        given.practice.residual(given.need.measured_dose).milligrams_per_liter()
    }),
    seen("chlorine_to_remove_g", "Chlorine to neutralize", "g", |given, _| given.need.chlorine_to_remove.grams()),
    seen("repeat_l", "Repeat round, liquid", "L", |given, _| repeat_and_loss(given).0 * given.need.product.liters()),
    seen("repeat_kg", "Repeat round, dry", "kg", |given, _| {
        repeat_and_loss(given).0 * given.need.product.dry_kilograms()
    }),
    seen("loss_l", "Handling loss, liquid", "L", |given, _| repeat_and_loss(given).1 * given.need.product.liters()),
    seen("loss_kg", "Handling loss, dry", "kg", |given, _| {
        repeat_and_loss(given).1 * given.need.product.dry_kilograms()
    }),
    seen("neutralizer_repeat_kg", "Neutralizer, repeat round", "kg", |given, _| {
        repeat_and_loss(given).0 * given.need.neutralizer_mass.kilograms()
    }),
    seen("neutralizer_loss_kg", "Neutralizer, handling loss", "kg", |given, _| {
        repeat_and_loss(given).1 * given.need.neutralizer_mass.kilograms()
    }),
];
