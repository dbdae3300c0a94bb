//! What `check` says first, on one screen: how many wells can be planned, what to answer, why, and what to type next.

use std::collections::BTreeMap;

use super::Tally;
use super::lines::{WIDTH, are_wells, wells};
use super::next::Next;
use crate::engine::{Checked, Outcomes};
use crate::finding::Severity;
use crate::inventory::RowKind;
use crate::place::{Origin, Place};
use crate::report::by_sheet::by_sheet;
use crate::report::causes::{Cause, Causes};
use crate::report::fitted::{list_name, shortened, shortened_within, spot};
use crate::report::flooded;
use crate::report::question::MOST_TOGETHER;
use crate::report::question::Question;
use crate::report::questions;
use crate::report::resting;

/// Lines of the whole.
const MOST_LINES: usize = 40;
/// Lists named one by one.
const MOST_LISTS: usize = 6;
/// Questions named one by one.
const MOST_QUESTIONS: usize = 5;

/// What the screen is made from.
pub(super) struct Screen<'a> {
    pub(super) causes: &'a Causes,
    /// How many tables were read.
    pub(super) sources: usize,
    pub(super) checked: &'a Checked,
    pub(super) tally: &'a Tally,
    pub(super) next: &'a Next<'a>,
    /// Whether a campaign book states it all: what is to be done is then said by its sheets.
    pub(super) is_of_book: bool,
    /// Whether every cause is wanted, however many.
    pub(super) all: bool,
}

impl Screen<'_> {
    /// The lines, each no wider than a terminal.
    pub(super) fn lines(&self) -> Vec<String> {
        let mut lines = self.counts();
        lines.extend(self.lists());
        let questions = self.questions();
        let next = self.next.lines(self.causes, self.tally);
        let taken = lines.len() + questions.len() + next.len() + 3;
        let causes = self.causes(MOST_LINES.saturating_sub(taken).max(2));
        for part in [questions, causes, next] {
            if !part.is_empty() {
                lines.push(String::new());
                lines.extend(part);
            }
        }
        lines.into_iter().map(|line| clipped(&line, WIDTH)).collect()
    }

    fn counts(&self) -> Vec<String> {
        let tally = self.tally;
        let mut first = format!("{} of {} can be planned now", tally.planned, wells(tally.wells()));
        if tally.held_back > 0 {
            first += &format!("; {} held back", are(tally.held_back));
        }
        let mut lines = vec![format!("{first}.")];
        if tally.excluded > 0 {
            let rule = if self.is_of_book { "the sheet Exceptions" } else { "a rule of the scenario file" };
            lines.push(format!("{} excluded by {rule}.", are_wells(tally.excluded)));
        }
        if tally.not_wells > 0 {
            let kinds = self.checked.other_rows.by_kind();
            let kind = |(kind, count): (&RowKind, &u64)| format!("{count} {}", kind.words(*count as usize));
            let kinds: Vec<String> = kinds.iter().map(kind).collect();
            let are = if tally.not_wells == 1 { "row is not a well" } else { "rows are not wells" };
            lines.push(format!("{} {are}: {}.", tally.not_wells, kinds.join(", ")));
        }
        lines.extend(resting::lines(&self.checked.resting));
        let of = format!("Of the {}", tally.planned);
        let flood = self.checked.flood;
        if flooded::counted(flood, tally.planned).is_some() {
            let said = |count: u64, is: &str, are: &str| format!("{count} {}", if count == 1 { is } else { are });
            let parts = [
                (flood.dry, said(flood.dry, "is called not flooded", "are called not flooded")),
                (flood.unsaid, said(flood.unsaid, "does not say", "do not say")),
            ];
            let parts: Vec<String> = parts.into_iter().filter(|(count, _)| *count > 0).map(|(_, part)| part).collect();
            lines.push(format!("{of}, {}; all are treated.", parts.join(", ")));
            if flood.dry > 0 {
                let how = if self.is_of_book {
                    "sheet Exceptions, Flooded no, Leave out yes"
                } else {
                    "[[override]] where = \"NOT flooded\", exclude = true"
                };
                lines.push(format!("  To leave dry wells out: {how}."));
            }
        }
        lines
    }

    /// One line a list, where there are several.
    fn lists(&self) -> Vec<String> {
        let lists = self.checked.lists.len();
        if lists < 2 {
            return Vec::new();
        }
        let shown = if lists <= MOST_LISTS || self.all { lists } else { MOST_LISTS - 1 };
        let line = |(origin, list): &(Origin, Outcomes)| {
            let name = shortened_within(&list_name(origin), 38);
            let mut line = format!("  {name:<38} {:>6} of {}", list.planned, wells(list.planned + list.held_back));
            if list.excluded > 0 {
                line += &format!(", {} excluded", list.excluded);
            }
            match list.not_wells {
                0 => {}
                1 => line += ", 1 row not a well",
                rows => line += &format!(", {rows} rows not wells"),
            }
            line
        };
        let mut lines: Vec<String> = self.checked.lists.iter().take(shown).map(line).collect();
        if lists > shown {
            lines.push(format!("  and {} more lists; --all shows them", lists - shown));
        }
        lines
    }

    fn questions(&self) -> Vec<String> {
        let all = self.causes;
        let open = all.open_questions();
        let held_back = self.tally.held_back;
        if open.is_empty() {
            return Vec::new();
        }
        let shown = &open[..open.len().min(if self.all { open.len() } else { MOST_QUESTIONS })];
        let mut lines = vec!["Questions, and the wells an answer frees, unless another problem shows up:".to_owned()];
        for (at, place) in shown.iter().enumerate() {
            let question = &all.questions()[*place];
            let frees = match question.alone {
                0 => format!("0 by itself, {} with others", question.needed),
                alone => more_wells(alone),
            };
            let room = WIDTH.saturating_sub(frees.chars().count() + 7);
            lines.push(format!("{:>3}. {}: {frees}", at + 1, shortened(&question.asks(all), room)));
            lines.push(format!("     {}", self.answer_line(question)));
        }
        match open.len() - shown.len() {
            0 => {}
            1 => lines.push("     and 1 more question; --all shows it".to_owned()),
            more => lines.push(format!("     and {more} more questions; --all shows them")),
        }
        let number = |place: &usize| shown.iter().position(|other| other == place).map_or(0, |at| at + 1);
        let together = all.together(&shown[..shown.len().min(MOST_TOGETHER)]);
        let mut said_all = false;
        if let Some((members, frees)) = together {
            let numbers: Vec<String> = members.iter().map(|place| number(place).to_string()).collect();
            said_all = members.len() == open.len();
            lines.push(format!("Together {}: {}.", and(&numbers), more_wells(frees)));
        }
        if open.len() > 1 && !said_all && all.answerable() > 0 {
            lines.push(format!("All {} answered: {}.", open.len(), more_wells(all.answerable())));
        }
        let rest = held_back.saturating_sub(all.answerable());
        if rest > 0 {
            lines.push(format!("{} held back by single cells or rows, to be corrected one by one.", are_wells(rest)));
        }
        lines
    }

    /// How to answer; behind the name of the list, where there are several.
    fn answer_line(&self, question: &Question) -> String {
        let line = question.answer(self.causes);
        let answer = if self.is_of_book { by_sheet(&line) } else { line };
        match question.list(self.causes).filter(|_| self.sources > 1) {
            Some(origin) => {
                let room = WIDTH.saturating_sub(answer.chars().count() + 7).max(12);
                format!("{}: {answer}", shortened_within(&list_name(origin), room))
            }
            None => answer,
        }
    }

    fn causes(&self, room: usize) -> Vec<String> {
        let groups = grouped(self.causes.by_weight());
        let room = if self.all { usize::MAX } else { room };
        let mut lines = Vec::new();
        let mut shown = 0;
        let mut last = None;
        for group in &groups {
            let Some(first) = group.first() else { continue };
            let severity = first.severity();
            // A new heading takes a line, and so does the remark that there are more.
            let needed = 1 + usize::from(last != Some(severity)) + usize::from(shown + 1 < groups.len());
            if lines.len() + needed > room {
                break;
            }
            if last != Some(severity) {
                lines.push(match severity {
                    Severity::Error => "Held back, by cause (wells):".to_owned(),
                    Severity::Warning => "Check (how often):".to_owned(),
                    Severity::Note => "Note (how often):".to_owned(),
                });
                last = Some(severity);
            }
            lines.push(self.cause_line(group, first));
            shown += 1;
        }
        match groups[shown..].iter().map(Vec::len).sum::<usize>() {
            0 => {}
            1 => lines.push("and 1 more cause; --all shows it".to_owned()),
            more => lines.push(format!("and {more} more causes; --all shows them")),
        }
        lines
    }

    fn cause_line(&self, group: &[&Cause], first: &Cause) -> String {
        let count: u64 = match first.wells {
            0 => group.iter().map(|cause| cause.times()).sum(),
            _ => group.iter().map(|cause| cause.wells).sum(),
        };
        let head = format!("{count:>7}  ");
        let place = first.examples.first().map(|place| self.spot(place)).unwrap_or_default();
        let room = WIDTH.saturating_sub(head.chars().count() + place.chars().count() + 2);
        format!("{head}{}  {place}", shortened(&questions::what_of_all(group), room)).trim_end().to_owned()
    }

    /// A place; with its list, where there are several.
    fn spot(&self, place: &Place) -> String {
        let spot = spot(place);
        if self.sources < 2 && !spot.is_empty() {
            return spot;
        }
        let name = match &place.origin.sheet {
            Some(sheet) if self.checked.lists.iter().all(|(list, _)| list.file == place.origin.file) => {
                sheet.to_string()
            }
            Some(sheet) => format!("{}!{sheet}", place.origin.file),
            None => place.origin.file.to_string(),
        };
        let room = 29_usize.saturating_sub(spot.chars().count());
        format!("{} {spot}", shortened_within(&name, room)).trim_end().to_owned()
    }
}

/// What goes into one line: causes of one code and list, and of one column where they hold wells back; the heaviest first.
fn grouped(causes: Vec<&Cause>) -> Vec<Vec<&Cause>> {
    let mut places: BTreeMap<(&str, Option<usize>, Option<u32>), usize> = BTreeMap::new();
    let mut groups: Vec<Vec<&Cause>> = Vec::new();
    for cause in causes {
        let number = cause.column.as_ref().map_or(0, |column| column.number);
        let key = (cause.code.id(), cause.list, (cause.wells > 0).then_some(number));
        let place = *places.entry(key).or_insert_with(|| {
            groups.push(Vec::new());
            groups.len() - 1
        });
        groups[place].push(cause);
    }
    let weight = |group: &Vec<&Cause>| {
        let wells: u64 = group.iter().map(|cause| cause.wells).sum();
        let times: u64 = group.iter().map(|cause| cause.times()).sum();
        (group.first().map(|cause| cause.severity()), std::cmp::Reverse(wells), std::cmp::Reverse(times))
    };
    groups.sort_by_key(weight);
    groups
}

/// `1 more well`, `2 more wells`.
fn more_wells(count: u64) -> String {
    if count == 1 { "1 more well".to_owned() } else { format!("{count} more wells") }
}

fn are(count: u64) -> String {
    format!("{count} {}", if count == 1 { "is" } else { "are" })
}

/// `1`, `1 and 2`, `1, 2 and 3`.
fn and(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// A line that fits, whatever a list calls its headings: letters of the East take two places.
fn clipped(line: &str, width: usize) -> String {
    let places = |letter: char| match letter as u32 {
        0x0300..=0x036F | 0x200B..=0x200F => 0,
        0x1100..=0x115F
        | 0x2E80..=0xA4CF
        | 0xAC00..=0xD7A3
        | 0xF900..=0xFAFF
        | 0xFE30..=0xFE6F
        | 0xFF00..=0xFF60
        | 0xFFE0..=0xFFE6
        | 0x1F300..=0x1FAFF
        | 0x20000..=0x3FFFD => 2,
        _ => 1,
    };
    let whole: usize = line.chars().map(places).sum();
    if whole <= width {
        return line.to_owned();
    }
    let mut kept = String::new();
    let mut taken = 1; // The ellipsis.
    for letter in line.chars() {
        taken += places(letter);
        if taken > width {
            break;
        }
        kept.push(letter);
    }
    format!("{}…", kept.trim_end())
}
