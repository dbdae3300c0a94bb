//! Time of one requirement, and of one pH: `cargo bench`. Prints nanoseconds; asserts nothing.

#![allow(clippy::print_stdout)] // A bench is there to print.

use std::hint::black_box;
use std::path::Path;
use std::time::Instant;

use aftercrest::field::WellType;
use aftercrest::hazard::Hazards;
use aftercrest::kernel::effect::{Addition, CarbonateSystem, RawWater, effect};
use aftercrest::kernel::strength::Chemical;
use aftercrest::quantity::basis::{CarbonateConcentration, celsius_of};
use aftercrest::quantity::{ChlorineConcentration, meters};
use aftercrest::scenario::Campaign;
use aftercrest::scenario::stock::stock_on_the_day;
use aftercrest::visit::Need;
use aftercrest::well::{Interval, Record, StandingWater, WaterQuality, Well};

const ROUNDS: u32 = 400_000;

fn time(what: &str, mut work: impl FnMut(u32) -> f64) {
    let mut best = f64::INFINITY;
    for _ in 0..5 {
        let start = Instant::now();
        let mut sum = 0.0;
        for round in 0..ROUNDS {
            sum += work(round);
        }
        black_box(sum);
        best = best.min(start.elapsed().as_secs_f64() * 1e9 / f64::from(ROUNDS));
    }
    println!("{what:<45} {best:8.0} ns");
}

fn well(measured: bool, depth: f64) -> Well {
    let bottom = meters(depth);
    let water = if measured {
        WaterQuality {
            ph: Some(7.4),
            alkalinity_mg_per_l: Some(180.0),
            iron_mg_per_l: Some(1.0),
            ..WaterQuality::default()
        }
    } else {
        WaterQuality::default()
    };
    Well::prove(Record {
        id: "1".into(),
        visit: "1".into(),
        region: None,
        depot: None,
        well_type: WellType::Drilled,
        latitude: None,
        longitude: None,
        stick_up: None,
        ground_elevation: None,
        casing_outside_diameter: None,
        wall_thickness: None,
        total_depth: Some(bottom),
        static_water_level: Some(meters(12.0)),
        casing_diameter: Some(meters(0.1524)),
        casing_depth: None,
        open_hole_diameter: None,
        casing_material: None,
        standing_water: StandingWater::Bore {
            water_level: meters(12.0),
            bottom,
            intervals: vec![Interval { top: meters(0.0), bottom, diameter: meters(0.1524) }],
        },
        standing_water_range: None,
        plumbing_volume: None,
        pump_rate: None,
        well_yield: None,
        water,
        discharge_route: None,
        flooded: None,
        users_served: None,
        seawater: None,
        flows: false,
        status: None,
        notes: None,
        not_understood: None,
        hazards: Hazards::default(),
        assumed: Vec::new(),
        carried: Vec::new(),
    })
    .expect("such a well can exist")
}

fn main() {
    let file = "[campaign]\nunits = \"us\"\n[[scenario]]\nname = \"one\"\nproduct = \"liquid 12.5\"\n";
    let campaign = Campaign::parse(Path::new("bench.toml"), file).expect("the scenario file is right");
    let scenario = &campaign.scenarios[0];
    let practice = campaign.practice_of(scenario, 0);
    let stock = stock_on_the_day(&campaign.products[scenario.product], None, None, None).expect("a stock");
    for (what, measured) in [("requirement, water not measured", false), ("requirement, with pH", true)] {
        let wells: Vec<Well> = (0..64).map(|step| well(measured, 40.0 + f64::from(step))).collect();
        time(what, |round| {
            let need = Need::of(black_box(&wells[(round % 64) as usize]), &practice, stock.readings());
            need.map_or(0.0, |need| need.flush_volume.value)
        });
    }
    let system = CarbonateSystem::at(celsius_of(12.0));
    time("pH after dosing, constants at hand", |round| {
        let water = RawWater {
            ph: 7.0 + f64::from(round % 16) / 16.0,
            alkalinity: CarbonateConcentration::from_milligrams_per_liter(150.0),
        };
        let dose = ChlorineConcentration::from_milligrams_per_liter(50.0 + f64::from(round % 100));
        effect(
            black_box(&system),
            &water,
            &Addition { dose, chemical: Chemical::SodiumHypochlorite, hydroxide_per_chlorine: 0.05 },
        )
        .ph
    });
}
