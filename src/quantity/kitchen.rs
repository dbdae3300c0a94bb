//! Amounts in the words of people who measure them out: `1 3/4 cups`, `2 gallons + 1 quart`, `3 lb 6 oz`, `350 mL`.
//!
//! The amount was rounded up to a graduation before (`kernel::measure`); here it is only said, exactly. An amount that no
//! measure gives is said with its number and unit. Tables keep the number. Other languages say the [`pieces`] in their words.

use super::format::number;

/// Grams in an ounce: international yard and pound agreement, 1959.
const OUNCE_G: f64 = super::unit::POUND_KG * 1000.0 / 16.0;

/// A number of a measure: `1 3/4` of `cup`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece<'a> {
    /// How many, in whole numbers and eighths.
    pub number: String,
    /// The measure, one of it, in English; or a symbol.
    pub unit: &'a str,
    /// Whether it is more than one of a measure that has a plural.
    pub many: bool,
    /// Whether it says the same as the piece before it, in another unit.
    pub aside: bool,
}

impl<'a> Piece<'a> {
    /// What stands between the piece before and this one: the same everywhere, but for the ounces of a weight, which everybody reads
    /// as one number with its pounds, and for an aside.
    pub fn joint(&self) -> &'static str {
        if self.aside || self.unit == "oz" { " " } else { " + " }
    }

    fn symbol(number: String, unit: &'a str) -> Self {
        Self { number, unit, many: false, aside: false }
    }
}

/// An amount of a unit of the unit table, in words.
pub fn words(amount: f64, unit: &str) -> String {
    said(&pieces(amount, unit))
}

/// Water by the bucket: `1/2 gallon`, `2 1/2 gallons`, `0.5 L`.
pub fn bucket(amount: f64, unit: &str) -> String {
    said(&bucket_pieces(amount, unit))
}

/// Pieces in English, an `s` for more than one: `2 quarts + 1 cup`.
fn said(pieces: &[Piece<'_>]) -> String {
    joined(pieces, |piece| format!("{} {}{}", piece.number, piece.unit, if piece.many { "s" } else { "" }))
}

/// Pieces in a line, each as `say` has it: `1 quart + 1/2 cup`.
pub fn joined(pieces: &[Piece<'_>], say: impl Fn(&Piece<'_>) -> String) -> String {
    let mut line = String::new();
    for (at, piece) in pieces.iter().enumerate() {
        line.push_str(if at == 0 { "" } else { piece.joint() });
        line.push_str(&if piece.aside { format!("({})", say(piece)) } else { say(piece) });
    }
    line
}

/// An amount of a unit of the unit table as the measures it is taken with, greatest first, for whoever says it in a language.
pub fn pieces(amount: f64, unit: &str) -> Vec<Piece<'_>> {
    let parts = match unit {
        "US tsp" => {
            let spoons = (amount / 3.0 + 1e-9).floor();
            [counted(spoons, "tablespoon"), fraction(amount - 3.0 * spoons, "teaspoon")]
        }
        "US tbsp" => {
            let quarters = (amount / 4.0 + 1e-9).floor();
            [fraction(quarters / 4.0, "cup"), fraction(amount - 4.0 * quarters, "tablespoon")]
        }
        "US cup" => {
            let quarters = (amount * 4.0 + 1e-9).floor() / 4.0;
            [fraction(quarters, "cup"), fraction(16.0 * (amount - quarters), "tablespoon")]
        }
        "US qt" => split(amount, "quart", 4.0, "cup"),
        "US gal" => split(amount, "gallon", 4.0, "quart"),
        "imp fl oz" => [fraction(amount, "fluid ounce"), None],
        "imp pt" => [fraction(amount, "pint"), None],
        "imp gal" => split(amount, "imperial gallon", 8.0, "pint"),
        "lb" => {
            let pounds = (amount + 1e-9).floor();
            let ounces = 16.0 * (amount - pounds);
            let rest = || Some(Piece::symbol(mixed(ounces), "oz"));
            match (pounds > 0.0, ounces > 1e-6) {
                (true, true) => [Some(Piece::symbol(number(pounds, 9), "lb")), rest()],
                (true, false) => [Some(Piece::symbol(number(pounds, 9), "lb")), None],
                (false, _) => [rest(), None],
            }
        }
        "oz" if amount < 2.0 => {
            // A pocket scale reads grams; rounded up, like the ounces before it.
            let grams = (amount * OUNCE_G * 10.0 - 1e-6).ceil() / 10.0;
            let aside = Piece { aside: true, ..Piece::symbol(number(grams, 3), "g") };
            [Some(Piece::symbol(number(amount, 3), "oz")), Some(aside)]
        }
        "oz" => [Some(Piece::symbol(mixed(amount), "oz")), None],
        "kg" if amount < 2.0 => [Some(Piece::symbol(number(amount * 1000.0, 6), "g")), None],
        _ => [Some(Piece::symbol(number(amount, 6), unit)), None],
    };
    parts.into_iter().flatten().collect()
}

/// Pieces of water by the bucket.
pub fn bucket_pieces(amount: f64, unit: &str) -> Vec<Piece<'_>> {
    match unit {
        "US gal" => fraction(amount, "gallon").into_iter().collect(),
        "imp gal" => fraction(amount, "imperial gallon").into_iter().collect(),
        _ => pieces(amount, unit),
    }
}

/// Whole units, and the rest in the next smaller one.
fn split<'a>(amount: f64, unit: &'a str, rest_per_unit: f64, rest_unit: &'a str) -> [Option<Piece<'a>>; 2] {
    let whole = (amount + 1e-9).floor();
    [counted(whole, unit), fraction(rest_per_unit * (amount - whole), rest_unit)]
}

/// `2 quarts`; nothing for none.
fn counted(whole: f64, unit: &str) -> Option<Piece<'_>> {
    (whole >= 0.5).then(|| Piece { many: whole >= 1.5, ..Piece::symbol(number(whole, 9), unit) })
}

/// `1 3/4 cups`, `1/2 cup`; nothing for none.
fn fraction(amount: f64, unit: &str) -> Option<Piece<'_>> {
    (amount >= 1e-6).then(|| Piece { many: amount > 1.0 + 1e-6, ..Piece::symbol(mixed(amount), unit) })
}

/// `1 3/4`, `1/8`, `12`; what is not an eighth keeps its decimals.
fn mixed(amount: f64) -> String {
    let eighths = (amount * 8.0).round();
    if (amount * 8.0 - eighths).abs() > 1e-6 {
        return number(amount, 6);
    }
    let (whole, part) = ((eighths / 8.0).floor(), eighths % 8.0);
    let part = match part as u8 {
        0 => return number(whole, 9),
        1 => "1/8",
        2 => "1/4",
        3 => "3/8",
        4 => "1/2",
        5 => "5/8",
        6 => "3/4",
        _ => "7/8",
    };
    if whole < 0.5 { part.to_owned() } else { format!("{} {part}", number(whole, 9)) }
}
