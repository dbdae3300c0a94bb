//! Fills in cells of a workbook as people and their programs do, in the file itself: texts, numbers, percentages, formulas without
//! results. For the modules that test books. No test of its own.

use std::io::{Cursor, Write};
use std::path::{Path, PathBuf};

use tempfile::TempDir;
use zip::write::SimpleFileOptions;

use crate::running::{folder, parts, place, run, sheets};

/// What is typed into a cell.
#[derive(Clone, Copy)]
pub enum Typed<'a> {
    Text(&'a str),
    Number(f64),
    /// A number that is shown as a percentage without decimals (ECMA-376, part 1, 18.8.30: format 9).
    Percent(f64),
    /// A formula whose result no program has stored.
    Formula(&'a str),
}

/// A list, and the book of it in metric units; the folder lives as long as the answer is kept.
pub fn metric_book(list: &str) -> (TempDir, PathBuf) {
    let folder = folder();
    let list = place(folder.path(), "wells.csv", list).display().to_string();
    let book = folder.path().join("book.xlsx");
    run(&["start", &list, "--out", &book.display().to_string(), "--units", "metric"]).ended(0);
    (folder, book)
}

/// The cells of a sheet as texts.
pub fn table(book: &Path, name: &str) -> Vec<Vec<String>> {
    let (_, rows) = sheets(book).into_iter().find(|(sheet, _)| sheet == name).unwrap_or_else(|| panic!("no {name}"));
    rows.into_iter().map(|row| row.iter().map(ToString::to_string).collect()).collect()
}

/// The cell in a column of letters, beside a title in the first column.
pub fn beside(book: &Path, sheet: &str, title: &str, column: &str) -> String {
    let (_, rows) = sheets(book).into_iter().find(|(name, _)| name == sheet).unwrap();
    let row = rows.iter().position(|row| row.first().is_some_and(|cell| *cell == title));
    format!("{column}{}", row.unwrap_or_else(|| panic!("{sheet} has no line {title}")) + 1)
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;")
}

/// Writes a copy of a workbook with cells filled in: sheet, cell, what is typed.
pub fn filled(book: &Path, to: &Path, cells: &[(&str, &str, Typed<'_>)]) {
    let mut parts = parts(book);
    let names: Vec<String> = sheets(book).into_iter().map(|(name, _)| name).collect();
    // A style for percentages, behind all others.
    let styles = String::from_utf8(parts["xl/styles.xml"].clone()).unwrap();
    let at = styles.find("<cellXfs count=\"").unwrap() + "<cellXfs count=\"".len();
    let count: usize = styles[at..].split('"').next().unwrap().parse().unwrap();
    let styles = styles
        .replacen(&format!("<cellXfs count=\"{count}\""), &format!("<cellXfs count=\"{}\"", count + 1), 1)
        .replacen(
            "</cellXfs>",
            "<xf numFmtId=\"9\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\"/></cellXfs>",
            1,
        );
    parts.insert("xl/styles.xml".to_owned(), styles.into_bytes());
    for (sheet, cell, typed) in cells {
        let number = names.iter().position(|name| name == sheet).unwrap_or_else(|| panic!("no sheet {sheet}")) + 1;
        let part = format!("xl/worksheets/sheet{number}.xml");
        let xml = String::from_utf8(parts[&part].clone()).unwrap();
        let (content, of_type, style) = match typed {
            Typed::Text(text) => {
                (format!("<is><t xml:space=\"preserve\">{}</t></is>", escaped(text)), " t=\"inlineStr\"", None)
            }
            Typed::Number(number) => (format!("<v>{number}</v>"), "", None),
            Typed::Percent(number) => (format!("<v>{number}</v>"), "", Some(count)),
            Typed::Formula(formula) => (format!("<f>{}</f>", escaped(formula)), "", None),
        };
        let begin = format!("<c r=\"{cell}\"");
        let xml = match xml.find(&begin) {
            Some(at) => {
                let tag = &xml[at..at + xml[at..].find('>').unwrap() + 1];
                let end = match tag.ends_with("/>") {
                    true => at + tag.len(),
                    false => at + xml[at..].find("</c>").unwrap() + "</c>".len(),
                };
                let own = tag.split(" s=\"").nth(1).and_then(|rest| rest.split('"').next()).map(str::to_owned);
                let style = style.map(|style| style.to_string()).or(own);
                let style = style.map_or(String::new(), |style| format!(" s=\"{style}\""));
                format!("{}{begin}{style}{of_type}>{content}</c>{}", &xml[..at], &xml[end..])
            }
            None => {
                // Behind the last cell of its row.
                let row: String = cell.chars().filter(char::is_ascii_digit).collect();
                let at = xml.find(&format!("<row r=\"{row}\"")).unwrap_or_else(|| panic!("{sheet} has no row {row}"));
                let end = at + xml[at..].find("</row>").unwrap_or_else(|| panic!("{sheet} {cell}"));
                format!("{}{begin}{of_type}>{content}</c>{}", &xml[..end], &xml[end..])
            }
        };
        parts.insert(part, xml.into_bytes());
    }
    pack(to, &parts.into_iter().collect::<Vec<_>>());
}

/// Writes the texts of a workbook as an OpenDocument spreadsheet (OASIS OpenDocument 1.2, part 1, section 9).
pub fn as_spreadsheet(book: &Path, to: &Path) {
    let mut content = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><office:document-content office:version=\"1.2\" \
         xmlns:office=\"urn:oasis:names:tc:opendocument:xmlns:office:1.0\" \
         xmlns:table=\"urn:oasis:names:tc:opendocument:xmlns:table:1.0\" \
         xmlns:text=\"urn:oasis:names:tc:opendocument:xmlns:text:1.0\"><office:body><office:spreadsheet>",
    );
    for (name, rows) in sheets(book) {
        content += &format!("<table:table table:name=\"{}\">", escaped(&name));
        for row in rows {
            content += "<table:table-row>";
            for cell in row {
                content += &match cell {
                    calamine::Data::Float(number) => {
                        format!("<table:table-cell office:value-type=\"float\" office:value=\"{number}\"/>")
                    }
                    calamine::Data::Empty => "<table:table-cell/>".to_owned(),
                    text => format!(
                        "<table:table-cell office:value-type=\"string\"><text:p>{}</text:p></table:table-cell>",
                        escaped(&text.to_string())
                    ),
                };
            }
            content += "</table:table-row>";
        }
        content += "</table:table>";
    }
    content += "</office:spreadsheet></office:body></office:document-content>";
    let mimetype = "application/vnd.oasis.opendocument.spreadsheet";
    pack(to, &[("mimetype".to_owned(), mimetype.into()), ("content.xml".to_owned(), content.into_bytes())]);
}

/// Writes parts as a workbook.
pub fn pack(to: &Path, parts: &[(String, Vec<u8>)]) {
    let mut made = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        made.start_file(name.as_str(), SimpleFileOptions::default()).unwrap();
        made.write_all(bytes).unwrap();
    }
    std::fs::write(to, made.finish().unwrap().into_inner()).unwrap();
}
