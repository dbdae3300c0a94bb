//! What the mg/L of a constituent are counted as: nitrite as NO2 or as N, alkalinity as HCO3 or as CaCO3.
//!
//! A laboratory reports a constituent as the species it found or as the element that matters. The factor from one to the
//! other is a ratio of molar masses, here of the standard atomic weights (IUPAC, abridged, 2021), which `kernel` uses too.

use super::Field;

/// A species that the mg/L of a field may be counted as.
#[derive(Debug, PartialEq)]
pub struct Species {
    /// The field whose mg/L may be counted as it.
    pub field: Field,
    /// How it is written.
    pub symbol: &'static str,
    /// What its mg/L are multiplied by to be those of the field.
    pub factor: f64,
}

impl Species {
    /// What the field itself is counted as.
    pub fn of_field(&self) -> &'static str {
        let own = SPECIES.iter().find(|species| species.field == self.field);
        own.map_or(self.symbol, |own| own.symbol)
    }
}

// Standard atomic weights, abridged to five figures, g/mol: IUPAC 2021.
const H: f64 = 1.008;
const C: f64 = 12.011;
const N: f64 = 14.007;
const O: f64 = 15.999;
const S: f64 = 32.06;
const CA: f64 = 40.078;

const CARBONATE: f64 = C + 3.0 * O;
const CALCIUM_CARBONATE: f64 = CA + CARBONATE;

const fn species(field: Field, symbol: &'static str, factor: f64) -> Species {
    Species { field, symbol, factor }
}

/// Every species; the first of a field is the one that the field itself is counted as.
pub static SPECIES: [Species; 13] = [
    species(Field::Alkalinity, "CaCO3", 1.0),
    // Alkalinity is counted in charges: two of bicarbonate, one of carbonate make up one CaCO3.
    species(Field::Alkalinity, "HCO3", CALCIUM_CARBONATE / (2.0 * (H + CARBONATE))),
    species(Field::Alkalinity, "CO3", CALCIUM_CARBONATE / CARBONATE),
    species(Field::Iron, "Fe", 1.0),
    species(Field::Manganese, "Mn", 1.0),
    species(Field::Sulfide, "H2S", 1.0),
    species(Field::Sulfide, "S", (2.0 * H + S) / S),
    species(Field::AmmoniaN, "N", 1.0),
    species(Field::AmmoniaN, "NH3", N / (N + 3.0 * H)),
    species(Field::AmmoniaN, "NH4", N / (N + 4.0 * H)),
    species(Field::NitriteN, "N", 1.0),
    species(Field::NitriteN, "NO2", N / (N + 2.0 * O)),
    species(Field::OrganicCarbon, "C", 1.0),
];

/// A concentration as the field counts it.
pub fn counted(si: f64, counted_as: Option<&'static Species>) -> f64 {
    counted_as.map_or(si, |species| si * species.factor)
}

/// The species of this field that is written so, without regard to case, charge and small figures.
pub fn named(field: Field, written: &str) -> Option<&'static Species> {
    let mut plain = folded(written);
    if plain.eq_ignore_ascii_case("calciumcarbonate") {
        "CaCO3".clone_into(&mut plain);
    }
    SPECIES.iter().find(|species| species.field == field && species.symbol.eq_ignore_ascii_case(&plain))
}

/// The species that a heading names outright: `NO2 (mg/L)` is nitrite, counted as NO2.
pub fn alone(written: &str) -> Option<&'static Species> {
    // `No. 2` is a number of something.
    let plain = written.trim_end_matches(['+', '-']);
    if !plain.chars().all(char::is_alphanumeric) {
        return None;
    }
    let plain = folded(plain);
    let symbol = if plain.eq_ignore_ascii_case("ammonium") { "NH4" } else { plain.as_str() };
    SPECIES
        .iter()
        .filter(|species| ["NO2", "NH3", "NH4"].contains(&species.symbol))
        .find(|species| species.symbol.eq_ignore_ascii_case(symbol))
}

/// Cuts ` as NO2`, ` NO2` or `-NO2` off the end of a unit, or `NO2` alone, where it is a species of this field.
pub fn at_end(field: Field, written: &str) -> (&str, Option<&'static Species>) {
    if !SPECIES.iter().any(|species| species.field == field) {
        return (written, None);
    }
    let uncharged = written.trim_end_matches(['+', '-']);
    let before = |end: usize| uncharged[..end].rfind([' ', '-', '_']).map_or(0, |at| at + 1);
    let last = before(uncharged.len());
    // Three words and two first: the end of `Ca CO3` and of `Ca CO 3` is not a carbonate.
    let two = before(last.saturating_sub(1));
    let three = before(two.saturating_sub(1));
    let found = [three, two, last].into_iter().find_map(|tail| Some((tail, named(field, &uncharged[tail..])?)));
    let Some((tail, species)) = found else { return (written, None) };
    let rest = uncharged[..tail].trim_end_matches([' ', '-', '_']);
    let without_as = rest.len().checked_sub(2).and_then(|at| Some((rest.get(..at)?, rest.get(at..)?)));
    match without_as {
        Some((before, "as" | "As" | "AS")) if before.is_empty() || before.ends_with([' ', '-', '_', ',']) => {
            (before.trim_end_matches([' ', '-', '_', ',']), Some(species))
        }
        _ => (rest, Some(species)),
    }
}

/// Cuts `as NO2` out of a heading, wherever it stands: the heading without it, and the species as written.
pub fn out_of(heading: &str) -> Option<(String, &str)> {
    let letter = |c: char| c.is_alphanumeric();
    let mut from = 0;
    while let Some(found) = heading[from..].to_ascii_lowercase().find("as") {
        let (start, end) = (from + found, from + found + 2);
        let alone = !heading[..start].ends_with(letter) && !heading[end..].starts_with(letter);
        let gap = heading[end..].len() - heading[end..].trim_start_matches([' ', '_', '-']).len();
        let rest = &heading[end + gap..];
        let word = |from: usize| from + rest[from..].find(|c: char| !letter(c)).unwrap_or(rest.len() - from);
        let one = word(0);
        // `as Ca CO3`, `as calcium carbonate`, `as Ca CO 3`: more words first.
        let next = |end: usize| rest[end..].chars().next().map_or(end, |c| word(end + c.len_utf8()));
        let two = next(one);
        let three = next(two);
        let known = |symbol: &&str| SPECIES.iter().any(|species| named(species.field, symbol).is_some());
        if let Some(symbol) =
            [&rest[..three], &rest[..two], &rest[..one]].into_iter().find(known).filter(|_| alone && gap > 0)
        {
            let after = heading[end + gap + symbol.len()..].trim_start_matches(['-', '+']);
            return Some((format!("{}{after}", heading[..start].trim_end_matches([' ', '_', '-', ','])), symbol));
        }
        from = end;
    }
    None
}

/// What a heading without `as` ends in, for each field that may be meant: the heading before it, and the species.
pub fn endings(heading: &str) -> impl Iterator<Item = (&str, &'static Species)> {
    let mut fields: Vec<Field> = SPECIES.iter().map(|species| species.field).collect();
    fields.dedup();
    fields.into_iter().filter_map(move |field| {
        let (rest, species) = at_end(field, heading);
        Some((rest, species.filter(|_| !rest.is_empty())?))
    })
}

/// Letters and figures, with figures written small made large and charges left out.
fn folded(written: &str) -> String {
    let plain: String = written
        .chars()
        .map(|c| match c {
            '₂' => '2',
            '₃' => '3',
            '₄' => '4',
            c => c,
        })
        .filter(|c| c.is_alphanumeric())
        .collect();
    // S2-: the figure belongs to the charge.
    if plain.eq_ignore_ascii_case("s2") { "S".to_owned() } else { plain }
}
