//! A step of the working: what is worked out, with its numbers put in, and what it gives.

/// One step of the chain.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is worked out.
    pub title: &'static str,
    /// Equation id; empty where none is needed.
    pub equation: &'static str,
    /// The relation with numbers and units put in.
    pub working: String,
    /// What it gives, with its unit, as people of the campaign read it.
    pub result: String,
}
