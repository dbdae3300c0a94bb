//! What words of headings stand for.

macro_rules! concepts {
    ($($(#[$doc:meta])* $name:ident = $word:literal,)*) => {
        /// What a word of a heading stands for.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Concept {
            $($(#[$doc])* $name,)*
        }

        impl Concept {
            /// Every concept, with its name in the files of words.
            pub(super) const ALL: &'static [(&'static str, Self)] = &[$(($word, Self::$name),)*];
        }
    };
}

concepts! {
    /// How deep something is.
    Depth = "depth",
    /// The whole of it.
    Total = "total",
    /// Total depth in one word: `TD`.
    TotalDepth = "total_depth",
    /// The lower end of a well or a string.
    Bottom = "bottom",
    /// Water itself: which measure of it is meant, other words say.
    Water = "water",
    /// Where something is found or reached: `to`, `reached at`.
    Find = "find",
    /// A level or surface.
    Level = "level",
    /// At rest, not pumped.
    Static = "static",
    /// Static water level in one word: `SWL`.
    StaticWaterLevel = "static_water_level",
    /// While the pump ran, so not at rest.
    Pumping = "pumping",
    /// At another time than now: in the dry season, when it was drilled, as somebody declared.
    OtherTime = "other_time",
    /// How high something is.
    Height = "height",
    /// A column of water.
    Column = "column",
    /// Across: how wide something is.
    Diameter = "diameter",
    /// A size, which is a width where a pipe or a well is named.
    Size = "size",
    /// Measured around the outside, with a tape or a string.
    Around = "around",
    /// From the middle outward.
    Radius = "radius",
    /// Casing, lining, tile, rings.
    Casing = "casing",
    /// The hole below the casing.
    Hole = "hole",
    /// The lower part of a well.
    Lower = "lower",
    /// The bore as a whole.
    Bore = "bore",
    /// The outside of a pipe.
    Outside = "outside",
    /// The inside of a pipe, where the water stands.
    Inside = "inside",
    /// `ID`: an identity or an inside diameter.
    IdentityOrInside = "identity_or_inside",
    /// The wall of a pipe.
    Wall = "wall",
    /// How thick the wall of a pipe is.
    Thickness = "thickness",
    /// How far a pipe or rim stands above the ground.
    StickUp = "stick_up",
    /// Top of casing, rim.
    Rim = "rim",
    /// The ground, from which depths are counted.
    Ground = "ground",
    /// A height above sea level.
    Elevation = "elevation",
    /// How long something is, as a tape or a pipe.
    Length = "length",
    /// How much water there is, in gallons or liters.
    Volume = "volume",
    /// What the well gives.
    Yield = "yield",
    /// How much water comes in a time.
    Rate = "rate",
    /// The pump and its pipe, whose depth is not the well's.
    Pump = "pump",
    /// Where a pump or an intake hangs.
    Set = "set",
    /// The well itself, or the source that stands for it.
    Well = "well",
    /// A spring, boxed or not.
    Spring = "spring",
    /// Which kind of a thing it is: `type`, `class`, `sort`.
    Kind = "kind",
    /// How it was made.
    Built = "built",
    /// What it is made of.
    Material = "material",
    /// A name that tells wells apart.
    Identity = "identity",
    /// A number of something.
    Number = "number",
    /// The place of a well as a record of its own.
    Site = "site",
    /// A person's or a place's name.
    Name = "name",
    /// Which visit to a well is meant.
    Visit = "visit",
    /// An area by which totals are given: a county, a township.
    Region = "region",
    /// Where a crew takes its product from.
    Depot = "depot",
    /// Degrees north of the equator, or a northing.
    Latitude = "latitude",
    /// Degrees east of Greenwich, or an easting.
    Longitude = "longitude",
    /// Water that is flushed out.
    Discharge = "discharge",
    /// Where something runs or is sent.
    Goes = "goes",
    /// Whether flood water reached the well.
    Flooded = "flooded",
    /// People who drink from the well.
    Users = "users",
    /// Sea water, and whether it came in.
    Salt = "salt",
    /// The state of the well.
    State = "state",
    /// Remarks in free words.
    Notes = "notes",
    /// How warm the water is.
    Temperature = "temperature",
    /// Acidity, on the pH scale.
    Ph = "ph",
    /// What the water can take up of acid.
    Alkalinity = "alkalinity",
    /// Dissolved iron, which takes up chlorine.
    Iron = "iron",
    /// Dissolved manganese, which takes up chlorine.
    Manganese = "manganese",
    /// Hydrogen sulfide, which takes up chlorine.
    Sulfide = "sulfide",
    /// Ammonia or ammonium, which takes up chlorine.
    Ammonia = "ammonia",
    /// Nitrite, which takes up chlorine.
    Nitrite = "nitrite",
    /// Organic carbon, which takes up chlorine.
    Carbon = "carbon",
    /// Pipes and tanks of the house.
    Plumbing = "plumbing",
    /// The well screen, whose slots and lengths are not the well's.
    Screen = "screen",
    /// What the space around a casing is sealed with.
    Grout = "grout",
    /// What the hole goes through: its depth is not the well's.
    Rock = "rock",
    /// Frost, mud and the like.
    Frost = "frost",
    /// Where the house's sewage goes, which is not where flush water goes.
    Sewage = "sewage",
    /// A date or time.
    Date = "date",
    /// Where people live, in words.
    Address = "address",
    /// How to reach somebody.
    Contact = "contact",
    /// A test of the water.
    Testing = "testing",
    /// A tank or a filter.
    Tank = "tank",
    /// How far the well is from something else.
    Distance = "distance",
    /// Money, people, hours: whatever work is counted in.
    Cost = "cost",
    /// Pump data and fittings.
    Power = "power",
    /// What the water is used for.
    Use = "use",
    /// How well a position is known.
    Accuracy = "accuracy",
    /// Which well comes first.
    Priority = "priority",
    /// That something is counted downward.
    Below = "below",
    /// A word that asks or joins.
    Filler = "filler",
}

impl Concept {
    /// Whether it is a depth or a level: something that is counted down from the ground or the rim.
    pub fn is_counted_down(self) -> bool {
        use Concept::{Bottom, Depth, Level, Static, StaticWaterLevel, TotalDepth, Water};
        matches!(self, Depth | TotalDepth | Bottom | Water | Level | Static | StaticWaterLevel)
    }
}
