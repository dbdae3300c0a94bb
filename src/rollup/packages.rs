//! Whole packages that cover a need at least cost.
//!
//! Called once per depot and item. It counts packages and knows nothing of what is in them.

use crate::scenario::supply::Package;

/// How many of each package to buy.
#[derive(Debug, Clone, PartialEq)]
pub struct Cover {
    /// Counts, in the order of the packages.
    pub counts: Vec<u64>,
    /// Amount bought, in the unit of the packages.
    pub amount: f64,
    /// What cannot be covered because too few packages are to be had; zero where the need is covered.
    pub short: f64,
    /// What it costs; `None` where a package that is bought has no price.
    pub cost: Option<f64>,
}

/// Combinations of the dearer packages that are tried beside the cheapest one.
const MOST_TRIALS: u64 = 200_000;

/// Whole packages covering `need`, never one fewer; `left` is how many of each are still to be had (`None`: any number).
///
/// Where packages have a price the cost is least, else the surplus is; ties go to the lesser surplus, then to fewer
/// packages. Where only some have one, no other is bought as long as these are to be had: what has no price cannot be called
/// the cheaper. The package that is cheapest a liter (or kilogram) carries the bulk; every combination of few of the others is
/// tried beside it. That is exact unless two unit prices lie closer together than the number of trials can resolve, when
/// the difference in cost is smaller still.
pub fn cover(need: f64, packages: &[Package], left: &[Option<u64>]) -> Cover {
    let some = |priced: bool| -> Vec<Option<u64>> {
        let which = packages.iter().zip(left);
        which.map(|(package, left)| if package.price.is_some() == priced { *left } else { Some(0) }).collect()
    };
    let with_price = of_some(need, packages, &some(true), true);
    if with_price.short <= 0.0 || packages.iter().all(|package| package.price.is_some()) {
        return with_price;
    }
    let rest = of_some(with_price.short, packages, &some(false), false);
    let counts = with_price.counts.iter().zip(&rest.counts).map(|(count, more)| count + more).collect();
    covered_by(need, packages, counts)
}

/// The same by those of which some are left.
fn of_some(need: f64, packages: &[Package], left: &[Option<u64>], priced: bool) -> Cover {
    let mut best = Cover { counts: vec![0; packages.len()], amount: 0.0, short: need.max(0.0), cost: Some(0.0) };
    if need <= 0.0 || packages.is_empty() {
        return best;
    }
    let mut order: Vec<usize> = (0..packages.len()).filter(|&index| left[index] != Some(0)).collect();
    let unit_price = |index: usize| packages[index].price.unwrap_or(0.0) / packages[index].amount;
    // Without prices the largest package carries the bulk, so that few are handled.
    order.sort_by(|&a, &b| {
        let by_price = if priced { unit_price(a).total_cmp(&unit_price(b)) } else { std::cmp::Ordering::Equal };
        by_price.then(packages[b].amount.total_cmp(&packages[a].amount)).then(a.cmp(&b))
    });
    let mut search = Search { need, packages, left, priced, best: None };
    search.from(&order, vec![0; packages.len()]);
    if let Some(found) = search.best {
        best = found;
    }
    best
}

/// What counts that somebody settled on come to, whether they cover the need or not.
pub fn covered_by(need: f64, packages: &[Package], counts: Vec<u64>) -> Cover {
    let left = vec![None; packages.len()];
    let mut search = Search { need: need.max(0.0), packages, left: &left, priced: false, best: None };
    search.judge(counts);
    search.best.unwrap_or(Cover { counts: Vec::new(), amount: 0.0, short: need.max(0.0), cost: Some(0.0) })
}

struct Search<'a> {
    need: f64,
    packages: &'a [Package],
    left: &'a [Option<u64>],
    priced: bool,
    best: Option<Cover>,
}

impl Search<'_> {
    /// Tries the bulk package `order[0]` with every combination of few others, then the bulk package bought out.
    fn from(&mut self, order: &[usize], counts: Vec<u64>) {
        let Some((&bulk, others)) = order.split_first() else {
            self.judge(counts);
            return;
        };
        let cap = match others.len() {
            0 => 0,
            kinds => (MOST_TRIALS as f64).powf(1.0 / kinds as f64) as u64,
        };
        self.combine(bulk, others, cap, counts.clone());
        if let Some(available) = self.left[bulk] {
            let mut bought_out = counts;
            bought_out[bulk] = available;
            if self.amount(&bought_out) < self.need {
                self.from(others, bought_out);
            }
        }
    }

    fn combine(&mut self, bulk: usize, others: &[usize], cap: u64, counts: Vec<u64>) {
        let Some((&next, rest)) = others.split_first() else {
            let mut counts = counts;
            let wanted = whole_packages(self.need - self.amount(&counts), self.packages[bulk].amount);
            counts[bulk] = self.left[bulk].map_or(wanted, |available| wanted.min(available));
            self.judge(counts);
            return;
        };
        let wanted = whole_packages(self.need - self.amount(&counts), self.packages[next].amount);
        let most = wanted.min(cap).min(self.left[next].unwrap_or(u64::MAX));
        for count in 0..=most {
            let mut counts = counts.clone();
            counts[next] = count;
            self.combine(bulk, rest, cap, counts);
        }
    }

    fn amount(&self, counts: &[u64]) -> f64 {
        counts.iter().zip(self.packages).map(|(&count, package)| count as f64 * package.amount).sum()
    }

    fn judge(&mut self, counts: Vec<u64>) {
        let amount = self.amount(&counts);
        // The same tolerance as in `whole_packages`, or a need that is met exactly would count as short by a last bit.
        let short = if amount >= self.need * (1.0 - 1e-12) { 0.0 } else { self.need - amount };
        let cost = counts
            .iter()
            .zip(self.packages)
            .filter(|(count, _)| **count > 0)
            .try_fold(0.0, |sum, (&count, package)| package.price.map(|price| sum + count as f64 * price));
        let candidate = Cover { counts, amount, short, cost };
        let better = match &self.best {
            None => true,
            Some(best) => self.rank(&candidate) < self.rank(best),
        };
        if better {
            self.best = Some(candidate);
        }
    }

    /// Smaller is better: short amounts, then cost, then surplus, then how many are handled.
    fn rank(&self, cover: &Cover) -> (OrderedFloat, OrderedFloat, OrderedFloat, u64) {
        let cost = if self.priced { cover.cost.unwrap_or(f64::INFINITY) } else { 0.0 };
        (OrderedFloat(cover.short), OrderedFloat(cost), OrderedFloat(cover.amount), cover.counts.iter().sum())
    }
}

/// A float that can be compared in a tuple.
#[derive(PartialEq)]
struct OrderedFloat(f64);

impl PartialOrd for OrderedFloat {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.0.total_cmp(&other.0))
    }
}

/// Whole packages of one size for a need; an exact multiple, within rounding, adds no package.
pub fn whole_packages(need: f64, size: f64) -> u64 {
    if need <= 0.0 {
        return 0;
    }
    let exact = need / size;
    let nearest = exact.round();
    let whole = if (exact - nearest).abs() <= 1e-12 * nearest.max(1.0) { nearest } else { exact.ceil() };
    whole as u64
}
