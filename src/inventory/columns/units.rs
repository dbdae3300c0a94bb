//! In which unit the bare numbers of a column are where nobody states it: by the cells themselves, the columns beside it, the
//! language, and last by the campaign's system.

use crate::field::rules::ReadingRules;
use crate::field::{Field, WellType, usual as usual_of_type};
use crate::inventory::lexicon::Language;
use crate::inventory::profile::Profile;
use crate::quantity::unit::{self, Unit};

/// How the unit of a column came about.
#[derive(Debug, Clone, PartialEq)]
pub enum Source {
    /// The heading or a row of units says it.
    Heading,
    /// A group above the headings or a note beside the table says it, in these words.
    Note(String),
    /// The cells say it themselves: of so many with a unit, so many say this one.
    Cells {
        /// Cells that write this unit.
        agree: usize,
        /// Cells that write any.
        written: usize,
        /// Cells that write none.
        bare: usize,
    },
    /// Only in this unit are the values usual: the share of them in percent, and in the next best unit.
    Values {
        /// Percent of the values that are usual in this unit.
        share: usize,
    },
    /// In the unit that was stated beside the column hardly any value would be usual; in this one nearly all are.
    Instead {
        /// The unit that is not taken.
        refused: &'static str,
        /// Percent of the values that are usual in the unit taken.
        share: usize,
    },
    /// Lists in this language are metric, unless they say something else.
    Language(&'static str),
    /// Other columns of the list are in units that go with it: the heading of one of them.
    Beside(String),
}

/// A unit, and why.
#[derive(Debug, Clone)]
pub struct Settled {
    /// That of bare numbers.
    pub unit: &'static Unit,
    /// What it rests on.
    pub source: Source,
}

/// Too few cells with a unit prove nothing.
const FEWEST_WRITTEN: usize = 3;

/// The unit that the cells write, where most of those that write one agree.
pub fn by_cells(field: Field, profile: &Profile, typed: &[(WellType, f64)]) -> Option<Settled> {
    let (unit, agree) = profile.written_unit()?;
    // Cells that write `1,2 m` among bare 120 say that the bare ones are something else.
    let suits = profile.numbers.is_empty() || share_usual(field, profile, typed, unit) >= 0.6;
    if !suits && super::is_diameter(field) {
        return None;
    }
    let written = profile.lengths.len();
    let enough = agree >= FEWEST_WRITTEN && agree * 10 >= written * 7;
    let source = Source::Cells { agree, written, bare: profile.numbers.len() };
    enough.then_some(Settled { unit, source })
}

/// The unit in which the values are usual, where there is only one.
pub fn by_values(field: Field, profile: &Profile, typed: &[(WellType, f64)]) -> Option<Settled> {
    if profile.numbers.len() < 6 {
        return None;
    }
    let usual = |unit: &Unit| share_usual(field, profile, typed, unit);
    let candidates: &[&str] = match field {
        Field::CasingDiameter | Field::CasingOutsideDiameter | Field::OpenHoleDiameter => &["in", "mm", "cm"],
        Field::StickUp => &["cm", "m", "ft", "in"],
        Field::WallThickness => &["in", "mm", "mil"],
        Field::TotalDepth => &["ft", "m"],
        _ => return None,
    };
    let mut shares: Vec<(f64, &'static Unit)> =
        candidates.iter().filter_map(|symbol| unit::by_symbol(symbol)).map(|unit| (usual(unit), unit)).collect();
    shares.sort_by(|a, b| b.0.total_cmp(&a.0));
    let [(best, unit), (next, _), ..] = shares.as_slice() else { return None };
    let source = Source::Values { share: (best * 100.0).round() as usize };
    (*best >= 0.8 && *next <= 0.35).then_some(Settled { unit, source })
}

/// What is to be made of a unit that does not stand in the column's own heading.
pub enum Trust {
    /// The values do not speak against it.
    Kept,
    /// Hardly any value is usual in it, and nearly all are in this one.
    Instead(Settled),
    /// Hardly any value is usual in it, and no other unit, or more than one, would do.
    Open,
}

/// Whether the values are usual in a unit that a note, a neighbor or the whole list gave: of depths and widths, by the types
/// of the wells.
pub fn trust(field: Field, profile: &Profile, typed: &[(WellType, f64)], unit: &'static Unit) -> Trust {
    /// Fewer numbers prove nothing.
    const FEWEST: usize = 6;
    const NEARLY_ALL: f64 = 0.9;
    let candidates: &[&str] = match field {
        Field::TotalDepth => &["ft", "m", "cm"],
        _ if super::is_diameter(field) => &["in", "ft", "mm", "cm", "m"],
        _ => return Trust::Kept,
    };
    let usual = |unit: &Unit| share_usual(field, profile, typed, unit);
    let as_read = usual(unit);
    // Where nearly all wells have a unit of their type, the rest proves nothing.
    let told = typed.is_empty() || typed.len() >= FEWEST;
    if profile.numbers.len() < FEWEST || !told || as_read >= 0.5 {
        return Trust::Kept;
    }
    let fitting: Vec<&'static Unit> = candidates
        .iter()
        .filter_map(|symbol| unit::by_symbol(symbol))
        .filter(|other| other.symbol != unit.symbol && usual(other) >= NEARLY_ALL)
        .collect();
    // Who said inches has feet rather than meters.
    let customary = |unit: &Unit| matches!(unit.symbol, "ft" | "in" | "yd");
    let alike: Vec<&'static Unit> =
        fitting.iter().copied().filter(|other| customary(other) == customary(unit)).collect();
    match (alike.as_slice(), fitting.as_slice()) {
        ([other], _) | ([], [other]) => Trust::Instead(Settled {
            unit: other,
            source: Source::Instead { refused: unit.symbol, share: (usual(other) * 100.0).round() as usize },
        }),
        _ => Trust::Open,
    }
}

/// Wells of a type below this number prove nothing.
const FEWEST_OF_TYPE: usize = 3;

/// The unit in which the values of each type of well are usual, where no single one suits all and each type has just one:
/// 3 to 6 of dug wells and 4 to 8 of drilled ones are feet and inches.
pub fn by_type(field: Field, typed: &[(WellType, f64)], customary: Option<bool>) -> Vec<(WellType, &'static Unit)> {
    let candidates: &[&str] = match customary {
        _ if !super::is_diameter(field) || field == Field::WallThickness => return Vec::new(),
        Some(true) => &["in", "ft"],
        Some(false) => &["mm", "cm", "m", "in"],
        None => &["in", "ft", "mm", "cm", "m"],
    };
    let mut fitting: Vec<(WellType, Vec<&'static Unit>)> = Vec::new();
    for well_type in WellType::ALL {
        let values: Vec<f64> = typed.iter().filter(|(of, _)| *of == well_type).map(|(_, value)| *value).collect();
        if values.len() < FEWEST_OF_TYPE {
            continue;
        }
        let (low, high) = common_width(well_type);
        let fits = |unit: &&Unit| {
            let fits = |value: &&f64| (low * 0.999..=high * 1.001).contains(&unit.to_si(**value));
            values.iter().filter(fits).count() * 10 >= values.len() * 9
        };
        let units: Vec<_> = candidates.iter().filter_map(|symbol| unit::by_symbol(symbol)).filter(fits).collect();
        if units.is_empty() {
            return Vec::new();
        }
        fitting.push((well_type, units));
    }
    let only: Vec<&'static Unit> =
        fitting.iter().filter_map(|(_, units)| if let [unit] = units[..] { Some(unit) } else { None }).collect();
    let mut settled = Vec::new();
    for (well_type, units) in &fitting {
        // Where several suit a type, the one that another type needs: nobody uses three units for one thing.
        let mut shared =
            units.iter().filter(|unit| units.len() == 1 || only.iter().any(|one| std::ptr::eq(*one, **unit)));
        let (Some(unit), None) = (shared.next(), shared.next()) else { return Vec::new() };
        settled.push((*well_type, *unit));
    }
    // One unit for all is the matter of `by_values`.
    let differ = settled.windows(2).any(|pair| !std::ptr::eq(pair[0].1, pair[1].1));
    if differ { settled } else { Vec::new() }
}

/// How wide nearly all wells of a type are, in metres: narrower than what is merely usual, to tell units apart. Common
/// practice, no source.
const fn common_width(well_type: WellType) -> (f64, f64) {
    const INCH: f64 = crate::quantity::unit::INCH_M;
    match well_type {
        WellType::Drilled => (3.5 * INCH, 16.0 * INCH),
        WellType::Driven => (1.0 * INCH, 4.0 * INCH),
        WellType::Bored => (8.0 * INCH, 60.0 * INCH),
        WellType::Dug | WellType::SpringBox => (24.0 * INCH, 120.0 * INCH),
    }
}

/// The share of the bare numbers that are usual in a unit: by the type of each well, where types are known, for 120 is no
/// dug well's millimeters and no drilled well's centimeters.
fn share_usual(field: Field, profile: &Profile, typed: &[(WellType, f64)], unit: &Unit) -> f64 {
    if typed.len() * 2 < profile.numbers.len() || typed.is_empty() {
        return profile.within(unit, usual(field));
    }
    let fits = |(well_type, written): &&(WellType, f64)| {
        usual_of_type(*well_type, field)
            .is_none_or(|(low, high)| (low * 0.999..=high * 1.001).contains(&unit.to_si(*written)))
    };
    typed.iter().filter(fits).count() as f64 / typed.len() as f64
}

/// What a length usually is, in metres, whatever the type of well: pipes of 1 1/4 to 16 in and pits of 2 to 8 ft across.
const fn usual(field: Field) -> (f64, f64) {
    match field {
        Field::CasingDiameter | Field::CasingOutsideDiameter | Field::OpenHoleDiameter => (0.03, 2.5),
        Field::StickUp => (0.05, 1.5),
        Field::WallThickness => (0.002, 0.3),
        Field::WaterColumn | Field::StaticWaterLevel => (0.1, 200.0),
        _ => (2.0, 300.0),
    }
}

/// The unit that goes with those of the other columns of lengths.
pub fn by_neighbors(field: Field, profile: &Profile, known: &[(Field, &'static Unit, String)]) -> Option<Settled> {
    let diameter = super::is_diameter(field);
    let alike = known.iter().find(|(of, ..)| super::is_diameter(*of) == diameter && !is_small(*of));
    let other = known.iter().find(|(of, ..)| !is_small(*of));
    let (unit, heading) = match (alike, other) {
        (Some((_, unit, heading)), _) if !is_small(field) => (*unit, heading),
        // Inches across say nothing of how depths are measured: half the world drills by the inch and tapes by the meter.
        (_, Some((_, unit, heading))) if diameter || is_small(field) => {
            let customary = matches!(unit.symbol, "ft" | "in" | "yd");
            let symbols: &[&str] = match (customary, diameter, is_small(field)) {
                (true, true, _) => &["in", "ft"],
                (true, false, true) => &["ft", "in"],
                (true, false, false) => &["ft"],
                (false, true, _) => &["mm", "cm", "m"],
                (false, false, true) => &["m", "cm"],
                (false, false, false) => &["m"],
            };
            let fits = |symbol: &&&str| {
                unit::by_symbol(symbol)
                    .is_some_and(|unit| profile.within(unit, usual(field)) >= 0.6 || profile.numbers.is_empty())
            };
            let symbol = symbols.iter().find(fits)?;
            (unit::by_symbol(symbol)?, heading)
        }
        _ => return None,
    };
    let fits = profile.numbers.is_empty() || profile.within(unit, usual(field)) >= 0.5 || !diameter;
    fits.then(|| Settled { unit, source: Source::Beside(heading.clone()) })
}

/// The metric unit of a list that is written in a language of metric countries, where the values suit it.
pub fn by_language(field: Field, profile: &Profile, language: Language) -> Option<Settled> {
    if language == Language::English {
        return None;
    }
    let symbols: &[&str] = if is_small(field) {
        &["cm", "m"]
    } else if super::is_diameter(field) {
        &["mm", "cm", "m"]
    } else {
        &["m"]
    };
    let fits = |symbol: &&&str| {
        unit::by_symbol(symbol)
            .is_some_and(|unit| profile.within(unit, usual(field)) >= 0.8 || profile.numbers.is_empty())
    };
    // Two units that suit a diameter or a rim alike are asked.
    let fitting: Vec<&&str> = symbols.iter().filter(fits).collect();
    let [symbol] = fitting.as_slice() else { return None };
    Some(Settled { unit: unit::by_symbol(symbol)?, source: Source::Language(language.name()) })
}

const fn is_small(field: Field) -> bool {
    matches!(field, Field::StickUp | Field::WallThickness)
}

/// The usual unit of the campaign's system.
pub fn of_system(field: Field, rules: &ReadingRules) -> Option<&'static Unit> {
    let units = field.quantity()?.default_units?;
    unit::by_symbol(units[rules.system?.index()])
}

/// The words of a note, shortened.
pub fn quoted(note: &str) -> String {
    let note = note.trim();
    if note.chars().count() <= 80 {
        return note.to_owned();
    }
    format!("{}…", note.chars().take(78).collect::<String>().trim_end())
}
