//! Numbers in English words, up to some hundreds: `twenty two feet`, `a hundred and ten`, `three and a half`.

/// The text with its numbers in words (`twenty two feet`) in figures; nothing where there are none.
pub(in crate::quantity::parse) fn in_figures(text: &str) -> Option<String> {
    let mut parts: Vec<&str> = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let letter = first.is_alphabetic();
        let end = rest.find(|c: char| c.is_alphabetic() != letter).unwrap_or(rest.len());
        parts.push(&rest[..end]);
        rest = &rest[end..];
    }
    if !parts.iter().any(|part| small(part).is_some() || *part == "hundred") {
        return None;
    }
    let mut figures = String::with_capacity(text.len());
    let mut at = 0;
    while at < parts.len() {
        let begins = small(parts[at]).is_some()
            || parts[at] == "hundred"
            || parts[at] == "a" && parts.get(at + 2) == Some(&"hundred");
        if !begins {
            figures.push_str(parts[at]);
            at += 1;
            continue;
        }
        let (value, next) = number_of(&parts, at);
        figures.push_str(&value);
        at = next;
    }
    Some(figures)
}

/// The number that begins at a part, and the first part after it.
fn number_of(parts: &[&str], from: usize) -> (String, usize) {
    let joins = |at: usize| matches!(parts.get(at), Some(&(" " | "-")));
    let (mut total, mut at) = match parts[from] {
        "hundred" => (100, from + 1),
        "a" => (100, from + 3),
        word => (small(word).unwrap_or(0), from + 1),
    };
    if total < 10 && joins(at) && parts.get(at + 1) == Some(&"hundred") {
        total *= 100;
        at += 2;
    }
    if total >= 100 {
        let and = joins(at) && parts.get(at + 1) == Some(&"and") && joins(at + 2);
        // The sign stands among the blanks.
        let sign = parts.get(at) == Some(&" & ");
        let next = at + if and { 3 } else { 1 };
        if (joins(at) || sign)
            && let Some(more) = parts.get(next).and_then(|word| small(word))
        {
            total += more;
            at = next + 1;
        }
    }
    if total >= 20
        && total % 10 == 0
        && total % 100 != 0
        && joins(at)
        && let Some(ones @ 1..10) = parts.get(at + 1).and_then(|word| small(word))
    {
        total += ones;
        at += 2;
    }
    for (words, fraction) in [("half", ".5"), ("quarter", ".25")] {
        let article = matches!(parts.get(at + 3), Some(&("a" | "one")));
        if joins(at) && parts.get(at + 1) == Some(&"and") && article && parts.get(at + 5) == Some(&words) {
            return (format!("{total}{fraction}"), at + 6);
        }
    }
    (total.to_string(), at)
}

/// The value of a number word below a hundred.
fn small(word: &str) -> Option<u32> {
    const WORDS: [&str; 20] = [
        "zero",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
    ];
    const TENS: [&str; 8] = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
    let ones = WORDS.iter().position(|known| *known == word).map(|at| at as u32);
    ones.or_else(|| TENS.iter().position(|known| *known == word).map(|at| (at as u32 + 2) * 10))
        .or_else(|| (word == "fourty").then_some(40))
}
