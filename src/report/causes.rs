//! Findings by cause: what is wrong once, however many cells it is wrong in; how many wells each cause holds back, and how
//! many each question, once answered, sets free.
//!
//! Findings come row by row, in reading order, and each row adds to a few counters: linear in rows, the same on any number
//! of threads, and bounded in memory by the limits below.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::question::{self, Key, Question, lacks_column};
use crate::finding::{Code, Finding, Severity, Words};
use crate::place::{Column, Origin, Place};

/// Causes kept apart; what goes beyond is counted by its code alone.
const MOST_CAUSES: usize = 10_000;

/// Sets of two or more questions kept apart; what goes beyond is counted in the sum alone.
const MOST_SETS: usize = 65_536;

/// Places kept of each cause.
const EXAMPLES: usize = 3;

/// Letters of a typed text that tell two causes apart.
const TYPED_LETTERS: usize = 60;

/// What is wrong in one list, in one column, in one way.
#[derive(Debug, Clone)]
pub struct Cause {
    /// Entry of the catalogue.
    pub code: Code,
    /// The list, by its place in [`Causes::lists`]; nothing where there were too many causes to keep apart.
    pub list: Option<usize>,
    /// The column that it is about; `None` where it is about a whole row, sheet or file.
    pub column: Option<Column>,
    /// What was typed, where that is a part of the cause: numbers may differ, words may not.
    pub typed: Box<str>,
    /// What its first finding says, with that one's own figures.
    pub says: Words,
    /// What to do, as the first finding says it.
    pub help: Words,
    /// Where it was found first, a few places in reading order.
    pub examples: Vec<Place>,
    /// Findings about a file, a sheet or a heading.
    pub said: u64,
    /// Findings about cells and rows.
    pub cells: u64,
    /// Wells that it holds back, alone or with others.
    pub wells: u64,
    /// Wells that nothing else holds back.
    pub alone: u64,
    /// Fields that have no column, where that is the cause.
    pub lacking: BTreeSet<&'static str>,
    /// The question whose answer settles it, by its place in [`Causes::questions`].
    pub question: Option<usize>,
}

impl Cause {
    /// The severity that people read: what holds a well back is called so, whatever its finding is.
    pub fn severity(&self) -> Severity {
        if self.wells > 0 { Severity::Error } else { self.code.severity() }
    }

    /// How often it was found.
    pub fn times(&self) -> u64 {
        self.said + self.cells
    }
}

/// Code, list and column number (0: none).
type Group = (&'static str, usize, u32);

/// Every cause of a run.
#[derive(Debug, Default)]
pub struct Causes {
    /// Whether no system of units is declared, so that declaring one would settle the units.
    undeclared: bool,
    lists: Vec<Origin>,
    causes: Vec<Cause>,
    known: HashMap<Group, HashMap<Box<str>, usize>>,
    beyond: BTreeMap<Code, usize>,
    /// For a list and a field without a column: the finding about the file or the heading that says why.
    said_above: BTreeMap<(usize, &'static str), usize>,
    questions: Vec<Question>,
    keys: BTreeMap<Key, usize>,
    sets: BTreeMap<Vec<usize>, u64>,
    answerable: u64,
    /// Room for the typed text in its common form.
    form: String,
}

impl Causes {
    /// Nothing yet; `undeclared` where nobody has declared a system of units.
    pub fn new(undeclared: bool) -> Self {
        Self { undeclared, ..Self::default() }
    }

    /// Takes the findings about files and headings, which come first.
    pub fn take_files(&mut self, findings: &[Finding]) {
        for finding in findings {
            let list = self.list(&finding.place.origin);
            let cause = self.cause(finding, list);
            self.causes[cause].said += 1;
            self.example(cause, &finding.place);
            for field in question::fields_without_column(finding) {
                // A heading that could not be read says more than the sentence about the whole list.
                let heading = finding.place.column.is_some();
                if heading || !self.said_above.contains_key(&(list, field)) {
                    self.said_above.insert((list, field), cause);
                }
            }
        }
    }

    /// Takes the findings of rows, each row whole.
    pub fn take_rows(&mut self, findings: &[Finding]) {
        let same = |a: &Finding, b: &Finding| a.place.row == b.place.row && a.place.origin == b.place.origin;
        findings.chunk_by(same).for_each(|row| self.row(row));
    }

    fn row(&mut self, row: &[Finding]) {
        let Some(first) = row.first() else { return };
        let list = self.list(&first.place.origin);
        let mut held_by: Vec<usize> = Vec::new();
        for finding in row {
            let cause = match lacks_column(finding) {
                Some(field) => self.without_column(finding, list, field),
                None => {
                    let cause = self.cause(finding, list);
                    self.causes[cause].cells += 1;
                    self.example(cause, &finding.place);
                    cause
                }
            };
            if finding.code.severity() == Severity::Error {
                held_by.push(cause);
            }
        }
        if held_by.is_empty() {
            return;
        }
        held_by.sort_unstable();
        held_by.dedup();
        for cause in &held_by {
            self.causes[*cause].wells += 1;
        }
        if let [cause] = held_by[..] {
            self.causes[cause].alone += 1;
        }
        self.ask(&held_by);
    }

    /// Counts a row among what its questions set free.
    fn ask(&mut self, held_by: &[usize]) {
        let mut asked: Vec<usize> = held_by.iter().filter_map(|cause| self.causes[*cause].question).collect();
        let every = asked.len() == held_by.len();
        asked.sort_unstable();
        asked.dedup();
        for question in &asked {
            self.questions[*question].needed += 1;
        }
        if !every {
            return;
        }
        self.answerable += 1;
        if let [question] = asked[..] {
            self.questions[question].alone += 1;
        } else if let Some(count) = self.sets.get_mut(&asked) {
            *count += 1;
        } else if self.sets.len() < MOST_SETS {
            self.sets.insert(asked, 1);
        }
    }

    fn list(&mut self, origin: &Origin) -> usize {
        // Rows come table by table, so it is nearly always the last.
        self.lists.iter().rposition(|list| list == origin).unwrap_or_else(|| {
            self.lists.push(origin.clone());
            self.lists.len() - 1
        })
    }

    fn example(&mut self, cause: usize, place: &Place) {
        let examples = &mut self.causes[cause].examples;
        if examples.len() < EXAMPLES {
            examples.push(place.clone());
        }
    }

    /// The cause of a row's finding that a field has no column: what was said of the file or the heading, if anything was.
    fn without_column(&mut self, finding: &Finding, list: usize, field: &'static str) -> usize {
        // Where nothing was said above, it is said with the first row that lacks any column.
        let said = self.said_above.get(&(list, field)).or_else(|| self.said_above.get(&(list, ""))).copied();
        let cause = said.unwrap_or_else(|| {
            let cause = self.cause(finding, list);
            self.causes[cause].said = 1;
            self.said_above.insert((list, ""), cause);
            cause
        });
        self.causes[cause].lacking.insert(field);
        if self.causes[cause].examples.is_empty() {
            self.example(cause, &finding.place);
        }
        cause
    }

    fn cause(&mut self, finding: &Finding, list: usize) -> usize {
        let column = finding.place.column.as_ref().map_or(0, |column| column.number);
        let group = (finding.code.id(), list, column);
        let mut form = std::mem::take(&mut self.form);
        form_of(finding, &mut form);
        let known = self.known.get(&group).and_then(|forms| forms.get(form.as_str())).copied();
        let cause = known.unwrap_or_else(|| self.new_cause(finding, list, group, &form));
        self.form = form;
        cause
    }

    fn new_cause(&mut self, finding: &Finding, list: usize, group: Group, form: &str) -> usize {
        let room = self.causes.len() < MOST_CAUSES;
        if !room && let Some(cause) = self.beyond.get(&finding.code) {
            return *cause;
        }
        let at = self.causes.len();
        let question = room.then(|| self.question(finding, list, at)).flatten();
        self.causes.push(Cause {
            code: finding.code,
            list: room.then_some(list),
            column: finding.place.column.clone().filter(|_| room),
            typed: if room && !form.is_empty() { finding.seen.as_str().into() } else { "".into() },
            says: finding.says.clone(),
            help: finding.help.clone(),
            examples: Vec::new(),
            said: 0,
            cells: 0,
            wells: 0,
            alone: 0,
            lacking: BTreeSet::new(),
            question,
        });
        if room {
            self.known.entry(group).or_default().insert(form.into(), at);
        } else {
            self.beyond.insert(finding.code, at);
        }
        at
    }

    fn question(&mut self, finding: &Finding, list: usize, cause: usize) -> Option<usize> {
        let key = question::key(finding, list, self.undeclared)?;
        let question = *self.keys.entry(key).or_insert_with(|| {
            self.questions.push(Question::new(key));
            self.questions.len() - 1
        });
        self.questions[question].causes.push(cause);
        Some(question)
    }

    /// The lists that anything was found in, in order of their first finding.
    pub fn lists(&self) -> &[Origin] {
        &self.lists
    }

    /// Every cause, in order of its first finding.
    pub fn all(&self) -> &[Cause] {
        &self.causes
    }

    /// Every cause: what holds most wells back first, then what is found most.
    pub fn by_weight(&self) -> Vec<&Cause> {
        let mut causes: Vec<&Cause> = self.causes.iter().filter(|cause| cause.times() > 0).collect();
        // Stable: of equals the first found stays first.
        causes
            .sort_by_key(|cause| (cause.severity(), std::cmp::Reverse(cause.wells), std::cmp::Reverse(cause.times())));
        causes
    }

    /// Every question, in order of its first finding.
    pub fn questions(&self) -> &[Question] {
        &self.questions
    }

    /// The questions that any well waits for, by place: what sets most wells free first.
    pub fn open_questions(&self) -> Vec<usize> {
        let mut open: Vec<usize> = (0..self.questions.len()).filter(|at| self.questions[*at].needed > 0).collect();
        open.sort_by_key(|at| {
            let question = &self.questions[*at];
            (std::cmp::Reverse(question.alone), std::cmp::Reverse(question.needed))
        });
        open
    }

    /// Wells that are free when every question is answered.
    pub fn answerable(&self) -> u64 {
        self.answerable
    }

    /// Of these questions, the fewest that set more wells free together than one by one, and how many wells they set free in
    /// all; of several such sets the one that sets most free, then the one that stands first.
    pub fn together(&self, among: &[usize]) -> Option<(Vec<usize>, u64)> {
        let among = &among[..among.len().min(question::MOST_TOGETHER)];
        let mut counts = vec![0_u64; 1 << among.len()];
        for (set, count) in &self.sets {
            let bit = |question: &usize| among.iter().position(|other| other == question).map(|at| 1_usize << at);
            if let Some(mask) = set.iter().map(bit).try_fold(0, |mask, bit| Some(mask | bit?)) {
                counts[mask] += count;
            }
        }
        let within = |mask: usize| -> u64 {
            (0..counts.len()).filter(|part| part & mask == *part).map(|part| counts[part]).sum()
        };
        let best = (1..counts.len())
            .map(|mask| (mask, within(mask)))
            .filter(|(_, beyond)| *beyond > 0)
            .min_by_key(|(mask, beyond)| (mask.count_ones(), std::cmp::Reverse(*beyond), *mask));
        best.map(|(mask, beyond)| {
            let members: Vec<usize> =
                among.iter().enumerate().filter(|(at, _)| mask >> at & 1 == 1).map(|(_, question)| *question).collect();
            let alone: u64 = members.iter().map(|question| self.questions[*question].alone).sum();
            (members, alone + beyond)
        })
    }
}

/// The typed text in the form that cells of one cause share: of words the words themselves, of numbers the shape.
fn form_of(finding: &Finding, form: &mut String) {
    form.clear();
    // Only a cell that could not simply be read is told apart by its text.
    let words = question::is_about_words(finding);
    if !words && !finding.code.id().starts_with('C') {
        return;
    }
    let mut in_number = false;
    let mut letters = finding.seen.chars().peekable();
    let mut count = 0;
    while let Some(letter) = letters.next() {
        let digit = letter.is_ascii_digit() && !words;
        let point = in_number && matches!(letter, '.' | ',') && letters.peek().is_some_and(char::is_ascii_digit);
        if digit || point {
            if !in_number {
                form.push('#');
                count += 1;
            }
            in_number = true;
            continue;
        }
        in_number = false;
        if count >= TYPED_LETTERS {
            break;
        }
        form.extend(letter.to_lowercase());
        count += 1;
    }
}
