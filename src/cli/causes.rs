//! What `plan` says about the findings: what holds wells back, heaviest first, and where the rest is.

use crate::finding::Severity;
use crate::report::causes::{Cause, Causes};
use crate::report::fitted::shortened;
use crate::report::questions::what;

/// Causes named one by one.
const NAMED: usize = 3;
/// Letters of a cause.
const LETTERS: usize = 68;

/// A few lines without a line end.
pub(super) fn summary(causes: &Causes, file: &str) -> String {
    let ranked = causes.by_weight();
    let count = |severity: Severity| ranked.iter().filter(|cause| cause.severity() == severity).count();
    let where_else = format!("{file} and the sheet Findings say what to do");
    let to_check = match count(Severity::Warning) {
        0 => String::new(),
        1 => "1 thing to check".to_owned(),
        more => format!("{more} things to check"),
    };
    let holding: Vec<&&Cause> = ranked.iter().filter(|cause| cause.wells > 0).collect();
    if holding.is_empty() {
        return match to_check.as_str() {
            "" => "Nothing in the lists holds a well back.".to_owned(),
            to_check => format!("Nothing in the lists holds a well back; {to_check}: {where_else}."),
        };
    }
    let mut lines = vec!["Wells held back, by cause:".to_owned()];
    for cause in holding.iter().take(NAMED) {
        lines.push(format!("{:>7}  {}", cause.wells, shortened(&what(cause), LETTERS)));
    }
    let mut rest = match holding.len().saturating_sub(NAMED) {
        0 => Vec::new(),
        1 => vec!["1 more cause".to_owned()],
        more => vec![format!("{more} more causes")],
    };
    rest.extend((!to_check.is_empty()).then_some(to_check));
    if !rest.is_empty() {
        lines.push(format!("and {}.", rest.join(", ")));
    }
    lines.push(format!("{where_else}; the command check says what to answer first."));
    lines.join("\n")
}
