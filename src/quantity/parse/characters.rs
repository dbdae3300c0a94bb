//! A written text with one character for each quote, dash, blank and fraction there is.

use std::borrow::Cow;

/// The text in such characters and in small letters, where no place in what was written need be shown.
pub(super) fn small_letters(written: &str) -> String {
    normalise(written).0.to_lowercase()
}

/// The text with one character for each quote, dash, blank and fraction there is.
pub(super) struct Characters<'a> {
    pub(super) text: Cow<'a, str>,
    /// The same in lower case as far as ASCII goes, so byte for byte in step with `text`.
    pub(super) lower: String,
    /// For each byte, which character of the written text it came from; empty where they are the same.
    origins: Vec<usize>,
}

impl<'a> Characters<'a> {
    pub(super) fn new(written: &'a str) -> Self {
        let bytes = written.as_bytes();
        let as_it_stands = bytes.iter().all(|byte| byte.is_ascii_graphic() && *byte != b'`' || *byte == b' ')
            && !bytes.windows(2).any(|pair| matches!(pair, b"  " | b"''"))
            && mark_before_part(written).is_none()
            && points_to_leave_out(written).is_empty();
        let mut characters = Self { text: Cow::Borrowed(written), lower: String::new(), origins: Vec::new() };
        if !as_it_stands {
            let (text, origins) = normalise(written);
            characters.text = Cow::Owned(text);
            characters.origins = origins;
        }
        characters.lower = characters.text.to_ascii_lowercase();
        characters
    }

    /// The byte at a place; zero at the end.
    pub(super) fn byte(&self, at: usize) -> u8 {
        self.lower.as_bytes().get(at).copied().unwrap_or(0)
    }

    /// The character of the written text that stands at a place, from 1.
    pub(super) fn position(&self, at: usize) -> usize {
        if self.origins.is_empty() { at + 1 } else { self.origins.get(at).map_or(1, |origin| origin + 1) }
    }
}

/// Where the points stand in the short words for what a depth is counted from: `68 T.C.` is one counted from the top of the
/// casing, not tons. From the last one on.
fn points_to_leave_out(text: &str) -> Vec<usize> {
    const DOTTED: [&str; 6] = ["t.c.", "t.o.c.", "b.t.o.c.", "b.g.l.", "b.g.s.", "b.l.s."];
    if text.bytes().filter(|byte| *byte == b'.').count() < 2 {
        return Vec::new();
    }
    let lower = text.to_ascii_lowercase();
    let mut points = Vec::new();
    for short in DOTTED {
        for (at, _) in lower.match_indices(short) {
            if !lower[..at].ends_with(|c: char| c.is_alphabetic() || c == '.') {
                points.extend((at..at + short.len()).filter(|at| lower.as_bytes()[*at] == b'.'));
            }
        }
    }
    points.reverse();
    points
}

/// The text and, for each byte of it, which written character it came from.
fn normalise(written: &str) -> (String, Vec<usize>) {
    let mut text = String::with_capacity(written.len());
    let mut origins = Vec::with_capacity(written.len());
    for (at, c) in written.chars().enumerate() {
        let plain = match c {
            '\u{2019}' | '\u{2018}' | '\u{2032}' | '\u{02b9}' | '\u{00b4}' | '`' => '\'',
            '\u{201d}' | '\u{201c}' | '\u{2033}' | '\u{02ba}' | '\u{201e}' => '"',
            '\u{2212}' | '\u{2013}' | '\u{2014}' | '\u{2010}' | '\u{2011}' => '-',
            '\u{00b5}' | '\u{03bc}' => '\u{00b5}',
            '\u{ff0e}' => '.',
            '\u{ff0c}' => ',',
            '\u{ff10}'..='\u{ff19}' => char::from(b'0' + (c as u32 - 0xff10) as u8),
            c if c.is_whitespace() => ' ',
            c => c,
        };
        if let Some(fraction) = vulgar(c) {
            if !text.is_empty() && !text.ends_with(' ') {
                text.push(' ');
            }
            text.push_str(fraction);
        } else if plain == '\'' && text.ends_with('\'') {
            text.pop();
            origins.pop();
            text.push('"'); // Two apostrophes are an inch mark.
        } else if plain != ' ' || !text.is_empty() && !text.ends_with(' ') {
            text.push(plain);
        }
        origins.resize(text.len(), at);
    }
    for at in points_to_leave_out(&text) {
        text.remove(at);
        origins.remove(at);
    }
    if let Some((mark, end)) = mark_before_part(&text) {
        text.replace_range(mark..=mark, " ");
        text.insert(end, '"');
        origins.insert(end, origins[mark]);
    }
    (text, origins)
}

/// `4"1/2` for four inches and a half: where the mark stands, and where the part of an inch behind it ends.
fn mark_before_part(text: &str) -> Option<(usize, usize)> {
    text.match_indices('"').find_map(|(mark, _)| {
        let digits = |from: usize| text[from..].bytes().take_while(u8::is_ascii_digit).count();
        let top = digits(mark + 1);
        let slash = mark + 1 + top;
        let whole = text[..mark].ends_with(|c: char| c.is_ascii_digit());
        if !whole || top == 0 || !text[slash..].starts_with('/') {
            return None;
        }
        let end = slash + 1 + digits(slash + 1);
        let ruler = ["2", "4", "8", "16", "32"].contains(&&text[slash + 1..end]);
        (ruler && !text[end..].starts_with(['"', '/', '.'])).then_some((mark, end))
    })
}

const fn vulgar(c: char) -> Option<&'static str> {
    Some(match c {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        _ => return None,
    })
}
