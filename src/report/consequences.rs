//! What the treatment does beyond the amounts: hold and CT, lime, where more product stops helping, a pump stronger than the
//! well, neutralizing in flow, oxygen and pH afterwards. Shown with the working of one well, because a single answer can be
//! read with its limits; the tables carry the amounts.

use super::step::Step;
use crate::kernel::calcite::calcite_range;
use crate::kernel::chlorate::volumes_for_chlorate;
use crate::kernel::constants::{CHLORATE_GUIDELINE, SLOW_PH};
use crate::kernel::contact::{contact_credit, giardia_contact, virus_contact};
use crate::kernel::dose_limit::{dose_at_ph, useful_dose};
use crate::kernel::effect::{Addition, CarbonateSystem, RawWater};
use crate::kernel::flush::drawdown;
use crate::kernel::neutralizer::{feed_rate, oxygen_taken};
use crate::kernel::requirement::{Practice, Prepared, Requirement};
use crate::quantity::basis::{AgentConcentration, CarbonateConcentration, liters_per_minute};
use crate::quantity::format::number;
use crate::well::Well;

/// Strength of the neutralizer solution that the feed is worked out for: 100 g/L, about what a bucket takes of any agent.
/// Common practice, no source.
const FEED_SOLUTION_G_PER_L: f64 = 100.0;
/// pH at which the dose is looked for beside [`SLOW_PH`]: where hardly any of the chlorine is HOCl. Our line.
const VERY_SLOW_PH: f64 = 9.0;

/// The steps that follow the neutralizer.
pub(super) fn steps(well: &Well, practice: &Practice, product: &Prepared, need: &Requirement) -> Vec<Step> {
    let mut steps = Vec::new();
    let mut step =
        |title, equation, working: String, result: String| steps.push(Step { title, equation, working, result });
    contact(well, practice, need, &mut step);
    chlorate(need, &mut step);
    water(well, practice, product, need, &mut step);
    if let (Some(pump), Some(gives)) = (well.pump_rate, well.well_yield)
        && let Some(cycle) = drawdown(need.standing_volume, pump, gives)
    {
        step(
            "Drawdown",
            "F4",
            "the pump takes more than the well yields".to_owned(),
            format!(
                "dry after about {} min of pumping, full again after {} h of rest",
                number(cycle.until_dry.value / 60.0, 2),
                number(cycle.until_full.value / 3600.0, 2)
            ),
        );
    }
    if let (Some(agent), Some(rate)) = (need.neutralizer, need.flush_rate) {
        let ratio = practice.agent_per_chlorine(agent, need.ph_after.or(well.water.ph));
        let start = practice.residual(need.measured_dose);
        let solution = AgentConcentration::from_milligrams_per_liter(FEED_SOLUTION_G_PER_L * 1000.0);
        if let Some(feed) = feed_rate(rate, start, ratio, practice.neutralizer_excess, solution) {
            step(
                "Feed in flow",
                "R4",
                format!("at the start of the flush, with a solution of {} g/L", number(FEED_SOLUTION_G_PER_L, 3)),
                format!(
                    "{} L/min of solution at the hose; less as the residual falls",
                    number(liters_per_minute(feed), 2)
                ),
            );
        }
        let overdose = AgentConcentration::from_milligrams_per_liter(
            start.milligrams_per_liter() * ratio.ratio() * practice.neutralizer_excess,
        );
        let oxygen = oxygen_taken(agent, overdose);
        if oxygen > 0.0 {
            step(
                "Oxygen taken",
                "R5",
                format!("by the excess of {} %", number(practice.neutralizer_excess * 100.0, 3)),
                format!("up to {} mg/L of oxygen at the start of the flush", number(oxygen, 2)),
            );
        }
    }
    steps
}

fn contact(
    well: &Well,
    practice: &Practice,
    need: &Requirement,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    let temperature = well.water.temperature.unwrap_or(practice.water_temperature);
    let Some(residual) = practice.residual_known(need.measured_dose) else {
        step(
            "CT",
            "C3",
            "the residual after the contact time is not known".to_owned(),
            "no credit without a measured residual; every 1 mg/L left would count, to 3 mg/L".to_owned(),
        );
        return;
    };
    let credit = contact_credit(residual, practice.hold);
    let ph = need.ph_after.or(well.water.ph);
    let wanted = |contact: Option<crate::kernel::contact::ContactTime>| {
        contact.map_or("beyond the tables".to_owned(), |contact| format!("{} mg min/L", number(contact.0, 3)))
    };
    step(
        "CT",
        "C3",
        format!(
            "min({} mg/L, 3 mg/L) x {} min",
            number(residual.milligrams_per_liter(), 3),
            number(practice.hold.value / 60.0, 4)
        ),
        match ph {
            Some(ph) => format!(
                "{} mg min/L; 4-log virus requires {}, 3-log Giardia for {}; sediment and slime get no credit",
                number(credit.0, 4),
                wanted(virus_contact(temperature, ph)),
                wanted(giardia_contact(temperature, residual, ph))
            ),
            None => format!("{} mg min/L; what is required depends on pH", number(credit.0, 4)),
        },
    );
}

fn water(
    well: &Well,
    practice: &Practice,
    product: &Prepared,
    need: &Requirement,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    let (Some(ph), Some(alkalinity)) = (well.water.ph, well.water.alkalinity_mg_per_l) else { return };
    let system = CarbonateSystem::at(well.water.temperature.unwrap_or(practice.water_temperature));
    let raw = RawWater { ph, alkalinity: CarbonateConcentration::from_milligrams_per_liter(alkalinity) };
    let Some(hydroxide_per_chlorine) = product.hydroxide_per_chlorine else { return };
    let addition = Addition { dose: need.measured_dose, chemical: product.chemical, hydroxide_per_chlorine };
    let lime = calcite_range(&system, &raw, &addition);
    let clouds = if lime.may_cloud() {
        "the water may cloud, and pH then falls to"
    } else {
        "no clouding expected; pH at least"
    };
    step(
        "Lime",
        "P3",
        "calcium was not measured: as much as the alkalinity at most".to_owned(),
        format!("saturation index at most {}; {clouds} {}", number(lime.greatest_index, 2), number(lime.ph_settled, 3)),
    );
    let limits = [SLOW_PH.value, VERY_SLOW_PH].map(|wanted| {
        match dose_at_ph(&system, &raw, product.chemical, hydroxide_per_chlorine, wanted) {
            Some(dose) => format!("pH {wanted} at {} mg/L", number(dose.milligrams_per_liter(), 3)),
            None => format!("pH {wanted} at no dose within reason"),
        }
    });
    let useful = match useful_dose(&system, &raw, product.chemical, hydroxide_per_chlorine) {
        Some(dose) => format!(
            "from {} mg/L on, doubling adds less than a quarter of HOCl",
            number(dose.milligrams_per_liter(), 2)
        ),
        None => "doubling keeps adding HOCl".to_owned(),
    };
    step("More product", "P5", "in this water".to_owned(), format!("{}; {useful}", limits.join(", ")));
    if let Some((least, most)) = need.ph_neutralized {
        let range = if least == most { String::new() } else { format!(" to {}", number(most, 3)) };
        let instead = match need.neutralizer_instead {
            Some(agent) => format!("; {} would leave no acid", agent.name().replace('_', " ")),
            None => String::new(),
        };
        step(
            "pH neutralized",
            "R6",
            "what is left of the dose neutralized exactly, by the agent per chlorine that is used".to_owned(),
            format!("pH {}{range}{instead}", number(least, 3)),
        );
    }
}

/// Chlorate of an aged liquid: information, with the flush that carries it out.
fn chlorate(need: &Requirement, step: &mut impl FnMut(&'static str, &'static str, String, String)) {
    let Some(chlorate) = need.chlorate.filter(|chlorate| chlorate.milligrams_per_liter() > 0.0) else { return };
    step(
        "Chlorate",
        "A6",
        "what the product lost has become chlorate, which a chlorine test does not show".to_owned(),
        format!(
            "{} mg/L in the well before flushing; {} volumes carry it below {} mg/L, whatever the residual",
            number(chlorate.milligrams_per_liter(), 2),
            number(volumes_for_chlorate(chlorate), 2),
            CHLORATE_GUIDELINE.value
        ),
    );
}
