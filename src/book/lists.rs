//! What was understood of the lists when the book was made, and what was not: what the sheets Columns and Words show.

/// A column of a list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Column {
    /// The list's file.
    pub file: String,
    /// Its sheet.
    pub sheet: Option<String>,
    /// The heading.
    pub heading: String,
    /// Its first cells.
    pub examples: Vec<String>,
    /// The field it is read as; nothing where it is carried along.
    pub field: Option<&'static str>,
    /// The unit of a bare number.
    pub unit: Option<String>,
    /// sure, likely, open, or carried.
    pub how_sure: &'static str,
    /// Why.
    pub why: String,
}

/// A text that was not understood.
#[derive(Debug, Clone, PartialEq)]
pub struct Unread {
    /// The list's file.
    pub file: String,
    /// Its sheet.
    pub sheet: Option<String>,
    /// The field of its column.
    pub field: &'static str,
    /// The text.
    pub word: String,
    /// In how many rows.
    pub count: u64,
    /// Where first.
    pub place: String,
}

/// A name that is nearly another.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Alike {
    /// The field: depot or region.
    pub field: &'static str,
    /// The name, the rarer of the two.
    pub name: String,
    /// The other.
    pub other: String,
    /// What is said of it.
    pub says: String,
    /// Where first.
    pub place: String,
}

/// A field that wells of a type lack.
#[derive(Debug, Clone, PartialEq)]
pub struct Lacking {
    /// The type.
    pub well_type: &'static str,
    /// The field.
    pub field: &'static str,
    /// How many wells lack it.
    pub wells: u64,
    /// What the others have, in words.
    pub own: String,
}

/// All of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Understood {
    /// Paths of the lists, as the book names them, each with how many rows it has.
    pub lists: Vec<(String, u64)>,
    /// What each of them is called where it is spoken of; the name of its file where nothing is here.
    pub called: Vec<String>,
    /// Columns.
    pub columns: Vec<Column>,
    /// Texts.
    pub unread: Vec<Unread>,
    /// Names that are nearly alike.
    pub names: Vec<Alike>,
    /// Fields that wells of a type lack.
    pub lacking: Vec<Lacking>,
    /// What is done and what is open, counted.
    pub status: Vec<(String, String)>,
}
