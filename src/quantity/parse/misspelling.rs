//! A misspelled word beside the known one that it is nearest to.

use super::super::unit::{self, Dimension};

/// A unit of the right dimension whose spelling differs by one letter.
pub(super) fn near(written: &str, dimension: Dimension) -> Option<&'static str> {
    let written: String = written.to_lowercase().split([' ', '(']).next().unwrap_or_default().to_owned();
    // What differs by one letter is about as long.
    let letters = written.chars().count();
    let as_long = |name: &str| name.len() > 1 && name.chars().count().abs_diff(letters) <= 1;
    if letters < 2 {
        return None;
    }
    unit::all()
        .filter(|unit| unit.dimension == dimension)
        .flat_map(|unit| std::iter::once(&unit.symbol).chain(unit.spellings).map(move |name| (unit, *name)))
        .find(|(_, name)| as_long(name) && edits(&written, &name.to_lowercase()) == 1)
        .map(|(_, name)| name)
}

/// Letters to insert, delete, replace or exchange with their neighbour to make one word of the other.
pub(crate) fn edits(a: &str, b: &str) -> usize {
    let a: Vec<char> = a.chars().collect();
    let b: Vec<char> = b.chars().collect();
    let mut rows = vec![(0..=b.len()).collect::<Vec<_>>()];
    for i in 1..=a.len() {
        let mut row = vec![i];
        for j in 1..=b.len() {
            let replace = rows[i - 1][j - 1] + usize::from(a[i - 1] != b[j - 1]);
            let mut best = replace.min(rows[i - 1][j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                best = best.min(rows[i - 2][j - 2] + 1);
            }
            row.push(best);
        }
        rows.push(row);
    }
    rows[a.len()][b.len()]
}
