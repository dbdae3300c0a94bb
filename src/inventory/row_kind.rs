//! What kind of row a row is that is not a well to be treated.

/// A kind of row that is counted and named, and neither planned nor held back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum RowKind {
    /// The headings once more, perhaps spelled in another way, or a row of their units.
    Heading,
    /// The name of a section: of a township, a road, a system.
    Section,
    /// Sums, averages and counts.
    Total,
    /// A remark in words.
    Remark,
    /// What codes and signs of the list mean.
    Legend,
    /// Foot of a page: its number, a date, who prepared it, `continued`.
    Footer,
    /// A number, and nothing filled in beside it.
    BlankForm,
    /// Of a sheet beside the wells that lists none.
    OtherSheet,
    /// Water that does not come from a well: a tank, a tap, an intake, a pond, the town's pipe.
    OtherSource,
    /// A hole that gives no drinking water: for a test, for heat, or dry.
    OtherHole,
    /// A well that is no more: sealed, filled, destroyed.
    Gone,
    /// A well that was never made.
    NeverMade,
    /// A well in whose place there is another one.
    Replaced,
    /// A well that another row of the list describes already.
    Duplicate,
    /// What a person said is no well, in a table of right values.
    SaidToBeNone,
}

impl RowKind {
    /// In words, for so many rows.
    pub const fn words(self, rows: usize) -> &'static str {
        let one = rows == 1;
        match self {
            Self::Heading => "with the headings or their units once more",
            Self::Section if one => "name of a section",
            Self::Section => "names of sections",
            Self::Total if one => "total or average",
            Self::Total => "totals or averages",
            Self::Remark if one => "remark",
            Self::Remark => "remarks",
            Self::Legend => "of a legend",
            Self::Footer if one => "foot of a page",
            Self::Footer => "feet of pages",
            Self::BlankForm if one => "blank form",
            Self::BlankForm => "blank forms",
            Self::OtherSheet => "of a sheet without wells",
            Self::OtherSource if one => "source that is not a well",
            Self::OtherSource => "sources that are not wells",
            Self::OtherHole if one => "test, heat or dry hole",
            Self::OtherHole => "test, heat or dry holes",
            Self::Gone if one => "well that is sealed, filled or destroyed",
            Self::Gone => "wells that are sealed, filled or destroyed",
            Self::NeverMade if one => "well that was never made",
            Self::NeverMade => "wells that were never made",
            Self::Replaced if one => "well that was replaced",
            Self::Replaced => "wells that were replaced",
            Self::Duplicate if one => "second entry of a well",
            Self::Duplicate => "second entries of wells",
            Self::SaidToBeNone if one => "row that you said is no well",
            Self::SaidToBeNone => "rows that you said are no wells",
        }
    }

    /// Whether the row is about something in the field, so that its words are worth quoting; the others are of the list.
    pub const fn is_thing(self) -> bool {
        matches!(
            self,
            Self::OtherSource
                | Self::OtherHole
                | Self::Gone
                | Self::NeverMade
                | Self::Replaced
                | Self::Duplicate
                | Self::SaidToBeNone
        )
    }
}

/// That a row is not a well, and by which words.
#[derive(Debug, Clone, PartialEq)]
pub struct NoWell {
    /// What stands in the place of a well.
    pub kind: RowKind,
    /// The words that say so, as typed.
    pub seen: Box<str>,
}
