//! Water of which a heading leaves open whether it stands so deep or so high, and what the file says of it elsewhere.

use super::super::plain_heading::without_brackets;
use super::Asked;
use super::stated::UNITS;
use crate::inventory::heading::Datum;
use crate::inventory::lexicon::{self, Concept};
use crate::inventory::notes;

/// Words by which water stands, and no more: `Ft standing` may be how much of it does or where it does.
const STANDING: [&str; 2] = ["standing", "stood"];

/// Words for the lower end of a well.
const BOTTOM: [&str; 7] = ["bottom", "floor", "base", "fondo", "fond", "fundo", "btm"];

/// Words of units that say a depth: `ft down`.
const DEEP: [&str; 9] = ["down", "dn", "below", "under", "beneath", "abajo", "debajo", "abaixo", "sous"];

impl Asked<'_> {
    /// `Ft standing`, `Standing (ft)`: a level or a height of water, unless it stands below a band of levels or beside a level while
    /// pumping.
    pub(super) fn only_stands(&self) -> bool {
        let of = |text: &str| lexicon::meaning(&lexicon::tokens(text), self.layout.language);
        let pumping = |heading: &String| of(heading).concepts == [Concept::Pumping];
        let is_level = !self.group().is_empty() && of(self.group()).concepts.iter().any(|one| one.is_counted_down());
        let words = lexicon::tokens(&without_brackets(self.heading));
        let said: Vec<&str> = words.iter().map(String::as_str).filter(|word| !UNITS.contains(word)).collect();
        // `Standing water` may be its level or its height.
        matches!(said.as_slice(), [only] | [only, "water"] | ["water", only] if STANDING.contains(only))
            && !is_level
            && !self.layout.headings.iter().any(pumping)
            && !self.stands_as_state()
            && self.profile.filled > 0
            && self.profile.share(self.profile.measures()) >= 0.4
    }

    /// Whether `Standing` is how a permit or a well stands: few words or codes that come again.
    pub(super) fn stands_as_state(&self) -> bool {
        const FEWEST: usize = 8;
        const MOST: usize = 8;
        let profile = self.profile;
        lexicon::tokens(self.heading) == ["standing"]
            && profile.filled >= FEWEST
            && profile.distinct <= MOST
            && profile.distinct * 5 <= profile.filled
            && profile.decimals == 0
            && profile.lengths.is_empty()
    }

    /// Whether the row of units or a bracket says that the column is counted down: `ft down`.
    pub(super) fn unit_counts_down(&self) -> bool {
        let units = self.layout.units.get(self.column).map_or("", String::as_str);
        let behind = self.heading.split_once('(').map_or("", |(_, behind)| behind);
        let words = lexicon::tokens(&format!("{units} {behind}"));
        // `feet of pipe under water` is how much stands in water.
        let in_water = |at: usize| {
            let mut behind = words[at + 1..]
                .iter()
                .filter(|word| !["the", "el", "l", "la", "de", "d", "da"].contains(&word.as_str()));
            behind.next().is_some_and(|word| self.is_water_itself(word))
        };
        (0..words.len()).any(|at| DEEP.contains(&words[at].as_str()) && !in_water(at))
            && words.iter().any(|word| UNITS.contains(&word.as_str()))
    }

    /// Whether the file's own words for the heading, or the row of units, say a height of water: `Ft standing = feet of water in
    /// the well (NOT feet down to water)`. What is said not to be meant says nothing.
    pub fn is_told_as_height(&self) -> bool {
        const HIGH: [&str; 6] = ["height", "ht", "much", "alto", "altura", "hauteur"];
        const OF: [&str; 4] = ["of", "de", "d", "da"];
        /// What else is said to stand so high, and where water is.
        const OTHER: [Concept; 13] = [
            Concept::Level,
            Concept::Depth,
            Concept::Find,
            Concept::Below,
            Concept::StaticWaterLevel,
            Concept::Ground,
            Concept::Pump,
            Concept::Pumping,
            Concept::Tank,
            Concept::Flooded,
            Concept::Diameter,
            Concept::Volume,
            Concept::Rate,
        ];
        let units = self.layout.units.get(self.column).map_or("", String::as_str);
        self.bracket_says_height()
            || [self.explained(), units].into_iter().any(|text| {
                let words = lexicon::tokens(&affirmed(&without_brackets(text)));
                let meaning = lexicon::meaning(&words, self.layout.language);
                let amount = |pair: &[String]| UNITS.contains(&pair[0].as_str()) && OF.contains(&pair[1].as_str());
                let high = meaning.has(Concept::Column)
                    || words.iter().any(|word| HIGH.contains(&word.as_str()))
                    || words.windows(2).any(amount);
                // The height of a rim is none of water.
                let of_water = meaning.has(Concept::Column) || words.iter().any(|word| self.is_water_itself(word));
                // `water standing over the bottom of the hole`
                let turned = lexicon::phrased(&words);
                let turned = words.first() != turned.first() && turned.first().is_some_and(|word| word == "height");
                let high = high && !OTHER.iter().any(|concept| meaning.has(*concept));
                of_water && (high || turned || reaches_up(&words))
            })
    }
}

impl Asked<'_> {
    /// Whether a bracket says from where the water is counted down: `(m abaixo do solo)`; `(feet of pipe under water)` says no such thing.
    pub(super) fn bracket_counts_down(&self) -> bool {
        let Some((_, inner)) = self.heading.split_once(['(', '[']) else { return false };
        let words = lexicon::tokens(inner);
        let datum = notes::datum(&words, &lexicon::meaning(&words, self.layout.language));
        matches!(datum, Some(Datum::Ground | Datum::TopOfCasing)) && self.unit_counts_down()
    }

    /// Whether a word is water, and nothing that is measured of it.
    fn is_water_itself(&self, word: &String) -> bool {
        lexicon::meaning(std::slice::from_ref(word), self.layout.language).has(Concept::Water)
    }

    /// Whether the bracket behind water says that it is a height: `Puits, eau (hauteur)`, `Water (floor to surface)`.
    pub(super) fn bracket_says_height(&self) -> bool {
        const HIGH: [&str; 9] = ["height", "ht", "high", "alto", "altura", "hauteur", "haut", "alta", "tall"];
        const OF_WATER: [Concept; 5] =
            [Concept::Water, Concept::Well, Concept::Volume, Concept::Static, Concept::Depth];
        let Some((outer, inner)) = self.heading.split_once(['(', '[']) else { return false };
        let outer = lexicon::meaning(&lexicon::tokens(outer), self.layout.language);
        let of_water = outer.has(Concept::Water) && outer.concepts.iter().all(|concept| OF_WATER.contains(concept));
        let words = lexicon::tokens(inner);
        let named = words.iter().any(|word| HIGH.contains(&word.as_str()))
            && words.iter().all(|word| HIGH.contains(&word.as_str()) || UNITS.contains(&word.as_str()) || word == "de");
        of_water && (named || reaches_up(&words) || self.is_above_bottom(&words))
    }

    /// Whether words say how much stands above the bottom, and no more: `ft of water above bottom`.
    fn is_above_bottom(&self, words: &[String]) -> bool {
        const ABOVE: [&str; 6] = ["above", "over", "sobre", "acima", "dessus", "encima"];
        const WAY_UP: [&str; 2] = ["from", "up"];
        const JOINS: [&str; 14] =
            ["the", "of", "de", "del", "do", "du", "d", "el", "le", "o", "high", "height", "in", "well"];
        let known = |word: &String| {
            [&ABOVE[..], &WAY_UP, &JOINS, &BOTTOM, &UNITS].iter().any(|known| known.contains(&word.as_str()))
                || self.is_water_itself(word)
        };
        words.iter().any(|word| ABOVE.contains(&word.as_str()))
            && words.iter().any(|word| BOTTOM.contains(&word.as_str()))
            && words.iter().any(|word| UNITS.contains(&word.as_str()) || self.is_water_itself(word))
            && words.iter().all(known)
    }
}

/// Whether words go from the bottom up to the surface of the water: `bottom to surface`.
fn reaches_up(words: &[String]) -> bool {
    const TO: [&str; 7] = ["to", "up", "a", "al", "ao", "hasta", "ate"];
    const SURFACE: [&str; 8] = ["surface", "top", "water", "superficie", "espejo", "espelho", "level", "nivel"];
    /// The bottom is that of the well.
    const OF_WELL: [&str; 17] = [
        "of", "the", "well", "hole", "pipe", "casing", "bore", "de", "del", "du", "do", "pozo", "puits", "forage",
        "poco", "furo", "la",
    ];
    let Some(at) = words.iter().position(|word| BOTTOM.contains(&word.as_str())) else { return false };
    let mut behind = words[at + 1..].iter().skip_while(|word| OF_WELL.contains(&word.as_str()));
    behind.next().is_some_and(|word| TO.contains(&word.as_str())) && behind.any(|word| SURFACE.contains(&word.as_str()))
}

/// A text without what it says is not meant: `height of water, not feet down`.
fn affirmed(text: &str) -> String {
    const NOT: [&str; 6] = ["not", "never", "no", "non", "pas", "nao"];
    let clauses = text.split([',', ';', ':']);
    let said = clauses.map(|clause| {
        let words: Vec<&str> = clause.split_whitespace().collect();
        let not = words.iter().position(|word| NOT.contains(&lexicon::fold(word).as_str()));
        words[..not.unwrap_or(words.len())].join(" ")
    });
    said.collect::<Vec<_>>().join(", ")
}
