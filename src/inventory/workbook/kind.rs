//! Which kind of workbook a file is.

use std::path::Path;

/// The kinds of workbook.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WorkbookKind {
    /// Office Open XML, ISO/IEC 29500.
    Xlsx,
    /// Office Open XML with binary parts.
    Xlsb,
    /// The older binary form.
    Xls,
    /// OpenDocument spreadsheet, ISO/IEC 26300.
    Ods,
}

/// Says what kind of workbook a file is by its first bytes, with its name deciding between those that are archives.
pub fn kind(path: &Path, head: &[u8]) -> Option<WorkbookKind> {
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default();
    if head.starts_with(&[0xd0, 0xcf, 0x11, 0xe0]) {
        return Some(WorkbookKind::Xls);
    }
    if !head.starts_with(b"PK") {
        return None;
    }
    Some(match ending.as_str() {
        "xlsb" => WorkbookKind::Xlsb,
        "ods" | "ots" => WorkbookKind::Ods,
        _ if memchr::memmem::find(head, b"opendocument.spreadsheet").is_some() => WorkbookKind::Ods,
        _ => WorkbookKind::Xlsx,
    })
}
