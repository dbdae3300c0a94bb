//! A size of a well as people write it: depth, level, height, diameter.
//!
//! What is one number is read by [`super::quantity_with`]; this file tells the other forms apart first (strings of casing,
//! sides, the way around, a pipe by its outside, a height of water, a well that flows) and refuses two numbers where one
//! is wanted. The words are the trade's, from memory: English, and the plainest Spanish, French and Portuguese.

use super::super::unit::{self, Dimension, Unit};
use super::items::{self, Amount, Item, compounds, items, lengths};
use super::number::Comma;
use super::numerals;
use super::scan;
use super::shape::{self, Pipe};
use super::standing::{self, DRY, PUMPING, full, has, height_of_water, resting};
use super::strings::{self, Piece};
use super::{Nature, Reading, Trouble, feet_and_inches, number_and_unit, quantity_with};

/// What a length is of, which decides what its words mean.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// Depth of the bottom, of the casing.
    Depth,
    /// Depth of the water.
    Level,
    /// Height of the water, of the ground.
    Height,
    /// Height of the casing or rim above the ground.
    Rim,
    /// Across.
    Diameter,
}

/// What a depth is counted from, where its cell says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reference {
    /// The ground.
    Ground,
    /// The top of the casing, or the rim.
    Top,
    /// The sea.
    SeaLevel,
}

/// A written size, understood.
#[derive(Debug, Clone, PartialEq)]
pub enum Size {
    /// One value; a level above what it is counted from is negative.
    One {
        /// The value.
        reading: Reading,
        /// What it is counted from, where it is said.
        from: Option<Reference>,
    },
    /// The height of the standing water, where a depth or a level was asked.
    Water(Reading),
    /// The depth of the water, where its height was asked.
    Level {
        /// The value.
        reading: Reading,
        /// What it is counted from, where it is said.
        from: Option<Reference>,
    },
    /// The water stands at the ground.
    Full {
        /// Or would rise above it.
        flowing: bool,
    },
    /// Strings of casing, one below another.
    Strings(Vec<Piece>),
    /// A pipe by its outside or its nominal size.
    Pipe(Pipe),
}

impl Size {
    const fn one(reading: Reading) -> Self {
        Self::One { reading, from: None }
    }
}

/// Reads a size; `default` is the unit of a bare number.
///
/// # Errors
/// A [`Trouble`] that says what was not understood, or between what the reader cannot choose.
pub fn size(text: &str, sort: Sort, default: Option<&'static Unit>, comma: Comma) -> Result<Size, Trouble> {
    let text = text.trim();
    if let Some((level, date)) = dated(text).filter(|_| sort == Sort::Level) {
        let mut size = size(level, sort, default, comma)?;
        if let Size::One { reading, .. } = &mut size {
            let note = reading.note.take().map(|note| format!("; {note}")).unwrap_or_default();
            reading.note = Some(format!("\"{date}\" beside it is taken for its date{note}").into());
        }
        return Ok(size);
    }
    if !matches!(sort, Sort::Level | Sort::Depth) || !text.starts_with('+') {
        let quick = number_and_unit(text, Dimension::Length, None).or_else(|| feet_and_inches(text, Dimension::Length));
        if let Some(reading) = quick {
            return Ok(Size::one(reading));
        }
    }
    if scan::is_prose(text) {
        return quantity_with(text, Dimension::Length, default, None, comma).map(Size::one);
    }
    // `+80` of a depth: eighty or more.
    let more = sort == Sort::Depth && text.starts_with('+');
    let lower = scan::normalise(text).0.to_lowercase();
    let spelled = if matches!(sort, Sort::Depth | Sort::Level) { spelled_out(&lower, sort) } else { None };
    let lower = spelled.as_ref().unwrap_or(&lower);
    let joined = unjoined(lower);
    let lower = joined.as_ref().unwrap_or(lower);
    let figures = numerals::written_out(lower);
    let half = numerals::with_half(figures.as_ref().unwrap_or(lower));
    let figures = half.or(figures);
    let words = figures.as_ref().unwrap_or(lower).as_str();
    let raw = items(words, comma);
    let whole = compounds(&raw, true);
    let special = match sort {
        Sort::Diameter => across_or_unit(&raw, &whole, default)?,
        Sort::Depth | Sort::Level | Sort::Height | Sort::Rim => upright(words, &whole, sort, default, comma)?,
    };
    if let Some(special) = special {
        return Ok(special);
    }
    // Words before the number that only name what it is.
    let start = named(&whole).map_or(0, |amount| amount.start);
    let metric = meters_and_centimeters(&whole);
    let as_typed = joined.is_none() && figures.is_none() && spelled.is_none() && start == 0;
    let to_read = if as_typed { text } else { &words[start..] };
    let read = match metric {
        Some(reading) => Ok(reading),
        None => quantity_with(to_read, Dimension::Length, default, None, comma),
    };
    let mut reading = match read {
        Ok(reading) => reading,
        Err(trouble) => return Err(two_of(words, &whole).unwrap_or(trouble)),
    };
    if more && reading.nature == Nature::Exact {
        reading.nature = Nature::AtLeast;
    }
    if let Some(second) = second(&reading) {
        return Err(second);
    }
    if let (Sort::Diameter, Nature::Range { low_si, high_si }) = (sort, reading.nature)
        && high_si > low_si * WIDEST_RANGE
    {
        return Err(two_of(words, &whole).unwrap_or(Trouble::BackwardRange)); // A diameter to a depth.
    }
    let from = if matches!(sort, Sort::Depth | Sort::Level) { reference(&whole) } else { None };
    if sort == Sort::Level && from != Some(Reference::SeaLevel) {
        if is_above(&whole) {
            reading = above(reading);
        } else if to_read.trim_start().starts_with('+') {
            return Err(Trouble::PlusLevel);
        }
    }
    if figures.is_some() {
        let note = reading.note.take().map(|note| format!("; {note}")).unwrap_or_default();
        reading.note = Some(format!("written in words{note}").into());
    }
    Ok(Size::One { reading, from })
}

/// A level with the month it was measured in: `18' (7-84)`, `40 4/84`, `12 ft 11/1987`. Nothing where the second part may be
/// a fraction of an inch.
fn dated(text: &str) -> Option<(&str, &str)> {
    const RULER: [u32; 6] = [2, 4, 8, 16, 32, 64];
    let (level, last) = text.rsplit_once(' ')?;
    let (level, last) = (level.trim_end(), last.trim());
    let inner = last.strip_prefix('(').and_then(|rest| rest.strip_suffix(')'));
    let (month, year) = inner.unwrap_or(last).split_once(['/', '-'])?;
    let digits =
        |part: &str, lengths: &[usize]| lengths.contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit());
    let sound = digits(month, &[1, 2])
        && (1..=12).contains(&month.parse::<u32>().ok()?)
        && (digits(year, &[2]) || digits(year, &[4]) && (1850..2100).contains(&year.parse::<u32>().ok()?));
    let fraction = inner.is_none() && !year.starts_with('0') && RULER.contains(&year.parse().ok()?);
    let measured = level.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | '~' | '+'));
    (sound && !fraction && measured).then_some((level, last))
}

/// As [`across`]; a form that would be one in inches lacks only its unit.
fn across_or_unit(
    raw: &[Item<'_>],
    whole: &[Item<'_>],
    default: Option<&'static Unit>,
) -> Result<Option<Size>, Trouble> {
    let found = across(raw, whole, default);
    if found.is_none() && default.is_none() && across(raw, whole, unit::by_symbol("in")).is_some() {
        return Err(Trouble::NoUnit { dimension: Dimension::Length });
    }
    Ok(found)
}

/// The forms of a diameter.
fn across(raw: &[Item<'_>], whole: &[Item<'_>], default: Option<&'static Unit>) -> Option<Size> {
    let apart = compounds(raw, false);
    if let Some(pieces) = strings::strings(raw, default).or_else(|| strings::strings(&apart, default)) {
        return Some(Size::Strings(pieces));
    }
    if let Some(piece) = strings::across_by_length(&apart, default) {
        return Some(Size::Strings(vec![piece]));
    }
    if let Some(pipe) = shape::pipe(&apart, default) {
        return Some(Size::Pipe(pipe));
    }
    let one = |amount: Amount, note: &'static str| {
        let unit = amount.unit.or(default).filter(|unit| matches!(unit.symbol, "in" | "mm" | "cm"))?;
        let mut reading = Reading::plain(amount.value, unit, amount.unit.is_some());
        reading.note = Some(note.into());
        Some(Size::one(reading))
    };
    if let Some(amount) = strings::point(&apart) {
        return one(amount, "pipe and drive point");
    }
    if let Some(inside) = shape::inside_of_pair(&apart) {
        return one(inside, "inside and outside: the inside");
    }
    let worked = shape::shape(whole, default)?;
    Some(Size::one(Reading {
        si: worked.si,
        unit: worked.unit,
        unit_was_written: worked.written,
        nature: Nature::Exact,
        note: Some(worked.note.into()),
        about: false,
    }))
}

/// `2 m 40`, which the reader of quantities takes for two numbers.
fn meters_and_centimeters(items: &[Item<'_>]) -> Option<Reading> {
    let [Item::Amount(amount)] = items else { return None };
    let unit = amount.unit.filter(|unit| unit.symbol == "m")?;
    let mut reading = Reading::plain(amount.value, unit, true);
    reading.note = Some("meters and centimeters".into());
    (amount.compound).then_some(reading)
}

/// Whether a unit of length stands in a text.
pub fn unit_is_written(text: &str) -> bool {
    let lower = scan::normalise(text).0.to_lowercase();
    items(&lower, Comma::ByForm).iter().filter_map(Item::amount).any(|amount| amount.unit.is_some())
}

/// A diameter's range does not span more than so many times its lower end. Common practice, no source.
const WIDEST_RANGE: f64 = 5.0;

/// `32 fr top of pipe` and `7,40 /sol` as people say it.
fn spelled_out(text: &str, sort: Sort) -> Option<String> {
    const SHORT: [(&str, &str); 9] = [
        (" down to water", " down"),
        (" to water", " down"),
        (" fr. ", " from "),
        (" fr ", " from "),
        (" frm ", " from "),
        (" off ", " from "),
        (" /sol", " bgl"),
        (" /ground", " ground"),
        (" /top", " from top"),
    ];
    // A depth is not what it is to the water.
    let of_level = |(short, _): &(&str, &str)| sort == Sort::Level || !short.ends_with("water");
    let (short, long) = SHORT.into_iter().filter(of_level).find(|(short, _)| text.contains(short))?;
    Some(text.replace(short, long))
}

/// `6-inch` as `6 inch`: a hyphen between a number and a word joins; nothing where there is none.
fn unjoined(text: &str) -> Option<String> {
    let bytes = text.as_bytes();
    let joins = |at: usize| {
        bytes[at] == b'-'
            && at > 0
            && bytes[at - 1].is_ascii_digit()
            && bytes.get(at + 1).is_some_and(u8::is_ascii_lowercase)
    };
    let first = (0..bytes.len()).find(|at| joins(*at))?;
    let mut whole = text[..first].to_owned();
    for (at, c) in text[first..].char_indices() {
        whole.push(if joins(first + at) { ' ' } else { c });
    }
    Some(whole)
}

/// The forms of a depth, a level or a height.
fn upright(
    words: &str,
    whole: &[Item<'_>],
    sort: Sort,
    default: Option<&'static Unit>,
    comma: Comma,
) -> Result<Option<Size>, Trouble> {
    if let Some(reading) = hyphened(whole, default)? {
        return Ok(Some(Size::one(reading)));
    }
    let first = whole.first().and_then(Item::word);
    if first.is_some_and(|word| DRY.contains(&word)) || lengths(whole).next().is_none() && has(whole, DRY) {
        return Err(Trouble::Dry);
    }
    let read =
        |amount: Amount| quantity_with(&words[amount.start..amount.end], Dimension::Length, default, None, comma);
    if matches!(sort, Sort::Depth | Sort::Level)
        && let Some(amount) = height_of_water(whole)
    {
        return read(amount).map(|reading| Some(Size::Water(reading)));
    }
    // `NS 13,5` where the height of the water was asked: a level all the same.
    if sort == Sort::Height
        && first.is_some_and(|word| standing::LEVEL.contains(&word))
        && let [amount] = lengths(whole).collect::<Vec<_>>().as_slice()
        && whole
            .iter()
            .filter_map(Item::word)
            .all(|word| standing::LEVEL.contains(&word) || standing::AT.contains(&word))
    {
        return read(*amount).map(|reading| Some(Size::Level { reading, from: reference(whole) }));
    }
    if sort == Sort::Height
        && let Some(amount) = standing::level_for_height(whole)
    {
        let from = reference(whole).filter(|from| *from != Reference::SeaLevel);
        return read(amount).map(|reading| Some(Size::Level { reading, from }));
    }
    if sort == Sort::Height
        && let Some(flowing) = full(whole)
    {
        return Ok(Some(Size::Full { flowing }));
    }
    if sort == Sort::Rim && lengths(whole).next().is_none() && (has(whole, FLUSH) || is_without_rim(whole)) {
        let meter = unit::by_symbol("m");
        return Ok(meter.map(|meter| {
            let mut reading = Reading::plain(0.0, meter, true);
            reading.note = Some("level with the ground".into());
            Size::one(reading)
        }));
    }
    // Of several numbers one holds: which, is said.
    let chosen = |amount, why: &'static str| {
        read(amount).map(|mut reading| {
            reading.note.get_or_insert(why.into());
            reading
        })
    };
    if let Some(amount) = standing::no_longer(whole) {
        let reading = chosen(amount, "the former one is left out")?;
        return Ok(Some(Size::One { reading, from: reference(whole) }));
    }
    if let Some(amount) = standing::worked_out(whole).filter(|_| sort == Sort::Depth) {
        return chosen(amount, "the sum that is written out").map(|reading| Some(Size::one(reading)));
    }
    if sort != Sort::Level {
        return Ok(None);
    }
    if let Some(amount) = standing::below_top(whole) {
        return read(amount).map(|reading| Some(Size::One { reading, from: reference(whole) }));
    }
    if let Some(flowing) = full(whole) {
        return Ok(Some(Size::Full { flowing }));
    }
    if has(whole, PUMPING) || has(whole, standing::RUNNING) {
        let resting = resting(whole).ok_or(Trouble::Pumping)?;
        let reading = chosen(resting, "at rest; the level while pumping is left out")?;
        return Ok(Some(Size::One { reading, from: reference(whole) }));
    }
    Ok(None)
}

/// A casing or rim that ends level with the ground.
const FLUSH: &[&str] = &["flush", "rente", "ras", "rasant", "rasante", "level"];

/// `lid at ground`, `sin brocal`: nothing stands above the ground.
fn is_without_rim(items: &[Item<'_>]) -> bool {
    const WITHOUT: [&str; 4] = ["sin", "sans", "sem", "no"];
    const RIM: [&str; 12] = [
        "brocal", "pretil", "margelle", "curb", "rim", "collar", "bocal", "casing", "manilha", "riser", "kerb",
        "rebord",
    ];
    let words: Vec<&str> = items.iter().filter_map(Item::word).collect();
    let at_ground = words.windows(2).any(|pair| pair[0] == "at" && ["ground", "grade"].contains(&pair[1]));
    at_ground || matches!(words.as_slice(), [without, rim] if WITHOUT.contains(without) && RIM.contains(rim))
}

/// `31-4` in a column of feet: feet and inches where it cannot be a range, a doubt where it can.
fn hyphened(items: &[Item<'_>], default: Option<&'static Unit>) -> Result<Option<Reading>, Trouble> {
    let [Item::Amount(feet), Item::Mark('-'), Item::Amount(inches)] = items else { return Ok(None) };
    let bare = feet.unit.is_none() && inches.unit.is_none();
    let Some(unit) = default.filter(|unit| bare && unit.symbol == "ft") else { return Ok(None) };
    if inches.value >= 12.0 || feet.value.fract() != 0.0 {
        return Ok(None);
    }
    if inches.value > feet.value {
        return Err(Trouble::FeetOrRange { feet: feet.value, inches: inches.value });
    }
    let mut reading = Reading::plain(feet.value + inches.value / 12.0, unit, false);
    reading.note = Some("feet and inches".into());
    Ok(Some(reading))
}

/// What a depth is counted from, by the words beside it.
fn reference(items: &[Item<'_>]) -> Option<Reference> {
    let words: Vec<&str> = items.iter().filter_map(Item::word).collect();
    let is = |known: &[&str]| words.iter().any(|word| known.contains(word));
    let after = |first: &[&str], second: &[&str]| {
        words.windows(2).any(|pair| first.contains(&pair[0]) && second.contains(&pair[1]))
            || words
                .windows(3)
                .any(|three| first.contains(&three[0]) && three[1] == "the" && second.contains(&three[2]))
    };
    if is(&["asl", "amsl", "msl", "masl", "sea", "navd", "ngvd", "elev", "elevation", "mar", "mer"]) {
        Some(Reference::SeaLevel)
    } else if is(&["btoc", "btc", "toc", "rim", "bmp", "tc", "brocal", "pretil", "margelle", "curb", "boca", "haut"])
        || after(&["below", "from", "above", "under"], &["casing", "top", "curb"])
        || after(&["measuring"], &["point"])
    {
        Some(Reference::Top)
    } else if is(&[
        "bgl", "bgs", "bls", "agl", "ags", "als", "ground", "grade", "surface", "suelo", "sol", "solo", "terreno",
        "gl", "tn",
    ]) {
        Some(Reference::Ground)
    } else {
        None
    }
}

fn is_above(items: &[Item<'_>]) -> bool {
    has(items, &["above", "agl", "ags", "als", "dessus", "sobre", "encima", "acima"])
}

/// The same height above instead of below.
fn above(mut reading: Reading) -> Reading {
    reading.si = -reading.si.abs();
    if let Nature::Range { low_si, high_si } = reading.nature {
        reading.nature =
            Nature::Range { low_si: -low_si.abs().max(high_si.abs()), high_si: -low_si.abs().min(high_si.abs()) };
    }
    reading
}

/// Words that may stand before a size and only name it.
const NAMING: &[&str] = &[
    "swl",
    "static",
    "rest",
    "resting",
    "standing",
    "water",
    "level",
    "wl",
    "at",
    "depth",
    "to",
    "is",
    "dtw",
    "total",
    "td",
    "diameter",
    "diam",
    "dia",
    "size",
    "casing",
    "well",
    "holds",
    "has",
    "contains",
    "deep",
    "nivel",
    "profundidad",
    "profondeur",
    "profundidade",
    "diámetro",
    "diametro",
    "diamètre",
    "diâmetro",
    "estático",
    "estatico",
    "statique",
    "eau",
    "agua",
    "água",
    "à",
    "a",
    "de",
    "l",
    "el",
    "la",
    "o",
    "ø",
    "⌀",
    "diám",
    "int",
    "intérieur",
    "interior",
    "buse",
    "buses",
    "busé",
    "anneau",
    "anneaux",
    "cuvelage",
    "anillo",
    "anillos",
    "aro",
    "aros",
    "anel",
    "anéis",
    "aneis",
    "manilha",
    "manilhas",
    "tile",
    "tiles",
    "ring",
    "rings",
    "concrete",
    "tubo",
    "tubos",
    "tuyau",
    "pvc",
    "upvc",
    "en",
    "em",
    "está",
    "esta",
];

/// The amount after words that only name it.
fn named(items: &[Item<'_>]) -> Option<Amount> {
    let at = items.iter().position(|item| item.amount().is_some())?;
    let naming = items[..at].iter().all(|item| match item {
        Item::Word(word) => NAMING.contains(&word.as_ref()),
        item => [':', '=', '.', '⌀', '\''].iter().any(|mark| item.is(*mark)),
    });
    if at > 0 && naming { items[at].amount() } else { None }
}

/// A second number in the remark beside a value: a doubt.
pub fn second(reading: &Reading) -> Option<Trouble> {
    let note = reading.note.as_deref().filter(|note| note.bytes().any(|byte| byte.is_ascii_digit()))?;
    let lower = scan::normalise(note).0.to_lowercase();
    let all = items(&lower, Comma::ByForm);
    let second = lengths(&all).next()?;
    let first =
        format!("{} {}", super::super::format::number(reading.unit.from_si(reading.si), 6), reading.unit.symbol);
    Some(Trouble::TwoValues { first, second: lower[second.start..second.end].to_owned() })
}

/// Two lengths in a text that was not understood.
fn two_of(words: &str, items: &[Item<'_>]) -> Option<Trouble> {
    let mut all = items::lengths(items);
    let (first, second) = (all.next()?, all.next()?);
    let text = |amount: Amount| words[amount.start..amount.end].to_owned();
    Some(Trouble::TwoValues { first: text(first), second: text(second) })
}
