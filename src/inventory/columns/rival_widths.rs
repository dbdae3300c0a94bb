//! Columns of widths that are not read, beside the one that is: where they say another, it is asked which holds the water.

use super::{Feed, Planner};
use crate::field::Field;
use crate::inventory::lexicon::{self, Concept};

/// A column that is not read and may say how wide a well is, beside the one that is read.
#[derive(Debug, Clone, Copy)]
pub struct RivalWidth {
    /// Its place in the table.
    pub column: usize,
    /// Whether it is the width of a hole: a wider one was drilled around the casing, and no water stands between the two.
    pub is_hole: bool,
}

impl Planner<'_> {
    /// The columns that are left open and may hold another width in which water stands: a pipe's, or a hole's. `Up`, in the inches of
    /// the pipe, is no width.
    pub(super) fn rival_widths(&self, feeds: &[Option<Feed>]) -> Vec<RivalWidth> {
        // `Over csg (in)`: how far the flood or the rim stood from the pipe, and not how wide that is.
        const BESIDE: [&str; 14] = [
            "over", "above", "below", "under", "up", "out", "sobre", "encima", "debajo", "sur", "dessus", "sous",
            "acima", "abaixo",
        ];
        const PIPE: [Concept; 4] = [Concept::Casing, Concept::Diameter, Concept::Size, Concept::Outside];
        let is_fed = |column: usize| feeds.iter().flatten().any(|feed| feed.column == column);
        let unread = self.open.iter().filter(|(column, field)| *field == Field::CasingDiameter && !is_fed(*column));
        let rival = |(column, _): &(usize, Field)| {
            let words = lexicon::tokens(&self.table.headings[*column]);
            let meaning = lexicon::meaning(&words, self.table.layout.language);
            let below = self.may_be_below(*column, &meaning, feeds);
            let is_hole = below || meaning.has(Concept::Hole) || meaning.has(Concept::Bore);
            let is_width = is_hole || PIPE.iter().any(|concept| meaning.has(*concept));
            let is_beside = words.iter().any(|word| BESIDE.contains(&word.as_str()));
            (is_width && !is_beside).then_some(RivalWidth { column: *column, is_hole })
        };
        unread.filter_map(rival).collect()
    }
}
