//! The ledger: every column of the tables of visits and treatments, once: id, unit, meaning, equation, what it varies with,
//! and how a row fills it.
//!
//! Tables, workbook, `explain`, the Method sheet and the second route's expectations all read this one list. Adding a
//! result is adding one entry here and one function in the kernel. It arranges what the engine made and computes nothing.

mod given;

pub use given::OF_CREWS;

use std::borrow::Cow;

use crate::field::Field;
use crate::kernel::requirement::{Requirement, Stock};
use crate::quantity::basis::liters_per_minute;
use crate::quantity::liters;
use crate::quantity::unit;
use crate::table::ColumnCells;
use crate::visit::Visit;

/// One column of the treatments table.
#[derive(Debug, Clone, Copy)]
pub struct Column {
    /// Permanent id and heading in tables; ends in the unit where there is one.
    pub id: &'static str,
    /// Heading for people, without the unit.
    pub title: &'static str,
    /// Symbol of the unit table; empty for texts and pure numbers.
    pub unit: &'static str,
    /// What it says, in one sentence.
    pub meaning: &'static str,
    /// Equation that fills it; empty where it is carried from the inputs.
    pub equation: &'static str,
    /// Digits after the decimal point that people need to see.
    pub digits: usize,
    /// How it is filled.
    pub get: Get,
    /// What a figure of a requirement varies with; other columns say it by how they are filled.
    pub width: Width,
}

/// What a figure varies with, and so how often it is computed and written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Width {
    /// With the visit alone.
    Visit,
    /// With visit and practice.
    Practice,
    /// With visit, practice and product.
    Product,
}

/// What a row of the treatments table needs to know of its scenario.
#[derive(Debug, Clone, Copy)]
pub struct CaseLabel<'a> {
    /// Name of the scenario.
    pub name: &'a str,
    /// Name of the product.
    pub product: &'a str,
    /// The product on the day of use.
    pub stock: &'a Stock,
}

/// What a column says in one row.
#[derive(Debug, Clone, PartialEq)]
pub enum Datum<'a> {
    /// A text; empty where there is none.
    Text(Cow<'a, str>),
    /// A number in the column's unit; NaN where there is none.
    Number(f64),
}

/// What a column varies with, and how it is filled; texts are empty and numbers NaN where there is none.
#[derive(Debug, Clone, Copy)]
pub enum Get {
    /// A text of the scenario.
    CaseText(for<'a> fn(&CaseLabel<'a>) -> &'a str),
    /// A number of the scenario, in the column's unit.
    CaseNumber(fn(&CaseLabel<'_>) -> f64),
    /// A text of the visit.
    VisitText(fn(&Visit) -> &str),
    /// A number of the visit, in the column's unit.
    VisitNumber(fn(&Visit) -> f64),
    /// What the list gives for a field, in the column's unit.
    Given(Field),
    /// A text of the requirement: Text from a small fixed set.
    NeedText(fn(&Requirement) -> &'static str),
    /// A number of the requirement, in the column's unit.
    NeedNumber(fn(&Requirement) -> f64),
    /// Words of the requirement's cautions.
    Cautions,
}

impl Get {
    /// Whether it fills the column with texts.
    pub const fn is_text(self) -> bool {
        matches!(self, Self::CaseText(_) | Self::VisitText(_) | Self::NeedText(_) | Self::Cautions)
    }
}

const fn text(id: &'static str, title: &'static str, meaning: &'static str, get: Get) -> Column {
    Column { id, title, unit: "", meaning, equation: "", digits: 0, get, width: Width::Product }
}

const fn number(
    id: &'static str,
    title: &'static str,
    unit: &'static str,
    digits: usize,
    equation: &'static str,
    meaning: &'static str,
    get: fn(&Requirement) -> f64,
) -> Column {
    Column { id, title, unit, meaning, equation, digits, get: Get::NeedNumber(get), width: Width::Product }
}

const fn told(
    id: &'static str,
    title: &'static str,
    unit: &'static str,
    digits: usize,
    meaning: &'static str,
    get: fn(&Visit) -> f64,
) -> Column {
    Column { id, title, unit, meaning, equation: "", digits, get: Get::VisitNumber(get), width: Width::Product }
}

const fn case_number(
    id: &'static str,
    title: &'static str,
    unit: &'static str,
    digits: usize,
    equation: &'static str,
    meaning: &'static str,
    get: fn(&CaseLabel<'_>) -> f64,
) -> Column {
    Column { id, title, unit, meaning, equation, digits, get: Get::CaseNumber(get), width: Width::Product }
}

fn optional(value: Option<f64>) -> f64 {
    value.unwrap_or(f64::NAN)
}

/// Every column, in the order of the table.
pub static COLUMNS: &[Column] = &[
    text("scenario", "Scenario", "Name of the scenario.", Get::CaseText(|case| case.name)),
    text("product", "Product", "Name of the product.", Get::CaseText(|case| case.product)),
    text("well_id", "Well", "The program's id of the well, as typed.", Get::VisitText(Visit::id)),
    text("visit", "Visit", "Which treatment of the well this is.", Get::VisitText(Visit::visit)),
    text("region", "Region", "Region, as typed.", Get::VisitText(Visit::region)),
    text("depot", "Depot", "Depot that serves the well, as typed.", Get::VisitText(Visit::depot)),
    text("well_type", "Type", "Type of well.", Get::VisitText(Visit::well_type)),
    text(
        "outcome",
        "Outcome",
        "planned; held_back where nothing can be computed; excluded where a rule of the scenario file leaves it out.",
        Get::VisitText(Visit::outcome),
    ),
    text(
        "reasons",
        "Reasons",
        "Codes of the findings that hold the row back; of an excluded one the rule's reason.",
        Get::VisitText(Visit::reasons),
    ),
    number("water_column_m", "Water column", "m", 1, "V2", "Height of standing water below ground.", |need| {
        optional(need.water_column.map(|column| column.value))
    })
    .per(Width::Visit),
    number("standing_volume_l", "Standing volume", "L", 0, "V2", "Water standing in the well.", |need| {
        liters(need.standing_volume)
    })
    .per(Width::Visit),
    number(
        "treated_volume_l",
        "Treated volume",
        "L",
        0,
        "V3",
        "Standing volume with its allowance, and the plumbing treated with it.",
        |need| liters(need.treated_volume),
    )
    .per(Width::Practice),
    number("demand_mg_per_l", "Demand", "mg/L", 1, "N1", "Chlorine that the water takes, as Cl2.", |need| {
        need.demand.milligrams_per_liter()
    })
    .per(Width::Practice),
    number("dose_mg_per_l", "Dose", "mg/L", 1, "D1", "Target and demand together, as Cl2.", |need| {
        need.dose.milligrams_per_liter()
    })
    .per(Width::Practice),
    number(
        "chlorine_g",
        "Chlorine",
        "g",
        0,
        "D2",
        "Available chlorine to put in, in all, as Cl2: for the water, the wall wash and a spring's feed.",
        |need| need.chlorine.grams(),
    ),
    case_number(
        "strength_label_g_per_l",
        "Label strength, liquid",
        "g/L",
        1,
        "S1",
        "Liquids: available chlorine per liter when made.",
        |case| match case.stock {
            Stock::Liquid { label, .. } => label.grams_per_liter(),
            _ => f64::NAN,
        },
    ),
    case_number(
        "strength_used_g_per_l",
        "Strength used, liquid",
        "g/L",
        1,
        "A3",
        "Liquids: available chlorine per liter on the day of use.",
        |case| match case.stock {
            Stock::Liquid { used, .. } => used.mid.grams_per_liter(),
            _ => f64::NAN,
        },
    ),
    case_number(
        "strength_label_g_per_kg",
        "Label strength, dry",
        "g/kg",
        0,
        "S4",
        "Dry products: available chlorine per kilogram when made.",
        |case| match case.stock {
            Stock::Dry { label, .. } => label.ratio() * 1000.0,
            _ => f64::NAN,
        },
    ),
    case_number(
        "strength_used_g_per_kg",
        "Strength used, dry",
        "g/kg",
        0,
        "A5",
        "Dry products: available chlorine per kilogram on the day of use.",
        |case| match case.stock {
            Stock::Dry { used, .. } => used.mid.ratio() * 1000.0,
            _ => f64::NAN,
        },
    ),
    number("product_l", "Product, liquid", "L", 2, "D3", "Liquid product computed, before rounding up.", |need| {
        need.product.mid.liters()
    }),
    number(
        "product_kg",
        "Product, weight",
        "kg",
        2,
        "D4",
        "Weight of product computed, before rounding up: what a dry product needs, and what a liquid weighs to haul.",
        |need| need.product.mid.kilograms(),
    ),
    number(
        "product_low_l",
        "Product, liquid, low",
        "L",
        2,
        "D3",
        "Liquid product with the lowest assumptions.",
        |need| need.product.low.liters(),
    ),
    number(
        "product_high_l",
        "Product, liquid, high",
        "L",
        2,
        "D3",
        "Liquid product with the highest assumptions.",
        |need| need.product.high.liters(),
    ),
    number(
        "product_low_kg",
        "Product, dry, low",
        "kg",
        2,
        "D4",
        "Weight of a dry product with the lowest assumptions.",
        |need| need.product.low.dry_kilograms(),
    ),
    number(
        "product_high_kg",
        "Product, dry, high",
        "kg",
        2,
        "D4",
        "Weight of a dry product with the highest assumptions.",
        |need| need.product.high.dry_kilograms(),
    ),
    number(
        "measured_amount",
        "Measure out",
        "",
        3,
        "M1",
        "Product to measure out in the unit beside it, rounded up to the measure.",
        |need| need.measured_amount,
    ),
    text("measured_unit", "Measure", "Unit of the amount to measure out.", Get::NeedText(|need| need.measured_unit)),
    number(
        "measured_dose_mg_per_l",
        "Dose measured out",
        "mg/L",
        1,
        "D5",
        "Concentration that the measured amount really gives, as Cl2.",
        |need| need.measured_dose.milligrams_per_liter(),
    ),
    text(
        "measured_for",
        "Measured for",
        "typical: the target is met as planned; high: also with the most water and the weakest product allowed for.",
        Get::NeedText(|need| need.measure_for.name()),
    )
    .per(Width::Practice),
    number(
        "least_dose_mg_per_l",
        "Dose at least",
        "mg/L",
        1,
        "D5",
        "Concentration that the measured amount gives with the most water and the weakest product allowed for, as Cl2.",
        |need| need.least_dose.milligrams_per_liter(),
    ),
    number(
        "chlorate_mg_per_l",
        "Chlorate brought",
        "mg/L",
        1,
        "A6",
        "Chlorate that an aged liquid brings into the well, before flushing; what it held when made comes on top.",
        |need| optional(need.chlorate.map(|chlorate| chlorate.milligrams_per_liter())),
    ),
    number(
        "dose_if_spread_mg_per_l",
        "Dose in house plumbing",
        "mg/L",
        1,
        "D5",
        "Small wells without plumbing on record: what the measured amount would give, as Cl2, spread through 80 US gal more.",
        |need| optional(need.dose_if_spread.map(|dose| dose.milligrams_per_liter())),
    ),
    number(
        "wall_wash_l",
        "Wall wash",
        "L",
        1,
        "E2",
        "Wells that are emptied: solution to brush the walls with.",
        |need| optional(need.wash.map(|wash| liters(wash.solution))),
    )
    .per(Width::Practice),
    number(
        "wall_wash_amount",
        "Product for the wall wash",
        "",
        3,
        "M1",
        "Product to mix into the wall wash in the unit beside it, rounded up to the measure.",
        |need| optional(need.wash.map(|wash| wash.amount)),
    ),
    text(
        "wall_wash_unit",
        "Measure for the wall wash",
        "Unit of the product for the wall wash.",
        Get::NeedText(|need| need.wash.map_or("", |wash| wash.unit)),
    ),
    number(
        "feed_l_per_h",
        "Spring feed per hour, liquid",
        "L/h",
        2,
        "Q3",
        "Springs that overflow: liquid product to feed in each hour of the contact time, after the amount measured out.",
        |need| optional(need.feed.map(|feed| feed.per_hour.liters())),
    ),
    number(
        "feed_kg_per_h",
        "Spring feed per hour, weight",
        "kg/h",
        2,
        "Q3",
        "The same by weight, of a liquid too.",
        |need| optional(need.feed.map(|feed| feed.per_hour.kilograms())),
    ),
    number(
        "feed_l",
        "Spring feed in all, liquid",
        "L",
        2,
        "Q3",
        "Liquid product fed over the contact time; part of the product above.",
        |need| optional(need.feed.map(|feed| feed.in_all.liters())),
    ),
    number("feed_kg", "Spring feed in all, weight", "kg", 2, "Q3", "The same by weight, of a liquid too.", |need| {
        optional(need.feed.map(|feed| feed.in_all.kilograms()))
    }),
    number(
        "overflow_l",
        "Overflow during contact time",
        "L",
        0,
        "Q3",
        "Chlorinated water that leaves a fed spring by its overflow during the contact time.",
        |need| optional(need.feed.map(|feed| liters(feed.overflow))),
    )
    .per(Width::Practice),
    number(
        "predilution_l",
        "Dilute in",
        "L",
        0,
        "L1",
        "Clean water to dilute the measured amount in before pouring.",
        |need| liters(need.predilution),
    ),
    number("ph_after", "pH after dosing", "", 1, "P2", "pH of the water once the product is in.", |need| {
        optional(need.ph_after)
    }),
    number(
        "hocl_share",
        "Share as HOCl",
        "",
        2,
        "H3",
        "Share of free chlorine that is hypochlorous acid at that pH, 0 to 1.",
        |need| optional(need.hocl_share),
    ),
    number("hold_h", "Contact time", "h", 0, "", "How long the chlorine stays in the well.", |need| {
        need.hold.value / 3600.0
    })
    .per(Width::Practice),
    text(
        "flush_method",
        "Flush by",
        "mixed_tank: pump on; empty_and_refill: pump empty, let refill, measure, and again.",
        Get::NeedText(|need| need.flush_method.name()),
    ),
    number(
        "emptyings",
        "Emptyings expected",
        "",
        0,
        "E3",
        "How often the well is expected to be emptied; the measurement after each refill decides.",
        |need| optional(need.emptyings),
    ),
    number(
        "hold_required_h",
        "Contact time required",
        "h",
        0,
        "",
        "How long the chosen rule requires at the target's concentration.",
        |need| optional(need.hold_required.map(|hold| hold.value / 3600.0)),
    )
    .per(Width::Practice),
    number(
        "flush_volume_l",
        "Flush volume",
        "L",
        0,
        "F1",
        "Water to pump out (E4 where the well is emptied); an estimate, stop on a measured residual.",
        |need| liters(need.flush_volume),
    ),
    number(
        "flush_rate_l_per_min",
        "Flush rate",
        "L/min",
        1,
        "F3",
        "Lesser of pump rate and yield; the pump's where the well is emptied.",
        |need| optional(need.flush_rate.map(liters_per_minute)),
    ),
    number(
        "flush_h",
        "Flush time",
        "h",
        1,
        "F3",
        "Flush volume over flush rate; with refilling and waiting where the well is emptied (E4).",
        |need| optional(need.flush_time.map(|time| time.value / 3600.0)),
    ),
    text(
        "discharge_route",
        "Flush to",
        "Where the list says the water can go.",
        Get::VisitText(Visit::discharge_route),
    ),
    text(
        "neutralizer",
        "Neutralizer",
        "Agent, where the route needs one.",
        Get::NeedText(|need| need.neutralizer.map_or("", |agent| agent.name())),
    )
    .per(Width::Practice),
    number(
        "neutralizer_kg",
        "Neutralizer",
        "kg",
        2,
        "R3",
        "Agent with its excess, for all that leaves the well; zero where the route needs none.",
        |need| need.neutralizer_mass.kilograms(),
    ),
    number(
        "ph_neutralized_low",
        "pH neutralized, low",
        "",
        1,
        "R6",
        "Lowest pH of the water once it is neutralized.",
        |need| optional(need.ph_neutralized.map(|(least, _)| least)),
    ),
    number(
        "ph_neutralized_high",
        "pH neutralized, high",
        "",
        1,
        "R6",
        "Highest pH of the water once it is neutralized.",
        |need| optional(need.ph_neutralized.map(|(_, most)| most)),
    ),
    text(
        "neutralizer_instead",
        "Neutralizer instead",
        "Agent that would leave no acid, where the chosen one leaves a pH below 6.",
        Get::NeedText(|need| need.neutralizer_instead.map_or("", |agent| agent.name())),
    ),
    number(
        "neutralizer_instead_kg",
        "Neutralizer instead",
        "kg",
        2,
        "R3",
        "How much of that agent, with its excess.",
        |need| optional(need.neutralizer_instead_mass.map(|mass| mass.kilograms())),
    ),
    text("assumed", "Assumed", "Fields whose value was assumed, not given.", Get::VisitText(Visit::assumed)),
    text("cautions", "Cautions", "Words of the cautions that this row's data raise.", Get::Cautions),
    text(
        "crew_flags",
        "Crew flags",
        "What the list's own words say that a person must know before going there; `aftercrest explain dog` says what to do.",
        Get::VisitText(Visit::crew_flags),
    ),
    told("users_served", "Users", "", 0, "People served, as given.", Visit::users_served),
    text("flooded", "Flooded", "Whether flood water stood over the well, as given.", Get::VisitText(Visit::flooded)),
    text("seawater", "Sea water", "Whether sea water got in, as given.", Get::VisitText(Visit::seawater)),
    text("status", "Status", "State of the well, as typed.", Get::VisitText(Visit::status)),
    text("notes", "Notes", "Notes, as typed.", Get::VisitText(Visit::notes)),
    text(
        "not_understood",
        "Not understood",
        "Cells whose words no field took: left blank, or read in part, each behind its heading.",
        Get::VisitText(Visit::not_understood),
    ),
    text("casing_material", "Casing", "Casing material, as typed.", Get::VisitText(Visit::casing_material)),
    told("latitude_deg", "Latitude", "°", 6, "Degrees north, as given.", Visit::latitude),
    told("longitude_deg", "Longitude", "°", 6, "Degrees east, as given.", Visit::longitude),
    told("stick_up_m", "Stick-up", "m", 2, "How far the casing stands above the ground, as given.", Visit::stick_up_m),
    told(
        "ground_elevation_m",
        "Ground elevation",
        "m",
        1,
        "Height of the ground above sea level, as given.",
        Visit::ground_elevation_m,
    ),
    told(
        "casing_outside_diameter_mm",
        "Outside diameter",
        "mm",
        0,
        "Outside diameter of the casing, as given.",
        Visit::casing_outside_diameter_mm,
    ),
    told("wall_thickness_mm", "Wall", "mm", 1, "Thickness of the casing's wall, as given.", Visit::wall_thickness_mm),
];

impl Column {
    const fn per(self, width: Width) -> Self {
        Self { width, ..self }
    }

    /// Whether it says something of the visit itself, whatever the scenario.
    pub const fn is_of_visit(&self) -> bool {
        matches!(self.get, Get::VisitText(_) | Get::VisitNumber(_) | Get::Given(_))
    }

    /// What it says of a visit in a case; `need` is what the visit needs there, nothing where it is not planned.
    pub fn datum<'a>(&self, case: &CaseLabel<'a>, visit: &'a Visit, need: Option<&Requirement>) -> Datum<'a> {
        match self.get {
            Get::CaseText(get) => Datum::Text(get(case).into()),
            // Figures of a product are not shown beside a row that has no treatment.
            Get::CaseNumber(get) => Datum::Number(need.map_or(f64::NAN, |_| get(case))),
            Get::VisitText(get) => Datum::Text(get(visit).into()),
            Get::VisitNumber(get) => Datum::Number(get(visit)),
            Get::Given(field) => Datum::Number(given::in_unit(unit::by_symbol(self.unit), visit, field)),
            Get::NeedText(get) => Datum::Text(need.map_or("", get).into()),
            Get::NeedNumber(get) => Datum::Number(need.map_or(f64::NAN, get)),
            Get::Cautions => Datum::Text(need.map_or_else(String::new, |need| need.cautions.words()).into()),
        }
    }
}

/// Columns that find a visit again, in both tables.
const KEYS: [&str; 6] = ["well_id", "visit", "region", "depot", "outcome", "reasons"];

/// Columns of the treatments table: what each visit needs under each scenario, with what finds it again.
pub fn treatments() -> impl Iterator<Item = &'static Column> {
    COLUMNS.iter().filter(|column| match column.get {
        Get::CaseNumber(_) => false,
        _ => !column.is_of_visit() || KEYS.contains(&column.id),
    })
}

/// Columns of the visits table: what was understood of each visit, once.
pub fn visits() -> impl Iterator<Item = &'static Column> {
    let of_visit = COLUMNS.iter().filter(|column| column.is_of_visit());
    let (keys, told): (Vec<_>, Vec<_>) = of_visit.partition(|column| KEYS.contains(&column.id));
    keys.into_iter().chain(given::COLUMNS).chain(told)
}

/// The column with this id.
pub fn column(id: &str) -> Option<&'static Column> {
    COLUMNS.iter().chain(given::COLUMNS).find(|column| column.id == id)
}

impl Column {
    /// Its cells for many visits, where it is of visits.
    pub fn of_visits<'a>(&self, visits: &'a [Visit]) -> Option<ColumnCells<'a>> {
        match self.get {
            Get::VisitText(get) => Some(ColumnCells::Text(visits.iter().map(get).collect())),
            Get::VisitNumber(get) => Some(ColumnCells::Number(visits.iter().map(get).collect())),
            Get::Given(field) => {
                let unit = unit::by_symbol(self.unit);
                Some(ColumnCells::Number(visits.iter().map(|visit| given::in_unit(unit, visit, field)).collect()))
            }
            _ => None,
        }
    }
}
