//! The plain tables of a run: totals and orders, in the units of the treatments table and at full precision.

use crate::document::cell::{Grid, Value};
use crate::engine::{Plan, Run};
use crate::finding::Finding;
use crate::kernel::requirement::Stock;
use crate::rollup::Sums;
use crate::rollup::orders::{OrderLine, Orders};

/// Digits are for people; tables carry full precision.
fn exact(value: f64) -> Value {
    Value::number(value, 6)
}

/// Sums over the campaign and over each group, for each scenario.
pub fn totals(plan: &Plan<'_>, run: &Run) -> Grid {
    let mut heads: Vec<String> = vec!["scenario".into(), "level".into()];
    heads.extend(plan.groups.iter().map(|group| group.name.clone()));
    let rest = [
        "visits",
        "visits_planned",
        "visits_held_back",
        "visits_excluded",
        "visits_assumed",
        "treated_volume_l",
        "assumed_volume_l",
        "chlorine_g",
        "product_l",
        "product_low_l",
        "product_high_l",
        "product_repeat_l",
        "product_loss_l",
        "product_in_all_l",
        "product_kg",
        "product_low_kg",
        "product_high_kg",
        "product_repeat_kg",
        "product_loss_kg",
        "product_in_all_kg",
        "product_weight_kg",
        "neutralizer_kg",
        "neutralizer_repeat_kg",
        "neutralizer_loss_kg",
        "flush_volume_l",
        "flush_h",
        "visits_without_flush_h",
    ];
    heads.extend(rest.map(str::to_owned));
    let mut rows = Vec::new();
    for (index, case) in plan.cases.iter().enumerate() {
        let liquid = matches!(case.stock.prepared.stock, Stock::Liquid { .. });
        let name = case.scenario.name.as_str();
        let blanks = vec![String::new(); plan.groups.len()];
        rows.push(totals_row(name, "campaign", &blanks, &run.totals.overall(index), liquid));
        if !plan.groups.is_empty() {
            for (values, sums) in run.totals.by_group(index) {
                rows.push(totals_row(name, "group", &values, &sums, liquid));
            }
        }
    }
    Grid { heads, rows }
}

fn totals_row(scenario: &str, level: &str, values: &[String], sums: &Sums, liquid: bool) -> Vec<Value> {
    let mut row = vec![Value::text(scenario), Value::text(level)];
    row.extend(values.iter().map(Value::text));
    row.extend([sums.rows(), sums.planned, sums.held_back, sums.excluded, sums.assumed].map(Value::Count));
    row.extend([sums.treated_volume_l, sums.assumed_volume_l, sums.chlorine_g].map(exact));
    let product =
        [sums.product, sums.product_low, sums.product_high, sums.repeat, sums.loss, sums.product_in_all()].map(exact);
    let none = std::iter::repeat_n(Value::Empty, product.len());
    if liquid {
        row.extend(product);
        row.extend(none);
    } else {
        row.extend(none);
        row.extend(product);
    }
    row.push(exact(sums.product_kg));
    for kilograms in [&sums.neutralizer_kg, &sums.neutralizer_repeat_kg, &sums.neutralizer_loss_kg] {
        row.push(exact(kilograms.iter().sum()));
    }
    row.extend([sums.flush_volume_l, sums.flush_h].map(exact));
    row.push(Value::Count(sums.flush_unknown));
    row
}

/// What to buy, line by line.
pub fn orders(plan: &Plan<'_>, orders: &Orders) -> Grid {
    let heads = [
        "scenario",
        "depot",
        "kind",
        "item",
        "unit",
        "first_round",
        "repeat_round",
        "handling_loss",
        "first_round_low",
        "first_round_high",
        "on_hand",
        "on_hand_counts",
        "on_order",
        "gap",
        "packages",
        "suppliers",
        "amount_bought",
        "short",
        "cost",
        "currency",
        "priced",
    ];
    let rows = orders
        .lines
        .iter()
        .map(|line| {
            let name = plan.cases.get(line.scenario).map_or("", |case| case.scenario.name.as_str());
            let mut row = [name, &line.depot, line.kind.name(), &line.item, line.unit].map(Value::text).to_vec();
            row.extend(
                [
                    line.first_round,
                    line.repeat_round,
                    line.handling_loss,
                    line.first_round_low,
                    line.first_round_high,
                    line.on_hand,
                    line.on_hand_counts,
                    line.on_order,
                    line.gap,
                ]
                .map(exact),
            );
            row.push(Value::text(package_list(line)));
            row.push(Value::text(supplier_list(line)));
            row.extend([line.amount, line.short].map(exact));
            row.push(Value::optional(line.cost, 2));
            row.push(Value::text(&plan.campaign.currency));
            row.push(Value::text(if line.cost.is_some() { "yes" } else { "no" }));
            row
        })
        .collect();
    Grid { heads: heads.map(str::to_owned).to_vec(), rows }
}

/// `2 x 55 gal + 1 x 5 gal`.
pub fn package_list(line: &OrderLine) -> String {
    line.bought.iter().map(|bought| format!("{} x {}", bought.count, bought.package)).collect::<Vec<_>>().join(" + ")
}

/// Who sells what is bought, each once, in the order of the packages: `county contract + supplier not stated`.
fn supplier_list(line: &OrderLine) -> String {
    let mut names: Vec<&str> = Vec::new();
    for bought in &line.bought {
        if !names.contains(&bought.sold_by()) {
            names.push(bought.sold_by());
        }
    }
    names.join(" + ")
}

/// Headings of the findings table.
pub const FINDING_HEADS: [&str; 14] = [
    "severity",
    "code",
    "name",
    "file",
    "sheet",
    "row",
    "column",
    "heading",
    "well_id",
    "as_typed",
    "says",
    "rule",
    "what_to_do",
    "suggested_value",
];

/// Where that table holds what was typed, letter by letter.
pub const AS_TYPED: usize = 9;

/// One finding as a row of the findings table.
pub fn finding_row(finding: &Finding) -> [String; 14] {
    let place = &finding.place;
    [
        finding.code.severity().word().to_owned(),
        finding.code.id().to_owned(),
        finding.code.name().to_owned(),
        place.origin.file.to_string(),
        place.origin.sheet.as_deref().unwrap_or_default().to_owned(),
        place.row.map(|row| row.to_string()).unwrap_or_default(),
        place.column.as_ref().map(|column| column.letters()).unwrap_or_default(),
        place.column.as_ref().map(|column| column.heading.to_string()).unwrap_or_default(),
        finding.well.as_deref().unwrap_or_default().to_owned(),
        finding.seen.to_string(),
        with_related(finding),
        finding.code.rule().to_owned(),
        finding.help.to_string(),
        finding.suggested.as_deref().unwrap_or_default().to_owned(),
    ]
}

fn with_related(finding: &Finding) -> String {
    let related = super::findings::related(finding);
    if related.is_empty() { finding.says.to_string() } else { format!("{} (compare {related})", finding.says) }
}
