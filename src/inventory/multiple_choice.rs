//! One question of a survey that came out as several columns of ticks, one for each answer.
//!
//! `well_type/drilled`, `Kind of well: dug`, `Where would flush water go? [lawn]`: headings with a common beginning whose
//! cells are 0 and 1, x or blank, true or false; or a question over several columns, and its answers below it. The ticked
//! answer is then read like a cell. Found once a table, from its headings and its sample.

mod grouped;

pub use grouped::without_number;

use super::choices::{self, Meaning};
use super::rows::Rows;
use crate::field::{DischargeRoute, Field, WellType, squash};

/// The columns of one question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// What the answers choose: a type, a route, a width, or whether the well was flooded.
    pub field: Field,
    /// The common beginning of the headings, as written.
    pub asks: String,
    /// Each answer: its column, and its words.
    pub answers: Vec<(usize, String)>,
    /// The column whose heading is the beginning alone, where there is one: often blank, or all ticked answers at once.
    pub whole: Option<usize>,
    /// The column beside the ticks where another answer is written out: `wider: write it`.
    pub written: Option<usize>,
}

/// What stands between a question and its answer: sign, and the sign that closes it.
const MARKS: [(&str, &str); 7] = [("[", "]"), ("/", ""), (": ", ""), (" - ", ""), (" (", ")"), (".", ""), ("_", "")];

const TICKED: [&str; 18] = [
    "1",
    "x",
    "true",
    "yes",
    "y",
    "✓",
    "✔",
    "☑",
    "☒",
    "×",
    "t",
    "oui",
    "vrai",
    "si",
    "sí",
    "sim",
    "verdadero",
    "verdadeiro",
];
const BLANK: [&str; 15] =
    ["0", "", "false", "no", "n", "☐", "f", "-", "non", "faux", "não", "nao", "falso", "na", "n/a"];

/// Whether a cell is ticked.
pub fn is_ticked(text: &str) -> bool {
    TICKED.contains(&text.trim().to_lowercase().as_str())
}

fn is_tick_or_blank(text: &str) -> bool {
    let text = text.trim();
    text.chars().count() <= 10 && (is_ticked(text) || BLANK.contains(&text.to_lowercase().as_str()))
}

/// Whether a column holds ticks and nothing else; a few sums of them at the foot do not count.
pub fn holds_ticks(sample: &Rows, first_row: usize, column: usize) -> bool {
    let (mut filled, mut others) = (0, 0);
    for row in first_row..sample.len() {
        let cell = sample.cell(row, column);
        filled += usize::from(!cell.trim().is_empty());
        others += usize::from(!is_tick_or_blank(cell));
    }
    filled > 0 && others * 20 <= filled
}

/// A heading as question and answer at every place of a mark.
fn cuts<'a>(heading: &'a str, (mark, close): (&str, &str)) -> Vec<(&'a str, &'a str)> {
    heading
        .match_indices(mark)
        .filter_map(|(at, _)| {
            let answer = heading[at + mark.len()..].trim();
            let answer = if close.is_empty() { answer } else { answer.strip_suffix(close)?.trim() };
            let question = heading[..at].trim();
            (!question.is_empty() && !answer.is_empty()).then_some((question, answer))
        })
        .collect()
}

/// What most of the answers are: types or routes; nothing where they are neither.
fn field_of(question: &str, answers: &[(usize, String)]) -> Option<Field> {
    let says = |meaning: bool, nothing: bool| u32::from(meaning) * 2 + u32::from(nothing);
    let mut types = 0;
    let mut routes = 0;
    for (_, answer) in answers {
        let (kind, route) = (choices::well_type(answer), choices::route(answer));
        types += says(kind.value().is_some() || matches!(kind, Meaning::NotAWell(_)), kind == Meaning::Missing);
        routes += says(route.value().is_some(), route == Meaning::Missing);
    }
    let most = types.max(routes) as usize;
    // Two answers of a question about something else may happen to be words of ours.
    if most < 3 || most <= answers.len() {
        return None;
    }
    // A sewage system and a source of power have answers like ours.
    let question = question.to_lowercase();
    if ["toilet", "sewage", "waste", "latrine", "sanitation"].iter().any(|word| question.contains(word)) {
        return None;
    }
    Some(if types > routes { Field::WellType } else { Field::DischargeRoute })
}

/// The questions among the columns of a table. `first_row` is the first row of the sample below the headings.
///
/// `groups` are what stands over each heading.
pub fn questions(headings: &[String], groups: &[String], sample: &Rows, first_row: usize) -> Vec<Question> {
    let ticks = |column: usize| holds_ticks(sample, first_row, column);
    let blank = |column: usize| (first_row..sample.len()).all(|row| sample.cell(row, column).trim().is_empty());
    let mut taken = vec![false; headings.len()];
    let mut found = Vec::new();
    for mark in MARKS {
        for at in 0..headings.len() {
            // The longest question first: its answers are the shortest.
            for (question, _) in cuts(&headings[at], mark).into_iter().rev() {
                if taken[at] {
                    break;
                }
                let wanted = squash(question);
                let answers: Vec<(usize, String)> = (at..headings.len())
                    .filter(|column| !taken[*column])
                    .filter_map(|column| {
                        let mut cuts = cuts(&headings[column], mark).into_iter();
                        let (_, answer) = cuts.find(|(question, _)| squash(question) == wanted)?;
                        Some((column, answer.replace('_', " ")))
                    })
                    .collect();
                // An answer that nobody gave may be left blank all the way down.
                let whole_ticks = answers.iter().all(|(column, _)| ticks(*column) || blank(*column));
                let any = answers.iter().any(|(column, _)| ticks(*column));
                if answers.len() < 2 || !whole_ticks || !any {
                    continue;
                }
                let Some(field) = field_of(question, &answers) else { continue };
                for (column, _) in &answers {
                    taken[*column] = true;
                }
                let whole = (0..headings.len()).find(|column| !taken[*column] && squash(&headings[*column]) == wanted);
                found.push(Question { field, asks: question.to_owned(), answers, whole, written: None });
            }
        }
    }
    found.extend(grouped::questions(headings, groups, sample, first_row, &taken));
    // One question a field: a second one is asked for nobody knows what.
    found.sort_by_key(|question| (question.field, question.answers.first().map(|(column, _)| *column)));
    found.dedup_by_key(|question| question.field);
    found
}

impl Question {
    /// The column that a finding about a choice points at: the first ticked one, else the first.
    pub fn column<'a>(&self, cell: impl Fn(usize) -> &'a str) -> usize {
        let ticked = self.answers.iter().find(|(column, _)| is_ticked(cell(*column)));
        ticked.or(self.answers.first()).map_or(0, |(column, _)| *column)
    }

    /// The words of the answers that a row ticks.
    pub fn ticked<'a>(&self, cell: impl Fn(usize) -> &'a str) -> Vec<&str> {
        self.answers.iter().filter(|(column, _)| is_ticked(cell(*column))).map(|(_, answer)| answer.as_str()).collect()
    }

    /// The choice of a row, by its name in the field's list.
    ///
    /// Two types ticked are asked; of several routes the one that needs the most care is used, and that is said. A row that
    /// ticks nothing says nothing.
    pub fn read<'a>(&self, cell: impl Fn(usize) -> &'a str) -> Meaning<&'static str> {
        let ticked = self.ticked(cell);
        match ticked.as_slice() {
            [] => Meaning::Missing,
            [one] if self.field == Field::WellType => choices::well_type(one).map(WellType::name),
            [one] => choices::route(one).map(DischargeRoute::name),
            several if self.field == Field::WellType => types(several).map(WellType::name),
            several => routes(several).map(DischargeRoute::name),
        }
    }

    /// Whether the answers are read as cells of their field would be: a width, a yes.
    pub const fn is_read_as_cell(&self) -> bool {
        !matches!(self.field, Field::WellType | Field::DischargeRoute)
    }
}

fn types(ticked: &[&str]) -> Meaning<WellType> {
    let read: Vec<Meaning<WellType>> = ticked.iter().map(|answer| choices::well_type(answer)).collect();
    match read.split_first() {
        Some((first, rest)) if first.value().is_some() && rest.iter().all(|other| other.value() == first.value()) => {
            first.clone()
        }
        _ => Meaning::Ask(format!("{} types are ticked: {}", ticked.len(), ticked.join("; "))),
    }
}

fn routes(ticked: &[&str]) -> Meaning<DischargeRoute> {
    let read: Vec<DischargeRoute> =
        ticked.iter().filter_map(|answer| choices::route(answer).value().copied()).collect();
    match choices::most_careful(&read) {
        Some(route) if read.iter().all(|other| *other == route) && read.len() == ticked.len() => Meaning::Is(route),
        Some(route) => {
            Meaning::Read(route, format!("of {} ticked, the one that needs the most care is used", ticked.join("; ")))
        }
        None => Meaning::Ask(format!("{} places are ticked: {}", ticked.len(), ticked.join("; "))),
    }
}
