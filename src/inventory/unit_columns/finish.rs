//! A column that says how each well ends below its casing: in an open hole, in a screen, with the end of the pipe.

use super::super::lexicon;
use super::super::table::Opened;
use super::level::few_answers;

/// How a well ends below its casing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Finish {
    /// In the rock, with no pipe.
    OpenHole,
    /// With a pipe that has slots, as wide as its own size.
    Screen,
    /// With the open end of its pipe.
    OpenEnd,
}

/// What a text says of it.
pub fn says(text: &str) -> Option<Finish> {
    let words = lexicon::tokens(text);
    let begins = |known: &[&str]| words.iter().any(|word| known.iter().any(|beginning| word.starts_with(beginning)));
    if begins(&["screen", "slot", "perf", "filtro", "rejilla", "ranurad", "crepin"]) {
        Some(Finish::Screen)
    } else if begins(&["end", "ended", "extremo", "bout"]) && begins(&["open", "abiert", "abert", "ouvert"]) {
        Some(Finish::OpenEnd)
    } else if begins(&["open", "uncased", "rock", "abiert", "abert", "nu"])
        && begins(&["hole", "open", "uncased", "rock", "hoyo", "hueco", "trou", "furo", "pozo"])
    {
        Some(Finish::OpenHole)
    } else {
        None
    }
}

/// The column whose cells, or their codes by the file's own words, say it; some must be open holes, and some not.
pub fn column(table: &Opened, is_taken: impl Fn(usize) -> bool) -> Option<usize> {
    const FEWEST: usize = 4;
    let sheet = table.origin.sheet.as_deref().unwrap_or_default();
    (0..table.headings.len()).filter(|at| !is_taken(*at) && !table.headings[*at].is_empty()).find(|at| {
        let Some(answers) = few_answers(table, *at) else { return false };
        let meant = |cell: &str| table.legend.meaning(sheet, &table.headings[*at], cell).or(Some(cell)).and_then(says);
        let said: Vec<(&str, Finish)> = answers.iter().filter_map(|answer| Some((*answer, meant(answer)?))).collect();
        let known = table.filled(*at).filter(|cell| said.iter().any(|(answer, _)| answer == cell)).count();
        let open = |(_, finish): &(&str, Finish)| *finish == Finish::OpenHole;
        known >= FEWEST
            && known * 10 >= table.filled(*at).count() * 8
            && said.iter().any(open)
            && !said.iter().all(open)
    })
}
