//! Columns that say something of the column beside them: the unit of its values, or a sign before each.
//!
//! `DEPTH_UOM` beside `DEPTH`, `WELL_YIELD_MODIFIER` beside `WELL_YIELD_GPM`. Found by their heading, or named by the
//! scenario file. Refuses to decide which column feeds a field.

pub mod finish;
pub mod level;

use super::cell::CellRules;
use super::heading::{self, Datum, HeadingUnit};
use super::lexicon;
use super::table::Opened;
use crate::field::rules::{Beside, ReadingRules};
use crate::field::species::{self, Species};
use crate::field::{Field, Kind};
use crate::finding::{Code, catalogue};
use crate::quantity::parse::Reference;
use crate::quantity::unit::{self, Gallon, Meaning, Unit};

/// Endings of a heading that make it the unit of the column with the same beginning.
const UNITS: &[&str] =
    &["unitofmeasurement", "unitofmeasure", "unitsofmeasure", "unitcode", "units", "unit", "uom", "unidad"];

/// Endings that make a heading the sign of the column with the same beginning.
const QUALIFIERS: &[&str] = &["modifier", "qualifier", "qualifiercode", "sign"];

/// The same, where at least one cell holds such a sign: otherwise they are remarks in words.
const REMARKS: &[&str] = &["remark", "remarks", "remarkcode", "remarkcd"];

/// A column that says something of another.
#[derive(Debug, Clone, Copy)]
pub struct Aside {
    /// Where the column stands that says it.
    pub column: usize,
    /// What its cells say of the measure beside them.
    pub says: Beside,
    owner: Owner,
}

#[derive(Debug, Clone, Copy)]
enum Owner {
    Column(usize),
    Field(Field),
}

impl Aside {
    /// Whether it speaks of this column, which feeds this field.
    pub fn is_of(&self, column: usize, field: Field) -> bool {
        match self.owner {
            Owner::Column(owner) => owner == column,
            Owner::Field(owner) => owner == field,
        }
    }
}

/// The columns that say something of others. `named` tells what field a column was found to name.
pub fn columns(table: &Opened, rules: &ReadingRules, named: impl Fn(usize) -> Option<Field>) -> Vec<Aside> {
    let plain: Vec<String> = table.headings.iter().map(|heading| heading::squash(heading)).collect();
    let mut found = Vec::new();
    for (column, name) in plain.iter().enumerate() {
        if let Some((_, says, field)) = heading::mapped_beside(&table.headings[column], rules) {
            found.push(Aside { column, says, owner: Owner::Field(field) });
            continue;
        }
        if heading::mapped(&table.headings[column], rules).is_some() {
            continue; // Named by hand, so it is what its owner says it is.
        }
        let stem = |endings: &[&str]| {
            endings.iter().find_map(|ending| name.strip_suffix(ending)).filter(|stem| !stem.is_empty())
        };
        let (says, stem) = if let Some(stem) = stem(UNITS) {
            (Beside::Unit, stem)
        } else if let Some(stem) = stem(QUALIFIERS) {
            (Beside::Qualifier, stem)
        } else if let Some(stem) = stem(REMARKS).filter(|_| holds_signs(table, column)) {
            (Beside::Qualifier, stem)
        } else if let Some(owner) = unit_of_column_before(table, column, &named) {
            found.push(Aside { column, says: Beside::Unit, owner: Owner::Column(owner) });
            continue;
        } else {
            continue;
        };
        let measured = |field: &Field| matches!(field.definition().kind, Kind::Quantity(_));
        let own = plain
            .iter()
            .position(|other| other == stem)
            .filter(|owner| named(*owner).map_or(says == Beside::Unit, |field| measured(&field)));
        let owner = own.map(Owner::Column).or_else(|| {
            // `well_yield_unit_code` belongs to `well_yield_usgpm` as well.
            let field = Some(heading::name(stem, None)?.field).filter(measured)?;
            (0..plain.len()).find(|at| *at != column && named(*at) == Some(field)).map(Owner::Column)
        });
        if let Some(owner) = owner
            && !matches!(owner, Owner::Column(owner) if owner == column)
        {
            found.push(Aside { column, says, owner });
        }
    }
    found
}

/// The measured column right before one that holds nothing but units, and whose heading speaks of units or of nothing: `Unit
/// for the bottom`, `U.`, `in/ft`, a blank one. Cells in two different units are told by themselves, whatever the heading is.
fn unit_of_column_before(table: &Opened, column: usize, named: impl Fn(usize) -> Option<Field>) -> Option<usize> {
    const WORDS: [&str; 14] = [
        "unit", "units", "uom", "um", "unid", "und", "u", "unidad", "unidades", "unite", "unites", "unidade", "inches",
        "feet",
    ];
    let owner = column.checked_sub(1)?;
    let dimension = named(owner)?.quantity()?.dimension;
    let look_up = |text: &str| match unit::look_up(text, Some(Gallon::Us)) {
        Some(Meaning::Unit(unit)) if unit.dimension == dimension => Some(unit.symbol),
        _ => None,
    };
    let words = lexicon::tokens(&table.headings[column]);
    let speaks = words.iter().any(|word| WORDS.contains(&word.as_str()));
    // `in/ft`, `ft or in`, `m - cm`: the units to choose from.
    let chooses = words.len() >= 2
        && words.iter().all(|word| look_up(word).is_some() || ["or", "o", "ou", "y", "and"].contains(&word.as_str()));
    let filled: Vec<&str> = table.filled(column).collect();
    let units: Vec<&str> = filled.iter().filter_map(|cell| look_up(cell)).collect();
    let told = units.len() * 10 >= filled.len() * 8;
    let two = units.iter().any(|unit| *unit != units[0]);
    // `in` alone under another heading may be in or out.
    let enough = if words.is_empty() || speaks || chooses { units.len() >= 3 } else { units.len() >= 4 && two };
    (told && enough).then_some(owner)
}

/// What a word in a column of references says that a level is counted from.
pub fn reference(written: &str) -> Option<Reference> {
    let folded = lexicon::fold(written.trim());
    // `The ground`, `From the top of the casing`, as a survey has it.
    let words = ["from", "at", "on", "the", "a", "of"];
    let short: Vec<&str> = folded.split_whitespace().filter(|word| !words.contains(word)).collect();
    let short = short.join(" ");
    Some(match short.trim_end_matches('.') {
        "bgl" | "bgs" | "bls" | "gl" | "gs" | "ls" | "lsd" | "ns" | "ngl" | "natural surface" | "ground" | "grade"
        | "below ground" | "ground level" | "land surface" | "sol" | "suelo" | "solo" | "piso" | "nivel piso"
        | "nivel suelo" | "terreno" | "chao" | "tn" | "g" | "grd" => Reference::Ground,
        "toc" | "btoc" | "btc" | "tc" | "top casing" | "top pipe" | "casing top" | "pipe" | "edge" | "casing"
        | "top" | "t" | "rim" | "mp" | "collar" | "curb" | "margelle" | "brocal" | "bocal" | "below top casing" => {
            Reference::Top
        }
        "asl" | "amsl" | "msl" | "masl" | "sea level" => Reference::SeaLevel,
        _ => return None,
    })
}

/// The column whose cells say what levels are counted from.
pub fn reference_column(table: &Opened, taken: &[bool]) -> Option<usize> {
    (0..table.headings.len()).filter(|column| !taken.get(*column).copied().unwrap_or(false)).find(|column| {
        let known = table.filled(*column).filter(|cell| reference(cell).is_some()).count();
        known >= 4 && known * 10 >= table.filled(*column).count() * 8
    })
}

fn holds_signs(table: &Opened, column: usize) -> bool {
    table.filled(column).any(|cell| matches!(Qualifier::of(cell), Some(Qualifier::Sign(_))))
}

/// What a cell with a sign says of the value beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Qualifier {
    /// What it would be if it stood before the number in one cell.
    Sign(&'static str),
    /// The value is just that.
    Exact,
}

impl Qualifier {
    /// Reads a sign; `None` where it is not one that is known.
    ///
    /// Letters are those of laboratories: U not detected at this limit, J and E estimated (data qualifiers of the US EPA
    /// and remark codes of the US Geological Survey, from memory).
    pub fn of(written: &str) -> Option<Self> {
        let folded = written.to_lowercase();
        Some(match folded.trim_end_matches('.') {
            "<" | "<=" | "≤" | "lt" | "less than" | "below" | "u" | "nd" | "not detected" => Self::Sign("<"),
            ">" | ">=" | "≥" | "+" | "gt" | "greater than" | "more than" | "over" => Self::Sign(">"),
            "~" | "≈" | "±" | "e" | "j" | "c" | "ca" | "est" | "estimated" | "estimate" | "approx" | "about" => {
                Self::Sign("estimated ")
            }
            "=" | "eq" | "exact" => Self::Exact,
            _ => return None,
        })
    }
}

/// What a unit beside a value says.
#[derive(Debug, Clone, Copy)]
pub struct UnitWritten {
    /// The unit that the cell names.
    pub unit: &'static Unit,
    /// What its mg/L are counted as, where it says.
    pub species: Option<&'static Species>,
    /// Whether it is counted from the top of the casing, as in `ft btoc`.
    pub from_top: bool,
}

/// The unit, and what it counts as, that stands in a column beside a value; `None` where nothing is written.
///
/// # Errors
/// A finding's code and words, where it is not a unit of this field.
pub fn unit_written(
    written: &str,
    field: Field,
    cells: &CellRules,
    gallon: Option<Gallon>,
) -> Result<Option<UnitWritten>, (Code, String)> {
    let written = written.trim();
    if written.is_empty() || cells.is_missing(written) {
        return Ok(None);
    }
    let dimension = field.quantity().map(|quantity| quantity.dimension);
    let (bare, species) = species::at_end(field, written);
    let found = unit::look_up(bare, gallon);
    if found.is_none()
        && let (HeadingUnit::Unit(unit), Some(datum), _) = heading::unit_below(bare, field, gallon)
        && Some(unit.dimension) == dimension
    {
        // `fbgs`, `m asl`: unit and datum in one.
        return match datum {
            Datum::Ground | Datum::TopOfCasing => {
                Ok(Some(UnitWritten { unit, species, from_top: datum == Datum::TopOfCasing }))
            }
            Datum::SeaLevel => Err((
                catalogue::ELEVATION_FOR_DEPTH,
                format!("by the unit beside it, \"{written}\", this is an elevation, not a depth"),
            )),
        };
    }
    match found {
        Some(Meaning::Unit(unit)) if Some(unit.dimension) == dimension => {
            Ok(Some(UnitWritten { unit, species, from_top: false }))
        }
        Some(Meaning::Unit(unit)) => Err((
            catalogue::UNIT_OF_OTHER_DIMENSION,
            format!("the unit beside it, \"{written}\", is of {}", unit.dimension.name()),
        )),
        Some(Meaning::EitherGallon) => Err((
            catalogue::GALLON_UNDECLARED,
            format!("the unit beside it, \"{written}\", is a US or an imperial measure, and nothing says which"),
        )),
        None => Err((catalogue::UNIT_BESIDE_UNKNOWN, format!("the unit beside it, \"{written}\", is not known"))),
    }
}
