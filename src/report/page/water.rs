//! What a dose does to the water: pH and the share of HOCl, for the median water of the lists.

use super::{Pages, counted};
use crate::document::block::{Block, Section};
use crate::document::chart::{Axis, Chart, Kind, Point, Series};
use crate::document::figure::number;
use crate::field::Field;
use crate::kernel::effect::{Addition, CarbonateSystem, Effect, RawWater, effect};
use crate::quantity::ChlorineConcentration;
use crate::quantity::basis::CarbonateConcentration;
use crate::report::quality::Units;

/// Doses that are drawn, mg/L.
const DOSES: [f64; 14] = [5.0, 10.0, 15.0, 20.0, 30.0, 50.0, 75.0, 100.0, 150.0, 200.0, 300.0, 500.0, 700.0, 1_000.0];
/// Products that are drawn.
const PRODUCTS: usize = 5;

/// The section, where the lists give both pH and alkalinity at all.
pub(super) fn section(pages: &Pages<'_>) -> Option<Section> {
    let matter = pages.matter;
    let campaign = matter.plan.campaign;
    let units = Units::Campaign(campaign.system);
    let ranges = matter.run.quality.ranges();
    let median = |field: Field| {
        let of_all = ranges.iter().find(|range| range.field == field && range.well_type.is_none())?;
        Some((units.value(field, of_all.median), of_all.count))
    };
    let ((ph, ph_count), (alkalinity, alkalinity_count)) = median(Field::Ph).zip(median(Field::Alkalinity))?;
    let first = matter.plan.cases.first()?;
    let system = CarbonateSystem::at(campaign.practice_of(first.scenario, 0).water_temperature);
    let water = RawWater { ph, alkalinity: CarbonateConcentration::from_milligrams_per_liter(alkalinity) };
    let mut products: Vec<usize> = Vec::new();
    for case in &matter.plan.cases {
        if !products.contains(&case.scenario.product) && products.len() < PRODUCTS {
            products.push(case.scenario.product);
        }
    }
    let curves: Vec<(&str, Vec<(f64, Effect)>)> = products
        .iter()
        .filter_map(|product| {
            let case = matter.plan.cases.iter().find(|case| case.scenario.product == *product)?;
            let prepared = &case.stock.prepared;
            let hydroxide_per_chlorine = prepared.hydroxide_per_chlorine?;
            let at = |dose: f64| {
                let dose = ChlorineConcentration::from_milligrams_per_liter(dose);
                effect(&system, &water, &Addition { dose, chemical: prepared.chemical, hydroxide_per_chlorine })
            };
            let name = campaign.products[*product].name.as_str();
            Some((name, DOSES.map(|dose| (dose, at(dose))).to_vec()))
        })
        .collect();
    if curves.is_empty() {
        return None;
    }
    let mut section = Section::new("water", "Dose against pH and share of HOCl");
    section.say(format!(
        "Hypochlorite lifts the pH, and the higher the pH, the less of the chlorine is HOCl, which does the work: more product \
         does not help without end. Drawn for a water of pH {} and alkalinity {} mg/L as CaCO3, the medians of the {} and {} \
         that give them. Each visit's own pH after dosing is in the table of treatments.",
        number(ph, 1),
        number(alkalinity, 0),
        counted(ph_count, "row", "rows"),
        counted(alkalinity_count, "row", "rows"),
    ));
    let chart = |title: &str, unit: &str, get: &dyn Fn(&Effect) -> f64| {
        let series: Vec<Series> = curves
            .iter()
            .map(|(name, points)| Series {
                name: (*name).to_owned(),
                points: points.iter().map(|(dose, effect)| Point::at(*dose, get(effect))).collect(),
            })
            .collect();
        let said: Vec<String> = series
            .iter()
            .filter_map(|series| {
                let at = |dose: f64| series.points.iter().find(|point| point.x == dose).map(|point| number(point.y, 1));
                Some(format!("{}: {} at 50 mg/L, {} at 200 mg/L", series.name, at(50.0)?, at(200.0)?))
            })
            .collect();
        Chart {
            title: title.to_owned(),
            text: format!("{title} against the dose. {}.", said.join("; ")),
            kind: Kind::Lines,
            across: Axis { by_factors: true, ..Axis::new("Dose", "mg/L as Cl2") },
            upward: Axis::new(title, unit),
            series,
        }
    };
    section.push(Block::Beside(vec![
        chart("pH after dosing", "", &|effect| effect.ph).into(),
        chart("Share of the chlorine that is HOCl", "%", &|effect| effect.hocl_share * 100.0).into(),
    ]));
    Some(section)
}
