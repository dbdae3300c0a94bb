//! What a run needs but the lists: the campaign's scenarios with their products on the day of use, and its rules.

use super::admitting::Rules;
use crate::error::{Error, Result};
use crate::kernel::requirement::Practice;
use crate::ledger::{self, CaseLabel, Column};
use crate::rollup::GroupColumn;
use crate::rollup::orders::Poured;
use crate::scenario::depot_stock::{OwnStock, with_own_strength};
use crate::scenario::section::near;
use crate::scenario::stock::{StockOnTheDay, stock_on_the_day};
use crate::scenario::{Campaign, Scenario};
use crate::schedule::Schedule;
use crate::table::{ColumnHead, ColumnKind, NoTable};
use crate::well::Well;

/// One scenario of a run, with its product as it is on the day of use.
#[derive(Debug)]
pub struct Case<'a> {
    /// Its name, and how it changes the campaign's practice.
    pub scenario: &'a Scenario,
    /// The product on the day of use.
    pub stock: StockOnTheDay,
    /// What depots have of the product that has a strength of its own.
    pub own_stock: Vec<OwnStock<'a>>,
}

/// Everything a run needs but the lists.
#[derive(Debug)]
pub struct Plan<'a> {
    /// Everything that the scenario file or the book states.
    pub campaign: &'a Campaign,
    /// The scenarios to run, in order of the full definition.
    pub cases: Vec<Case<'a>>,
    /// Columns that totals are grouped by.
    pub groups: Vec<GroupColumn>,
    /// Columns of the lists that are not fields.
    pub carried: Vec<String>,
    /// Who makes which visit when, where the campaign states crews.
    pub schedule: Option<Schedule>,
    pub(super) overrides: Rules,
}

/// A column of a table that a run writes.
#[derive(Debug, Clone, Copy)]
pub enum TableColumn {
    /// One of the ledger.
    Ledger(&'static Column),
    /// One that the lists carry along, by its place among them.
    Carried(usize),
}

impl TableColumn {
    fn head(self, plan: &Plan<'_>) -> ColumnHead {
        match self {
            Self::Ledger(column) => ColumnHead {
                name: column.id.to_owned(),
                kind: if column.get.is_text() { ColumnKind::Text } else { ColumnKind::Number },
            },
            Self::Carried(at) => {
                let name = &plan.carried[at];
                // It may share a name of ours; it is renamed, because headings must be unique.
                let is_ours = ledger::column(name).is_some() || plan.crew_columns().any(|column| column.id == name);
                let name = if is_ours { format!("{name} (list)") } else { name.clone() };
                ColumnHead { name, kind: ColumnKind::Text }
            }
        }
    }
}

/// A table that a run writes: its columns, and who takes them.
#[derive(Debug)]
pub struct Table<S> {
    /// The columns, in order.
    pub columns: Vec<TableColumn>,
    /// Who takes the rows.
    pub sink: S,
}

/// The tables that a run writes: what was understood of each visit, and what each visit needs in each case.
#[derive(Debug)]
pub struct Tables<S> {
    /// One row a visit.
    pub visits: Table<S>,
    /// One row a visit and case.
    pub treatments: Table<S>,
}

impl Tables<NoTable> {
    /// No tables at all.
    pub fn none() -> Self {
        let none = || Table { columns: Vec::new(), sink: NoTable };
        Self { visits: none(), treatments: none() }
    }
}

impl<'a> Plan<'a> {
    /// Prepares a run: products on the day of use, conditions and groups against the columns there are.
    ///
    /// # Errors
    /// Whatever in the scenario file does not fit these lists or this date.
    pub fn prepare(
        campaign: &'a Campaign,
        scenarios: Vec<&'a Scenario>,
        date: Option<chrono::NaiveDate>,
        carried: &[String],
    ) -> Result<Self> {
        let mut cases = Vec::with_capacity(scenarios.len());
        Error::all_told(scenarios.into_iter().map(|scenario| {
            let product = &campaign.products[scenario.product];
            let stock = stock_on_the_day(product, scenario.age.as_ref(), scenario.storage.as_ref(), date)?;
            let own_stock = with_own_strength(&campaign.stock, product, scenario, &stock, date)?;
            cases.push(Case { scenario, stock, own_stock });
            Ok(())
        }))?;
        Ok(Self {
            campaign,
            cases,
            groups: GroupColumn::resolve(
                &campaign.group_by,
                campaign.group_by_spot.as_ref(),
                carried,
                &campaign.rules,
            )?,
            carried: carried.to_vec(),
            schedule: None,
            overrides: Rules::prepare(&campaign.overrides, carried, &campaign.rules)?,
        })
    }

    /// The practice that holds for one well in one scenario, overrides applied; with the keys of it that are stated.
    ///
    /// # Errors
    /// When an override cannot be evaluated.
    pub fn practice_for(&self, case: &Case<'_>, well: &Well) -> Result<(Practice, Vec<&'static str>)> {
        let mask = self.mask(well)?;
        Ok((self.campaign.practice_of(case.scenario, mask), self.campaign.stated(case.scenario, mask)))
    }

    /// Why a well is left out by a rule of the scenario file; nothing where it is planned.
    ///
    /// # Errors
    /// When an override cannot be evaluated.
    pub fn excluded(&self, well: &Well) -> Result<Option<&str>> {
        Ok(self.overrides.reason(self.mask(well)?))
    }

    /// Which overrides hold for each of some wells, a bit each.
    ///
    /// # Errors
    /// When an override cannot be evaluated.
    pub fn masks(&self, wells: &[&Well]) -> Result<Vec<u64>> {
        self.overrides.conditions().masks(wells)
    }

    /// Which overrides hold for one well.
    fn mask(&self, well: &Well) -> Result<u64> {
        Ok(self.overrides.conditions().masks(&[well])?.first().copied().unwrap_or(0))
    }

    /// The scenarios of the cases with what depots have of their products, for orders.
    pub fn poured(&self) -> Vec<Poured<'_>> {
        self.cases.iter().map(|case| Poured { scenario: case.scenario, own_stock: &case.own_stock }).collect()
    }

    /// What the treatments table says of each case.
    pub fn labels(&self) -> impl Iterator<Item = CaseLabel<'_>> {
        self.cases.iter().map(|case| CaseLabel {
            name: &case.scenario.name,
            product: &self.campaign.products[case.scenario.product].name,
            stock: &case.stock.prepared.stock,
        })
    }

    /// Heads of some columns.
    pub fn heads(&self, columns: &[TableColumn]) -> Vec<ColumnHead> {
        columns.iter().map(|column| column.head(self)).collect()
    }

    /// Columns of the treatments table, where nobody chooses them.
    pub fn treatment_columns() -> Vec<TableColumn> {
        ledger::treatments().map(TableColumn::Ledger).collect()
    }

    /// Columns of the visits table: the ledger's, then those that the lists carry along.
    pub fn visit_columns(&self) -> Vec<TableColumn> {
        let own = ledger::visits().chain(self.crew_columns()).map(TableColumn::Ledger);
        own.chain((0..self.carried.len()).map(TableColumn::Carried)).collect()
    }

    /// Columns of the visits table where the campaign states crews.
    fn crew_columns(&self) -> impl Iterator<Item = &'static Column> {
        self.schedule.iter().flat_map(|_| ledger::OF_CREWS)
    }

    /// The columns with these names, of the ledger or of the lists.
    ///
    /// # Errors
    /// A name that no column has, with those that are near; a name given twice.
    pub fn columns_named(&self, names: &[String]) -> Result<Vec<TableColumn>> {
        let all = ledger::COLUMNS.iter().chain(ledger::visits()).chain(self.crew_columns()).map(TableColumn::Ledger);
        let all: Vec<TableColumn> = all.chain((0..self.carried.len()).map(TableColumn::Carried)).collect();
        let heads = self.heads(&all);
        let mut chosen = Vec::with_capacity(names.len());
        for (at, name) in names.iter().enumerate() {
            if names[..at].contains(name) {
                return Err(Error::request(format!("--columns names {name:?} twice")));
            }
            let Some(place) = heads.iter().position(|head| head.name == *name) else {
                let known: Vec<&str> = heads.iter().map(|head| head.name.as_str()).collect();
                return Err(Error::request(format!("no table has a column {name:?}{}", near(name, &known))));
            };
            chosen.push(all[place]);
        }
        Ok(chosen)
    }

    /// The practice of every case, where the overrides of this mask hold.
    pub(super) fn practices(&self, mask: u64) -> Vec<Practice> {
        self.cases.iter().map(|case| self.campaign.practice_of(case.scenario, mask)).collect()
    }
}
