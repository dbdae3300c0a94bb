//! How a sheet is laid on paper: which way round, how small, and how many columns side by side.
//!
//! Nothing is printed below eight points: a sheet that is too wide for that goes over several pages, with its id columns on each.

use rust_xlsxwriter::{Worksheet, XlsxError};

use crate::document::cell::{Layout, Paper, Role, Sheet};

/// Width of a column without one of its own, in characters.
pub(super) const PLAIN_WIDTH: f64 = 8.43;
/// The smallest part of its size that ten-point type is printed at.
const SMALLEST: f64 = 0.8;
/// So much of a page is used at most.
const USED: f64 = 0.99;
/// Pixels of a digit, at most: one program counts seven, another the true width of the type.
const DIGIT: f64 = 7.42;
/// Margins in inches: left and right together, above and below each, head and foot.
const SIDES: f64 = 0.8;
const ENDS: f64 = 0.55;

/// What a sheet is printed on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Page {
    landscape: bool,
    /// Part of its size; the whole width on one page where it is at least the smallest.
    scale: f64,
    /// Whether the sheet is no wider than one page.
    is_one_wide: bool,
    /// Columns on the first page.
    pub across: u16,
}

/// Pixels of a column: so many for a character and five between columns.
fn pixels(layout: &Layout, column: u16) -> f64 {
    DIGIT * layout.widths.get(usize::from(column)).copied().unwrap_or(PLAIN_WIDTH) + 5.0
}

/// Pixels between the margins.
fn room(paper: Paper, landscape: bool) -> f64 {
    let (short, long) = match paper {
        Paper::A4 => (210.0 / 25.4, 297.0 / 25.4),
        Paper::Letter => (8.5, 11.0),
    };
    ((if landscape { long } else { short }) - SIDES) * 96.0
}

impl Page {
    /// How a sheet of so many columns is laid on paper.
    pub fn of(layout: &Layout, columns: u16, paper: Paper) -> Self {
        let (written, columns) = (columns.max(1), layout.printed_columns.unwrap_or(columns).max(1));
        let whole: f64 = (0..columns).map(|column| pixels(layout, column)).sum();
        for landscape in [false, true] {
            let scale = (room(paper, landscape) * USED / whole).min(1.0);
            if scale >= SMALLEST {
                return Self { landscape, scale, is_one_wide: true, across: columns.min(written) };
            }
        }
        let mut left = room(paper, true) * USED / SMALLEST;
        let fits = |column: &u16| {
            left -= pixels(layout, *column);
            left >= 0.0
        };
        let across = (0..columns.min(written)).take_while(fits).count().max(1) as u16;
        Self { landscape: true, scale: SMALLEST, is_one_wide: false, across }
    }

    /// Whether a sheet is laid the same way round on as many pages side by side.
    pub fn is_laid_as(&self, other: Self) -> bool {
        (self.landscape, self.is_one_wide, self.across) == (other.landscape, other.is_one_wide, other.across)
    }

    /// The columns that a line of one cell runs over, from and below. On a sheet over several pages the title stays in the columns
    /// that each of them has, and notes stand beside them: what runs from one into the other is cut off on every page but the first.
    pub fn line(&self, layout: &Layout, role: Role) -> (u16, u16) {
        let aside = if self.is_one_wide { 0 } else { repeated(layout, false) };
        match role {
            _ if aside == 0 || aside >= self.across => (0, self.across),
            Role::Title => (0, aside),
            _ => (aside, self.across),
        }
    }
}

/// Columns at the left that stand on each page of a sheet.
fn repeated(layout: &Layout, is_one_wide: bool) -> u16 {
    layout.repeat_columns.max(if is_one_wide { 0 } else { layout.frozen_columns })
}

/// Sets up the page of a sheet.
pub(super) fn set_up(
    worksheet: &mut Worksheet,
    sheet: &Sheet,
    columns: u16,
    (page, paper): (Page, Paper),
    title: &str,
) -> Result<(), XlsxError> {
    let layout = &sheet.layout;
    if let Some(row) = layout.filter_row.or(layout.repeat_rows).filter(|_| !layout.is_unprinted) {
        worksheet.set_repeat_rows(row, row)?;
    }
    let repeated = repeated(layout, page.is_one_wide);
    if repeated > 0 && !layout.is_unprinted {
        worksheet.set_repeat_columns(0, repeated - 1)?;
    }
    if !layout.breaks.is_empty() {
        worksheet.set_page_breaks(&layout.breaks)?;
    }
    let rows = sheet.rows.len() as u32;
    if layout.is_unprinted {
        // There is no mark for that: what is printed is a cell in which nothing stands.
        worksheet.set_print_area(0, columns + 1, 0, columns + 1)?;
    } else if layout.printed_columns.is_some() || layout.printed_rows.is_some() {
        let last = layout.printed_rows.unwrap_or(u32::MAX).min(rows).saturating_sub(1);
        worksheet.set_print_area(0, 0, last, layout.printed_columns.unwrap_or(columns).saturating_sub(1))?;
    }
    if page.landscape {
        worksheet.set_landscape();
    }
    worksheet.set_paper_size(if paper == Paper::Letter { 1 } else { 9 });
    // Where pages are made to fit, programs leave out the breaks that are asked for.
    if page.is_one_wide && layout.breaks.is_empty() {
        worksheet.set_print_fit_to_pages(1, 0);
    } else {
        worksheet.set_print_scale((page.scale * 100.0).floor() as u16);
    }
    worksheet.set_margins(SIDES / 2.0, SIDES / 2.0, ENDS, ENDS, 0.3, 0.3);
    // An ampersand in the title would be read as a print code.
    let title = title.replace('&', "&&");
    worksheet.set_header(format!("&L{title}&R{}", sheet.name));
    let left_out = match layout.printed_rows {
        Some(shown) if shown < rows => {
            format!(". Rows 1 to {shown} of {rows} are printed; the others are on the screen")
        }
        _ => String::new(),
    };
    worksheet.set_footer(format!(
        "&L&8Planning figures: local code and licensed practice come first{left_out}&R&8Page &P of &N"
    ));
    Ok(())
}
