//! The rules of a scenario file, asked of one well that stands in no list.

use std::slice::from_ref;

use super::{Rules, prove_conditions};
use crate::error::Result;
use crate::scenario::{Campaign, Exclude};
use crate::well::Well;

/// What the rules say of it.
#[derive(Debug, Default)]
pub struct Alone {
    /// Bit i is set where rule i holds.
    pub mask: u64,
    /// Why it is left out, where it is.
    pub left_out: Option<String>,
    /// Places of rules that name columns of lists: they cannot be asked of it.
    pub not_asked: Vec<usize>,
}

impl Alone {
    /// Asks every rule.
    ///
    /// # Errors
    /// When a condition is wrong by itself, or does not fit the well's values.
    pub fn of(campaign: &Campaign, well: &Well) -> Result<Self> {
        prove_conditions(campaign)?;
        let mut alone = Self::default();
        for (at, rule) in campaign.overrides.iter().enumerate() {
            // A condition that is right by itself fails by its columns alone.
            let Ok(rules) = Rules::prepare(from_ref(rule), &[], &campaign.rules) else {
                alone.not_asked.push(at);
                continue;
            };
            if rules.conditions().masks(&[well])?.first().is_some_and(|mask| mask & 1 == 1) {
                alone.mask |= 1 << at;
                match &rule.exclude {
                    Some(Exclude::Out(reason)) => alone.left_out = Some(reason.to_string()),
                    Some(Exclude::In) => alone.left_out = None,
                    None => {}
                }
            }
        }
        Ok(alone)
    }
}
