//! Bare numbers: a fast way for plain ones, a careful way for thousands separators, decimal commas and fractions.

/// What a lone comma followed by exactly three digits means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Comma {
    /// `1,234` is one thousand two hundred and thirty-four, with a note that says so; `12,5` is twelve and a half.
    #[default]
    ByForm,
    /// The list writes decimals with a comma: `1,234` is a little over one.
    Decimal,
}

/// Powers of ten that a double holds exactly.
const EXACT_POWERS: [f64; 23] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20,
    1e21, 1e22,
];

/// A number that [`plain`] reads, or reads with a point in the place of its first comma.
pub fn plain_or_comma(text: &str) -> Option<f64> {
    plain(text).or_else(|| text.contains(',').then(|| plain(&text.replacen(',', ".", 1))).flatten())
}

/// A number of digits and at most one point, with an optional sign: nothing else, and no blanks.
///
/// Up to 2^53 and 22 decimals the quotient of two exact doubles is correctly rounded (W. D. Clinger, *How to read
/// floating point numbers accurately*, 1990); longer ones go through the standard library.
pub fn plain(text: &str) -> Option<f64> {
    let bytes = text.as_bytes();
    let (negative, digits) = match bytes.first()? {
        b'-' => (true, &bytes[1..]),
        b'+' => (false, &bytes[1..]),
        _ => (false, bytes),
    };
    let mut mantissa: u64 = 0;
    let mut count = 0_usize;
    let mut decimals = None;
    for byte in digits {
        match byte {
            b'0'..=b'9' => {
                count += 1;
                if count > 18 {
                    return long(text);
                }
                mantissa = mantissa * 10 + u64::from(byte - b'0');
                if let Some(decimals) = &mut decimals {
                    *decimals += 1;
                }
            }
            b'.' if decimals.is_none() => decimals = Some(0_usize),
            _ => return None,
        }
    }
    if count == 0 {
        return None;
    }
    if mantissa > 1 << 53 {
        return long(text);
    }
    let value = mantissa as f64 / EXACT_POWERS[decimals.unwrap_or(0)];
    Some(if negative { -value } else { value })
}

/// A plain number with more digits than fit the fast way.
fn long(text: &str) -> Option<f64> {
    let plain = text.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'.' | b'-' | b'+'));
    if plain { text.parse().ok().filter(|value: &f64| value.is_finite()) } else { None }
}

/// A number found in the text: its value, where it ends, and what had to be decided.
pub(super) struct Found {
    pub(super) value: f64,
    pub(super) end: usize,
    pub(super) note: Option<&'static str>,
}

/// Reads the number that starts at `start`, with separators, exponent and fraction; the sign is the caller's.
pub(super) fn at(text: &str, start: usize, comma: Comma) -> Option<Found> {
    let whole = separated(text, start, comma)?;
    if let Some(fraction) = slash(text, start, whole.end) {
        return Some(fraction);
    }
    // `6 1/4`, `6-1/4`, and `6½` which the caller has spread to `6 1/2`.
    if matches!(byte(text, whole.end), b' ' | b'-') && is_digits(&text[start..whole.end]) {
        let from = whole.end + 1;
        let to = digits(text, from);
        if to > from
            && let Some(fraction) = slash(text, from, to)
            && fraction.value < 1.0
        {
            return Some(Found { value: whole.value + fraction.value, ..fraction });
        }
    }
    Some(whole)
}

/// The byte at a place; zero at the end.
fn byte(text: &str, at: usize) -> u8 {
    text.as_bytes().get(at).copied().unwrap_or(0)
}

/// Where the run of digits that starts at `from` ends.
fn digits(text: &str, from: usize) -> usize {
    from + text.as_bytes()[from.min(text.len())..].iter().take_while(|byte| byte.is_ascii_digit()).count()
}

fn is_digits(text: &str) -> bool {
    text.bytes().all(|byte| byte.is_ascii_digit())
}

/// `3/4`, when the numerator is `text[start..end]`.
fn slash(text: &str, start: usize, end: usize) -> Option<Found> {
    if byte(text, end) != b'/' || !is_digits(&text[start..end]) {
        return None;
    }
    let stop = digits(text, end + 1);
    if byte(text, stop) == b'/' {
        return None; // A date.
    }
    let numerator = plain(&text[start..end])?;
    let denominator = plain(&text[end + 1..stop])?;
    let sensible = (2.0..=64.0).contains(&denominator) && numerator < denominator;
    sensible.then_some(Found { value: numerator / denominator, end: stop, note: None })
}

/// A number with thousands separators, decimal mark and exponent.
fn separated(text: &str, start: usize, comma: Comma) -> Option<Found> {
    let bytes = text.as_bytes();
    let mut end = start;
    while let Some(c) = bytes.get(end) {
        let mark = matches!(c, b'.' | b',');
        if c.is_ascii_digit() || mark && byte(text, end + 1).is_ascii_digit() {
            end += 1;
        } else if *c == b'.'
            && end > start
            && bytes[end - 1].is_ascii_digit()
            && !bytes[start..end].contains(&b'.')
            && byte(text, end + 1) != b'.'
        {
            end += 1; // `12.` is twelve.
            break;
        } else {
            break;
        }
    }
    if end == start || end - start > 400 {
        return None;
    }
    let mut spaced = false;
    if end - start <= 3 && is_digits(&text[start..end]) {
        // `12 500`: groups of exactly three digits after blanks; not `6 125/1000`.
        while byte(text, end) == b' ' && digits(text, end + 1) == end + 4 && byte(text, end + 4) != b'/' {
            end += 4;
            spaced = true;
        }
        if spaced && matches!(byte(text, end), b'.' | b',') && digits(text, end + 1) > end + 1 {
            end = digits(text, end + 1);
        }
    }
    let stop = exponent(text, end);
    if stop.is_none()
        && let Some(value) = plain(&text[start..end])
    {
        return Some(Found { value, end, note: None });
    }
    let (mut canonical, mut note) = canonical(&text[start..end].replace(' ', ""), comma)?;
    if spaced {
        note = Some("blanks read as thousands separators");
    }
    if let Some(stop) = stop {
        canonical.push_str(&text[end..stop]);
        end = stop;
    }
    let value: f64 = canonical.parse().ok()?;
    value.is_finite().then_some(Found { value, end, note })
}

/// Where an exponent such as `e3`, `E+05` ends, if one stands at `from`.
fn exponent(text: &str, from: usize) -> Option<usize> {
    if !matches!(byte(text, from), b'e' | b'E') {
        return None;
    }
    let sign = usize::from(matches!(byte(text, from + 1), b'+' | b'-'));
    let stop = digits(text, from + 1 + sign);
    let some = stop > from + 1 + sign && stop <= from + 4 + sign;
    (some && !text[stop..].starts_with(char::is_alphanumeric)).then_some(stop)
}

/// Removes thousands separators and makes the decimal mark a point.
fn canonical(text: &str, comma: Comma) -> Option<(String, Option<&'static str>)> {
    let commas = text.matches(',').count();
    let points = text.matches('.').count();
    match (commas, points) {
        (0, 0 | 1) => Some((text.to_owned(), None)),
        (0, _) => grouped(text, '.').then(|| (text.replace('.', ""), Some("points read as thousands separators"))),
        (1, 0) => {
            let (before, after) = text.split_once(',')?;
            let thousands = comma == Comma::ByForm
                && after.len() == 3
                && (1..=3).contains(&before.len())
                && !before.starts_with('0');
            Some(if thousands {
                (text.replace(',', ""), Some("the comma read as a thousands separator"))
            } else {
                (text.replace(',', "."), Some("the comma read as the decimal mark"))
            })
        }
        (_, 0) => grouped(text, ',').then(|| (text.replace(',', ""), None)),
        _ => {
            let decimal = if text.rfind(',') > text.rfind('.') { ',' } else { '.' };
            let group = if decimal == ',' { '.' } else { ',' };
            let (before, after) = text.rsplit_once(decimal)?;
            let sound = grouped(before, group) && after.bytes().all(|byte| byte.is_ascii_digit());
            let note = (decimal == ',').then_some("the comma read as the decimal mark");
            sound.then(|| (format!("{}.{after}", before.replace(group, "")), note))
        }
    }
}

/// Whether every group after the first has three digits, and the first one to three.
fn grouped(text: &str, mark: char) -> bool {
    let mut groups = text.split(mark);
    let first = groups.next().unwrap_or_default();
    let all_digits = |group: &str| group.bytes().all(|byte| byte.is_ascii_digit());
    (1..=3).contains(&first.len()) && all_digits(first) && groups.all(|group| group.len() == 3 && all_digits(group))
}
