//! The words by which a remark speaks of what stands in the cells: doubts it, sets another number against it, tells who
//! wrote it.

/// Words by which somebody sets another number against the cell.
pub const SAYS: &[&str] = &[
    "says",
    "said",
    "say",
    "claims",
    "claimed",
    "not",
    "stopped",
    "states",
    "stated",
    "thinks",
    "thought",
    "reckons",
    "believes",
    "remembers",
    "rpts",
    "reports",
    "recalls",
    "insists",
    "afirma",
    "asegura",
    "affirme",
    "dispute",
    "disputed",
    "dit",
    "pense",
    "dice",
    "cree",
    "diz",
    "acha",
    "selon",
    "segun",
    "segundo",
];

/// Words by which a number in a remark is meant to be checked, or told by another than who filled in the cell.
pub const VERIFY: &[&str] = &[
    "revoir",
    "revisar",
    "rever",
    "recheck",
    "verify",
    "verificar",
    "verifier",
    "doubt",
    "doubtful",
    "dispute",
    "disputed",
    "typo",
    "conflict",
    "conflicts",
];

/// Words by which somebody tells how the cells were filled in.
pub const WROTE: &[&str] = &[
    "typed", "entered", "wrote", "written", "recorded", "noted", "put", "given", "logged", "puse", "puso", "pusieron",
    "anote", "anoto", "anotado", "escribi", "escribio", "digite", "digito", "mis", "note", "saisi", "saisis", "ecrit",
    "coloquei", "anotei", "digitei", "escrevi",
];

/// Words that put a measure in doubt.
pub const DOUBTED: [&str; 14] = [
    "suspect",
    "suspicious",
    "doubtful",
    "doubt",
    "unreliable",
    "questionable",
    "wrong",
    "incorrect",
    "dudos",
    "sospechos",
    "douteu",
    "incertain",
    "duvidos",
    "suspeit",
];

/// Whether a word says that something is not known.
pub fn is_unknown(word: &str) -> bool {
    ["unknown", "inconnu", "inconnue", "desconocido", "desconhecido"].contains(&word)
}
