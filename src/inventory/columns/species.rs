//! What the mg/L of a column are counted as, and what there is to say about it.

use super::{Planner, Reading};
use crate::field::Field;
use crate::field::species::Species;
use crate::finding::catalogue;

impl Planner<'_> {
    /// What a column's mg/L are counted as: by its heading, else by the scenario file; said aloud where it matters.
    pub(super) fn species(&mut self, claim: &Reading) -> Option<&'static Species> {
        let field = claim.named.field;
        let imposed = self.rules.species.get(&field).copied();
        if let (Some(said), Some(imposed)) =
            (claim.named.species, imposed.filter(|imposed| claim.named.species != Some(*imposed)))
        {
            let says = format!(
                "the heading says as {}, the scenario file as {}; the heading counts",
                said.symbol, imposed.symbol
            );
            let help = format!("take {} out of [inventory.units], or correct the heading", field.name());
            self.say(catalogue::UNIT_CONTRADICTED, Some(claim.column), says, help);
        }
        let species = claim.named.species.or(imposed);
        match species {
            None if !claim.by_hand && claim.named.leaves_nitrogen_open() => {
                let other = if field == Field::NitriteN { "NO2" } else { "NH3" };
                let says = format!(
                    "the heading does not say whether as N or as {other}; read as N, which asks for more chlorine"
                );
                let help = format!("[inventory.units] {} = \"mg/L as N\" or \"mg/L as {other}\"", field.name());
                self.say(catalogue::SPECIES_NOT_STATED, Some(claim.column), says, help);
            }
            Some(species) if species.factor != 1.0 => {
                let says = format!(
                    "the values are counted as {}; times {:.4} they are read as {}",
                    species.symbol,
                    species.factor,
                    species.of_field()
                );
                self.say(catalogue::SPECIES_CONVERTED, Some(claim.column), says, "no action needed if correct");
            }
            _ => {}
        }
        species
    }
}
