//! Headings that only go on with the one to their left: `Csg | to | then` are a casing, its depth, and what is below it.

use crate::inventory::lexicon::{self, Concept, Language};

/// Units that may stand behind such words.
const UNITS: [&str; 12] =
    ["ft", "feet", "m", "in", "pies", "metros", "pulg", "pulgadas", "pieds", "metres", "pes", "cm"];

/// Words for how far what stands left of them reaches.
const TO: [&str; 7] = ["to", "down to", "until", "till", "hasta", "jusqu a", "ate"];

/// Words for what comes below what stands left of them.
const THEN: [&str; 9] =
    ["then", "below that", "under that", "and then", "luego", "despues", "puis", "ensuite", "depois"];

/// What each heading means with the one it goes on with; nothing for headings that stand by themselves.
pub(super) fn continued(headings: &[String], language: Language) -> Vec<Option<String>> {
    let mut base: Option<&String> = None;
    headings
        .iter()
        .map(|heading| {
            let (units, words): (Vec<String>, Vec<String>) =
                lexicon::tokens(heading).into_iter().partition(|word| UNITS.contains(&word.as_str()));
            let words = words.join(" ");
            let goes_on = |known: &[&str]| known.contains(&words.as_str());
            let (to, then) = (goes_on(&TO), goes_on(&THEN));
            if !to && !then {
                let meaning = lexicon::meaning(&lexicon::tokens(heading), language);
                let across = [Concept::Casing, Concept::Diameter, Concept::Bore, Concept::Size];
                base = Some(heading).filter(|_| across.iter().any(|concept| meaning.has(*concept)));
                return None;
            }
            // How far it reaches is not in the unit of its width.
            let unit = units.iter().map(|unit| format!(" {unit}")).collect::<String>();
            base.map(|base| if to { format!("Casing to{unit}") } else { format!("{base} lower part") })
        })
        .collect()
}
