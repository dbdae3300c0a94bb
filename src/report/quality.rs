//! What the lists are worth, before any dose: completeness, ranges, what is worth checking, what uses assumed values, and the
//! repairs that would narrow it most. As a sheet, and as the words that the command prints.

use super::Matter;
use super::show::Shown;
use crate::document::cell::{Cell, Role, Sheet};
use crate::engine::quality::{Cluster, Quality, Range, Repair};
use crate::field::rules::UnitSystem;
use crate::field::{Field, WellType};
use crate::quantity::format::{self, number};
use crate::quantity::unit::Unit;
use crate::scenario::keys_as_words;

/// The units that values are shown in.
#[derive(Debug, Clone, Copy)]
pub enum Units<'a> {
    /// Those of the campaign.
    Campaign(UnitSystem),
    /// Those of the lists, where no system is declared: each field in the unit that most of its cells were written in.
    Lists(&'a Quality),
}

impl Units<'_> {
    /// Those of the campaign, else those of the lists.
    pub fn of(declared: Option<UnitSystem>, quality: &Quality) -> Units<'_> {
        declared.map_or(Units::Lists(quality), Units::Campaign)
    }

    /// How the people measure.
    pub fn system(self) -> UnitSystem {
        match self {
            Self::Campaign(system) => system,
            Self::Lists(quality) => quality.system(),
        }
    }

    /// The unit of a field.
    pub fn unit(self, field: Field) -> Option<&'static Unit> {
        let quantity = field.quantity()?;
        let by_system = || quantity.unit_in(Some(self.system()));
        match self {
            Self::Campaign(_) => by_system(),
            Self::Lists(quality) => quality.unit(field).or_else(by_system),
        }
    }

    /// An SI value in the unit of its field.
    pub fn value(self, field: Field, si: f64) -> f64 {
        self.unit(field).map_or(si, |unit| unit.from_si(si))
    }
}

/// Types of wells that occur, with their place among the counts; rows without a type are `no type`.
pub fn kinds(quality: &Quality) -> Vec<(usize, &'static str)> {
    let name = |kind: usize| WellType::ALL.get(kind).map_or("no type", |kind| kind.name());
    let rows = quality.rows();
    (0..rows.len()).filter(|kind| rows[*kind] > 0).map(|kind| (kind, name(kind))).collect()
}

/// A share in percent; nothing of nothing is nothing.
pub fn percent(part: f64, whole: f64) -> f64 {
    if whole > 0.0 { part / whole * 100.0 } else { f64::NAN }
}

/// A cluster in words.
pub fn cluster_words(cluster: &Cluster, units: Units<'_>) -> String {
    let share = |part: u64, whole: u64| number(percent(part as f64, whole as f64), 2);
    match cluster {
        Cluster::RoundNumbers { field, of, round } => format!(
            "{}: {} % of {of} values of ten and more end in 0, in the lists' own unit (10 % would by chance): perhaps estimates",
            in_words(*field),
            share(*round, *of)
        ),
        Cluster::OneValue { field, value, of, count } => {
            let value = units.unit(*field).map_or_else(|| number(*value, 5), |unit| format::quantity(*value, unit, 5));
            format!(
                "{}: {value} stands in {} % of {of} rows: perhaps a value filled in for all",
                in_words(*field),
                share(*count, *of)
            )
        }
        Cluster::SamePlace { latitude, longitude, count } => {
            format!(
                "{count} rows lie at {latitude}, {longitude}: visits of one well, several wells of one owner, or the center of a township"
            )
        }
    }
}

/// The name of a field, for people.
fn in_words(field: Field) -> String {
    keys_as_words(field.name())
}

/// Names of fields, for people.
pub fn names(fields: &[Field]) -> String {
    fields.iter().map(|field| in_words(*field)).collect::<Vec<_>>().join(", ")
}

/// Where to look for the row, by its list: `wells.csv row 14`.
pub fn place_words(repair: &Repair) -> String {
    format!("{} row {}", repair.list, repair.row)
}

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Quality");
    let quality = &matter.run.quality;
    let system = matter.plan.campaign.system;
    sheet.title("Quality: what the lists are worth, before any dose");
    sheet.note("This counts what was typed and could be read, before anything is assumed.");
    completeness(quality, &mut sheet);
    clusters(quality, Units::Campaign(system), &mut sheet);
    rested(matter, &mut sheet);
    repairs(quality, system, &mut sheet);
    // The long table is for the screen.
    sheet.layout.printed_rows = Some(sheet.rows.len() as u32);
    ranges(quality, Units::Campaign(system), &mut sheet);
    // Several tables stand one below the other: the names of fields and the title stay in sight.
    sheet.layout.frozen_rows = 1;
    sheet.layout.frozen_columns = 1;
    sheet.layout.widths = vec![22.0];
    sheet.layout.widths.extend(std::iter::repeat_n(11.2, 8));
    sheet
}

fn heads(sheet: &mut Sheet, heads: impl IntoIterator<Item = String>) {
    sheet.push(heads.into_iter().map(Cell::head).collect());
}

fn completeness(quality: &Quality, sheet: &mut Sheet) {
    let rows = quality.rows();
    let all: u64 = rows.iter().sum();
    let kinds = kinds(quality);
    sheet.gap();
    let columns = kinds.iter().map(|(kind, name)| format!("{} (%) of {}", name.replace('_', " "), rows[*kind]));
    let front = ["Filled in", &format!("all (%) of {all}"), "not readable (rows)"].map(str::to_owned);
    heads(sheet, front.into_iter().chain(columns));
    for field in quality.completeness() {
        let given: u64 = field.given.iter().sum();
        let mut row = vec![
            Cell::text(in_words(field.field)),
            Cell::number(percent(given as f64, all as f64), 0),
            Cell::count(field.unread).with_role(if field.unread > 0 { Role::Flagged } else { Role::Body }),
        ];
        row.extend(
            kinds.iter().map(|(kind, _)| Cell::number(percent(field.given[*kind] as f64, rows[*kind] as f64), 0)),
        );
        sheet.push(row);
    }
}

fn ranges(quality: &Quality, units: Units<'_>, sheet: &mut Sheet) {
    sheet.gap();
    let front = ["Range", "Wells", "Unit", "Values", "Min", "Median", "Max", "Most frequent", "in % of values"];
    heads(sheet, front.map(str::to_owned));
    for range in quality.ranges() {
        let Range { field, count, .. } = range;
        let value = |si: f64| Cell::number(units.value(field, si), 2);
        sheet.push(vec![
            Cell::text(in_words(field)),
            Cell::text(range.well_type.map_or("all", WellType::name).replace('_', " ")),
            Cell::text(units.unit(field).map_or("", |unit| unit.symbol)),
            Cell::count(count),
            value(range.least),
            value(range.median),
            value(range.greatest),
            value(range.most_frequent),
            Cell::number(percent(range.most_frequent_count as f64, count as f64), 0),
        ]);
    }
}

fn clusters(quality: &Quality, units: Units<'_>, sheet: &mut Sheet) {
    sheet.gap();
    heads(sheet, ["Worth checking; may be correct".to_owned()]);
    let clusters = quality.clusters();
    if clusters.is_empty() {
        sheet.note("Nothing stands out.");
    }
    for cluster in clusters {
        sheet.wide(cluster_words(&cluster, units), Role::Body);
    }
}

fn rested(matter: &Matter<'_>, sheet: &mut Sheet) {
    let quality = &matter.run.quality;
    let volume = Shown::of("L", matter.plan.campaign.system);
    let scenario = matter.plan.cases.first().map_or("", |case| case.scenario.name.as_str());
    sheet.gap();
    let front = [
        "Uses an assumed".to_owned(),
        "Wells".to_owned(),
        "Visits".to_owned(),
        volume.heading("Treated water"),
        "% of all".to_owned(),
        volume.heading("Range (low-high)"),
    ];
    heads(sheet, front);
    for ((well_type, field), rested) in &quality.rested {
        sheet.push(vec![
            Cell::text(in_words(*field)),
            Cell::text(well_type.name().replace('_', " ")),
            Cell::count(rested.visits),
            Cell::number(volume.value(rested.volume_l), 0),
            Cell::number(percent(rested.volume_l, quality.volume_l), 1),
            Cell::number(volume.value(rested.span_l), 0),
        ]);
    }
    sheet.push(vec![
        Cell::text("All planned visits").with_role(Role::Total),
        Cell::empty().with_role(Role::Total),
        Cell::count(matter.run.planned).with_role(Role::Total),
        Cell::number(volume.value(quality.volume_l), 0).with_role(Role::Total),
        Cell::empty().with_role(Role::Total),
        Cell::number(volume.value(quality.span_l), 0).with_role(Role::Total),
    ]);
    sheet.note(format!(
        "Treated water of scenario \"{scenario}\". One visit may use several assumed values, so the lines do not add up to \
         the total. Range (low-high) is that of the standing water."
    ));
}

fn repairs(quality: &Quality, system: UnitSystem, sheet: &mut Sheet) {
    let volume = Shown::of("L", system);
    sheet.gap();
    let front = [
        "Measure first".to_owned(),
        "Visit".to_owned(),
        "Where".to_owned(),
        String::new(),
        "Field".to_owned(),
        String::new(),
        volume.heading("Range (low-high)"),
        "% of total range".to_owned(),
    ];
    heads(sheet, front);
    if quality.repairs.is_empty() {
        sheet.note("No planned visit uses a value with a low and a high.");
    }
    for repair in &quality.repairs {
        sheet.push(vec![
            Cell::text(&*repair.well),
            Cell::text(&*repair.visit),
            Cell::text(&*repair.list),
            Cell::text(format!("row {}", repair.row)),
            Cell::text(names(&repair.fields)),
            Cell::empty(),
            Cell::number(volume.value(repair.span_l), 0),
            Cell::number(percent(repair.span_l, quality.span_l), 1),
        ]);
    }
}
