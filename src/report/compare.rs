//! The Compare sheet: the scenarios side by side: strength, amounts, weight to haul, cost, pH, hours. Whatever follows from inputs is a
//! formula; the rest is marked.

use super::Matter;
use super::live::{Follows, agents, of_needs, priced, product, product_in_all, tidy};
use super::show::Shown;
use crate::caution::Caution;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::{Pieces, Place};
use crate::engine::raised;
use crate::kernel::constants::{GREATEST_CODED_DOSE, SLOW_PH};
use crate::kernel::requirement::Stock;
use crate::rollup::Sums;
use crate::rollup::orders::{ItemKind, PricedSoFar};

/// The figures of one scenario that are compared.
pub(super) struct Figures {
    pub(super) sums: Sums,
    pub(super) product_cost: Option<f64>,
    /// What of the order has a price.
    pub(super) order: PricedSoFar,
    bought: f64,
}

const SHEET: &str = "Compare";
/// Columns before those of the scenarios.
const NAMING: u16 = 2;

/// The sheet while it grows, and what its figures follow.
struct Lines<'a> {
    sheet: Sheet,
    scenarios: usize,
    follows: Option<&'a Follows>,
    /// Row of the scenarios' numbers.
    numbers: u32,
}

/// Makes the formula of a scenario's figure, given the cell of its number.
type Made<'a> = &'a dyn Fn(&Follows, usize, Pieces) -> Option<Pieces>;

impl Lines<'_> {
    fn cells(&mut self, title: &str, unit: &str, cell: &dyn Fn(usize) -> Cell) {
        let mut row = vec![Cell::text(title), Cell::text(unit)];
        row.extend((0..self.scenarios).map(cell));
        self.sheet.push(row);
    }

    /// A figure that follows the inputs where a formula is made.
    fn live(&mut self, title: &str, unit: &str, digits: usize, value: &dyn Fn(usize) -> f64, made: Made<'_>) {
        let (follows, row) = (self.follows, self.numbers);
        let cell = |at: usize| {
            let number = Pieces::at(Place { sheet: SHEET, row, column: NAMING + at as u16 });
            let pieces = follows.and_then(|follows| made(follows, at, number)).filter(|_| !value(at).is_nan());
            match pieces {
                Some(pieces) => Cell::formula(pieces.giving(tidy(value(at)), digits)),
                None => Cell::number(tidy(value(at)), digits),
            }
        };
        self.cells(title, unit, &cell);
    }

    /// A figure that stays as it was planned.
    fn planned(&mut self, title: &str, unit: &str, digits: usize, value: &dyn Fn(usize) -> f64) {
        let title = if self.follows.is_some() { format!("{title} *") } else { title.to_owned() };
        self.cells(&title, unit, &|at| Cell::number(value(at), digits));
    }

    /// A count that stays as it was planned.
    fn counted(&mut self, title: &str, count: &dyn Fn(usize) -> u64) {
        let title = if self.follows.is_some() { format!("{title} *") } else { title.to_owned() };
        self.cells(&title, "", &|at| Cell::count(count(at)));
    }
}

pub(super) fn sheet(matter: &Matter<'_>, follows: Option<&Follows>) -> Sheet {
    let mut sheet = Sheet::new(SHEET);
    let campaign = matter.plan.campaign;
    sheet.title("Compare: the scenarios side by side");
    sheet.note(format!(
        "{}. Amounts are for the first round unless they say otherwise. Cost per {} of available chlorine is the cost of the \
         packages bought over the chlorine they bring on the day of use.",
        matter.coverage(),
        Shown::of("kg", campaign.system).symbol
    ));
    sheet.note(super::AS_IF_TOGETHER);
    match follows {
        Some(follows) if follows.wells => {
            sheet.note("Figures of all scenarios follow what is changed; those marked * are values of the plan, which do not.");
        }
        Some(_) => sheet.note(
            "There are too many wells for formulas: only what follows from counts of packages, prices and stock changes; figures \
             marked * and whatever the wells add up to are values of the plan.",
        ),
        None => {}
    }
    let heads = std::iter::once("Figure".to_owned()).chain(std::iter::once("Unit".to_owned()));
    sheet.heads(heads.chain(matter.plan.cases.iter().map(|case| case.scenario.name.clone())));
    sheet.layout.repeat_rows = sheet.layout.filter_row.take();
    let figures: Vec<Figures> = (0..matter.plan.cases.len()).map(|index| figures(matter, index)).collect();
    let numbers = sheet.rows.len() as u32;
    let mut lines = Lines { sheet, scenarios: figures.len(), follows, numbers };
    stated(matter, &mut lines);
    amounts(matter, &figures, &mut lines);
    costs(matter, &figures, &mut lines);
    after(matter, &figures, &mut lines);
    let mut sheet = lines.sheet;
    sheet.layout.widths = vec![37.0, 7.0];
    sheet.layout.widths.extend(std::iter::repeat_n(14.0, figures.len()));
    sheet.layout.frozen_columns = NAMING;
    sheet
}

/// Product, strength and practice of each scenario.
fn stated(matter: &Matter<'_>, lines: &mut Lines<'_>) {
    let campaign = matter.plan.campaign;
    let case = |index: usize| &matter.plan.cases[index];
    let practice = |index: usize| campaign.practice_of(case(index).scenario, 0);
    let stock = |index: usize| &case(index).stock.prepared.stock;
    lines.cells("Scenario no.", "", &|i| Cell::count(i as u64 + 1));
    lines.cells("Product", "", &|i| Cell::text(&campaign.products[case(i).scenario.product].name));
    lines.planned("Age of the stock", "d", 0, &|i| case(i).stock.age.value / 86_400.0);
    lines.live(
        "Target, as Cl2 (before overrides)",
        "mg/L",
        0,
        &|i| practice(i).target.milligrams_per_liter(),
        &|follows, i, _| follows.input(i, "practice.target_mg_per_l"),
    );
    lines.live("Contact time (before overrides)", "h", 0, &|i| practice(i).hold.value / 3600.0, &|follows, i, _| {
        follows.input(i, "practice.hold_hours")
    });
    for (title, name, used, liquid) in [
        ("Label strength, liquid", "Label_of_liquid", false, true),
        ("Strength used, liquid", "Strength_of_liquid", true, true),
        ("Label strength, dry", "Label_of_dry", false, false),
        ("Strength used, dry", "Strength_of_dry", true, false),
    ] {
        let (unit, digits) = if liquid { ("g/L", 1) } else { ("g/kg", 0) };
        lines.live(title, unit, digits, &|i| strength(stock(i), used, liquid), &|_, _, number| {
            Some(Pieces::call("INDEX", [Pieces::text(name), number]))
        });
    }
    lines.planned("Strength remaining, % of label", "%", 0, &|i| 100.0 * stock(i).share_of_label());
}

/// Visits, water, chlorine and product.
fn amounts(matter: &Matter<'_>, figures: &[Figures], lines: &mut Lines<'_>) {
    let system = matter.plan.campaign.system;
    let (volume, mass) = (Shown::of("L", system), Shown::of("kg", system));
    let liquid = |index: usize| matches!(matter.plan.cases[index].stock.prepared.stock, Stock::Liquid { .. });
    let sums = |index: usize| &figures[index].sums;
    lines.live("Visits planned", "", 0, &|i| sums(i).planned as f64, &|follows, _, number| {
        follows.of_wells("Wells_planned", number)
    });
    lines.cells("Visits held back", "", &|i| flagged(sums(i).held_back));
    if figures.iter().any(|figures| figures.sums.excluded > 0) {
        lines.counted("Visits excluded", &|i| sums(i).excluded);
    }
    lines.counted("Visits on assumed measures", &|i| sums(i).resting.on_size);
    lines.live(
        "Water treated",
        volume.symbol,
        0,
        &|i| volume.value(sums(i).treated_volume_l),
        &|follows, _, number| follows.of_wells("Wells_treated", number),
    );
    lines.live(
        "Chlorine, as Cl2",
        mass.symbol,
        1,
        &|i| mass.value(sums(i).chlorine_g / 1000.0),
        &|follows, _, number| follows.of_wells("Wells_chlorine", number),
    );
    for (of_liquids, form, shown) in [(true, "liquid", volume), (false, "dry", mass)] {
        let mut line = |title: &str, get: fn(&Sums) -> f64, name: &str| {
            let value = |i: usize| if liquid(i) == of_liquids { shown.value(get(sums(i))) } else { f64::NAN };
            lines.live(title, shown.symbol, 1, &value, &|_, _, number| {
                Some(if name.is_empty() { product_in_all(&number) } else { product(name, number) })
            });
        };
        line(&format!("Product, {form}, first round"), |sums| sums.product, "Needs_first");
        line("  low: lowest assumptions", |sums| sums.product_low, "Needs_low");
        line("  high: highest assumptions", |sums| sums.product_high, "Needs_high");
        line("  repeat round", |sums| sums.repeat, "Needs_repeat");
        line("  handling loss", |sums| sums.loss, "Needs_loss");
        line("  total, incl. repeats and losses", Sums::product_in_all, "");
    }
    lines.live(
        "Weight of product to haul, first round",
        mass.symbol,
        0,
        &|i| mass.value(sums(i).product_kg),
        &|follows, _, number| follows.of_wells("Wells_product_kg", number),
    );
}

/// What the order costs.
fn costs(matter: &Matter<'_>, figures: &[Figures], lines: &mut Lines<'_>) {
    let campaign = matter.plan.campaign;
    let mass = Shown::of("kg", campaign.system);
    let stock = |index: usize| &matter.plan.cases[index].stock.prepared.stock;
    let known = |cost: Option<f64>| cost.unwrap_or(f64::NAN);
    lines.live(
        "Cost of product packages",
        &campaign.currency,
        2,
        &|i| known(figures[i].product_cost),
        &|_, _, number| Some(priced(product("Needs_cost", number.clone()), product("Needs_unpriced", number))),
    );
    lines.live(
        &format!("Cost per {} of available chlorine bought", mass.symbol),
        &campaign.currency,
        2,
        &|i| cost_of_chlorine(&figures[i], stock(i)) / mass.value(1.0),
        &|follows, i, number| Some(follows.cost_of_chlorine(matches!(stock(i), Stock::Liquid { .. }), number)),
    );
    lines.live(
        "Cost of everything on the order",
        &campaign.currency,
        2,
        &|i| known(figures[i].order.of_all()),
        &|_, _, number| Some(priced(of_needs("Needs_cost", number.clone()), of_needs("Needs_unpriced", number))),
    );
    if !figures.iter().all(|figures| figures.order.is_all()) {
        let so_far = |index: usize| &figures[index].order;
        lines.live(
            "  priced so far, not the cost of all",
            &campaign.currency,
            2,
            &|i| so_far(i).cost,
            &|_, _, number| Some(of_needs("Needs_cost", number)),
        );
        lines.live("  lines of the order", "", 0, &|i| so_far(i).lines as f64, &|_, _, number| {
            Some(Pieces::call("COUNTIFS", [Pieces::text("Needs_scenario"), number]))
        });
        lines.live("  of them not priced", "", 0, &|i| (so_far(i).lines - so_far(i).priced) as f64, &|_, _, number| {
            let which =
                [Pieces::text("Needs_scenario"), number, Pieces::text("Needs_unpriced"), Pieces::text("\">0\"")];
            Some(Pieces::call("COUNTIFS", which))
        });
    }
    lines.planned("  of it for rounding up at each depot", &campaign.currency, 2, &|i| {
        let mut own = matter.orders.rounding.iter().filter(|rounding| rounding.scenario == i).peekable();
        if own.peek().is_none() {
            return f64::NAN;
        }
        // Of what is priced.
        let known: Vec<f64> = own.filter_map(|rounding| rounding.cost).collect();
        if known.is_empty() { f64::NAN } else { known.iter().sum() }
    });
}

/// What comes after the dose: neutralizer, flush, pH.
fn after(matter: &Matter<'_>, figures: &[Figures], lines: &mut Lines<'_>) {
    let system = matter.plan.campaign.system;
    let (volume, mass) = (Shown::of("L", system), Shown::of("kg", system));
    let sums = |index: usize| &figures[index].sums;
    lines.live(
        "Neutralizer, all agents, first round",
        mass.symbol,
        1,
        &|i| mass.value(sums(i).neutralizer_first_kg()),
        &|_, _, number| Some(agents("Needs_first", number)),
    );
    lines.live("Flush water", volume.symbol, 0, &|i| volume.value(sums(i).flush_volume_l), &|follows, _, number| {
        follows.of_wells("Wells_flush", number)
    });
    lines.live("Flush time, where a rate is known", "h", 0, &|i| sums(i).flush_h, &|follows, _, number| {
        follows.of_wells("Wells_hours", number)
    });
    lines.counted("Visits without a flush time", &|i| sums(i).flush_unknown);
    lines.counted(&format!("Visits with pH above {} after dosing", SLOW_PH.value), &|i| {
        raised(matter.run, i, Caution::PhAboveEight)
    });
    lines.counted("Visits where that pH is not known", &|i| raised(matter.run, i, Caution::PhUnknown));
    lines.counted(&format!("Visits dosed above {} mg/L", GREATEST_CODED_DOSE.value), &|i| {
        raised(matter.run, i, Caution::AboveFiveHundred)
    });
}

fn flagged(count: u64) -> Cell {
    if count > 0 { Cell::count(count).with_role(Role::Flagged) } else { Cell::count(count) }
}

pub(super) fn figures(matter: &Matter<'_>, index: usize) -> Figures {
    let products =
        || matter.orders.lines.iter().filter(|line| line.scenario == index && line.kind == ItemKind::Product);
    Figures {
        sums: matter.run.totals.overall(index),
        product_cost: PricedSoFar::of(products()).of_all(),
        order: matter.orders.priced(index),
        bought: products().fold(0.0, |sum, line| sum + line.amount),
    }
}

/// In grams a liter or a kilogram; NaN of a product of the other kind.
pub(super) fn strength(stock: &Stock, used_now: bool, liquid: bool) -> f64 {
    match (stock, liquid) {
        (Stock::Liquid { label, used, .. }, true) => if used_now { *used } else { *label }.grams_per_liter(),
        (Stock::Dry { label, used, .. }, false) => if used_now { *used } else { *label }.ratio() * 1000.0,
        _ => f64::NAN,
    }
}

/// Cost per kilogram of the available chlorine in the packages bought; NaN where a price is missing or nothing is bought.
pub(super) fn cost_of_chlorine(figures: &Figures, stock: &Stock) -> f64 {
    let per_unit = match stock {
        Stock::Liquid { used, .. } => used.grams_per_liter() / 1000.0,
        Stock::Dry { used, .. } => used.ratio(),
    };
    match figures.product_cost {
        Some(cost) if figures.bought > 0.0 => cost / (figures.bought * per_unit),
        _ => f64::NAN,
    }
}
