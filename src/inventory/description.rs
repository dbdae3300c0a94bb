//! A whole well in one cell: `6in drilled, 140 deep, pump hangs at 120, water at 31`.
//!
//! Cuts such a text into the words of each measure; these are read like cells of columns of their own. A number counts only
//! where the words beside it say what it is of, or where it can be but one thing. What is left over is told, and the row is
//! asked about.

mod groups;
mod labels;
mod lengths;
mod paired;
mod place;
mod reader;
mod words;

use std::borrow::Cow;

use super::choices;
use super::lexicon::Language;
use super::phrases::{Token, tokens};
use super::remarks::{self, Statement, words::Way};
use super::rows::{Rows, trim};
use crate::field::Field;
use crate::field::rules::ReadingRules;
use crate::inventory::heading;
use crate::quantity::format::number;
use crate::quantity::parse::{self, Comma, Size, Sort};
use crate::quantity::unit;
use lengths::Group;
use paired::Order;
use place::place;
use reader::{Reader, counts_other, unit_of};
use words::{AFTER, BEFORE, GUESSED, Label, in_table};

/// What a description may give, in the order of its columns.
pub const FIELDS: [(Field, &str); 6] = [
    (Field::TotalDepth, "depth"),
    (Field::StaticWaterLevel, "water level"),
    (Field::CasingDiameter, "diameter"),
    (Field::CasingDepth, "casing depth"),
    (Field::StickUp, "height of the casing"),
    (Field::WellType, "type"),
];

/// The words of each measure; empty where there are none.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Parts {
    /// In the order of [`FIELDS`].
    pub of: [String; FIELDS.len()],
    /// Numbers that nothing says the meaning of.
    pub unread: Vec<String>,
}

const DEPTH: usize = 0;
const LEVEL: usize = 1;
const WIDTH: usize = 2;
const CASING: usize = 3;
const RIM: usize = 4;
const TYPE: usize = 5;

impl Parts {
    /// Whether these are the measures of a well: two of its depth, water and width.
    fn describe_a_well(&self) -> bool {
        self.of[..=WIDTH].iter().filter(|part| !part.is_empty()).count() >= 2
    }
}

/// The parts of a cell of a depth or a level that gives other measures too, as in `140, water at 35`; nothing where it does not, or
/// where a number stays unexplained.
pub fn several(text: &str, field: Field) -> Option<Vec<(Field, String)>> {
    let said = match field {
        Field::TotalDepth => "depth",
        Field::StaticWaterLevel => "static",
        _ => return None,
    };
    let text = top_as_pipe(text);
    let parts = cut(&format!("{said} {text}"), false);
    let measures =
        FIELDS.into_iter().zip(parts.of).filter(|((of, _), part)| *of != Field::WellType && !part.is_empty());
    let measures: Vec<(Field, String)> = measures.map(|((of, _), part)| (of, part)).collect();
    let told = parts.unread.is_empty() && measures.len() > 1 && measures.iter().any(|(of, _)| *of == field);
    told.then_some(measures)
}

/// `31 from TOC, TOC 1.5' up` as `31 from TOC, pipe is 1.5' up`: what stands up is the pipe, whose top was spoken of.
fn top_as_pipe(text: &str) -> Cow<'_, str> {
    const TOPS: [&str; 5] = ["toc ", "t.o.c. ", "top ", "tc ", "casing top "];
    let Some((before, behind)) = text.split_once([',', ';']) else { return Cow::Borrowed(text) };
    let lower = behind.trim_start().to_ascii_lowercase();
    let top = TOPS.into_iter().find(|top| lower.starts_with(top));
    match top.map(|top| &behind.trim_start()[top.len()..]) {
        Some(rest) if rest.starts_with(|c: char| c.is_ascii_digit()) && lower.contains("up") => {
            Cow::Owned(format!("{before}, pipe is {rest}"))
        }
        _ => Cow::Borrowed(text),
    }
}

/// The column of a table that describes whole wells, and where its parts stand behind the columns of the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Described {
    /// The column of the list.
    pub column: usize,
    /// The first column of parts.
    pub first: usize,
    /// Filled cells of the sample.
    pub cells: usize,
    /// Those of them that describe a well.
    pub understood: usize,
    /// The measures of its cells, where they stand in the order of the heading.
    order: Option<Order>,
}

impl Described {
    /// The headings of the parts, under the heading of the description.
    pub fn headings(&self, heading: &str) -> Vec<String> {
        let mut parts: Vec<String> = FIELDS.iter().map(|(_, part)| format!("{heading}: {part}")).collect();
        if let Some(order) = self.order {
            for (place, unit) in order.places().zip(order.units(heading)).filter(|(_, unit)| !unit.is_empty()) {
                parts[place] = format!("{} ({unit})", FIELDS[place].1);
            }
        }
        parts
    }

    /// Whether its cells give measures in the order of the heading, and no words.
    pub const fn is_in_order(&self) -> bool {
        self.order.is_some()
    }

    /// The parts of a cell of this column.
    pub fn parts(&self, text: &str) -> Parts {
        self.order.map_or_else(|| parts(text), |order| order.parts(text))
    }

    /// Whether a column is one of parts.
    pub fn is_part(&self, column: usize) -> bool {
        column >= self.first
    }

    /// The field of a column of parts.
    pub fn field_of(&self, column: usize) -> Option<Field> {
        FIELDS.get(column.checked_sub(self.first)?).map(|(field, _)| *field)
    }

    /// Gives each row from `from` on the parts of its description. A row with cells beyond the last heading is left alone:
    /// what is said of such rows stays true.
    pub fn cut(&self, rows: &mut Rows, from: usize) {
        for row in from..rows.len() {
            let text = trim(rows.cell(row, self.column));
            if text.is_empty() || rows.width(row) > self.first {
                continue;
            }
            for (at, part) in self.parts(text).of.iter().enumerate().filter(|(_, part)| !part.is_empty()) {
                rows.replace(row, self.first + at, part);
            }
        }
    }

    /// Whether the cells behind the last heading are parts of the row's description, and not the list's own.
    pub fn was_cut(&self, rows: &Rows, row: usize) -> bool {
        let parts = self.parts(trim(rows.cell(row, self.column)));
        rows.width(row) <= self.first + FIELDS.len()
            && parts.of.iter().enumerate().all(|(at, part)| rows.cell(row, self.first + at) == part)
    }
}

/// Finds the column that describes whole wells, under these headings, in rows from `from` on.
///
/// `notes` stand around the table.
pub fn find(
    headings: &[String],
    rows: &Rows,
    from: usize,
    rules: &ReadingRules,
    (notes, language): (&[String], Language),
) -> Option<Described> {
    /// From this share of its cells on a column is one of descriptions.
    const ENOUGH: f64 = 0.6;
    let enough = |(cells, understood): (usize, usize)| understood >= 3 && understood as f64 >= ENOUGH * cells as f64;
    let in_order =
        (0..headings.len()).filter(|at| heading::mapped(&headings[*at], rules).is_none()).find_map(|column| {
            let order = Order::told(&headings[column], notes, language)?;
            let texts = (from..rows.len()).map(|row| trim(rows.cell(row, column))).filter(|text| !text.is_empty());
            let (cells, understood) =
                texts.fold((0, 0), |(cells, given), text| (cells + 1, given + usize::from(order.is_given(text))));
            enough((cells, understood)).then_some(Described {
                column,
                first: headings.len(),
                cells,
                understood,
                order: Some(order),
            })
        });
    if in_order.is_some() {
        return in_order;
    }
    let count = |column: usize| {
        let texts = (from..rows.len()).map(|row| trim(rows.cell(row, column))).filter(|text| !text.is_empty());
        texts.fold((0, 0), |(cells, understood), text| {
            (cells + 1, understood + usize::from(text.len() >= 8 && cut(text, true).describe_a_well()))
        })
    };
    let measures = [Field::TotalDepth, Field::StaticWaterLevel, Field::WaterColumn, Field::CasingDiameter];
    let may = |column: &usize| {
        let heading = &headings[*column];
        let named = heading::name(heading, None).is_some_and(|named| measures.contains(&named.field));
        !heading.is_empty() && !named && heading::mapped(heading, rules).is_none()
    };
    (0..headings.len())
        .filter(may)
        .map(|column| (column, count(column)))
        .filter(|(_, counted)| enough(*counted))
        .max_by_key(|(column, (_, understood))| (*understood, std::cmp::Reverse(*column)))
        .map(|(column, (cells, understood))| Described {
            column,
            first: headings.len(),
            cells,
            understood,
            order: None,
        })
}

/// Cuts a description into its parts.
pub fn parts(text: &str) -> Parts {
    strings_alone(text).unwrap_or_else(|| cut(text, true))
}

/// The parts of a text that gives strings of casing and nothing else, as the reader of cells knows them: `8" stl to 24, 6" OH to
/// TD`.
fn strings_alone(text: &str) -> Option<Parts> {
    if !text.contains(['"', '”', '″']) && !text.contains("in") && !text.contains("mm") {
        return None;
    }
    let Ok(Size::Strings(pieces)) = parse::size(text, Sort::Diameter, None, Comma::ByForm) else { return None };
    let last = pieces.last().filter(|_| pieces.len() > 1)?;
    let unit = last.depths_in.or_else(|| unit::by_symbol("m"))?;
    let mut parts = Parts::default();
    text.clone_into(&mut parts.of[WIDTH]);
    if let Some(bottom) = last.bottom {
        parts.of[DEPTH] = format!("{} {}", number(unit.from_si(bottom), 6), unit.symbol);
    }
    Some(parts)
}

/// The same; of a whole well, the one number without a word is its depth.
fn cut(text: &str, whole: bool) -> Parts {
    let figures = in_figures(text);
    let text = figures.as_deref().unwrap_or(text);
    let tokens = tokens(text);
    let told: Vec<(usize, usize)> = remarks::of_tokens(&tokens)
        .iter()
        .filter(|statement| is_later(statement))
        .map(|statement| (statement.from, statement.to))
        .collect();
    let reader = Reader { text, tokens: &tokens, told: &told };
    let well_type = choices::well_type(text).value().copied();
    let mut groups: Vec<Group> = Vec::new();
    let mut full = "";
    for (from, to) in reader.clauses() {
        if let Some(words) = reader.full(from, to) {
            full = words;
        }
        groups.extend(reader.groups(from, to));
    }
    let mut parts = Parts::default();
    if whole {
        place(&mut groups, well_type);
    }
    for group in groups.iter().filter(|group| group.label.is_none()) {
        parts.unread.push(reader.all_of(group).to_owned());
    }
    let of = |label: Label| groups.iter().filter(move |group| group.label == Some(label));
    parts.of[DEPTH] = joined(of(Label::Depth).map(|group| reader.all_of(group).to_owned()));
    parts.of[CASING] = joined(of(Label::Casing).map(|group| reader.all_of(group).to_owned()));
    parts.of[RIM] = joined(of(Label::Rim).map(|group| reader.all_of(group).to_owned()));
    let levels = groups.iter().filter(|group| matches!(group.label, Some(Label::Level | Label::Height)));
    parts.of[LEVEL] = joined(levels.map(|group| reader.level(group)));
    if parts.of[LEVEL].is_empty() {
        full.clone_into(&mut parts.of[LEVEL]);
    }
    widths(&reader, &groups, &mut parts);
    if unit_doubted(&tokens) {
        parts.unread.push("the unit".to_owned());
    }
    if guessed(&tokens) {
        parts.unread.push("the round number".to_owned());
    }
    if remarks::names_several_wells(&tokens) || second_well(&tokens) {
        parts.unread.push("more than one well".to_owned());
    }
    if let Some(well_type) = well_type {
        well_type.name().replace('_', " ").clone_into(&mut parts.of[TYPE]);
    }
    parts
}

/// Whether a statement in a description tells a later fact, which overrules the rest; what it says of depth and level is read
/// as its parts.
pub fn is_later(statement: &Statement) -> bool {
    !matches!(statement.way, Way::Depth | Way::Level)
}

/// Whether it says that the unit is not known: `no dice si metros o varas`.
fn unit_doubted(tokens: &[Token]) -> bool {
    let unit = |token: &Token| token.is_word() && unit_of(&token.word).is_some();
    let or = |token: &Token| ["or", "o", "ou"].contains(&token.word.as_str());
    tokens.windows(3).any(|three| unit(&three[0]) && or(&three[1]) && three[2].is_word())
}

/// Whether a number is only guessed at: `twenty some`, `20-odd`, `20 y pico`.
fn guessed(tokens: &[Token]) -> bool {
    let joins = |token: &&Token| ["-", "y", "et", "e"].contains(&token.word.as_str());
    let is_number = |token: &Token| token.number.is_some() || parse::written_out(&token.word).is_some();
    // `20 some gpm`, `20 odd years` count something else.
    let counts = |at: usize| tokens.get(at).is_some_and(|token| counts_other(&token.word));
    (1..tokens.len()).any(|at| {
        !counts(at + 1)
            && GUESSED.contains(&tokens[at].word.as_str())
            && tokens[..at].iter().rev().find(|token| !joins(token)).is_some_and(is_number)
    })
}

/// Whether another well is told of: `second well on lot 12: …`.
fn second_well(tokens: &[Token]) -> bool {
    let pair = |one: &Token, other: &Token| {
        ["second", "2nd", "other", "another", "otro", "autre", "outro"].contains(&one.word.as_str())
            && ["well", "pozo", "puits", "forage", "poco"].contains(&other.word.as_str())
    };
    tokens.windows(2).any(|two| pair(&two[0], &two[1]))
}

/// The widths: one, strings of casing, or a choice between them, which the reader of cells refuses.
fn widths(reader: &Reader<'_>, groups: &[Group], parts: &mut Parts) {
    let mut widths: Vec<&Group> = groups.iter().filter(|group| group.label == Some(Label::Width)).collect();
    if widths.is_empty() {
        widths = groups.iter().filter(|group| group.label == Some(Label::Bore)).collect();
    }
    let Some((last, others)) = widths.split_last() else { return };
    let single = |group: &Group| group.lengths.len() == 1;
    if !others.is_empty() && others.iter().all(|group| single(group) && group.until.is_some()) && single(last) {
        let strings = others.iter().filter_map(|group| {
            let until = group.until.as_ref()?;
            Some(format!("{} to {}", in_inches(reader, group), reader.of(until)))
        });
        parts.of[WIDTH] = format!("{}, {} below", strings.collect::<Vec<_>>().join(", "), in_inches(reader, last));
    } else {
        parts.of[WIDTH] = joined(widths.iter().map(|group| in_inches(reader, group)));
        if let ([only], true) = (widths.as_slice(), parts.of[CASING].is_empty())
            && let Some(until) = &only.until
        {
            reader.of(until).clone_into(&mut parts.of[CASING]);
        }
        return;
    }
    // `8 in on down to 380`: the last string ends where the well does.
    if let (Some(until), true) = (&last.until, parts.of[DEPTH].is_empty()) {
        reader.of(until).clone_into(&mut parts.of[DEPTH]);
    }
}

/// A width as it is written; that of a pipe in inches where nobody wrote its unit and the rest is in feet.
fn in_inches(reader: &Reader<'_>, group: &Group) -> String {
    let behind = group.behind();
    let square = ["sq", "square", "cuadrado", "carre", "quadrado"].contains(&reader.word(behind));
    let text = reader.slice(group.first().at, behind + usize::from(square));
    let in_feet = reader.tokens.iter().any(|token| unit_of(&token.word) == Some("ft"));
    let pipe = group.is_bare() && group.first().value <= 24.0 && group.cased && in_feet;
    if pipe { format!("{text} in") } else { text.to_owned() }
}

/// The text with the numbers that it writes in words in figures, where they measure something: `one hundred eighty deep`.
fn in_figures(text: &str) -> Option<String> {
    let mut found = false;
    let clauses = text.split_inclusive([',', ';', '.']).map(|clause| {
        let measures = |token: &Token| {
            unit_of(&token.word).is_some()
                || in_table(&AFTER, &token.word).is_some()
                || in_table(&BEFORE, &token.word).is_some()
        };
        let bare = !clause.contains(|c: char| c.is_ascii_digit());
        let figures = bare.then(|| parse::written_out(&clause.to_lowercase())).flatten();
        let figures = figures.filter(|_| tokens(clause).iter().any(measures));
        found |= figures.is_some();
        figures.unwrap_or_else(|| clause.to_owned())
    });
    let written = clauses.collect();
    found.then_some(written)
}

/// Several texts for one measure as a choice between them, which the reader of cells refuses.
fn joined(texts: impl Iterator<Item = String>) -> String {
    texts.collect::<Vec<_>>().join(" or ")
}
