//! The vocabulary table itself.
//!
//! Bounds: `possible` and `plausible` for lengths follow the spread of public registers (British Columbia casing table,
//! export of 2024-03-28; California, Uganda and Malawi open data) as described in DEVELOPERS.md; for water quality they
//! are the ranges of natural fresh to brackish groundwater, common practice, no single source.

use super::{Definition, Field, Kind, Quantity, WellType};
use crate::quantity::unit::Dimension;

const fn length(
    default_units: [&'static str; 3],
    unit: &'static str,
    possible: (f64, f64),
    plausible: (f64, f64),
    zero_possible: bool,
) -> Kind {
    Kind::Quantity(Quantity {
        dimension: Dimension::Length,
        default_units: Some(default_units),
        unit,
        possible,
        plausible,
        zero_possible,
    })
}

const fn other(
    dimension: Dimension,
    default_units: Option<[&'static str; 3]>,
    unit: &'static str,
    possible: (f64, f64),
    plausible: (f64, f64),
    zero_possible: bool,
) -> Kind {
    Kind::Quantity(Quantity { dimension, default_units, unit, possible, plausible, zero_possible })
}

const fn constituent(possible: f64, plausible: f64) -> Kind {
    other(Dimension::Concentration, None, "mg/L", (0.0, possible), (0.0, plausible), true)
}

const fn number(possible: (f64, f64), plausible: (f64, f64), zero_possible: bool) -> Kind {
    other(Dimension::Number, None, "", possible, plausible, zero_possible)
}

const DEPTH: [&str; 3] = ["ft", "m", "ft"];
const DIAMETER: [&str; 3] = ["in", "mm", "in"];
const VOLUME: [&str; 3] = ["US gal", "L", "imp gal"];
const FLOW: [&str; 3] = ["US gpm", "L/min", "imp gpm"];

/// Every field, in canonical order; `FIELDS[field as usize]` is its row.
pub static FIELDS: [Definition; super::FIELD_COUNT] = [
    Definition {
        field: Field::WellId,
        name: "well_id",
        kind: Kind::Text,
        headings: &[
            "id",
            "well",
            "well no",
            "well number",
            "well id no",
            "well identifier",
            "site no",
            "site id",
            "source id",
            "bore id",
            "borehole id",
            "permit no",
            "permit number",
            "water point name",
            "water point id",
            "well name",
        ],
        help: "The program's own name or number of the well. Kept as text: leading zeros stay.",
    },
    Definition {
        field: Field::Visit,
        name: "visit",
        kind: Kind::Text,
        headings: &["visit no", "visit number", "attempt", "round", "treatment no"],
        help: "Which treatment of this well the row is about (1, 2, …). One well may have several rows with different visits.",
    },
    Definition {
        field: Field::Region,
        name: "region",
        kind: Kind::Text,
        headings: &[
            "county",
            "district",
            "sub county",
            "subcounty",
            "valley",
            "area",
            "zone",
            "municipality",
            "parish",
        ],
        help: "Administrative or campaign area, for totals.",
    },
    Definition {
        field: Field::Depot,
        name: "depot",
        kind: Kind::Text,
        headings: &["supply depot", "warehouse", "store", "supply point"],
        help: "The depot whose stock serves this well; orders are rounded up to whole packages per depot.",
    },
    Definition {
        field: Field::WellType,
        name: "well_type",
        kind: Kind::Choice(&[
            (
                "drilled",
                &[
                    "drilled well",
                    "borehole",
                    "bore",
                    "rotary",
                    "air rotary",
                    "rotary drilled",
                    "hammer drilled",
                    "drilled overburden",
                    "cable tool",
                    "tubewell",
                    "tube well",
                    "artesian",
                    "bedrock",
                    "drill",
                ],
            ),
            ("driven", &["driven point", "driven well", "sand point", "sandpoint", "jetted", "jet", "drive point"]),
            ("bored", &["bored well", "auger", "augered", "large diameter bored"]),
            ("dug", &["dug well", "hand dug", "hand-dug", "excavated", "shallow dug", "open well", "open dug well"]),
            ("spring_box", &["spring box", "spring", "springbox", "spring chamber", "spring catchment"]),
        ]),
        headings: &[
            "type",
            "type of well",
            "construction",
            "well construction",
            "construction type",
            "source type",
            "kind",
        ],
        help: "How the well was made: drilled, driven, bored, dug or spring_box.",
    },
    Definition {
        field: Field::Latitude,
        name: "latitude",
        kind: other(Dimension::Angle, None, "°", (-90.0, 90.0), (-90.0, 90.0), true),
        headings: &["lat", "latitude deg", "decimal latitude", "lat dd", "lat deg", "decimallatitude", "y wgs84"],
        help: "Decimal degrees, north positive. For maps and routing; not used in the dose.",
    },
    Definition {
        field: Field::Longitude,
        name: "longitude",
        kind: other(Dimension::Angle, None, "°", (-180.0, 180.0), (-180.0, 180.0), true),
        headings: &[
            "lon",
            "long",
            "lng",
            "longitude deg",
            "decimal longitude",
            "long dd",
            "lon deg",
            "decimallongitude",
            "x wgs84",
        ],
        help: "Decimal degrees, east positive. For maps and routing; not used in the dose.",
    },
    Definition {
        field: Field::TotalDepth,
        name: "total_depth",
        kind: length(DEPTH, "m", (0.3, 1500.0), (2.0, 300.0), false),
        headings: &[
            "depth",
            "well depth",
            "total well depth",
            "borehole depth",
            "bore depth",
            "depth of well",
            "completed depth",
            "finished well depth",
            "total completed depth",
            "drilled depth",
            "bottom depth",
        ],
        help: "From the ground to the bottom of the well.",
    },
    Definition {
        field: Field::StaticWaterLevel,
        name: "static_water_level",
        kind: length(DEPTH, "m", (-20.0, 1500.0), (0.0, 200.0), true),
        headings: &[
            "swl",
            "static level",
            "static",
            "static water depth",
            "depth to water",
            "depth to water level",
            "water level",
            "dtw",
            "static water",
            "rest water level",
            "staticwaterlevel",
            "well static level",
            "standing water level",
        ],
        help: "From the ground down to the resting water surface; negative where the well flows.",
    },
    Definition {
        field: Field::StickUp,
        name: "stick_up",
        kind: length(DEPTH, "m", (-3.0, 3.0), (0.0, 1.2), true),
        headings: &[
            "casing stick up",
            "stickup",
            "casing height",
            "rim height",
            "height of rim",
            "casing above ground",
        ],
        help: "How far the top of the casing or the rim stands above the ground; taken off a level measured from there.",
    },
    Definition {
        field: Field::GroundElevation,
        name: "ground_elevation",
        kind: length(DEPTH, "m", (-430.0, 6000.0), (-10.0, 4000.0), true),
        headings: &["surface elevation", "ground level elevation", "elevation of ground", "land surface elevation"],
        help: "Height of the ground above sea level; turns a water level above sea level into a depth.",
    },
    Definition {
        field: Field::WaterColumn,
        name: "water_column",
        kind: length(DEPTH, "m", (0.05, 1500.0), (0.3, 300.0), false),
        headings: &["height of water", "water height", "column of water", "standing water column"],
        help: "Height of standing water, where it is known outright instead of depth and level.",
    },
    Definition {
        field: Field::CasingDiameter,
        name: "casing_diameter",
        kind: length(DIAMETER, "mm", (12.0, 9200.0), (30.0, 3100.0), false),
        headings: &[
            "diameter",
            "well diameter",
            "casing dia",
            "casing size",
            "diam",
            "dia",
            "inside diameter",
            "inner diameter",
            "casing id",
            "bore diameter",
            "borehole diameter",
            "casingdiameter",
            "well dia",
            "casing inside diameter",
            "casing diam",
        ],
        help: "Inside diameter of the casing, or of a dug or bored well's lining.",
    },
    Definition {
        field: Field::CasingOutsideDiameter,
        name: "casing_outside_diameter",
        kind: length(DIAMETER, "mm", (12.0, 9500.0), (30.0, 3300.0), false),
        headings: &["outside diameter", "outer diameter", "casing od", "outside dia", "casing outer diameter"],
        help: "Outside diameter of the casing or lining, where the inside one is not known; the wall is taken off twice.",
    },
    Definition {
        field: Field::WallThickness,
        name: "wall_thickness",
        kind: length(DIAMETER, "mm", (0.5, 500.0), (2.0, 300.0), false),
        headings: &["wall", "casing wall", "casing wall thickness", "thickness of wall"],
        help: "Thickness of the casing's or lining's wall.",
    },
    Definition {
        field: Field::CasingDepth,
        name: "casing_depth",
        kind: length(DEPTH, "m", (0.3, 1500.0), (1.0, 300.0), false),
        headings: &[
            "casing length",
            "depth of casing",
            "cased to",
            "casing bottom",
            "casing to",
            "bottom of casing",
            "casing end",
            "casing ends",
            "casing ends at",
            "end of casing",
            "casing seat",
            "casing shoe",
            "shoe depth",
        ],
        help: "From the ground to the bottom of the casing; below it the open hole's diameter counts.",
    },
    Definition {
        field: Field::OpenHoleDiameter,
        name: "open_hole_diameter",
        kind: length(DIAMETER, "mm", (12.0, 3100.0), (30.0, 700.0), false),
        headings: &["open hole", "open hole dia", "open hole size", "hole diameter", "bit size"],
        help: "Diameter of the uncased hole below the casing.",
    },
    Definition {
        field: Field::CasingMaterial,
        name: "casing_material",
        kind: Kind::Text,
        headings: &["casing", "casing type", "material", "lining", "liner", "lining material"],
        help: "What the casing or lining is made of; metal raises a caution about corrosion.",
    },
    Definition {
        field: Field::WaterVolume,
        name: "water_volume",
        kind: other(Dimension::Volume, Some(VOLUME), "L", (1.0, 5e6), (20.0, 5e5), false),
        headings: &["volume", "well volume", "standing volume", "volume of water", "box volume", "tank volume"],
        help: "Volume of standing water, where it is known outright: a spring box, or a measured well.",
    },
    Definition {
        field: Field::PlumbingVolume,
        name: "plumbing_volume",
        kind: other(Dimension::Volume, Some(VOLUME), "L", (0.0, 1e6), (0.0, 2e4), true),
        headings: &[
            "plumbing",
            "system volume",
            "house plumbing",
            "pipes and tanks",
            "pressure tank volume",
            "storage volume",
        ],
        help: "Pipes, pressure tank, heater and storage that are treated with the well.",
    },
    Definition {
        field: Field::PumpRate,
        name: "pump_rate",
        kind: other(Dimension::Flow, Some(FLOW), "L/min", (0.2, 60_000.0), (1.0, 3000.0), false),
        headings: &["pump", "pump capacity", "pumping rate", "pump flow", "discharge rate", "pump output", "flow rate"],
        help: "What the pump delivers when flushing.",
    },
    Definition {
        field: Field::WellYield,
        name: "well_yield",
        kind: other(Dimension::Flow, Some(FLOW), "L/min", (0.01, 60_000.0), (0.2, 3000.0), false),
        headings: &[
            "yield",
            "tested yield",
            "wellyield",
            "sustained yield",
            "well capacity",
            "safe yield",
            "recommended rate",
        ],
        help: "What the well can give; flushing cannot go faster for long.",
    },
    Definition {
        field: Field::WaterTemperature,
        name: "water_temperature",
        kind: other(Dimension::Temperature, Some(["F", "C", "C"]), "C", (-1.0, 60.0), (1.0, 35.0), true),
        headings: &["temperature", "temp", "water temp", "groundwater temperature"],
        help: "Temperature of the well water.",
    },
    Definition {
        field: Field::Ph,
        name: "ph",
        kind: number((2.0, 12.5), (5.0, 9.5), false),
        headings: &["p h", "field ph", "water ph", "ph value"],
        help: "pH of the water before treatment.",
    },
    Definition {
        field: Field::Alkalinity,
        name: "alkalinity",
        kind: constituent(5000.0, 1000.0),
        headings: &["alk", "total alkalinity", "alkalinity as caco3", "alkalinity caco3", "t alk", "m alkalinity"],
        help: "Total alkalinity, mg/L as CaCO3.",
    },
    Definition {
        field: Field::Iron,
        name: "iron",
        kind: constituent(500.0, 50.0),
        headings: &["fe", "total iron", "dissolved iron", "iron fe", "ferrous iron"],
        help: "Dissolved iron, mg/L as Fe; it uses up chlorine.",
    },
    Definition {
        field: Field::Manganese,
        name: "manganese",
        kind: constituent(100.0, 10.0),
        headings: &["mn", "total manganese", "dissolved manganese", "manganese mn"],
        help: "Dissolved manganese, mg/L as Mn; it uses up chlorine.",
    },
    Definition {
        field: Field::Sulfide,
        name: "sulfide",
        kind: constituent(500.0, 50.0),
        headings: &["hydrogen sulfide", "h2s", "sulphide", "hydrogen sulphide", "sulfide h2s"],
        help: "Hydrogen sulfide, mg/L as H2S; it uses up chlorine.",
    },
    Definition {
        field: Field::AmmoniaN,
        name: "ammonia_n",
        kind: constituent(500.0, 50.0),
        headings: &["ammonia", "ammonia nitrogen", "nh3 n", "nh4 n", "ammonium n", "ammonia as n"],
        help: "Ammonia, mg/L as N; until it is broken through there is no free chlorine.",
    },
    Definition {
        field: Field::NitriteN,
        name: "nitrite_n",
        kind: constituent(100.0, 10.0),
        headings: &["nitrite", "nitrite nitrogen", "no2 n", "nitrite as n"],
        help: "Nitrite, mg/L as N; it uses up chlorine.",
    },
    Definition {
        field: Field::OrganicCarbon,
        name: "organic_carbon",
        kind: constituent(1000.0, 50.0),
        headings: &["toc", "doc", "total organic carbon", "dissolved organic carbon"],
        help: "Organic carbon, mg/L as C; it uses up chlorine slowly.",
    },
    Definition {
        field: Field::DischargeRoute,
        name: "discharge_route",
        kind: Kind::Choice(&[
            ("land", &["ground", "field", "soil", "lawn", "on land"]),
            ("storm_drain", &["storm drain", "storm sewer", "stormwater", "storm", "ditch", "roadside ditch"]),
            ("stream", &["creek", "river", "pond", "lake", "surface water", "wetland", "brook"]),
            ("sanitary_sewer", &["sanitary sewer", "public sewer", "municipal sewer"]),
            ("septic", &["septic tank", "septic system", "onsite", "on-site sewage", "leach field"]),
            ("hauled", &["haul", "tanker", "hauled away", "vacuum truck"]),
        ]),
        headings: &["discharge", "discharge to", "discharge point", "drains to", "flush to", "disposal"],
        help: "Where the flushed water can go: land, storm_drain, stream, sanitary_sewer, septic or hauled.",
    },
    Definition {
        field: Field::Flooded,
        name: "flooded",
        kind: Kind::Flag,
        headings: &["was flooded", "submerged", "inundated", "flood affected", "under water"],
        help: "Whether flood water stood over the well: yes or no.",
    },
    Definition {
        field: Field::UsersServed,
        name: "users_served",
        kind: number((0.0, 1e6), (0.0, 5000.0), true),
        headings: &["users", "population served", "people served", "households served", "population"],
        help: "How many people drink from it.",
    },
    Definition {
        field: Field::Seawater,
        name: "seawater",
        kind: Kind::Flag,
        headings: &["salt water", "saltwater", "seawater flooded", "saline flood"],
        help: "Whether sea water got in: such a well must not be pumped dry.",
    },
    Definition {
        field: Field::Status,
        name: "status",
        kind: Kind::Text,
        headings: &["well status", "condition", "state of well", "well condition"],
        help: "What state the well is in: in use, abandoned, sealed, needs repair. Conditions may leave wells out by it.",
    },
    Definition {
        field: Field::Notes,
        name: "notes",
        kind: Kind::Text,
        headings: &["note", "remarks", "comment", "comments", "remark", "observations"],
        help: "Anything else.",
    },
];

/// Usual values by type of well, in metres; outside them a value is worth a look.
///
/// Diameters: 5th to 95th centile of the British Columbia casing table (export of 2024-03-28, wells of one drilling
/// method), widened to the next size that is sold. Depths: the same table's casing bottoms, California's Central Valley
/// domestic wells and the Uganda and Malawi hand-pump boreholes, widened by about half; a dug well goes as deep as a
/// person digs.
pub const fn usual(well_type: WellType, field: Field) -> Option<(f64, f64)> {
    const INCH: f64 = crate::quantity::unit::INCH_M;
    match (field, well_type) {
        (Field::CasingDiameter, WellType::Drilled) => Some((2.0 * INCH, 24.0 * INCH)),
        (Field::CasingDiameter, WellType::Driven) => Some((1.0 * INCH, 8.0 * INCH)),
        (Field::CasingDiameter, WellType::Bored) => Some((1.0 * INCH, 60.0 * INCH)),
        (Field::CasingDiameter, WellType::Dug) => Some((12.0 * INCH, 120.0 * INCH)),
        (Field::TotalDepth, WellType::Drilled) => Some((5.0, 300.0)),
        (Field::TotalDepth, WellType::Driven) => Some((2.5, 60.0)),
        (Field::TotalDepth, WellType::Bored) => Some((2.0, 90.0)),
        (Field::TotalDepth, WellType::Dug) => Some((1.5, 40.0)),
        _ => None,
    }
}
