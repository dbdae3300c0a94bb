//! The Scenarios sheet: product and strength of each scenario; and what a person measures with, for the Numbers sheet.

use super::formula::{Stands, formula};
use super::inputs::{Inputs, tidy};
use super::model::Model;
use super::numbers::SHEET as MEASURES;
use crate::document::cell::{Cell, Sheet};
use crate::document::formula::Pieces;
use crate::kernel::strength::StrengthBasis;
use crate::quantity::Reading;
use crate::relation::operands::rungs;
use crate::relation::parameter::PARAMETERS;
use crate::relation::{Given, Operand, Operands, Rung, entry, varies};

const SCENARIOS: &str = "Scenarios";

/// A column of the Scenarios sheet: quantity, heading, name, digits; a quantity with a relation is a formula.
const COLUMNS: [(&str, Reading, &str, &str, usize); 14] = [
    ("product.caustic_percent", Reading::Mid, "Excess caustic (%)", "Excess_caustic", 2),
    ("strength_label_g_per_l", Reading::Mid, "Label (g/L)", "Label_of_liquid", 1),
    ("strength_label_g_per_kg", Reading::Mid, "Label (g/kg)", "Label_of_dry", 0),
    ("share_left", Reading::Low, "Left, at most (value)", "Share_left_low", 3),
    ("share_left", Reading::Mid, "Left (value)", "Share_left", 3),
    ("share_left", Reading::High, "Left, at least (value)", "Share_left_high", 3),
    ("strength_used_g_per_l", Reading::Low, "Used, at most (g/L)", "Strength_of_liquid_low", 1),
    ("strength_used_g_per_l", Reading::Mid, "Used (g/L)", "Strength_of_liquid", 1),
    ("strength_used_g_per_l", Reading::High, "Used, at least (g/L)", "Strength_of_liquid_high", 1),
    ("strength_used_g_per_kg", Reading::Low, "Used, at most (g/kg)", "Strength_of_dry_low", 0),
    ("strength_used_g_per_kg", Reading::Mid, "Used (g/kg)", "Strength_of_dry", 0),
    ("strength_used_g_per_kg", Reading::High, "Used, at least (g/kg)", "Strength_of_dry_high", 0),
    ("density_kg_per_l", Reading::Mid, "Weight (kg/L)", "Density", 3),
    ("flag.liquid", Reading::Mid, "Liquid: 1", "Liquid", 0),
];
const FIRST: u16 = 3;
/// What a scenario aims at, which the order says.
const TARGET: &str = "practice.target_mg_per_l";

/// The name of the column that holds an operand of the scenario.
pub(super) fn name_of(operand: Operand) -> Option<&'static str> {
    COLUMNS.iter().find(|(id, reading, ..)| *id == operand.id && *reading == operand.reading).map(|column| column.3)
}

pub(super) fn sheets(model: &mut Model<'_>, inputs: Option<&Inputs>) -> (Sheet, Sheet) {
    let (measures, ladders) = measures(model);
    let mut sheet = Sheet::new(SCENARIOS);
    sheet.title("Scenarios: product and strength of each");
    sheet.note("Workings; nothing to change here. The strength on the label is an input; what aging leaves of it is a value of the plan.");
    let mut heads = vec!["No.".to_owned(), "Scenario".to_owned(), "Product".to_owned()];
    heads.extend(COLUMNS.iter().map(|column| column.2.to_owned()));
    heads.extend(
        ["First measure", "Ladder of measures", "Said to crews", "Said on the order", "Target (mg/L)"]
            .map(str::to_owned),
    );
    sheet.heads(heads);
    sheet.layout.filter_row = None;
    let first = sheet.rows.len() as u32;
    let matter = model.matter;
    let any = model.rows.iter().find_map(|row| row.treated);
    for (at, case) in matter.plan.cases.iter().enumerate() {
        let product = &matter.plan.campaign.products[case.scenario.product];
        let mut cells = vec![Cell::count(at as u64 + 1), Cell::text(&case.scenario.name), Cell::text(&product.name)];
        let label = inputs.and_then(|inputs| inputs.label(case.scenario.product));
        let practice = &matter.plan.campaign.practice_of(case.scenario, 0);
        if let Some((well, need, _)) = any {
            // Nothing of the well is asked: only what belongs to the product.
            let given = Given { well, practice, product, stock: &case.stock, need };
            let stands = |operand: Operand| {
                let of_label = |basis: StrengthBasis| match (product.label.basis == basis, label) {
                    (true, Some(place)) => Stands::Always(Pieces::at(place)),
                    _ => Stands::Never,
                };
                match operand.id {
                    "flag.liquid" => Stands::Same(product.chemical.is_liquid()),
                    "product.trade_percent" => of_label(StrengthBasis::Trade),
                    "product.grams_per_liter" => of_label(StrengthBasis::GramsPerLiter),
                    "product.weight_available_chlorine" => of_label(StrengthBasis::WeightAvailableChlorine),
                    "product.weight_naocl" => of_label(StrengthBasis::WeightNaocl),
                    id => {
                        let column = COLUMNS.iter().position(|column| column.0 == id && column.1 == operand.reading);
                        let known = !given.value(operand, None).is_nan();
                        match column {
                            Some(column) if known => Stands::Always(Pieces::here(FIRST + column as u16)),
                            Some(_) => Stands::Never,
                            None if known || id.starts_with("constant.") => {
                                Stands::Always(Pieces::text(super::numbers::name_of(id)))
                            }
                            None => Stands::Never,
                        }
                    }
                }
            };
            for (id, reading, _, _, digits) in COLUMNS {
                let value = given.value(Operand { id, reading }, None);
                let tested = id.starts_with("strength_used") && product.measured.is_some();
                let relation = entry(id).and_then(|entry| entry.relation()).filter(|_| !tested);
                let relation = relation.map(|relation| match reading {
                    Reading::Mid => relation,
                    reading => relation.at(reading, &varies),
                });
                let made = relation.filter(|_| label.is_some()).and_then(|relation| formula(&relation, &stands, None));
                cells.push(match made {
                    Some(pieces) if !value.is_nan() => Cell::formula(pieces.giving(value, digits)),
                    _ => Cell::number(value, digits),
                });
            }
            for id in super::numbers::IDS {
                super::numbers::use_constant(model, id);
            }
        }
        let (first_measure, ladder) = ladders[at];
        model.first_measure.push(first_measure);
        cells.extend([Cell::count(first_measure as u64 + 1), Cell::count(ladder as u64 + 1)]);
        cells.push(Cell::text(super::super::field_words::of_scenario(matter, at)));
        cells.push(Cell::text(super::order::of_agents(matter, at)));
        let target = tidy(practice.target.milligrams_per_liter());
        let decided = PARAMETERS.iter().find(|parameter| parameter.id == TARGET).zip(inputs);
        cells.push(match decided.and_then(|(parameter, inputs)| inputs.decides(at, 0, parameter)) {
            Some((place, _)) => Cell::formula(Pieces::at(place).giving(target, 1)),
            None => Cell::number(target, 1),
        });
        sheet.push(cells);
    }
    let rows = (first, sheet.rows.len() as u32 - 1);
    model.name("Scenario_names", SCENARIOS, 1, rows);
    model.name("Products_of_scenarios", SCENARIOS, 2, rows);
    for (at, column) in COLUMNS.iter().enumerate() {
        model.name(column.3, SCENARIOS, FIRST + at as u16, rows);
    }
    model.name("First_measure", SCENARIOS, FIRST + COLUMNS.len() as u16, rows);
    model.name("Ladder", SCENARIOS, FIRST + COLUMNS.len() as u16 + 1, rows);
    model.name("Said_to_crews", SCENARIOS, FIRST + COLUMNS.len() as u16 + 2, rows);
    model.name("Said_on_the_order", SCENARIOS, FIRST + COLUMNS.len() as u16 + 3, rows);
    model.name("Targets", SCENARIOS, FIRST + COLUMNS.len() as u16 + 4, rows);
    sheet.layout.widths = vec![4.0, 24.0, 12.0];
    sheet.layout.widths.extend(std::iter::repeat_n(6.8, COLUMNS.len() + 2));
    sheet.layout.widths.extend([120.0, 120.0, 8.0]);
    (sheet, measures)
}

/// The measures of every kind of product, and of each scenario its first one and its ladder.
fn measures(model: &mut Model<'_>) -> (Sheet, Vec<(usize, usize)>) {
    let mut ladders: Vec<Vec<Rung>> = Vec::new();
    let places: Vec<usize> = model
        .matter
        .plan
        .cases
        .iter()
        .map(|case| {
            let own = rungs(&case.stock, model.system);
            ladders.iter().position(|ladder| *ladder == own).unwrap_or_else(|| {
                ladders.push(own);
                ladders.len() - 1
            })
        })
        .collect();
    let mut sheet = Sheet::new(MEASURES);
    sheet.title("Numbers: what formulas count with beside the inputs");
    sheet.note("Workings; nothing to change here. Measures that a person uses, smallest first: an amount is rounded up to the graduation of the first that reaches beyond it.");
    let heads = [
        "Ladder",
        "Measure",
        "Product in one (L or kg)",
        "Used below",
        "Graduation",
        "Ends at (L or kg)",
        "Graduation (L or kg)",
    ];
    sheet.heads(heads);
    sheet.layout.filter_row = None;
    let first = sheet.rows.len() as u32;
    let mut starts = Vec::new();
    for (at, ladder) in ladders.iter().enumerate() {
        starts.push(sheet.rows.len() - first as usize);
        for rung in ladder {
            let graduation = rung.units / rung.parts;
            let ends = if rung.below.is_finite() {
                Cell::formula(Pieces::here(2).then("*").and(Pieces::here(3)).giving(rung.size * rung.below, 4))
            } else {
                Cell::text("no end")
            };
            let below = if rung.below.is_finite() { Cell::number(rung.below, 4) } else { Cell::text("no end") };
            let step = Pieces::here(2).then("*").and(Pieces::here(4)).giving(rung.size * graduation, 6);
            sheet.push(vec![
                Cell::count(at as u64 + 1),
                Cell::text(rung.unit),
                Cell::number(rung.size, 6),
                below,
                Cell::number(graduation, 4),
                ends,
                Cell::formula(step),
            ]);
        }
    }
    let rows = (first, sheet.rows.len() as u32 - 1);
    for (name, column) in [
        ("Measure_ladder", 0),
        ("Measure_unit", 1),
        ("Measure_size", 2),
        ("Measure_ends", 5),
        ("Measure_graduation", 6),
    ] {
        model.name(name, MEASURES, column, rows);
    }
    (sheet, places.into_iter().map(|ladder| (starts[ladder], ladder)).collect())
}
