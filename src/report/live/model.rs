//! What the living sheets share: who is treated under which practice, which depot serves whom, and the names given so far.

use std::collections::{BTreeSet, HashMap};

use super::super::Matter;
use super::super::show::Shown;
use crate::document::formula::{Name, Pieces, Place};
use crate::error::Result;
use crate::field::names::is_same;
use crate::field::rules::UnitSystem;
use crate::kernel::neutralizer::Agent;
use crate::kernel::requirement::Practice;
use crate::parameter::NO_SUPPLIER;
use crate::relation::Given;
use crate::rollup::GroupKey;
use crate::rollup::orders::{ItemKind, OrderLine};
use crate::scenario::Campaign;
use crate::visit::{Need, Visit};
use crate::well::Well;

/// One practice that holds for some well: a scenario with the exceptions that apply.
pub(super) struct Effective {
    /// Place of the scenario in the plan.
    pub case: usize,
    /// The exceptions, a bit each.
    pub mask: u64,
    /// What they come to.
    pub practice: Practice,
}

/// A cell that may be changed and is taken back: where it stands, beside what, what was planned, and what it states.
#[derive(Debug, Clone)]
pub(in crate::report) struct Back {
    pub place: Place,
    /// What stands in the first two cells of its row.
    pub label: String,
    pub planned: f64,
    /// The keys on the way, from the whole campaign down.
    pub states: String,
    /// The unit that the number is stated with; empty for a bare number.
    pub unit: &'static str,
}

/// A row of the Packages sheet, as the plan has it.
pub(super) struct PackageRow {
    pub package: String,
    pub supplier: String,
    pub count: f64,
    pub amount: f64,
    pub cost: f64,
    /// Price of one package; not a number where none is stated.
    pub price: f64,
}

/// How many times what a line counts its cards measure out, what of it is missing, and whether another count would cost less.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Alert {
    pub(super) times: f64,
    pub(super) cards_short: f64,
    pub(super) is_cheaper: bool,
}

/// The sheet of packages.
pub(super) const PACKAGES: &str = "Packages";

/// What stands between the keys on the way.
pub(super) const BETWEEN: &str = " > ";

/// One row of the Wells sheet.
#[derive(Clone, Copy)]
pub(super) struct Row<'a> {
    /// Its place on the sheet, from 0.
    pub number: usize,
    /// Place of its group among those that Summary adds up.
    pub group: Option<usize>,
    pub visit: &'a Visit,
    /// Place of the scenario in the plan.
    pub case: usize,
    /// Place of its depot.
    pub depot: usize,
    /// What is needed, under which practice; nothing where the visit is not planned.
    pub treated: Option<(&'a Well, &'a Need, usize)>,
}

/// What the sheets share.
pub(super) struct Model<'a> {
    /// What the report is made from.
    pub matter: &'a Matter<'a>,
    /// How people of the campaign measure.
    pub system: UnitSystem,
    /// Depots in the order of the totals.
    pub depots: Vec<String>,
    /// Practices that hold for some well.
    pub practices: Vec<Effective>,
    /// Who sells what the campaign states, whether this plan buys it or not; what stands for one that is not stated comes last.
    pub suppliers: Vec<String>,
    /// Agents that are used somewhere.
    pub agents: Vec<Agent>,
    /// Rows of the Wells sheet.
    pub rows: Vec<Row<'a>>,
    /// Place of each scenario's smallest measure on the Measures sheet, from 0.
    pub first_measure: Vec<usize>,
    /// What each line of the orders is alerted of, as planned.
    pub alerts: Vec<Alert>,
    /// Rows of the Packages sheet: which need and kind.
    pub packages: Vec<(usize, usize)>,
    /// The same, as the plan has them.
    pub package_rows: Vec<PackageRow>,
    pub names: Vec<Name>,
    /// Cells that are taken back.
    pub back: Vec<Back>,
    /// Named numbers that formulas use: name, title, unit, value, source.
    pub numbers: Vec<(String, String, String, f64, String)>,
}

impl Model<'_> {
    /// Whether an order may hold anything for a depot: of those without a name only where something is needed there.
    pub fn is_ordered_for(&self, depot: &str) -> bool {
        let needs = |line: &OrderLine| line.first_round + line.repeat_round + line.handling_loss > 0.0;
        !depot.is_empty() || self.matter.orders.lines.iter().any(|line| line.depot == depot && needs(line))
    }
}

impl<'a> Model<'a> {
    pub fn of(matter: &'a Matter<'a>) -> Result<Self> {
        let plan = matter.plan;
        let wells: Vec<&Well> = matter.visits().iter().filter_map(|treated| treated.visit.well()).collect();
        let masks = plan.masks(&wells)?;
        let depots: Vec<String> = matter.run.totals.by_depot(0).into_keys().collect();
        let mut practices: Vec<Effective> = Vec::new();
        let mut places: HashMap<(usize, u64), usize> = HashMap::new();
        let mut rows = Vec::new();
        let mut masks = masks.into_iter();
        let groups: Vec<Vec<String>> = matter.run.totals.by_group(0).into_keys().collect();
        let mut places_of_groups: HashMap<Vec<String>, Option<usize>> = HashMap::new();
        for treated in matter.visits() {
            let visit = &treated.visit;
            let depot = depots.iter().position(|depot| is_same(depot, visit.depot())).unwrap_or(0);
            let mask = visit.well().and_then(|_| masks.next()).unwrap_or(0);
            let own: Vec<String> =
                GroupKey::of(visit, &plan.groups).values.into_iter().map(|value| value.into_owned()).collect();
            let group = *places_of_groups.entry(own).or_insert_with_key(|own| {
                // Depots and regions are counted under one spelling.
                let is_it = |known: &&Vec<String>| known.iter().zip(own).all(|(known, own)| is_same(known, own));
                let exact = groups.iter().position(|known| known == own);
                exact.or_else(|| groups.iter().position(|known| is_it(&known)))
            });
            for case in 0..plan.cases.len() {
                let treated = visit.well().zip(treated.need(case)).map(|(well, need)| {
                    let place = *places.entry((case, mask)).or_insert_with(|| {
                        let practice = plan.campaign.practice_of(plan.cases[case].scenario, mask);
                        practices.push(Effective { case, mask, practice });
                        practices.len() - 1
                    });
                    (well, need, place)
                });
                rows.push(Row { number: rows.len(), group, visit, case, depot, treated });
            }
        }
        let ordered = |agent: &Agent| {
            let mut lines = matter.orders.lines.iter().filter(|line| line.kind == ItemKind::Neutralizer);
            lines.any(|line| line.item == agent.name())
        };
        let agents = Agent::ALL.into_iter().filter(ordered).collect();
        let system = plan.campaign.system;
        let mut model = Self {
            matter,
            system,
            depots,
            practices,
            suppliers: suppliers(plan.campaign),
            agents,
            rows,
            first_measure: Vec::new(),
            packages: Vec::new(),
            alerts: Vec::new(),
            package_rows: Vec::new(),
            names: Vec::new(),
            back: Vec::new(),
            numbers: Vec::new(),
        };
        model.number(
            super::formula::SLACK,
            "Part of a step that is taken for rounding dust",
            "",
            crate::relation::SLACK,
            "2.0000000004 steps are two",
        );
        Ok(model)
    }

    /// What the relations of a row count with.
    pub fn given(&self, row: &Row<'a>) -> Option<Given<'_>> {
        let (well, need, place) = row.treated?;
        let case = &self.matter.plan.cases[row.case];
        let product = &self.matter.plan.campaign.products[case.scenario.product];
        Some(Given { well, practice: &self.practices[place].practice, product, stock: &case.stock, need })
    }

    /// Gives a name to cells of a column.
    pub fn name(&mut self, name: &str, sheet: &'static str, column: u16, rows: (u32, u32)) {
        self.names.push(Name { name: name.to_owned(), first: Place { sheet, row: rows.0, column }, last_row: rows.1 });
    }

    /// A named number, for use in formulas.
    pub fn number(&mut self, name: &str, title: &str, unit: &str, value: f64, source: &str) {
        if !self.numbers.iter().any(|known| known.0 == name) {
            self.numbers.push((name.to_owned(), title.to_owned(), unit.to_owned(), value, source.to_owned()));
        }
    }

    /// How a unit of the tables is shown, with the name of the factor between the two where they differ.
    pub fn shown(&mut self, unit: &'static str) -> (Shown, Option<String>) {
        let shown = Shown::of(unit, self.system);
        if shown.symbol == unit {
            return (shown, None);
        }
        let (base, per) = (unit.split('/').next().unwrap_or(unit), shown.symbol.split('/').next().unwrap_or_default());
        let (base, per) = if unit.ends_with("/min") { (unit, shown.symbol) } else { (base, per) };
        let words =
            |symbol: &str| symbol.replace("L/min", "liters a minute").replace('L', "liters").replace("kg", "kilograms");
        let plain = match base {
            "L" => "Liters",
            "kg" => "Kilograms",
            "g" => "Grams",
            "m" => "Meters",
            "mm" => "Millimeters",
            _ => "Liters_per_minute",
        };
        let name = format!("{plain}_in_a_{}", per.replace([' ', '/'], "_"));
        let title = format!("{} in one {per}", words(base));
        self.number(&name, &title, &format!("{base} per {per}"), 1.0 / shown.value(1.0), "the unit table, exact");
        (shown, Some(name))
    }
}

/// Suppliers in alphabetical order, behind them what stands for one that is not stated.
fn suppliers(campaign: &Campaign) -> Vec<String> {
    let packages = campaign.products.iter().flat_map(|product| &product.packages);
    let packages = packages.chain(campaign.neutralizers.iter().flat_map(|line| &line.packages));
    let of_supplies = campaign.supplies.iter().map(|supply| supply.supplier.as_ref());
    let stated: BTreeSet<&String> =
        packages.map(|package| package.supplier.as_ref()).chain(of_supplies).flatten().collect();
    stated.into_iter().cloned().chain([NO_SUPPLIER.to_owned()]).collect()
}

/// An element of a named column by a number that stands in a cell.
pub(super) fn indexed(name: &str, by: Pieces) -> Pieces {
    Pieces::call("INDEX", [Pieces::text(name), by])
}

/// A name for cells, of a title: `Contact_time`.
pub(super) fn named(title: &str) -> String {
    let plain = title.split(|letter: char| !letter.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    plain.collect::<Vec<_>>().join("_")
}
