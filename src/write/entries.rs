//! Cells to be filled in, as a workbook has them: data validation and notes.

use rust_xlsxwriter::{
    DataValidation, DataValidationErrorStyle, DataValidationRule, Format, FormatAlign, Formula, Note, Worksheet,
    XlsxError,
};

use crate::document::cell::Layout;
use crate::document::entry::{Allowed, Entry};

/// Longest title and longest message of a validation that spreadsheet programs accept.
const TITLE: usize = 32;
const MESSAGE: usize = 255;

/// Writes a sheet's entries and remarks.
pub(super) fn write(worksheet: &mut Worksheet, layout: &Layout) -> Result<(), XlsxError> {
    for entry in &layout.entries {
        if entry.allowed == Allowed::Text {
            let text =
                Format::new().set_font_name("Arial").set_font_size(10).set_num_format("@").set_align(FormatAlign::Top);
            worksheet.set_column_format(entry.column, &text)?;
        }
        worksheet.add_data_validation(
            entry.first_row,
            entry.column,
            entry.last_row,
            entry.column,
            &validation(entry)?,
        )?;
    }
    for remark in &layout.remarks {
        let note = Note::new(&remark.text).add_author_prefix(false).set_width(280).set_height(120);
        worksheet.insert_note(remark.row, remark.column, &note)?;
    }
    Ok(())
}

fn validation(entry: &Entry) -> Result<DataValidation, XlsxError> {
    let validation = match &entry.allowed {
        Allowed::Text => DataValidation::new().allow_any_value(),
        Allowed::OneOf(words) => DataValidation::new().allow_list_strings(words)?,
        Allowed::Among(words) => {
            DataValidation::new().allow_list_strings(words)?.set_error_style(DataValidationErrorStyle::Warning)
        }
        Allowed::Cells(name) => DataValidation::new().allow_list_formula(Formula::new(format!("={name}"))),
        Allowed::AmongCells { sheet, column, rows } => {
            let range = rust_xlsxwriter::utility::cell_range_absolute(rows.0, *column, rows.1, *column);
            DataValidation::new()
                .allow_list_formula(Formula::new(format!("='{sheet}'!{range}")))
                .set_error_style(DataValidationErrorStyle::Warning)
        }
        Allowed::Between(low, high) => DataValidation::new()
            .allow_decimal_number(DataValidationRule::Between(*low, *high))
            .set_error_style(DataValidationErrorStyle::Warning),
        Allowed::Words => {
            let cell = rust_xlsxwriter::utility::row_col_to_cell(entry.first_row, entry.column);
            DataValidation::new()
                .allow_custom(Formula::new(format!("=ISTEXT({cell})")))
                .set_error_style(DataValidationErrorStyle::Warning)
        }
        Allowed::TextOrBetween(low, high, above) => {
            let cell = rust_xlsxwriter::utility::row_col_to_cell(entry.first_row, entry.column);
            let least = if *above { ">" } else { ">=" };
            let most = if high.is_finite() { format!(",{cell}<={high}") } else { String::new() };
            let rule = format!("=OR(ISTEXT({cell}),AND(ISNUMBER({cell}),{cell}{least}{low}{most}))");
            DataValidation::new().allow_custom(Formula::new(rule)).set_error_style(DataValidationErrorStyle::Warning)
        }
    };
    validation
        .set_input_title(cut(&entry.title, TITLE))?
        .set_input_message(cut(&entry.help, MESSAGE))?
        .set_error_title(cut(&entry.title, TITLE))?
        .set_error_message(cut(&entry.refusal, MESSAGE))
}

/// The text, or its beginning with an ellipsis.
fn cut(text: &str, longest: usize) -> String {
    if text.chars().count() <= longest {
        return text.to_owned();
    }
    let mut short: String = text.chars().take(longest - 1).collect();
    short.push('…');
    short
}
