//! Identifiers: one visit of one well is one row.

use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::hash::{BuildHasherDefault, Hasher};

use crate::field::Field;
use crate::field::rules::{ReadingRules, RepeatPolicy};
use crate::finding::catalogue;
use crate::inventory::{Draft, identity};
use crate::place::{Origin, Place};

/// The key is a hash already: it is used as it is.
#[derive(Default)]
struct Ready(u64);

impl Hasher for Ready {
    fn finish(&self) -> u64 {
        self.0
    }
    fn write(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = self.0.rotate_left(8) ^ u64::from(*byte);
        }
    }
    fn write_u64(&mut self, half: u64) {
        self.0 ^= half;
    }
    fn write_usize(&mut self, _length: usize) {}
}

/// Where a visit was first read: which table, which row.
type First = (u32, u32);

/// Visits seen so far: 24 bytes each, whatever the ids are.
#[derive(Default)]
pub struct Identities {
    seen: HashMap<[u64; 2], First, BuildHasherDefault<Ready>>,
    /// Wells with repeated visits: the number to try next.
    next: HashMap<[u64; 2], u64, BuildHasherDefault<Ready>>,
    origins: Vec<Origin>,
    policy: RepeatPolicy,
}

impl Identities {
    /// Nothing seen yet.
    pub fn new(rules: &ReadingRules) -> Self {
        Self { policy: rules.repeats, ..Self::default() }
    }

    /// Goes through the next drafts, which must come in reading order; a repeated visit gets a finding, or a visit of its
    /// own.
    pub fn check(&mut self, drafts: &mut [Draft]) {
        for draft in drafts {
            self.one(draft);
        }
    }

    fn one(&mut self, draft: &mut Draft) {
        if draft.id().is_none() {
            return;
        }
        if self.policy == RepeatPolicy::Latest {
            if let Some(place) = draft.superseded_by().cloned() {
                let says = format!("a later visit of this well is at {place}");
                let related = vec![(place, "is the latest visit".into())];
                draft.say_with(
                    catalogue::SUPERSEDED_VISIT,
                    Field::WellId,
                    says,
                    "nothing, if only the latest is to be planned",
                    related,
                );
            }
            return;
        }
        let here = (self.origin(draft), draft.row());
        let first = match self.seen.entry(draft.identity()) {
            Entry::Vacant(free) => {
                free.insert(here);
                return;
            }
            Entry::Occupied(taken) => *taken.get(),
        };
        let place = Place::row(&self.origins[first.0 as usize], first.1);
        match self.policy {
            RepeatPolicy::HoldBack | RepeatPolicy::Latest => {
                let says = format!("visit {} of this well was read already, at {place}", draft.visit());
                let help = "take one of the two out, number the visits, or [inventory] repeats = \"separate_visits\"";
                draft.say_with(
                    catalogue::REPEATED_VISIT,
                    Field::WellId,
                    says,
                    help,
                    vec![(place, "was read first".into())],
                );
            }
            RepeatPolicy::SeparateVisits => {
                let id = draft.id().unwrap_or_default().to_owned();
                // Without the number to go on from, a list of one id over and over would take the square of its length.
                let next = self.next.entry(identity(&id, "")).or_insert(2);
                let mut visit = *next;
                while self.seen.contains_key(&identity(&id, &visit.to_string())) {
                    visit += 1;
                }
                *next = visit + 1;
                let visit = visit.to_string();
                self.seen.insert(identity(&id, &visit), here);
                let says = format!("this well was read already, at {place}; this row is taken as visit {visit}");
                draft.say_with(
                    catalogue::NUMBERED_VISIT,
                    Field::WellId,
                    says,
                    "nothing, if that is right",
                    vec![(place, "was read first".into())],
                );
                draft.set_visit(&visit);
            }
        }
    }

    fn origin(&mut self, draft: &Draft) -> u32 {
        // Rows come table by table, so it is nearly always the last.
        let at = self.origins.iter().rposition(|origin| origin == draft.origin()).unwrap_or_else(|| {
            self.origins.push(draft.origin().clone());
            self.origins.len() - 1
        });
        at as u32
    }
}
