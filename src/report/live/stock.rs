//! What depots have already, line by line: Stock; with the strength of what is older than what a scenario pours.

use super::super::Matter;
use super::super::compare;
use super::super::show::Shown;
use super::inputs::tidy;
use super::model::{BETWEEN, Back, Model};
use super::prices::from_zero;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::{Pieces, Place};
use crate::field::names::is_same;
use crate::kernel::requirement::Stock;
use crate::quantity::basis::days;
use crate::quantity::format::number;
use crate::rollup::orders::ItemKind;
use crate::scenario::depot_stock::{OwnStock, StockLine};

const STOCK: &str = "Stock";
/// Where amounts on hand and on order stand.
const ON_HAND: u16 = 2;
const ON_ORDER: u16 = 3;

/// A line of the sheet.
pub(super) struct Stocked {
    depot: String,
    item: String,
    row: u32,
    /// Where its strength under each scenario stands; nothing where it counts as what that pours.
    strengths: Vec<Option<Place>>,
}

/// What a depot has of an item under a scenario, by the number of the scenario in `number`: each line as it counts; nothing where the
/// sheet has no line of it.
pub(super) fn on_hand(
    stocked: &[Stocked],
    (depot, item): (&str, &str),
    (scenario, is_liquid): (usize, bool),
    number: impl Fn() -> Pieces,
) -> Option<Pieces> {
    let name = if is_liquid { "Strength_of_liquid" } else { "Strength_of_dry" };
    let lines = stocked.iter().filter(|line| line.depot == depot && line.item == item);
    let each = lines.map(|line| {
        let amount = Pieces::at(Place { sheet: STOCK, row: line.row, column: ON_HAND });
        match line.strengths.get(scenario).copied().flatten() {
            Some(strength) => {
                let poured = Pieces::call("INDEX", [Pieces::text(name), number()]);
                amount.then("*").and(Pieces::at(strength)).then("/").and(poured)
            }
            None => amount,
        }
    });
    each.reduce(|sum, more| sum.then("+").and(more))
}

/// What is on order of an item for a depot.
pub(super) fn on_order(stocked: &[Stocked], (depot, item): (&str, &str)) -> Option<Pieces> {
    let lines = stocked.iter().filter(|line| line.depot == depot && line.item == item);
    let each = lines.map(|line| Pieces::at(Place { sheet: STOCK, row: line.row, column: ON_ORDER }));
    each.reduce(|sum, more| sum.then("+").and(more))
}

/// The sheet, with its lines.
pub(super) fn stock(model: &mut Model<'_>) -> (Sheet, Vec<Stocked>) {
    let matter = model.matter;
    let cases = &matter.plan.cases;
    let has_own = cases.iter().any(|case| !case.own_stock.is_empty());
    let mut sheet = Sheet::new(STOCK);
    sheet.title("Stock: what each depot has already; change a framed cell");
    sheet.note("On hand and on order, 0 or more, in the unit beside it; an order covers what is needed less this.");
    let mut heads = ["Depot", "Item", "On hand", "On order", "Unit"].map(str::to_owned).to_vec();
    if has_own {
        sheet.note(
            "Stock with an age or a test of its own counts by the chlorine that is left in it: its strength stands here as it was planned; \
             other stock counts as strong as what the scenario pours. To change an age, plan again.",
        );
        heads.push("Age".to_owned());
        heads.extend(cases.iter().map(|case| format!("Strength today (g/L or g/kg): {}", case.scenario.name)));
    }
    let own_heads = heads.len() as u16 - cases.len() as u16;
    sheet.heads(heads);
    sheet.layout.filter_row = None;
    let mut stocked: Vec<Stocked> = Vec::new();
    // Visits without a depot have nowhere to keep anything.
    for depot in model.depots.iter().filter(|depot| !depot.is_empty()) {
        for line in matter.orders.lines.iter().filter(|line| line.depot == *depot && line.kind != ItemKind::Supply) {
            if stocked.iter().any(|known| known.depot == line.depot && known.item == line.item) {
                continue;
            }
            let shown = Shown::of(line.unit, model.system);
            let stated = matter.plan.campaign.stock.iter();
            let stated = stated.filter(|stock| is_same(&stock.depot, depot) && stock.item == line.item);
            let mut lines: Vec<Option<&StockLine>> = stated.map(Some).collect();
            if lines.is_empty() {
                lines.push(None);
            }
            for (at, stated) in lines.into_iter().enumerate() {
                let row = sheet.rows.len() as u32;
                let amount = |value: f64| Cell::number(tidy(shown.value(value)), 1).with_role(Role::Input);
                let (here, ordered) = stated.map_or((0.0, 0.0), |stated| (stated.on_hand, stated.on_order));
                let mut cells = vec![
                    Cell::text(&line.depot),
                    Cell::text(line.item_name()),
                    amount(here),
                    amount(ordered),
                    Cell::text(shown.symbol),
                ];
                let own = |case: usize| of_line(matter, case, stated?);
                if has_own {
                    cells.push((0..cases.len()).find_map(own).map_or_else(Cell::empty, |own| Cell::text(age(own))));
                    cells.extend((0..cases.len()).map(|case| own(case).map_or_else(Cell::empty, strength)));
                }
                sheet.push(cells);
                let strengths = (0..cases.len())
                    .map(|case| own(case).map(|_| Place { sheet: STOCK, row, column: own_heads + case as u16 }))
                    .collect();
                stocked.push(Stocked { depot: line.depot.clone(), item: line.item.clone(), row, strengths });
                for (column, planned, key) in [(ON_HAND, here, "on_hand"), (ON_ORDER, ordered, "on_order")] {
                    let whose = match at {
                        0 => ["stock", &line.depot, &line.item].join(BETWEEN),
                        at => ["stock", &line.depot, &line.item, &(at + 1).to_string()].join(BETWEEN),
                    };
                    model.back.push(Back {
                        place: Place { sheet: STOCK, row, column },
                        label: format!("{}: {}", line.depot, line.item_name()),
                        planned: tidy(shown.value(planned)),
                        states: [whose.as_str(), key].join(BETWEEN),
                        unit: shown.symbol,
                    });
                }
            }
        }
    }
    let (first, last) = (sheet.layout.frozen_rows, sheet.rows.len() as u32 - 1);
    if last >= first {
        for (column, title) in [(ON_HAND, "On hand"), (ON_ORDER, "On order")] {
            let help = format!("{title} at this depot, 0 or more, in the unit of the line.");
            let refusal = format!("{title} is 0 or more.");
            sheet.layout.entries.push(from_zero(column, (first, last), title, &help, &refusal));
        }
    }
    sheet.layout.widths = vec![18.0, 30.0, 11.0, 11.0, 10.0];
    if has_own {
        sheet.layout.widths.push(24.0);
        sheet.layout.widths.extend(std::iter::repeat_n(14.0, cases.len()));
    }
    (sheet, stocked)
}

fn of_line<'m>(matter: &Matter<'m>, case: usize, line: &StockLine) -> Option<&'m OwnStock<'m>> {
    OwnStock::of(&matter.plan.cases.get(case)?.own_stock, line)
}

fn age(own: &OwnStock<'_>) -> String {
    let old = number(days(own.today.age), 3);
    if own.today.from_test && own.today.age.value <= 0.0 {
        return "tested".to_owned();
    }
    if own.today.from_test { format!("tested {old} days ago") } else { format!("{old} days") }
}

fn strength(own: &OwnStock<'_>) -> Cell {
    let stock = &own.today.prepared.stock;
    Cell::number(tidy(compare::strength(stock, true, matches!(stock, Stock::Liquid { .. }))), 1)
}
