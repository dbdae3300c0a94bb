//! Pictures of numbers: series over axes, and places on a map. What is drawn, never how.

/// A chart with its text alternative.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Caption of the picture, which is also read out as its title.
    pub title: String,
    /// The same in a sentence, for whoever cannot see it: what there is, and what stands out.
    pub text: String,
    /// How its points are drawn.
    pub kind: Kind,
    /// Axis from left to right, the one of `x`; of bars the axis of their names.
    pub across: Axis,
    /// Upward; of bars the axis of their length.
    pub upward: Axis,
    /// Series over the same two axes, in the order of the legend.
    pub series: Vec<Series>,
}

/// How the points of a chart are drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// A bar for each name; the points of a series are in the order of the names, and `x` is not used.
    Bars(Vec<String>),
    /// A line through the points of each series.
    Lines,
    /// Points that no line joins.
    Points,
}

/// What one direction of a chart measures, and how it is divided.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Axis {
    /// What it measures, without the unit.
    pub title: String,
    /// Its unit; empty for a pure number.
    pub unit: String,
    /// Whether equal steps are equal factors.
    pub by_factors: bool,
    /// Whether zero must be on it.
    pub from_zero: bool,
}

impl Axis {
    /// An axis of equal steps.
    pub fn new(title: impl Into<String>, unit: impl Into<String>) -> Self {
        Self { title: title.into(), unit: unit.into(), ..Self::default() }
    }

    /// Title, with its unit behind it in brackets if it has one: `Dose (mg/L)`.
    pub fn heading(&self) -> String {
        if self.unit.is_empty() { self.title.clone() } else { format!("{} ({})", self.title, self.unit) }
    }
}

/// One thing over an axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// What the legend calls it.
    pub name: String,
    /// Its points; those without a number are left out.
    pub points: Vec<Point>,
}

/// A point, with its range where it has one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Value on the axis across, in its unit; bars do not use it.
    pub x: f64,
    /// Value on the axis upward, in its unit; of a bar its length.
    pub y: f64,
    /// Low and high of `y`, in the same unit; nothing where there is no spread.
    pub range: Option<(f64, f64)>,
}

impl Point {
    /// A point without a range.
    pub const fn at(x: f64, y: f64) -> Self {
        Self { x, y, range: None }
    }
}

/// Places by group and state.
#[derive(Debug, Clone, PartialEq)]
pub struct Map {
    /// Caption of the map, which is also read out as its title.
    pub title: String,
    /// The same in a sentence, for whoever cannot see it.
    pub text: String,
    /// Names of the groups, which are told apart by shape and color.
    pub groups: Vec<String>,
    /// Names of the states, which are told apart by how the shape is filled.
    pub states: Vec<String>,
    /// Places to draw, each in one group and one state.
    pub places: Vec<Place>,
    /// Whether distances are shown in miles.
    pub miles: bool,
}

/// A place on a map.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Decimal degrees, north positive.
    pub latitude: f64,
    /// Decimal degrees, east positive.
    pub longitude: f64,
    /// Its group, by place in [`Map::groups`].
    pub group: usize,
    /// Its state, by place in [`Map::states`].
    pub state: usize,
}
