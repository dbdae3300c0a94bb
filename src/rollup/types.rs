//! Amounts by type of well: how many visits each type has, the water they treat and the product they take under each
//! scenario.
//!
//! A dug well takes a hundred times what a driven point takes, so a campaign is understood by its types. It adds and counts.

use crate::field::WellType;

/// How many types of well there are, and one place more for visits without a type.
const PLACES: usize = WellType::ALL.len() + 1;

/// What the visits of one type come to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TypeSums {
    /// Visits that are planned; the amounts below are those of these.
    pub planned: u64,
    /// Visits that cannot be computed, which no amount below counts.
    pub held_back: u64,
    /// Water treated under each scenario, L.
    pub treated_volume_l: Vec<f64>,
    /// Product of the first round under each scenario: L of a liquid, kg of a dry product.
    pub product: Vec<f64>,
}

/// Sums of a run by type of well.
#[derive(Debug, Clone, PartialEq)]
pub struct TypeTotals {
    by_type: [TypeSums; PLACES],
}

impl TypeTotals {
    /// Empty totals for so many scenarios.
    pub fn new(scenarios: usize) -> Self {
        let empty = || TypeSums {
            treated_volume_l: vec![0.0; scenarios],
            product: vec![0.0; scenarios],
            ..TypeSums::default()
        };
        Self { by_type: std::array::from_fn(|_| empty()) }
    }

    fn of(&mut self, well_type: Option<WellType>) -> &mut TypeSums {
        &mut self.by_type[well_type.map_or(PLACES - 1, |kind| kind as usize)]
    }

    /// Counts a planned visit.
    pub fn planned(&mut self, well_type: WellType) {
        self.of(Some(well_type)).planned += 1;
    }

    /// Counts a visit that is held back.
    pub fn held_back(&mut self, well_type: Option<WellType>) {
        self.of(well_type).held_back += 1;
    }

    /// Adds what a planned visit takes under one scenario.
    pub fn add(&mut self, scenario: usize, well_type: WellType, treated_volume_l: f64, product: f64) {
        let sums = self.of(Some(well_type));
        sums.treated_volume_l[scenario] += treated_volume_l;
        sums.product[scenario] += product;
    }

    /// Adds the sums of the next batch; batches must come in reading order.
    pub fn absorb(&mut self, later: &Self) {
        for (mine, theirs) in self.by_type.iter_mut().zip(&later.by_type) {
            mine.planned += theirs.planned;
            mine.held_back += theirs.held_back;
            mine.treated_volume_l.iter_mut().zip(&theirs.treated_volume_l).for_each(|(mine, theirs)| *mine += theirs);
            mine.product.iter_mut().zip(&theirs.product).for_each(|(mine, theirs)| *mine += theirs);
        }
    }

    /// Types that occur, in the order of the vocabulary; visits without a type come last.
    pub fn occurring(&self) -> impl Iterator<Item = (Option<WellType>, &TypeSums)> {
        let types = WellType::ALL.into_iter().map(Some).chain(std::iter::once(None));
        types.zip(&self.by_type).filter(|(_, sums)| sums.planned + sums.held_back > 0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn batches_add_up_and_types_that_do_not_occur_are_left_out() {
        let mut whole = TypeTotals::new(2);
        let mut batch = TypeTotals::new(2);
        batch.planned(WellType::Dug);
        batch.add(0, WellType::Dug, 100.0, 1.5);
        batch.add(1, WellType::Dug, 100.0, 3.0);
        batch.held_back(None);
        whole.absorb(&batch);
        whole.absorb(&batch);
        let occurring: Vec<_> = whole.occurring().collect();
        assert_eq!(occurring.len(), 2);
        assert_eq!(occurring[0].0, Some(WellType::Dug));
        assert_eq!((occurring[0].1.planned, &occurring[0].1.product[..]), (2, &[3.0, 6.0][..]));
        assert_eq!((occurring[1].0, occurring[1].1.held_back), (None, 2));
    }
}
