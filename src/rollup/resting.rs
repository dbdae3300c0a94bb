//! What planned visits rest on that nobody gave, by what it moves: sizes move the water and so the product; a type of well moves how
//! it is done, and a place for the flush water what neutralizes it.

use crate::field::Field;
use crate::visit::Visit;

/// What is assumed of one visit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Rests {
    /// A depth, a level, a diameter, a wall or a volume.
    pub on_size: bool,
    /// The type of well, told from its width and depth.
    pub on_type: bool,
    /// The place of the flush water, counted as one that is neutralized.
    pub on_route: bool,
}

impl Rests {
    /// What is assumed of a visit; nothing of one that is not planned.
    pub fn of(visit: &Visit) -> Self {
        let mut rests = Self::default();
        for field in visit.assumed_fields() {
            match field {
                Field::WellType => rests.on_type = true,
                Field::DischargeRoute => rests.on_route = true,
                _ => rests.on_size = true,
            }
        }
        rests
    }

    /// Whether the visit rests on any assumption at all.
    pub const fn on_any(self) -> bool {
        self.on_size || self.on_type || self.on_route
    }
}

/// Planned visits by what is assumed of them; one of which several things are assumed counts with each.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Resting {
    /// Visits whose water rests on an assumed size.
    pub on_size: u64,
    /// Treated water of these, L.
    pub on_size_volume_l: f64,
    /// Visits of which the type of well is assumed.
    pub on_type: u64,
    /// Visits without a place for the flush water.
    pub on_route: u64,
}

impl Resting {
    /// Counts a planned visit with its treated water, L.
    pub fn add(&mut self, rests: Rests, volume_l: f64) {
        self.on_size += u64::from(rests.on_size);
        self.on_size_volume_l += if rests.on_size { volume_l } else { 0.0 };
        self.on_type += u64::from(rests.on_type);
        self.on_route += u64::from(rests.on_route);
    }

    /// Adds the counts of other visits.
    pub fn merge(&mut self, other: &Self) {
        self.on_size += other.on_size;
        self.on_size_volume_l += other.on_size_volume_l;
        self.on_type += other.on_type;
        self.on_route += other.on_route;
    }
}
