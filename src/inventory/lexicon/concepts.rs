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
    /// The lower end.
    Bottom = "bottom",
    /// Water.
    Water = "water",
    /// Where something is found or reached: `to`, `reached at`.
    Find = "find",
    /// A level or surface.
    Level = "level",
    /// At rest, not pumped.
    Static = "static",
    /// Static water level in one word: `SWL`.
    StaticWaterLevel = "static_water_level",
    /// While pumping.
    Pumping = "pumping",
    /// At another time than now: in the dry season, when it was drilled, as somebody declared.
    OtherTime = "other_time",
    /// How high something is.
    Height = "height",
    /// A column of water.
    Column = "column",
    /// Across.
    Diameter = "diameter",
    /// A size.
    Size = "size",
    /// Measured around.
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
    /// Outside.
    Outside = "outside",
    /// Inside.
    Inside = "inside",
    /// `ID`: an identity or an inside diameter.
    IdentityOrInside = "identity_or_inside",
    /// The wall of a pipe.
    Wall = "wall",
    /// How thick.
    Thickness = "thickness",
    /// Above the ground.
    StickUp = "stick_up",
    /// Top of casing, rim.
    Rim = "rim",
    /// The ground.
    Ground = "ground",
    /// Above sea level.
    Elevation = "elevation",
    /// How long.
    Length = "length",
    /// A volume.
    Volume = "volume",
    /// What the well gives.
    Yield = "yield",
    /// A rate.
    Rate = "rate",
    /// The pump.
    Pump = "pump",
    /// Where something hangs.
    Set = "set",
    /// The well itself.
    Well = "well",
    /// A spring.
    Spring = "spring",
    /// A kind.
    Kind = "kind",
    /// How it was made.
    Built = "built",
    /// What it is made of.
    Material = "material",
    /// A name that tells wells apart.
    Identity = "identity",
    /// A number of something.
    Number = "number",
    /// A site.
    Site = "site",
    /// A person's or a place's name.
    Name = "name",
    /// A visit.
    Visit = "visit",
    /// An area.
    Region = "region",
    /// A depot.
    Depot = "depot",
    /// Latitude.
    Latitude = "latitude",
    /// Longitude.
    Longitude = "longitude",
    /// Flushed water.
    Discharge = "discharge",
    /// Where something goes.
    Goes = "goes",
    /// Flooded.
    Flooded = "flooded",
    /// People who drink.
    Users = "users",
    /// Sea water.
    Salt = "salt",
    /// The state of the well.
    State = "state",
    /// Remarks.
    Notes = "notes",
    /// Temperature.
    Temperature = "temperature",
    /// pH.
    Ph = "ph",
    /// Alkalinity.
    Alkalinity = "alkalinity",
    /// Iron.
    Iron = "iron",
    /// Manganese.
    Manganese = "manganese",
    /// Sulfide.
    Sulfide = "sulfide",
    /// Ammonia.
    Ammonia = "ammonia",
    /// Nitrite.
    Nitrite = "nitrite",
    /// Organic carbon.
    Carbon = "carbon",
    /// Pipes and tanks of the house.
    Plumbing = "plumbing",
    /// Well screen.
    Screen = "screen",
    /// Grout or seal.
    Grout = "grout",
    /// Rock and soil.
    Rock = "rock",
    /// Frost, mud and the like.
    Frost = "frost",
    /// Sewage.
    Sewage = "sewage",
    /// A date or time.
    Date = "date",
    /// An address.
    Address = "address",
    /// How to reach somebody.
    Contact = "contact",
    /// A test of the water.
    Testing = "testing",
    /// A tank or a filter.
    Tank = "tank",
    /// A distance.
    Distance = "distance",
    /// Money, people, hours.
    Cost = "cost",
    /// Pump data and fittings.
    Power = "power",
    /// What the water is used for.
    Use = "use",
    /// How well a position is known.
    Accuracy = "accuracy",
    /// A rank.
    Priority = "priority",
    /// Below something.
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
