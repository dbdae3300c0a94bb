//! What a row is: a well, or one of the many rows of a list that are none.
//!
//! Told by the whole row: `Total` in the column of ids is a sum where no type stands beside it, and a well's name where one
//! does. A row with a depth and a type is a well, whatever its name; that costs two looks.

use super::super::cell::CellRules;
use super::super::dates;
use super::super::fate::Role;
use super::super::heading::tidy;
use super::super::phrases::{Class, Phrases, Token, tokens};
use super::super::row_kind::{NoWell, RowKind};
use super::super::rows::CellKind;
use super::{Draft, trim};
use crate::field::{Field, squash};
use crate::finding::catalogue;
use crate::inventory::cell::Datum;
use crate::inventory::columns::Plan;
use crate::place::Origin;
use crate::quantity::parse::Comma;
use crate::quantity::unit;

/// The measures that a well is computed from.
const MEASURES: [Field; 5] =
    [Field::TotalDepth, Field::StaticWaterLevel, Field::WaterColumn, Field::CasingDiameter, Field::WaterVolume];

/// Columns beyond this are not looked at.
const WIDEST: usize = 200;

/// The columns whose words tell what a row is, with what they are about.
pub fn worded(plan: &Plan) -> Vec<(usize, Role)> {
    let of_field = |field: Field, role| {
        let feed = plan.feeds.get(field as usize)?.as_ref().filter(|feed| !feed.barred)?;
        // `Findings / Conditions` of sentences tells of the well, whatever it is called.
        Some((feed.column, if plan.wordy.contains(&feed.column) { Role::Notes } else { role }))
    };
    let mut columns: Vec<(usize, Role)> = [
        of_field(Field::Status, Role::State),
        of_field(Field::WellType, Role::Kind),
        of_field(Field::WellId, Role::Name),
        of_field(Field::Notes, Role::Notes),
    ]
    .into_iter()
    .flatten()
    .collect();
    columns.extend(plan.carried.iter().filter_map(|(column, heading)| {
        if plan.describes(*column) {
            return Some((*column, Role::Notes));
        }
        if plan.changes == Some(*column) {
            return Some((*column, Role::Notes));
        }
        let role = role(heading)?;
        let wordy = role == Role::Other && plan.wordy.contains(column);
        Some((*column, if wordy { Role::Notes } else { role }))
    }));
    columns
}

/// The name of a sheet that holds no wells by it, where no column says otherwise: `Tanks and taps`.
pub fn no_wells_by_name(origin: &Origin, plan: &Plan, cells: &CellRules) -> Option<String> {
    let name = origin.sheet.as_deref()?;
    if plan.feeds.get(Field::WellType as usize)?.as_ref().is_some_and(|feed| !feed.barred) {
        return None;
    }
    let is_thing = |text: &str| {
        let read = cells.read(Field::WellType, text, CellKind::Text, Default::default(), Comma::ByForm);
        read.remarks.iter().any(|remark| remark.code == catalogue::NOT_A_WELL)
    };
    let first = name.split_whitespace().next().unwrap_or_default();
    (is_thing(name) || is_thing(first)).then(|| name.to_owned())
}

/// What a column that is not a field is about, by its heading; nothing where its words are about a part of the well.
fn role(heading: &str) -> Option<Role> {
    let words = tokens(heading);
    let phrases = Phrases::all();
    let has = |stems: &[&str]| words.iter().any(|token| stems.iter().any(|stem| token.word.starts_with(stem)));
    let parts = [
        "cap",
        "pump",
        "casing",
        "route",
        "discharge",
        "lab",
        "result",
        "data",
        "cover",
        "drain",
        "treat",
        "disposal",
        "sewage",
    ];
    if has(&["note", "nota", "remark", "remarque", "comment", "memo", "observ", "obs", "detail"]) {
        return Some(Role::Notes);
    }
    if has(&parts) || words.iter().any(|token| phrases.is(token, Class::Part) && token.word != "site") {
        return None;
    }
    if has(&["status", "condition", "etat", "statut", "estado", "situac", "situat", "active", "operational", "funcion"])
    {
        return Some(Role::State);
    }
    // What the well is used for tells a well for tests from one for drinking.
    if has(&["use", "usage", "purpose", "purp", "uso", "utilis"]) && !has(&["user", "used", "users"]) {
        return Some(Role::Use);
    }
    if has(&[
        "type", "kind", "sort", "source", "class", "categor", "tipo", "genre", "fuente", "fonte", "nature", "origin",
    ]) {
        return Some(Role::Kind);
    }
    if has(&[
        "name", "nom", "descri", "design", "facilit", "site", "location", "place", "lieu", "lugar", "local", "well",
        "puits", "pozo", "poco",
    ]) {
        return Some(Role::Name);
    }
    Some(Role::Other)
}

impl Draft {
    /// Finds out what the row is; a row that is not a well keeps nothing of what was read.
    pub(super) fn judge(&mut self) {
        if self.table.lists_no_wells {
            let sheet = self.table.origin.sheet.clone().unwrap_or_default();
            self.be_no_well(RowKind::OtherSheet, &sheet);
            return;
        }
        match self.kind_of_row() {
            Some((kind, seen)) => self.be_no_well(kind, &seen),
            // By its type it is a tank, a tap or a test hole.
            None if self.findings.iter().any(|finding| finding.code == catalogue::NOT_A_WELL) => {
                let typed = self.typed(Field::WellType).to_owned();
                self.be_no_well(RowKind::OtherSource, &typed);
            }
            None => self.read_words(),
        }
    }

    /// Makes the row one that is not a well; nothing else is worth saying of it.
    pub(super) fn be_no_well(&mut self, kind: RowKind, seen: &str) {
        self.data.fill(Datum::Missing);
        self.spreads.clear();
        self.own_units.clear();
        self.findings.clear();
        let mut quoted: String = seen.chars().take(60).collect();
        if quoted.len() < seen.len() {
            quoted.push('…');
        }
        self.no_well = Some(Box::new(NoWell { kind, seen: quoted.into() }));
    }

    /// How many of the measures are given as numbers.
    pub(super) fn measures(&self) -> usize {
        MEASURES.iter().filter(|field| matches!(self.datum(**field), Datum::Number(_))).count()
    }

    /// Whether the list itself says which type of well it is.
    pub(super) fn is_typed(&self) -> bool {
        matches!(self.datum(Field::WellType), Datum::Choice(_)) && !self.in_cell(Field::WellType).is_empty()
    }

    fn kind_of_row(&self) -> Option<(RowKind, String)> {
        let typed = self.is_typed();
        let id = if self.made_id.is_some() { "" } else { self.in_cell(Field::WellId) };
        let measures = self.measures();
        if measures > 0 && !id.is_empty() {
            let total = !typed && id.starts_with(|c: char| !c.is_ascii_digit()) && is_total(&tokens(id), true);
            return total.then(|| (RowKind::Total, id.to_owned()));
        }
        if measures > 1 && typed {
            return None;
        }
        let width = self.rows.width(self.row).min(WIDEST);
        let cells: Vec<(usize, &str)> = (0..width)
            .map(|column| (column, trim(self.rows.cell(self.row, column))))
            .filter(|(_, text)| !text.is_empty())
            .collect();
        let (column, first) = *cells.first()?;
        if self.is_legend() {
            return Some((RowKind::Legend, first.to_owned()));
        }
        // A survey's codes of its columns: `{"ImportId":"QID5"}`.
        let codes = cells.iter().all(|(_, text)| text.starts_with('{') && text.ends_with('}'));
        if self.repeats_heading() || codes {
            return Some((RowKind::Heading, first.to_owned()));
        }
        if measures == 0 && self.is_row_of_units(&cells) {
            return Some((RowKind::Heading, first.to_owned()));
        }
        if !typed {
            let labels = cells.iter().filter(|(at, text)| {
                (id.is_empty() || Some(*at) == self.column(Field::WellId))
                    && text.len() <= 80
                    && text.contains(char::is_alphabetic)
            });
            for (_, label) in labels.take(if id.is_empty() { 3 } else { 1 }) {
                if is_total(&tokens(label), !id.is_empty()) {
                    return Some((RowKind::Total, (*label).to_owned()));
                }
            }
        }
        if measures > 0 {
            return None;
        }
        let in_ids = self.made_id.is_none() && self.column(Field::WellId) == Some(column);
        let alone = cells.iter().all(|(_, text)| *text == first);
        if alone {
            return Some((self.alone(column, first, in_ids)?, first.to_owned()));
        }
        Some((self.few(&cells, in_ids)?, first.to_owned()))
    }

    /// One text and nothing else in the row.
    fn alone(&self, column: usize, text: &str, in_ids: bool) -> Option<RowKind> {
        if self.rows.kind(self.row, column) == CellKind::Date || dates::is_day(text) {
            return Some(RowKind::Footer);
        }
        if !text.contains(char::is_alphabetic) {
            return Some(match (in_ids, text.contains(|c: char| c.is_ascii_digit())) {
                (true, true) => RowKind::BlankForm,
                (false, true) => RowKind::Total,
                (_, false) => RowKind::Remark,
            });
        }
        let phrases = Phrases::all();
        let words = tokens(text);
        let begin = words.iter().position(Token::is_word).unwrap_or(0);
        let count = words.iter().filter(|token| token.is_word()).count();
        if text.starts_with(['*', '†', '‡', '(', '§']) && count > 1 {
            return Some(RowKind::Legend);
        }
        if words.iter().position(|token| token.word == "=").is_some_and(|at| at <= 3) {
            return Some(RowKind::Legend);
        }
        let after = |end: usize| words[end.min(words.len())..].iter().all(|token| !token.is_word());
        for (class, kind) in
            [(Class::Legend, RowKind::Legend), (Class::Footer, RowKind::Footer), (Class::Remark, RowKind::Remark)]
        {
            if let Some(end) = phrases.class_at(&words, begin, class) {
                let marked = words.get(end).is_some_and(|token| matches!(token.word.as_str(), ":" | "-" | "." | "("));
                let numbered = words.get(end).is_some_and(|token| token.number.is_some());
                let several = end - begin > 1;
                if after(end) || marked || several || numbered && kind == RowKind::Footer || kind == RowKind::Remark {
                    return Some(kind);
                }
            }
        }
        // `W-17`, `Well 17`: a number of the list, and nothing filled in.
        let numbered = words.iter().any(|token| token.number.is_some());
        let names_nothing = words.iter().filter(|token| token.is_word()).all(|token| {
            token.word.len() <= 3
                || phrases.is(token, Class::Well)
                || matches!(token.word.as_str(), "form" | "site" | "farm")
        });
        if in_ids && numbered && names_nothing && count <= 3 {
            return Some(RowKind::BlankForm);
        }
        if let Some(told) = super::super::fate::fate(&words, Role::Notes)
            && let super::super::fate::Fate::No(kind) = told.fate
            && count > 1
        {
            return Some(kind);
        }
        let letters = text.chars().filter(|c| c.is_alphabetic());
        let capitals = letters.clone().count() >= 4 && letters.clone().all(|c| !c.is_lowercase());
        let band = (0..words.len()).any(|at| phrases.class_at(&words, at, Class::Band).is_some());
        if count <= 8 && !text.ends_with('.') && (text.ends_with(':') || band || capitals && count > 1) {
            return Some(RowKind::Section);
        }
        if count > 4 || text.ends_with('.') {
            return Some(RowKind::Remark);
        }
        // Where ids are numbers, a lone word is the name of a section; where they are names, it may be a well.
        (!in_ids || self.table.ids_are_numbers()).then_some(RowKind::Section)
    }

    /// A few texts and no measure: labels with what belongs to them, and lines of a legend.
    fn few(&self, cells: &[(usize, &str)], in_ids: bool) -> Option<RowKind> {
        let phrases = Phrases::all();
        let (first, second) = (cells[0].1, cells.get(1)?.1);
        if cells.iter().any(|(_, text)| matches!(*text, "=" | "==")) && cells.len() <= 4 {
            return Some(RowKind::Legend);
        }
        if cells.len() > 3 {
            return None;
        }
        let words = tokens(first);
        let meaning = tokens(second);
        let is_code = first.chars().count() <= 3;
        let is_letters = first.chars().all(char::is_alphabetic);
        let explains = meaning.iter().take(3).any(|token| phrases.is(token, Class::Meaning))
            && meaning.len() <= 6
            && !meaning.iter().any(|token| token.number.is_some());
        if in_ids
            && is_code
            && explains
            && (is_letters && self.table.ids_are_numbers() || cells.len() == 2 && !self.is_typed())
        {
            return Some(RowKind::Legend);
        }
        if self.given() > 0 {
            return None;
        }
        let begin = words.iter().position(Token::is_word)?;
        let end_of = |class| phrases.class_at(&words, begin, class);
        let ends = |end: usize| words[end..].iter().all(|token| !token.is_word());
        for (class, kind) in
            [(Class::Footer, RowKind::Footer), (Class::Legend, RowKind::Legend), (Class::Remark, RowKind::Remark)]
        {
            if end_of(class).is_some_and(|end| ends(end) || end - begin > 1) {
                return Some(kind);
            }
        }
        first.ends_with(':').then_some(RowKind::Section)
    }

    /// How many cells gave a number, a choice or an answer.
    fn given(&self) -> usize {
        let of = |field: &Field| {
            matches!(self.datum(*field), Datum::Number(_) | Datum::Choice(_) | Datum::Flag(_))
                && !self.in_cell(*field).is_empty()
        };
        self.table.order.iter().filter(|(field, _)| of(field)).count()
    }

    /// Nothing but units: the row of units once more.
    fn is_row_of_units(&self, cells: &[(usize, &str)]) -> bool {
        let is_unit = |text: &str| {
            let bare = text.trim_matches(['(', ')', '[', ']']);
            bare.len() <= 12 && bare.contains(char::is_alphabetic) && unit::look_up(bare, None).is_some()
        };
        cells.len() >= 2 && cells.iter().all(|(_, text)| is_unit(text))
    }

    /// The headings once more, also where they are spelled a little differently.
    fn repeats_heading(&self) -> bool {
        let (mut same, mut near, mut others) = (0, 0, 0);
        for (field, _) in &self.table.order {
            let Some(column) = self.column(*field) else { continue };
            let cell = trim(self.rows.cell(self.row, column));
            if cell.is_empty() {
                continue;
            }
            let heading = &self.table.plan.columns[column].heading;
            // Nearly every row is told apart here, without making text.
            if cell.len() > 120 || !cell.starts_with(|c: char| !c.is_ascii_digit()) {
                return false;
            }
            let (plain, wanted) = (squash(cell), squash(heading));
            if tidy(cell).eq_ignore_ascii_case(heading) || plain == wanted {
                same += 1;
            } else if plain.len() >= 2 && (wanted.starts_with(&plain) || plain.starts_with(&wanted))
                || Field::by_heading(cell) == Some(*field)
                || super::super::heading::name(cell, None).is_some_and(|named| named.field == *field)
            {
                near += 1;
            } else {
                others += 1;
            }
        }
        same + near >= 2 && same + near > others
    }
}

/// Whether a text labels a row of sums; `in_ids`: it stands where an id should.
fn is_total(words: &[Token], in_ids: bool) -> bool {
    let phrases = Phrases::all();
    let Some(begin) = words.iter().position(|token| token.is_word() || token.number.is_some()) else { return false };
    if words.len() > 14 {
        return false;
    }
    let rest_allowed = |from: usize, to: usize| {
        words[from..to]
            .iter()
            .all(|token| !token.is_word() || phrases.is(token, Class::TotalRest) || phrases.is(token, Class::Band))
    };
    if phrases.class_at(words, begin, Class::Total).is_some() {
        return true;
    }
    if let Some(end) = phrases.class_at(words, begin, Class::TotalWeak) {
        // `Total Greyburn` among ids is a sum, `Max Weber` is not.
        return rest_allowed(end, words.len()) || in_ids && words[begin].word == "total";
    }
    // `n = 23`, `23 wells`
    if words[begin].word == "n" && words.get(begin + 1).is_some_and(|token| matches!(token.word.as_str(), "=" | ":")) {
        return true;
    }
    if words[begin].number.is_some() {
        let plural = ["wells", "puits", "forages", "pozos", "pocos", "rows", "records", "sites"];
        return words.get(begin + 1).is_some_and(|token| plural.contains(&token.word.as_str()))
            && rest_allowed(begin + 2, words.len());
    }
    // `Greyburn subtotal`, `Elm Road - average`
    let Some(last) = words.iter().rposition(Token::is_word).filter(|last| *last > begin) else { return false };
    let tail = |at: usize| phrases.class_at(words, at, Class::Total) == Some(last + 1);
    tail(last)
        || last > begin && tail(last - 1)
        || matches!(words[last].word.as_str(), "total" | "average" | "mean" | "moyenne" | "promedio")
}
