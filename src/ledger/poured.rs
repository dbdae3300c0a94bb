//! Columns of what finds a visit, its water, its dose, and what is poured and fed.

use super::{Column, Get, Width, case_number, number, optional, text};
use crate::kernel::requirement::Stock;
use crate::quantity::liters;
use crate::visit::Visit;

pub(super) const POURED: &[Column] = &[
    text("scenario", "Scenario", "Name of the scenario.", Get::CaseText(|case| case.name)),
    text("product", "Product", "Name of the product.", Get::CaseText(|case| case.product)),
    text("well_id", "Well", "The program's id of the well, as typed.", Get::VisitText(Visit::id)),
    text("visit", "Visit", "Which treatment of the well this is.", Get::VisitText(Visit::visit)),
    text("region", "Region", "Region, as typed.", Get::VisitText(Visit::region)),
    text("depot", "Depot", "Depot that serves the well, as typed.", Get::VisitText(Visit::depot)),
    text("well_type", "Type", "Type of well.", Get::VisitText(Visit::well_type)),
    text(
        "outcome",
        "Outcome",
        "planned; held_back where nothing can be computed; excluded where a rule of the campaign leaves it out.",
        Get::VisitText(Visit::outcome),
    ),
    text(
        "reasons",
        "Reasons",
        "Codes of the findings that hold the row back; of an excluded one the rule's reason.",
        Get::VisitText(Visit::reasons),
    ),
    number("water_column_m", "Water column", "m", 1, "V2", "Height of standing water below ground.", |need| {
        optional(need.water_column.map(|column| column.value))
    })
    .per(Width::Visit),
    number("standing_volume_l", "Standing volume", "L", 0, "V2", "Water standing in the well.", |need| {
        liters(need.standing_volume)
    })
    .per(Width::Visit),
    number(
        "treated_volume_l",
        "Treated volume",
        "L",
        0,
        "V3",
        "Standing volume with its allowance, and the plumbing treated with it.",
        |need| liters(need.treated_volume),
    )
    .per(Width::Practice),
    number("demand_mg_per_l", "Demand", "mg/L", 1, "N1", "Chlorine that the water takes, as Cl2.", |need| {
        need.demand.milligrams_per_liter()
    })
    .per(Width::Practice),
    number("dose_mg_per_l", "Dose", "mg/L", 1, "D1", "Target and demand together, as Cl2.", |need| {
        need.dose.milligrams_per_liter()
    })
    .per(Width::Practice),
    number(
        "chlorine_g",
        "Chlorine",
        "g",
        0,
        "D2",
        "Available chlorine to put in, in all, as Cl2: for the water, the wall wash and a spring's feed.",
        |need| need.chlorine.grams(),
    ),
    case_number(
        "strength_label_g_per_l",
        "Label strength, liquid",
        "g/L",
        1,
        "S1",
        "Liquids: available chlorine per liter when made.",
        |case| match case.stock {
            Stock::Liquid { label, .. } => label.grams_per_liter(),
            _ => f64::NAN,
        },
    ),
    case_number(
        "strength_used_g_per_l",
        "Strength used, liquid",
        "g/L",
        1,
        "A3",
        "Liquids: available chlorine per liter on the day of use.",
        |case| match case.stock {
            Stock::Liquid { used, .. } => used.grams_per_liter(),
            _ => f64::NAN,
        },
    ),
    case_number(
        "strength_label_g_per_kg",
        "Label strength, dry",
        "g/kg",
        0,
        "S4",
        "Dry products: available chlorine per kilogram when made.",
        |case| match case.stock {
            Stock::Dry { label, .. } => label.ratio() * 1000.0,
            _ => f64::NAN,
        },
    ),
    case_number(
        "strength_used_g_per_kg",
        "Strength used, dry",
        "g/kg",
        0,
        "A5",
        "Dry products: available chlorine per kilogram on the day of use.",
        |case| match case.stock {
            Stock::Dry { used, .. } => used.ratio() * 1000.0,
            _ => f64::NAN,
        },
    ),
    number("product_l", "Product, liquid", "L", 2, "D3", "Liquid product computed, before rounding up.", |need| {
        need.product.liters()
    }),
    number(
        "product_kg",
        "Product, weight",
        "kg",
        2,
        "D4",
        "Weight of product computed, before rounding up: what a dry product needs, and what a liquid weighs to haul.",
        |need| need.product.kilograms(),
    ),
    number(
        "product_low_l",
        "Product, liquid, low",
        "L",
        2,
        "D3",
        "Liquid product with the lowest assumptions.",
        |need| need.product_low.liters(),
    ),
    number(
        "product_high_l",
        "Product, liquid, high",
        "L",
        2,
        "D3",
        "Liquid product with the highest assumptions.",
        |need| need.product_high.liters(),
    ),
    number(
        "product_low_kg",
        "Product, dry, low",
        "kg",
        2,
        "D4",
        "Weight of a dry product with the lowest assumptions.",
        |need| need.product_low.dry_kilograms(),
    ),
    number(
        "product_high_kg",
        "Product, dry, high",
        "kg",
        2,
        "D4",
        "Weight of a dry product with the highest assumptions.",
        |need| need.product_high.dry_kilograms(),
    ),
    number(
        "measured_amount",
        "Measure out",
        "",
        3,
        "M1",
        "Product to measure out in the unit beside it, rounded up to the measure.",
        |need| need.measured_amount,
    ),
    text("measured_unit", "Measure", "Unit of the amount to measure out.", Get::NeedText(|need| need.measured_unit)),
    number(
        "measured_dose_mg_per_l",
        "Dose measured out",
        "mg/L",
        1,
        "D5",
        "Concentration that the measured amount really gives, as Cl2.",
        |need| need.measured_dose.milligrams_per_liter(),
    ),
    text(
        "measured_for",
        "Measured for",
        "typical: the target is met as planned; high: also with the most water and the weakest product allowed for.",
        Get::NeedText(|need| need.measure_for.name()),
    )
    .per(Width::Practice),
    number(
        "least_dose_mg_per_l",
        "Dose at least",
        "mg/L",
        1,
        "D5",
        "Concentration that the measured amount gives with the most water and the weakest product allowed for, as Cl2.",
        |need| need.least_dose.milligrams_per_liter(),
    ),
    number(
        "chlorate_mg_per_l",
        "Chlorate brought",
        "mg/L",
        1,
        "A6",
        "Chlorate that an aged liquid brings into the well, before flushing; what it held when made comes on top.",
        |need| optional(need.chlorate.map(|chlorate| chlorate.milligrams_per_liter())),
    ),
    number(
        "dose_if_spread_mg_per_l",
        "Dose in house plumbing",
        "mg/L",
        1,
        "D5",
        "Small wells without plumbing on record: what the measured amount would give, as Cl2, spread through 80 US gal more.",
        |need| optional(need.dose_if_spread.map(|dose| dose.milligrams_per_liter())),
    ),
    number(
        "wall_wash_l",
        "Wall wash",
        "L",
        1,
        "E2",
        "Wells that are emptied: solution to brush the walls with.",
        |need| optional(need.wash.map(|wash| liters(wash.solution))),
    )
    .per(Width::Practice),
    number(
        "wall_wash_amount",
        "Product for the wall wash",
        "",
        3,
        "M1",
        "Product to mix into the wall wash in the unit beside it, rounded up to the measure.",
        |need| optional(need.wash.map(|wash| wash.amount)),
    ),
    text(
        "wall_wash_unit",
        "Measure for the wall wash",
        "Unit of the product for the wall wash.",
        Get::NeedText(|need| need.wash.map_or("", |wash| wash.unit)),
    ),
    number(
        "feed_l_per_h",
        "Spring feed per hour, liquid",
        "L/h",
        2,
        "Q3",
        "Springs that overflow: liquid product to feed in each hour of the contact time, after the amount measured out.",
        |need| optional(need.feed.map(|feed| feed.per_hour.liters())),
    ),
    number(
        "feed_kg_per_h",
        "Spring feed per hour, weight",
        "kg/h",
        2,
        "Q3",
        "The same by weight, of a liquid too.",
        |need| optional(need.feed.map(|feed| feed.per_hour.kilograms())),
    ),
    number(
        "feed_l",
        "Spring feed in all, liquid",
        "L",
        2,
        "Q3",
        "Liquid product fed over the contact time; part of the product above.",
        |need| optional(need.feed.map(|feed| feed.in_all.liters())),
    ),
    number("feed_kg", "Spring feed in all, weight", "kg", 2, "Q3", "The same by weight, of a liquid too.", |need| {
        optional(need.feed.map(|feed| feed.in_all.kilograms()))
    }),
    number(
        "overflow_l",
        "Overflow during contact time",
        "L",
        0,
        "Q3",
        "Chlorinated water that leaves a fed spring by its overflow during the contact time.",
        |need| optional(need.feed.map(|feed| liters(feed.overflow))),
    )
    .per(Width::Practice),
    number(
        "predilution_l",
        "Dilute in",
        "L",
        0,
        "L1",
        "Clean water to dilute the measured amount in before pouring.",
        |need| liters(need.predilution),
    ),
];
