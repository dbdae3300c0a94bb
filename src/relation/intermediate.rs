//! What the chain computes on its way and no column of the tables shows, from the kernel's own functions; and the readings,
//! low and high, of what the tables show once.

use super::given::Given;
use super::observed::{Seen, seen};
use crate::kernel::emptying::wall_area;
use crate::kernel::measure::{measure_dry, measure_liquid};
use crate::kernel::requirement::Stock;
use crate::kernel::{dose, moving, volume};
use crate::quantity::{ChlorineMass, ProductMass, ProductVolume, Reading, Volume, liters};

fn optional(value: Option<f64>) -> f64 {
    value.unwrap_or(f64::NAN)
}

fn treated(given: &Given<'_>, reading: Reading) -> Volume {
    let held = moving::water_held(given.well, given.practice, volume::standing_volume(given.water(reading)));
    let plumbing = given.well.plumbing_volume.unwrap_or(given.practice.plumbing_volume);
    volume::treated_volume(held, given.practice.volume_allowance, plumbing, given.practice.least_volume)
}

fn wash(given: &Given<'_>, reading: Reading) -> Option<(Volume, ChlorineMass)> {
    moving::wash_chlorine(given.well, given.practice, given.water(reading))
}

fn water_chlorine(given: &Given<'_>, reading: Reading) -> ChlorineMass {
    let chlorine = dose::chlorine(given.need.dose, treated(given, reading));
    let least = given.practice.least_product;
    let least = match given.stock.prepared.stock {
        Stock::Liquid { used, .. } => least.liquid.map(|least| least * reading.of(used)),
        Stock::Dry { used, .. } => least.dry.map(|least| least * reading.of(used)),
    };
    least.filter(|least| *least > chlorine).unwrap_or(chlorine)
}

fn liquid_to_measure(given: &Given<'_>) -> Option<ProductVolume> {
    match given.stock.prepared.stock {
        Stock::Liquid { used, .. } => {
            let side = given.side();
            Some(dose::liquid_product(water_chlorine(given, side), side.of(used)))
        }
        Stock::Dry { .. } => None,
    }
}

fn dry_to_measure(given: &Given<'_>) -> Option<ProductMass> {
    match given.stock.prepared.stock {
        Stock::Dry { used, .. } => {
            let side = given.side();
            Some(dose::dry_product(water_chlorine(given, side), side.of(used)))
        }
        Stock::Liquid { .. } => None,
    }
}

fn liquid_measured(given: &Given<'_>) -> Option<ProductVolume> {
    Some(measure_liquid(liquid_to_measure(given)?, given.practice.system)?.product)
}

fn dry_measured(given: &Given<'_>) -> Option<ProductMass> {
    let Stock::Dry { bulk_density, .. } = given.stock.prepared.stock else { return None };
    Some(measure_dry(dry_to_measure(given)?, bulk_density, given.practice.system)?.product)
}

fn measured_chlorine(given: &Given<'_>, reading: Reading) -> Option<ChlorineMass> {
    match given.stock.prepared.stock {
        Stock::Liquid { used, .. } => Some(liquid_measured(given)? * reading.of(used)),
        Stock::Dry { used, .. } => Some(dry_measured(given)? * reading.of(used)),
    }
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
    seen("treated_volume_l", "Treated volume", "L", |given, reading| liters(treated(given, reading))),
    seen("wall_area_m2", "Wall", "m2", |given, reading| wall_area(given.water(reading)).value),
    seen("wash_solution_l", "Wall wash", "L", |given, reading| {
        wash(given, reading).map_or(0.0, |(solution, _)| liters(solution))
    }),
    seen("wash_chlorine_g", "Chlorine in the wall wash", "g", |given, reading| {
        wash(given, reading).map_or(0.0, |(_, chlorine)| chlorine.grams())
    }),
    seen("feed_chlorine_g", "Chlorine fed to the spring", "g", |given, _| {
        given.need.feed.map_or(0.0, |feed| feed.chlorine.grams())
    }),
    seen("water_chlorine_g", "Chlorine for the water", "g", |given, reading| water_chlorine(given, reading).grams()),
    seen("strength_used_g_per_l", "Strength used, liquid", "g/L", |given, reading| match given.stock.prepared.stock {
        Stock::Liquid { used, .. } => reading.of(used).grams_per_liter(),
        Stock::Dry { .. } => f64::NAN,
    }),
    seen("strength_used_g_per_kg", "Strength used, dry", "g/kg", |given, reading| match given.stock.prepared.stock {
        Stock::Dry { used, .. } => reading.of(used).ratio() * 1000.0,
        Stock::Liquid { .. } => f64::NAN,
    }),
    seen("density_kg_per_l", "Weight of a liter of product", "kg/L", |given, _| match given.stock.prepared.stock {
        Stock::Liquid { density, .. } => density.value / 1000.0,
        Stock::Dry { .. } => f64::NAN,
    }),
    seen("to_measure_l", "Product for the water, liquid", "L", |given, _| {
        optional(liquid_to_measure(given).map(|volume| volume.liters()))
    }),
    seen("to_measure_kg", "Product for the water, dry", "kg", |given, _| {
        optional(dry_to_measure(given).map(|mass| mass.kilograms()))
    }),
    seen("measured_product_l", "Product measured out, liquid", "L", |given, _| {
        optional(liquid_measured(given).map(|volume| volume.liters()))
    }),
    seen("measured_product_kg", "Product measured out, dry", "kg", |given, _| {
        optional(dry_measured(given).map(|mass| mass.kilograms()))
    }),
    seen("measured_chlorine_g", "Chlorine measured out", "g", |given, reading| {
        optional(measured_chlorine(given, reading).map(|chlorine| chlorine.grams()))
    }),
    seen("residual_mg_per_l", "Chlorine after the contact time", "mg/L", |given, _| {
        given.practice.residual(given.need.measured_dose).milligrams_per_liter()
    }),
    seen("chlorine_to_remove_g", "Chlorine to neutralize", "g", |given, _| given.need.chlorine_to_remove.grams()),
    seen("repeat_l", "Repeat round, liquid", "L", |given, _| {
        repeat_and_loss(given).0 * given.need.product.mid.liters()
    }),
    seen("repeat_kg", "Repeat round, dry", "kg", |given, _| {
        repeat_and_loss(given).0 * given.need.product.mid.dry_kilograms()
    }),
    seen("loss_l", "Handling loss, liquid", "L", |given, _| repeat_and_loss(given).1 * given.need.product.mid.liters()),
    seen("loss_kg", "Handling loss, dry", "kg", |given, _| {
        repeat_and_loss(given).1 * given.need.product.mid.dry_kilograms()
    }),
    seen("neutralizer_repeat_kg", "Neutralizer, repeat round", "kg", |given, _| {
        repeat_and_loss(given).0 * given.need.neutralizer_mass.kilograms()
    }),
    seen("neutralizer_loss_kg", "Neutralizer, handling loss", "kg", |given, _| {
        repeat_and_loss(given).1 * given.need.neutralizer_mass.kilograms()
    }),
];
