//! What a run needs but the lists: the campaign's scenarios with their products on the day of use, and its rules.

use super::admitting::Rules;
use crate::error::Result;
use crate::kernel::requirement::Practice;
use crate::ledger::{self, CaseLabel};
use crate::rollup::GroupColumn;
use crate::scenario::stock::{StockOnTheDay, stock_on_the_day};
use crate::scenario::{Campaign, Scenario};
use crate::table::{ColumnHead, ColumnKind};
use crate::well::Well;

/// One scenario of a run, with its product as it is on the day of use.
#[derive(Debug)]
pub struct Case<'a> {
    /// The scenario.
    pub scenario: &'a Scenario,
    /// The product on the day of use.
    pub stock: StockOnTheDay,
}

/// Everything a run needs but the lists.
#[derive(Debug)]
pub struct Plan<'a> {
    /// The campaign.
    pub campaign: &'a Campaign,
    /// The scenarios to run, in order of the full definition.
    pub cases: Vec<Case<'a>>,
    /// Columns that totals are grouped by.
    pub groups: Vec<GroupColumn>,
    /// Columns of the lists that are not fields.
    pub carried: Vec<String>,
    pub(super) overrides: Rules,
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
        let cases = scenarios
            .into_iter()
            .map(|scenario| {
                let product = &campaign.products[scenario.product];
                let stock = stock_on_the_day(product, scenario.age.as_ref(), scenario.storage.as_ref(), date)?;
                Ok(Case { scenario, stock })
            })
            .collect::<Result<Vec<_>>>()?;
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
            overrides: Rules::prepare(&campaign.overrides, carried, &campaign.rules)?,
        })
    }

    /// The practice that holds for one well in one scenario, overrides applied.
    ///
    /// # Errors
    /// When an override cannot be evaluated.
    pub fn practice_for(&self, case: &Case<'_>, well: &Well) -> Result<Practice> {
        Ok(self.campaign.practice_of(case.scenario, self.mask(well)?))
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

    /// What the treatments table says of each case.
    pub fn labels(&self) -> impl Iterator<Item = CaseLabel<'_>> {
        self.cases.iter().map(|case| CaseLabel {
            name: &case.scenario.name,
            product: &self.campaign.products[case.scenario.product].name,
            stock: &case.stock.prepared.stock,
        })
    }

    /// Heads of the treatments table: the ledger's columns, then the carried ones.
    pub fn table_heads(&self) -> Vec<ColumnHead> {
        let own = ledger::COLUMNS.iter().map(|column| ColumnHead {
            name: column.id.to_owned(),
            kind: if column.get.is_text() { ColumnKind::Text } else { ColumnKind::Number },
        });
        // A carried column may share our name; it is renamed, because headings must be unique.
        let carried = self.carried.iter().map(|name| {
            let taken = ledger::COLUMNS.iter().any(|column| column.id == name);
            ColumnHead { name: if taken { format!("{name} (list)") } else { name.clone() }, kind: ColumnKind::Text }
        });
        own.chain(carried).collect()
    }

    /// The practice of every case, where the overrides of this mask hold.
    pub(super) fn practices(&self, mask: u64) -> Vec<Practice> {
        self.cases.iter().map(|case| self.campaign.practice_of(case.scenario, mask)).collect()
    }
}
