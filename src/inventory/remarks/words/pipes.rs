//! The words of a pipe or of rings that stand in a well. Other languages from memory.

/// Words of casing a well, which say alone that the pipe stands in it.
pub static CASED: [&str; 20] = [
    "cased",
    "casing",
    "entubado",
    "entubada",
    "entubo",
    "entubaron",
    "ademado",
    "ademada",
    "ademaron",
    "tube",
    "tubee",
    "tubage",
    "cuvele",
    "cuvelee",
    "revestido",
    "revestida",
    "revestiu",
    "encamisado",
    "encamisada",
    "camisa",
];

/// What a well may be lined with.
pub static RINGS: [&str; 26] = [
    "pvc", "plastic", "ring", "rings", "tile", "tiles", "crock", "crocks", "culvert", "pipe", "tube", "buse", "buses",
    "anneau", "anneaux", "tuyau", "anillo", "anillos", "tubo", "tubos", "tuberia", "manilha", "manilhas", "anel",
    "aneis", "cuvelage",
];

/// The words that such a pipe is told by.
pub static PIPES: [&[&str]; 2] = [&CASED, &RINGS];
