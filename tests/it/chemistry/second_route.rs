//! The chemistry a second time: `second_route.csv`, made by `tests/oracle/second_kernel.py` with its own constants and its own
//! numerical route, agrees to one part in ten million; and the limits of validity stand where the constants put them.

use std::collections::BTreeMap;

use aftercrest::kernel::aging::{AgingPace, Composition, Storage, dry_share_left, liquid_share_left};
use aftercrest::kernel::calcite::{CalciteRange, saturation_index};
use aftercrest::kernel::chlorate::chlorate_left;
use aftercrest::kernel::demand::{DemandCaution, DemandFactors, demand, demand_cautions, least_demand};
use aftercrest::kernel::effect::{Addition, CarbonateSystem, KnownWater, RawWater, effect};
use aftercrest::kernel::neutralizer::{Agent, field_ratio, oxygen_taken, ph_after_neutralizing, stoichiometric_ratio};
use aftercrest::kernel::speciation::debye_hueckel_slope;
use aftercrest::kernel::strength::{
    Chemical, StrengthBasis, USUAL_CAUSTIC_PERCENT, chlorinated_lime_range, density_is_fitted, hydroxide_per_chlorine,
    liquid_strength,
};
use aftercrest::quantity::basis::{AgentConcentration, CarbonateConcentration, celsius_of, days_of};
use aftercrest::quantity::{ChlorineConcentration, ChlorinePerLiquid};
use aftercrest::well::WaterQuality;

use crate::published::table;

struct Inputs(BTreeMap<String, String>);

impl Inputs {
    fn number(&self, key: &str) -> f64 {
        self.0[key].parse().unwrap()
    }

    fn agent(&self) -> Agent {
        Agent::by_name(&self.0["agent"]).unwrap()
    }

    fn dosed(&self) -> (CarbonateSystem, RawWater, Addition) {
        let chemical = Chemical::by_name(&self.0["chemical"]).unwrap();
        let alkalinity = CarbonateConcentration::from_milligrams_per_liter(self.number("alkalinity"));
        (
            CarbonateSystem::at(celsius_of(self.number("celsius"))),
            RawWater { ph: self.number("ph"), alkalinity },
            Addition::usual(ChlorineConcentration::from_milligrams_per_liter(self.number("dose")), chemical).unwrap(),
        )
    }

    fn share_left(&self) -> f64 {
        let pace = match self.0["pace"].as_str() {
            "slow" => AgingPace::Slow,
            "typical" => AgingPace::Typical,
            _ => AgingPace::Fast,
        };
        let storage: Vec<Storage> = self.0["storage"]
            .split('+')
            .map(|stretch| {
                let (days, celsius) = stretch.split_once('@').unwrap();
                let (days, celsius): (f64, f64) = (days.parse().unwrap(), celsius.parse().unwrap());
                Storage { duration: days_of(days), temperature: celsius_of(celsius) }
            })
            .collect();
        let strength = ChlorinePerLiquid::from_grams_per_liter(self.number("grams"));
        liquid_share_left(strength, Composition::default(), &storage, pace).share_left
    }

    fn strength(&self, basis: StrengthBasis) -> ChlorinePerLiquid {
        liquid_strength(self.number("label"), basis, self.number("caustic")).unwrap()
    }

    fn demand(&self) -> f64 {
        let water = WaterQuality {
            iron_mg_per_l: Some(self.number("iron")),
            manganese_mg_per_l: Some(self.number("manganese")),
            sulfide_mg_per_l: Some(self.number("sulfide")),
            ammonia_n_mg_per_l: Some(self.number("ammonia")),
            nitrite_n_mg_per_l: Some(self.number("nitrite")),
            organic_carbon_mg_per_l: Some(self.number("carbon")),
            ..WaterQuality::default()
        };
        let demand = match DemandFactors::by_name(&self.0["factors"]) {
            Some(factors) => demand(&water, factors),
            None => least_demand(&water),
        };
        demand.unwrap().milligrams_per_liter()
    }
}

fn ours(quantity: &str, inputs: &Inputs) -> f64 {
    let dosed = || inputs.dosed();
    match quantity {
        "ph_after" => {
            let (system, water, addition) = dosed();
            effect(&system, &water, &addition).ph
        }
        "hocl_share" => {
            let (system, water, addition) = dosed();
            effect(&system, &water, &addition).hocl_share
        }
        "saturation_index" => {
            let (system, water, addition) = dosed();
            saturation_index(&system, &water, &addition, water.alkalinity * 0.6)
        }
        "ph_neutralized" => {
            let (system, water, addition) = dosed();
            let need = stoichiometric_ratio(inputs.agent());
            ph_after_neutralizing(&KnownWater::of(&system, &water).dosed(&addition), inputs.agent(), need, 1.0).1
        }
        "debye_hueckel_slope" => debye_hueckel_slope(celsius_of(inputs.number("celsius"))),
        "share_left" => inputs.share_left(),
        "weight_available_chlorine" => inputs.strength(StrengthBasis::WeightAvailableChlorine).grams_per_liter(),
        "weight_naocl" => inputs.strength(StrengthBasis::WeightNaocl).grams_per_liter(),
        "hydroxide_per_chlorine" => {
            hydroxide_per_chlorine(inputs.strength(StrengthBasis::WeightNaocl), inputs.number("caustic"))
        }
        "agent_per_chlorine" => stoichiometric_ratio(inputs.agent()).ratio(),
        "field_agent_per_chlorine" => field_ratio(inputs.agent(), Some(inputs.number("ph"))).unwrap().ratio(),
        "oxygen_taken" => {
            let overdose = AgentConcentration::from_milligrams_per_liter(inputs.number("overdose"));
            oxygen_taken(inputs.agent(), overdose)
        }
        "demand" => inputs.demand(),
        "chlorate_left" => {
            let strength = |key| ChlorinePerLiquid::from_grams_per_liter(inputs.number(key));
            let dose = ChlorineConcentration::from_milligrams_per_liter(inputs.number("dose"));
            chlorate_left(dose, strength("made"), strength("used")).milligrams_per_liter()
        }
        other => panic!("no quantity {other}"),
    }
}

#[test]
fn the_second_route_agrees() {
    let rows = table("second_route.csv");
    assert!(rows.len() >= 200, "{}", rows.len());
    for row in rows {
        let pairs = row["inputs"].split(';').map(|pair| pair.split_once('=').unwrap());
        let inputs = Inputs(pairs.map(|(key, value)| (key.to_owned(), value.to_owned())).collect());
        let expected: f64 = row["value"].parse().unwrap();
        let ours = ours(&row["quantity"], &inputs);
        assert!((ours - expected).abs() <= 1e-7 * expected.abs().max(0.1), "{row:?}: ours is {ours}");
    }
}

/// The limits of validity, one by one: what is just inside is clean, what is just outside is marked.
#[test]
fn limits_stand_where_they_are_stated() {
    let doubts = |grams: f64, celsius: f64, composition| {
        let storage = [Storage { duration: days_of(1.0), temperature: celsius_of(celsius) }];
        let strength = ChlorinePerLiquid::from_grams_per_liter(grams);
        liquid_share_left(strength, composition, &storage, AgingPace::Typical).doubts
    };
    let usual = Composition::default();
    assert!(doubts(125.0, 14.999, usual).too_cold && !doubts(125.0, 15.001, usual).too_cold);
    assert!(doubts(125.0, 55.001, usual).too_warm && !doubts(125.0, 54.999, usual).too_warm);
    // mu = 2 G / 70.906 + 0.08 is 1 at 32.617 g/L and 6 at 209.88 g/L.
    assert!(doubts(32.61, 20.0, usual).too_dilute && !doubts(32.62, 20.0, usual).too_dilute);
    assert!(doubts(209.89, 20.0, usual).too_strong && !doubts(209.87, 20.0, usual).too_strong);
    let granules = |celsius: f64| {
        let storage = [Storage { duration: days_of(1.0), temperature: celsius_of(celsius) }];
        dry_share_left(&storage, AgingPace::Typical).doubts.too_warm
    };
    assert!(granules(30.001) && !granules(29.999));
    for (pace, loss) in [(AgingPace::Slow, 0.03), (AgingPace::Typical, 0.04), (AgingPace::Fast, 0.05)] {
        let storage = [Storage { duration: days_of(365.25), temperature: celsius_of(20.0) }];
        assert!((-dry_share_left(&storage, pace).share_left.ln() - loss).abs() < 1e-12);
    }
    let fitted = |grams| density_is_fitted(ChlorinePerLiquid::from_grams_per_liter(grams));
    assert!(fitted(164.99) && !fitted(165.01));
    let (weak, strong) = chlorinated_lime_range();
    assert_eq!((weak.ratio(), strong.ratio(), USUAL_CAUSTIC_PERCENT), (0.20, 0.35, 0.2));
    let cloud =
        |greatest_index| CalciteRange { least_index: -1.0, greatest_index, ph_clear: 8.0, ph_settled: 8.0 }.may_cloud();
    assert!(cloud(0.3001) && !cloud(0.2999));
    let stains = |iron, manganese| {
        let water =
            WaterQuality { iron_mg_per_l: Some(iron), manganese_mg_per_l: Some(manganese), ..WaterQuality::default() };
        let dose = ChlorineConcentration::from_milligrams_per_liter(100.0);
        demand_cautions(&water, dose)
            .map(|caution| matches!(caution, DemandCaution::IronWillStain { .. }))
            .collect::<Vec<_>>()
    };
    assert_eq!(stains(0.300_01, 0.050_001), [true, false]);
    assert!(stains(0.299_99, 0.049_999).is_empty());
}
