//! Second routes to the same number, and the rules of thumb that the rooms promise.

use aftercrest::kernel::aging::{
    AgingPace, Composition, Storage, chlorinated_lime_share_left, decomposition_rate, dry_share_left, dry_shelf_life,
    ionic_strength, liquid_share_left, liquid_shelf_life,
};
use aftercrest::kernel::contact::{ContactTime, HoldRule, LeastHold, contact_credit, hold_for, residual_after};
use aftercrest::kernel::demand::{DemandCaution, DemandFactors, demand, demand_cautions};
use aftercrest::kernel::dose_limit::{dose_at_ph, useful_dose};
use aftercrest::kernel::effect::{Addition, CarbonateSystem, RawWater, effect};
use aftercrest::kernel::emptying::{can_empty, cycles, emptyings, wall_area};
use aftercrest::kernel::flush::{drawdown, flush_rate, flush_time, flush_volumes, mixed_tank_volumes};
use aftercrest::kernel::measure::{Graduation, round_up};
use aftercrest::kernel::neutralizer::{
    Agent, agent_mass, agent_to_order, chlorine_to_remove, default_ratio, feed_rate, field_ratio, stoichiometric_ratio,
};
use aftercrest::kernel::spring::{isolated_volume, turnover};
use aftercrest::kernel::strength::{
    Chemical, StrengthBasis, hydroxide_per_chlorine, liquid_readings, liquid_strength, other_meanings,
};
use aftercrest::kernel::{dose, volume};
use aftercrest::quantity::basis::{
    AgentConcentration, CarbonateConcentration, celsius_of, days_of, liters_per_minute, liters_per_minute_of,
};
use aftercrest::quantity::{ChlorineConcentration, ChlorinePerLiquid, liters, liters_of, meters};
use aftercrest::well::{Interval, StandingWater, WaterQuality};

use crate::published::si;

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

fn near(ours: f64, expected: f64, relative: f64) {
    assert!((ours - expected).abs() <= relative * expected.abs(), "{ours} is not {expected}");
}

#[test]
fn standing_volume_splits() {
    let interval =
        |top, bottom, diameter| Interval { top: meters(top), bottom: meters(bottom), diameter: meters(diameter) };
    let bore = |level: f64, intervals: Vec<Interval>| {
        let water = StandingWater::Bore { water_level: meters(level), bottom: meters(60.0), intervals };
        liters(volume::standing_volume(&water))
    };
    let whole = bore(12.5, vec![interval(0.0, 60.0, 0.15)]);
    near(whole, bore(12.5, vec![interval(0.0, 20.0, 0.15), interval(20.0, 60.0, 0.15)]), 1e-14);
    near(whole, std::f64::consts::PI * 0.075 * 0.075 * 47.5 * 1000.0, 1e-14);
    // A flowing well counts to the ground, and a wide top above the water does not count.
    near(bore(-2.0, vec![interval(0.0, 60.0, 0.15)]), bore(0.0, vec![interval(0.0, 60.0, 0.15)]), 1e-14);
    near(whole, bore(12.5, vec![interval(0.0, 10.0, 0.30), interval(10.0, 60.0, 0.15)]), 1e-14);
    let narrow = bore(12.5, vec![interval(0.0, 40.0, 0.15), interval(40.0, 60.0, 0.10)]);
    near(narrow, std::f64::consts::FRAC_PI_4 * (0.15 * 0.15 * 27.5 + 0.1 * 0.1 * 20.0) * 1000.0, 1e-14);
    near(liters(volume::treated_volume(liters_of(100.0), 1.5, liters_of(80.0), None)), 230.0, 1e-14);
    near(liters(volume::treated_volume(liters_of(100.0), 1.5, liters_of(80.0), Some(liters_of(250.0)))), 250.0, 1e-14);
    near(liters(volume::treated_volume(liters_of(100.0), 1.5, liters_of(80.0), Some(liters_of(99.0)))), 230.0, 1e-14);
    let column = |water| volume::water_column(&water).map(|height| height.value);
    assert_eq!(column(StandingWater::Volume { volume: liters_of(1.0) }), None);
    assert_eq!(
        column(StandingWater::Bore { water_level: meters(-1.0), bottom: meters(9.0), intervals: vec![] }),
        Some(9.0)
    );
}

#[test]
fn the_dose_is_target_plus_demand() {
    near(dose::dose(milligrams(100.0), milligrams(12.5)).milligrams_per_liter(), 112.5, 1e-15);
}

#[test]
fn what_is_poured_gives_back_the_dose() {
    let well = liters_of(834.0);
    let need = dose::chlorine(milligrams(107.0), well);
    let poured = dose::liquid_product(need, liquid(121.0));
    near(dose::dose_given(poured * liquid(121.0), well).milligrams_per_liter(), 107.0, 1e-12);
}

#[test]
fn dilution_before_pouring_as_the_sheets_say() {
    // County and city sheets: product and the clean water it goes into, in the sheet's own measures.
    let sheets = [
        ("Washtenaw County MI", 4.0, (1.0, "US gal"), (4.0, "US gal")),
        ("Ottawa County OH", 1.5, (2.0, "US gal"), (3.0, "US gal")),
        ("Freetown", 24.0, (1.0, "US pt"), (3.0, "US gal")),
        ("a trade sheet, 12 parts to 1", 12.0, (1.0, "US qt"), (12.0, "US qt")),
        ("MIL-HDBK-1164, stock solution", 1.0, (1.0, "US qt"), (1.0, "US qt")),
    ];
    for (sheet, ratio, (product, measure), (clean, unit)) in sheets {
        let ours = liters(dose::predilution(ratio, 1000.0 * si(product, measure)));
        assert!((ours - 1000.0 * si(clean, unit)).abs() < 1e-9, "{sheet}: {ours} L");
    }
    // Dry product: litres for each kilogram.
    near(liters(dose::predilution(10.0, 0.35)), 3.5, 1e-12);
    assert_eq!(liters(dose::predilution(0.0, 12.0)), 0.0);
}

#[test]
fn exact_multiples_of_the_measure_stay() {
    // The plain ceiling makes 8 of 0.07 / 0.01; and nothing may ever be rounded down.
    let part = |parts| Graduation { units: 1, parts };
    assert_eq!(round_up(0.07, part(100)), 0.07);
    assert_eq!(round_up(0.3, part(10)), 0.3);
    for (amount, parts, measured) in [(2.01, 4, 2.25), (2.0, 4, 2.0), (0.001, 2, 0.5)] {
        assert_eq!(round_up(amount, part(parts)), measured);
    }
    assert_eq!(round_up(130.0, Graduation { units: 5, parts: 1 }), 130.0);
    assert_eq!(round_up(130.1, Graduation { units: 5, parts: 1 }), 135.0);
}

#[test]
fn bases_of_strength_by_a_second_route() {
    // A kilogram of product, counted by mass instead of by litre: SG from the mass of what is in a litre.
    for (label, caustic) in [(5.25, 0.2), (8.25, 0.05), (12.5, 0.2), (15.0, 0.8)] {
        let strength = liquid_strength(label, StrengthBasis::WeightNaocl, caustic).unwrap();
        let readings = liquid_readings(strength, caustic);
        near(readings.weight_naocl_percent, label, 1e-12);
        let gravity = 1.0 + 1.3083e-3 * readings.grams_per_liter + 0.01507 * caustic;
        near(readings.specific_gravity, gravity, 1e-12);
        near(readings.grams_per_liter, 10.0 * label * gravity * 70.906 / 74.442, 1e-12);
        near(readings.trade_percent, readings.weight_available_chlorine_percent * gravity, 1e-12);
        let again = liquid_strength(
            readings.weight_available_chlorine_percent,
            StrengthBasis::WeightAvailableChlorine,
            caustic,
        );
        near(again.unwrap().grams_per_liter(), strength.grams_per_liter(), 1e-12);
    }
    let meanings = other_meanings(12.5, 0.2).map(|meaning| meaning.unwrap().grams_per_liter().round());
    assert_eq!(meanings, [125.0, 141.0, 150.0, 13.0]);
    for nonsense in [0.0, -1.0, f64::NAN, f64::INFINITY, 90.0] {
        assert!(liquid_strength(nonsense, StrengthBasis::WeightNaocl, 0.2).is_none(), "{nonsense}");
    }
}

#[test]
fn caustic_of_the_method_sheet() {
    // Worked by hand: 12.5 trade %, SG 1.1666, 0.2 wt % is 2.333 g/L = 0.05833 mol/L NaOH on 1.7629 mol/L Cl2.
    near(hydroxide_per_chlorine(liquid(125.0), 0.2), 0.05833 / 1.7629, 1e-3);
    near(hydroxide_per_chlorine(liquid(125.0), 0.5), 0.083, 5e-3);
}

#[test]
fn aging_by_small_steps() {
    // The rate law integrated numerically, through a warm summer, against the closed form.
    let history = [kept(20.0, 30.0), kept(40.0, 22.0), kept(30.0, 35.0)];
    let start = liquid(125.0);
    let mu = 2.0 * 125.0 / 70.906 + 0.08;
    near(ionic_strength(start, Composition::default()), mu, 1e-12);
    for (pace, multiplier) in [(AgingPace::Slow, 0.8), (AgingPace::Typical, 1.25), (AgingPace::Fast, 1.6)] {
        let mut molarity = 125.0 / 70.906;
        for stretch in history {
            let k = multiplier * decomposition_rate(stretch.temperature, mu);
            let steps = 20_000;
            let dt = stretch.duration.value / f64::from(steps);
            for _ in 0..steps {
                let half = molarity - 0.5 * dt * k * molarity * molarity;
                molarity -= dt * k * half * half;
            }
        }
        let aged = liquid_share_left(start, Composition::default(), &history, pace);
        near(aged.share_left, molarity * 70.906 / 125.0, 1e-7);
        assert!(!aged.doubts.any());
    }
}

#[test]
fn aging_says_where_it_leaves_its_range_and_stays_safe() {
    let left = |grams, days, celsius| {
        liquid_share_left(liquid(grams), Composition::default(), &[kept(days, celsius)], AgingPace::Typical)
    };
    assert!(left(20.0, 10.0, 20.0).doubts.too_dilute && left(125.0, 10.0, 5.0).doubts.too_cold);
    assert!(left(125.0, 10.0, 60.0).doubts.too_warm && left(230.0, 10.0, 20.0).doubts.too_strong);
    assert!(left(5.0, 365.25, 20.0).share_left <= (-0.0524_f64).exp() + 1e-12);
    assert!(left(125.0, 365.25, 2.0).share_left <= (-0.0524_f64).exp() + 1e-12);
    assert!(chlorinated_lime_share_left().doubts.needs_test);
    // Half-lives and shares are two readings of one law.
    let life =
        liquid_shelf_life(liquid(125.0), Composition::default(), celsius_of(30.0), 0.6, AgingPace::Typical).unwrap();
    let storage = [Storage { duration: life, temperature: celsius_of(30.0) }];
    near(liquid_share_left(liquid(125.0), Composition::default(), &storage, AgingPace::Typical).share_left, 0.6, 1e-12);
    assert!(liquid_shelf_life(liquid(125.0), Composition::default(), celsius_of(30.0), 1.0, AgingPace::Slow).is_none());
}

#[test]
fn granules_lose_three_to_five_percent_a_year() {
    let lost = |pace| 1.0 - dry_share_left(&[kept(365.25, 20.0)], pace).share_left;
    near(lost(AgingPace::Slow), 0.03, 0.03);
    near(lost(AgingPace::Typical), 0.04, 0.03);
    near(lost(AgingPace::Fast), 0.05, 0.03);
    assert!(dry_share_left(&[kept(10.0, 45.0)], AgingPace::Typical).doubts.too_warm);
    let life = dry_shelf_life(0.9, AgingPace::Fast).unwrap();
    near(life.value / 86_400.0 / 365.25, -(0.9_f64.ln()) / 0.05, 1e-12);
}

#[test]
fn demand_adds_up_and_warns() {
    let measured = WaterQuality {
        iron_mg_per_l: Some(2.0),
        manganese_mg_per_l: Some(0.04),
        ammonia_n_mg_per_l: Some(3.0),
        nitrite_n_mg_per_l: Some(0.1),
        organic_carbon_mg_per_l: Some(1.5),
        sulfide_mg_per_l: Some(0.5),
        ..WaterQuality::default()
    };
    let of = |factors| demand(&measured, factors).unwrap().milligrams_per_liter();
    let by_hand = 2.0 * 0.6348 + 0.04 * 1.2906 + 3.0 * 7.5933 + 0.1 * 5.0622 + 1.5 + 0.5 * 8.3233;
    near(of(DemandFactors::Stoichiometric), by_hand, 1e-4);
    near(of(DemandFactors::Practice), 2.0 * 0.64 + 0.04 * 2.0 + 30.0 + 0.1 * 5.0622 + 1.5 + 1.5, 1e-4);
    assert!(demand(&WaterQuality::default(), DemandFactors::Practice).is_none());
    let cautions: Vec<_> = demand_cautions(&measured, milligrams(30.0)).collect();
    assert!(
        matches!(cautions[..], [DemandCaution::IronWillStain { .. }, DemandCaution::AmmoniaHolds { .. }]),
        "{cautions:?}"
    );
    assert_eq!(demand_cautions(&measured, milligrams(100.0)).count(), 1);
}

#[test]
fn dose_at_ph_solves_back() {
    for (ph, alkalinity, celsius, chemical) in [
        (7.2, 50.0, 10.0, Chemical::SodiumHypochlorite),
        (7.5, 150.0, 12.0, Chemical::SodiumHypochlorite),
        (6.5, 30.0, 8.0, Chemical::CalciumHypochlorite),
        (7.3, 300.0, 25.0, Chemical::CalciumHypochlorite),
    ] {
        let system = CarbonateSystem::at(celsius_of(celsius));
        for target in [8.5, 9.0] {
            let dose = dose_at_ph(&system, &water(ph, alkalinity), chemical, 0.05, target).unwrap();
            let addition = Addition { dose, chemical, hydroxide_per_chlorine: 0.05 };
            near(effect(&system, &water(ph, alkalinity), &addition).ph, target, 1e-7);
        }
    }
    let system = CarbonateSystem::at(celsius_of(12.0));
    let there = dose_at_ph(&system, &water(8.7, 80.0), Chemical::SodiumHypochlorite, 0.05, 8.5);
    assert_eq!(there.map(|dose| dose.milligrams_per_liter()), Some(0.0));
}

#[test]
fn past_the_useful_dose_doubling_gains_little() {
    let system = CarbonateSystem::at(celsius_of(12.0));
    let acid = |dose: f64, raw: &RawWater| {
        let addition = Addition::usual(milligrams(dose), Chemical::SodiumHypochlorite).unwrap();
        dose * effect(&system, raw, &addition).hocl_share
    };
    for (ph, alkalinity) in [(6.5, 30.0), (7.2, 50.0), (7.5, 150.0), (7.3, 300.0)] {
        let raw = water(ph, alkalinity);
        let useful = useful_dose(&system, &raw, Chemical::SodiumHypochlorite, 0.05).unwrap().milligrams_per_liter();
        near(acid(2.0 * useful, &raw) / acid(useful, &raw), 1.25, 1e-6);
        assert!(acid(useful, &raw) / acid(0.5 * useful, &raw) > 1.25);
    }
}

#[test]
fn contact_credit_is_capped() {
    let hour = days_of(1.0 / 24.0);
    assert_eq!(contact_credit(milligrams(100.0), hour), ContactTime(180.0));
    near(contact_credit(milligrams(2.0), hour).0, 120.0, 1e-12);
    near(hold_for(ContactTime(12.0), milligrams(100.0)).unwrap().value, 240.0, 1e-12);
    assert!(hold_for(ContactTime(12.0), milligrams(0.0)).is_none());
    let rule = HoldRule { least_hold: LeastHold::Always(days_of(1.0)), least_residual: Some(milligrams(25.0)) };
    let check = |days, left: Option<f64>| rule.check(milligrams(100.0), days_of(days), left.map(milligrams));
    assert!(check(1.0, Some(30.0)).long_enough && !check(0.9, None).long_enough);
    assert_eq!(check(0.5, None).enough_left, None);
    assert_eq!(check(2.0, Some(20.0)).enough_left, Some(false));
}

#[test]
fn a_stated_decay_halves_on_time() {
    let left = residual_after(milligrams(100.0), std::f64::consts::LN_2 / 6.0, days_of(0.5));
    near(left.milligrams_per_liter(), 25.0, 1e-12);
}

#[test]
fn flushing_by_small_steps() {
    // Clean water in, mixed water out, a thousandth of the well at a time.
    let (mut residual, mut volumes) = (200.0, 0.0);
    while residual > 0.1 {
        residual *= 1.0 - 1e-5;
        volumes += 1e-5;
    }
    near(mixed_tank_volumes(milligrams(200.0), milligrams(0.1)).unwrap(), volumes, 1e-4);
    assert_eq!(mixed_tank_volumes(milligrams(1.0), milligrams(5.0)), Some(1.0));
    assert_eq!(mixed_tank_volumes(milligrams(1.0), milligrams(0.0)), None);
    assert_eq!(flush_volumes(milligrams(200.0), Some(milligrams(1.0)), Some(9.0)), Some(9.0));
    assert_eq!(flush_volumes(milligrams(200.0), None, Some(3.0)), Some(3.0));
    let slow = flush_rate(Some(liters_per_minute_of(40.0)), Some(liters_per_minute_of(15.0)));
    near(flush_time(liters_of(900.0), slow.unwrap()).value, 3600.0, 1e-12);
    assert_eq!(flush_rate(None, None), None);
}

#[test]
fn drawdown_and_recovery_balance() {
    let (pump, supply, standing) = (liters_per_minute_of(40.0), liters_per_minute_of(15.0), liters_of(500.0));
    let drawn = drawdown(standing, pump, supply).unwrap();
    near(drawn.until_dry.value * (40.0 - 15.0) / 60.0, 500.0, 1e-12);
    near(drawn.until_full.value * 15.0 / 60.0, 500.0, 1e-12);
    assert!(drawdown(standing, supply, pump).is_none());
}

#[test]
fn a_spring_turns_over_as_the_clock_says() {
    // 500 gal at 5 gpm: every 100 minutes, 14.4 times a day; the same in litres.
    let volumes = turnover(liters_per_minute_of(18.925), days_of(1.0), liters_of(1892.5));
    near(volumes, 14.4, 1e-12);
}

#[test]
fn a_closed_box_fills_and_no_more() {
    let box_of = |minutes: f64| {
        liters(isolated_volume(liters_of(1000.0), liters_per_minute_of(10.0), days_of(minutes / 1440.0), 0.25))
    };
    near(box_of(0.0), 1000.0, 1e-14);
    near(box_of(10.0), 1100.0, 1e-12);
    near(box_of(25.0), 1250.0, 1e-12);
    near(box_of(5000.0), 1250.0, 1e-12);
}

#[test]
fn walls_unroll() {
    // A ring of 1 m and 3 m deep unrolls to 9.4248 m2, whatever the water level; two rings add up.
    let ring = |top: f64, bottom: f64, diameter: f64| Interval {
        top: meters(top),
        bottom: meters(bottom),
        diameter: meters(diameter),
    };
    let bore = |intervals: Vec<Interval>| StandingWater::Bore {
        water_level: meters(1.0),
        bottom: intervals.last().unwrap().bottom,
        intervals,
    };
    near(wall_area(&bore(vec![ring(0.0, 3.0, 1.0)])).value, 9.424_777_96, 1e-9);
    near(wall_area(&bore(vec![ring(0.0, 2.0, 1.0), ring(2.0, 3.0, 0.5)])).value, 7.853_981_63, 1e-9);
    let column = StandingWater::Column { height: meters(2.0), diameter: meters(1.5) };
    near(wall_area(&column).value, 9.424_777_96, 1e-9);
    // A cubic meter has four sides of one square meter.
    near(wall_area(&StandingWater::Volume { volume: liters_of(1000.0) }).value, 4.0, 1e-12);
    near(wall_area(&StandingWater::Volume { volume: liters_of(8000.0) }).value, 16.0, 1e-12);
}

#[test]
fn emptying_by_emptying() {
    for (start, until, share) in [(100.0, 0.5, 0.1), (101.3, 1.0, 0.1), (200.0, 0.5, 0.05), (60.0, 0.5, 0.5)] {
        let (mut left, mut times) = (start, 0.0);
        while left > until {
            left *= share;
            times += 1.0;
        }
        assert_eq!(emptyings(milligrams(start), milligrams(until), share), Some(times), "{start} {until} {share}");
    }
    // A round power is not one emptying more; little chlorine still asks for one.
    assert_eq!(emptyings(milligrams(100.0), milligrams(0.1), 0.1), Some(3.0));
    assert_eq!(emptyings(milligrams(0.2), milligrams(0.5), 0.1), Some(1.0));
    assert_eq!(emptyings(milligrams(100.0), milligrams(0.0), 0.1), None);
    assert_eq!(emptyings(milligrams(100.0), milligrams(0.5), 1.0), None);
}

#[test]
fn emptying_balances_pump_and_yield() {
    // 1000 L, pump 40, inflow 10 L/min: dry in 33.33 min, 1333.3 L pumped, full again in 100 min, 30 min of waiting.
    let wait = days_of(30.0 / 1440.0);
    let (pump, supply) = (liters_per_minute_of(40.0), liters_per_minute_of(10.0));
    let both = cycles(3.0, liters_of(1000.0), Some(pump), Some(supply), wait).unwrap();
    near(liters(both.pumped), 4000.0, 1e-12);
    near(both.time.unwrap().value / 60.0, 3.0 * (1000.0 / 30.0 + 100.0 + 30.0), 1e-12);
    assert!(both.complete);
    // What is not known adds nothing.
    let pump_alone = cycles(1.0, liters_of(1000.0), Some(pump), None, wait).unwrap();
    near(pump_alone.time.unwrap().value / 60.0, 55.0, 1e-12);
    assert!(!pump_alone.complete && liters(pump_alone.pumped) < 1000.1);
    assert_eq!(cycles(2.0, liters_of(1000.0), None, None, wait).unwrap().time, None);
    // Twice the inflow is the least.
    assert!(can_empty(Some(liters_per_minute_of(20.0)), Some(supply)));
    assert!(cycles(1.0, liters_of(1000.0), Some(liters_per_minute_of(19.9)), Some(supply), wait).is_none());
}

#[test]
fn feed_rate_agrees_with_the_batch() {
    // An hour at 30 L/min with 80 mg/L in it, fed from a 20 g/L solution, uses what the same water takes as a batch.
    for agent in Agent::ALL {
        let need = default_ratio(agent, Some(7.4));
        let solution = AgentConcentration::from_milligrams_per_liter(20_000.0);
        let feed = feed_rate(liters_per_minute_of(30.0), milligrams(80.0), need, 0.1, solution).unwrap();
        let batch = agent_mass(milligrams(80.0) * liters_of(1800.0), need, 0.1);
        near(liters_per_minute(feed) * 60.0 * 20.0, batch.grams(), 1e-12);
    }
    let remove = chlorine_to_remove(milligrams(100.0), liters_of(1000.0), milligrams(0.1), liters_of(5000.0));
    near(remove.grams(), 99.5, 1e-12);
    assert_eq!(chlorine_to_remove(milligrams(0.1), liters_of(1000.0), milligrams(1.0), liters_of(1000.0)).grams(), 0.0);
    let need = default_ratio(Agent::AscorbicAcid, None);
    near(agent_to_order(remove, need, 0.1).grams(), 1.2 * agent_mass(remove, need, 0.0).grams(), 1e-12);
    near(agent_to_order(remove, need, 0.5).grams(), agent_mass(remove, need, 0.5).grams(), 1e-12);
}

#[test]
fn thiosulfate_takes_more_in_alkaline_water() {
    let ratio = |ph| field_ratio(Agent::SodiumThiosulfate, Some(ph)).unwrap().ratio();
    near(ratio(6.5), 1.6, 1e-12);
    near(ratio(6.75), 1.75, 1e-12);
    near(ratio(7.0), 1.9, 1e-12);
    near(ratio(8.0), 2.065, 1e-12);
    near(ratio(11.0), 2.23, 1e-12);
    let hydrate = field_ratio(Agent::SodiumThiosulfatePentahydrate, Some(7.0)).unwrap().ratio();
    near(hydrate, 1.9 * 248.1715 / 158.0965, 1e-6);
    assert!(field_ratio(Agent::HydrogenPeroxide, None).is_none());
    for agent in Agent::ALL {
        assert_eq!(Agent::by_name(agent.name()), Some(agent));
        assert!(default_ratio(agent, None).ratio() > 0.3 && stoichiometric_ratio(agent).ratio() < 4.0);
    }
}
