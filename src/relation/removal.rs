//! Relations of what follows the contact time: flush, emptying, neutralizer.

use super::expression::{Expression, Test, first_known, greatest, if_holds, if_known, least, ln, of};
use super::product::{lost, side};
use super::{Entry, closed, solved};

pub(super) static REMOVAL: &[Entry] = &[
    closed("residual_mg_per_l", "C4", || {
        let decay = Expression::Zero - of("practice.residual_decay_per_hour") * of("practice.hold_hours");
        let decayed = of("measured_dose_mg_per_l") * Expression::Exponential(Box::new(decay));
        first_known([of("practice.residual_after_hold_mg_per_l"), decayed, of("measured_dose_mg_per_l")])
    }),
    closed("emptyings", "E3", || if_holds("flag.emptied", times(), Expression::Unknown)),
    closed("flush_volume_l", "F1", || {
        let pump = || first_known([of("field.pump_rate"), of("practice.flush_rate")]);
        let meanwhile = of("treated_volume_l") * pump() / (pump() - of("field.well_yield"));
        let once = first_known([meanwhile, of("treated_volume_l")]);
        let ratio = || of("residual_mg_per_l") / of("practice.flush.until_mg_per_l");
        let mixed = greatest([Expression::One, ln(ratio())]);
        let mixed = if_known(of("practice.flush.until_mg_per_l"), mixed, Expression::Unknown);
        let volumes = first_known([greatest([mixed, of("practice.flush.volumes")]), Expression::One]);
        if_holds("flag.emptied", of("emptyings") * once, of("treated_volume_l") * volumes)
    }),
    closed("flush_rate_l_per_min", "F3", || {
        let pump = if_holds("flag.spring_fed", Expression::Unknown, of("field.pump_rate"));
        let flushed = first_known([least([pump, of("field.well_yield")]), of("practice.flush_rate")]);
        if_holds("flag.emptied", first_known([of("field.pump_rate"), of("practice.flush_rate")]), flushed)
    }),
    closed("flush_h", "F3", || {
        let pump = || first_known([of("field.pump_rate"), of("practice.flush_rate")]);
        let draining = pump() - of("field.well_yield");
        let both = of("treated_volume_l") / draining + of("treated_volume_l") / of("field.well_yield");
        let one = of("treated_volume_l") / first_known([pump(), of("field.well_yield")]);
        let minutes = first_known([both, one]);
        let cycle = minutes / of("constant.minutes_per_hour") + of("practice.emptying.wait_hours");
        let flushed = of("flush_volume_l") / of("flush_rate_l_per_min") / of("constant.minutes_per_hour");
        if_holds("flag.emptied", of("emptyings") * cycle, flushed)
    }),
    closed("chlorine_to_remove_g", "R3", || {
        let left = of("residual_mg_per_l") * of("treated_volume_l")
            - of("practice.discharge.limit_mg_per_l") * of("flush_volume_l");
        let of_flush = greatest([left / of("constant.milligrams_per_gram"), Expression::Zero]);
        let above = of("dose_mg_per_l") - of("practice.discharge.limit_mg_per_l");
        let run_over = above * of("overflow_l") / of("constant.milligrams_per_gram");
        of_flush + side("wash_chlorine_g") + greatest([run_over, Expression::Zero])
    }),
    solved("agent_per_chlorine", "R1", "by the agent's reaction (R1), or by the field table at the pH solved for (R2)"),
    solved("other_agent_per_chlorine", "R1", "as of the chosen agent; the other is chosen by the pH that it leaves"),
    closed("neutralizer_kg", "R3", || if_holds("flag.neutralized", agent(of("agent_per_chlorine")), Expression::Zero)),
    closed("neutralizer_instead_kg", "R3", || {
        if_holds("flag.other_agent", agent(of("other_agent_per_chlorine")), Expression::Unknown)
    }),
    solved("ph_neutralized_low", "R6", "a closed carbonate system, solved by steps"),
    solved("ph_neutralized_high", "R6", "a closed carbonate system, solved by steps"),
    closed("neutralizer_repeat_kg", "", || of("practice.repeat_share") * of("neutralizer_kg")),
    closed("neutralizer_loss_kg", "", || lost(of("neutralizer_kg"))),
];

fn agent(per_chlorine: Expression) -> Expression {
    of("chlorine_to_remove_g") * per_chlorine * (Expression::One + of("practice.discharge.excess"))
        / of("constant.grams_per_kilogram")
}

/// Times a well is emptied, at least once.
fn times() -> Expression {
    let fall = ln(of("residual_mg_per_l") / of("practice.emptying.until_mg_per_l"));
    let each = ln(Expression::One / of("practice.emptying.carry_over"));
    let positive = Expression::If(
        Box::new(Test::More(of("residual_mg_per_l"), of("practice.emptying.until_mg_per_l"))),
        Box::new(Expression::RoundedUp(Box::new(fall / each))),
        Box::new(Expression::One),
    );
    greatest([positive, Expression::One])
}
