//! How wide a well is by words that say more than a size: `bored w/ 24 inch tile`, `brick, 4 ft square inside`.

use std::f64::consts::PI;

use super::super::unit::{self, Unit};
use super::characters::small_letters;
use super::items::{Amount, Item, compounds, items, lengths};
use super::number::Comma;
use super::{numerals, scan, shape};

/// A width with the unit it was written in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Width {
    /// The width in meters; of two sides, of a square or of the way around, the diameter that comes to the same.
    pub si: f64,
    /// The unit it was written in: figures are shown to people in it again.
    pub unit: &'static Unit,
    /// The first side, in metres, where two sides or a square are written.
    pub side: Option<f64>,
}

/// Words that make a length the width of a well; from memory, common practice.
const WIDE: &[&str] = &[
    "wide",
    "across",
    "diameter",
    "dia",
    "diam",
    "inside",
    "interior",
    "int",
    "ø",
    "round",
    "tile",
    "tiles",
    "ring",
    "rings",
    "casing",
    "csg",
    "pipe",
    "bore",
    "diámetro",
    "diametro",
    "diâmetro",
    "ancho",
    "ancha",
    "tubo",
    "caño",
    "anillos",
    "largura",
    "manilhas",
    "manilha",
    "dentro",
    "diamètre",
    "diametre",
    "large",
    "largeur",
    "tubage",
    "buses",
    "buse",
    "square",
    "sq",
];

/// Words by which a length is another one.
const OTHER: &[&str] = &[
    "deep",
    "depth",
    "down",
    "up",
    "stick",
    "sticks",
    "above",
    "below",
    "water",
    "level",
    "curb",
    "high",
    "tall",
    "lid",
    "cap",
    "line",
    "main",
    "drop",
    "suction",
    "pump",
    "discharge",
    "outlet",
    "drain",
    "valve",
    "vent",
    "slab",
    "sewer",
    "from",
    "to",
    "between",
    "thick",
    "wall",
    "od",
    "outside",
    "hose",
    "sand",
    "mud",
    "silt",
    "liner",
    "screen",
    "exterior",
    "profundo",
    "hasta",
    "até",
    "jusqu",
    "prof",
    "drilling",
    "least",
    "minimum",
    "min",
    "max",
    "maybe",
    "think",
    "about",
    "not",
    "or",
    "was",
];

/// Words between a width and who tells it.
const TOLD: &[&str] =
    &["per", "according", "says", "said", "by", "segun", "según", "dice", "selon", "dit", "segundo", "conforme"];

/// The widest well, and the narrowest, in metres.
const POSSIBLE_M: (f64, f64) = (0.025, 4.0);

/// Words after which nobody is sure of a width.
const HEDGED: &[&str] = &["maybe", "think", "about", "not", "or", "was", "least", "minimum", "min", "max"];

/// The width that words give, in one of their clauses where no other has a width: `6" pipe, run in under the lid`.
///
/// `of_type` as in [`width_of_clause`].
pub fn width_in_words(text: &str, of_type: bool) -> Option<Width> {
    if let Some(width) = width_of_clause(text, of_type) {
        return Some(width);
    }
    if text.len() > 120 || scan::is_prose(text) {
        return None;
    }
    let clauses: Vec<&str> = text.split([',', ';']).flat_map(|part| part.split(". ")).map(str::trim).collect();
    let short = |clause: &&&str| {
        let lower = small_letters(clause);
        let all = items(&lower, Comma::ByForm);
        lengths(&all).any(|amount| amount.unit.is_none_or(Unit::is_of_widths))
    };
    let hedged =
        text.split_whitespace().any(|word| HEDGED.contains(&word.to_lowercase().as_str())) || text.contains('?');
    let mut widths = clauses.iter().filter_map(|clause| Some((clause, width_of_clause(clause, of_type)?)));
    let (of, width) = widths.next().filter(|_| widths.next().is_none() && !hedged && clauses.len() > 1)?;
    (!clauses.iter().filter(|clause| *clause != of).any(|clause| short(&clause))).then_some(width)
}

/// The width that words give; `of_type` where they say what kind of well it is, so that a pipe's size needs no other word.
fn width_of_clause(text: &str, of_type: bool) -> Option<Width> {
    if text.len() > 120 || scan::is_prose(text) {
        return None;
    }
    let lower = small_letters(text);
    let figures = numerals::one_of(&lower).or_else(|| numerals::english::in_figures(&lower));
    let raw = items(figures.as_ref().unwrap_or(&lower), Comma::ByForm);
    let whole = compounds(&raw, false);
    let has = |words: &[&str]| whole.iter().filter_map(Item::word).any(|word| words.contains(&word));
    // `SQUARE CURB 40 X 40 IN`: the curb is the shape, not a height.
    let sides = whole.iter().any(|item| item.is('×') || item.word() == Some("x"));
    let other = |word: &&str| OTHER.contains(word) && !(sides && *word == "curb");
    if whole.iter().filter_map(Item::word).any(|word| other(&word))
        || whole.iter().any(|item| item.is('?') || item.is('-'))
    {
        return None;
    }
    let possible = |width: Width| (POSSIBLE_M.0..=POSSIBLE_M.1).contains(&width.si).then_some(width);
    // The shape alone: two sides, a square.
    let shaped: Vec<Item<'_>> = whole
        .iter()
        .filter(|item| match item {
            Item::Amount(_) => true,
            Item::Mark(mark) => *mark == '×',
            Item::Word(word) => matches!(word.as_ref(), "x" | "by" | "sq" | "square"),
        })
        .cloned()
        .collect();
    if let Some(worked) = shape::shape(&shaped, None).filter(|worked| worked.written) {
        let side = shaped.iter().find_map(Item::amount).map(|side| side.si(worked.unit));
        return possible(Width { si: worked.si, unit: worked.unit, side });
    }
    let mut amounts = lengths(&whole);
    let amount: Amount = amounts.next().filter(|_| amounts.next().is_none())?;
    let unit = match amount.unit {
        Some(unit) => unit,
        None => inches_of_pipe(&whole, amount.value)?,
    };
    let pipe = unit.is_of_widths();
    if has(shape::AROUND) {
        return possible(Width { si: unit.to_si(amount.value) / PI, unit, side: None });
    }
    // `6 in` and nothing else: what a depth and a level lack.
    let short = matches!(unit.symbol, "in" | "mm");
    // `5 inch per driller`: and who says so.
    let told = |item: &Item<'_>| item.word().is_some_and(|word| TOLD.contains(&word));
    let alone = short && (whole.len() == 1 || whole[0].amount().is_some() && whole.get(1).is_some_and(told));
    (has(WIDE) || of_type && pipe || alone).then_some(())?;
    possible(Width { si: unit.to_si(amount.value), unit, side: None })
}

/// The unit of `1 1/4 pipe` or `6 casing`, of two words: pipe is sold by inches, and no wider.
fn inches_of_pipe(whole: &[Item<'_>], value: f64) -> Option<&'static Unit> {
    const PIPES: [&str; 4] = ["pipe", "casing", "csg", "point"];
    const SOLD_IN: (f64, f64) = (1.25, 16.0);
    let [Item::Amount(_), Item::Word(word)] = whole else { return None };
    let sound = PIPES.contains(&word.as_ref()) && (SOLD_IN.0..=SOLD_IN.1).contains(&value);
    unit::by_symbol("in").filter(|_| sound)
}
