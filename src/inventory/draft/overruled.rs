//! A remark that is later than a cell: it takes the place of what the cell says, or is asked about.

use super::super::heading::Datum as CountedFrom;
use super::super::lexicon::{self, Language};
use super::super::notes;
use super::super::phrases::{Token, tokens};
use super::super::remarks::words::Way;
use super::super::remarks::{self, Change, Statement, Written};
use super::Draft;
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::cell::{Datum, Form};
use crate::quantity::format::quantity;
use crate::quantity::parse::Piece;
use crate::quantity::unit::Unit;

/// Two depths that differ by less than this are one.
const SAME: f64 = 0.01;

/// A pipe that is set into a casing is at least so much of its width. Common practice, no source.
const NARROWEST_LINER: f64 = 0.4;

/// A liner that reaches so far down reaches to the bottom. Common practice, no source.
const AS_GOOD_AS_ALL: f64 = 0.95;

impl Draft {
    /// Lets a later fact overrule a cell, or asks.
    pub(super) fn overrule(&mut self, fact: &Statement, column: usize, words: &str) {
        let field = fact.field;
        if self.is_repaired(field) {
            return;
        }
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
        let partial = fact.way == Way::Liner && self.ends_above_the_bottom(column);
        if value <= 0.0 || against {
            self.ask_about(fact, column, words, "the two do not fit together");
        } else if (!fact.sure || partial) && (cell.is_some() || self.datum(field) == Datum::Unread) {
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

    /// Whether a remark lets its liner end above the bottom of the well: `4 in liner, 0-60`.
    fn ends_above_the_bottom(&self, column: usize) -> bool {
        let Some(end) = remarks::liner_ends(&tokens(self.cell(column))) else { return false };
        let unit = self.unit_of_bare(Field::TotalDepth);
        let end = if end.unit.is_some() { Some(end.value) } else { unit.map(|unit| unit.to_si(end.value)) };
        end.zip(self.number(Field::TotalDepth)).is_none_or(|(end, depth)| end < AS_GOOD_AS_ALL * depth)
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

    /// A remark that puts another number in the place of the cell's own, as in `it is 210 deep not 160`: the one measure that
    /// has the wrong one takes the right one.
    pub(super) fn corrected(&mut self, column: usize, words: &[Token]) -> bool {
        let Some((right, wrong)) = remarks::corrected(words) else { return self.put_right(column, words) };
        let right_one = |unit: &Unit| right.unit.map_or(right.value, |_| unit.from_si(right.value));
        let has = |field: &Field| {
            let cell = self.number(*field).zip(self.unit_of_bare(*field)).map(|(si, unit)| (unit.from_si(si), unit));
            let same = |one: f64, cell: f64| (cell - one).abs() < 1e-6 * cell.abs().max(1.0);
            // The cell may have the right one already.
            cell.is_some_and(|(cell, unit)| same(wrong, cell) || same(right_one(unit), cell))
        };
        const FIELDS: [Field; 4] =
            [Field::TotalDepth, Field::StaticWaterLevel, Field::WaterColumn, Field::CasingDiameter];
        let mut fields = FIELDS.into_iter().filter(has);
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

    /// A remark that calls its cell wrong, or says that its own number counts: `wrong, 8 in pipe`.
    fn put_right(&mut self, column: usize, words: &[Token]) -> bool {
        let Some((field, mut right, sure)) = remarks::right_number(words) else { return false };
        let unit = self.unit_of_bare(field);
        // `1.20 m` in a column without a unit, and `is 1.50` beside it.
        let own = self.own_units.iter().find(|(of, _)| *of == field).map(|(_, unit)| *unit);
        if let (None, None, Some(own)) = (right.unit, unit, own) {
            right = Written { value: own.to_si(right.value), unit: Some(own) };
        }
        let si = if right.unit.is_some() { Some(right.value) } else { unit.map(|unit| unit.to_si(right.value)) };
        let (least, most) = if field == Field::CasingDiameter { (0.4, 2.5) } else { (0.1, 10.0) };
        let usual = |si: f64| self.number(field).is_none_or(|cell| (least..=most).contains(&(si / cell)));
        if !si.is_some_and(usual) {
            return false;
        }
        let text = self.cell(column).to_owned();
        let fact = Statement { field, way: Way::Sound, change: Change::To(right), sure, from: 0, to: text.len() };
        self.overrule(&fact, column, &text);
        true
    }

    /// A remark that gives the height of the water anew, in a list of heights: `measured again on Monday: 5.20 of water`.
    pub(super) fn height_now(&mut self, column: usize, words: &[Token]) -> bool {
        const FIELD: Field = Field::WaterColumn;
        let Some(height) = remarks::height_now(words) else { return false };
        let (Some(cell), Some(unit)) = (self.number(FIELD), self.unit_of_bare(FIELD)) else { return false };
        let si = if height.unit.is_some() { height.value } else { unit.to_si(height.value) };
        let fits = self.number(Field::TotalDepth).is_none_or(|depth| si < depth);
        if si <= 0.0 || !fits || self.is_repaired(FIELD) {
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
        let own = self.column(field).unwrap_or(column);
        self.say_in(catalogue::REMARK_AGAINST_CELL, own, says, "write the value as it is now");
    }
}
