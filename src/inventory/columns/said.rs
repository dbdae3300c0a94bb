//! What is said of a column that was not plain: read by evidence, left open, its unit inferred or disputed.

use std::sync::Arc;

use super::evidence::Reading;
use super::feed::{is_deciding, is_sure};
use super::units::{self, Settled, Source};
use super::{Feed, Planner, Shape, map_line};
use crate::field::{Field, Kind, WellType};
use crate::finding::catalogue;
use crate::inventory::heading::Datum;
use crate::inventory::lexicon::{self, Meaning};
use crate::inventory::profile::Profile;
use crate::quantity::unit::{self, Unit};

impl Planner<'_> {
    /// What the words of a column's heading stand for.
    pub(super) fn meaning(&self, column: usize) -> Meaning {
        lexicon::meaning(&lexicon::tokens(&self.table.headings[column]), self.table.layout.language)
    }

    /// A column that was read by its words and cells.
    pub(super) fn likely(&mut self, reading: &Reading, feed: &Feed) {
        let field = reading.named.field;
        // What a description gives is said once, of all its parts.
        if self.is_part(reading.column) || is_sure(reading) && !is_deciding(field) {
            return;
        }
        // How it is read is said in its own words.
        if matches!(feed.shape, Shape::Storage(_)) {
            return;
        }
        let unit = feed.unit.filter(|unit| !unit.symbol.is_empty());
        let mut unit = unit.map_or(String::new(), |unit| format!(" in {}", unit.symbol));
        for (well_type, own) in &feed.unit_of_type {
            unit += &format!(", in {} for {} wells", own.symbol, well_type.name().replace('_', " "));
        }
        let says = format!(
            "read as {}{unit}: {}",
            field.name().replace('_', " "),
            evidence(field, &self.profiles[reading.column], feed.unit)
        );
        let heading = &self.columns[reading.column].heading;
        let help =
            format!("no action needed if correct; else {}, or = \"\" to leave it out", map_line(heading, "field"));
        self.say(catalogue::COLUMN_BY_EVIDENCE, Some(reading.column), says, help);
    }

    /// A column that may be what a dose rests on, but not plainly enough.
    pub(super) fn open(&mut self, reading: &Reading) {
        let field = reading.named.field;
        self.open.push((reading.column, field));
        let says =
            format!("this may be the {}; it is not read until that is confirmed", field.name().replace('_', " "));
        let heading = Arc::clone(&self.columns[reading.column].heading);
        let help = format!("if it is: {}; if not: = \"\"", map_line(&heading, field.name()));
        self.say(catalogue::COLUMN_OPEN, Some(reading.column), says, help);
    }

    /// A column whose cells are not what its heading says.
    pub(super) fn unlike(&mut self, reading: &Reading) {
        let field = reading.named.field;
        let says = format!(
            "the heading names {}, but the cells do not look like it ({}); it is not read",
            field.name().replace('_', " "),
            what_cells_are(&self.profiles[reading.column])
        );
        let heading = Arc::clone(&self.columns[reading.column].heading);
        let help = format!("if it is right all the same: {}", map_line(&heading, field.name()));
        self.say(catalogue::COLUMN_OPEN, Some(reading.column), says, help);
    }

    /// A unit that the heading does not give.
    pub(super) fn unit_by_evidence(&mut self, field: Field, column: usize, settled: &Settled) {
        if self.is_part(column) && !matches!(settled.source, Source::Note(_)) {
            return;
        }
        let symbol = settled.unit.symbol;
        let why = match &settled.source {
            Source::Heading => return,
            Source::Note(note) => format!("by what is written beside the table: \"{}\"", units::quoted(note)),
            Source::Cells { agree, written, bare } => {
                format!("{agree} of {written} written units are {symbol}; {bare} cells have none")
            }
            Source::Values { share } => {
                format!("{share} % of the values are usual in {symbol}, and few in any other unit")
            }
            Source::Instead { refused, share } => {
                format!("in {refused} hardly any value would be usual for its type of well, in {symbol} {share} % are")
            }
            Source::Language(language) => format!("lists in {language} are usually metric, and the values suit it"),
            Source::Beside(heading) => format!("as the column \"{heading}\" is measured"),
        };
        let says = format!("the heading gives no unit; read in {symbol}: {why}");
        let help = format!("no action needed if correct; else [inventory.units] {} = \"…\"", field.name());
        let with_unit = format!("{} ({symbol})", self.columns[column].heading);
        let finding = self.finding(catalogue::UNIT_BY_EVIDENCE, Some(column), says, help);
        self.findings.push(finding.suggesting(Some(with_unit)));
    }

    /// Each type of well has its own unit.
    pub(super) fn units_by_type(&mut self, field: Field, column: usize, units: &[(WellType, &'static Unit)]) {
        let each: Vec<String> = units
            .iter()
            .map(|(well_type, unit)| format!("{} for {} wells", unit.symbol, well_type.name().replace('_', " ")))
            .collect();
        let says = format!(
            "the heading gives no unit; read in {}: only in these are the values of each type usual",
            each.join(", in ")
        );
        let help = format!("no action needed if correct; else [inventory.units] {} = \"…\"", field.name());
        self.say(catalogue::UNIT_BY_EVIDENCE, Some(column), says, help);
    }

    /// Most written units are not those of the campaign's system.
    pub(super) fn unit_disputed(&mut self, field: Field, column: usize, cells: &Settled) {
        let Source::Cells { agree, written, bare } = cells.source else { return };
        let symbol = cells.unit.symbol;
        let assumed = units::of_system(field, self.rules).map_or("", |unit| unit.symbol);
        let says = format!(
            "{agree} of {written} written units are {symbol}; {bare} cells have none, and the campaign's usual unit is {assumed}"
        );
        let help = format!("say which: [inventory.units] {} = \"{symbol}\" or \"{assumed}\"", field.name());
        self.say(catalogue::UNIT_DISPUTED, Some(column), says, help);
    }

    /// The unit of a column whose heading has none: one for all, or the campaign's system, which is said.
    pub(super) fn default_unit(
        &mut self,
        field: Field,
        column: usize,
        written_in_cells: bool,
    ) -> Option<&'static Unit> {
        let quantity = field.quantity()?;
        let Some(units) = quantity.default_units else { return unit::by_symbol(quantity.unit) };
        let Some(system) = self.rules.system else {
            if !written_in_cells {
                let says =
                    format!("the heading gives no unit, and no system is declared; {} cannot be read", field.name());
                let help = format!(
                    "[inventory.units] {} = \"{}\" (or the correct unit), or [campaign] units = \"us\"",
                    field.name(),
                    quantity.default_units.map_or("", |units| units[0])
                );
                self.say(catalogue::NO_UNIT, Some(column), says, help);
            }
            return None;
        };
        let unit = unit::by_symbol(units[system.index()])?;
        if !written_in_cells {
            let says = format!(
                "the heading gives no unit; read as {} because the {} is \"{}\"",
                unit.symbol,
                self.rules.whose_system(),
                system.name()
            );
            let help = format!("[inventory.units] {} = \"{}\" (or the correct unit)", field.name(), unit.symbol);
            let with_unit = format!("{} ({})", self.columns[column].heading, unit.symbol);
            let finding = self.finding(catalogue::UNIT_FROM_CAMPAIGN, Some(column), says, help);
            self.findings.push(finding.suggesting(Some(with_unit)));
        }
        Some(unit)
    }

    /// A level that is counted from the top of the casing or from the rim.
    pub(super) fn level_from_top(&mut self, feed: &Feed, field: Field, column: usize) {
        if field == Field::StaticWaterLevel && feed.datum == Some(Datum::TopOfCasing) && !feed.barred {
            let says = "the level is counted from the top of the casing; the height of the casing above the ground is taken off where the list gives it";
            let help = "no action needed if casings stick up only a few inches; otherwise give the stick-up";
            self.say(catalogue::LEVEL_FROM_TOP_OF_CASING, Some(column), says, help);
        }
    }
}

/// The evidence of the cells, in words: `96 of 104 cells are 4 to 60, 12 say ft`.
fn evidence(field: Field, profile: &Profile, unit: Option<&'static Unit>) -> String {
    let filled = profile.filled;
    match field.definition().kind {
        Kind::Quantity(_) => {
            let mut sorted = profile.numbers.clone();
            sorted.sort_by(f64::total_cmp);
            let at = |share: usize| sorted.get((sorted.len() * share / 100).min(sorted.len().saturating_sub(1)));
            let mut parts = Vec::new();
            if let (Some(low), Some(high)) = (at(5), at(95)) {
                parts.push(format!("{} of {filled} cells are numbers, most from {low} to {high}", sorted.len()));
            }
            if let Some((written, count)) = profile.written_unit() {
                let same = unit.is_some_and(|unit| std::ptr::eq(unit, written));
                parts.push(format!("{count} {} {}", if same { "say" } else { "write" }, written.symbol));
            }
            if profile.sizes > 0 {
                parts.push(format!("{} describe a size in words", profile.sizes));
            }
            if parts.is_empty() { format!("{filled} cells are filled") } else { parts.join(", ") }
        }
        Kind::Choice(_) if field == Field::WellType => format!("{} of {filled} cells are types of well", profile.types),
        Kind::Choice(_) => format!("{} of {filled} cells say where water goes", profile.routes),
        Kind::Flag => format!("{} of {filled} cells say yes or no", profile.flags),
        Kind::Text => format!("{} different texts in {filled} cells", profile.distinct),
    }
}

fn what_cells_are(profile: &Profile) -> String {
    let filled = profile.filled;
    if profile.types * 2 > filled {
        format!("{} of {filled} are types of well", profile.types)
    } else if profile.dates * 2 > filled {
        format!("{} of {filled} are dates", profile.dates)
    } else if profile.measures() * 2 > filled {
        format!("{} of {filled} are numbers", profile.measures())
    } else {
        format!("{} different texts in {filled} cells", profile.distinct)
    }
}
