//! Columns that say for each row in which units it measures: `U_CD` with E for feet and inches and S for meters and
//! millimeters, or a pair of ticks, `in feet` and `in meters`.

use std::collections::BTreeSet;

use super::super::heading;
use super::super::multiple_choice::{holds_ticks, is_ticked, without_number};
use super::super::notes::{self, About};
use super::super::table::Opened;
use super::{Feed, is_diameter};
use crate::field::Field;
use crate::field::rules::ReadingRules;
use crate::inventory::lexicon::{self, Language};
use crate::quantity::unit::{Dimension, Unit};

/// Different words of a column that may be units; a column with more says something else.
const MOST_WORDS: usize = 5;

/// What one answer says.
#[derive(Debug, Clone, PartialEq)]
struct Choice {
    column: usize,
    /// The code, folded; nothing for a tick.
    code: Option<String>,
    depths: Option<&'static Unit>,
    widths: Option<&'static Unit>,
    /// The units of the columns hold, as their headings say.
    as_headings: bool,
}

/// The columns that give each row its units.
#[derive(Debug, Clone, PartialEq)]
pub struct RowUnits {
    choices: Vec<Choice>,
    /// Units that a note gives for one column: that column, the code, the unit.
    own: Vec<(usize, String, &'static Unit)>,
    /// The height of the rim is measured as depths are, not as widths.
    rims_go_down: bool,
}

impl RowUnits {
    /// The columns that say in which unit each row is measured.
    pub fn columns(&self) -> impl Iterator<Item = usize> + '_ {
        self.choices.iter().map(|choice| choice.column)
    }

    /// Whether one column speaks of what goes down and another of what goes across.
    pub fn are_two_columns(&self) -> bool {
        self.rims_go_down
    }

    /// Whether they say in which unit a field is measured.
    pub fn concern(&self, field: Field) -> bool {
        let lengths = field.quantity().is_some_and(|quantity| quantity.dimension == Dimension::Length);
        lengths && self.choices.iter().any(|choice| choice.unit(field, self.rims_go_down).is_some())
    }

    /// The unit of a field in a row, whose column this is; nothing where the row says none, or two.
    pub fn of<'a>(&self, field: Field, feed: &Feed, cell: impl Fn(usize) -> &'a str) -> Option<&'static Unit> {
        let own = |choice: &Choice| {
            let of_choice =
                |(of, code, _): &&(usize, String, _)| *of == feed.column && Some(code) == choice.code.as_ref();
            self.own.iter().find(of_choice).map(|(.., unit)| *unit)
        };
        let unit = |choice: &Choice| own(choice).or_else(|| choice.unit(field, self.rims_go_down));
        let concerns = |choice: &&Choice| choice.as_headings || unit(choice).is_some();
        let holds = |choice: &&Choice| match &choice.code {
            Some(code) => lexicon::fold(cell(choice.column).trim()) == *code,
            None => is_ticked(cell(choice.column)),
        };
        let mut said = self.choices.iter().filter(concerns).filter(holds);
        match (said.next(), said.next()) {
            (Some(choice), None) => unit(choice).or(feed.unit.filter(|_| choice.as_headings)),
            _ => None,
        }
    }

    /// Whether some rows are measured as the headings say, and the others are not.
    pub fn overrule_headings(&self) -> bool {
        self.choices.iter().any(|choice| choice.as_headings)
    }

    /// In words: `E: ft and in, S: m and mm`.
    pub fn says(&self, headings: &[String]) -> String {
        let one = |choice: &Choice| {
            let code = match choice.code.as_deref() {
                Some("") => "blank",
                Some(code) => code,
                None => headings.get(choice.column).map_or("", String::as_str),
            };
            let units: Vec<&str> =
                [choice.depths, choice.widths].into_iter().flatten().map(|unit| unit.symbol).collect();
            let units = if choice.as_headings { "as the headings say".to_owned() } else { units.join(" and ") };
            format!("\"{code}\": {units}")
        };
        self.choices.iter().map(one).collect::<Vec<_>>().join(", ")
    }
}

impl Choice {
    fn unit(&self, field: Field, rims_go_down: bool) -> Option<&'static Unit> {
        let small = is_diameter(field) || field == Field::StickUp && !rims_go_down;
        if small { self.widths } else { self.depths }
    }
}

/// The columns of a table that give each row its units, where it has any.
pub fn find(table: &Opened, rules: &ReadingRules) -> Option<RowUnits> {
    by_ticks(table, rules).or_else(|| by_unit_columns(table, rules)).or_else(|| {
        (0..table.headings.len())
            .filter(|column| heading::mapped(&table.headings[*column], rules).is_none())
            .find_map(|column| by_codes(table, column).or_else(|| by_name(table, column)))
    })
}

/// Whether two answers say different units of one thing.
fn differ(choices: &[Choice]) -> bool {
    let several = |of: fn(&Choice) -> Option<&'static Unit>| {
        let units: BTreeSet<&str> = choices.iter().filter_map(of).map(|unit| unit.symbol).collect();
        units.len() > 1
    };
    several(|choice| choice.depths) || several(|choice| choice.widths)
}

/// Columns of ticks whose headings are units and nothing else: `in feet`, `in meters`.
fn by_ticks(table: &Opened, rules: &ReadingRules) -> Option<RowUnits> {
    let unit = |column: usize| {
        let heading = &table.headings[column];
        let words = lexicon::tokens(without_number(heading));
        let unit = notes::unit_of(&words, None).filter(|unit| unit.dimension == Dimension::Length)?;
        let others =
            words.iter().filter(|word| !["in", "en", "em", "unit", "units", "used", "was"].contains(&word.as_str()));
        (others.count() == 1 && heading::mapped(heading, rules).is_none()).then_some(unit)
    };
    let choices: Vec<Choice> = (0..table.headings.len())
        .filter(|column| holds_ticks(&table.sample, table.first_row, *column))
        .filter_map(|column| {
            let depths = unit(column).filter(|unit| matches!(unit.symbol, "ft" | "m"))?;
            Some(Choice { column, code: None, depths: Some(depths), widths: None, as_headings: false })
        })
        .collect();
    (choices.len() >= 2 && differ(&choices)).then(|| RowUnits { choices, own: Vec::new(), rims_go_down: false })
}

/// A column of a few codes that the file explains as units.
fn by_codes(table: &Opened, column: usize) -> Option<RowUnits> {
    let sheet = table.origin.sheet.as_deref().unwrap_or_default();
    let heading = &table.headings[column];
    if !table.legend.explains(sheet, heading) {
        return None;
    }
    let codes = few_codes(table, column)?;
    let choice = |code: &String| {
        let key = if code.is_empty() { "blank" } else { code.as_str() };
        let meaning = table.legend.meaning(sheet, heading, key)?;
        let (depths, widths) = units_in(meaning, table.layout.language);
        let found = Choice { column, code: Some(code.clone()), depths, widths, as_headings: false };
        (depths.is_some() || widths.is_some()).then_some(found)
    };
    let choices: Vec<Choice> = codes.iter().filter_map(choice).collect();
    (choices.len() >= 2 && differ(&choices)).then(|| RowUnits {
        own: of_columns(table, column, &choices),
        choices,
        rims_go_down: false,
    })
}

/// Units that notes give for a single column by the codes of another: `Csg up is ft on I cards, m on M cards`.
fn of_columns(table: &Opened, of_codes: usize, choices: &[Choice]) -> Vec<(usize, String, &'static Unit)> {
    let mut found = Vec::new();
    for sentence in table.layout.notes.iter().flat_map(|note| note.split(". ")) {
        // The column that the sentence begins with.
        let begins = |column: &usize| {
            let heading = &table.headings[*column];
            let rest = sentence.trim_start().strip_prefix(heading.as_str());
            *column != of_codes
                && heading.chars().count() > 1
                && rest.is_some_and(|rest| !rest.starts_with(char::is_alphanumeric))
        };
        let Some(column) = (0..table.headings.len()).filter(begins).max_by_key(|at| table.headings[*at].len()) else {
            continue;
        };
        let rest = &sentence.trim_start()[table.headings[column].len()..];
        let mut own: Vec<(usize, String, &'static Unit)> = Vec::new();
        for clause in rest.split([',', ';']) {
            let unit =
                notes::unit_of(&lexicon::tokens(clause), None).filter(|unit| unit.dimension == Dimension::Length);
            let written = |code: &str| {
                clause
                    .split_whitespace()
                    .map(|word| word.trim_matches(['.', '(', ')']))
                    .any(|word| word.chars().all(|letter| !letter.is_lowercase()) && lexicon::fold(word) == code)
            };
            let of = choices.iter().filter_map(|choice| choice.code.as_ref()).filter(|code| written(code));
            own.extend(unit.into_iter().flat_map(|unit| of.clone().map(move |code| (column, code.clone(), unit))));
        }
        if own.len() > 1 {
            found.extend(own);
        }
    }
    found
}

/// The codes of a column, folded; nothing where there are many.
fn few_codes(table: &Opened, column: usize) -> Option<BTreeSet<String>> {
    let sample = &table.sample;
    let mut codes: BTreeSet<String> = BTreeSet::new();
    for row in table.first_row..sample.len() {
        // A row of the foot has nothing else beside it.
        if (0..sample.width(row)).filter(|at| !sample.cell(row, *at).trim().is_empty()).count() > 3 {
            codes.insert(lexicon::fold(sample.cell(row, column).trim()));
        }
        if codes.len() > MOST_WORDS {
            return None;
        }
    }
    Some(codes)
}

/// The units of depths and of widths that words state.
fn units_in(meaning: &str, language: Language) -> (Option<&'static Unit>, Option<&'static Unit>) {
    // `feet and pipes in inches`: two units, each of something else.
    let parted = [" and ", " y ", " et ", " e ", " + ", "/"]
        .into_iter()
        .fold(meaning.to_owned(), |text, join| text.replace(join, ", "));
    let stated = notes::stated(&parted, language, None, &[]);
    let lengths = || stated.iter().filter(|stated| stated.unit.is_some_and(|unit| unit.dimension == Dimension::Length));
    let of = |abouts: &[About]| lengths().find(|stated| abouts.contains(&stated.about)).and_then(|stated| stated.unit);
    // `DIA_ and STKUP in inches`: rims are measured as widths are, where both are named.
    let widths = of(&[About::Diameters]).or_else(|| of(&[About::Heights]));
    let depths = of(&[About::Depths, About::Levels, About::All]);
    (depths, widths)
}

/// A column of codes that notes explain behind its heading, where some rows are measured as the headings say and others are
/// not: `Syst. M = metric, units of line 7. Syst. I = old card: depth in feet, casing in inches`.
fn by_name(table: &Opened, column: usize) -> Option<RowUnits> {
    const NOTHING: [&str; 7] = ["blank", "nothing", "empty", "rien", "vide", "nada", "vazio"];
    const JOINS: [&str; 5] = ["or", "ou", "o", "and", "et"];
    const METRIC: [&str; 5] = ["metric", "metrique", "metrico", "metrica", "normal"];
    let heading = table.headings[column].trim();
    if heading.chars().count() < 2 {
        return None;
    }
    let codes = few_codes(table, column)?;
    let mut choices: Vec<Choice> = Vec::new();
    for note in &table.layout.notes {
        let starts: Vec<usize> = note.match_indices(heading).map(|(at, _)| at + heading.len()).collect();
        for (at, start) in starts.iter().enumerate() {
            let end = starts.get(at + 1).map_or(note.len(), |next| next - heading.len());
            let Some((left, meaning)) = note[*start..end].split_once('=') else { continue };
            let named: Vec<String> = left.split_whitespace().map(lexicon::fold).collect();
            let named = named.into_iter().filter(|word| !JOINS.contains(&word.as_str()));
            let named: Vec<String> =
                named.map(|word| if NOTHING.contains(&word.as_str()) { String::new() } else { word }).collect();
            if named.is_empty() || named.len() > 3 || !named.iter().all(|code| codes.contains(code)) {
                continue;
            }
            let (depths, widths) = units_in(meaning, table.layout.language);
            let as_headings = depths.is_none()
                && widths.is_none()
                && lexicon::tokens(meaning).iter().any(|word| METRIC.contains(&word.as_str()));
            if depths.is_some() || widths.is_some() || as_headings {
                let choice = |code| Choice { column, code: Some(code), depths, widths, as_headings };
                choices.extend(named.into_iter().map(choice));
            }
        }
    }
    let own = choices.iter().any(|choice| choice.depths.is_some() || choice.widths.is_some());
    let as_headings = choices.iter().any(|choice| choice.as_headings);
    (own && as_headings).then(|| RowUnits { own: Vec::new(), choices, rims_go_down: false })
}

/// Two columns of units, one for what goes down and one for what goes across: `LEN_UOM` with m and ft, `DIA_UOM` with cm and
/// inch.
fn by_unit_columns(table: &Opened, rules: &ReadingRules) -> Option<RowUnits> {
    const FEWEST: usize = 4;
    let units_of = |column: usize| -> Option<Vec<(String, &'static Unit)>> {
        let codes = few_codes(table, column)?;
        let explained = explained_units(table, column);
        let unit = |code: &String| {
            let told = explained.iter().find(|(known, _)| known == code).map(|(_, unit)| *unit);
            Some((code.clone(), told.or_else(|| notes::unit_of(&lexicon::tokens(code), None))?))
        };
        let filled = codes.iter().filter(|code| !code.is_empty());
        let units: Vec<_> = filled.clone().filter_map(unit).collect();
        let lengths = units.iter().all(|(_, unit)| unit.dimension == Dimension::Length);
        let free = heading::mapped(&table.headings[column], rules).is_none() && table.filled(column).count() >= FEWEST;
        (free && lengths && !units.is_empty() && units.len() == filled.count()).then_some(units)
    };
    let found: Vec<(usize, Vec<(String, &'static Unit)>)> =
        (0..table.headings.len()).filter_map(|column| Some((column, units_of(column)?))).collect();
    let [(one, of_one), (other, of_other)] = found.as_slice() else { return None };
    let long = |units: &[(String, &'static Unit)]| units.iter().all(|(_, unit)| matches!(unit.symbol, "ft" | "m"));
    let short =
        |units: &[(String, &'static Unit)]| units.iter().all(|(_, unit)| matches!(unit.symbol, "in" | "cm" | "mm"));
    let ((down, of_down), (across, of_across)) = if long(of_one) && short(of_other) {
        ((*one, of_one), (*other, of_other))
    } else if short(of_one) && long(of_other) {
        ((*other, of_other), (*one, of_one))
    } else {
        return None;
    };
    let choice = |column: usize, (code, unit): &(String, &'static Unit), down: bool| Choice {
        column,
        code: Some(code.clone()),
        depths: Some(*unit).filter(|_| down),
        widths: Some(*unit).filter(|_| !down),
        as_headings: false,
    };
    let depths = of_down.iter().map(|unit| choice(down, unit, true));
    let choices = depths.chain(of_across.iter().map(|unit| choice(across, unit, false))).collect();
    Some(RowUnits { choices, rims_go_down: true, own: Vec::new() })
}

/// Codes of units that a note explains behind the name of their column: `LEN_UOM applies to depths: F=feet M=metres`.
fn explained_units(table: &Opened, column: usize) -> Vec<(String, &'static Unit)> {
    let heading = table.headings[column].trim();
    let mut found = Vec::new();
    for note in table.layout.notes.iter().filter(|_| heading.chars().count() > 2) {
        let Some((_, rest)) = note.split_once(heading) else { continue };
        let sentence = rest.split(". ").next().unwrap_or_default();
        found.extend(sentence.split_whitespace().filter_map(|word| {
            let (code, unit) = word.trim_matches([',', ';', '.']).split_once('=')?;
            Some((lexicon::fold(code), notes::unit_of(&lexicon::tokens(unit), None)?))
        }));
    }
    found
}
