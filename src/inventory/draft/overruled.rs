//! What the words of a row say of it: a well that is no more, and remarks that are later than a cell.

use super::super::columns::Feed;
use super::super::description;
use super::super::fate::{Fate, Role, Told, fate};
use super::super::heading::Datum as CountedFrom;
use super::super::lexicon::{self, Language};
use super::super::notes;
use super::super::phrases::{LONGEST, Phrases, Token, tokens};
use super::super::remarks::words::Way;
use super::super::remarks::{self, Change, Statement, Written};
use super::super::row_kind::RowKind;
use super::Draft;
use crate::field::Field;
use crate::finding::{Code, Finding, Words, catalogue};
use crate::inventory::cell::{Datum, Form};
use crate::place::Place;
use crate::quantity::format::quantity;
use crate::quantity::parse::Piece;
use crate::quantity::unit::Unit;

/// Two depths that differ by less than this are one.
const SAME: f64 = 0.01;

/// A pipe that is set into a casing is at least so much of its width. Common practice, no source.
const NARROWEST_LINER: f64 = 0.4;

/// A later fact with the column and the words that tell it.
type Later = (Statement, usize, String);

/// A column of remarks with the words of its cell.
pub(super) type Note = (usize, Vec<Token>);

/// A text below this length names no measure.
const SHORTEST_MEASURE: usize = 6;

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
            if text.len() < 3 || text.len() > LONGEST || !telling && role != Role::Notes {
                continue;
            }
            let words = tokens(text);
            let described = self.table.plan.describes(column);
            if !telling {
                if !described {
                    notes.push((column, words));
                }
                continue;
            }
            // `44 gal. tank` in the description of a well stands beside it.
            let beside = |found: &Told| described && matches!(found.fate, Fate::Thing(_)) && self.measures() >= 2;
            if let Some(found) = fate(&words, role).filter(|found| !beside(found))
                && told.is_none_or(|(best, ..)| grave(found.fate) > grave(best.fate))
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
                self.overrule(&statement, column, &words);
            }
        }
        if self.number(Field::TotalDepth) != depth {
            self.height_in_new_depth(&of_heights);
        }
    }

    /// The remarks of a row that gives the height of its water and not its level.
    fn heights(&self, notes: &[Note]) -> Vec<Note> {
        let level = self.number(Field::StaticWaterLevel).is_some();
        if self.number(Field::WaterColumn).is_some() && !level { notes.to_vec() } else { Vec::new() }
    }

    /// A well whose depth has changed holds another height of water, which the same remark may give: else it is asked.
    fn height_in_new_depth(&mut self, notes: &[Note]) {
        if notes.is_empty() || notes.iter().any(|(column, words)| self.height_now(*column, words)) {
            return;
        }
        let says = "the depth has changed, and how high the water stands now is not said";
        let help = "write the height of the water as it is now into its cell";
        self.say_in(catalogue::REMARK_AGAINST_CELL, notes[0].0, says, help);
    }

    /// Asks what the numbers of a description are that nothing says the meaning of.
    fn ask_of_description(&mut self) {
        let Some(described) = self.table.plan.described else { return };
        let rests_on = |feed: &Feed| described.is_part(feed.column);
        if !self.table.plan.feeds.iter().flatten().any(rests_on) {
            return;
        }
        let unread = description::parts(self.cell(described.column)).unread;
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
            let said = |finding: &Finding| {
                finding.code == catalogue::REMARK_AGAINST_CELL
                    && finding.place.column.as_ref().is_some_and(|place| place.number as usize == column + 1)
            };
            if text.len() < SHORTEST_MEASURE || self.findings.iter().any(said) || !remarks::may_measure(words) {
                continue;
            }
            let says = format!("\"{text}\" may change what is measured here; it was not put to use");
            let help = "no action needed if the cells are right; otherwise correct them";
            self.say_in(catalogue::REMARK_WITH_MEASURES, *column, says, help);
        }
    }

    /// A remark that puts another number in the place of the cell's own, as in `it is 210 deep not 160`: the one measure that
    /// has the wrong one takes the right one.
    fn corrected(&mut self, column: usize, words: &[Token]) -> bool {
        let Some((right, wrong)) = remarks::corrected(words) else { return false };
        let right_one = |unit: &Unit| right.unit.map_or(right.value, |_| unit.from_si(right.value));
        let has = |field: &Field| {
            let cell = self.number(*field).zip(self.unit_of_bare(*field)).map(|(si, unit)| (unit.from_si(si), unit));
            let same = |one: f64, cell: f64| (cell - one).abs() < 1e-6 * cell.abs().max(1.0);
            // The cell may have the right one already.
            cell.is_some_and(|(cell, unit)| same(wrong, cell) || same(right_one(unit), cell))
        };
        let mut fields = [Field::TotalDepth, Field::StaticWaterLevel, Field::CasingDiameter].into_iter().filter(has);
        let (Some(field), None) = (fields.next(), fields.next()) else { return false };
        let usual = self.unit_of_bare(field).is_some_and(|unit| {
            let (least, most) = if field == Field::CasingDiameter { (0.4, 2.5) } else { (0.1, 10.0) };
            (least..=most).contains(&(right_one(unit) / wrong))
        });
        if !usual {
            return false;
        }
        let text = self.cell(column).to_owned();
        let fact = Statement { field, way: Way::Sound, change: Change::To(right), sure: true, from: 0, to: text.len() };
        self.overrule(&fact, column, &text);
        true
    }

    /// A remark that gives the height of the water anew, in a list of heights: `measured again on Monday: 5.20 of water`.
    fn height_now(&mut self, column: usize, words: &[Token]) -> bool {
        const FIELD: Field = Field::WaterColumn;
        let Some(height) = remarks::height_now(words) else { return false };
        let (Some(cell), Some(unit)) = (self.number(FIELD), self.unit_of_bare(FIELD)) else { return false };
        let si = if height.unit.is_some() { height.value } else { unit.to_si(height.value) };
        let fits = self.number(Field::TotalDepth).is_none_or(|depth| si < depth);
        if si <= 0.0 || !fits {
            return false;
        }
        if (si - cell).abs() > SAME * cell {
            let shown = |si: f64| quantity(si, unit, 4);
            let says = format!("a later height of the water: {} is taken, not {}", shown(si), shown(cell));
            let help = "no action needed if correct; otherwise correct the cell or the remark";
            self.say_in(catalogue::OVERRULED, column, says, help);
            self.set_number(FIELD, si);
        }
        true
    }

    /// Says whether the row is not a well.
    fn take_fate(&mut self, told: Told, column: usize, role: Role) -> bool {
        let text = self.cell(column);
        let words = text.get(told.from..told.to).unwrap_or(text).to_owned();
        let measures = self.measures();
        let is_well = measures >= 2 && self.is_typed();
        // The column of types says what it is, also where one of our types is in the phrase: `geothermal bore, drilled`.
        let itself = self.column(Field::WellType) == Some(column);
        let no = match told.fate {
            Fate::No(kind) => Some(kind),
            Fate::Thing(kind) if itself || role == Role::Kind && !is_well || measures < 2 => Some(kind),
            Fate::Thing(RowKind::OtherHole) if role == Role::State => Some(RowKind::OtherHole),
            Fate::Water if itself || role == Role::Kind && !is_well || measures == 0 && role == Role::Name => {
                Some(RowKind::OtherSource)
            }
            _ => None,
        };
        let given_up = |kind: &RowKind| {
            matches!(kind, RowKind::Gone | RowKind::NeverMade | RowKind::Replaced | RowKind::Duplicate)
        };
        let no = no.filter(|kind| !(given_up(kind) && self.points_to_use()));
        if let Some(kind) = no {
            self.be_no_well(kind, &words);
            return true;
        }
        match told.fate {
            Fate::Doubt => self.ask_whether_well(
                column,
                &words,
                "may mean that this well no longer exists, or may refer to a part of it",
            ),
            Fate::Fallen => self.ask_whether_well(
                column,
                &words,
                "says that the well fell in: it is not treated before somebody says whether it is still a well",
            ),
            Fate::No(_) if no.is_none() => self.ask_whether_well(
                column,
                &words,
                "says that this well no longer exists, and the row says things that point to one in use",
            ),
            Fate::Thing(_) => self.ask_whether_well(
                column,
                &words,
                "names something that is not a well, and the row has the measures of one",
            ),
            Fate::Idle => self.say_in(
                catalogue::NOT_IN_USE,
                column,
                format!("\"{words}\": the well may not be in use, or not for drinking; it is planned all the same"),
                "to leave such wells out: an [[override]] with exclude = true and a reason",
            ),
            Fate::OtherWell => self.say_in(
                catalogue::NOT_IN_USE,
                column,
                format!("\"{words}\" is taken to be about another well; this one is planned"),
                "if it is about this well, write so: well sealed",
            ),
            Fate::No(_) | Fate::Water => {}
        }
        false
    }

    fn ask_whether_well(&mut self, column: usize, words: &str, why: &str) {
        let says = format!("\"{words}\" {why}");
        let help = "write what is so: \"well sealed\" or \"not a well\" leaves the row out; name the part, as in \"cap sealed\", where it is a well";
        self.say_in(catalogue::PERHAPS_NO_WELL, column, says, help);
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

    /// Lets a later fact overrule a cell, or asks.
    fn overrule(&mut self, fact: &Statement, column: usize, words: &str) {
        let field = fact.field;
        if self.table.slots[field as usize].is_none() {
            // A list of heights: the level that a remark gives is put to use where the row has one, else asked.
            let of_heights = self.table.slots[Field::WaterColumn as usize].is_some();
            if field != Field::StaticWaterLevel || !of_heights {
                return;
            }
            if self.number(field).is_none() {
                self.ask_about(fact, column, words, "the list gives the height of the water, and this its level");
                return;
            }
        }
        if fact.way == Way::Liner && matches!(self.form(field), Some(Form::Strings(_))) {
            self.line_strings(fact, column, words);
            return;
        }
        let of_height = || self.unit_of_bare(Field::WaterColumn).filter(|_| field == Field::StaticWaterLevel);
        let unit = self.unit_of_bare(field).or_else(of_height);
        let cell = self.number(field);
        let si = |written: &Written| match written.unit {
            Some(_) => Some(written.value),
            None => unit.map(|unit| unit.to_si(written.value)),
        };
        let wanted = match &fact.change {
            Change::Unknown => None,
            Change::To(written) => si(written).or_else(|| {
                self.ask_about(fact, column, words, "no unit is written there, and the column has none");
                None
            }),
            Change::By(written) => match (si(written), cell) {
                (Some(by), Some(cell)) if fact.way == Way::Silt => Some(cell - by),
                _ => {
                    // Whether the cell was brought up to date is not known.
                    self.ask_about(fact, column, words, "it is not said whether the cell already includes that");
                    None
                }
            },
        };
        let Some(value) = wanted else {
            if fact.change == Change::Unknown {
                match fact.way {
                    Way::Deeper => self.say_in(
                        catalogue::OVERRULED,
                        column,
                        format!(
                            "\"{words}\": it is not said how deep it is now; {} is taken as the cell has it",
                            field.name()
                        ),
                        "write the depth as it is now",
                    ),
                    _ => self.ask_about(fact, column, words, "it is not said how much is left"),
                }
            }
            return;
        };
        if cell.is_some_and(|cell| (cell - value).abs() <= SAME * cell.abs().max(0.1)) {
            return; // The cell says the same.
        }
        let against = cell.is_some_and(|cell| match fact.way {
            Way::Deeper => value < cell,
            Way::Back | Way::Silt | Way::Cave => value > cell,
            // A bare number that is far narrower than what it stands in is in some other unit.
            Way::Liner => {
                let bare = matches!(fact.change, Change::To(Written { unit: None, .. }));
                value > cell || bare && value < NARROWEST_LINER * cell
            }
            Way::Clean | Way::Depth | Way::Sound | Way::Level => false,
        });
        if value <= 0.0 || against {
            self.ask_about(fact, column, words, "the two do not fit together");
        } else if !fact.sure && (cell.is_some() || self.datum(field) == Datum::Unread) {
            self.ask_about(fact, column, words, "which of the two applies is not clear");
        } else if self.datum(field) != Datum::Unread {
            let shown = |si: f64| self.shown_unit(field).map_or_else(String::new, |unit: &Unit| quantity(si, unit, 5));
            let instead =
                cell.map_or_else(|| ", for the cell is blank".to_owned(), |cell| format!(", not {}", shown(cell)));
            let says =
                format!("\"{words}\" is later than the cell: {} is taken as {}{instead}", field.name(), shown(value));
            self.say_in(
                catalogue::OVERRULED,
                column,
                says,
                "no action needed if correct; otherwise correct the cell or the remark",
            );
            self.set_number(field, value);
            self.spreads.retain(|(of, ..)| *of != field);
            if field == Field::StaticWaterLevel {
                self.counted_from(column, words);
            }
            if fact.way == Way::Liner && matches!(self.datum(Field::OpenHoleDiameter), Datum::Number(_)) {
                self.set_number(Field::OpenHoleDiameter, value);
            }
        }
    }

    /// A liner in a well whose cell gives its casing piece by piece: from the top to the bottom it is the one width, else asked.
    fn line_strings(&mut self, fact: &Statement, column: usize, words: &str) {
        let all_the_way = remarks::lined_to_the_bottom(&tokens(self.cell(column)));
        match fact.change {
            Change::To(Written { value, unit: Some(_) }) if fact.sure && all_the_way => {
                let says =
                    format!("\"{words}\" is later than the cell: the liner is taken as the width of the whole well");
                let help = "no action needed if correct; otherwise correct the cell or the remark";
                self.say_in(catalogue::OVERRULED, column, says, help);
                let whole =
                    Piece { top: 0.0, bottom: None, diameter: value, may_hang_from_ground: false, depths_in: None };
                self.replace_form(fact.field, Form::Strings(vec![whole]));
            }
            _ => {
                self.ask_about(fact, column, words, "it is not clear which of the pipes it stands in, and how far down")
            }
        }
    }

    /// What the level of a remark is counted from, where the remark says it beside the number: `29.5 BLS`.
    fn counted_from(&mut self, column: usize, told: &str) {
        let cell = self.cell(column);
        let Some(start) = cell.find(told) else { return };
        let end = start + told.len();
        let end = cell[end..].find(['.', ',', ';']).map_or(cell.len(), |more| end + more);
        let words = lexicon::tokens(&cell[start..end]);
        let said =
            Language::ALL.into_iter().find_map(|language| notes::datum(&words, &lexicon::meaning(&words, language)));
        if let Some(datum) = said.filter(|datum| *datum != CountedFrom::SeaLevel) {
            self.set_reference(Field::StaticWaterLevel, datum.reference());
        }
    }

    fn ask_about(&mut self, fact: &Statement, column: usize, words: &str, why: &str) {
        let field = fact.field;
        let typed = self.in_cell(field);
        let against =
            if typed.is_empty() { "the cell is blank".to_owned() } else { format!("{} = \"{typed}\"", field.name()) };
        let says = format!("\"{words}\" stands against the cell ({against}): {why}");
        self.say_in(
            catalogue::REMARK_AGAINST_CELL,
            column,
            says,
            "write the value as it is now into the cell, and say in the remark that it is there",
        );
    }
}

const fn grave(fate: Fate) -> u8 {
    match fate {
        Fate::No(_) => 4,
        Fate::Doubt | Fate::Fallen => 3,
        Fate::Thing(_) => 2,
        Fate::Water => 1,
        Fate::Idle | Fate::OtherWell => 0,
    }
}
