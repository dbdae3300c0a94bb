//! Relations of the product: from chlorine to what is bought and measured out, and what that gives.

use super::expression::{Expression, Operand, Part, first_known, greatest, if_holds, of};
use super::{Entry, closed, solved};
use crate::quantity::Reading;

pub(super) static PRODUCT: &[Entry] = &[
    closed("strength_label_g_per_l", "S1", || {
        let percent = || of("constant.grams_per_kilogram_of_percent");
        let of_hypochlorite = of("product.weight_naocl") * percent() * of("constant.chlorine_molar_mass")
            / of("constant.hypochlorite_molar_mass");
        let liquid = first_known([
            of("product.trade_percent") * of("constant.grams_per_liter_of_percent"),
            of("product.grams_per_liter"),
            by_weight(of("product.weight_available_chlorine") * percent()),
            by_weight(of_hypochlorite),
        ]);
        if_holds("flag.liquid", liquid, Expression::Unknown)
    }),
    closed("strength_label_g_per_kg", "S4", || {
        let share = of("product.weight_available_chlorine") * of("constant.grams_per_kilogram_of_percent");
        if_holds("flag.liquid", Expression::Unknown, share)
    }),
    solved(
        "share_left",
        "A3",
        "worked out over the history of storage, stretch by stretch (A3 of a liquid, A5 of a dry product)",
    ),
    closed("strength_used_g_per_l", "A3", || {
        first_known([of("product.tested_g_per_l"), of("strength_label_g_per_l")]) * of("share_left")
    }),
    closed("strength_used_g_per_kg", "A5", || {
        first_known([of("product.tested_g_per_kg"), of("strength_label_g_per_kg")]) * of("share_left")
    }),
    closed("density_kg_per_l", "S2", || {
        let gravity = Expression::One
            + of("constant.density_per_chlorine") * of("strength_label_g_per_l")
            + of("constant.density_per_caustic") * of("product.caustic_percent");
        if_holds("flag.liquid", gravity * of("constant.density_of_water"), Expression::Unknown)
    }),
    closed("water_chlorine_g", "D2", || {
        let needed = of("dose_mg_per_l") * of("treated_volume_l") / of("constant.milligrams_per_gram");
        let least = if_holds(
            "flag.liquid",
            of("practice.least_product.liquid") * of("strength_used_g_per_l"),
            of("practice.least_product.dry") * of("strength_used_g_per_kg"),
        );
        greatest([needed, least])
    }),
    closed("chlorine_g", "D2", in_all),
    closed("product_l", "D3", || {
        let planned = in_all() / of("strength_used_g_per_l");
        if_holds("flag.liquid", on_the_side(of("product_high_l"), planned), Expression::Unknown)
    }),
    closed("product_kg", "D4", || {
        let planned = in_all() / of("strength_used_g_per_kg");
        let weight = of("product_l") * of("density_kg_per_l");
        if_holds("flag.liquid", weight, on_the_side(of("product_high_kg"), planned))
    }),
    closed("product_low_l", "D3", || liquid().at(Reading::Low, &super::varies)),
    closed("product_high_l", "D3", || liquid().at(Reading::High, &super::varies)),
    closed("product_low_kg", "D4", || dry().at(Reading::Low, &super::varies)),
    closed("product_high_kg", "D4", || dry().at(Reading::High, &super::varies)),
    closed("to_measure_l", "D3", || {
        let product = side("water_chlorine_g") / side("strength_used_g_per_l");
        if_holds("flag.liquid", product, Expression::Unknown)
    }),
    closed("to_measure_kg", "D4", || {
        let product = side("water_chlorine_g") / side("strength_used_g_per_kg");
        if_holds("flag.liquid", Expression::Unknown, product)
    }),
    closed("measured_product_l", "M1", || {
        if_holds("flag.liquid", measured(of("to_measure_l"), Part::Product), Expression::Unknown)
    }),
    closed("measured_product_kg", "M1", || {
        if_holds("flag.liquid", Expression::Unknown, measured(of("to_measure_kg"), Part::Product))
    }),
    closed("measured_amount", "M1", || {
        if_holds("flag.liquid", measured(of("to_measure_l"), Part::Amount), measured(of("to_measure_kg"), Part::Amount))
    }),
    closed("measured_chlorine_g", "D5", || {
        if_holds(
            "flag.liquid",
            of("measured_product_l") * of("strength_used_g_per_l"),
            of("measured_product_kg") * of("strength_used_g_per_kg"),
        )
    }),
    closed("measured_dose_mg_per_l", "D5", given_dose),
    closed("least_dose_mg_per_l", "D5", || given_dose().at(Reading::High, &super::varies)),
    closed("chlorate_mg_per_l", "A6", || {
        let lost = of("strength_label_g_per_l") / of("strength_used_g_per_l") - Expression::One;
        let per_chlorine = of("constant.chlorate_per_hypochlorite") * of("constant.chlorate_molar_mass")
            / of("constant.chlorine_molar_mass");
        let chlorate = of("measured_dose_mg_per_l") * greatest([lost, Expression::Zero]) * per_chlorine;
        if_holds("flag.liquid", chlorate, Expression::Unknown)
    }),
    closed("dose_if_spread_mg_per_l", "D5", || {
        let spread = of("measured_dose_mg_per_l") * of("treated_volume_l")
            / (of("treated_volume_l") + of("constant.house_plumbing_l"));
        if_holds("flag.plumbing_uncounted", spread, Expression::Unknown)
    }),
    closed("wall_wash_l", "E2", || if_holds("flag.brushed", side("wash_solution_l"), Expression::Unknown)),
    closed("wall_wash_amount", "M1", || {
        let amount = |strength| measured(side("wash_chlorine_g") / side(strength), Part::Amount);
        let amount = if_holds("flag.liquid", amount("strength_used_g_per_l"), amount("strength_used_g_per_kg"));
        if_holds("flag.brushed", amount, Expression::Unknown)
    }),
    closed("feed_l_per_h", "Q3", || fed(per_hour() / side("strength_used_g_per_l"), Expression::Unknown)),
    closed("feed_kg_per_h", "Q3", || {
        let weight = of("feed_l_per_h") * of("density_kg_per_l");
        fed(weight, per_hour() / side("strength_used_g_per_kg"))
    }),
    closed("feed_l", "Q3", || fed(of("feed_chlorine_g") / side("strength_used_g_per_l"), Expression::Unknown)),
    closed("feed_kg", "Q3", || {
        let weight = of("feed_l") * of("density_kg_per_l");
        fed(weight, of("feed_chlorine_g") / side("strength_used_g_per_kg"))
    }),
    closed("predilution_l", "L1", || {
        let dry = of("practice.predilution_ratio") * of("constant.liters_per_kilogram") * of("measured_product_kg");
        if_holds("flag.liquid", of("practice.predilution_ratio") * of("measured_product_l"), dry)
    }),
    solved("ph_after", "P2", "a closed carbonate system, solved by steps"),
    solved("hocl_share", "H3", "follows from the pH that is solved for"),
    closed("repeat_l", "", || of("practice.repeat_share") * of("product_l")),
    closed("repeat_kg", "", || {
        if_holds("flag.liquid", Expression::Unknown, of("practice.repeat_share") * of("product_kg"))
    }),
    closed("loss_l", "", || lost(of("product_l"))),
    closed("loss_kg", "", || if_holds("flag.liquid", Expression::Unknown, lost(of("product_kg")))),
];

/// Loss of both rounds.
pub(super) fn lost(amount: Expression) -> Expression {
    of("practice.handling_loss") * (Expression::One + of("practice.repeat_share")) * amount
}

fn by_weight(grams_per_kilogram: Expression) -> Expression {
    let light = || grams_per_kilogram.clone() * of("constant.density_of_water");
    light() * (Expression::One + of("constant.density_per_caustic") * of("product.caustic_percent"))
        / (Expression::One - of("constant.density_per_chlorine") * light())
}

/// The chlorine of the water, the walls and the feed.
fn in_all() -> Expression {
    of("water_chlorine_g") + of("wash_chlorine_g") + of("feed_chlorine_g")
}

fn liquid() -> Expression {
    if_holds("flag.liquid", in_all() / of("strength_used_g_per_l"), Expression::Unknown)
}

fn dry() -> Expression {
    if_holds("flag.liquid", Expression::Unknown, in_all() / of("strength_used_g_per_kg"))
}

fn given_dose() -> Expression {
    of("measured_chlorine_g") * of("constant.milligrams_per_gram") / of("treated_volume_l")
}

fn measured(amount: Expression, part: Part) -> Expression {
    Expression::Measured(Box::new(amount), part)
}

/// What is planned: the high reading where the amount is measured for that side.
fn on_the_side(high: Expression, planned: Expression) -> Expression {
    if_holds("flag.measured_for_high", high, planned)
}

/// An operand in the reading that is measured for.
pub(super) fn side(id: &'static str) -> Expression {
    on_the_side(Expression::Of(Operand { id, reading: Reading::High }), of(id))
}

fn per_hour() -> Expression {
    of("dose_mg_per_l") * of("field.well_yield") * of("constant.minutes_per_hour") / of("constant.milligrams_per_gram")
}

fn fed(liquid: Expression, dry: Expression) -> Expression {
    if_holds("flag.spring_fed", if_holds("flag.liquid", liquid, dry), Expression::Unknown)
}
