//! `Depth` twice, once below a band of the bore and once below a band of water.

use super::Planner;
use crate::inventory::lexicon::{self, Concept, Meaning};
use crate::quantity::unit;

/// What the depth of another thing than the well is of.
const OF_ANOTHER: [Concept; 8] = [
    Concept::Water,
    Concept::Level,
    Concept::Static,
    Concept::Casing,
    Concept::Pump,
    Concept::Screen,
    Concept::Grout,
    Concept::Diameter,
];

impl Planner<'_> {
    /// Whether a bare `Depth` stands below a band of water, where another column has the depth of the well.
    pub(super) fn is_depth_below_water(&self, column: usize) -> bool {
        let only = |meaning: &Meaning, known: &[Concept]| {
            meaning.unknown.iter().all(|word| unit::look_up(word, None).is_some())
                && !meaning.concepts.is_empty()
                && meaning.concepts.iter().all(|concept| known.contains(concept))
        };
        let band = self.band(column);
        only(&self.band_meaning(column), &[Concept::Water])
            && only(&self.meaning(column), &[Concept::Depth, Concept::Below])
            && (0..self.columns.len()).any(|other| self.band(other) != band && self.is_depth_of_well(other))
    }

    fn band(&self, column: usize) -> &str {
        self.table.layout.groups.get(column).map_or("", String::as_str)
    }

    fn band_meaning(&self, column: usize) -> Meaning {
        lexicon::meaning(&lexicon::tokens(self.band(column)), self.table.layout.language)
    }

    fn is_depth_of_well(&self, column: usize) -> bool {
        let (own, band) = (self.meaning(column), self.band_meaning(column));
        let deep = [Concept::Depth, Concept::TotalDepth, Concept::Bottom];
        self.profiles[column].measures() > 0
            && deep.iter().any(|concept| own.has(*concept))
            && !OF_ANOTHER.iter().any(|concept| own.has(*concept) || band.has(*concept))
    }
}
