//! The unit table: every unit that may be written in a file, with its exact factor to SI and who defines it.
//!
//! The readers, the scenario file, the command line and the display all use this one table. A bare `gal` is not in it:
//! US and imperial gallons are different words, and a bare gallon is settled by declaration ([`Gallon`]), never guessed.

use std::collections::HashMap;
use std::sync::OnceLock;

use foldhash::fast::FixedState;

/// What kind of thing a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// Depths, levels, heights, diameters, walls; in SI meters.
    Length,
    /// Of water, of plumbing or of a liquid product; in SI cubic meters.
    Volume,
    /// SI: cubic metre per second.
    Flow,
    /// Of a product or an agent as it is weighed; in SI kilograms.
    Mass,
    /// Mass of a constituent per volume of water; SI: kilogram per cubic metre (= g/L).
    Concentration,
    /// Mass of a substance per its own volume, as poured; SI: kilogram per cubic metre.
    Density,
    /// Inventory and scenario temperatures; SI: kelvin.
    Temperature,
    /// Contact time, age, storage; in SI seconds.
    Duration,
    /// A pure number, without unit (pH, counts, shares).
    Number,
    /// Degrees of arc, for coordinates.
    Angle,
}

impl Dimension {
    /// The name of the dimension in messages.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Volume => "volume",
            Self::Flow => "flow",
            Self::Mass => "mass",
            Self::Concentration => "concentration",
            Self::Density => "density",
            Self::Temperature => "temperature",
            Self::Duration => "duration",
            Self::Number => "number",
            Self::Angle => "angle",
        }
    }
}

/// One unit: SI value = written value × `factor` + `offset`.
#[derive(Debug, PartialEq)]
pub struct Unit {
    /// How we print it.
    pub symbol: &'static str,
    /// The dimension that its SI value is of; no unit is one of two.
    pub dimension: Dimension,
    /// SI units in one of this unit: 0.3048 for a foot.
    pub factor: f64,
    /// Added after the factor; zero but for temperatures.
    pub offset: f64,
    /// Spellings accepted beside the symbol, in lower case.
    pub spellings: &'static [&'static str],
    /// The definition, and who made it.
    pub definition: &'static str,
}

impl Unit {
    /// The SI value of `written` in this unit.
    pub fn to_si(&self, written: f64) -> f64 {
        written * self.factor + self.offset
    }

    /// The value in this unit of an SI value.
    pub fn from_si(&self, si: f64) -> f64 {
        (si - self.offset) / self.factor
    }

    /// Whether widths of pipes are written in it, and depths are not: inches, millimeters, centimeters.
    pub fn is_of_widths(&self) -> bool {
        matches!(self.symbol, "in" | "mm" | "cm")
    }

    /// Whether depths are written in it, and widths of pipes are not: feet, meters.
    pub fn is_of_depths(&self) -> bool {
        matches!(self.symbol, "ft" | "m")
    }
}

/// Which gallon a bare `gal`, `gpm`, `qt`, `pt` or `fl oz` means: declared by the campaign, never guessed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Gallon {
    /// 231 cubic inches, 3.785 411 784 L: the United States gallon for liquids.
    Us,
    /// 4.546 09 L, a fifth more than the United States gallon.
    Imperial,
}

/// Cubic meters in a US gallon: 231 cubic inches of 2.54 cm. NIST Handbook 44 (2024), appendix C.
pub const US_GALLON_M3: f64 = 231.0 * INCH_M * INCH_M * INCH_M;
/// Cubic metres in an imperial gallon: 4.546 09 L, UK Weights and Measures Act 1985, schedule 1.
pub const IMPERIAL_GALLON_M3: f64 = 4.546_09e-3;
/// Metres in an inch: international yard and pound agreement, 1959.
pub const INCH_M: f64 = 0.0254;
/// Metres in a foot: international yard and pound agreement, 1959.
pub const FOOT_M: f64 = 0.3048;
/// Kilograms in a pound: international yard and pound agreement, 1959.
pub const POUND_KG: f64 = 0.453_592_37;
/// Seconds in a day.
pub const DAY_S: f64 = 86_400.0;

const YARD_POUND: &str = "international yard and pound agreement, 1959";
const SI: &str = "SI Brochure, 9th edition";
const NIST: &str = "NIST Handbook 44, appendix C";
const WMA: &str = "UK Weights and Measures Act 1985, schedule 1";

macro_rules! units {
    ($($dimension:ident $symbol:literal = $factor:expr, [$($spelling:literal),*], $definition:expr;)*) => {
        &[$(Unit { symbol: $symbol, dimension: Dimension::$dimension, factor: $factor, offset: 0.0,
            spellings: &[$($spelling),*], definition: $definition }),*]
    };
}

/// Every unit that is not a temperature.
static UNITS: &[Unit] = units! {
    Length "m" = 1.0, ["metre", "metres", "meter", "meters", "mtr", "mtrs", "miters", "mts", "mt", "metro", "metros", "mètre", "mètres"], SI;
    Length "cm" = 0.01, ["centimetre", "centimetres", "centimeter", "centimeters", "cms", "centimetro", "centimetros", "centímetro", "centímetros", "centimètre", "centimètres"], SI;
    Length "dm" = 0.1, ["decimetre", "decimetres", "decimeter", "decimeters", "decimetro", "decimetros", "decímetro", "decímetros", "décimètre", "décimètres"], SI;
    Length "mm" = 0.001, ["millimetre", "millimetres", "millimeter", "millimeters", "mms", "milimetro", "milimetros", "milímetro", "milímetros", "millimètre", "millimètres"], SI;
    Length "ft" = FOOT_M, ["foot", "feet", "'", "′", "ft.", "fts", "pie", "pies", "pied", "pieds", "pi", "pé", "pés"], YARD_POUND;
    Length "in" = INCH_M, ["inch", "inches", "\"", "″", "in.", "ins", "inchs", "pulgada", "pulgadas", "pulg", "plg", "pouce", "pouces", "po", "polegada", "polegadas", "pol"], YARD_POUND;
    Length "mil" = 0.001 * INCH_M, ["mils", "thou", "thousandths of an inch"], YARD_POUND;
    Length "yd" = 3.0 * FOOT_M, ["yard", "yards"], YARD_POUND;
    Volume "m3" = 1.0, ["m³", "m^3", "cubic metre", "cubic metres", "cubic meter", "cubic meters", "cbm"], SI;
    Volume "L" = 1e-3, ["l", "litre", "litres", "liter", "liters", "ltr", "ltrs", "litro", "litros"], SI;
    Volume "mL" = 1e-6, ["ml", "millilitre", "millilitres", "milliliter", "milliliters", "cc"], SI;
    Volume "US gal" = US_GALLON_M3, ["us gallon", "us gallons", "usgal", "u.s. gal", "u.s. gallon", "u.s. gallons", "gal us", "gal (us)"], NIST;
    Volume "imp gal" = IMPERIAL_GALLON_M3, ["imperial gallon", "imperial gallons", "imp. gal", "imp gallon", "imp gallons", "uk gal", "igal", "gal imp", "gal (imp)"], WMA;
    Volume "US qt" = US_GALLON_M3 / 4.0, ["us quart", "us quarts"], NIST;
    Volume "imp qt" = IMPERIAL_GALLON_M3 / 4.0, ["imperial quart", "imperial quarts"], WMA;
    Volume "US pt" = US_GALLON_M3 / 8.0, ["us pint", "us pints"], NIST;
    Volume "imp pt" = IMPERIAL_GALLON_M3 / 8.0, ["imperial pint", "imperial pints"], WMA;
    Volume "US cup" = US_GALLON_M3 / 16.0, ["cup", "cups", "us cups"], NIST;
    Volume "US fl oz" = US_GALLON_M3 / 128.0, ["us fluid ounce", "us fluid ounces"], NIST;
    Volume "imp fl oz" = IMPERIAL_GALLON_M3 / 160.0, ["imperial fluid ounce", "imperial fluid ounces"], WMA;
    Volume "US tbsp" = US_GALLON_M3 / 256.0, ["tbsp", "tablespoon", "tablespoons"], NIST;
    Volume "US tsp" = US_GALLON_M3 / 768.0, ["tsp", "teaspoon", "teaspoons"], NIST;
    Volume "ft3" = FOOT_M * FOOT_M * FOOT_M, ["ft³", "ft^3", "cubic foot", "cubic feet", "cu ft", "cf"], YARD_POUND;
    Flow "m3/h" = 1.0 / 3600.0, ["m³/h", "m^3/h", "m3/hr", "m³/hr", "m^3/hr", "m3/hour", "m^3/hour", "cubic metres per hour", "cmh"], SI;
    Flow "m3/d" = 1.0 / DAY_S, ["m³/d", "m^3/d", "m3/day", "m³/day", "m^3/day", "kl/d", "kl/day"], SI;
    Flow "L/s" = 1e-3, ["l/s", "l/sec", "lps", "litres per second", "liters per second"], SI;
    Flow "L/min" = 1e-3 / 60.0, ["l/min", "lpm", "litres per minute", "liters per minute"], SI;
    Flow "L/h" = 1e-3 / 3600.0, ["l/h", "l/hr", "lph", "litres per hour", "liters per hour"], SI;
    Flow "US gpm" = US_GALLON_M3 / 60.0, ["usgpm", "us gal/min", "us gallons per minute", "gpm us", "gpm (us)"], NIST;
    Flow "imp gpm" = IMPERIAL_GALLON_M3 / 60.0, ["igpm", "imp gal/min", "imperial gallons per minute", "gpm imp", "gpm (imp)"], WMA;
    Mass "kg" = 1.0, ["kilogram", "kilograms", "kgs", "kilo", "kilos"], SI;
    Mass "g" = 1e-3, ["gram", "grams", "gm", "gms", "gr"], SI;
    Mass "mg" = 1e-6, ["milligram", "milligrams"], SI;
    Mass "t" = 1000.0, ["tonne", "tonnes", "metric ton", "metric tons"], SI;
    Mass "lb" = POUND_KG, ["lbs", "pound", "pounds"], YARD_POUND;
    Mass "oz" = POUND_KG / 16.0, ["ounce", "ounces", "oz av", "oz wt"], YARD_POUND;
    Concentration "mg/L" = 1e-3, ["mg/l", "mgl", "mg l-1", "mg/litre", "mg/liter", "ppm", "g/m3", "mg per l"], "SI; ppm as mg/L holds for dilute water";
    Concentration "ug/L" = 1e-6, ["µg/l", "μg/l", "ug/l", "ppb", "mcg/l"], "SI; ppb as µg/L holds for dilute water";
    Concentration "g/L" = 1.0, ["g/l", "gpl", "kg/m3"], SI;
    Density "kg/L" = 1000.0, ["kg/l", "g/ml", "g/cm3", "g/cm³", "g/cc", "t/m3"], SI;
    Density "lb/ft3" = POUND_KG / (FOOT_M * FOOT_M * FOOT_M), ["lb/ft³", "lb/cu ft", "lbs/ft3"], YARD_POUND;
    Duration "s" = 1.0, ["sec", "secs", "second", "seconds"], SI;
    Duration "min" = 60.0, ["mins", "minute", "minutes"], SI;
    Duration "h" = 3600.0, ["hr", "hrs", "hour", "hours"], SI;
    Duration "d" = DAY_S, ["day", "days"], SI;
    Duration "wk" = 7.0 * DAY_S, ["week", "weeks"], "seven days";
    Duration "yr" = 365.25 * DAY_S, ["year", "years", "a"], "Julian year of 365.25 d, as in the IAU style manual";
    Number "" = 1.0, [], "a pure number";
    Number "%" = 0.01, ["percent", "per cent", "pct"], "one hundredth";
    Angle "°" = 1.0, ["deg", "degree", "degrees"], "degree of arc";
};

static TEMPERATURES: &[Unit] = &[
    Unit {
        symbol: "C",
        dimension: Dimension::Temperature,
        factor: 1.0,
        offset: 273.15,
        spellings: &["°c", "deg c", "degc", "celsius", "degrees c", "degrees celsius"],
        definition: SI,
    },
    Unit {
        symbol: "F",
        dimension: Dimension::Temperature,
        factor: 5.0 / 9.0,
        offset: 273.15 - 32.0 * 5.0 / 9.0,
        spellings: &["°f", "deg f", "degf", "fahrenheit", "degrees f", "degrees fahrenheit"],
        definition: "NIST SP 811, appendix B",
    },
    Unit {
        symbol: "K",
        dimension: Dimension::Temperature,
        factor: 1.0,
        offset: 0.0,
        spellings: &["kelvin"],
        definition: SI,
    },
];

/// Spellings that mean one of two units, until the campaign says which gallon it uses.
static BARE: &[(&[&str], &str, &str)] = &[
    (
        &[
            "gal", "gals", "gallon", "gallons", "gal.", "galon", "galones", "galón", "galoes", "galões", "galao",
            "galão",
        ],
        "US gal",
        "imp gal",
    ),
    (&["gpm", "gal/min", "gallons per minute", "gallons/min", "gallon per minute"], "US gpm", "imp gpm"),
    (&["qt", "qts", "quart", "quarts"], "US qt", "imp qt"),
    (&["pt", "pts", "pint", "pints"], "US pt", "imp pt"),
    (&["fl oz", "floz", "fluid ounce", "fluid ounces", "fl. oz.", "fl. oz"], "US fl oz", "imp fl oz"),
];

/// Every unit there is.
pub fn all() -> impl Iterator<Item = &'static Unit> {
    UNITS.iter().chain(TEMPERATURES)
}

/// The unit with this printed symbol.
pub fn by_symbol(symbol: &str) -> Option<&'static Unit> {
    static SYMBOLS: OnceLock<HashMap<&'static str, &'static Unit, FixedState>> = OnceLock::new();
    SYMBOLS.get_or_init(|| all().map(|unit| (unit.symbol, unit)).collect()).get(symbol).copied()
}

/// What a written unit means.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Meaning {
    /// It can only mean this unit, or the campaign has said which gallon it uses.
    Unit(&'static Unit),
    /// A US or an imperial unit: the campaign must say which gallon it uses.
    EitherGallon,
}

/// Looks a written unit up, without regard to case or to blanks around it and around a slash. `None`: not a unit we know.
pub fn look_up(written: &str, gallon: Option<Gallon>) -> Option<Meaning> {
    // Most cells hold a short ASCII unit: no text is built for them.
    let mut buffer = [0; LONGEST];
    let entry = match fold_ascii(written, &mut buffer) {
        Some(folded) => index().get(folded)?,
        None => index().get(fold(written).as_str())?,
    };
    found(entry, gallon)
}

/// Longer than any spelling.
const LONGEST: usize = 40;

/// What the index holds: one unit, or the US and the imperial one.
#[derive(Clone, Copy)]
enum Entry {
    One(&'static Unit),
    Either(&'static Unit, &'static Unit),
}

fn found(entry: &Entry, gallon: Option<Gallon>) -> Option<Meaning> {
    Some(match (*entry, gallon) {
        (Entry::One(unit), _) => Meaning::Unit(unit),
        (Entry::Either(..), None) => Meaning::EitherGallon,
        (Entry::Either(us, _), Some(Gallon::Us)) => Meaning::Unit(us),
        (Entry::Either(_, imperial), Some(Gallon::Imperial)) => Meaning::Unit(imperial),
    })
}

fn index() -> &'static HashMap<String, Entry, FixedState> {
    static INDEX: OnceLock<HashMap<String, Entry, FixedState>> = OnceLock::new();
    INDEX.get_or_init(|| {
        let mut index = HashMap::default();
        for unit in all().filter(|unit| !unit.symbol.is_empty()) {
            for spelling in std::iter::once(&unit.symbol).chain(unit.spellings) {
                index.entry(fold(spelling)).or_insert(Entry::One(unit));
            }
        }
        for (spellings, us, imperial) in BARE {
            if let (Some(us), Some(imperial)) = (by_symbol(us), by_symbol(imperial)) {
                for spelling in *spellings {
                    index.insert(fold(spelling), Entry::Either(us, imperial));
                }
            }
        }
        index
    })
}

/// What [`fold`] makes of a short text in ASCII without a slash between blanks; nothing for any other.
fn fold_ascii<'a>(written: &str, buffer: &'a mut [u8; LONGEST]) -> Option<&'a str> {
    let mut length = 0_usize;
    for byte in written.trim_ascii().bytes() {
        let before = length.checked_sub(1).map_or(b' ', |last| buffer[last]);
        match byte {
            b' ' if before == b' ' => continue,
            b' ' if before == b'/' => return None,
            b'/' if before == b' ' => return None,
            b' '..=b'~' => *buffer.get_mut(length)? = byte.to_ascii_lowercase(),
            _ => return None,
        }
        length += 1;
    }
    std::str::from_utf8(&buffer[..length]).ok()
}

/// Lower case, inner blanks single, no outer blanks, no blanks around a slash.
fn fold(written: &str) -> String {
    written.split_whitespace().collect::<Vec<_>>().join(" ").replace(" / ", "/").replace("/ ", "/").to_lowercase()
}
