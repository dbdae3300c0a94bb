//! Amounts as people measure them: in words, rounded up by an eighth or a spoon at most, the same after a journey through the words.

use aftercrest::field::rules::UnitSystem;
use aftercrest::kernel::measure::{
    BY_SPOON_ML, GREATEST_EXCESS, SPOON_ML, measure_dilution, measure_dry, measure_liquid, weigh,
};
use aftercrest::quantity::kitchen::{bucket, words};
use aftercrest::quantity::unit::by_symbol;
use aftercrest::quantity::{Of, Volume, liters_of};
use serde_json::Value;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::volume::cubic_meter;

use crate::running::run;

#[test]
fn amounts_in_words() {
    for (amount, unit, said) in [
        (0.125, "US tsp", "1/8 teaspoon"),
        (1.0, "US tsp", "1 teaspoon"),
        (2.75, "US tsp", "2 3/4 teaspoons"),
        (3.0, "US tsp", "1 tablespoon"),
        (4.5, "US tsp", "1 tablespoon + 1 1/2 teaspoons"),
        (12.0, "US tsp", "4 tablespoons"),
        (4.0, "US tbsp", "1/4 cup"),
        (6.5, "US tbsp", "1/4 cup + 2 1/2 tablespoons"),
        (15.0, "US tbsp", "3/4 cup + 3 tablespoons"),
        (16.0, "US tbsp", "1 cup"),
        (1.75, "US cup", "1 3/4 cups"),
        (1.125, "US cup", "1 cup + 2 tablespoons"),
        (4.0, "US cup", "4 cups"),
        (1.0, "US qt", "1 quart"),
        (1.125, "US qt", "1 quart + 1/2 cup"),
        (3.75, "US qt", "3 quarts + 3 cups"),
        (1.125, "US gal", "1 gallon + 1/2 quart"),
        (2.25, "US gal", "2 gallons + 1 quart"),
        (12.5, "US gal", "12 gallons + 2 quarts"),
        (1520.0, "US gal", "1,520 gallons"),
        (0.11, "oz", "0.11 oz (3.2 g)"),
        (1.3, "oz", "1.3 oz (36.9 g)"),
        (3.25, "oz", "3 1/4 oz"),
        (3.375, "lb", "3 lb 6 oz"),
        (16.5, "lb", "16 lb 8 oz"),
        (40.0, "lb", "40 lb"),
        (7.5, "mL", "7.5 mL"),
        (340.0, "mL", "340 mL"),
        (2.25, "L", "2.25 L"),
        (350.0, "g", "350 g"),
        (1.05, "kg", "1,050 g"),
        (3.2, "kg", "3.2 kg"),
        (4.5, "imp fl oz", "4 1/2 fluid ounces"),
        (1.25, "imp pt", "1 1/4 pints"),
        (2.125, "imp gal", "2 imperial gallons + 1 pint"),
    ] {
        assert_eq!(words(amount, unit), said, "{amount} {unit}");
    }
    assert_eq!(bucket(0.5, "US gal"), "1/2 gallon");
    assert_eq!(bucket(2.5, "US gal"), "2 1/2 gallons");
    assert_eq!(bucket(12.0, "US gal"), "12 gallons");
    assert_eq!(bucket(2.0, "US cup"), "2 cups");
}

/// Cubic meters or kilograms of words, by the tables of NIST Handbook 44 (2024), appendix C: 3 teaspoons a tablespoon, 16
/// tablespoons a cup, 4 cups a quart, 4 quarts a gallon of 231 cubic inches; 16 ounces a pound.
pub(crate) fn worth(said: &str) -> f64 {
    let gallon = 231.0 * 0.0254_f64.powi(3);
    let pint = 4.546_09e-3 / 8.0;
    let parts: Vec<&str> = said.split(" (").next().unwrap().split(' ').collect();
    let (mut total, mut amount) = (0.0, 0.0);
    let mut imperial = false;
    for part in parts {
        let unit = match part.trim_end_matches('s') {
            "imperial" => {
                imperial = true;
                continue;
            }
            "teaspoon" => gallon / 768.0,
            "tablespoon" => gallon / 256.0,
            "cup" => gallon / 16.0,
            "quart" => gallon / 4.0,
            "gallon" if imperial => 8.0 * pint,
            "gallon" => gallon,
            "pint" => pint,
            "ounce" => 4.546_09e-3 / 160.0,
            // Between whole measures and a part of one.
            "fluid" | "+" => continue,
            "mL" => 1e-6,
            "L" => 1e-3,
            "oz" => 0.453_592_37 / 16.0,
            "lb" => 0.453_592_37,
            "g" => 1e-3,
            "kg" => 1.0,
            number => {
                amount += match number.split_once('/') {
                    Some((top, bottom)) => top.parse::<f64>().unwrap() / bottom.parse::<f64>().unwrap(),
                    None => number.replace(',', "").parse().unwrap(),
                };
                continue;
            }
        };
        total += amount * unit;
        amount = 0.0;
    }
    assert!(amount == 0.0, "{said}: a number without a unit");
    total
}

/// Amounts from a millionth to a hundred of the SI unit, close enough together to meet every graduation.
fn amounts() -> impl Iterator<Item = f64> {
    (0..40_000).map(|step| 1e-6 * 10_f64.powf(f64::from(step) / 5_000.0))
}

#[test]
fn rounding_up_adds_at_most_an_eighth_or_a_spoon() {
    // Beside the eighth, one of the finest graduation: 1/8 teaspoon, 0.1 mL, 0.1 g, 0.01 oz; of 10 to 40 mL a spoon of 5 mL.
    let finest = |system, mass: bool| match (system, mass) {
        (UnitSystem::Us, false) => 231.0 * 0.0254_f64.powi(3) / 768.0 / 8.0,
        (_, false) => 1e-7,
        (UnitSystem::Metric, true) => 1e-4,
        (_, true) => 0.453_592_37 / 1600.0,
    };
    let judge = |asked: f64, amount: f64, unit: &str, gives: f64, finest: f64| {
        assert!(gives >= asked * (1.0 - 1e-9), "{asked} became {gives}");
        assert!(gives <= (asked * (1.0 + GREATEST_EXCESS)).max(finest) + finest * 1e-9 || gives - asked <= finest);
        let said = words(amount, unit);
        assert!((worth(&said) - gives).abs() <= 1e-9 * gives, "{amount} {unit}: {said}");
        assert_eq!(by_symbol(unit).unwrap().factor * amount, gives);
        assert!(!said.contains("0.0") || unit == "oz" && amount < 0.1, "{said}");
        // Liters by the quarter: what is finer is said in milliliters.
        assert!(unit != "L" || (amount * 4.0).fract() == 0.0, "{said}");
        // Cups only to four.
        if unit == "US cup" {
            assert!(amount <= 4.0, "{said}");
        }
    };
    for system in [UnitSystem::Us, UnitSystem::Metric, UnitSystem::Imperial] {
        for asked in amounts() {
            let liquid = measure_liquid(Of::new(Volume::new::<cubic_meter>(asked)), system).unwrap();
            let gives = liquid.product.quantity().get::<cubic_meter>();
            let milliliters = asked * 1e6;
            let by_spoon = liquid.unit == "mL" && (BY_SPOON_ML.0..BY_SPOON_ML.1).contains(&milliliters);
            let most = if by_spoon { SPOON_ML * 1e-6 } else { finest(system, false) };
            judge(asked, liquid.amount, liquid.unit, gives, most);
            let weight = weigh(asked, system).unwrap();
            judge(asked, weight.amount, weight.unit, weight.product, finest(system, true));
        }
    }
    assert!(weigh(0.0, UnitSystem::Us).is_none() && weigh(f64::NAN, UnitSystem::Us).is_none());
}

/// What a measuring cup of a metric kitchen is marked in.
#[test]
fn small_metric_amounts_are_those_of_a_syringe_a_spoon_or_a_cup() {
    for (milliliters, said) in [
        (0.31, "0.4 mL"),
        (5.1, "5.5 mL"),
        (8.2, "9 mL"),
        (9.999, "10 mL"),
        (10.0, "10 mL"),
        (10.1, "15 mL"),
        (13.6, "15 mL"),
        (22.4, "25 mL"),
        (37.5, "40 mL"),
        (95.1, "100 mL"),
        (101.0, "110 mL"),
        (491.0, "500 mL"),
        (501.0, "550 mL"),
        (951.0, "1,000 mL"),
        (1001.0, "1,050 mL"),
        (1951.0, "2,000 mL"),
        (2001.0, "2.25 L"),
    ] {
        for system in [UnitSystem::Metric, UnitSystem::Imperial] {
            // An imperial cup is of ounces.
            if system == UnitSystem::Metric || milliliters < 113.0 {
                let measured = measure_liquid(Of::new(liters_of(milliliters / 1000.0)), system).unwrap();
                assert_eq!(words(measured.amount, measured.unit), said, "{milliliters} mL, {system:?}");
            }
        }
    }
}

#[test]
fn granules_by_cup_stop_at_four() {
    let density = aftercrest::quantity::MassDensity::new::<kilogram_per_cubic_meter>(800.0);
    let measured = |kilograms: f64| measure_dry(Of::from_kilograms(kilograms), Some(density), UnitSystem::Us).unwrap();
    assert_eq!(measured(0.5).unit, "US cup");
    assert_eq!(measured(0.9).unit, "lb");
}

#[test]
fn dilution_by_the_bucket() {
    let said = |water: f64, treated: f64, system| {
        measure_dilution(liters_of(water), liters_of(treated), system).map(|water| bucket(water.amount, water.unit))
    };
    assert_eq!(said(0.148, 500.0, UnitSystem::Us).as_deref(), Some("1/2 gallon"));
    assert_eq!(said(7.0, 5000.0, UnitSystem::Us).as_deref(), Some("2 gallons"));
    assert_eq!(said(66.0, 50_000.0, UnitSystem::Us).as_deref(), Some("18 gallons"));
    // 2.4 gallons in a driven point: half a gallon more would thin the dose by a fifth.
    assert_eq!(said(0.075, 9.2, UnitSystem::Us).as_deref(), Some("1 cup"));
    assert_eq!(said(0.2, 300.0, UnitSystem::Metric).as_deref(), Some("0.5 L"));
    assert_eq!(said(0.0, 300.0, UnitSystem::Us), None);
}

/// Quarter-ounce steps gave 229 mg/L where 100 were asked for: 15 ft of water in a 2 in driven point, 30 % bleaching powder.
#[test]
fn a_driven_point_gets_its_dose_by_a_finer_scale() {
    for units in ["us", "metric", "imperial"] {
        let answer = run(&[
            "well",
            "--json",
            "--units",
            units,
            "--type",
            "driven",
            "--water-column",
            "15 ft",
            "--diameter",
            "2 in",
            "--product",
            "bleaching powder 30",
        ])
        .ended(0);
        let message: Value = serde_json::from_str(&answer.out).unwrap();
        let gives = message["measured_dose_mg_per_l"].as_f64().unwrap();
        assert!((100.0..=112.5).contains(&gives), "{units}: {gives}");
    }
    let answer = run(&[
        "well",
        "--type",
        "driven",
        "--water-column",
        "15 ft",
        "--diameter",
        "2 in",
        "--strength",
        "12.5",
        "--basis",
        "trade",
    ])
    .ended(0);
    assert!(answer.out.contains("Measure out   1 5/8 teaspoons of"), "{}", answer.out);
    let said = answer.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("into 1 cup of clean water"), "{}", answer.out);
    assert!(!answer.out.contains("0.0391"), "{}", answer.out);
}
