//! How much of a page a card takes: its words are broken into lines as a browser breaks them, from the widths of the letters.
//!
//! An estimate on the safe side; `tests/printed/cards.py` holds it to what is printed. Sizes are those of `cards.css`.

use crate::document::card::{Card, CardLabels, Part, Room, Sentence};

/// Millimeters of a point.
const POINT: f64 = 25.4 / 72.0;
/// Width of a card between its borders, in millimeters.
const CARD: f64 = 197.2;
/// Bold letters are so much wider; figures and signs are not.
const BOLD: f64 = 1.09;
/// Figures of the headline are so much larger than its words.
const HEADLINE: f64 = 1.12;
/// What a browser's rounding and its spaces between runs of letters add to a line; to one of many short runs so many millimeters.
const SLACK: f64 = 1.003;
const RUNS: f64 = 1.5;

/// How a card is set.
#[derive(Debug, Clone, Copy)]
pub(super) struct Set {
    /// Class of the style sheet that sets a card so.
    pub(super) class: &'static str,
    /// Size of the type, in points.
    size: f64,
    /// Distance between lines, in sizes of the type.
    leading: f64,
    /// Size of name and amount, in points.
    head: f64,
    /// Size of the kind of well, in points.
    kind: f64,
    /// Columns of the steps.
    columns: usize,
    /// Distance between columns, in millimeters.
    gap: f64,
    /// Indent of a step, and the space below each.
    indent: f64,
    below_step: f64,
    /// Padding left and right, and above and below.
    padding: (f64, f64),
    /// Space below a paragraph.
    below: f64,
    /// Boxes in a row, and their height.
    boxes: (usize, f64),
    /// Rooms for a reading, for a moment, for words.
    rooms: [f64; 3],
    /// How much larger figures are.
    figure: f64,
    /// How high what stands on a page may be, in millimeters: a card, or two together.
    pub(super) most: f64,
}

/// Two on a page: the height of Letter, the shorter one of the two papers, less its margins and what stands between the cards.
/// The boxes first as high as a hand likes them outdoors, then as high as it needs them.
pub(super) const HALF: [Set; 2] = [half("half", 10.0), half("half tight", 9.4)];

const fn half(class: &'static str, height: f64) -> Set {
    Set {
        class,
        size: 9.0,
        leading: 1.05,
        head: 15.0,
        kind: 10.0,
        columns: 2,
        gap: 2.5,
        indent: 4.8,
        below_step: 0.1,
        padding: (1.6, 0.6),
        below: 0.3,
        boxes: (6, height),
        rooms: [11.0, 18.0, 40.0],
        figure: 1.05,
        most: 269.2,
    }
}

/// A page, in the largest type first.
pub(super) const PAGE: [Set; 5] = [
    full("large", 12.0, 1.2, (0.8, 12.0)),
    full("roomy", 11.0, 1.2, (0.6, 12.0)),
    full("usual", 10.3, 1.2, (0.6, 12.0)),
    full("dense", 9.5, 1.17, (0.5, 11.0)),
    full("densest", 9.0, 1.14, (0.5, 10.0)),
];

const fn full(class: &'static str, size: f64, leading: f64, (below_step, height): (f64, f64)) -> Set {
    Set {
        class,
        size,
        leading,
        head: 20.0,
        kind: 13.0,
        columns: 1,
        gap: 0.0,
        indent: 7.0,
        below_step,
        padding: (2.0, 1.0),
        below: 1.5,
        boxes: (4, height),
        rooms: [13.0, 22.0, 28.0],
        figure: 1.08,
        most: 265.0,
    }
}

/// Letters that are Latin; what is not is taken as wide.
const LATIN: usize = 0x250;

/// Widths of the Latin letters: cards have millions of letters.
static WIDTHS: [f64; LATIN] = {
    let mut widths = [0.0; LATIN];
    let mut at = 0;
    while at < LATIN {
        if let Some(letter) = char::from_u32(at as u32) {
            widths[at] = width_of_latin(letter);
        }
        at += 1;
    }
    widths
};

/// Width of a letter in sizes of the type.
fn width(letter: char) -> f64 {
    WIDTHS.get(letter as usize).copied().unwrap_or(1.0)
}

/// Arial's widths, which Liberation Sans and Helvetica share; from memory.
const fn width_of_latin(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | 'í' | '\'' | '|' => 0.222,
        ' ' | '!' | ',' | '.' | '/' | ':' | ';' | 'I' | 'f' | 't' | '\u{a0}' => 0.278,
        '(' | ')' | '-' | 'r' | '[' | ']' | '"' => 0.345,
        'J' | 'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' | '*' | '¿' => 0.5,
        'F' | 'T' | 'Z' | '+' | '<' | '=' | '>' => 0.611,
        'A' | 'B' | 'E' | 'K' | 'P' | 'S' | 'V' | 'X' | 'Y' | 'Á' | 'É' | '&' => 0.667,
        'C' | 'D' | 'H' | 'N' | 'R' | 'U' | 'w' | 'Ú' | 'Ñ' => 0.722,
        'G' | 'O' | 'Q' | 'Ó' => 0.778,
        'M' | 'm' | '%' => 0.861,
        'W' => 0.944,
        _ => 0.556,
    }
}

fn text_width(text: &str, points: f64) -> f64 {
    text.chars().map(width).sum::<f64>() * points * POINT * SLACK
}

fn bold_width(text: &str, points: f64) -> f64 {
    let width = |letter: char| width(letter) * if letter.is_alphabetic() { BOLD } else { 1.0 };
    text.chars().map(width).sum::<f64>() * points * POINT * SLACK
}

/// Lines that are being filled.
struct Lines {
    room: f64,
    filled: f64,
    count: usize,
    space: f64,
    /// Whether the last text ended in a blank.
    parted: bool,
}

impl Lines {
    fn of(room: f64, points: f64) -> Self {
        Self { room, filled: 0.0, count: 0, space: width(' ') * points * POINT, parted: true }
    }

    /// A piece that is not broken, glued to the one before where no blank parts them.
    fn push(&mut self, width: f64) {
        let wanted = if self.count == 0 || !self.parted { width } else { self.space + width };
        self.parted = false;
        if self.count == 0 || self.filled + wanted > self.room {
            // What is wider than a line is broken over several.
            self.count += (width / self.room).ceil().max(1.0) as usize;
            self.filled = width % self.room;
        } else {
            self.filled += wanted;
        }
    }

    fn text(&mut self, text: &str, points: f64) {
        self.words(text, &|word| text_width(word, points));
    }

    fn bold(&mut self, text: &str, points: f64) {
        self.words(text, &|word| bold_width(word, points));
    }

    fn words(&mut self, text: &str, width: &dyn Fn(&str) -> f64) {
        self.parted |= text.starts_with(char::is_whitespace);
        for word in text.split_whitespace() {
            self.push(width(word));
            self.parted = true;
        }
        self.parted = text.ends_with(char::is_whitespace) || (self.parted && text.is_empty());
    }

    fn sentence(&mut self, sentence: &Sentence, set: &Set, points: f64) {
        for part in &sentence.0 {
            match part {
                Part::Text(text) => self.text(text, points),
                Part::Strong(text) => self.bold(text, points),
                Part::Figure { text, .. } => self.push(bold_width(text, points * set.figure)),
                Part::Room(Room::Reading) => self.push(set.rooms[0]),
                Part::Room(Room::Moment) => self.push(set.rooms[1]),
                Part::Room(Room::Words) => self.push(set.rooms[2]),
            }
        }
    }
}

/// Height of a card, in millimeters.
pub(super) fn height(card: &Card, (depot, labels): (&str, &CardLabels), set: &Set) -> f64 {
    let line = set.size * set.leading * POINT;
    let inner = CARD - 2.0 * set.padding.0;
    let paragraph = |fill: &dyn Fn(&mut Lines), room: f64| {
        let mut lines = Lines::of(room, set.size);
        fill(&mut lines);
        lines.count as f64 * line
    };
    let mut all = 2.0 * set.padding.1 + 0.8 + head(card, depot, set, inner);
    if let Some(banner) = &card.banner {
        let mut lines = Lines::of(inner - 7.0, 14.0);
        lines.bold(banner, 14.0);
        all += lines.count as f64 * 14.0 * set.leading * POINT + 4.4 + 1.5;
    }
    if !card.flags.is_empty() {
        // Bold, in a frame.
        let flags = |lines: &mut Lines| {
            lines.bold(&format!("{}:", labels.flags), set.size);
            card.flags.iter().for_each(|flag| lines.bold(&format!(" {flag}"), set.size));
        };
        all += paragraph(&flags, inner - 3.2) + 2.4;
    }
    let facts = |lines: &mut Lines| {
        for fact in &card.facts {
            lines.bold(&format!(" {}:", fact.label), set.size);
            lines.text(&format!(" {}", fact.text), set.size);
            lines.filled += 2.5;
        }
    };
    all += paragraph(&facts, inner - RUNS) + set.below;
    if let Some(assumed) = &card.assumed {
        all += paragraph(&|lines: &mut Lines| lines.text(assumed, set.size), inner - 2.7) + set.below;
    }
    let bring = |lines: &mut Lines| {
        lines.bold(&format!("{}:", labels.bring), set.size);
        for item in &card.bring {
            lines.text(" ", set.size);
            lines.sentence(item, set, set.size);
            lines.text(";", set.size);
        }
    };
    all += paragraph(&bring, inner - RUNS) + set.below;
    all += steps(card, set, inner, line);
    if !card.cautions.is_empty() {
        let cautions = |lines: &mut Lines| {
            lines.bold(&format!("{}:", labels.cautions), set.size);
            card.cautions.iter().for_each(|caution| lines.text(&format!(" {caution}"), set.size));
        };
        all += paragraph(&cautions, inner - RUNS) + set.below;
    }
    let (in_row, tall) = set.boxes;
    let in_row = if set.columns == 1 && card.boxes.len() % 4 == 1 { 5 } else { in_row };
    all += card.boxes.len().div_ceil(in_row) as f64 * tall + 0.3;
    let mut lines = Lines::of(inner, 9.0);
    lines.text(&labels.foot, 9.0);
    all + lines.count as f64 * 9.0 * 1.05 * POINT + 0.5
}

/// Height of the head: name and amount; place of the day and what the amount gives beside each other.
fn head(card: &Card, depot: &str, set: &Set, inner: f64) -> f64 {
    let mut name = bold_width(&card.well, set.head);
    let beside = card.visit_words.iter().chain(std::iter::once(&card.kind));
    name += beside.map(|text| text_width(text, set.kind) + 2.0).sum::<f64>();
    let stop = card.stop.as_deref().map_or(0.0, |stop| text_width(stop, set.size) + text_width(", ", set.size));
    let place = text_width(depot, set.size) + stop;
    let room = (inner - 6.0 - name.max(place)).max(60.0);
    let points = if set.columns == 1 { 17.0 } else { 15.0 };
    let lines_of = |sentence: &Sentence, points: f64, figure: f64| {
        let mut lines = Lines::of(room, points);
        lines.sentence(sentence, &Set { figure, ..*set }, points);
        lines.count.max(1) as f64
    };
    let amount = lines_of(&card.headline, points, HEADLINE) * points * 1.15 * POINT;
    let gives = card.gives.as_ref().map_or(1.0, |gives| lines_of(gives, set.size, set.figure));
    amount.max(set.head * 1.15 * POINT) + gives * set.size * set.leading * POINT + 1.2
}

/// Height of the steps; no step is cut where the columns part.
fn steps(card: &Card, set: &Set, inner: f64, line: f64) -> f64 {
    let room = (inner - set.gap * (set.columns - 1) as f64) / set.columns as f64 - set.indent;
    let of = |step: &Sentence| {
        let mut lines = Lines::of(room, set.size);
        lines.sentence(step, set, set.size);
        lines.count.max(1) as f64 * line + set.below_step
    };
    let steps: Vec<f64> = card.steps.iter().map(of).collect();
    if set.columns == 1 {
        return steps.iter().sum::<f64>() + 1.5;
    }
    let parted = |at: usize| steps[..at].iter().sum::<f64>().max(steps[at..].iter().sum());
    (0..=steps.len()).map(parted).fold(f64::INFINITY, f64::min) + 0.5
}
