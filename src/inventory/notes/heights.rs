//! How far every casing of a list stands above the ground, where a note says so: `All casings finished 18 inches above grade`.

use super::clauses::sentences;
use super::unit::unit_of;
use crate::inventory::lexicon::{self, Concept, Language};
use crate::inventory::phrases;
use crate::quantity::unit::{Dimension, Unit};

/// The height of the rim that a sentence gives for all wells, in SI, with the unit it is written in.
pub fn height_of_all(text: &str, language: Language) -> Option<(f64, &'static Unit)> {
    const ALL: [&str; 22] = [
        "all",
        "every",
        "each",
        "always",
        "todos",
        "todas",
        "cada",
        "siempre",
        "tous",
        "toutes",
        "chaque",
        "toujours",
        "sempre",
        "everywhere",
        "both",
        "standard",
        "tubos",
        "casings",
        "pipes",
        "canos",
        "cut",
        "finished",
    ];
    const ABOVE: [&str; 18] = [
        "above",
        "over",
        "out",
        "sobre",
        "encima",
        "acima",
        "dessus",
        "up",
        "sobresale",
        "sobresalen",
        "salen",
        "depassent",
        "depasse",
        "cut",
        "finished",
        "cortados",
        "cortadas",
        "coupes",
    ];
    /// In m: no rim is lower or higher.
    const BOUNDS: (f64, f64) = (0.05, 1.5);
    sentences(text).iter().flat_map(|sentence| sentence.split([';', ','])).find_map(|clause| {
        let words = lexicon::tokens(clause);
        let has = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
        let meaning = lexicon::meaning(&words, language);
        let of_rim = [Concept::Casing, Concept::Rim, Concept::StickUp].iter().any(|concept| meaning.has(*concept));
        let from_ground = meaning.has(Concept::Ground) || meaning.has(Concept::StickUp);
        if !has(&ALL) || !has(&ABOVE) || !of_rim || !from_ground {
            return None;
        }
        let mut said = phrases::tokens(clause)
            .windows(2)
            .filter_map(|pair| {
                let unit = unit_of(&[pair[1].word.clone()], None).filter(|unit| unit.dimension == Dimension::Length)?;
                Some((unit.to_si(pair[0].number?), unit))
            })
            .collect::<Vec<_>>()
            .into_iter();
        let height = said.next().filter(|(si, _)| (BOUNDS.0..=BOUNDS.1).contains(si))?;
        said.next().is_none().then_some(height)
    })
}
