//! What makes a well one well in a table: its id alone, or its id under a system, a township, a section, a sheet.

/// What the beginning of a table tells of the whole of it.
#[derive(Debug, Clone, Default)]
pub struct Naming {
    /// Whether ids have figures in them, as most do.
    pub ids_are_numbers: bool,
}
