//! How days are told by their letters alone, each as strictly as what rests on it asks for.

/// A day, however it is written: `2024-05-01`, `5/1/24`.
pub(super) fn is_day(text: &str) -> bool {
    let parts: Vec<&str> = text.split(['/', '-', '.']).collect();
    parts.len() == 3
        && parts.iter().all(|part| (1..=4).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit()))
}

/// A day, or a day and a time: figures and separators only, in a column of which many cells are seen.
pub(super) fn is_day_or_moment(text: &str) -> bool {
    let half = |part: &&str| !["am", "pm"].iter().any(|half| part.eq_ignore_ascii_case(half));
    let parts = text.split(['/', '-', '.', ' ', ':', 'T']).filter(|part| !part.is_empty());
    // `5/11/2025 10:25 AM`
    let parts: Vec<&str> = parts.filter(half).collect();
    let numbers = parts.iter().filter(|part| part.len() <= 4 && part.bytes().all(|byte| byte.is_ascii_digit())).count();
    let slashes = text.matches('/').count() == 2 || text.matches('-').count() == 2 || text.matches('.').count() == 2;
    slashes && numbers >= 3 && parts.iter().all(|part| part.bytes().next().is_some_and(|byte| byte.is_ascii_digit()))
}

/// What may be a day where a number is wanted: `6-Aug`, `6/8/2024`, `6 May 24`.
pub(super) fn looks_like_date(text: &str) -> bool {
    let parts: Vec<&str> = text.split(['/', '-', '.', ' ']).filter(|part| !part.is_empty()).collect();
    const MONTHS: [&str; 12] = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
    let number = |part: &str| (1..=4).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit());
    let month = |part: &str| {
        let lower = part.to_lowercase();
        lower.is_char_boundary(3) && lower.len() >= 3 && lower.len() <= 9 && MONTHS.contains(&&lower[..3])
    };
    match parts.as_slice() {
        [a, b] => number(a) && month(b) || month(a) && number(b),
        [a, b, c] => {
            number(a)
                && (number(b) || month(b))
                && number(c)
                && (text.contains('/') || text.contains('-') || month(b) || text.contains('.'))
        }
        _ => false,
    }
}
