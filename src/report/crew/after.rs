//! The steps after the contact time: getting the chlorine out, taking it out of the water, knowing when to stop.

use super::job::{Job, READING, Steps, figure, text};
use super::phrases::Phrase;
use super::rules::AGENT_WATER_L_PER_KG;
use super::words::{Fill, Terms};
use crate::field::DischargeRoute;
use crate::kernel::moving::{further_to_remove, least_emptyings};
use crate::kernel::neutralizer::Agent;
use crate::quantity::format::number;
use crate::quantity::{Volume, liters_of};
use crate::report::agents::acid_left;

/// Agents that come as a gas or a liquid, and are fed as they come.
const FED_AS_BOUGHT: [Agent; 3] = [Agent::SulfurDioxide, Agent::CalciumThiosulfate, Agent::HydrogenPeroxide];

fn route<'a>(job: &Job<'a>) -> &'a str {
    job.words.term(Terms::Route, job.need.route.map_or("unknown", DischargeRoute::name))
}

/// Pumping on, or emptying and refilling; a fed spring flushes itself.
pub(super) fn flush(steps: &mut Steps<'_>) {
    let job = steps.job;
    let (need, amounts) = (job.need, job.amounts());
    let to = || ("route", text(route(job)));
    let volume = || ("volume", figure(amounts.volume(need.flush_volume)));
    let sea = job.well.seawater == Some(true);
    if need.route == Some(DischargeRoute::Septic) {
        steps.say(Phrase::StepSeptic, Vec::new());
    }
    if let Some(times) = need.emptyings {
        let rules = &job.practice.emptying;
        steps.say(Phrase::StepEmpty, vec![to(), ("once", figure(amounts.volume(need.treated_volume)))]);
        let least = least_emptyings(job.practice, need.emptyings, need.chlorate);
        let phrase = if least.is_some() { Phrase::StepRefillLeast } else { Phrase::StepRefill };
        steps.say(
            phrase,
            vec![
                ("minutes", figure(amounts.about(rules.wait))),
                ("limit", figure(amounts.chlorine(rules.until))),
                ("times", figure(number(times, 3))),
                ("emptied", figure(number(least.unwrap_or(1.0), 3))),
                volume(),
            ],
        );
        chlorate(steps);
    } else if job.is_fed() {
        match need.flush_time {
            Some(time) => {
                steps.say(Phrase::StepFlushSpring, vec![to(), volume(), ("time", figure(amounts.about(time)))]);
            }
            None => steps.say(Phrase::StepFlushSpringOpen, vec![to(), volume()]),
        }
    } else if sea {
        steps.say(Phrase::StepFlushSea, vec![to(), volume()]);
    } else {
        match (need.flush_rate, need.flush_time) {
            (Some(rate), Some(time)) => steps.say(
                Phrase::StepFlush,
                vec![to(), volume(), ("rate", figure(amounts.rate(rate))), ("time", figure(amounts.about(time)))],
            ),
            _ => steps.say(Phrase::StepFlushOpen, vec![to(), volume(), ("found", READING)]),
        }
        match need.route {
            None | Some(DischargeRoute::Hauled) => steps.add(Phrase::StepKeepOut, Vec::new()),
            // Open ground is named as such away from water.
            Some(
                DischargeRoute::Land
                | DischargeRoute::Stream
                | DischargeRoute::StormDrain
                | DischargeRoute::SanitarySewer,
            ) => steps.add(Phrase::StepKeepOutSeptic, Vec::new()),
            // Its own step says it.
            Some(DischargeRoute::Septic) => {}
        }
    }
}

/// Water that an agent is dissolved in; nothing of one that is fed as it is bought.
pub(super) fn agent_water(agent: Agent, kilograms: f64) -> Option<Volume> {
    (!FED_AS_BOUGHT.contains(&agent)).then(|| liters_of(kilograms * AGENT_WATER_L_PER_KG))
}

/// The agent in its water, for a phrase; nothing where no solution is made.
fn dissolved(job: &Job<'_>) -> Option<Vec<(&'static str, Fill)>> {
    let (agent, amount, kilograms) = job.agent()?;
    let water = agent_water(agent, kilograms)?;
    Some(vec![
        ("agent_amount", figure(amount)),
        ("agent", text(job.agent_name(agent))),
        ("agent_water", figure(job.amounts().pail(water))),
    ])
}

/// A share in whole percent, rounded up.
fn percent(share: f64) -> Fill {
    figure(number((share * 100.0 - 1e-9).ceil().min(100.0), 3))
}

/// At a fed spring chlorine leaves from the first hour on.
pub(super) fn neutralize_fed(steps: &mut Steps<'_>) {
    let job = steps.job;
    let need = job.need;
    let Some(mut fills) = dissolved(job) else { return neutralize_other(steps) };
    let overflow = further_to_remove(None, need.feed.as_ref(), need.dose, job.practice.discharge_limit);
    fills.push(("share", percent(overflow.grams() / need.chlorine_to_remove.grams())));
    steps.say(Phrase::StepNeutralizeFed, fills);
    finish(steps);
}

/// Taking the chlorine out of what is pumped: most of it comes first. In a mixed tank 63 % of it leaves with the first volume
/// (F1), in a plug all of it: two thirds of the agent go with that volume. A well that is emptied gives up all but what stays
/// behind (E3).
pub(super) fn neutralize(steps: &mut Steps<'_>) {
    let job = steps.job;
    let need = job.need;
    if job.is_fed() {
        return;
    }
    let Some(mut fills) = dissolved(job) else { return neutralize_other(steps) };
    if need.emptyings.is_some() {
        fills.push(("share", percent(1.0 - job.practice.emptying.carry_over)));
        steps.say(Phrase::StepNeutralizeEmptied, fills);
    } else {
        fills.push(("first", figure(job.amounts().volume(need.treated_volume))));
        match need.flush_rate {
            Some(rate) => {
                fills.push(("first_time", figure(job.amounts().about(need.treated_volume / rate))));
                steps.say(Phrase::StepNeutralizeTimed, fills);
            }
            None => steps.say(Phrase::StepNeutralize, fills),
        }
    }
    finish(steps);
}

/// Where no solution is made.
fn neutralize_other(steps: &mut Steps<'_>) {
    let job = steps.job;
    match (job.need.neutralizer, job.agent()) {
        (Some(agent), Some((_, amount, _))) => {
            let fills = vec![("agent_amount", figure(amount)), ("agent", text(job.agent_name(agent)))];
            steps.say(Phrase::StepNeutralizeBought, fills);
            finish(steps);
        }
        (Some(_), None) => steps.say(Phrase::StepNeutralizeNone, Vec::new()),
        (None, _) if job.need.route == Some(DischargeRoute::Septic) => {}
        (None, _) => steps.say(Phrase::StepNoAgent, Vec::new()),
    }
}

/// Testing, and the agent that leaves no acid.
fn finish(steps: &mut Steps<'_>) {
    let job = steps.job;
    steps.add(Phrase::StepNeutralizeTest, Vec::new());
    let Some(acid) = acid_left(job.need) else { return };
    let acid = ("acid", figure(acid));
    match job.agent_instead() {
        Some((other, amount, _)) => steps.add(
            Phrase::StepInstead,
            vec![acid, ("other_amount", figure(amount)), ("other", text(job.agent_name(other)))],
        ),
        None => steps.add(Phrase::StepAcid, vec![acid]),
    }
}

/// What strips do not show of an aged product.
fn chlorate(steps: &mut Steps<'_>) {
    if let Some(chlorate) = steps.job.chlorate() {
        steps.add(Phrase::StepChlorate, vec![("chlorate", figure(chlorate))]);
    }
}

/// When it is enough, and what the flush has clogged.
pub(super) fn stop(steps: &mut Steps<'_>) {
    let job = steps.job;
    if job.need.emptyings.is_none() {
        let limit = |limit| ("limit", figure(job.amounts().chlorine(limit)));
        match (job.practice.flush_until, job.chlorate()) {
            (Some(until), None) => steps.say(Phrase::StepStop, vec![limit(until)]),
            (Some(until), Some(chlorate)) => {
                // Chlorate goes with the water alone: no residual tells that it has gone.
                let volume = figure(job.amounts().volume(job.need.flush_volume));
                let fills = vec![limit(until), ("volume", volume), ("chlorate", figure(chlorate))];
                steps.say(Phrase::StepStopBoth, fills);
            }
            (None, _) => {
                steps.say(Phrase::StepStopVolumes, Vec::new());
                chlorate(steps);
            }
        }
        // A spring's supply is opened first.
        if !job.is_spring() {
            steps.add(Phrase::StepHouse, Vec::new());
        }
    }
    if job.is_spring() {
        steps.say(Phrase::StepOpenSupply, Vec::new());
    } else if job.need.emptyings.is_some() {
        steps.say(Phrase::StepBack, Vec::new());
    }
}
