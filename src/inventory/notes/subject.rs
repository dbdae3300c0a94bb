//! What a clause of a note is about: depths, levels, diameters, or all of them.

use super::datum::datum;
use super::unit::unit_of;
use crate::field::Field;
use crate::inventory::lexicon::{Concept, Meaning};

/// What a clause is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// Whatever is not spoken of elsewhere.
    All,
    /// Depths, levels, heights: whatever is counted downward or up.
    Depths,
    /// Levels of the water, and no other depth.
    Levels,
    /// How far rims and casings stand up, and nothing that is counted from them.
    Heights,
    /// Widths of casings, holes and dug wells.
    Diameters,
}

pub(super) fn about(words: &[String], meaning: &Meaning) -> About {
    // `fond et eau mesurés depuis la margelle`
    const AND: [&str; 5] = ["and", "et", "y", "e", "&"];
    // `Norias: boca en metros`: the mouth of a well is measured across, unless something is counted from it.
    const MOUTH: [&str; 6] = ["boca", "bocas", "mouth", "mouths", "opening", "ouverture"];
    let mouth = words.iter().any(|word| MOUTH.contains(&word.as_str()));
    // `Brocal en centímetros sobre el suelo`: the rim itself, not what is counted from it.
    const FROM: [&str; 16] = [
        "from", "below", "under", "off", "to", "desde", "depuis", "sous", "bajo", "del", "du", "da", "a", "abaixo",
        "taped", "measured",
    ];
    let goes_down = [Concept::Water, Concept::Level, Concept::Static, Concept::StaticWaterLevel, Concept::Depth]
        .into_iter()
        .chain([Concept::TotalDepth, Concept::Bottom, Concept::Diameter, Concept::Elevation])
        .any(|concept| meaning.has(concept));
    // `DIA_ and STKUP in inches` is said of both; a clause without a unit says what a word means.
    let rim = (meaning.has(Concept::Rim) || meaning.has(Concept::StickUp))
        && unit_of(words, None).is_some()
        && !words.iter().any(|word| AND.contains(&word.as_str()));
    if rim && !goes_down && !mouth && !words.iter().any(|word| FROM.contains(&word.as_str())) {
        return About::Heights;
    }
    // `Footages from land surface`
    const FOOTAGES: [&str; 7] = ["footage", "footages", "metrage", "metrages", "meterage", "metraje", "metragem"];
    if words.iter().any(|word| FOOTAGES.contains(&word.as_str())) {
        return About::Depths;
    }
    // `Nominal sizes in inches`: what has a size in the trade is a pipe or a hole.
    const SIZES: [&str; 12] = [
        "sizes",
        "size",
        "nominal",
        "diameters",
        "widths",
        "bores",
        "tamanos",
        "tamanhos",
        "dimensions",
        "anchos",
        "larguras",
        "ouvertures",
    ];
    let sizes = words.iter().any(|word| SIZES.contains(&word.as_str()));
    if (mouth || sizes) && datum(words, meaning).is_none() && !meaning.has(Concept::Depth) {
        return About::Diameters;
    }
    // `SWL is from top of csg`, `fundo contado da boca do tubo`: the casing is what the level or the bottom is counted from.
    let goes_down = [
        Concept::Water,
        Concept::Level,
        Concept::Static,
        Concept::StaticWaterLevel,
        Concept::Bottom,
        Concept::TotalDepth,
    ];
    // `Water measured down from the casing top`: down is the way to the water, and no depth of its own.
    let depth =
        |word: &String| ["depth", "deep", "bottom", "td", "prof", "fond", "fund"].iter().any(|of| word.starts_with(of));
    let is_down = words.iter().any(|word| word == "down") && !words.iter().any(depth);
    let counted = goes_down.iter().any(|of| meaning.has(*of)) && datum(words, meaning).is_some();
    let widths = [Concept::Diameter, Concept::Outside, Concept::Casing, Concept::Size, Concept::Bore];
    if widths[..if counted { 2 } else { widths.len() }].iter().any(|concept| meaning.has(*concept)) {
        About::Diameters
    } else if [Concept::Water, Concept::Level, Concept::Static, Concept::StaticWaterLevel]
        .iter()
        .any(|concept| meaning.has(*concept))
        && ![Concept::Depth, Concept::TotalDepth].iter().any(|concept| meaning.has(*concept) && !is_down)
        && !(meaning.has(Concept::Bottom) && words.iter().any(|word| AND.contains(&word.as_str())))
    {
        About::Levels
    } else if [
        Concept::Depth,
        Concept::TotalDepth,
        Concept::Bottom,
        Concept::Water,
        Concept::Level,
        Concept::Height,
        Concept::StaticWaterLevel,
    ]
    .iter()
    .any(|concept| meaning.has(*concept))
    {
        About::Depths
    } else {
        About::All
    }
}

/// Whether a statement about this kind of thing holds for a field.
pub fn concerns(about: About, field: Field) -> bool {
    let level = matches!(field, Field::StaticWaterLevel);
    let depth = matches!(field, Field::TotalDepth | Field::WaterColumn | Field::CasingDepth);
    let height = matches!(field, Field::StickUp | Field::GroundElevation);
    let diameter = matches!(field, Field::CasingDiameter | Field::CasingOutsideDiameter | Field::OpenHoleDiameter);
    match about {
        About::All => level || depth || diameter || height,
        About::Depths => level || depth,
        About::Levels => level,
        About::Heights => height,
        About::Diameters => diameter,
    }
}
