//! What the words of a row say of it, in the order in which that counts.

use super::super::columns::Feed;
use super::super::description;
use super::super::fate::{Fate, Role, Told, fate};
use super::super::phrases::{LONGEST, Phrases, Token, tokens};
use super::super::remarks::words::Way;
use super::super::remarks::{self, Change, Statement};
use super::super::row_kind::RowKind;
use super::Draft;
use crate::field::Field;
use crate::finding::{Code, Finding, Words, catalogue};
use crate::inventory::cell::Form;
use crate::place::Place;

/// A later fact with the column and the words that tell it.
type Later = (Statement, usize, String);

/// A column of remarks with the words of its cell.
pub(super) type Note = (usize, Vec<Token>);

/// A text below this length names no measure.
const SHORTEST_MEASURE: usize = 6;

/// Words of a volume that was worked out.
const WORKED_OUT: [&str; 10] =
    ["figured", "calculated", "calc", "computed", "worked", "assumed", "calculado", "calculada", "calcule", "calculou"];

/// Whether a text has a pump in it, in one of the languages of lists.
fn speaks_of_pump(text: &str) -> bool {
    text.as_bytes()
        .windows(4)
        .any(|part| [b"pump", b"bomb", b"pomp"].into_iter().any(|pump| part.eq_ignore_ascii_case(pump)))
}

impl Draft {
    /// Reads the words of the row.
    pub(super) fn read_words(&mut self) {
        if let Some(name) = self.table.no_wells_by_name.clone() {
            self.be_no_well(RowKind::OtherSource, &name);
            return;
        }
        let phrases = Phrases::all();
        let mut later: Vec<Later> = Vec::new();
        let mut notes: Vec<Note> = Vec::new();
        let mut told: Option<(Told, usize, Role)> = None;
        let mut doubted: Vec<(usize, String)> = Vec::new();
        for at in 0..self.table.worded.len() {
            let (column, role) = self.table.worded[at];
            let cell = self.cell(column);
            // A code says what the file explains: `PD = plugged and decommissioned`.
            let meant = self.meant(column, cell);
            if let Some(meaning) = meant.filter(|meaning| role != Role::Notes && remarks::doubts_measures(meaning)) {
                doubted.push((column, format!("\"{cell}\" means: {meaning}")));
            }
            let text = meant.unwrap_or(cell);
            let in_remarks = matches!(role, Role::State | Role::Notes | Role::Other);
            let telling = phrases.may_tell(text, in_remarks);
            let pumped = in_remarks && speaks_of_pump(text);
            if text.len() < 3 || text.len() > LONGEST || !telling && !pumped && role != Role::Notes {
                continue;
            }
            let words = tokens(text);
            let described = self.table.plan.describes(column);
            // Whatever the column is called: the level of the row was not taken at rest.
            let role = if pumped && remarks::not_at_rest(&words) { Role::Notes } else { role };
            if !telling {
                if !described && role == Role::Notes {
                    notes.push((column, words));
                }
                continue;
            }
            // `44 gal. tank` in the description of a well stands beside it.
            let beside = |found: &Told| described && matches!(found.fate, Fate::Thing(_)) && self.measures() >= 2;
            if let Some(found) = fate(&words, role).filter(|found| !beside(found))
                && told.is_none_or(|(best, ..)| found.fate.weight() > best.fate.weight())
            {
                told = Some((found, column, role));
            }
            if in_remarks {
                let said = remarks::of_tokens(&words);
                let news = |statement: &Statement| !described || description::is_later(statement);
                later.extend(
                    said.into_iter()
                        .filter(news)
                        .map(|statement| (statement, column, text[statement.from..statement.to].to_owned())),
                );
            }
            if role == Role::Notes && !described {
                notes.push((column, words));
            }
        }
        if let Some((told, column, role)) = told
            && self.take_fate(told, column, role)
        {
            return;
        }
        // Whether it is a well at all is asked before how much of it is left.
        if let Some((Told { fate: Fate::Fallen, .. }, column, _)) = told {
            later.retain(|(fact, of, _)| !(*of == column && fact.way == Way::Cave && fact.change == Change::Unknown));
        }
        for (column, says) in doubted {
            let help = "write the measures that hold, and another code";
            self.say_in(catalogue::REMARK_AGAINST_CELL, column, says, help);
        }
        self.ask_of_description();
        let mut settled: Vec<usize> = Vec::new();
        self.levels_that_are_heights(&mut later, &notes);
        // `se profundizó, ahora columna de 4,5 m`: how deep it is now does not matter.
        let unknown = |(fact, ..): &Later| fact.way == Way::Deeper && fact.change == Change::Unknown;
        if later.iter().all(unknown) {
            for (column, words) in &notes {
                let corrects = later.is_empty() && self.corrected(*column, words);
                if !settled.contains(column) && (corrects || self.height_now(*column, words)) {
                    settled.push(*column);
                }
            }
        }
        if later.is_empty() {
            self.doubted(notes.iter().filter(|(column, _)| !settled.contains(column)));
        }
        let in_strings = |draft: &Self| matches!(draft.form(Field::CasingDiameter), Some(Form::Strings(_)));
        let strings = in_strings(self);
        self.told_in_words(&notes);
        // `6 in to 90, 4 in liner from 90 on down`: what the liner is like is put to use.
        let told = !strings && in_strings(self);
        let in_columns = strings && !self.table.plan.strings.is_empty();
        later.retain(|(fact, ..)| fact.way != Way::Liner || !(told || in_columns && fact.change == Change::Unknown));
        let of_heights = self.heights(&notes);
        notes.retain(|(column, _)| later.iter().all(|(_, told, _)| told != column) && !settled.contains(column));
        self.unread_measures(&notes);
        let depth = self.number(Field::TotalDepth);
        // Of several facts about one measure the last one written is the latest.
        for field in [Field::TotalDepth, Field::StaticWaterLevel, Field::CasingDiameter] {
            let of = |sure: bool| {
                later.iter().rposition(|(fact, ..)| fact.field == field && (!sure || fact.change != Change::Unknown))
            };
            if let Some(fact) = of(true).or_else(|| of(false)) {
                let (statement, column, words) = later.swap_remove(fact);
                // `deepened 1994 to 240, water 60`: where the cells are of then or later, their level may be the later one.
                let of_then = field == Field::StaticWaterLevel && self.number(Field::TotalDepth) == depth;
                if of_then && remarks::with_the_change_alone(&tokens(self.cell(column))) {
                    continue;
                }
                self.overrule(&statement, column, &words);
            }
        }
        if self.number(Field::TotalDepth) != depth {
            self.height_in_new_depth(&of_heights);
        }
    }

    /// Takes out what is told of the level in a list of heights, where the same words give a height: `remeasured: water 3.5`.
    fn levels_that_are_heights(&self, later: &mut Vec<Later>, notes: &[Note]) {
        if self.number(Field::WaterColumn).is_none() || self.number(Field::StaticWaterLevel).is_some() {
            return;
        }
        later.retain(|(fact, column, _)| {
            let words = notes.iter().find(|(of, _)| of == column).map(|(_, words)| words);
            fact.field != Field::StaticWaterLevel || words.and_then(|words| remarks::height_now(words)).is_none()
        });
    }

    /// The remarks of a row that gives the height of its water and not its level.
    fn heights(&self, notes: &[Note]) -> Vec<Note> {
        let level = self.number(Field::StaticWaterLevel).is_some();
        if self.number(Field::WaterColumn).is_some() && !level { notes.to_vec() } else { Vec::new() }
    }

    /// A well whose depth has changed holds another height of water, which the same remark may give: else it is asked.
    fn height_in_new_depth(&mut self, notes: &[Note]) {
        if notes.is_empty()
            || self.is_repaired(Field::WaterColumn)
            || notes.iter().any(|(column, words)| self.height_now(*column, words))
        {
            return;
        }
        let says = "the depth has changed, and how high the water stands now is not said";
        let help = "write the height of the water as it is now";
        self.say_against(Field::WaterColumn, notes[0].0, says, help);
    }

    /// Asks what the numbers of a description are that nothing says the meaning of.
    fn ask_of_description(&mut self) {
        let Some(described) = self.table.plan.described else { return };
        let rests_on = |feed: &Feed| described.is_part(feed.column);
        if !self.table.plan.feeds.iter().flatten().any(rests_on) {
            return;
        }
        let unread = described.parts(self.cell(described.column)).unread;
        if !unread.is_empty() {
            let says = format!("what is {} in this description?", unread.join(", "));
            let help =
                "write what it is of, as in \"pump at 85\", or give depth, level and diameter in cells of their own";
            self.say_in(catalogue::DESCRIPTION_UNCLEAR, described.column, says, help);
        }
    }

    /// Remarks that may change a measure, and of which nothing was put to use: a person looks at them.
    fn unread_measures(&mut self, notes: &[Note]) {
        for (column, words) in notes {
            let text = self.cell(*column);
            let said = |finding: &Finding| finding.code == catalogue::REMARK_AGAINST_CELL;
            if text.len() < SHORTEST_MEASURE || self.findings.iter().any(said) || !remarks::may_measure(words) {
                continue;
            }
            // `tag says 146 deep, static 38` beside 146 and 38.
            if words.iter().any(|word| word.number.is_some())
                && words.iter().filter_map(|word| word.number).all(|number| self.repeats(number))
            {
                continue;
            }
            // `gal. figured for 6 in, is 4 in`: the volume was worked out, and not with what holds.
            if self.number(Field::WaterVolume).is_some()
                && words.iter().any(|token| WORKED_OUT.contains(&token.word.as_str()))
            {
                let says = "this says how the volume of the water was worked out, and may say that it is another";
                self.say_against(Field::WaterVolume, *column, says, "write the volume that holds");
                continue;
            }
            let says = format!("\"{text}\" may change what is measured here; it was not put to use");
            let help = "no action needed if the cells are right; otherwise correct them";
            self.say_in(catalogue::REMARK_WITH_MEASURES, *column, says, help);
        }
    }

    /// Adds a finding about a remark that stands against a measure, at the cell of the measure: what is written there in its place
    /// holds, and the remark stays as it is.
    pub(super) fn say_against(&mut self, field: Field, column: usize, says: &str, help: &'static str) {
        let says = format!("\"{}\": {says}", self.cell(column));
        match self.column(field) {
            Some(own) => self.say_in(catalogue::REMARK_AGAINST_CELL, own, says, help),
            None => self.say_in(catalogue::REMARK_AGAINST_CELL, column, says, help),
        }
    }

    /// Adds a finding about a cell that may be of no field.
    pub(super) fn say_in(&mut self, code: Code, column: usize, says: impl Into<Words>, help: impl Into<Words>) {
        let place = match self.table.plan.columns.get(column) {
            Some(column) => Place::cell(self.origin(), self.row(), column),
            None => Place::row(self.origin(), self.row()),
        };
        let typed = self.cell(column);
        let finding = Finding::new(code, place, says, help).seen(typed).of_well(self.id());
        self.findings.push(finding);
    }
}
