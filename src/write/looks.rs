//! What cells look like: a format for each part that a cell can play, and the format of a column where most of its cells share one.

use std::collections::HashMap;

use foldhash::fast::FixedState;
use rust_xlsxwriter::{Format, FormatAlign, FormatBorder};

use crate::document::cell::{Cell, Class, Role, Sheet, Value};
use crate::document::formula::Outcome;

/// Rows of a sheet that is long.
pub(super) const LONG: usize = 1_000;

/// What a cell looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct Look {
    pub role: Role,
    pub digits: Option<usize>,
    pub wide: bool,
}

impl Look {
    pub fn of(cell: &Cell, wide: bool) -> Self {
        let digits = match &cell.value {
            Value::Number { digits, .. } => Some(*digits),
            Value::Formula(formula) => Some(formula.digits).filter(|_| matches!(formula.outcome, Outcome::Number(_))),
            Value::Count(_) => Some(0),
            Value::Empty | Value::Text(_) => None,
        };
        Self { role: cell.role, digits, wide }
    }

    /// The look of the only cell of a line that runs over the columns of a page.
    pub fn of_line(only: &Cell) -> Self {
        Self { role: only.role, digits: None, wide: true }
    }
}

/// How the plain cells of each column of a long sheet mostly look: the column has that format, and they need not name it.
pub(super) struct Usual(Vec<Option<Look>>);

impl Usual {
    pub fn of(sheet: &Sheet) -> Self {
        if sheet.rows.len() <= LONG {
            return Self(Vec::new());
        }
        let mut counts: Vec<HashMap<Look, usize, FixedState>> = Vec::new();
        for cells in &sheet.rows {
            counts.resize_with(counts.len().max(cells.len()), HashMap::default);
            let plain = cells.iter().zip(&mut counts);
            for (cell, counts) in plain.filter(|(cell, _)| cell.role == Role::Body && cell.value != Value::Empty) {
                *counts.entry(Look::of(cell, false)).or_default() += 1;
            }
        }
        let most = |counts: HashMap<Look, usize, FixedState>| {
            let (look, count) = counts.into_iter().max_by_key(|(look, count)| (*count, look.digits))?;
            (count > sheet.rows.len() / 2).then_some(look)
        };
        Self(counts.into_iter().map(most).collect())
    }

    pub fn columns(&self) -> impl Iterator<Item = (u16, Look)> {
        self.0.iter().enumerate().filter_map(|(column, look)| Some((column as u16, (*look)?)))
    }

    pub fn has(&self, column: u16, look: Look) -> bool {
        self.0.get(usize::from(column)).is_some_and(|usual| *usual == Some(look))
    }
}

/// Formats by the look of cells, each made once.
#[derive(Default)]
pub(super) struct Formats(HashMap<Look, Format, FixedState>);

impl Formats {
    pub fn of(&mut self, look: Look) -> &Format {
        self.0.entry(look).or_insert_with(|| make(look))
    }
}

/// Inks and grounds of the workbook, pale because they are printed: slate for structure, amber where a person must look.
const SLATE: u32 = 0x2F_4858;
const PALE_SLATE: u32 = 0xE6_ECEF;
const PALE_AMBER: u32 = 0xFB_EBCB;
const RULE: u32 = 0x9F_B0B9;
const PALE_INPUT: u32 = 0xFF_FBE0;

/// The color of a sheet's tab.
pub(super) const fn tab(class: Class) -> u32 {
    match class {
        Class::Input => 0xF2_D544,
        Class::Working => RULE,
        Class::Presentation => SLATE,
        Class::Control => 0xC9_8A1B,
    }
}

pub(super) fn plain() -> Format {
    Format::new().set_font_name("Arial").set_font_size(10)
}

fn make(Look { role, digits, wide }: Look) -> Format {
    let base = plain().set_align(FormatAlign::Top);
    let base = match digits {
        None if wide => base.set_text_wrap(),
        // A blank's width before a text keeps it off the number to its left.
        None => base.set_text_wrap().set_align(FormatAlign::Left).set_indent(1),
        Some(0) => base.set_num_format("#,##0"),
        Some(digits) => base.set_num_format(format!("#,##0.{}", shown_digits(digits))),
    };
    match role {
        Role::Title => base.set_font_size(14).set_bold().set_font_color(SLATE),
        Role::Note => base.set_italic().set_font_color(SLATE),
        Role::Head => base
            .set_bold()
            .set_font_color(SLATE)
            .set_background_color(PALE_SLATE)
            .set_text_wrap()
            .set_align(FormatAlign::Bottom)
            .set_border_bottom(FormatBorder::Thin)
            .set_border_bottom_color(SLATE),
        Role::Body => base,
        Role::Total => base.set_bold().set_background_color(PALE_SLATE),
        Role::Flagged => base.set_background_color(PALE_AMBER),
        Role::Caution => base.set_bold().set_background_color(PALE_AMBER),
        // A frame and a tint; the frame survives a printer without color.
        Role::Input => base.set_background_color(PALE_INPUT).set_border(FormatBorder::Thin).set_border_color(SLATE),
        // As text, so that what is typed stays as typed: a range such as 6-8 would become a date.
        Role::Figure => base.set_border(FormatBorder::Thin).set_border_color(RULE),
        Role::Blank => base.set_num_format("@").set_border(FormatBorder::Thin).set_border_color(RULE),
    }
}

/// Up to two digits are always shown; further ones only where they are not zero.
fn shown_digits(digits: usize) -> String {
    if digits <= 2 { "0".repeat(digits) } else { format!("0{}", "#".repeat(digits - 1)) }
}
