//! Relations of the water: how much stands in the well, how much is treated, what it takes, what the walls take.

use super::expression::{Expression, first_known, greatest, if_holds, if_known, least, of};
use super::{Entry, closed, stated};

pub(super) static WATER: &[Entry] = &[
    closed("water_column_m", "V2", || {
        let surface = greatest([of("field.static_water_level"), Expression::Zero]);
        let between = of("field.total_depth") - surface;
        first_known([of("field.water_column"), if_known(of("field.total_depth"), between, Expression::Unknown)])
    }),
    closed("standing_volume_l", "V2", || {
        let surface = greatest([of("field.static_water_level"), Expression::Zero]);
        let wet = least([of("interval.bottom"), of("field.total_depth")]) - greatest([of("interval.top"), surface]);
        let stretch = cylinder(of("interval.diameter"), greatest([wet, Expression::Zero]));
        first_known([
            of("field.water_volume"),
            cylinder(of("field.casing_diameter"), of("field.water_column")),
            Expression::EachInterval(Box::new(stretch)),
        ])
    }),
    closed("water_held_l", "Q2", || {
        let inflow = of("field.well_yield") * of("constant.minutes_per_hour") * of("practice.hold_hours");
        let room = of("practice.spring_rise") * of("standing_volume_l");
        if_holds("flag.spring_closed", of("standing_volume_l") + least([inflow, room]), of("standing_volume_l"))
    }),
    closed("treated_volume_l", "V3", || {
        let plumbing = first_known([of("field.plumbing_volume"), of("practice.plumbing_volume")]);
        greatest([of("practice.volume_allowance") * of("water_held_l") + plumbing, of("practice.least_volume")])
    }),
    closed("demand_mg_per_l", "N1", || {
        let measured = [
            ("practice.factor.iron", "field.iron"),
            ("practice.factor.manganese", "field.manganese"),
            ("practice.factor.sulfide", "field.sulfide"),
            ("practice.factor.ammonia_n", "field.ammonia_n"),
            ("practice.factor.nitrite_n", "field.nitrite_n"),
            ("practice.factor.organic_carbon", "field.organic_carbon"),
        ];
        let terms = measured.map(|(factor, found)| of(factor) * of(found));
        first_known([Expression::SumOfKnown(terms.to_vec()), of("practice.demand_mg_per_l")])
    }),
    closed("dose_mg_per_l", "D1", || of("practice.target_mg_per_l") + of("demand_mg_per_l")),
    closed("wall_area_m2", "E1", || {
        let height = least([of("interval.bottom"), of("field.total_depth")]) - of("interval.top");
        let stretch = of("constant.pi") * of("interval.diameter") * greatest([height, Expression::Zero]);
        let side = || {
            let cubic_meters = of("field.water_volume") / of("constant.liters_per_cubic_meter");
            Expression::CubeRoot(Box::new(cubic_meters))
        };
        first_known([
            of("constant.sides_of_a_box") * side() * side(),
            of("constant.pi") * of("field.casing_diameter") * of("field.water_column"),
            Expression::EachInterval(Box::new(stretch)),
        ])
    }),
    closed("wash_solution_l", "E2", || {
        let solution = of("wall_area_m2") * of("practice.emptying.liters_per_square_meter");
        if_holds("flag.brushed", solution, Expression::Zero)
    }),
    closed("wash_chlorine_g", "E2", || {
        of("wash_solution_l") * of("practice.emptying.wall_wash_mg_per_l") / of("constant.milligrams_per_gram")
    }),
    closed("feed_chlorine_g", "Q3", || {
        let inflow = of("field.well_yield") * of("constant.minutes_per_hour") * of("practice.hold_hours");
        let fed = of("dose_mg_per_l") * inflow / of("constant.milligrams_per_gram");
        if_holds("flag.spring_fed", fed, Expression::Zero)
    }),
    closed("overflow_l", "Q3", || {
        let inflow = of("field.well_yield") * of("constant.minutes_per_hour") * of("practice.hold_hours");
        if_holds("flag.spring_fed", inflow, Expression::Unknown)
    }),
    stated("hold_h", "the contact time of the practice"),
    stated("hold_required_h", "looked up in the rule that the practice chooses"),
];

fn cylinder(diameter: Expression, height: Expression) -> Expression {
    of("constant.quarter_pi") * diameter.clone() * diameter * height * of("constant.liters_per_cubic_meter")
}
