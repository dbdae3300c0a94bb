//! What was understood of the lists when the book was made, and what was not: what the sheets Columns and Words show.

/// A column of a list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Column {
    /// The list, as findings call it: the file without its folder, or with as much of it as tells it from another.
    pub file: String,
    /// Name of the sheet; nothing where the file has no sheets.
    pub sheet: Option<String>,
    /// The heading as written; blank where a column without one is read as a field all the same.
    pub heading: String,
    /// Its first cells that hold anything, a few of them.
    pub examples: Vec<String>,
    /// The field it is read as; nothing where it is carried along.
    pub field: Option<&'static str>,
    /// The unit of a bare number.
    pub unit: Option<String>,
    /// `sure`, `likely`, `open` or `carried along`.
    pub how_sure: &'static str,
    /// Why it is read so: what a finding says of it, or whether its heading names a field.
    pub why: String,
}

/// A text that was not understood.
#[derive(Debug, Clone, PartialEq)]
pub struct Unread {
    /// The list that it stands in, as findings call it.
    pub file: String,
    /// Name of the sheet; nothing where the file has no sheets.
    pub sheet: Option<String>,
    /// The field of its column.
    pub field: &'static str,
    /// The word or words that wait for a meaning, as typed.
    pub word: String,
    /// In how many rows.
    pub count: u64,
    /// The first few places where it stands, such as `F14`, separated by commas.
    pub place: String,
}

/// A name that is nearly another.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Alike {
    /// The field: depot or region.
    pub field: &'static str,
    /// The name, the rarer of the two.
    pub name: String,
    /// The more frequent name, which the rarer one may be a slip of.
    pub other: String,
    /// What is said of it.
    pub says: String,
    /// The first cell with the rarer name: list, sheet and cell.
    pub place: String,
}

/// A field that wells of a type lack.
#[derive(Debug, Clone, PartialEq)]
pub struct Lacking {
    /// Name of the type, such as `drilled`.
    pub well_type: &'static str,
    /// Name of the field, such as `total_depth`; only fields without which a well is held back.
    pub field: &'static str,
    /// How many wells lack it.
    pub wells: u64,
    /// What the others have, in words.
    pub own: String,
}

/// What was understood of all lists, and how far each sheet of the book is filled in.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Understood {
    /// Paths of the lists, as the book names them, each with how many rows it has.
    pub lists: Vec<(String, u64)>,
    /// What each of them is called where it is spoken of; the name of its file where nothing is here.
    pub called: Vec<String>,
    /// Columns of every list that have a heading or are read as a field.
    pub columns: Vec<Column>,
    /// Texts that wait for a meaning, the most frequent first.
    pub unread: Vec<Unread>,
    /// Names that are nearly alike.
    pub names: Vec<Alike>,
    /// Spellings of names that are counted as other names without being asked about.
    pub folded: Vec<Alike>,
    /// Fields that wells of a type lack.
    pub lacking: Vec<Lacking>,
    /// What is done and what is open, counted.
    pub status: Vec<(String, String)>,
}
