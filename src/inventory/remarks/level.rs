//! A level of the water that a remark gives anew: `70' to water now`, `re-measured: 5.2 m below ground`, `dropped to 40 ft`.

use super::lengths::{Reader, Tie};
use super::statement::{Change, Said};
use super::words::{AGAIN, MEASUREMENT, MOVED, NO_LEVEL, NOW, PASSING, REPEATED, SEASONS, WATER};
use crate::field::Field;
use crate::quantity::unit::Unit;

impl Reader<'_> {
    /// What a word of levels begins to tell.
    pub(super) fn level(&self, at: usize, (first, last): (usize, usize)) -> Option<Said> {
        if self.passing(first, last) && !self.outright() {
            return None;
        }
        // `dropped to`, `now`: within the words that belong together.
        let (from, to) = (first.max(at.saturating_sub(4)), last.min(at + 7));
        if let Some(said) = self.level_right_behind(at) {
            return Some(said);
        }
        let moved = self.has(MOVED, from, to);
        let now = self.has(NOW, from, to);
        let anew = [AGAIN, REPEATED, MEASUREMENT].iter().any(|known| known.contains(&self.word(at)));
        let once_more = at >= 2 && self.word(at - 1) == "-" && self.word(at - 2) == "re";
        if anew || once_more {
            return self.level_again(at, last);
        }
        // `70' to water now`, `we dropped a weighted tape, it is 33 ft to water`
        const TAPED: [&str; 8] =
            ["tape", "taped", "correction", "corrected", "measured", "sounded", "dipped", "plumbed"];
        let taped = self.has(&TAPED, first, last);
        if (now || taped) && self.word(at) == "water" && at > 0 && self.word(at - 1) == "to" {
            // `41 ft down to water`
            let down = usize::from(at > 1 && self.word(at - 2) == "down");
            let (written, from) = self.before(at - 1 - down)?;
            return Some((Field::StaticWaterLevel, Change::To(written), true, from, at + 1));
        }
        if !moved && !now
            || ["eau", "agua", "ne", "ns"].contains(&self.word(at))
            || self.word(at) == "water" && !self.has(&["at", "to", "level"], at + 1, to)
        {
            return None;
        }
        if self.word(at) == "level"
            && self.has(&["ground", "sea", "floor", "noise", "pump"], at.saturating_sub(1).max(first), at)
        {
            return None;
        }
        let numbers = self.behind(at);
        let found = numbers
            .iter()
            .find(|found| found.tie == Tie::To)
            .or_else(|| numbers.iter().find(|found| found.tie == Tie::Unit))?;
        // `dropped 12 ft` is an amount.
        if moved && !now && found.tie == Tie::Unit {
            return Some((Field::StaticWaterLevel, Change::By(found.written), false, at, found.end));
        }
        Some((Field::StaticWaterLevel, Change::To(found.written), true, at, found.end))
    }

    /// Whether the sentence tells of a level of a season or of pumping; `this spring` is a time.
    fn passing(&self, first: usize, last: usize) -> bool {
        let this = |at: usize| at > 0 && ["this", "last"].contains(&self.word(at - 1));
        (first..last).any(|at| PASSING.contains(&self.word(at)) && !(SEASONS.contains(&self.word(at)) && this(at)))
    }

    /// A number right behind the word of a level, where the remark says that it is the later one: `STATIC 34 REMEASURED`,
    /// `re-checked 4/20 SWL 38`, `SWL 27 this April`, `water now 21'`.
    fn level_right_behind(&self, at: usize) -> Option<Said> {
        const LEVEL: [&str; 9] = ["static", "swl", "wl", "level", "nivel", "niveau", "dtw", "ne", "ns"];
        const BEFORE: [&str; 10] =
            ["old", "was", "previous", "former", "file", "log", "orig", "original", "originally", "initial"];
        /// What stands between the word and its number.
        const BETWEEN: [&str; 19] = [
            ":",
            "=",
            "is",
            "at",
            "now",
            "on",
            "-",
            "ahora",
            "agora",
            "maintenant",
            "est",
            "esta",
            "a",
            "e",
            "es",
            "hoy",
            "hoje",
            "aujourd'hui",
            "today",
        ];
        /// Water that stands elsewhere.
        const OVER: [&str; 8] = ["over", "above", "around", "across", "deep", "of", "de", "in"];
        let water = WATER.contains(&self.word(at));
        if !water && !LEVEL.contains(&self.word(at)) || self.has(&BEFORE, at.saturating_sub(2), at) {
            return None;
        }
        let mut number = at + 1;
        while number < at + 4
            && (BETWEEN.contains(&self.word(number)) || water && number == at + 1 && self.word(number) == "down")
        {
            number += 1;
        }
        let now = self.has(&["now", "ahora", "agora", "maintenant", "today", "hoy", "hoje"], at + 1, number);
        // `4/30: water down 16 now`, `revu le 14 : eau à 2,90`: how far down it is.
        let down = water && self.dated() && ["down", "a", "at"].contains(&self.word(number - 1));
        // `now 34 SWL` is told elsewhere; water alone needs more than a day.
        if !(self.taken_anew()
            || self.outright()
            || self.changed_well()
            || now && water
            || down
            || !water && self.dated())
        {
            return None;
        }
        let (written, end) = self.length(number)?;
        let long = written.unit.is_none_or(Unit::is_of_depths);
        let only = !(self.has(&["then", "or", "to", "-"], end, end + 1) || water && self.has(&OVER, end, end + 1));
        (long && only).then_some((Field::StaticWaterLevel, Change::To(written), true, at, end))
    }

    /// A level that was taken anew: `retaped 5/15, pump off overnight: 34.5 from top`, `after rest 61' TOC`.
    fn level_again(&self, at: usize, last: usize) -> Option<Said> {
        let from = ["from", "below", "down", "toc", "btoc", "bgl", "bgs", "bls"];
        // What was measured anew may also be the depth.
        let level_alone = !self.word(at).ends_with("measured") && !self.word(at).starts_with("remes");
        if !level_alone && self.has(NO_LEVEL, 0, self.tokens.len()) {
            return None;
        }
        // `4,90 m pendant la crue ; repris le 19/09 : 2,60 m`: what was repeated is what the list measures, unless it is named.
        let named = ["niveau", "nivel", "ns", "ne"];
        if REPEATED.contains(&self.word(at)) && !self.has(&named, at.saturating_sub(2), at) {
            return None;
        }
        let mut told = (at + 1..last).filter_map(|at| {
            let (written, end) = self.length(at)?;
            let to_water = self.word(end) == "to" && self.word(end + 1) == "water";
            let tied = from.contains(&self.word(end))
                || to_water
                || level_alone && (written.unit.is_some() || self.tie(at, &written) == Tie::To);
            tied.then_some((written, end))
        });
        let (written, end) = told.next().filter(|_| told.next().is_none())?;
        let long = written.unit.is_none_or(Unit::is_of_depths);
        long.then_some((Field::StaticWaterLevel, Change::To(written), true, at, end))
    }
}
