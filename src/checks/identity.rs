//! Identifiers: one visit of one well is one row.

use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::hash::{BuildHasherDefault, Hasher};

use crate::field::Field;
use crate::field::rules::{ReadingRules, RepeatPolicy};
use crate::finding::catalogue;
use crate::inventory::fill_down::FillDown;
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

/// Where a visit was first read, and a glimpse of what was read there: eight bytes, because there are millions.
#[derive(Debug, Clone, Copy)]
struct First {
    row: u32,
    origin: u16,
    /// Of depth, level and diameter: tells equal rows from contradicting ones, and is wrong once in 65 536.
    glimpse: u16,
}

/// Maps to spread the visits over, so that they do not all grow at once and need twice the memory.
const SHARDS: usize = 64;

type Visits = HashMap<[u64; 2], First, BuildHasherDefault<Ready>>;

/// Visits seen so far: 24 bytes each, whatever the ids are.
pub struct Identities {
    seen: Vec<Visits>,
    /// Wells with repeated visits: the number to try next.
    next: HashMap<[u64; 2], u64, BuildHasherDefault<Ready>>,
    origins: Vec<Origin>,
    above: FillDown,
    policy: RepeatPolicy,
}

fn shard(identity: [u64; 2]) -> usize {
    (identity[1] >> 48) as usize % SHARDS
}

/// Depth, level and diameter as they were read, in sixteen bits.
fn glimpse(draft: &Draft) -> u16 {
    let mut mixed = 0_u64;
    for field in [Field::TotalDepth, Field::StaticWaterLevel, Field::CasingDiameter] {
        // To a tenth of a millimeter: feet and meters of the same well agree.
        let value = draft.number(field).map_or(i64::MIN, |si| (si * 1e4).round() as i64);
        mixed = (mixed.rotate_left(21) ^ value as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    }
    (mixed >> 48) as u16
}

impl Identities {
    /// Begins with no visit seen; the rules say what becomes of a repeated one.
    pub fn new(rules: &ReadingRules) -> Self {
        Self {
            seen: (0..SHARDS).map(|_| Visits::default()).collect(),
            next: HashMap::default(),
            origins: Vec::new(),
            above: FillDown::default(),
            policy: rules.repeats,
        }
    }

    /// Goes through the next drafts, which must come in reading order; a repeated visit gets a finding, or a visit of its
    /// own.
    pub fn check(&mut self, drafts: &mut [Draft]) {
        self.above.apply(drafts);
        for draft in drafts {
            if draft.no_well().is_none() {
                draft.take_replacement();
            }
            self.one(draft);
        }
    }

    fn one(&mut self, draft: &mut Draft) {
        if draft.id().is_none() || draft.no_well().is_some() {
            return;
        }
        if self.policy == RepeatPolicy::Latest {
            if let Some(place) = draft.superseded_by().cloned() {
                let says = format!("a later visit of this well is {}", in_row(&place, draft));
                let related = vec![(place, "is the latest visit".into())];
                draft.say_with(
                    catalogue::SUPERSEDED_VISIT,
                    Field::WellId,
                    says,
                    "no action needed if only the latest is to be planned",
                    related,
                );
            }
            return;
        }
        let here = First { row: draft.row(), origin: self.origin(draft), glimpse: glimpse(draft) };
        let first = match self.seen[shard(draft.identity())].entry(draft.identity()) {
            Entry::Vacant(free) => {
                free.insert(here);
                return;
            }
            Entry::Occupied(taken) => *taken.get(),
        };
        let place = Place::row(&self.origins[usize::from(first.origin)], first.row);
        match self.policy {
            RepeatPolicy::HoldBack | RepeatPolicy::Latest => {
                let (code, how) = if first.glimpse == here.glimpse {
                    (catalogue::REPEATED_VISIT, "with the same depth, level and diameter")
                } else {
                    (catalogue::CONFLICTING_VISIT, "with other values")
                };
                let says =
                    format!("visit {} of this well was read already, {}, {how}", draft.visit(), in_row(&place, draft));
                let help = "take one of the two out, number the visits, or [inventory] repeats = \"separate_visits\"";
                draft.say_with(code, Field::WellId, says, help, vec![(place, "was read first".into())]);
            }
            RepeatPolicy::SeparateVisits => {
                let id = draft.id().unwrap_or_default().to_owned();
                // Without the number to go on from, a list of one id over and over would take the square of its length.
                let next = self.next.entry(identity(&id, "")).or_insert(2);
                let mut visit = *next;
                while self.seen[shard(identity(&id, &visit.to_string()))]
                    .contains_key(&identity(&id, &visit.to_string()))
                {
                    visit += 1;
                }
                *next = visit + 1;
                let visit = visit.to_string();
                let numbered = identity(&id, &visit);
                self.seen[shard(numbered)].insert(numbered, here);
                let says = format!(
                    "this well was read already, {}; this row is taken as visit {visit}",
                    in_row(&place, draft)
                );
                draft.say_with(
                    catalogue::NUMBERED_VISIT,
                    Field::WellId,
                    says,
                    "no action needed if correct",
                    vec![(place, "was read first".into())],
                );
                draft.set_visit(&visit);
            }
        }
    }

    fn origin(&mut self, draft: &Draft) -> u16 {
        // Rows come table by table, so it is nearly always the last.
        let at = self.origins.iter().rposition(|origin| origin == draft.origin()).unwrap_or_else(|| {
            self.origins.push(draft.origin().clone());
            self.origins.len() - 1
        });
        // Beyond so many tables the place named may be another one; the finding stands.
        u16::try_from(at).unwrap_or(u16::MAX)
    }
}
/// `in row 17`, and of which list where it is another one than that of the row.
fn in_row(place: &Place, draft: &Draft) -> String {
    let row = place.row.map_or_else(String::new, |row| format!("in row {row}"));
    match &place.origin.sheet {
        _ if place.origin == *draft.origin() => row,
        Some(sheet) => format!("{row} of {}, sheet {sheet}", place.origin.file),
        None => format!("{row} of {}", place.origin.file),
    }
}
