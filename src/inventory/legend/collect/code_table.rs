//! A table of codes under headings of its own, which say where the codes stand and where their meanings.

use crate::inventory::choices;
use crate::inventory::rows::Rows;

/// Words over a column of codes, and over that of their meanings.
const CODE: [&str; 12] = [
    "code",
    "codes",
    "key",
    "abbreviation",
    "abbrev",
    "symbol",
    "value",
    "codigo",
    "clave",
    "abreviatura",
    "sigle",
    "sigla",
];

const MEANING: [&str; 15] = [
    "meaning",
    "means",
    "description",
    "explanation",
    "definition",
    "text",
    "label",
    "stands for",
    "significado",
    "descripcion",
    "signification",
    "libelle",
    "descricao",
    "explicacao",
    "what it means",
];

const FIELD: [&str; 15] = [
    "field",
    "column",
    "variable",
    "heading",
    "item",
    "list",
    "list name",
    "domain",
    "campo",
    "columna",
    "champ",
    "colonne",
    "coluna",
    "lista",
    "liste",
];

/// Words over what is said of a field in a table that names fields without codes of their own.
const SAYS: [&str; 12] = [
    "how to fill it",
    "how to fill",
    "how to fill in",
    "instructions",
    "notes",
    "note",
    "remarks",
    "comment",
    "comments",
    "details",
    "remarques",
    "observaciones",
];

/// The places of the columns of a table of codes, from its row of headings.
#[derive(Debug, Clone, Copy)]
pub(super) struct TableOfCodes {
    pub(super) field: Option<usize>,
    /// Where the codes stand; nothing in a table of fields, whose codes stand among the words about each.
    pub(super) code: Option<usize>,
    pub(super) meaning: usize,
}

impl TableOfCodes {
    /// The table that begins below this row, where it holds such headings.
    pub(super) fn below(rows: &Rows, row: usize) -> Option<Self> {
        let cells: Vec<(usize, &str)> = rows.filled(row).collect();
        let find =
            |words: &[&str]| cells.iter().find(|(_, text)| words.contains(&folded(text).as_str())).map(|(at, _)| *at);
        let field = find(&FIELD);
        if let (Some(code), Some(meaning)) = (find(&CODE), find(&MEANING)) {
            return Some(Self { field, code: Some(code), meaning });
        }
        if let Some(shortened) = Self::shortened(&cells) {
            return Some(shortened);
        }
        let meaning = find(&SAYS).or_else(|| find(&MEANING)).filter(|_| field.is_some() && cells.len() >= 3)?;
        Some(Self { field, code: None, meaning })
    }
}

impl TableOfCodes {
    /// Headings as databases shorten them, each cell one of them: `COLNM | CDVAL | MEANINGTXT`.
    fn shortened(cells: &[(usize, &str)]) -> Option<Self> {
        const FIELDS: [&str; 5] = ["col", "field", "fld", "var", "tbl"];
        const CODES: [&str; 4] = ["code", "cd", "val", "abbr"];
        const MEANINGS: [&str; 5] = ["meaning", "mean", "desc", "defin", "expl"];
        let begins = |known: &[&str], text: &str| known.iter().any(|beginning| text.starts_with(beginning));
        let mut found = (None, None, None);
        for (at, text) in cells {
            let word = folded(text);
            let place = match () {
                () if word.contains(' ') => return None,
                () if begins(&MEANINGS, &word) => &mut found.2,
                () if begins(&CODES, &word) => &mut found.1,
                () if begins(&FIELDS, &word) => &mut found.0,
                () => return None,
            };
            if place.replace(*at).is_some() {
                return None;
            }
        }
        let (field, code, meaning) = found;
        Some(Self { field: Some(field?), code: Some(code?), meaning: meaning? })
    }
}

/// Whether the heading over a meaning is blank, or says that it is one.
pub(super) fn is_meaning(heading: &str) -> bool {
    let heading = folded(heading);
    heading.is_empty() || MEANING.contains(&heading.as_str())
}

/// The column of codes of a sheet that lists codes and meanings under headings of its own, and the row of these.
pub fn codes_of_table(rows: &Rows) -> Option<(usize, usize)> {
    (0..rows.len().min(10)).find_map(|row| Some((row, TableOfCodes::below(rows, row)?.code?)))
}

/// Words of a text without accents, joined; what the tables of words above are compared with.
pub(super) fn folded(text: &str) -> String {
    let phrase = choices::plain_words(text);
    phrase.join(" ")
}
