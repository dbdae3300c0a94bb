//! Draws: values by chance for what is uncertain lie where their distribution says, are the same each time, and say how far a
//! total may lie from what is planned if wells do not all err to the same side.

use aftercrest::engine::Plan;
use aftercrest::quantity::{Band, Draw};
use aftercrest::scenario::stock::StockOnTheDay;
use aftercrest::visit::Need;
use aftercrest::well::Well;

use crate::relations::wells_of_the_demo;

/// The value of a band in a draw.
fn value(draw: u32, whose: &str, band: Band<f64>) -> f64 {
    let drawn = Draw(draw).of("input", whose, band);
    band.mid + (drawn.toward.of(band) - band.mid) * drawn.share
}

#[test]
fn draws_of_a_band_are_those_of_a_triangle() {
    const DRAWS: u32 = 20_000;
    // Even, uneven to either side, mid at an end, from great to small, and without any spread.
    for (low, mid, high) in [
        (1.0, 2.0, 3.0),
        (1.0, 1.2, 4.0),
        (1.0, 3.5, 4.0),
        (1.0, 1.0, 2.0),
        (1.0, 2.0, 2.0),
        (120.0, 90.0, 20.0),
        (7.0, 7.0, 7.0),
    ] {
        let band = Band { low, mid, high };
        let values: Vec<f64> = (0..DRAWS).map(|draw| value(draw, "W1", band)).collect();
        let (least, most) = (f64::min(low, high), f64::max(low, high));
        assert!(values.iter().all(|value| (least..=most).contains(value)), "{band:?}");
        // Mean, spread and mode of a triangular distribution: the variance is (a2 + b2 + c2 - ab - ac - bc) / 18.
        let mean = values.iter().sum::<f64>() / f64::from(DRAWS);
        let variance = (low * low + mid * mid + high * high - low * mid - low * high - mid * high) / 18.0;
        // Four standard errors of the mean.
        let near = 4.0 * (variance / f64::from(DRAWS)).sqrt() + 1e-12;
        assert!((mean - (low + mid + high) / 3.0).abs() <= near, "{band:?}: mean {mean}");
        let found = values.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / f64::from(DRAWS);
        assert!((found - variance).abs() <= 0.04 * variance + 1e-12, "{band:?}: variance {found}, not {variance}");
        let below = values.iter().filter(|value| (**value - low).abs() < (mid - low).abs()).count() as f64;
        let share = if high == low { 0.0 } else { (mid - low) / (high - low) };
        assert!((below / f64::from(DRAWS) - share).abs() < 0.015, "{band:?}: {below} below mid");
    }
}

#[test]
fn draws_of_two_wells_are_drawn_apart_and_of_one_are_the_same() {
    let band = Band { low: -1.0, mid: 0.0, high: 1.0 };
    let together: f64 = (0..10_000).map(|draw| value(draw, "W1", band) * value(draw, "W2", band)).sum();
    // The variance of each is a sixth: of wells that err together the mean product would be that.
    assert!((together / 10_000.0).abs() < 0.01, "{together}");
    assert_eq!(value(7, "W1", band), value(7, "W1", band));
    // A figure that was written down once: draws may not change from one machine or release to the next.
    assert_eq!(value(7, "W1", band), WRITTEN_DOWN);
}

/// By the same steps in another language: FNV-1a, `SplitMix64`, the triangle turned around.
const WRITTEN_DOWN: f64 = 0.718_710_724_725_339_7;

/// What a well needs in the first scenario, and what it needs in some draws.
fn asked(plan: &Plan<'_>, well: &Well, draws: u32) -> (Need, Vec<f64>) {
    let case = &plan.cases[0];
    let (practice, _) = plan.practice_for(case, well).unwrap();
    let lot = &plan.campaign.products[case.scenario.product].name;
    let need = Need::of(well, &practice, case.stock.readings()).unwrap();
    let drawn = |draw| {
        let product = case.stock.drawn(lot, Draw(draw));
        Need::drawn(well, &practice, &product, Draw(draw)).unwrap().product.bought()
    };
    (need, (0..draws).map(drawn).collect())
}

fn is_exact(stock: &StockOnTheDay) -> bool {
    let Band { low, mid, high } = stock.readings();
    low.stock == mid.stock && mid.stock == high.stock
}

#[test]
fn draws_of_the_demo_stay_within_low_and_high_and_their_totals_well_within() {
    const DRAWS: u32 = 200;
    let mut totals = vec![0.0; DRAWS as usize];
    let (mut low, mut mid, mut high, mut uncertain) = (0.0, 0.0, 0.0, 0);
    wells_of_the_demo(|plan, well| {
        let (need, drawn) = asked(plan, well, DRAWS);
        let (least, most) = (need.product_low.bought(), need.product_high.bought());
        let near = 1e-12 * most;
        assert!(drawn.iter().all(|amount| (least - near..=most + near).contains(amount)), "well {}", well.id);
        if well.standing_water_range.is_none() && is_exact(&plan.cases[0].stock) {
            assert!(drawn.iter().all(|amount| *amount == need.product.bought()), "well {}", well.id);
        } else {
            uncertain += 1;
        }
        low += least;
        mid += need.product.bought();
        high += most;
        totals.iter_mut().zip(drawn).for_each(|(total, amount)| *total += amount);
    });
    assert!(uncertain > 10, "{uncertain}");
    totals.sort_by(f64::total_cmp);
    let (from, to) = (totals[10], totals[189]);
    println!("{low:.0} to {high:.0}, planned {mid:.0}; nine in ten draws {from:.0} to {to:.0}; {uncertain} uncertain");
    assert!(low < from && to < high);
}
