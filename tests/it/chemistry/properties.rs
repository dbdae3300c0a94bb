//! Properties that must hold for any input, tried on random ones.

use aftercrest::kernel::aging::{AgingPace, Composition, Storage, dry_share_left, liquid_share_left};
use aftercrest::kernel::calcite::calcite_range;
use aftercrest::kernel::dose;
use aftercrest::kernel::dose_limit::{dose_at_ph, useful_dose};
use aftercrest::kernel::effect::{Addition, CarbonateSystem, KnownWater, RawWater, effect};
use aftercrest::kernel::flush::flush_volumes;
use aftercrest::kernel::neutralizer::{Agent, default_ratio, ph_after_neutralizing};
use aftercrest::kernel::speciation::{hocl_share, hypochlorous_pka};
use aftercrest::kernel::strength::{Chemical, StrengthBasis, liquid_strength};
use aftercrest::quantity::basis::{CarbonateConcentration, celsius_of, days_of};
use aftercrest::quantity::{ChlorineConcentration, ChlorineMass, ChlorinePerLiquid};
use proptest::prelude::*;

fn milligrams(value: f64) -> ChlorineConcentration {
    ChlorineConcentration::from_milligrams_per_liter(value)
}

fn water(ph: f64, alkalinity: f64) -> RawWater {
    RawWater { ph, alkalinity: CarbonateConcentration::from_milligrams_per_liter(alkalinity) }
}

fn liquid(grams_per_liter: f64) -> ChlorinePerLiquid {
    ChlorinePerLiquid::from_grams_per_liter(grams_per_liter)
}

fn kept(days: f64, temperature: f64) -> Storage {
    Storage { duration: days_of(days), temperature: celsius_of(temperature) }
}

fn usual(dose: f64, chemical: Chemical) -> Addition {
    Addition::usual(milligrams(dose), chemical).unwrap()
}

fn chemical() -> impl Strategy<Value = Chemical> {
    prop_oneof![
        Just(Chemical::SodiumHypochlorite),
        Just(Chemical::CalciumHypochlorite),
        Just(Chemical::ChlorinatedLime)
    ]
}

proptest! {
    #[test]
    fn more_alkalinity_never_raises_the_swing(
        ph in 6.0..8.3_f64, low in 5.0..400.0_f64, more in 1.01..3.0_f64, celsius in 2.0..30.0_f64, dose in 10.0..1000.0_f64,
        chemical in prop_oneof![Just(Chemical::SodiumHypochlorite), Just(Chemical::CalciumHypochlorite)],
    ) {
        let system = CarbonateSystem::at(celsius_of(celsius));
        let swing = |alkalinity| effect(&system, &water(ph, alkalinity), &usual(dose, chemical)).ph - ph;
        prop_assert!(swing(low * more) <= swing(low) + 2e-3, "{} {}", swing(low), swing(low * more));
    }

    #[test]
    fn older_or_warmer_stock_never_needs_less(
        grams in 5.0..200.0_f64, days in 0.0..700.0_f64, more in 0.0..300.0_f64, celsius in 0.0..50.0_f64, warmer in 0.0..15.0_f64,
        pace in prop_oneof![Just(AgingPace::Slow), Just(AgingPace::Typical), Just(AgingPace::Fast)],
    ) {
        let need = |days, celsius| {
            let aged = liquid_share_left(liquid(grams), Composition::default(), &[kept(days, celsius)], pace);
            dose::liquid_product(ChlorineMass::from_grams(100.0), liquid(grams) * aged.share_left).liters()
        };
        prop_assert!(need(days + more, celsius) >= need(days, celsius));
        // At 15 C the guard of cold stock ends; the rate law takes over from there.
        if celsius >= 15.0 || celsius + warmer < 15.0 {
            prop_assert!(need(days, celsius + warmer) >= need(days, celsius));
        }
        let granules = |days| dry_share_left(&[kept(days, celsius)], pace).share_left;
        prop_assert!(granules(days + more) <= granules(days));
    }

    #[test]
    fn hocl_falls_with_ph_and_with_dose(
        ph in 4.0..11.0_f64, up in 0.0..3.0_f64, celsius in 0.0..35.0_f64, dose in 1.0..2000.0_f64, alkalinity in 5.0..500.0_f64,
    ) {
        let pka = hypochlorous_pka(celsius_of(celsius));
        prop_assert!(hocl_share(ph + up, pka) <= hocl_share(ph, pka));
        let system = CarbonateSystem::at(celsius_of(celsius));
        let at = |dose| effect(&system, &water(ph.min(8.5), alkalinity), &usual(dose, Chemical::SodiumHypochlorite));
        prop_assert!(at(dose * 1.5).ph >= at(dose).ph - 1e-9);
        prop_assert!(at(dose * 1.5).hocl_share <= at(dose).hocl_share + 2e-3);
    }

    #[test]
    fn stronger_product_never_needs_more(
        label in 1.0..16.0_f64, stronger in 1.0..1.5_f64, caustic in 0.0..1.0_f64, grams in 1.0..1e5_f64, days in 0.0..365.0_f64,
        celsius in 0.0..40.0_f64,
    ) {
        for basis in StrengthBasis::ALL {
            let need = |label| {
                let made = liquid_strength(label, basis, caustic).unwrap();
                let aged = liquid_share_left(made, Composition::default(), &[], AgingPace::Typical).share_left;
                dose::liquid_product(ChlorineMass::from_grams(grams), made * aged).liters()
            };
            prop_assert!(need(label * stronger) <= need(label) * (1.0 + 1e-12));
        }
        // Strong stock ages faster, but two stocks of one make that age alike do not change places under half strength lost.
        let left = |label: f64| {
            let made = liquid(10.0 * label);
            let aged = liquid_share_left(made, Composition::default(), &[kept(days, celsius)], AgingPace::Typical);
            (made.grams_per_liter() * aged.share_left, aged.share_left)
        };
        if left(label * stronger).1 > 0.75 {
            prop_assert!(left(label * stronger).0 >= left(label).0 * (1.0 - 1e-9));
        }
    }

    #[test]
    fn flushing_more_leaves_less(start in 1.0..500.0_f64, until in 0.001..1.0_f64, volumes in 1.0..20.0_f64) {
        let needed = flush_volumes(milligrams(start), Some(milligrams(until)), None).unwrap();
        prop_assert!(needed >= 1.0 && needed.is_finite());
        let both = flush_volumes(milligrams(start), Some(milligrams(until)), Some(volumes)).unwrap();
        prop_assert!(both >= needed && both >= volumes);
    }

    #[test]
    fn any_finite_input_gives_a_finite_ph(
        ph in -50.0..60.0_f64, alkalinity in -1e4..1e7_f64, celsius in -400.0..2000.0_f64, dose in -1e3..1e9_f64,
        hydroxide in -10.0..1e6_f64, chemical in chemical(), agent in 0_usize..10,
    ) {
        let system = CarbonateSystem::at(celsius_of(celsius));
        let addition = Addition { dose: milligrams(dose), chemical, hydroxide_per_chlorine: hydroxide };
        let raw = water(ph, alkalinity);
        let after = effect(&system, &raw, &addition);
        prop_assert!((0.0..=14.0).contains(&after.ph) && (0.0..=1.0).contains(&after.hocl_share), "{after:?}");
        let need = default_ratio(Agent::ALL[agent], Some(after.ph));
        let (least, most) = ph_after_neutralizing(&KnownWater::of(&system, &raw).dosed(&addition), Agent::ALL[agent], need, 1.0);
        prop_assert!((0.0..=14.0).contains(&least) && (0.0..=14.0).contains(&most));
        let range = calcite_range(&system, &raw, &addition);
        prop_assert!(range.ph_settled.is_finite() && !range.greatest_index.is_nan() && !range.least_index.is_nan());
        let limit = dose_at_ph(&system, &raw, chemical, hydroxide, 8.5);
        prop_assert!(limit.is_none_or(|dose| dose.milligrams_per_liter().is_finite()));
        let useful = useful_dose(&system, &raw, chemical, hydroxide);
        prop_assert!(useful.is_none_or(|dose| dose.milligrams_per_liter().is_finite()));
    }

    #[test]
    fn the_ph_balances_the_charges(
        ph in 5.5..9.0_f64, alkalinity in 5.0..500.0_f64, celsius in 2.0..30.0_f64, dose in 0.0..1000.0_f64,
    ) {
        // Without a dose the solver must give back the pH it was told; with one, a little more must give a little more.
        let system = CarbonateSystem::at(celsius_of(celsius));
        let at = |dose| effect(&system, &water(ph, alkalinity), &usual(dose, Chemical::SodiumHypochlorite)).ph;
        prop_assert!((at(0.0) - ph).abs() < 1e-8);
        prop_assert!(at(dose + 1.0) > at(dose));
    }
}
