//! The many ways to write that nothing is known.

use crate::field::Field;
use crate::quantity::unit::Dimension;

/// Texts that mean "not known", in lower case.
pub(super) const MISSING: &[&str] = &[
    "na",
    "n/a",
    "n.a.",
    "n.a",
    "#n/a",
    "nan",
    "none",
    "null",
    "nil",
    "nn",
    "nd",
    "n.d.",
    "n/d",
    "nr",
    "n/r",
    "unk",
    "unkn",
    "unknown",
    "unkown",
    "u/k",
    "not known",
    "not available",
    "not recorded",
    "not measured",
    "not reported",
    "not given",
    "no data",
    "no record",
    "missing",
    "blank",
    "tbd",
    "tbc",
    "confidential",
    "see attached map",
    "no #",
    "-",
    "--",
    "---",
    "–",
    "—",
    "_",
    "__",
    "?",
    "??",
    "???",
    ".",
    "..",
    "...",
    "x",
    "xx",
    "xxx",
    "xxxx",
    "*",
    "**",
    "***",
    "****",
    "*****",
    "******",
    "*******",
    "00000000",
    "0000-00-00",
    "1867-07-01",
    "\\n",
    "(null)",
    "(blank)",
    "(none)",
    "(unknown)",
    "<null>",
    "<none>",
    "<blank>",
    "<unknown>",
    "[null]",
    "[blank]",
    "<na>",
    "not applicable",
    "not entered",
    "not specified",
    "not stated",
    "unspecified",
    "undefined",
    "pending",
    "don't know",
    "dont know",
    "do not know",
    "?unknown",
    "not sure",
];

/// Error values of spreadsheets, as they come out in text files.
pub(super) const ERRORS: &[&str] =
    &["#N/A", "#REF!", "#DIV/0!", "#VALUE!", "#NAME?", "#NULL!", "#NUM!", "#SPILL!", "#CALC!"];

/// Numbers that stand for "not known" wherever they appear (a longitude of -99 is real, and is asked for elsewhere).
pub(super) fn is_sentinel(value: f64, field: Field) -> bool {
    let magnitude = value.abs();
    if magnitude < 99.0 {
        return false;
    }
    let nines = [99.0, 999.0, 999.9, 9999.0, 99_999.0, 999_999.0, 9_999_999.0].contains(&magnitude);
    nines
        && (value < 0.0 && !(value == -99.0 && field == Field::Longitude)
            || magnitude >= 9999.0 && field != Field::UsersServed)
        || is_code(magnitude) && field.quantity().is_some_and(|quantity| quantity.dimension == Dimension::Length)
}

/// Nothing but nines, three or more: codes of old card files and instruments, which no size of a well happens to be.
fn is_code(magnitude: f64) -> bool {
    [99.9, 99.99, 99.999, 999.0, 999.9, 999.99, 9999.0, 9999.9, 9999.99].contains(&magnitude)
}
