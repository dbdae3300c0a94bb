//! The numbers of a clause in groups of one measure, each with what it is of.

use super::labels::together;
use super::lengths::{Group, is_across_and_down};
use super::reader::{Reader, unit_of};
use super::words::{AFTER, AT, BEFORE, JOINS, LINING, Label, OUTSIDE, TELLS, TIMES, UNTIL, in_table};

impl Reader<'_> {
    /// The numbers of a clause, those of one measure together, each group with what it is of.
    pub(super) fn groups(&self, from: usize, to: usize) -> Vec<Group> {
        let mut groups = self.strings(self.joined(from, to));
        let mut start = from;
        let other = |group: &Group| group.lengths.iter().all(|length| self.counts_other(length));
        let counts = groups.iter().any(other);
        for at in 0..groups.len() {
            let next = groups.get(at + 1).map_or(to, |next| next.first().at);
            let (first, last) = (groups[at].first().at, groups[at].end);
            let begins = start;
            let before = self.label_before(start, first);
            let cut = if at + 1 < groups.len() { self.cut(last, next, before.is_some()) } else { next };
            let group = &mut groups[at];
            group.end = cut;
            group.cased = self.has(&LINING, from, to);
            let told = first > from && TELLS.contains(&self.word(first - 1));
            group.in_words =
                !told && (from..to).any(|at| self.tokens[at].is_word() && unit_of(self.word(at)).is_none());
            group.after_w = first > from && self.stands_for_water(from, first);
            start = cut;
            if other(group) {
                group.label = Some(Label::Aside);
            } else if group.label.is_none() {
                let at_something = counts && first > from && AT.contains(&self.word(first - 1));
                group.label = self.label(group, before, (last, cut));
                if group.label.is_none() && (at_something || self.has(&OUTSIDE, begins, cut)) {
                    group.label = Some(Label::Aside);
                }
            }
        }
        groups
    }

    /// The numbers of a clause, those that a word or a sign joins together.
    fn joined(&self, from: usize, to: usize) -> Vec<Group> {
        let mut groups: Vec<Group> = Vec::new();
        let mut at = from;
        while at < to {
            let Some(length) = self.length(at) else {
                at += 1;
                continue;
            };
            at = length.end.max(at + 1);
            let single = Group {
                lengths: vec![length],
                until: None,
                label: None,
                end: length.end,
                cased: false,
                in_words: false,
                after_w: false,
            };
            let Some(group) = groups.last_mut() else {
                groups.push(single);
                continue;
            };
            let last = group.until.unwrap_or(group.lengths[group.lengths.len() - 1]);
            let between: Vec<&str> =
                (last.end..length.at).map(|at| self.word(at)).filter(|word| *word != ".").collect();
            let counted = self.counts_other(&last) || self.counts_other(&length);
            let reaches = between.split_last().is_some_and(|(until, others)| {
                UNTIL.contains(until)
                    && others.iter().all(|word| LINING.contains(word) || ["on", "down"].contains(word))
            });
            let downward = last.is_across() && !length.is_across();
            match between.as_slice() {
                // `6 in to 40 ft`
                _ if reaches && group.lengths.len() == 1 && downward && !counted => group.reach(length),
                // `8 in from 75 to 390 ft`: the second number is how deep it reaches.
                ["to" | "a" | "-"] if group.until.is_some() && !counted => group.reach(length),
                ["from" | "de" | "des"] if downward && !counted => group.reach(length),
                [word] if JOINS.contains(word) && !counted => group.join(length),
                [word] if TIMES.contains(word) => {
                    group.label = Some(Label::Width);
                    if is_across_and_down(&last, &length) {
                        groups.push(Group { label: Some(Label::Depth), ..single });
                    } else {
                        group.join(length);
                    }
                }
                _ => groups.push(single),
            }
        }
        groups
    }

    /// `8" 0-40', 6" open hole 40-165'`: a stretch behind a width says how deep it reaches.
    fn strings(&self, groups: Vec<Group>) -> Vec<Group> {
        let mut found: Vec<Group> = Vec::with_capacity(groups.len());
        for group in groups {
            let stretch = group.lengths.len() == 2 && group.label.is_none() && self.word(group.lengths[0].end) == "-";
            if let Some(width) =
                found.last_mut().filter(|width| stretch && width.until.is_none() && width.first().is_across())
                && (width.end..group.first().at).all(|at| {
                    let word = self.word(at);
                    LINING.contains(&word) || ["open", "hole", "oh", "o", "h", ".", "from", ":"].contains(&word)
                })
            {
                width.reach(group.lengths[1]);
            } else {
                found.push(group);
            }
        }
        found
    }

    /// Where between two numbers the words of the second begin.
    fn cut(&self, from: usize, to: usize, labeled: bool) -> usize {
        let next_counts = self.length(to).is_some_and(|next| self.counts_other(&next));
        (from..to)
            .find(|at| {
                let Some(label) = in_table(&BEFORE, self.word(*at)) else { return false };
                // `130 feet of water`
                if *at > from && together(self.word(at - 1), self.word(*at)).is_some() {
                    return false;
                }
                // `142' swl 38`: of the second, unless it has its own word behind it.
                let next_end = self.length(to).map_or(to, |next| next.end);
                let named_behind = matches!(in_table(&AFTER, self.word(next_end)), Some(Label::Level | Label::Depth));
                let next_to = at + 1 == to && (*at > from || !named_behind);
                let stands_before = next_to || label == Label::Aside && !next_counts;
                let labeled = labeled || (from..*at).any(|at| self.label_after(at, to).is_some());
                labeled || stands_before || self.label_after(*at, to).is_none()
            })
            .unwrap_or(to)
    }

    /// A level with what it is counted from; a height as the reader of cells knows it.
    pub(super) fn level(&self, group: &Group) -> String {
        if group.label == Some(Label::Height) {
            return format!("{} of water", self.all_of(group));
        }
        let to_water = (group.behind()..group.end).find(|at| self.label_after(*at, group.end) == Some(Label::Level));
        self.slice(group.first().at, to_water.unwrap_or(group.end)).replace(" off ", " from ")
    }
}
