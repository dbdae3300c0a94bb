//! The words by which a remark says when a level was taken, how, or that it moved.

/// Words by which a depth or level is the later one.
pub const NOW: &[&str] = &[
    "remeas",
    "rechecked",
    "retaped",
    "redipped",
    "remeasured",
    "now",
    "actual",
    "actually",
    "current",
    "currently",
    "true",
    "real",
    "measured",
    "sounded",
    "tagged",
    "verified",
    "remeasured",
    "corrected",
    "present",
    "presently",
    "today",
    "hoje",
    "hoy",
    "confirmed",
    "actuelle",
    "actuel",
    "reelle",
    "reel",
    "mesuree",
    "mesure",
    "remesuree",
    "remesure",
    "corrigee",
    "maintenant",
    "medida",
    "medido",
    "corregida",
    "verificada",
    "ahora",
    "atual",
    "atualmente",
    "corrigida",
    "agora",
    "actualmente",
];

/// Words by which a level was taken anew, or at rest.
pub const AGAIN: &[&str] =
    &["retaped", "redipped", "rested", "rest", "remeasured", "measured", "remesure", "remesuree"];

/// Words for a measurement, which is a later one with a word of new before it.
pub const MEASUREMENT: &[&str] = &["medicao", "medicion", "mesure", "lectura", "leitura", "releve"];

/// Words for what was done once more, of whatever the list measures.
pub const REPEATED: &[&str] = &["repris", "reprise", "repetido", "repetida"];

/// Words of taking a level.
pub const MEASURING: &[&str] = &[
    "measured",
    "meas",
    "read",
    "reading",
    "taken",
    "measuring",
    "level",
    "dtw",
    "swl",
    "whole",
    "dropping",
    "tape",
    "taped",
    "sounded",
    "dipped",
    "checked",
];

/// Words that make what was measured anew something else than a level.
pub const NO_LEVEL: &[&str] = &[
    "depth",
    "deep",
    "td",
    "bottom",
    "casing",
    "diameter",
    "diam",
    "dia",
    "width",
    "wide",
    "fondo",
    "fond",
    "profundidad",
    "profondeur",
    "ancho",
    "largeur",
];

/// Words by which a level has changed.
pub const MOVED: &[&str] = &[
    "dropped",
    "fell",
    "fallen",
    "lowered",
    "rose",
    "risen",
    "raised",
    "declined",
    "baisse",
    "descendu",
    "remonte",
    "bajo",
    "bajado",
    "descendio",
    "subio",
    "baixou",
    "desceu",
    "subiu",
    "down",
    "up",
    "abaisse",
];

/// Words that make a level one of a season, or of pumping.
pub const PASSING: &[&str] = &[
    "summer",
    "drought",
    "seasonal",
    "seasonally",
    "pumping",
    "pumped",
    "dry",
    "spring",
    "winter",
    "drops",
    "estiage",
    "ete",
    "verano",
    "sequia",
    "seca",
    "verao",
    "estio",
    "varies",
    "fluctuates",
    "drawdown",
    "recovers",
];

/// A pump that runs while the level is taken.
pub const RUNNING: &[&str] = &[
    "running",
    "pumping",
    "dropping",
    "recovering",
    "bombeando",
    "bombeo",
    "pompage",
    "bombeamento",
    "ligada",
    "prendida",
    "andando",
    "encendida",
    "marche",
];

/// Words for the water itself.
pub const WATER: &[&str] = &["water", "eau", "agua"];
