//! What remarks tell of a row's measures in so many words: a level not at rest, a second well, what a level is counted from,
//! strings of casing, a value for a cell that is blank.

use super::super::columns::is_diameter;
use super::super::heading::Datum as CountedFrom;
use super::super::lexicon::{self, Language};
use super::super::phrases::Token;
use super::super::{notes, remarks};
use super::Draft;
use super::words::Note;
use crate::field::Field;
use crate::finding::{Words, catalogue};
use crate::inventory::CellKind;
use crate::inventory::Form;
use crate::inventory::cell::{ColumnUnit, Datum};
use crate::quantity::format::quantity;
use crate::quantity::parse::{Piece, Reference, Size, Sort, Width, plain, size, width_in_words};
use crate::quantity::unit::{Dimension, Unit};

/// How far a casing or a rim stands up, in metres, where its unit is not written. Common practice, no source.
const LOWEST_RIM_M: f64 = 0.1;
const HIGHEST_RIM_M: f64 = 1.5;

/// A hole below a casing is at least so much of its width. Common practice, no source.
const NARROWEST_BELOW: f64 = 0.4;

impl Draft {
    /// What remarks say of measures in other words than numbers: a level not at rest, a second well, a blank cell's value.
    pub(super) fn told_in_words(&mut self, notes: &[Note]) {
        self.doubtful_zero(notes);
        for (column, words) in notes {
            let water = [Field::StaticWaterLevel, Field::WaterColumn].map(|field| self.number(field).is_some());
            let repaired = [Field::StaticWaterLevel, Field::WaterColumn].map(|field| self.is_repaired(field));
            if water.contains(&true) && !repaired.contains(&true) && remarks::not_at_rest(words) {
                let told = self.cell(*column);
                let says =
                    format!("\"{told}\": the level was taken while the pump ran, or before the water stood still");
                let fields = [Field::StaticWaterLevel, Field::WaterColumn].into_iter();
                let own = fields.filter(|field| self.number(*field).is_some()).find_map(|field| self.column(field));
                self.say_in(
                    catalogue::NOT_AT_REST,
                    own.unwrap_or(*column),
                    says,
                    "write the level at rest, before pumping",
                );
                self.refuse(Field::StaticWaterLevel);
                self.refuse(Field::WaterColumn);
            }
            if self.measures() > 0 && remarks::has_gallery(words) {
                let says = "a gallery holds water too, and nothing says how much";
                self.say_in(
                    catalogue::REMARK_AGAINST_CELL,
                    *column,
                    says,
                    "give the volume of all the water in the row, or say that the gallery is dry",
                );
            }
            if self.measures() > 0 && remarks::several_wells(words) {
                let says = "this speaks of more than one well, and the row has the measures of one";
                self.say_in(catalogue::REMARK_AGAINST_CELL, *column, says, "give each well a row of its own");
            }
            let repaired = [Field::TotalDepth, Field::CasingDiameter].map(|field| self.is_repaired(field));
            if self.measures() > 0 && !repaired.contains(&true) && remarks::leaves_open(words) {
                let (of, says) = match remarks::is_of_width(words) {
                    true => (Field::CasingDiameter, "this leaves open how wide the well is"),
                    false => (Field::TotalDepth, "this leaves open how deep the well is"),
                };
                self.say_against(of, *column, says, "write the measure that holds");
            }
            let across = self.number(Field::CasingDiameter);
            let unit = self.unit_of_bare(Field::CasingDiameter);
            if let Some(across) = across
                && !self.is_repaired(Field::CasingDiameter)
                && remarks::wide_and_narrow(words, across, |bare| unit.map(|unit| unit.to_si(bare)))
            {
                let says = "this gives the well one width above and another below, and not how deep the change is";
                let help = "write it as in \"6 in to 80, 5 in below\"";
                self.say_against(Field::CasingDiameter, *column, says, help);
            }
            let blank = |field: Field| self.datum(field) == Datum::Missing && self.form(field).is_none();
            if blank(Field::StaticWaterLevel)
                && blank(Field::WaterColumn)
                && blank(Field::WaterVolume)
                && let Some(level) = remarks::told_level(words)
            {
                self.told(Field::StaticWaterLevel, *column, level.value, level.unit);
            } else if blank(Field::StaticWaterLevel)
                && blank(Field::WaterColumn)
                && blank(Field::WaterVolume)
                && self.measures() > 0
                && let Some(height) = remarks::told_height(words)
                && self.number(Field::TotalDepth).is_none_or(|depth| height.value < depth)
            {
                self.told(Field::WaterColumn, *column, height.value, height.unit);
            }
        }
        self.basin_told(notes);
        for (column, words) in notes {
            self.reference_told(*column, words);
            self.unit_doubted(*column, words);
            self.unit_told(*column, words);
            // What follows rests on numbers: most remarks have none.
            let numbers = words.iter().filter(|token| token.number.is_some()).count();
            if numbers == 0 {
                continue;
            }
            self.width_in_its_unit(*column, words);
            if numbers >= 2 {
                self.strings_told(*column);
                self.narrower_below(*column, words);
                self.square_told(*column);
            }
            if self.table.plan.changes == Some(*column)
                && !self.is_repaired(Field::CasingDiameter)
                && self.form(Field::CasingDiameter).is_none()
            {
                let says = "this says that the width changes further down, and could not be put to use";
                let help = "write it as in \"6 in to 80, 5 in below\"";
                self.say_against(Field::CasingDiameter, *column, says, help);
            }
            self.height_told(*column, words);
            // `pipe sticks up 2 ft`, where the level is counted from the top.
            if self.reference(Field::StaticWaterLevel) == Some(Reference::Top)
                && self.datum(Field::StickUp) == Datum::Missing
            {
                self.rim_told(*column, words);
            }
        }
        self.width_in_words(notes);
    }

    /// A remark that says what the level of this row is counted from: `tape from ground this time`, `water from top of curb`.
    fn reference_told(&mut self, column: usize, words: &[Token]) {
        const LEVEL: [&str; 12] =
            ["water", "level", "swl", "dtw", "ns", "static", "niveau", "nivel", "tape", "taped", "ne", "measured"];
        // Cheap first: the words of what a level is counted from.
        const FROM: [&str; 21] = [
            "top", "ground", "grade", "rim", "curb", "cap", "casing", "pipe", "toc", "sol", "suelo", "solo", "chao",
            "margelle", "brocal", "borde", "bord", "boca", "collar", "kerb", "mp",
        ];
        let has = |known: &[&str]| words.iter().any(|token| known.contains(&token.word.as_str()));
        if !has(&FROM) || !has(&LEVEL) || self.number(Field::StaticWaterLevel).is_none() {
            return;
        }
        let plain: Vec<String> = words.iter().map(|token| token.word.clone()).collect();
        // What stands in the clause of the level, before the next sentence.
        let end = words.iter().position(|token| token.ends || token.word == ",").unwrap_or(plain.len());
        let clause = &plain[..end];
        let datum = |language: Language| notes::datum(clause, &lexicon::meaning(clause, language));
        let Some(said) = Language::ALL.into_iter().find_map(datum).map(CountedFrom::reference) else { return };
        let number = words[..end].iter().any(|token| token.number.is_some());
        let heading = self.reference_in_heading(Field::StaticWaterLevel).unwrap_or(Reference::Ground);
        if number || said == Reference::SeaLevel || said == heading {
            return;
        }
        self.set_reference(Field::StaticWaterLevel, said);
        if said == Reference::Top && self.number(Field::StickUp).is_none() {
            self.rim_told(column, words);
        }
        let from = if said == Reference::Top { "the top" } else { "the ground" };
        let says = format!("the level of this row is counted from {from}, as this says");
        self.say_put_to_use(column, says);
    }

    /// How far the rim stands up by a remark; a bare number is in the unit of the level, where that makes a rim.
    fn rim_told(&mut self, column: usize, words: &[Token]) {
        let Some(height) = remarks::rim_height(words) else { return };
        let of_level = self.unit_of_bare(Field::StaticWaterLevel);
        let Some(unit) = height.unit.or(of_level) else { return };
        let si = if height.unit.is_some() { height.value } else { unit.to_si(height.value) };
        if height.unit.is_some() || (LOWEST_RIM_M..=HIGHEST_RIM_M).contains(&si) {
            self.told(Field::StickUp, column, si, Some(unit));
        }
    }

    /// A unit with a question mark: nobody knows in which unit the row is.
    fn unit_doubted(&mut self, column: usize, words: &[Token]) {
        let asks = words.windows(2).any(|pair| {
            let unit = ["feet", "ft", "meters", "metres", "inches", "cm", "mm", "pies", "pieds", "metros", "pouces"];
            unit.contains(&pair[0].word.as_str()) && pair[1].word == "?"
        });
        if asks && self.measures() > 0 {
            let says = "this asks in which unit the row is";
            self.say_in(catalogue::REMARK_AGAINST_CELL, column, says, "write the unit beside the numbers");
        }
    }

    /// A remark that says in which unit the cells were filled in: `profundidad y agua las puse en cm`.
    fn unit_told(&mut self, column: usize, words: &[Token]) {
        if !remarks::tells_unit(words) || words.iter().any(|token| token.number.is_some()) {
            return;
        }
        const FIELDS: [Field; 3] = [Field::TotalDepth, Field::StaticWaterLevel, Field::CasingDiameter];
        let text = self.cell(column).to_owned();
        let stated = Language::ALL.into_iter().flat_map(|language| notes::stated(&text, language, None, &[]));
        let told = stated.filter_map(|stated| Some((stated.unit?, stated.about))).find(|(unit, about)| {
            // `figures are feet`: how deep, and not how wide.
            unit.dimension == Dimension::Length && (*about != notes::About::All || unit.is_of_depths())
        });
        let Some((unit, about)) = told else { return };
        let mut moved = false;
        let is_told = |field: &Field| about != notes::About::All || !is_diameter(*field);
        for field in FIELDS.into_iter().filter(|field| notes::concerns(about, *field) && is_told(field)) {
            let bare = plain(self.in_cell(field));
            if let (Some(value), Some(_)) = (bare, self.number(field)) {
                self.read_again_in(field, value, unit);
                moved = true;
            }
        }
        if moved {
            self.say_put_to_use(column, format!("read in {}, as this says", unit.symbol));
        }
    }

    /// Takes the bare number of a cell in a unit that is not its column's.
    fn read_again_in(&mut self, field: Field, bare: f64, unit: &'static Unit) {
        self.set_number(field, unit.to_si(bare));
        self.own_units.retain(|(of, _)| *of != field);
        self.own_units.push((field, unit));
    }

    /// Strings of casing in a remark, where the cell has the first of them or none.
    fn strings_told(&mut self, column: usize) {
        const FIELD: Field = Field::CasingDiameter;
        if self.form(FIELD).is_some() || self.number(Field::OpenHoleDiameter).is_some() || !self.intervals().is_empty()
        {
            return;
        }
        let text = self.cell(column).to_owned();
        let beside = self.table.plan.feeds[FIELD as usize].as_ref().is_some_and(|feed| feed.unit_column.is_some());
        let of_row = self.shown_unit(FIELD).filter(|_| beside);
        let unit = of_row.or_else(|| self.unit_of_bare(FIELD)).or_else(|| self.shown_unit(FIELD));
        let parts = [text.as_str(), text.rsplit(": ").next().unwrap_or_default()];
        let read = parts.into_iter().find_map(|part| match size(part, Sort::Diameter, unit, self.table.comma) {
            Ok(Size::Strings(pieces)) => Some(pieces),
            _ => None,
        });
        let Some(pieces) = read.filter(|pieces| pieces.len() > 1) else { return };
        let first = pieces[0].diameter;
        if self.number(FIELD).is_some_and(|cell| (cell - first).abs() > 0.03 * cell) {
            return; // The two do not agree: the remark is left to a person.
        }
        let says = "the diameter changes on the way down, as this says";
        self.say_put_to_use(column, says);
        self.set_form(FIELD, Form::Strings(pieces));
    }

    /// A remark that repeats the bare width of the cell with its unit: `typed 4 because it is 4 FEET across`.
    fn width_in_its_unit(&mut self, column: usize, words: &[Token]) {
        const FIELD: Field = Field::CasingDiameter;
        const ACROSS: [&str; 9] =
            ["across", "wide", "inside", "diameter", "diam", "width", "ancho", "diametro", "large"];
        let (Some(bare), Some(_)) = (plain(self.in_cell(FIELD)), self.number(FIELD)) else { return };
        let of_width = words.iter().any(|token| ACROSS.contains(&token.word.as_str()));
        let told = words.windows(2).find_map(|pair| {
            let same = pair[0].number.is_some_and(|number| (number - bare).abs() < 1e-6 * bare.max(1.0));
            remarks::length_unit(&pair[1].word).filter(|_| same)
        });
        let Some(unit) = told.filter(|_| of_width) else { return };
        if self.unit_of_bare(FIELD).is_some_and(|column| std::ptr::eq(column, unit)) {
            return;
        }
        self.read_again_in(FIELD, bare, unit);
        self.say_put_to_use(column, format!("read in {}, as this says", unit.symbol));
    }

    /// A narrower width further down in a remark, where the cell has the upper one: `5 in from 84 ft down`.
    fn narrower_below(&mut self, column: usize, words: &[Token]) {
        const FIELD: Field = Field::CasingDiameter;
        let (Some(cell), Some(bottom)) = (self.number(FIELD), self.number(Field::TotalDepth)) else { return };
        if self.form(FIELD).is_some() || self.number(Field::OpenHoleDiameter).is_some() || !self.intervals().is_empty()
        {
            return;
        }
        let Some(told) = remarks::narrower(words) else { return };
        let of_depth = self.unit_of_bare(Field::TotalDepth).or_else(|| self.shown_unit(Field::TotalDepth));
        let at = match told.at.unit {
            Some(_) => Some(told.at.value),
            None => of_depth.map(|unit| unit.to_si(told.at.value)),
        };
        let at = if told.from_bottom { at.map(|height| bottom - height) } else { at };
        let agrees = told.above.is_none_or(|above| (above.value - cell).abs() <= 0.03 * cell);
        let narrower = (NARROWEST_BELOW * cell..cell).contains(&told.below.value);
        let Some(at) = at.filter(|at| agrees && narrower && (0.0..bottom).contains(at)) else { return };
        let piece = |top: f64, bottom: Option<f64>, diameter: f64| Piece {
            top,
            bottom,
            diameter,
            may_hang_from_ground: false,
            depths_in: None,
        };
        self.say_put_to_use(column, "the diameter changes on the way down, as this says");
        self.set_form(FIELD, Form::Strings(vec![piece(0.0, Some(at), cell), piece(at, None, told.below.value)]));
    }

    /// A square that a remark gives where the cell has its side alone: `SQUARE CURB 40 X 40 IN` beside 40.
    fn square_told(&mut self, column: usize) {
        let Some(cell) = self.number(Field::CasingDiameter) else { return };
        let Some(Width { si, unit, side: Some(side) }) = width_in_words(self.cell(column), false) else { return };
        if (side - cell).abs() <= 0.03 * cell && self.form(Field::CasingDiameter).is_none() {
            let says = format!(
                "the well is not round, as this says: {} across a round well of the same area",
                quantity(si, unit, 4)
            );
            self.say_put_to_use(column, says);
            self.set_number(Field::CasingDiameter, si);
        }
    }

    /// A remark that says that the number of the level is a height of water: `33 is ft of water IN it, not down to`.
    fn height_told(&mut self, column: usize, words: &[Token]) {
        const LEVEL: Field = Field::StaticWaterLevel;
        let (Some(level), Some(unit)) = (self.number(LEVEL), self.unit_of_bare(LEVEL)) else { return };
        let plain: Vec<&str> = words.iter().map(|token| token.word.as_str()).collect();
        let written = unit.from_si(level);
        let same = words
            .iter()
            .filter_map(|token| token.number)
            .any(|number| (number - written).abs() < 1e-6 * written.max(1.0));
        let pair = |first: &[&str], second: &[&str]| {
            plain
                .windows(3)
                .any(|part| first.contains(&part[0]) && (second.contains(&part[1]) || second.contains(&part[2])))
        };
        let height = pair(&["hauteur", "height", "altura", "lame", "lamina"], &["eau", "d'eau", "water", "agua"])
            || pair(&["of"], &["water"]) && plain.iter().any(|word| ["in", "standing"].contains(word));
        if !same || !height || self.datum(Field::WaterColumn) != Datum::Missing {
            return;
        }
        let says = format!("{} is the height of the water, as this says, not its depth", quantity(level, unit, 4));
        self.say_put_to_use(column, says);
        self.forget(LEVEL);
        self.set_number(Field::WaterColumn, level);
    }

    /// The width that the words of the type or of a remark give, where no cell does: `bored w/ 24 inch tile`.
    fn width_in_words(&mut self, notes: &[Note]) {
        let given = |field: Field| self.datum(field) != Datum::Missing || self.form(field).is_some();
        let fields = [Field::CasingDiameter, Field::CasingOutsideDiameter, Field::WaterVolume];
        if fields.into_iter().any(given) || !self.intervals().is_empty() || self.measures() == 0 {
            return;
        }
        // `200mm` in a column of its own is no remark of how wide the well is.
        let is_remark = |column: usize| self.column(Field::Notes) == Some(column);
        let in_type = self.column(Field::WellType).map(|column| (column, true));
        let columns = in_type.into_iter().chain(notes.iter().map(|(column, _)| (*column, false)));
        let found: Vec<(usize, Width)> = columns
            .filter(|(column, of_type)| *of_type || is_remark(*column) || self.cell(*column).split(' ').count() > 2)
            .filter_map(|(column, of_type)| Some((column, width_in_words(self.cell(column), of_type)?)))
            .collect();
        let [(column, width)] = found.as_slice() else { return };
        self.told(Field::CasingDiameter, *column, width.si, Some(width.unit));
    }

    /// Says that a remark was put to use.
    fn say_put_to_use(&mut self, column: usize, says: impl Into<Words>) {
        self.say_in(catalogue::OVERRULED, column, says, "no action needed if correct; otherwise correct the remark");
    }

    /// Takes a measure that the cell of another gives, where its own is blank: `22 from top of pipe, pipe is 2 ft up`.
    pub(super) fn given_beside(&mut self, field: Field, column: usize, part: &str) {
        let unit = ColumnUnit { unit: self.unit_of_bare(field), stated: true };
        let read = self.table.cells.read(field, part, CellKind::Text, unit, self.table.comma);
        if self.datum(field) != Datum::Missing || self.form(field).is_some() {
            return;
        }
        if let Datum::Number(si) = read.datum {
            self.told(field, column, si, read.unit);
        }
        if let Some(said) = read.said {
            self.keep_said(field, *said);
        }
    }

    /// Takes a value that a cell of words gives for one that is blank.
    pub(super) fn told(&mut self, field: Field, column: usize, si: f64, unit: Option<&'static Unit>) {
        let shown = unit.or_else(|| self.shown_unit(field)).map_or_else(String::new, |unit| quantity(si, unit, 4));
        let says = format!("{} is blank; {shown} is taken from these words", field.name().replace('_', " "));
        self.say_in(catalogue::OVERRULED, column, says, "no action needed if correct; otherwise fill in the cell");
        self.set_number(field, si);
    }
}
