//! What a cell of an XLSX workbook says beside its value: that it is shown as a percentage, or that it is a formula whose result
//! nobody has stored. Scripts write such formulas; read as blank they would become a default.

use std::collections::HashMap;
use std::fs::File;
use std::io::BufReader;
use std::path::Path;

use calamine::{DataRef, Reader, Xlsx, XlsxFormulaMetadata, open_workbook};

use super::cells::{Cells, Content, Tall};
use super::{Told, told};

/// What a cell's style or formula says beyond its value.
enum Mark {
    Percent,
    /// A formula without a stored result, as it stands.
    Unsolved(String),
}

/// Marks of the cells of each sheet, by row and column as the library counts.
#[derive(Default)]
pub(super) struct Marks(HashMap<String, HashMap<(u32, u32), Mark>>);

/// The marks of the first rows of every sheet.
pub(super) fn marks(path: &Path, most_rows: usize) -> Told<Marks> {
    let mut workbook: Xlsx<BufReader<File>> = open_workbook(path).map_err(told)?;
    let mut marks = Marks::default();
    for name in workbook.sheet_names() {
        let mut of_sheet = HashMap::new();
        let mut reader = workbook.worksheet_cells_reader(&name).map_err(told)?;
        while let Some(record) = reader.next_cell_with_formula_metadata().map_err(told)? {
            if record.pos.0 as usize > most_rows {
                break;
            }
            let formula = match record.formula {
                Some(XlsxFormulaMetadata::Normal { formula } | XlsxFormulaMetadata::Shared { formula, .. }) => formula,
                Some(_) => String::new(),
                None => continue,
            };
            if record.value == DataRef::Empty {
                of_sheet.insert(record.pos, Mark::Unsolved(formula));
            }
        }
        drop(reader);
        let mut reader = workbook.worksheet_cells_reader(&name).map_err(told)?;
        let percent: Vec<bool> = reader.styles().iter().map(is_percent).collect();
        if percent.contains(&true) {
            while let Some((cell, style)) = reader.next_cell_with_style_id().map_err(told)? {
                if cell.get_position().0 as usize > most_rows {
                    break;
                }
                let is_number = matches!(cell.get_value(), DataRef::Float(_) | DataRef::Int(_));
                if is_number && percent.get(style).copied().unwrap_or_default() {
                    of_sheet.insert(cell.get_position(), Mark::Percent);
                }
            }
        }
        if !of_sheet.is_empty() {
            marks.0.insert(name, of_sheet);
        }
    }
    Ok(marks)
}

/// Whether a style shows 0.07 as 7 %: a percent sign in its format that is no letter of a text.
fn is_percent(style: &calamine::Style) -> bool {
    let Some(format) = &style.number_format else { return false };
    // Built-in formats 9 and 10 are 0% and 0.00% (ECMA-376, part 1, 18.8.30).
    if matches!(format.format_id, Some(9 | 10)) {
        return true;
    }
    let (mut in_quotes, mut escaped) = (false, false);
    format.format_code.chars().any(|letter| {
        let sign = letter == '%' && !in_quotes && !escaped;
        escaped = !escaped && letter == '\\';
        in_quotes ^= letter == '"';
        sign
    })
}

impl Marks {
    /// The cells of a sheet with its marks put in.
    pub(super) fn over<'a>(&'a self, sheet: &str, cells: &'a mut dyn Cells) -> Marking<'a> {
        Marking { marks: self.0.get(sheet), cells }
    }
}

/// Hands cells on with their marks.
pub(super) struct Marking<'a> {
    marks: Option<&'a HashMap<(u32, u32), Mark>>,
    cells: &'a mut dyn Cells,
}

impl Cells for Marking<'_> {
    fn take(&mut self, row: u32, column: u32, content: Content<'_>) -> bool {
        let mark = self.marks.and_then(|marks| marks.get(&(row, column)));
        let content = match (mark, content) {
            (Some(Mark::Percent), Content::Number(number)) => Content::Percent(number),
            (Some(Mark::Unsolved(formula)), Content::Empty) => Content::Unsolved(formula),
            (_, content) => content,
        };
        self.cells.take(row, column, content)
    }

    fn merged(&mut self, regions: Vec<Tall>) {
        self.cells.merged(regions);
    }
}
