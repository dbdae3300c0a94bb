//! pH after dosing against PHREEQC: `ph_oracle.csv`, made by `tests/oracle/ph_oracle.py`, 72 waters, both chemicals.

use aftercrest::kernel::calcite::{calcite_range, saturation_index};
use aftercrest::kernel::effect::{Addition, CarbonateSystem, RawWater, effect};
use aftercrest::kernel::strength::Chemical;
use aftercrest::quantity::ChlorineConcentration;
use aftercrest::quantity::basis::{CarbonateConcentration, celsius_of};

use crate::published::{Row, table};

struct Case {
    row: Row,
    system: CarbonateSystem,
    water: RawWater,
    addition: Addition,
}

fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().unwrap()
}

fn cases() -> Vec<Case> {
    table("ph_oracle.csv")
        .into_iter()
        .map(|row| Case {
            system: CarbonateSystem::at(celsius_of(number(&row, "temperature_c"))),
            water: RawWater {
                ph: number(&row, "ph"),
                alkalinity: CarbonateConcentration::from_milligrams_per_liter(number(&row, "alkalinity_mg_per_l")),
            },
            addition: Addition {
                dose: ChlorineConcentration::from_milligrams_per_liter(number(&row, "dose_mg_per_l")),
                chemical: Chemical::by_name(&row["chemical"]).unwrap(),
                hydroxide_per_chlorine: number(&row, "hydroxide_per_chlorine"),
            },
            row,
        })
        .collect()
}

/// Largest of the absolute values, and the mean of the signed ones.
fn spread(differences: &[f64]) -> (f64, f64) {
    let largest = differences.iter().fold(0.0_f64, |most, difference| most.max(difference.abs()));
    (largest, differences.iter().sum::<f64>() / differences.len() as f64)
}

#[test]
fn ph_agrees_with_the_oracle() {
    let mut liquid = Vec::new();
    let mut granules = Vec::new();
    let mut with_calcium = Vec::new();
    for case in cases() {
        let ours = effect(&case.system, &case.water, &case.addition);
        let difference = ours.ph - number(&case.row, "ph_after");
        let share = ours.hocl_share - number(&case.row, "hocl_share");
        if case.addition.chemical.is_liquid() {
            liquid.push(difference);
            with_calcium.push(ours.ph - number(&case.row, "ph_after_with_calcium"));
            assert!(difference.abs() <= 0.03, "{difference:.4} pH away from {:?}", case.row);
            assert!(share.abs() <= 0.02, "{share:.4} of HOCl away from {:?}", case.row);
        } else {
            // Above pH 10 the oracle also binds calcium as CaOH+, with a constant that its database gives for 25 C only and
            // that is several times too great in the cold; we leave that pair out.
            let limit = if number(&case.row, "ph_after") <= 10.0 { 0.03 } else { 0.09 };
            if limit < 0.05 {
                granules.push(difference);
            }
            assert!(difference.abs() <= limit, "{difference:.4} pH away from {:?}", case.row);
        }
    }
    let ((liquid_most, liquid_mean), (granules_most, granules_mean)) = (spread(&liquid), spread(&granules));
    let (calcium_most, calcium_mean) = spread(&with_calcium);
    println!("NaOCl, no calcium: {} waters, largest {liquid_most:.4} pH, mean {liquid_mean:+.4}", liquid.len());
    println!(
        "Ca(OCl)2, no other calcium, up to pH 10: {} waters, largest {granules_most:.4} pH, mean {granules_mean:+.4}",
        granules.len()
    );
    println!("NaOCl, hardness 70 % of alkalinity: largest {calcium_most:.4} pH, mean {calcium_mean:+.4} (ours higher)");
    assert!(liquid.len() >= 60);
    // Calcium of the water, which no inventory gives, binds carbonate: ours reads high, never low by more than 0.03.
    assert!(calcium_most <= 0.15 && with_calcium.iter().all(|difference| *difference > -0.03));
}

#[test]
fn calcite_agrees_with_the_oracle() {
    let mut index_differences = Vec::new();
    let mut settled_differences = Vec::new();
    for case in cases() {
        let hardness = case.water.alkalinity * 0.7;
        let index = saturation_index(&case.system, &case.water, &case.addition, hardness);
        index_differences.push(index - number(&case.row, "calcite_index_with_calcium"));
        let range = calcite_range(&case.system, &case.water, &case.addition);
        assert!(range.least_index <= index && index <= range.greatest_index + 1e-9, "{:?}", case.row);
        assert!(range.ph_settled <= range.ph_clear + 0.01, "{range:?} {:?}", case.row);
        // The oracle's water, with less calcium than the alkalinity could hold, settles between our two ends.
        let settled = number(&case.row, "ph_after_settled");
        if settled > 10.0 {
            continue; // CaOH+, as above.
        }
        settled_differences.push((range.ph_settled - settled).max(settled - range.ph_clear).max(0.0));
    }
    let (index_most, index_mean) = spread(&index_differences);
    let (settled_most, _) = spread(&settled_differences);
    println!("saturation index: largest difference {index_most:.3}, mean {index_mean:+.3}");
    println!("pH settled: at most {settled_most:.3} outside our range");
    assert!(index_most <= 0.03);
    assert!(settled_most <= 0.05);
}
