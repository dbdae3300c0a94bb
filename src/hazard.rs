//! What words in a list mean for the person who goes to the well: fuel in the water, wires down, a dog, a baby who drinks it.
//!
//! [`find`] reads a text that somebody typed; the words of each hazard stand in `words` and `states`, the rules of reading in `scan`.
//! The checks report what is found, and results carry it as a small set. Refuses to know which column the text stood in.

mod needles;
mod scan;
mod states;
mod words;

use crate::source::{Provenance, Source};
pub use scan::{Hit, find, find_in_name, is_yes};

/// Something that changes what a person does at a well; the order is the order of printing, worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(u8)]
#[allow(missing_docs)] // Each is spelled out in `ENTRIES`.
pub enum Hazard {
    Electric,
    Gas,
    Fuel,
    Chemicals,
    UnderWater,
    Damaged,
    Pit,
    Uncovered,
    Flowing,
    CannotPump,
    Seawater,
    Sewage,
    DeadAnimal,
    Infant,
    Patient,
    NotFound,
    RoadClosed,
    Locked,
    Dog,
    Stings,
}

/// How many hazards there are.
pub const COUNT: usize = 20;

/// One hazard, as people read of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// The hazard that these words are about; each has one entry.
    pub hazard: Hazard,
    /// The word in the `crew_flags` column.
    pub word: &'static str,
    /// What the list reports, to be set into a sentence.
    pub what: &'static str,
    /// What the crew is told.
    pub text: &'static str,
    /// Where that comes from.
    pub source: Source,
}

const fn seen(citation: &'static str) -> Source {
    Source { citation, locator: "", provenance: Provenance::Seen }
}

const fn practice() -> Source {
    Source { citation: "common practice", locator: "", provenance: Provenance::CommonPractice }
}

/// "Water contaminated with fuel or toxic chemicals will not be made safe by boiling or disinfection."
const CDC_WELLS: Source = seen("US CDC, Private Drinking Water Wells (healthywater/emergency)");

/// Every hazard, in its order.
pub static ENTRIES: [Entry; COUNT] = [
    Entry {
        hazard: Hazard::Electric,
        word: "electric",
        what: "an electrical danger",
        text: "Do not touch the pump, its wiring, the casing or standing water near them. Have the power company or an electrician \
               turn the power off at the pole or the meter, and stay away until they say that it is off and the wiring is safe.",
        source: seen("US EPA, flood precautions for private wells"),
    },
    Entry {
        hazard: Hazard::Gas,
        word: "gas",
        what: "gas, or a smell of gas",
        text: "No flames, no smoking, no light switches. Do not lean over or go into the well, the well pit or the pump house. Leave, \
               and call the fire department or the gas company. If gasoline is meant, chlorine does not remove it.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Fuel,
        word: "fuel",
        what: "fuel or oil",
        text: "Do not treat this well as usual: chlorine does not remove fuel or oil, and chlorine products must not meet fuel. \
               Do not drink the water. Ask the health department before anything is poured.",
        source: CDC_WELLS,
    },
    Entry {
        hazard: Hazard::Chemicals,
        word: "chemicals",
        what: "pesticides or other chemicals",
        text: "Do not treat this well as usual: chlorine does not remove pesticides or other chemicals. Do not drink the water. \
               Ask the health department which tests to take before anything is poured.",
        source: CDC_WELLS,
    },
    Entry {
        hazard: Hazard::UnderWater,
        word: "under-water",
        what: "a well that still stands under water",
        text: "Wait until the flood water has gone and stays away, and pour nothing before: it carries the chlorine off and the \
               dirt back in. Stay out of standing water near wires and the pump.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Damaged,
        word: "damaged",
        what: "a caved-in, collapsed or broken well",
        text: "Do not go in, do not stand at the edge, keep vehicles away. Repair first: a well that lets surface water in does \
               not stay clean.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Pit,
        word: "pit",
        what: "a well or a pump in a pit",
        text: "Never enter the pit, not even for a moment: gas or a lack of air kills without warning, and flood water leaves bad air \
               behind. Work from above, with a second person present. What cannot be reached from above needs people who are trained and \
               equipped for confined spaces. Pump the pit dry before the well is opened.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Uncovered,
        word: "uncovered",
        what: "an open hole, or a cap, cover or seal that is missing or broken",
        text: "Watch out for the open hole: keep children and animals away and cover it before you leave. Without a sound cap, dirt gets in \
               again: bring one, and fit it when the well is treated.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Flowing,
        word: "flowing",
        what: "a well that flows over",
        text: "Stop the flow with a valve or a standpipe, or leave the well to a licensed contractor: what is poured in runs out at \
               once. What flows over carries chlorine: keep it away from streams and ponds.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::CannotPump,
        word: "cannot-pump",
        what: "no power, or a pump that does not run",
        text: "Nothing can be circulated or flushed until the pump runs. Bring a generator, which an electrician connects, or a pump, or \
               come back when the power is on. Pour in nothing that you cannot pump out again.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Seawater,
        word: "seawater",
        what: "sea water or salt water in the well",
        text: "Do not pump the well empty: pump slowly and keep the level up, because salt water follows from below. Chlorine does not \
               take salt out: have the salt tested before people drink it.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Sewage,
        word: "sewage",
        what: "sewage or manure",
        text: "Stop the sewage first: a well that keeps taking it in does not stay clean. Wear gloves, wash hands, tell the health \
               department, and expect to treat and sample more than once.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::DeadAnimal,
        word: "dead-animal",
        what: "a dead animal",
        text: "Take the animal out first, from above, with gloves and a tool; clean the well and pump out the fouled water, then \
               treat. Expect to treat twice.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Infant,
        word: "infant-or-pregnant",
        what: "an infant, small children or a pregnant woman who may drink the water",
        text: "Leave other safe water for drinking and for formula until a laboratory sample taken after flushing is free of coliform bacteria. \
               Ask the health department about nitrate as well: neither chlorine nor boiling removes it.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Patient,
        word: "patient",
        what: "a patient, or people who fall ill from little",
        text: "Call before you treat, and before you switch off power that medical equipment may need. Leave other safe water until a laboratory sample taken after flushing is free of coliform bacteria. \
               Chlorinated water must not reach a dialysis machine: the clinic must know beforehand.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::NotFound,
        word: "not-found",
        what: "a well that could not be found or reached",
        text: "Call the owner before you drive. Pour nothing until you are sure that it is the right well.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::RoadClosed,
        word: "road-closed",
        what: "a road or bridge that is closed or gone",
        text: "Ask whether the road is open before you drive. Never drive through flood water or around a barrier.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Locked,
        word: "locked",
        what: "a lock, a gate or a key",
        text: "Get the key or the gate code before you drive; the notes may say who has it.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Dog,
        word: "dog",
        what: "a dog",
        text: "Call ahead and have the dog shut in before anyone gets out of the truck.",
        source: practice(),
    },
    Entry {
        hazard: Hazard::Stings,
        word: "stings-or-bites",
        what: "insects, snakes or other animals that sting or bite",
        text: "Look before you reach under a cap or into a pump house. Take a first-aid kit, and know who in the crew is allergic.",
        source: practice(),
    },
];

impl Hazard {
    /// The row of the table for this hazard.
    pub fn entry(self) -> &'static Entry {
        &ENTRIES[self as usize]
    }

    /// The hazard with this word.
    pub fn by_word(word: &str) -> Option<Self> {
        ENTRIES.iter().find(|entry| entry.word == word).map(|entry| entry.hazard)
    }
}

/// A set of hazards.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Hazards(u32);

impl Hazards {
    /// Adds a hazard; whether it is new.
    pub fn add(&mut self, hazard: Hazard) -> bool {
        let new = !self.has(hazard);
        self.0 |= 1 << hazard as u32;
        new
    }

    /// Whether it is in the set.
    pub const fn has(self, hazard: Hazard) -> bool {
        self.0 >> hazard as u32 & 1 == 1
    }

    /// Whether there is none.
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Those in the set, in order of printing.
    pub fn iter(self) -> impl Iterator<Item = &'static Entry> {
        ENTRIES.iter().filter(move |entry| self.has(entry.hazard))
    }

    /// Their words, separated by blanks, as the `crew_flags` column prints them; no allocation where there is none.
    pub fn words(self) -> String {
        if self.is_empty() {
            return String::new();
        }
        self.iter().map(|entry| entry.word).collect::<Vec<_>>().join(" ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn entries_stand_in_the_order_of_the_hazards() {
        for (place, entry) in ENTRIES.iter().enumerate() {
            assert_eq!(entry.hazard as usize, place);
            assert_eq!(Hazard::by_word(entry.word), Some(entry.hazard));
        }
    }
}
