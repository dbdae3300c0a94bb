//! The physics and chemistry of shock chlorination: pure functions of typed quantities, one topic per room.
//!
//! Read in this order, the rooms are the chapters of the method:
//!
//! 1. [`volume`]: how much water stands in the well (V1, V2), and how much is treated with it (V3).
//! 2. [`demand`]: what iron, manganese, sulfide, ammonia, nitrite and carbon take before any chlorine is left (N1).
//! 3. [`dose`]: target plus demand is the dose (D1), dose times water the chlorine (D2), chlorine over strength the product
//!    (D3, D4); what is really poured gives back a dose (D5).
//! 4. [`strength`]: what the number on the label means, on four bases (S1 to S3), dry (S4), and the caustic in it (S5).
//! 5. [`aging`]: what storage has left of it (A1 to A5); [`chlorate`]: what the rest has become (A6).
//! 6. [`measure`]: what a person can measure out (M1); [`pour`]: of which product; [`treated`]: for which water; [`top_up`]:
//!    what is added later.
//! 7. [`speciation`], [`carbonate`] and [`effect`]: the pH that the dose makes and the share of chlorine that stays HOCl (H1
//!    to H3, P1,
//!    P2); [`calcite`]: whether lime falls out (P3); [`dose_limit`]: where more product stops helping (P4, P5).
//! 8. [`contact`]: hold, CT by the tables of [`ct_table`], and the residual left (C1 to C4).
//! 9. [`flush`]: how much water carries the chlorine out, and how long that takes (F1 to F4); [`emptying`]: wells that are
//!    brushed, emptied and refilled instead (E1 to E4); [`spring`]: boxes with an inflow (Q1 to Q3); [`moving`] sets the three
//!    into the chain.
//! 10. [`neutralizer`] and [`agent`]: what takes the rest of it out of the flush water (R1 to R6), down to a limit of
//!     [`discharge`].
//!
//! [`requirement`] tells the chain for one well, in one reading of what is uncertain: no figure here is a band. Every number of nature or practice stands in [`constants`]. The rooms know
//! no files and no text; they cannot fail, allocate nothing, and never answer with what is not a number.

pub mod agent;
pub mod aging;
pub mod calcite;
pub mod carbonate;
pub mod chlorate;
pub mod constants;
pub mod contact;
pub mod ct_table;
pub mod demand;
pub mod discharge;
pub mod dose;
pub mod dose_limit;
pub mod effect;
pub mod emptying;
pub mod flush;
pub mod measure;
pub mod moving;
pub mod neutralizer;
pub mod pour;
pub mod practice;
pub mod requirement;
pub mod speciation;
pub mod spring;
pub mod strength;
pub mod top_up;
pub mod treated;
pub mod volume;

use crate::source::Equation;

/// Every equation, in the order of the chapters.
pub static EQUATIONS: &[&Equation] = &[
    &volume::CYLINDER,
    &volume::STANDING_VOLUME,
    &volume::TREATED_VOLUME,
    &spring::TURNOVER,
    &spring::ISOLATED_VOLUME,
    &spring::SPRING_FEED,
    &demand::DEMAND,
    &dose::DOSE,
    &dose::CHLORINE,
    &dose::LIQUID_PRODUCT,
    &dose::DRY_PRODUCT,
    &dose::DOSE_GIVEN,
    &strength::LIQUID_STRENGTH,
    &strength::LIQUID_DENSITY,
    &strength::READINGS,
    &strength::DRY_STRENGTH,
    &strength::CAUSTIC_PER_CHLORINE,
    &aging::IONIC_STRENGTH,
    &aging::DECOMPOSITION_RATE,
    &aging::LIQUID_AGING,
    &aging::LIQUID_SHELF_LIFE,
    &aging::DRY_AGING,
    &chlorate::CHLORATE_LEFT,
    &measure::FIELD_MEASURE,
    &dose::PREDILUTION,
    &speciation::HYPOCHLOROUS_PKA,
    &speciation::DAVIES,
    &speciation::HOCL_SHARE,
    &carbonate::CARBONATE_CONSTANTS,
    &effect::PH_AFTER_DOSING,
    &calcite::CALCITE_SATURATION,
    &dose_limit::DOSE_AT_PH,
    &dose_limit::USEFUL_DOSE,
    &contact::VIRUS_CONTACT,
    &contact::GIARDIA_CONTACT,
    &contact::CONTACT_CREDIT,
    &contact::RESIDUAL_DECAY,
    &flush::FLUSH_VOLUMES,
    &flush::FLUSH_RESIDUAL,
    &flush::FLUSH_TIME,
    &flush::RECOVERY,
    &emptying::WALL_AREA,
    &emptying::WALL_WASH,
    &emptying::EMPTYINGS,
    &emptying::EMPTYING_TIME,
    &neutralizer::STOICHIOMETRIC_RATIO,
    &neutralizer::FIELD_RATIO,
    &neutralizer::AGENT_MASS,
    &neutralizer::FEED_RATE,
    &neutralizer::OXYGEN_TAKEN,
    &neutralizer::PH_AFTER_NEUTRALIZING,
];
