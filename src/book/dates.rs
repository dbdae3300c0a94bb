//! Days as people type them.

use chrono::NaiveDate;

/// The day that is meant; what may be two days is asked.
///
/// # Errors
/// What would be right.
pub(super) fn day(typed: &str) -> Result<String, String> {
    let typed = typed.trim();
    let date = typed.split(['T', ' ']).next().unwrap_or_default();
    if let Ok(day) = date.parse::<NaiveDate>() {
        return Ok(day.to_string());
    }
    const WORDS: [&str; 8] =
        ["%d %B %Y", "%d %b %Y", "%B %d, %Y", "%b %d, %Y", "%B %d %Y", "%b %d %Y", "%d-%b-%Y", "%Y/%m/%d"];
    if let Some(day) = WORDS.iter().find_map(|form| NaiveDate::parse_from_str(typed, form).ok()) {
        return Ok(day.to_string());
    }
    if let Ok(day) = NaiveDate::parse_from_str(typed, "%d.%m.%Y") {
        return Ok(day.to_string());
    }
    let month_first = NaiveDate::parse_from_str(typed, "%m/%d/%Y").ok();
    let day_first = NaiveDate::parse_from_str(typed, "%d/%m/%Y").ok();
    match (month_first, day_first) {
        (Some(one), Some(other)) if one != other => {
            Err(format!("{typed:?} may be {one} or {other}: write the one you mean so"))
        }
        (Some(day), _) | (None, Some(day)) => Ok(day.to_string()),
        (None, None) => Err(format!("{typed:?} is no day; write it like 2026-05-31")),
    }
}
