//! Which column feeds which field: the best assignment of a whole table, one to one.

use super::evidence::{LIKELY, OPEN, Reading};
use crate::field::{FIELD_COUNT, Field};

/// The columns of a table, settled.
#[derive(Debug, Default)]
pub struct Assignment {
    /// For each field, its reading.
    pub chosen: Vec<Option<Reading>>,
    /// Readings of columns that lost to another column of the same field, the best first.
    pub others: Vec<Reading>,
}

impl Assignment {
    /// The column that is used for a field, where one is likely enough.
    pub fn likely(&self, field: Field) -> Option<usize> {
        self.chosen[field as usize].as_ref().filter(|reading| reading.score >= LIKELY).map(|reading| reading.column)
    }

    /// Whether a column is likely enough to be used for some field.
    pub fn is_used(&self, column: usize) -> bool {
        self.chosen.iter().flatten().any(|reading| reading.column == column && reading.score >= LIKELY)
    }

    /// Leaves a column to another use, unless it is likely enough for its field.
    pub fn leave(&mut self, column: usize) {
        for chosen in &mut self.chosen {
            if chosen.as_ref().is_some_and(|one| one.column == column && one.score < LIKELY && !one.by_hand) {
                *chosen = None;
            }
        }
    }

    /// The field that a column feeds.
    pub fn field_of(&self, column: usize) -> Option<Field> {
        self.chosen.iter().flatten().find(|reading| reading.column == column).map(|reading| reading.named.field)
    }
}

/// Takes the best reading of all, then the best of what is left, until nothing is; then exchanges two columns wherever
/// both together are better off.
pub fn assign(readings: &[Reading]) -> Assignment {
    let mut order: Vec<&Reading> = readings.iter().filter(|reading| reading.score >= OPEN || reading.by_hand).collect();
    // What a person maps comes first.
    order.sort_by(|a, b| b.by_hand.cmp(&a.by_hand).then(b.score.total_cmp(&a.score)).then(a.column.cmp(&b.column)));
    let mut chosen: Vec<Option<Reading>> = vec![None; FIELD_COUNT];
    let mut taken: Vec<usize> = Vec::new();
    for reading in &order {
        let place = &mut chosen[reading.named.field as usize];
        if place.is_none() && !taken.contains(&reading.column) {
            taken.push(reading.column);
            *place = Some((*reading).clone());
        }
    }
    exchange(&mut chosen, &order);
    let taken: Vec<usize> = chosen.iter().flatten().map(|reading| reading.column).collect();
    let others = order
        .into_iter()
        .filter(|reading| !taken.contains(&reading.column) && chosen[reading.named.field as usize].is_some())
        .cloned()
        .collect();
    Assignment { chosen, others }
}

/// Two columns exchange their fields where the sum of scores grows.
fn exchange(chosen: &mut [Option<Reading>], order: &[&Reading]) {
    let score_of = |column: usize, field: usize| {
        order
            .iter()
            .filter(|reading| reading.column == column && reading.named.field as usize == field)
            .copied()
            .max_by(|a, b| a.score.total_cmp(&b.score))
    };
    for one in 0..chosen.len() {
        for other in one + 1..chosen.len() {
            let (Some(a), Some(b)) = (&chosen[one], &chosen[other]) else { continue };
            if a.by_hand || b.by_hand {
                continue;
            }
            if let (Some(c), Some(d)) = (score_of(b.column, one), score_of(a.column, other))
                && c.score + d.score > a.score + b.score + 1e-9
            {
                let (c, d) = (c.clone(), d.clone());
                chosen[one] = Some(c);
                chosen[other] = Some(d);
            }
        }
    }
}
