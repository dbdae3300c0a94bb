//! Codes with their meanings out of one line of words.
//!
//! `D = drilled`; `999 or blank = not known`; `Meth.: AR air rotary, CT cable tool`; `1 - hand dug, 2 - drilled`.

/// What a line of a list of codes says.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Line {
    /// The words before the first code, which name a column: `Meth.`
    pub title: String,
    /// Codes and meanings, as written.
    pub codes: Vec<(String, String)>,
    /// Whether every code is marked off from its meaning by a sign; else only a blank stands between them.
    pub marked: bool,
}

/// The longest code, in letters.
const LONGEST: usize = 8;

/// Whether this could be a code: short, without a blank, with a letter or a digit in it.
pub fn is_code(text: &str) -> bool {
    let letters = text.chars().count();
    (1..=LONGEST).contains(&letters)
        && !text.contains(char::is_whitespace)
        && (text == "?" || text.chars().any(char::is_alphanumeric))
        && (is_abbreviation(text)
            || text
                .chars()
                .all(|letter| letter.is_alphanumeric() || matches!(letter, '.' | '-' | '+' | '?' | '*' | '#')))
}

/// `s/d`, `n/a`: one letter on each side.
fn is_abbreviation(text: &str) -> bool {
    text.split_once('/').is_some_and(|(left, right)| {
        let letter = |side: &str| side.chars().count() == 1 && side.chars().all(char::is_alphabetic);
        letter(left) && letter(right)
    })
}

/// What may stand between a code and its meaning: signs that mark it off for certain, and signs that also do other work.
const SURE: [&str; 1] = ["="];
const LIKELY: [&str; 4] = ["=", " - ", " – ", ":"];

/// The pieces of a text between commas, semicolons and line breaks, but not within brackets.
fn pieces(text: &str) -> Vec<&str> {
    // `PT : puits traditionnel. FE : forage équipé.`: a sentence for each.
    let sentences: Vec<&str> = text.split(". ").map(|sentence| sentence.trim_end_matches('.')).collect();
    if sentences.len() > 1 && sentences.iter().all(|sentence| sentence.contains(" : ")) {
        return sentences;
    }
    let mut depth = 0_i32;
    let mut from = 0;
    let mut found = Vec::new();
    for (at, letter) in text.char_indices() {
        match letter {
            '(' | '[' => depth += 1,
            ')' | ']' => depth -= 1,
            ',' | ';' | '\n' | '|' if depth <= 0 => {
                found.push(&text[from..at]);
                from = at + letter.len_utf8();
            }
            _ => {}
        }
    }
    found.push(&text[from..]);
    let found: Vec<&str> = found.into_iter().flat_map(at_sentences).collect();
    found.into_iter().flat_map(at_signs).map(str::trim).filter(|piece| !piece.is_empty()).collect()
}

/// `hand dug.  SP = spear`: cut where a sentence begins with a code and its sign.
fn at_sentences(piece: &str) -> Vec<&str> {
    let mut cuts = vec![0];
    for (at, _) in piece.match_indices(". ") {
        let start = piece.len() - piece[at + 1..].trim_start().len();
        if piece[start..].split_once('=').is_some_and(|(code, _)| codes_of(code).is_some()) {
            cuts.push(start);
        }
    }
    cuts.push(piece.len());
    cuts.windows(2).map(|cut| &piece[cut[0]..cut[1]]).collect()
}

/// `1=drilled 2=dug`: cut before each code whose sign follows at once or after a blank.
fn at_signs(piece: &str) -> Vec<&str> {
    let mut cuts = vec![0];
    for (sign, _) in piece.match_indices('=').skip(1) {
        let code = piece[..sign].trim_end();
        cuts.extend(code.rfind(char::is_whitespace).filter(|at| cuts.last().is_some_and(|last| at > last)));
    }
    cuts.push(piece.len());
    cuts.windows(2).map(|cut| &piece[cut[0]..cut[1]]).collect()
}

/// `-9 in any measurement` without where it stands: the code.
fn without_where(left: &str) -> &str {
    const WHERE: [&str; 8] =
        [" in any ", " in all ", " in a ", " in measure", " in number", " en cualquier", " dans tou", " em qualquer"];
    let at = WHERE.iter().find_map(|words| left.to_ascii_lowercase().find(words));
    at.and_then(|at| left.get(..at)).unwrap_or(left).trim_end()
}

/// The codes on the left of a sign: `999 or blank`, `1/2`.
fn codes_of(left: &str) -> Option<Vec<&str>> {
    let whole = without_where(left.trim()).trim_matches(['"', '\'', '“', '”', '‘', '’']);
    if is_code(whole) {
        return Some(vec![whole]);
    }
    let parts: Vec<&str> = whole.split([' ', '/']).filter(|part| !part.is_empty()).collect();
    let joined = parts.iter().any(|part| matches!(*part, "anywhere" | "or" | "and" | "ou" | "o" | "y" | "e" | "&"))
        || whole.contains('/');
    // One capital letter is a code: `E or blank`.
    let joins = |part: &str| {
        matches!(part, "o" | "y" | "e" | "&")
            || matches!(part.to_lowercase().as_str(), "or" | "and" | "ou" | "empty" | "anywhere")
    };
    let codes: Vec<&str> = parts.into_iter().filter(|part| !joins(part)).collect();
    (joined && !codes.is_empty() && codes.iter().all(|code| is_code(code))).then_some(codes)
}

/// A piece as codes, sign and meaning.
fn marked<'a>(piece: &'a str, signs: &[&str]) -> Option<(Vec<&'a str>, &'a str)> {
    signs.iter().find_map(|sign| {
        let (left, right) = piece.split_once(sign)?;
        let right = right.trim_start_matches(['=', '>']).trim();
        let codes = codes_of(left)?;
        // `SWL = 45 ft`, `07:30`: a value, not a meaning.
        right.starts_with(|letter: char| letter.is_alphabetic() || letter == '(').then_some((codes, right))
    })
}

/// A piece as a short code, a blank and a meaning.
fn spaced(piece: &str) -> Option<(&str, &str)> {
    let (code, meaning) = piece.split_once(char::is_whitespace)?;
    let short = code.chars().count() <= 4 && is_code(code);
    short.then_some((code, meaning.trim())).filter(|(_, meaning)| meaning.starts_with(char::is_alphabetic))
}

/// The lists of codes of one cell, each behind the name of its column: `METH: AR air rotary  CT cable     STAT: A active`.
pub fn lists(text: &str) -> Vec<&str> {
    const APART: &str = "  ";
    let text = text.strip_prefix("# ").filter(|rest| !rest.starts_with('=')).unwrap_or(text);
    let mut cuts = vec![0];
    for (at, _) in text.match_indices(APART) {
        let behind = text[at..].trim_start();
        let start = text.len() - behind.len();
        let name = behind.split([':', ' ']).next().unwrap_or_default();
        let is_name = !name.is_empty() && behind[name.len()..].starts_with(": ");
        // `WL_ALT and LSD_ALT in feet` is said of something else.
        let is_other = behind.split_whitespace().next().is_some_and(|word| word.contains('_')) && !is_name;
        if (is_name || is_other) && cuts.last() != Some(&start) {
            cuts.push(start);
        }
    }
    // `Depth from the ground. Level: G = from the ground, R = from the rim.`: the sentence that begins with the name of a column.
    for (at, _) in text.match_indices(". ") {
        let behind = text[at + 1..].trim_start();
        let start = text.len() - behind.len();
        let first = |(_, rest): (&str, &str)| pieces(rest).first().is_some_and(|piece| marked(piece, &SURE).is_some());
        if titled(behind).is_some_and(first) && !cuts.contains(&start) {
            cuts.push(start);
        }
    }
    cuts.sort_unstable();
    cuts.push(text.len());
    let parts = cuts.windows(2).map(|cut| text[cut[0]..cut[1]].trim());
    let parts: Vec<&str> = parts.filter(|part| !part.is_empty()).collect();
    if parts.len() > 1 || text.matches(": ").count() == 1 { parts } else { vec![text] }
}

/// Reads one line; nothing where it holds no code.
pub fn line(text: &str) -> Option<Line> {
    let text = text.trim();
    if text.is_empty() || text.len() > 2000 {
        return None;
    }
    with_signs(text, &SURE, true)
        .or_else(|| spread_out(text))
        .or_else(|| titled(text).and_then(|(title, rest)| spaced_out(title, rest)))
        .or_else(|| spaced_out("", text))
        .or_else(|| with_signs(text, &LIKELY, false))
}

/// As many codes in one cell as meanings in the one beside it: `S/F/P` and `Static / Flowing / Pumping`.
pub fn side_by_side(codes: &str, meanings: &str) -> Option<Line> {
    ['/', ';', ',', '|'].into_iter().find_map(|mark| {
        let parts = |text: &str| -> Vec<String> { text.split(mark).map(|part| part.trim().to_owned()).collect() };
        let (codes, meanings) = (parts(codes), parts(meanings));
        let sound = codes.len() > 1
            && codes.len() == meanings.len()
            && codes.iter().all(|code| is_code(code))
            && meanings.iter().all(|meaning| meaning.starts_with(char::is_alphabetic));
        sound.then(|| Line { codes: codes.into_iter().zip(meanings).collect(), marked: true, ..Line::default() })
    })
}

/// What a note says of the codes of one column, which it names before them: `U = how the card is made out: I feet, casing
/// inches. M metres`, `Level from M.P.: G ground, T top of casing`.
///
/// `is_used` tells whether a code stands in the column. A code begins a clause, and goes on to the next one.
pub fn told_of(heading: &str, text: &str, is_used: impl Fn(&str) -> bool) -> Option<Line> {
    const NEAR: usize = 60;
    let bounded = |at: usize| !text[..at].ends_with(char::is_alphanumeric);
    // `WELL: 1 drilled, 2 dug` tells of the column `Well`, wherever else its name stands.
    let capitals = format!("{}:", heading.to_uppercase());
    let called = text.match_indices(&capitals).chain(text.match_indices(heading)).map(|(at, _)| at);
    called.filter(|at| bounded(*at) && text.is_char_boundary(at + heading.len())).find_map(|at| {
        let rest = &text[at + heading.len()..];
        let mut found = Line { marked: true, ..Line::default() };
        let mut from = None;
        let mut begins = false;
        for (start, word) in words_of(rest) {
            let code = word.trim_matches(['.', ',', ';', ':', '(', ')', '=', '"', '\'']);
            let written = code.chars().any(|letter| letter.is_ascii_digit()) || !code.chars().any(char::is_lowercase);
            // `CONST. B BORED  D DRILLED`: codes stand apart, the first right behind the name.
            let apart = rest[..start].ends_with("  ") || rest[..start].trim().is_empty();
            // `Qual P pumping, R recently pumped`: a letter that nobody needed goes on with one that somebody did.
            let goes_on = from.is_some() && code.chars().count() == 1 && !word.ends_with('.');
            let is_next = (begins || apart) && written && is_code(code) && (is_used(code) || goes_on);
            // A new sentence that begins with no code is about something else.
            let ends = begins && rest[..start].trim_end().ends_with('.') && !is_next;
            if (is_next || ends)
                && let Some((code, from)) = from.take()
            {
                add_meaning(&mut found, code, &rest[from..start]);
            }
            if ends || found.codes.is_empty() && from.is_none() && !is_next && start > NEAR {
                break;
            }
            if is_next {
                from = Some((code, start + word.find(code).unwrap_or(0) + code.len()));
            }
            begins = word.ends_with([',', ';', ':', '.', '=', '(', ')', '-', '–']) && !(is_next && word.ends_with('='));
        }
        if let Some((code, from)) = from {
            add_meaning(&mut found, code, &rest[from..]);
        }
        (found.codes.len() > 1).then_some(found)
    })
}

/// The words of a text, each with where it begins.
fn words_of(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let mut at = 0;
    let parts = text.split_inclusive(char::is_whitespace).map(move |part| {
        let start = at;
        at += part.len();
        (start, part.trim_end())
    });
    parts.filter(|(_, word)| !word.is_empty())
}

fn add_meaning(line: &mut Line, code: &str, meaning: &str) {
    let joined = |c: char| c.is_whitespace() || matches!(c, ',' | ';' | '.' | '=' | ':' | '-' | '–' | '(' | ')');
    let meaning = meaning.trim_matches(joined);
    let meaning = meaning.split("  ").next().unwrap_or(meaning);
    if meaning.starts_with(char::is_alphabetic) && line.codes.iter().all(|(known, _)| known != code) {
        line.codes.push((code.to_owned(), meaning.to_owned()));
    }
}

/// The codes that are marked off for certain among other words: `static, below ground; 888 = flowing; 999 = not reported`.
pub fn among_words(text: &str) -> Option<Line> {
    let mut found = Line { marked: true, ..Line::default() };
    for piece in pieces(text) {
        // `negative = above` is a rule, not a code.
        let is_word =
            |codes: &[&str]| codes.iter().any(|code| code.len() > 4 && !code.contains(|c: char| c.is_ascii_digit()));
        let read = marked(piece, &SURE).or_else(|| behind_words(piece)).filter(|(codes, _)| !is_word(codes));
        let codes = read.into_iter().flat_map(|(codes, meaning)| codes.into_iter().map(move |code| (code, meaning)));
        found.codes.extend(codes.map(|(code, meaning)| (code.to_owned(), meaning.to_owned())));
    }
    (!found.codes.is_empty()).then_some(found)
}

/// `pump off. -77 = flowing`: a number that is a code, behind other words.
fn behind_words(piece: &str) -> Option<(Vec<&str>, &str)> {
    let (left, right) = piece.split_once('=')?;
    let code = left.trim().rsplit(char::is_whitespace).next()?;
    let number = code.trim_start_matches('-');
    let is_number = !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit());
    let right = right.trim();
    (is_number && right.starts_with(char::is_alphabetic)).then_some((vec![code], right))
}

/// `Type: DR = drilled`: short words before the first colon.
fn titled(text: &str) -> Option<(&str, &str)> {
    let (title, rest) = text.split_once(':')?;
    let short = (1..=5).contains(&title.split_whitespace().count()) && title.chars().count() <= 40;
    (short && !rest.trim().is_empty()).then_some((title.trim(), rest.trim()))
}

fn with_signs(text: &str, signs: &[&str], sure: bool) -> Option<Line> {
    let mut found = Line { marked: sure, ..Line::default() };
    let mut text = text;
    // A title is taken off where a sign follows it: else `D: drilled` would have a title and no code.
    if let Some((title, rest)) = titled(text)
        && pieces(rest).first().is_some_and(|piece| marked(piece, signs).is_some())
    {
        title.clone_into(&mut found.title);
        text = rest;
    }
    for piece in pieces(text) {
        match (marked(piece, signs), found.codes.last_mut()) {
            (Some((codes, meaning)), _) => {
                let meaning = first_sentence(meaning);
                found.codes.extend(codes.into_iter().map(|code| (code.to_owned(), meaning.to_owned())));
            }
            // `L = lawn, field or woods`: the meaning goes on.
            (None, Some((_, meaning))) => {
                meaning.push_str(", ");
                meaning.push_str(piece);
            }
            // Words or codes of another form stand before the first sign: the other forms are tried.
            (None, None) => return None,
        }
    }
    (!found.codes.is_empty()).then_some(found)
}

/// A meaning without the sentences behind it, which speak of something else: `from the rim. Inside diameter.`
fn first_sentence(meaning: &str) -> &str {
    let ends = |at: &usize| {
        let word = meaning[..*at].rsplit(char::is_whitespace).next().unwrap_or_default();
        word.chars().count() > 3 && meaning[at + 2..].starts_with(char::is_uppercase)
    };
    meaning.match_indices(". ").map(|(at, _)| at).find(ends).map_or(meaning, |at| &meaning[..at])
}

/// Codes apart by wide spaces, behind the name of their column: `KIND    10 drilled   20 bored   30 dug`.
fn spread_out(text: &str) -> Option<Line> {
    let mut parts = text.split("  ").map(str::trim).filter(|part| !part.is_empty()).peekable();
    let title = *parts.peek()?;
    let mut found = Line::default();
    // `METH: AR air rotary  MR mud rotary`: the name stands before the first code.
    if let Some((name, first)) = titled(title)
        && let Some((code, meaning)) = spaced(first)
        && text.matches(": ").count() == 1
    {
        name.clone_into(&mut found.title);
        found.codes.push((code.to_owned(), meaning.to_owned()));
        parts.next();
        return parts
            .all(|part| {
                let code = spaced(part).map(|(code, meaning)| (code.to_owned(), meaning.to_owned()));
                let is_code = code.is_some();
                found.codes.extend(code);
                is_code
            })
            .then_some(found)
            .filter(|found| found.codes.len() > 1);
    }
    // `D drilled   DG dug`: no name stands before the codes.
    let is_code = spaced(title).is_some_and(|(code, _)| code.chars().all(|c| c.is_uppercase() || c.is_ascii_digit()));
    if !is_code {
        parts.next();
        if title.split_whitespace().count() > 2 {
            return None;
        }
        title.trim_end_matches(':').clone_into(&mut found.title);
    }
    for part in parts {
        if let Some((codes, meaning)) = marked(part, &SURE) {
            let codes = codes.into_iter();
            found.codes.extend(codes.map(|code| (code.to_owned(), meaning.to_owned())));
            continue;
        }
        let Some((code, meaning)) = spaced(part) else {
            // What follows marked codes is said of something else: `YIELD always gal/min`.
            if found.codes.len() > 1 && text.contains('=') {
                break;
            }
            return None;
        };
        found.codes.push((code.to_owned(), meaning.to_owned()));
    }
    (found.codes.len() > 1).then_some(found)
}

/// Two codes or more with only a blank before their meanings; some may have a sign all the same.
fn spaced_out(title: &str, text: &str) -> Option<Line> {
    let mut found = Line { title: title.to_owned(), ..Line::default() };
    for piece in pieces(text) {
        if let Some((codes, meaning)) = marked(piece, &SURE) {
            found.codes.extend(codes.into_iter().map(|code| (code.to_owned(), meaning.to_owned())));
        } else if let Some((code, meaning)) = spaced(piece) {
            found.codes.push((code.to_owned(), meaning.to_owned()));
        } else if let Some((_, meaning)) = found.codes.last_mut() {
            meaning.push_str(", ");
            meaning.push_str(piece);
        } else {
            return None;
        }
    }
    (found.codes.len() > 1).then_some(found)
}
