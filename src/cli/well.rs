//! `well`: one well, now, at the prompt, with the working shown and the cautions.

mod answer;
mod card;
mod procedure;
mod rules;
mod stock;

use std::io::Write;

use uom::si::f64::Time;
use uom::si::time::hour;

use super::args::{Units, Well as Options};
use super::moving;
use super::{DONE, HELD_BACK, Stop};
use crate::caution::Caution;
use crate::checks::{self, Verdict};
use crate::engine::Alone;
use crate::error::{Error, Result};
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::field::{Field, Kind, WellType};
use crate::finding::{Code, Finding, Severity, catalogue};
use crate::inventory;
use crate::kernel::requirement::{Practice, Requirement};
use crate::quantity::Band;
use crate::quantity::ChlorineConcentration;
use crate::quantity::format::number;
use crate::quantity::parse::{self, Nature};
use crate::quantity::unit::Dimension;
use crate::relation::Given;
use crate::report::crew::{Job, Language, Words};
use crate::report::defaults::{self, Treated};
use crate::report::question::missing_field;
use crate::scenario::Campaign;
use crate::scenario::practice::{Setting, default_practice};
use crate::scenario::section::near;
use crate::scenario::stock::{StockOnTheDay, stock_on_the_day};
use crate::visit::Need;
use crate::well::Well;
use crate::write::json;

use answer::Answer;
use stock::{agent, product, readings};

pub(super) fn run(options: &Options, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let campaign = options.scenarios.as_deref().map(super::campaign).transpose()?;
    let measured = campaign.as_ref().map(|campaign| campaign.system);
    let system = options.units.map(Units::system).or(measured).unwrap_or(UnitSystem::Us);
    let product = product(options, campaign.as_ref())?;
    let date = super::date_of_plan(options.date, campaign.as_ref())?;
    let stock = stock_on_the_day(&product, None, None, date)?;
    let (well, mut said) = well(options, system, campaign.as_ref())?;
    let alone = campaign.as_ref().map(|campaign| Alone::of(campaign, &well)).transpose()?.unwrap_or_default();
    let stated: Vec<&Setting> = campaign.iter().flat_map(|campaign| campaign.settings(None, alone.mask)).collect();
    let practice = practice(options, &stated, system)?;
    moving::settled(&well, &practice)?;
    let need = Need::of(&well, &practice, stock.readings())
        .ok_or_else(|| Error::request("these figures give no amount that can be measured"))?;
    if let Some(campaign) = &campaign {
        rules::said(campaign, &alone, &mut said);
    }
    said.doubts.extend(doubtful_stock(&stock, &need));
    let age_stated = options.age_days.is_some();
    let given = Given { well: &well, practice: &practice, product: &product, stock: &stock, need: &need };
    let treated = Treated { given, age_stated };
    let taken = treated.by_default(&|key| stated.iter().any(|setting| setting.key == key));
    said.by_default = defaults::of_well(&treated, &taken);
    let words = Words::of(Language::English);
    let job = Job { treated, taken: &taken, carried: &[], words, turn: None, in_place: &[] };
    if let Some(file) = &options.card {
        card::write(file, &job, options)?;
    }
    if options.json {
        json::write_line(out, &Answer::of(&said, &job))?;
    } else {
        procedure::write(options, &job, &said, out)?;
    }
    Ok(if is_spent(&need) { HELD_BACK } else { DONE })
}

/// Whether so little of the product is left that the figure must not be used.
fn is_spent(need: &Requirement) -> bool {
    need.cautions.has(Caution::StockNearlyGone)
}

/// A typed quantity in SI.
fn quantity(option: &str, text: Option<&str>, dimension: Dimension, system: UnitSystem) -> Result<Option<f64>> {
    let Some(text) = text else { return Ok(None) };
    match parse::quantity(text, dimension, None, system.gallon()) {
        Ok(reading) if reading.nature == Nature::Exact => Ok(Some(reading.si)),
        Ok(_) => {
            Err(Error::request(format!("--{option} {text:?} must be one value, such as {:?}", dimension.example())))
        }
        Err(trouble) => {
            Err(Error::request(format!("--{option} {text:?}: {trouble}; write it like {:?}", dimension.example())))
        }
    }
}

/// The typed well, read and checked as a row of a list; with what there is to say about it.
fn well(options: &Options, system: UnitSystem, campaign: Option<&Campaign>) -> Result<(Well, Said)> {
    let given = |text: &Option<String>| text.is_some();
    let across = given(&options.diameter) || !options.intervals.is_empty();
    // A level or a depth may hold a height of water: "9 ft of water".
    let upright = given(&options.water_column) || given(&options.depth) || given(&options.water_level);
    if !(given(&options.volume) || across && upright) {
        return Err(Error::request(NOT_KNOWN));
    }
    let intervals = options.intervals.join("; ");
    let across = match options.intervals.as_slice() {
        [] => (Field::CasingDiameter, "diameter", options.diameter.as_deref()),
        _ => (Field::CasingDiameter, "interval", Some(intervals.as_str())),
    };
    let texts = [
        (Field::TotalDepth, "depth", options.depth.as_deref()),
        (Field::StaticWaterLevel, "water-level", options.water_level.as_deref()),
        (Field::StickUp, "stick-up", options.stick_up.as_deref()),
        (Field::WaterColumn, "water-column", options.water_column.as_deref()),
        across,
        (Field::CasingDepth, "casing-depth", options.casing_depth.as_deref()),
        (Field::OpenHoleDiameter, "open-hole-diameter", options.open_hole_diameter.as_deref()),
        (Field::WaterVolume, "volume", options.volume.as_deref()),
        (Field::WellType, "type", Some(options.well_type.as_str())),
        (Field::PlumbingVolume, "plumbing", options.plumbing.as_deref()),
        (Field::PumpRate, "pump-rate", options.pump_rate.as_deref()),
        (Field::WellYield, "yield", options.well_yield.as_deref()),
        (Field::CasingMaterial, "casing", options.casing.as_deref()),
        (Field::DischargeRoute, "route", options.route.as_deref()),
        (Field::WaterTemperature, "temperature", options.temperature.as_deref()),
        (Field::Notes, "notes", options.notes.as_deref()),
        (Field::Ph, "ph", options.ph.as_deref()),
        (Field::Alkalinity, "alkalinity", options.alkalinity.as_deref()),
        (Field::Iron, "iron", options.iron.as_deref()),
        (Field::Manganese, "manganese", options.manganese.as_deref()),
        (Field::Sulfide, "sulfide", options.sulfide.as_deref()),
        (Field::AmmoniaN, "ammonia", options.ammonia.as_deref()),
        (Field::Seawater, "seawater", options.seawater.then_some("yes")),
    ];
    let mut cells: Vec<(Field, &str, &str)> = vec![(Field::WellId, "well", "this well")];
    cells.extend(texts.into_iter().filter_map(|(field, option, text)| Some((field, option, text?))));
    let rules = rules(options, system, campaign);
    let draft = inventory::typed(&cells, &rules)?.ok_or_else(|| Error::request(NOT_KNOWN))?;
    match checks::admit(draft, &rules) {
        Verdict::HeldBack(held_back) => {
            let why: Vec<String> = held_back.reasons().map(|finding| refused(finding, options)).collect();
            Err(Error::request(why.join("\n       ")))
        }
        Verdict::NotAWell(row) => Err(Error::request(format!("by \"{}\" this is not a well to be treated", row.seen))),
        Verdict::Admitted { well, findings } => {
            // A list goes on without these; whoever stands at the prompt can type them again.
            if let Some(finding) = findings.iter().find(|finding| LEFT_OUT.contains(&finding.code)) {
                return Err(Error::request(refused(finding, options)));
            }
            Ok((well, Said::of(&findings)))
        }
    }
}

const NOT_KNOWN: &str = "the water is not known: give --depth, --water-level and --diameter (or --interval); or \
     --water-column and --diameter; or --volume. --assume takes a missing level as at the ground";

/// What a list leaves blank, and the prompt refuses.
const LEFT_OUT: [Code; 6] = [
    catalogue::UNKNOWN_WELL_TYPE,
    catalogue::UNKNOWN_CHOICE,
    catalogue::ASIDE_NOT_UNDERSTOOD,
    catalogue::ASIDE_IMPOSSIBLE,
    catalogue::SENTINEL,
    catalogue::ZERO_FOR_MISSING,
];

/// How the well is read: as a list would be, without what is imposed on columns; a missing level is assumed only where that
/// is asked for.
fn rules(options: &Options, system: UnitSystem, campaign: Option<&Campaign>) -> ReadingRules {
    let mut rules = ReadingRules { system: Some(system), ..ReadingRules::default() };
    if options.assume {
        if let Some(campaign) = campaign {
            rules.assumptions.clone_from(&campaign.rules.assumptions);
        }
        rules.assumptions.retain(|(_, field), _| *field == Field::StaticWaterLevel);
        for well_type in WellType::ALL {
            let full = Band::exactly(0.0);
            rules.assumptions.entry((well_type, Field::StaticWaterLevel)).or_insert(full);
        }
    }
    rules
}

/// Why a value is refused, by its option; what to do is said for the prompt.
fn refused(finding: &Finding, options: &Options) -> String {
    let option = finding.place.column.as_ref().map_or("", |column| column.heading.as_ref());
    let mut text = match (option, finding.seen.as_ref()) {
        ("", _) => match missing_option(finding.code) {
            Some(option) => format!("--{option} is missing"),
            None => finding.says.to_string(),
        },
        (option, "") => format!("--{option}: {}", finding.says),
        (option, seen) => format!("--{option} {seen:?}: {}", finding.says),
    };
    let choice = match option {
        "type" => Some((Field::WellType, options.well_type.as_str())),
        "route" => options.route.as_deref().map(|route| (Field::DischargeRoute, route)),
        _ => None,
    };
    if let Some((field, typed)) = choice {
        // At the prompt nothing is left blank.
        text = text.replace("; it is left blank", "");
        text.push_str(&meant(field, typed));
    }
    let help = finding.help.to_string();
    let for_lists =
        ["[inventory", "[missing", "[campaign", "cell", "the list", "row"].iter().any(|words| help.contains(words));
    let help = if finding.code == catalogue::LEVEL_MISSING {
        "give --water-level, or --assume to take it as at the ground".to_owned()
    } else if option == "notes" {
        "name the part that is meant, as in \"cap sealed\", if this is still a well, and give the sizes that hold now"
            .to_owned()
    } else if let (Some(_), Some(list)) = (choice, help.strip_prefix("write one of: ")) {
        format!("choose one of: {}", list.split(';').next().unwrap_or(list))
    } else if for_lists || help.is_empty() {
        "write it with its unit, as in \"120 ft\"".to_owned()
    } else {
        help
    };
    format!("{text}; {help}")
}

/// The option that gives what a finding misses.
fn missing_option(code: Code) -> Option<&'static str> {
    Some(match missing_field(code)? {
        Field::TotalDepth => "depth",
        Field::StaticWaterLevel => "water-level",
        Field::CasingDiameter => "diameter",
        Field::WaterVolume => "volume",
        _ => return None,
    })
}

/// The nearest word that lists accept, and what it means.
fn meant(field: Field, typed: &str) -> String {
    let Kind::Choice(choices) = field.definition().kind else { return String::new() };
    // Words that name the form of a well, not how it was made. Common practice, no source.
    const BY_MEANING: [(&str, &str); 5] =
        [("pit", "dug"), ("shaft", "dug"), ("cistern well", "dug"), ("stovepipe", "driven"), ("pipe", "driven")];
    let lower = typed.trim().to_lowercase();
    if let Some((_, kind)) = BY_MEANING.iter().find(|(word, _)| field == Field::WellType && *word == lower) {
        return format!("; did you mean `{kind}`?");
    }
    let words = choices.iter().flat_map(|(name, others)| std::iter::once(*name).chain(others.iter().copied()));
    let near = near(typed, &words.collect::<Vec<_>>());
    let Some(word) = near.split('`').nth(1) else { return near };
    match choices.iter().find(|(_, others)| others.contains(&word)) {
        Some((name, _)) if *name != word => format!("; did you mean `{word}`, which is {name}?"),
        _ => near,
    }
}

/// What there is to say about a well that is computed: doubts and assumptions come first in the answer.
#[derive(Debug, Default)]
struct Said {
    doubts: Vec<String>,
    assumed: Vec<String>,
    by_default: Vec<String>,
    notes: Vec<String>,
}

impl Said {
    fn of(findings: &[Finding]) -> Self {
        let mut said = Self::default();
        for finding in findings {
            let option = finding.place.column.as_ref().map_or(String::new(), |column| column.heading.replace('-', " "));
            let name = if option == "diameter" { "casing diameter" } else { option.as_str() };
            let says = format!("{name} {}", finding.says).trim().to_owned();
            match (finding.code.severity(), &finding.code.id()[..1]) {
                (Severity::Note, "A") => said.assumed.push(says),
                (Severity::Note, _) => said.notes.push(says),
                // What a remark tells the crew comes with what to do.
                (_, "S") => said.doubts.push(format!("{says}: {}", finding.help)),
                _ => said.doubts.push(format!("{says}: make sure of it before mixing")),
            }
        }
        said
    }
}

fn practice(options: &Options, stated: &[&Setting], system: UnitSystem) -> Result<Practice> {
    let mut practice = default_practice(system);
    stated.iter().for_each(|setting| setting.apply(&mut practice));
    if let Some(target) = options.target {
        if !(0.1..=20_000.0).contains(&target) {
            return Err(Error::request(format!("--target must lie from 0.1 to 20000 mg/L, not {target}")));
        }
        practice.target = ChlorineConcentration::from_milligrams_per_liter(target);
    }
    if let Some(hold) = options.hold {
        if !(0.0..=336.0).contains(&hold) {
            return Err(Error::request(format!("--hold must lie from 0 to 336 hours, not {hold}")));
        }
        practice.hold = Time::new::<hour>(hold);
    }
    if let Some(word) = &options.flowing_spring {
        practice.flowing_spring = Some(moving::choice(word)?);
    }
    if let Some(name) = &options.neutralizer {
        practice.neutralizer = agent(name)?;
    }
    Ok(practice.held_by_rule())
}

/// What makes the strength of a stock so doubtful that the figure should not be used.
fn doubtful_stock(stock: &StockOnTheDay, need: &Requirement) -> Option<String> {
    is_spent(need).then(|| {
        format!(
            "by its age only {} % of the product's strength is left: test it, or buy fresh; do not treat by this figure",
            number(stock.prepared.share_left * 100.0, 2)
        )
    })
}
