//! Two columns that could both be the measure of a well, where one is of the hole that was drilled and the other of the well
//! that was made in it.

use super::evidence::{LIKELY, OPEN, Reading};
use super::{Feed, Planner};
use crate::field::Field;
use crate::inventory::heading::{self, HeadingUnit};
use crate::inventory::lexicon::{self, Concept};
use crate::inventory::notes;
use crate::quantity::parse::plain;
use crate::quantity::unit::Unit;

/// Words for the hole as it was drilled, and for the well as it was finished.
const DRILLED: [&str; 8] = ["drl", "drld", "drilled", "hole", "boring", "borehole", "bored", "original"];
const FINISHED: [&str; 9] =
    ["cmpl", "compl", "cmplt", "comp", "completed", "completion", "finished", "final", "finish"];

/// Words for a depth that somebody measured at the well, and for one that is on record.
const SOUNDED: [&str; 8] = ["sounded", "taped", "plumbed", "tagged", "sondeada", "sondeado", "sondee", "medida"];
const LOGGED: [&str; 10] =
    ["log", "logs", "logged", "drillers", "record", "recorded", "permit", "reported", "registro", "declarada"];

impl Planner<'_> {
    /// Drops the width of the hole that was drilled where another column has the width of the casing in it: the water
    /// stands in the casing.
    pub(super) fn casing_before_hole(&self, readings: &mut Vec<Reading>) {
        let of_width = |reading: &Reading| reading.named.field == Field::CasingDiameter;
        let has = |reading: &Reading, concept: Concept| self.meaning(reading.column).has(concept);
        let filled = |reading: &Reading| self.profiles[reading.column].measures();
        // A casing with a word beside it that is not known may be anything of it.
        let is_width = |one: &Reading| {
            let meaning = self.meaning(one.column);
            meaning.unknown.is_empty()
                || [Concept::Diameter, Concept::Size, Concept::Inside].iter().any(|of| meaning.has(*of))
        };
        let casing = readings
            .iter()
            .filter(|one| is_width(one))
            .filter(|one| of_width(one) && one.score >= LIKELY && has(one, Concept::Casing) && !has(one, Concept::Bore))
            .map(filled)
            .max();
        let Some(casing) = casing else { return };
        readings.retain(|one| {
            let hole = has(one, Concept::Bore) || has(one, Concept::Hole);
            !of_width(one) || one.by_hand || !hole || has(one, Concept::Casing) || 2 * casing < filled(one)
        });
    }

    /// A casing or a hole alone may be a width, a depth or a material: the unit tells. Millimeters and inches go across.
    ///
    /// Where a column says of each level what it is counted from, the measuring point has a height.
    pub(super) fn told_by_units(&self, readings: &mut Vec<Reading>, levels_are_told: bool) {
        const TOLD: f64 = 0.2;
        /// How far a rim stands above the ground, or a pit below it. No source.
        const HEIGHTS_M: (f64, f64) = (-3.0, 3.0);
        const MOSTLY: f64 = 0.9;
        readings.retain(|reading| !self.is_width_in_inches(reading));
        for reading in readings {
            let across = matches!(reading.named.field, Field::CasingDiameter | Field::OpenHoleDiameter);
            let short =
                matches!(reading.named.unit, HeadingUnit::Unit(unit) if matches!(unit.symbol, "in" | "mm" | "cm"));
            let numbers = self.profiles[reading.column].measures() > 0;
            let is_rim = |unit: &Unit| self.profiles[reading.column].within(unit, HEIGHTS_M) >= MOSTLY;
            let rim = levels_are_told
                && reading.named.field == Field::StickUp
                && matches!(reading.named.unit, HeadingUnit::Unit(unit) if is_rim(unit));
            let told = across
                && (short || self.notes_call_it_a_width(reading.column) || self.cells_write_inches(reading.column))
                || rim;
            if told && numbers && (OPEN..LIKELY).contains(&reading.score) {
                reading.score += TOLD;
            }
        }
    }

    /// Whether several cells of a column of sizes write inches, and hardly any is more than a well is wide: `6"`, `30" tile`.
    fn cells_write_inches(&self, column: usize) -> bool {
        const FEWEST: usize = 3;
        const WIDEST_IN: f64 = 96.0;
        let number = |cell: &str| {
            let figures: String = cell.chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
            plain(&figures)
        };
        let in_inches = |cell: &&str| {
            let rest = cell.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ' ' | '/'));
            cell.starts_with(|c: char| c.is_ascii_digit())
                && (rest.starts_with('"') || lexicon::tokens(rest).first().is_some_and(|word| word == "in"))
        };
        let cells = self.table.filled(column).count();
        let narrow = self.table.filled(column).filter_map(number).filter(|number| *number <= WIDEST_IN).count();
        self.table.filled(column).filter(in_inches).count() >= FEWEST && narrow * 20 >= cells * 18
    }

    /// Whether a column is taken for the depth of a casing though its heading has a unit that only widths are measured in.
    fn is_width_in_inches(&self, reading: &Reading) -> bool {
        let narrow = matches!(reading.named.unit, HeadingUnit::Unit(unit) if matches!(unit.symbol, "in" | "mm"));
        reading.named.field == Field::CasingDepth && narrow && !reading.exact && !reading.by_hand
    }

    /// Whether a note names a column by its heading and gives it a unit of widths: `inches across for size`.
    fn notes_call_it_a_width(&self, column: usize) -> bool {
        let layout = &self.table.layout;
        let own = lexicon::tokens(&self.table.headings[column]);
        let clauses = layout.notes.iter().flat_map(|note| note.split([',', ';', ':', '.', '(', ')']));
        clauses.into_iter().any(|clause| {
            let words = lexicon::tokens(clause);
            let named = !own.is_empty() && own.iter().all(|word| words.contains(word));
            let narrow = notes::unit_of(&words, None).is_some_and(|unit| matches!(unit.symbol, "in" | "mm" | "cm"));
            let about = lexicon::meaning(&words, layout.language);
            named && narrow && [Concept::Diameter, Concept::Size, Concept::Casing].iter().any(|of| about.has(*of))
        })
    }

    /// Drops the width of the hole that was drilled for the casing, `UPR_HOLE`: water stands in the casing there.
    pub(super) fn hole_below_before_above(&self, readings: &mut Vec<Reading>) {
        const UPPER: [&str; 4] = ["upper", "upr", "uppr", "upp"];
        readings.retain(|reading| {
            let words = lexicon::tokens(&self.table.headings[reading.column]);
            let upper = words.iter().any(|word| UPPER.contains(&word.as_str()));
            reading.named.field != Field::OpenHoleDiameter || reading.by_hand || !upper
        });
    }

    /// Whether the column of the open hole may be that of the hole that was drilled for the casing: nothing in its heading, or
    /// in what the file says of it, calls it open or lower.
    pub(super) fn hole_is_drilled(&self, feeds: &[Option<Feed>]) -> bool {
        const OPEN: [&str; 21] = [
            "open", "opn", "oh", "openhole", "uncased", "below", "under", "beneath", "lower", "lwr", "low", "bottom",
            "rock", "bedrock", "rings", "finish", "nu", "abierto", "aberto", "roca", "rocha",
        ];
        let Some(feed) = &feeds[Field::OpenHoleDiameter as usize] else { return false };
        if heading::mapped(&self.table.headings[feed.column], self.rules).is_some() {
            return false;
        }
        let layout = &self.table.layout;
        let texts = [&self.table.headings, &layout.explained, &layout.groups];
        let words = texts.iter().filter_map(|texts| texts.get(feed.column)).flat_map(|text| lexicon::tokens(text));
        let squashed = heading::squash(&self.table.headings[feed.column]);
        !squashed.contains("openhole")
            && !squashed.ends_with("rock")
            && !words.into_iter().any(|word| OPEN.contains(&word.as_str()))
    }

    /// Whether a zero stands in this list for what was not measured: no well is none deep, and no casing none wide.
    pub(super) fn zeros_are_blanks(&self, feeds: &[Option<Feed>]) -> bool {
        let zero = |field: &Field| {
            let feed = feeds[*field as usize].as_ref().filter(|feed| !feed.barred);
            feed.is_some_and(|feed| self.profiles[feed.column].numbers.contains(&0.0))
        };
        [Field::TotalDepth, Field::CasingDiameter].iter().any(zero)
    }

    /// A negative number that stands in this list for what was not measured: `-9` as a depth or a width, which nothing can be.
    pub(super) fn negative_blank(&self, feeds: &[Option<Feed>]) -> Option<f64> {
        const FEWEST: usize = 2;
        let impossible = [Field::TotalDepth, Field::CasingDiameter, Field::CasingDepth, Field::OpenHoleDiameter];
        let columns: Vec<usize> = impossible
            .iter()
            .filter_map(|field| feeds[*field as usize].as_ref().filter(|feed| !feed.barred))
            .map(|feed| feed.column)
            .collect();
        let negative =
            || columns.iter().flat_map(|at| &self.profiles[*at].numbers).copied().filter(|value| *value < 0.0);
        let code = negative().next()?;
        (negative().count() >= FEWEST && negative().all(|value| value == code)).then_some(code)
    }

    /// Whether two columns are of a depth that was sounded and of the one in the log: each fills in for the other.
    pub(super) fn sounded_and_logged(&self, sounded: usize, logged: usize) -> bool {
        let says = |column: usize, known: &[&str]| {
            lexicon::tokens(&self.table.headings[column]).iter().any(|word| known.contains(&word.as_str()))
        };
        says(sounded, &SOUNDED) && says(logged, &LOGGED)
    }

    /// Puts a depth that was measured at the well before the one of a log or a permit, where the list has both: what was sounded
    /// is later than what was written when the well was made.
    pub(super) fn sounded_before_logged(&self, readings: &mut [Reading]) {
        const AHEAD: f64 = 0.01;
        let of_depth = |one: &Reading| one.named.field == Field::TotalDepth && one.score >= LIKELY && !one.by_hand;
        let says = |one: &Reading, known: &[&str]| {
            lexicon::tokens(&self.table.headings[one.column]).iter().any(|word| known.contains(&word.as_str()))
        };
        let best = |known: &[&str], readings: &[Reading]| {
            readings.iter().filter(|one| of_depth(one) && says(one, known)).map(|one| one.score).reduce(f64::max)
        };
        let Some(logged) = best(&LOGGED, readings) else { return };
        for one in readings.iter_mut().filter(|one| of_depth(one) && says(one, &SOUNDED) && !says(one, &LOGGED)) {
            one.score = one.score.max(logged + AHEAD);
        }
    }

    /// Drops the depth of the hole that was drilled where another column has the depth of the finished well.
    pub(super) fn finished_before_drilled(&self, readings: &mut Vec<Reading>) {
        let of_depth = |reading: &Reading| reading.named.field == Field::TotalDepth && reading.score >= LIKELY;
        let says = |reading: &Reading, known: &[&str]| {
            lexicon::tokens(&self.table.headings[reading.column]).iter().any(|word| known.contains(&word.as_str()))
        };
        let filled = |reading: &Reading| self.profiles[reading.column].measures();
        let finished = readings.iter().filter(|one| of_depth(one) && says(one, &FINISHED)).map(filled).max();
        let Some(finished) = finished else { return };
        readings.retain(|one| {
            let drilled = of_depth(one) && says(one, &DRILLED) && !says(one, &FINISHED);
            !drilled || one.by_hand || 10 * finished < 9 * filled(one)
        });
    }
}
