//! What goes along beside product and agent: gear for the kinds of wells that are on the list, strips and bottles where the
//! campaign states none, water for the users.

use super::job::Job;
use super::phrases::Phrase;
use super::rules::{BOTTLES_A_VISIT, STRIPS_A_VISIT, drinking_water};
use crate::field::{DischargeRoute, Field, WellType};
use crate::quantity::Volume;
use crate::quantity::unit::DAY_S;
use crate::scenario::supply::SupplyLine;

/// What the wells on a list ask for.
#[derive(Debug, Default)]
pub(super) struct Truck {
    cased: bool,
    driven: bool,
    open: bool,
    emptied: bool,
    spring: bool,
    powered: bool,
    /// Some flush water can reach a stream.
    to_stream: bool,
    /// Users that the list knows.
    users: f64,
    /// Water for them through the contact time.
    users_water: Volume,
    /// Some visit has no count of users.
    users_unknown: bool,
}

/// Words in the name of a supply that says strips, or bottles, in the languages of the cards.
const STRIPS: [&str; 2] = ["strip", "tira"];
const BOTTLES: [&str; 3] = ["bottle", "frasco", "botella"];

impl Truck {
    /// Takes note of what one more well asks for.
    pub(super) fn meet(&mut self, job: &Job<'_>) {
        let open = job.is_open();
        self.open |= open;
        self.spring |= job.is_spring();
        self.powered |= !job.is_spring();
        self.cased |= !open && job.well.well_type == WellType::Drilled;
        self.driven |= job.well.well_type == WellType::Driven;
        self.emptied |= job.need.emptyings.is_some();
        self.to_stream |= matches!(job.need.route, None | Some(DischargeRoute::Stream | DischargeRoute::StormDrain));
        match job.well.si_value(Field::UsersServed) {
            Some(users) if users > 0.0 => {
                let days = (job.need.hold.value / DAY_S).ceil().max(1.0);
                self.users += users;
                self.users_water += drinking_water(job.practice.system) * users * days;
            }
            _ => self.users_unknown = true,
        }
    }

    /// Users that are known, with water for them; nothing where none are.
    pub(super) fn users(&self) -> Option<(f64, Volume)> {
        (self.users > 0.0).then_some((self.users, self.users_water))
    }

    /// Gear, whatever the number of visits; with wells that are to be measured what that takes.
    pub(super) fn gear(&self, to_measure: bool) -> Vec<Phrase> {
        let of = |is_there: bool, phrase: Phrase| is_there.then_some(phrase);
        [
            Some(Phrase::LoadGearMeasure),
            of(self.cased, Phrase::LoadGearCased),
            of(self.driven, Phrase::LoadGearDriven),
            Some(Phrase::LoadGearHose),
            of(self.powered || to_measure, Phrase::LoadGearPower),
            Some(Phrase::LoadGearSafety),
            Some(Phrase::LoadGearStrips),
            of(self.to_stream, Phrase::LoadGearLow),
            of(self.open, Phrase::LoadGearDug),
            of(self.emptied, Phrase::LoadGearEmpty),
            of(self.spring, Phrase::LoadGearSpring),
            of(to_measure, Phrase::LoadGearTape),
            of(self.users_unknown, Phrase::LoadGearUsers),
            Some(Phrase::LoadGearPaper),
            Some(Phrase::LoadGearSorbent),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}

/// Strips and bottles by the usual count, where no supply says them: item, note, name of the figure, and how many a visit.
pub(super) fn usual(supplies: &[SupplyLine]) -> impl Iterator<Item = (Phrase, Phrase, &'static str, u32)> {
    let is_stated = |words: &[&str]| {
        supplies.iter().any(|supply| words.iter().any(|word| supply.name.to_lowercase().contains(word)))
    };
    let strips =
        (!is_stated(&STRIPS)).then_some((Phrase::LoadStrips, Phrase::LoadStripsNote, "load_strips", STRIPS_A_VISIT));
    let bottles = (!is_stated(&BOTTLES)).then_some((
        Phrase::LoadBottles,
        Phrase::LoadBottlesNote,
        "load_bottles",
        BOTTLES_A_VISIT,
    ));
    strips.into_iter().chain(bottles)
}
