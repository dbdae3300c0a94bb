//! Where the Order sheet is signed, right below its total: for which scenario, day, target and strength, and whether it covers the need.

use super::super::{Matter, compare};
use super::alerts::{self, Open};
use super::inputs::tidy;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::Pieces;
use crate::kernel::requirement::Stock;

/// Lines from the total to the signature.
pub(super) const LINES: usize = 13;

/// Titles of the strength, of a liquid and of a dry product.
const STRENGTHS: [&str; 2] = ["Strength used (g/L)", "Strength used (g/kg)"];

/// Said below a total that does not cover the need, or that another count would cost less than.
pub(super) fn not_covered(sheet: &mut Sheet, open: Open) {
    let row = sheet.rows.len() as u32;
    sheet.layout.wide_rows.push(row);
    let most = Open { short: 0, cards: 0, cheaper: 1 };
    sheet.layout.room.push((row, vec![Cell::text(most.sentence())]));
    sheet.push(vec![Cell::formula(alerts::sentence().saying(open.sentence()))]);
}

/// What is signed for, and the lines for a pen.
pub(super) fn add(sheet: &mut Sheet, matter: &Matter<'_>) {
    let Some(case) = matter.plan.cases.first() else { return };
    sheet.gap();
    let said = Pieces::text("\"Scenario: \"&Picked_scenario").saying(format!("Scenario: {}", case.scenario.name));
    sheet.layout.wide_rows.push(sheet.rows.len() as u32);
    sheet.push(vec![Cell::formula(said).with_role(Role::Total)]);
    let crews = || super::super::crew_days::dates(matter);
    let day = match (matter.date, crews()) {
        (Some(date), _) => date.to_string(),
        (None, Some((first, last))) => format!("not stated; crews go out {first} to {last}"),
        (None, None) => "not stated".to_owned(),
    };
    sheet.push(vec![Cell::text("Day of the plan"), Cell::text(day)]);
    let picked = |name: &str| Pieces::call("INDEX", [Pieces::text(name), Pieces::text("Picked")]);
    let target = matter.plan.campaign.practice_of(case.scenario, 0).target.milligrams_per_liter();
    let is_all = matter.plan.campaign.overrides.is_empty();
    let title = if is_all { "Target (mg/L)" } else { "Target, but for exceptions (mg/L)" };
    sheet.push(vec![Cell::text(title), Cell::formula(picked("Targets").giving(tidy(target), 1))]);
    let stock = &case.stock.prepared.stock;
    let is_liquid = matches!(stock, Stock::Liquid { .. });
    let either = |liquid: Pieces, dry: Pieces| Pieces::call("IF", [picked("Liquid").then("=1"), liquid, dry]);
    let [liquid, dry] = STRENGTHS;
    sheet.push(vec![
        Cell::formula(either(Pieces::quoted(liquid), Pieces::quoted(dry)).saying(if is_liquid { liquid } else { dry })),
        Cell::formula(
            either(picked("Strength_of_liquid"), picked("Strength_of_dry"))
                .giving(compare::strength(stock, true, is_liquid), 1),
        ),
    ]);
    for line in [
        "Ordered by (name, in print): ______________________________",
        "Signature: ______________________________    Date: ______________",
    ] {
        sheet.gap();
        sheet.wide(line, Role::Body);
    }
}
