//! Columns of what becomes of the water, of flush and neutralizer, and of what the list says besides.

use super::{Column, Get, Width, number, optional, text, told};
use crate::quantity::basis::liters_per_minute;
use crate::quantity::liters;
use crate::visit::Visit;

pub(super) const AFTER: &[Column] = &[
    number("ph_after", "pH after dosing", "", 1, "P2", "pH of the water once the product is in.", |need| {
        optional(need.ph_after)
    }),
    number(
        "hocl_share",
        "Share as HOCl",
        "",
        2,
        "H3",
        "Share of free chlorine that is hypochlorous acid at that pH, 0 to 1.",
        |need| optional(need.hocl_share),
    ),
    number("hold_h", "Contact time", "h", 0, "", "How long the chlorine stays in the well.", |need| {
        need.hold.value / 3600.0
    })
    .per(Width::Practice),
    text(
        "flush_method",
        "Flush by",
        "mixed_tank: pump on; empty_and_refill: pump empty, let refill, measure, and again.",
        Get::NeedText(|need| need.flush_method.name()),
    ),
    number(
        "emptyings",
        "Emptyings expected",
        "",
        0,
        "E3",
        "How often the well is expected to be emptied; the measurement after each refill decides.",
        |need| optional(need.emptyings),
    ),
    number(
        "hold_required_h",
        "Contact time required",
        "h",
        0,
        "",
        "How long the chosen rule requires at the target's concentration.",
        |need| optional(need.hold_required.map(|hold| hold.value / 3600.0)),
    )
    .per(Width::Practice),
    number(
        "flush_volume_l",
        "Flush volume",
        "L",
        0,
        "F1",
        "Water to pump out (E4 where the well is emptied); an estimate, stop on a measured residual.",
        |need| liters(need.flush_volume),
    ),
    number(
        "flush_rate_l_per_min",
        "Flush rate",
        "L/min",
        1,
        "F3",
        "Lesser of pump rate and yield; the pump's where the well is emptied.",
        |need| optional(need.flush_rate.map(liters_per_minute)),
    ),
    number(
        "flush_h",
        "Flush time",
        "h",
        1,
        "F3",
        "Flush volume over flush rate; with refilling and waiting where the well is emptied (E4).",
        |need| optional(need.flush_time.map(|time| time.value / 3600.0)),
    ),
    text(
        "discharge_route",
        "Flush to",
        "Where the list says the water can go.",
        Get::VisitText(Visit::discharge_route),
    ),
    text(
        "neutralizer",
        "Neutralizer",
        "Agent, where the route needs one.",
        Get::NeedText(|need| need.neutralizer.map_or("", |agent| agent.name())),
    )
    .per(Width::Practice),
    number(
        "neutralizer_kg",
        "Neutralizer",
        "kg",
        2,
        "R3",
        "Agent with its excess, for all that leaves the well; zero where the route needs none.",
        |need| need.neutralizer_mass.kilograms(),
    ),
    number(
        "ph_neutralized_low",
        "pH neutralized, low",
        "",
        1,
        "R6",
        "Lowest pH of the water once it is neutralized.",
        |need| optional(need.ph_neutralized.map(|(least, _)| least)),
    ),
    number(
        "ph_neutralized_high",
        "pH neutralized, high",
        "",
        1,
        "R6",
        "Highest pH of the water once it is neutralized.",
        |need| optional(need.ph_neutralized.map(|(_, most)| most)),
    ),
    text(
        "neutralizer_instead",
        "Neutralizer instead",
        "Agent that would leave no acid, where the chosen one leaves a pH below 6.",
        Get::NeedText(|need| need.neutralizer_instead.map_or("", |agent| agent.name())),
    ),
    number(
        "neutralizer_instead_kg",
        "Neutralizer instead",
        "kg",
        2,
        "R3",
        "How much of that agent, with its excess.",
        |need| optional(need.neutralizer_instead_mass.map(|mass| mass.kilograms())),
    ),
    text("assumed", "Assumed", "Fields whose value was assumed, not given.", Get::VisitText(Visit::assumed)),
    text("cautions", "Cautions", "Words of the cautions that this row's data raise.", Get::Cautions),
    text(
        "crew_flags",
        "Crew flags",
        "What the list's own words say that a person must know before going there; `aftercrest explain dog` says what to do.",
        Get::VisitText(Visit::crew_flags),
    ),
    told("users_served", "Users", "", 0, "People served, as given.", Visit::users_served),
    text("flooded", "Flooded", "Whether flood water stood over the well, as given.", Get::VisitText(Visit::flooded)),
    text("seawater", "Sea water", "Whether sea water got in, as given.", Get::VisitText(Visit::seawater)),
    text("status", "Status", "State of the well, as typed.", Get::VisitText(Visit::status)),
    text("notes", "Notes", "Notes, as typed.", Get::VisitText(Visit::notes)),
    text(
        "not_understood",
        "Not understood",
        "Cells whose words no field took: left blank, or read in part, each behind its heading.",
        Get::VisitText(Visit::not_understood),
    ),
    text("casing_material", "Casing", "Casing material, as typed.", Get::VisitText(Visit::casing_material)),
    told("latitude_deg", "Latitude", "°", 6, "Degrees north, as given.", Visit::latitude),
    told("longitude_deg", "Longitude", "°", 6, "Degrees east, as given.", Visit::longitude),
    told("stick_up_m", "Stick-up", "m", 2, "How far the casing stands above the ground, as given.", Visit::stick_up_m),
    told(
        "ground_elevation_m",
        "Ground elevation",
        "m",
        1,
        "Height of the ground above sea level, as given.",
        Visit::ground_elevation_m,
    ),
    told(
        "casing_outside_diameter_mm",
        "Outside diameter",
        "mm",
        0,
        "Outside diameter of the casing, as given.",
        Visit::casing_outside_diameter_mm,
    ),
    told("wall_thickness_mm", "Wall", "mm", 1, "Thickness of the casing's wall, as given.", Visit::wall_thickness_mm),
];
