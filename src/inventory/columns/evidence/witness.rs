//! What the cells of a column say for or against a field.

use super::super::fit::fit;
use super::Asked;
use crate::field::{FIELDS, Field, Kind};
use crate::inventory::heading::{Datum, Named};
use crate::quantity::unit::{self, Dimension};

/// What a heading above nothing but blank cells loses.
const EMPTY_COLUMN: f64 = 0.6;
/// So many cells make their witness count in full.
const ENOUGH_CELLS: f64 = 8.0;

impl Asked<'_> {
    /// What the unit of the heading and the cells say for or against a field; nothing where it cannot be.
    pub(super) fn support(&self, field: Field, named: &Named, exact: bool) -> Option<f64> {
        let profile = self.profile;
        let mut support = 0.0;
        if let Some(quantity) = field.quantity() {
            let unit = self.unit_below(field).or(named.unit.known());
            let foreign = [Dimension::Length, Dimension::Volume, Dimension::Flow, Dimension::Concentration]
                .into_iter()
                .filter(|dimension| *dimension != quantity.dimension)
                .any(|dimension| self.has_unit_of(dimension));
            match unit {
                Some(unit) if unit.dimension == quantity.dimension => {
                    support += if quantity.dimension == Dimension::Length { 0.05 } else { 0.25 };
                }
                // A field by its own name with a unit of something else is said to be that.
                Some(_) if !exact => return None,
                None if foreign && !exact => return None,
                Some(_) | None => {}
            }
        }
        if profile.filled == 0 && self.rows > ENOUGH_CELLS as usize {
            // A heading of the vocabulary means its field whatever stands below it.
            return Some(if exact { support } else { support - EMPTY_COLUMN });
        }
        let weight = (profile.filled as f64 / ENOUGH_CELLS).min(1.0);
        Some(support + weight * self.witness(field, named))
    }

    /// What the cells say for or against a field, from -1 to 0.3.
    fn witness(&self, field: Field, named: &Named) -> f64 {
        let profile = self.profile;
        if profile.filled == 0 {
            return 0.0;
        }
        let share = |count: usize| profile.share(count);
        let distinct = profile.distinct as f64 / profile.filled as f64;
        match FIELDS[field as usize].kind {
            Kind::Quantity(quantity) if quantity.dimension == Dimension::Length => {
                if share(profile.dates) > 0.5 || share(profile.other_quantities) > 0.5 {
                    return -0.9;
                }
                let measures = share(profile.measures());
                if measures < 0.2 {
                    return -0.8;
                }
                // What some cells write is not yet the unit of the bare ones.
                // An elevation is as high as the land is.
                let is_elevation = named.datum == Some(Datum::SeaLevel);
                let fit = if is_elevation { 1.0 } else { fit(field, profile, named.unit.known()) };
                let counting = if profile.counts_up { -0.5 } else { 0.0 };
                counting + if measures < 0.5 { -0.3 } else { 0.0 } + if fit < 0.4 { -0.45 } else { 0.1 * fit }
            }
            Kind::Quantity(quantity) => {
                let numbers = share(profile.numbers.len() + profile.lengths.len() + profile.other_quantities);
                if numbers < 0.2 || share(profile.dates) > 0.5 {
                    return -0.8;
                }
                let unit = unit::by_symbol(quantity.unit);
                let inside = unit.map_or(1.0, |unit| {
                    let si = |value: f64| unit.to_si(value);
                    profile.within(unit, (si(quantity.possible.0), si(quantity.possible.1)))
                });
                let angle = quantity.dimension == Dimension::Angle && share(profile.decimals) < 0.3;
                if angle
                    || inside < 0.5 && quantity.dimension != Dimension::Flow && quantity.dimension != Dimension::Volume
                {
                    -0.5
                } else {
                    0.05
                }
            }
            // A few short codes: what they mean is asked, or explained elsewhere in the file.
            Kind::Choice(_) if profile.distinct <= 15 && profile.words_a_cell() <= 1.5 && distinct < 0.5 => {
                choice(share(if field == Field::WellType { profile.types } else { profile.routes })).max(-0.05)
            }
            Kind::Choice(_) if field == Field::WellType => choice(share(profile.types)),
            Kind::Choice(_) => choice(share(profile.routes)),
            Kind::Flag => {
                if share(profile.flags) >= 0.5 {
                    0.1
                } else if share(profile.flags) >= 0.2 {
                    0.0
                } else {
                    -0.3
                }
            }
            // A column of ticks answers a question; it names nothing.
            Kind::Text
                if named.rank == usize::MAX
                    && profile.filled >= 5
                    && profile.distinct <= 3
                    && share(profile.flags) >= 0.9 =>
            {
                -0.6
            }
            Kind::Text => match field {
                Field::WellId => {
                    let words = profile.words_a_cell();
                    let mut witness = if distinct >= 0.9 {
                        0.15
                    } else if distinct < 0.3 {
                        -0.45
                    } else {
                        0.0
                    };
                    witness += if words > 4.0 { -0.4 } else { 0.0 };
                    // `_id`, `_index`: the number of a form sent in, not of a well.
                    witness += if self.heading.starts_with('_') { -0.3 } else { 0.0 };
                    witness + if share(profile.dates) > 0.5 || share(profile.types) > 0.5 { -0.6 } else { 0.0 }
                }
                Field::CasingMaterial if share(profile.measures()) > 0.5 => -0.8,
                // `District well no.`: an area has many wells.
                Field::Region | Field::Depot if distinct > 0.95 && profile.filled >= 12 => -0.45,
                Field::Region | Field::Depot if share(profile.numbers.len()) > 0.9 && profile.decimals > 0 => -0.6,
                Field::Notes if share(profile.numbers.len()) > 0.6 => -0.5,
                Field::Notes if profile.words_a_cell() >= 2.5 => 0.1,
                Field::Status if share(profile.numbers.len()) > 0.8 && (profile.decimals > 0 || distinct > 0.5) => -0.5,
                _ => 0.0,
            },
        }
    }
}

fn choice(share: f64) -> f64 {
    if share >= 0.7 {
        0.25
    } else if share >= 0.4 {
        0.1
    } else if share >= 0.15 {
        -0.2
    } else {
        -0.6
    }
}
