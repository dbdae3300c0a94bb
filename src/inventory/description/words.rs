//! The words that say what a number of a description is of: English by common practice of the trade, no source; Spanish, French
//! and Portuguese from memory. Lower case, without accents; an entry that ends in `*` stands for every word that begins so.

/// What a number is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Label {
    Depth,
    Level,
    /// Of the standing water.
    Height,
    Width,
    /// Of the hole around the casing.
    Bore,
    /// Depth of the casing, or its width where the number is small.
    Casing,
    /// The height of the casing or rim above the ground.
    Rim,
    /// How the well was made: of a small number, its width.
    Made,
    /// Something that no dose rests on.
    Aside,
}

/// What a table says of a word; an entry that ends in `*` stands for every word that begins so.
pub(super) fn in_table(table: &[(&[&str], Label)], word: &str) -> Option<Label> {
    let fits = |entry: &&str| match entry.strip_suffix('*') {
        Some(beginning) => word.starts_with(beginning),
        None => *entry == word,
    };
    table.iter().find(|(words, _)| words.iter().any(&fits)).map(|(_, label)| *label)
}

/// Words before a number.
pub(super) static BEFORE: [(&[&str], Label); 7] = [
    (&["column", "columna", "colonne", "coluna"], Label::Height),
    (
        &[
            "static", "swl", "wl", "dtw", "sl", "water", "wtr", "dipped", "dips", "rests", "rest", "resting", "stands",
            "standing", "level", "lvl", "ns", "ne", "nivel", "niveau", "agua", "eau", "statique", "estatico",
        ],
        Label::Level,
    ),
    (
        &[
            "td",
            "depth",
            "deep",
            "total",
            "bottom",
            "prof",
            "profondeur",
            "profundidad",
            "profundidade",
            "fondo",
            "fundo",
        ],
        Label::Depth,
    ),
    (&["dia", "diam", "diameter", "diametre", "diametro", "ø", "tubo", "buses", "anillos", "aneis"], Label::Width),
    (&["casing", "csg", "cased", "tubage", "ademe", "revestimento", "entubado"], Label::Casing),
    (
        &["up", "stickup", "stick", "sticks", "stk", "stkup", "upstand", "sale", "sobresale", "depasse", "sobressai"],
        Label::Rim,
    ),
    (
        &[
            "pump",
            "pmp",
            "pumped",
            "set",
            "setting",
            "hangs",
            "hung",
            "hanging",
            "intake",
            "jet",
            "sub",
            "submersible",
            "motor",
            "draws",
            "drawdown",
            "pumping",
            "pumps",
            "pwl",
            "was",
            "used",
            "before",
            "orig*",
            "antes",
            "avant",
            "screen",
            "screened",
            "scrn",
            "perf",
            "perfs",
            "perforated",
            "slot",
            "slotted",
            "grout",
            "grouted",
            "seal",
            "sealed",
            "yield",
            "yields",
            "makes",
            "flow",
            "pitless",
            "frost",
            "bedrock",
            "tank",
            "pl",
            "drop",
            "wire",
            "cable",
            "cylinder",
            "valve",
            "nd",
            "dynamique",
            "dinamico",
            "bombeo",
            "bomba",
            "pompe",
            "crepine",
            "filtro",
            "filtre",
            "cost",
            "costs",
            "eur",
            "usd",
            "prix",
            "precio",
            "preco",
            "paid",
            "price",
            "phone",
            "tel",
            "ring",
            "call",
            "pulled",
        ],
        Label::Aside,
    ),
];

/// Words behind a number.
pub(super) static AFTER: [(&[&str], Label); 7] = [
    (
        &[
            "deep",
            "depth",
            "td",
            "hondo",
            "fondo",
            "profundo",
            "profunda",
            "profundidad",
            "profundidade",
            "profond",
            "profondeur",
            "fundo",
            "bottom",
            "btm",
            "base",
        ],
        Label::Depth,
    ),
    (&["static", "swl", "dtw"], Label::Level),
    (&["d'eau"], Label::Height),
    (
        &[
            "camlock",
            "suction",
            "hose",
            "poly",
            "coupling",
            "pumping",
            "pwl",
            "pump",
            "setting",
            "screen",
            "scrn",
            "slot",
            "drawdown",
            "sub",
            "jet",
            "submersible",
            "grout",
            "yrs",
            "old",
            "sw",
            "line",
        ],
        Label::Aside,
    ),
    (&["borehole", "bit", "hole"], Label::Bore),
    (
        &[
            "across",
            "wide",
            "dia",
            "diam",
            "diameter",
            "od",
            "id",
            "casing",
            "csg",
            "cased",
            "pipe",
            "pvc",
            "steel",
            "stl",
            "iron",
            "plastic",
            "galv",
            "tile",
            "stone",
            "brick",
            "block",
            "crock",
            "crocks",
            "concrete",
            "tiles",
            "point",
            "sandpoint",
            "bore",
            "ring",
            "rings",
            "culvert",
            "curb",
            "round",
            "square",
            "diametre",
            "diametro",
            "tubo",
            "ancho",
            "large",
        ],
        Label::Width,
    ),
    (&["drilled", "drld", "bored", "dug", "driven", "jetted", "rock", "artesian"], Label::Made),
];

/// Two words behind a number.
pub(super) static AFTER_TOGETHER: [(&[&str], &[&str], Label); 6] = [
    (&["to", "before"], &["water", "wtr"], Label::Level),
    (&["a", "al", "jusqu'a", "ate"], &["l'eau", "agua"], Label::Level),
    (&["of", "de"], &["water", "wtr", "agua", "eau"], Label::Height),
    (&["out"], &["of"], Label::Rim),
    (&["stick", "sticks", "-"], &["up", "stick"], Label::Rim),
    (&["above", "over"], &["ground", "grade", "gl"], Label::Rim),
];

/// Words of a casing or a lining.
pub(super) const LINING: [&str; 16] = [
    "casing",
    "csg",
    "cased",
    "steel",
    "stl",
    "pvc",
    "pipe",
    "iron",
    "plastic",
    "galv",
    "tubage",
    "ademe",
    "tubo",
    "revestimento",
    "entubado",
    "acier",
];

/// Words between the two of [`AFTER_TOGETHER`].
pub(super) const ARTICLES: [&str; 6] = ["the", "la", "le", "el", "o", "l"];

/// Words of a tape that was let down: so far down is the water, unless the bottom is named.
pub(super) const TAPED: [&str; 4] = ["taped", "tape", "taping", "plopped"];

/// What stands above the ground at a well.
pub(super) const RIMS: [&str; 15] = [
    "curb", "curbing", "kerb", "rim", "coping", "collar", "casing", "csg", "pipe", "wall", "crib", "brocal", "pretil",
    "margelle", "bocal",
];

/// How it stands there.
pub(super) const STANDS: [&str; 6] = ["stands", "standing", "stand", "rises", "sticks", "extends"];

/// Words of what stands up, behind its height.
pub(super) const HIGH: [&str; 5] = ["high", "up", "tall", "above", "proud"];

/// Words by which a clause speaks of the water, and not of a rim.
pub(super) const WATER: [&str; 7] = ["water", "wtr", "agua", "eau", "l'eau", "level", "static"];

/// How a well is made whose pump stands on the pipe that was driven.
pub(super) const DRIVEN: [&str; 7] = ["driven", "drove", "pounded", "jetted", "point", "sandpoint", "hincado"];

/// Words of a pump that stands on its pipe.
pub(super) const PUMPS: [&str; 4] = ["pump", "pitcher", "bomba", "pompe"];

/// Words behind a number that is none but a guess at one: `twenty some`, `20-odd`, `20 y pico`.
pub(super) const GUESSED: [&str; 7] = ["some", "odd", "something", "ish", "pico", "tantos", "quelques"];

/// What joins two numbers of one measure.
pub(super) const JOINS: [&str; 7] = ["or", "to", "-", "–", "thru", "ou", "o"];

/// What stands between a width and the depth that it reaches.
pub(super) const UNTIL: [&str; 6] = ["to", "thru", "hasta", "jusqu'a", "ate", "until"];

/// What joins two sides, or a width and a depth.
pub(super) const TIMES: [&str; 3] = ["x", "×", "by"];

/// What stands before the depth at which something hangs.
pub(super) const AT: [&str; 3] = ["@", "at", "a"];

/// What a height of water is counted from.
pub(super) const FROM_BELOW: [&str; 7] = ["bottom", "btm", "base", "fond", "fondo", "fundo", "floor"];

/// Words of what is beside the well, or of what is let down it.
pub(super) const OUTSIDE: [&str; 20] = [
    "septic", "septique", "septica", "lagoon", "letrina", "latrine", "latrina", "fosse", "fossa", "creek", "river",
    "house", "barn", "hose", "rope", "wire", "poly", "road", "drain", "manure",
];

/// Words behind a number that counts something else.
pub(super) const NOT_LENGTHS: [&str; 31] = [
    "buses", "anillos", "aneis", "rings", "manilhas", "g", "hp", "h", "cv", "kw", "ph", "phase", "litre", "litres",
    "liter", "liters", "litros", "bag", "bags", "head", "cows", "micron", "euros", "euro", "eur", "dollars", "bucks",
    "grains", "stage", "acres", "yo",
];

/// Words that take back that a well flows or is full.
pub(super) const UNSURE: [&str; 9] = ["not", "no", "never", "used", "was", "longer", "nunca", "jamais", "almost"];

/// Words before a time, where `in` is no inch: `water at 20 in spring`.
pub(super) const TIMES_OF_YEAR: [&str; 14] = [
    "spring",
    "summer",
    "fall",
    "winter",
    "autumn",
    "dry",
    "wet",
    "the",
    "a",
    "august",
    "july",
    "june",
    "september",
    "drought",
];

/// Words before a number that somebody else tells.
pub(super) const TELLS: [&str; 10] = ["says", "said", "say", "claims", "thinks", "maybe", "dice", "dit", "diz", "or"];
