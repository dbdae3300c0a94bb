//! Relations: how each quantity that the chain computes follows from its operands, as data beside its equation.
//!
//! The kernel's typed function is the authority for a quantity. Its relation says the same in a form that can be printed with
//! its numbers put in, written as a formula of a spreadsheet, and checked for its units; a test holds every relation against
//! the kernel. A quantity that is solved for has no relation, and says so.

pub mod constant;
pub mod expression;
pub mod figures;
mod given;
mod intermediate;
mod observed;
pub mod operands;
pub mod parameter;
mod product;
mod removal;
pub mod rung;
pub mod units;
mod water;

pub use expression::{Expression, Operand, Operands, Part, SLACK, Test};
pub use given::Given;
pub use operands::describe;
pub use rung::Rung;

/// How a quantity comes about.
#[derive(Debug, Clone, Copy)]
pub enum How {
    /// By a relation between operands.
    Closed(fn() -> Expression),
    /// Solved for, or worked out over a history: how, in words.
    Solved(&'static str),
    /// Stated or looked up, not computed: where, in words.
    Stated(&'static str),
}

/// A quantity with its relation.
#[derive(Debug, Clone, Copy)]
pub struct Entry {
    /// Id of the ledger's column, or of a quantity on the way.
    pub id: &'static str,
    /// Equation that it stands beside; empty where it is a mere share.
    pub equation: &'static str,
    /// How it comes about.
    pub how: How,
}

impl Entry {
    /// The relation, where there is one.
    pub fn relation(&self) -> Option<Expression> {
        match self.how {
            How::Closed(relation) => Some(relation()),
            How::Solved(_) | How::Stated(_) => None,
        }
    }
}

const fn closed(id: &'static str, equation: &'static str, relation: fn() -> Expression) -> Entry {
    Entry { id, equation, how: How::Closed(relation) }
}

const fn solved(id: &'static str, equation: &'static str, how: &'static str) -> Entry {
    Entry { id, equation, how: How::Solved(how) }
}

const fn stated(id: &'static str, how: &'static str) -> Entry {
    Entry { id, equation: "", how: How::Stated(how) }
}

/// Every quantity, in the order of the chain.
pub fn entries() -> impl Iterator<Item = &'static Entry> {
    water::WATER.iter().chain(product::PRODUCT).chain(removal::REMOVAL)
}

/// The quantity with this id.
pub fn entry(id: &str) -> Option<&'static Entry> {
    entries().find(|entry| entry.id == id)
}

/// Quantities whose low and high readings differ where something was assumed or the product ages.
const VARYING: [&str; 11] = [
    "standing_volume_l",
    "water_held_l",
    "treated_volume_l",
    "wall_area_m2",
    "wash_solution_l",
    "wash_chlorine_g",
    "water_chlorine_g",
    "strength_used_g_per_l",
    "strength_used_g_per_kg",
    "share_left",
    "measured_chlorine_g",
];

/// Fields of the water, which an assumption may give in three readings.
const VARYING_FIELDS: [&str; 5] = [
    "field.total_depth",
    "field.static_water_level",
    "field.water_column",
    "field.casing_diameter",
    "field.water_volume",
];

/// Whether an operand has three readings.
pub fn varies(id: &str) -> bool {
    VARYING.contains(&id) || VARYING_FIELDS.contains(&id) || id.starts_with("interval.")
}
