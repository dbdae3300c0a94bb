//! What other columns of the row say of its level and its width: a level that is a height or was taken while the pump ran, two
//! sides of a well that is not round, two widths that do not agree, how it ends below its casing.

use super::super::cell::{ColumnUnit, Datum, Form, Said};
use super::super::columns::Feed;
use super::super::columns::sides::{Outline, Sides, outline};
use super::super::lexicon;
use super::super::rows::CellKind;
use super::super::unit_columns::finish::{self, Finish};
use super::super::unit_columns::level::{self, LevelSays};
use super::fed::DISAGREES;
use super::{Draft, trim};
use crate::field::Field;
use crate::finding::catalogue;
use crate::quantity::format::quantity;
use crate::quantity::parse::{Reference, plain};
use crate::quantity::unit::Unit;

const LEVEL: Field = Field::StaticWaterLevel;
const ACROSS: Field = Field::CasingDiameter;

/// A hole below the casing that holds less than this share of the water needs no width.
const LITTLE: f64 = 0.1;

impl Draft {
    /// Puts to use what columns beside the measures say of them.
    pub(super) fn read_beside(&mut self) {
        match self.level_says(|feed| feed.level.reference_column) {
            Some(says) => self.level_said(says),
            None => self.unknown_beside(),
        }
        if let Some(says) = self.level_says(|feed| feed.level.state_column) {
            self.level_said(says);
        }
        self.earlier_level();
        self.pump_was_on();
        self.reference_left_out();
        self.blank_height();
        self.two_widths();
        self.screen_beside();
        self.finished();
        self.hole_for_the_casing();
        self.hole_as_casing();
        self.lower_length();
        if let Some(sides) = self.table.plan.sides.clone() {
            self.sided(&sides);
        }
        self.basin_in_columns();
        if !self.table.plan.strings.is_empty() {
            self.strings_in_columns();
        }
    }

    /// A level for which the list says that the pump had not been off.
    fn pump_was_on(&mut self) {
        const NO: [&str; 5] = ["no", "non", "nao", "n", "false"];
        let feed = self.table.plan.feeds[LEVEL as usize].as_ref().filter(|feed| !feed.barred);
        let Some(column) = feed.and_then(|feed| feed.level.pump_off) else { return };
        if NO.contains(&lexicon::fold(self.cell(column)).as_str()) {
            self.level_said(LevelSays::Pumped);
        }
    }

    /// What a column beside the level says of it.
    fn level_says(&self, beside: impl Fn(&Feed) -> Option<usize>) -> Option<LevelSays> {
        let feed = self.table.plan.feeds[LEVEL as usize].as_ref().filter(|feed| !feed.barred)?;
        let column = beside(feed)?;
        let cell = self.cell(column);
        level::says_by(self.meant(column, cell), cell)
    }

    /// A list that says of each level what it is counted from, and not of this one: asked, where it changes the water by more
    /// than a tenth.
    fn reference_left_out(&mut self) {
        const TENTH: f64 = 0.1;
        let Some(feed) = self.table.plan.feeds[LEVEL as usize].as_ref().filter(|feed| feed.level.both_references)
        else {
            return;
        };
        let is_blank = feed.level.reference_column.is_some_and(|column| self.cell(column).is_empty());
        let measures = (self.number(LEVEL), self.number(Field::TotalDepth), self.number(Field::StickUp));
        let (Some(level), Some(depth), Some(height)) = measures else { return };
        if is_blank && self.reference(LEVEL).is_none() && depth > level && height.min(level) > TENTH * (depth - level) {
            let says = "the list says of each level whether it is counted from the ground or from the top, and not of this one";
            self.say(catalogue::TWO_READINGS, LEVEL, says, "write what the level is counted from");
            self.refuse(LEVEL);
        }
    }

    /// A word beside the level that nobody knows.
    fn unknown_beside(&mut self) {
        let feed = self.table.plan.feeds[LEVEL as usize].as_ref().filter(|feed| !feed.barred);
        let Some(column) = feed.and_then(|feed| feed.level.reference_column) else { return };
        if !self.cell(column).is_empty() && self.number(LEVEL).is_some() {
            let says = "what this says of the level is not known; the level is read as if nothing were said";
            self.say_in(catalogue::REFERENCE_UNSAID, column, says, "write what the level is counted from");
        }
    }

    fn level_said(&mut self, says: LevelSays) {
        const MEASURE: &str = "write the level at rest, before pumping";
        let given = self.number(LEVEL);
        match says {
            LevelSays::From(from) => {
                self.keep_said(LEVEL, Said { from: Some(from), ..Said::default() });
            }
            LevelSays::AtRest | LevelSays::Unsaid => {}
            LevelSays::Height => {
                let Some(height) = given.filter(|height| *height > 0.0) else { return };
                self.set(LEVEL, Datum::Missing);
                self.set_form(LEVEL, Form::Water(height));
            }
            LevelSays::Flowing | LevelSays::Above
                if says == LevelSays::Above || given.is_none_or(|level| level <= 0.0) =>
            {
                self.set(LEVEL, Datum::Number(0.0)); // Counted to the ground.
                self.set_reference(LEVEL, Reference::Ground);
                self.set_form(LEVEL, Form::Flowing);
            }
            LevelSays::Flowing | LevelSays::Above => {
                let says = "the column beside it says that the well flows, and a level below the ground is given";
                self.say(catalogue::TWO_READINGS, LEVEL, says, "leave the one that holds");
                self.refuse(LEVEL);
            }
            LevelSays::Pumped if given.is_some() => {
                let says = "the level was taken while the pump ran, or before the water stood still, as the row says";
                self.say(catalogue::NOT_AT_REST, LEVEL, says, MEASURE);
                self.refuse(LEVEL);
            }
            LevelSays::Nothing if given.is_some() => {
                let says = "the column beside it says that there is no level, and one is given";
                self.say(catalogue::TWO_READINGS, LEVEL, says, MEASURE);
                self.refuse(LEVEL);
            }
            LevelSays::Pumped | LevelSays::Nothing => {}
        }
    }

    /// A height of the rim that is blank, where the list says that levels are then counted from the ground.
    fn blank_height(&mut self) {
        let feed = self.table.plan.feeds[LEVEL as usize].as_ref();
        if feed.is_some_and(|feed| feed.level.blank_height_is_ground)
            && self.reference(LEVEL) == Some(Reference::Top)
            && self.datum(Field::StickUp) == Datum::Missing
            && self.in_cell(Field::StickUp).is_empty()
        {
            self.set_reference(LEVEL, Reference::Ground);
        }
        let height = self.table.plan.feeds[Field::StickUp as usize].as_ref();
        let of_all = self.table.plan.rim_height.filter(|_| self.reference(LEVEL) == Some(Reference::Top));
        if let Some((si, unit)) = height.and_then(|feed| feed.if_blank.zip(feed.unit)).or(of_all)
            && self.datum(Field::StickUp) == Datum::Missing
            && self.in_cell(Field::StickUp).is_empty()
            && self.measures() > 0
        {
            let says = format!("nothing is written; {} taken, as the note above the table says", quantity(si, unit, 4));
            let help = "no action needed if correct; otherwise fill in the cell";
            self.say(catalogue::SIZE_FROM_NOTE, Field::StickUp, says, help);
            self.set_number(Field::StickUp, si);
        }
    }

    /// Two columns for the width that say different things: which of them holds is asked.
    fn two_widths(&mut self) {
        let Some(feed) = self.table.plan.feeds[ACROSS as usize].as_ref().filter(|feed| !feed.barred) else { return };
        let Some(also) = feed.also.as_deref() else { return };
        let si = |column: usize, unit: Option<&'static Unit>| {
            let number = plain(trim(self.rows.cell(self.row, column)))?;
            Some(unit?.to_si(number))
        };
        let pair = si(feed.column, feed.unit).zip(si(also.column, also.unit));
        if let Some((one, other)) = pair
            && (one - other).abs() > DISAGREES * one.abs()
        {
            let cell = |column: usize| trim(self.rows.cell(self.row, column)).to_owned();
            let says = format!("this column says {}, another one {}", cell(feed.column), cell(also.column));
            self.say(catalogue::TWO_READINGS, ACROSS, says, "blank the cell that is wrong");
            self.refuse(ACROSS);
        }
    }

    /// A width in a column that is not read, where the one that is read says another: the well may be as wide as either, or change
    /// its width.
    pub(super) fn other_width(&mut self) {
        const ALIKE: f64 = 0.05;
        let rivals = &self.table.plan.rival_widths;
        if rivals.is_empty() {
            return;
        }
        let Some(read) = self.number(ACROSS).and_then(|_| plain(self.typed(ACROSS).trim())) else { return };
        let another = rivals.iter().find_map(|rival| {
            let text = trim(self.rows.cell(self.row, rival.column));
            let width = plain(text).filter(|width| (width - read).abs() > ALIKE * read)?;
            // A wider hole was drilled around the casing.
            (!rival.is_hole || width < read).then(|| (rival.column, text.to_owned()))
        });
        if let Some((column, text)) = another {
            let says = format!(
                "the column \"{}\" says {text}, and nothing says which width holds where",
                self.table.plan.columns[column].heading
            );
            let help = "say what each column of widths is: [inventory.columns]";
            self.say(catalogue::TWO_READINGS, ACROSS, says, help);
            self.refuse(ACROSS);
        }
    }

    /// A hole below the casing that is as wide as the casing, as a note of the list says: the casing may as well reach to the bottom.
    fn hole_as_casing(&mut self) {
        if self.table.plan.hole_as_casing && self.number(Field::OpenHoleDiameter).is_none() {
            self.set(Field::CasingDepth, Datum::Missing);
        }
    }

    /// The end of the upper pipe, where the list gives the length of the lower one.
    fn lower_length(&mut self) {
        const END: Field = Field::CasingDepth;
        let Some(length) = self.number(END).filter(|_| self.table.plan.lower_length) else { return };
        match self.number(Field::TotalDepth) {
            Some(depth) if length < depth => self.set_number(END, depth - length),
            Some(_) => {
                let says = "the lower pipe is as long as the well is deep, or longer";
                self.say(catalogue::TWO_READINGS, END, says, "write the length of the lower pipe");
                self.refuse(END);
            }
            None => self.set(END, Datum::Missing),
        }
    }

    /// How the well ends below its casing: an open hole needs a width of its own where the list has a column for it, and a
    /// screen that is as wide as the casing goes on with it.
    fn finished(&mut self) {
        const HOLE: Field = Field::OpenHoleDiameter;
        let Some(column) = self.table.plan.finish else { return };
        let cell = self.cell(column);
        let Some(finish) = finish::says(self.meant(column, cell).unwrap_or(cell)) else { return };
        if self.table.slots[HOLE as usize].is_none() || self.datum(HOLE) != Datum::Missing {
            return;
        }
        let (Some(casing), Some(depth)) = (self.number(Field::CasingDepth), self.number(Field::TotalDepth)) else {
            return;
        };
        let water = depth - self.number(LEVEL).unwrap_or(0.0).max(0.0);
        match finish {
            Finish::OpenHole if depth - casing > LITTLE * water => {
                let says = "the well ends in an open hole, and the width of the hole is not given";
                self.say(catalogue::DIAMETER_MISSING, HOLE, says, "write the width of the hole below the casing");
                self.refuse(HOLE);
            }
            Finish::Screen if self.table.plan.screen_as_casing => self.set(Field::CasingDepth, Datum::Missing),
            _ => {}
        }
    }

    /// The sides of a well that is not round; a square one may give a single side.
    fn sided(&mut self, sides: &Sides) {
        let shape = sides.shape.and_then(|column| outline(self.cell(column)));
        let written = |column: usize| Some(self.cell(column)).filter(|cell| !cell.is_empty()).map(str::to_owned);
        let (one, other) = (written(sides.one), sides.other.and_then(written));
        let Some(one) = one.or_else(|| other.clone()) else { return };
        let square = shape == Some(Outline::Square);
        let other = match other {
            Some(other) => other,
            None if square || sides.other.is_none() && shape != Some(Outline::Oblong) => one.clone(),
            None => return,
        };
        if self.datum(ACROSS) != Datum::Missing || self.form(ACROSS).is_some() || shape == Some(Outline::Round) {
            let says =
                format!("the sides of a well that is not round, {one} and {other}, beside a width or the word round");
            self.say_in(catalogue::TWO_READINGS, sides.one, says, "leave the one that holds");
            self.refuse(ACROSS);
            return;
        }
        let with_unit =
            |side: &str| if plain(side).is_some() { format!("{side} {}", sides.unit.symbol) } else { side.to_owned() };
        let text = format!("{} x {}", with_unit(&one), with_unit(&other));
        match self.read_text(ACROSS, sides.one, &text, Some(sides.unit)) {
            Datum::Number(si) => {
                self.set_number(ACROSS, si);
                self.own_units.push((ACROSS, sides.unit));
            }
            datum => self.set(ACROSS, datum),
        }
    }

    /// Reads a text for a field out of another column than its own, and says there what is remarkable.
    pub(super) fn read_text(&mut self, field: Field, column: usize, text: &str, unit: Option<&'static Unit>) -> Datum {
        let unit = ColumnUnit { unit, stated: true };
        let read = self.table.cells.read(field, text, CellKind::Text, unit, self.table.comma);
        for remark in read.remarks {
            self.say_in(remark.code, column, remark.says, remark.help);
        }
        read.datum
    }
}
