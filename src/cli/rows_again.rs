//! Rows that people are asked about, looked at once more when it is known which they are: what stands in them, which fields
//! they lack, and what the wells that can be planned have.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use crate::engine;
use crate::error::Result;
use crate::field::rules::ReadingRules;
use crate::field::{Field, WellType, squash};
use crate::inventory::{Draft, Inventory, can_be_read_again};
use crate::place::Origin;
use crate::report::fitted::shortened;

/// A row of a list.
pub(super) type Row = (Origin, u32);

/// Letters of a row in words, and of one cell of it.
const LONGEST_ROW: usize = 100;
const LONGEST_CELL: usize = 26;
/// Cells that are shown of a row without a name.
const FIRST_CELLS: usize = 3;
/// Headings of columns by which people know a well: parts of words, spelled without blanks.
const NAMING: [&str; 17] = [
    "owner", "name", "family", "resident", "occupant", "tenant", "customer", "member", "farm", "address", "road",
    "street", "place", "site", "propri", "dueno", "morador",
];

/// What was found in the rows.
#[derive(Debug, Default)]
pub(super) struct Again {
    /// Rows in words.
    pub words: BTreeMap<Row, String>,
    /// How many wells of a type are held back for want of a field.
    pub lacking: BTreeMap<(WellType, Field), u64>,
    /// What the wells that can be planned have of such a field, in SI.
    pub values: BTreeMap<(WellType, Field), Vec<f64>>,
}

impl Again {
    /// Reads the lists again: for what stands in the rows that are `asked` about, for the types of those that lack a field, and
    /// for what the rows that `is_planned` have of these. A list that is a stream can be read only once: nothing is found in it.
    ///
    /// # Errors
    /// When a list cannot be read.
    pub fn look(
        lists: &[PathBuf],
        rules: &ReadingRules,
        asked: &BTreeSet<Row>,
        lacks: &BTreeMap<Row, Vec<Field>>,
        is_planned: &dyn Fn(&Row) -> bool,
    ) -> Result<Self> {
        let mut again = Self::default();
        if asked.is_empty() && lacks.is_empty() || !lists.iter().all(|list| can_be_read_again(list)) {
            return Ok(again);
        }
        let fields: BTreeSet<Field> = lacks.values().flatten().copied().collect();
        let mut inventory = Inventory::open(lists, rules)?;
        engine::find(
            &mut inventory,
            rules,
            |_| true,
            |draft| -> Result<()> {
                again.take(&draft, asked, lacks, &fields, is_planned);
                Ok(())
            },
        )?;
        Ok(again)
    }

    fn take(
        &mut self,
        draft: &Draft,
        asked: &BTreeSet<Row>,
        lacks: &BTreeMap<Row, Vec<Field>>,
        fields: &BTreeSet<Field>,
        is_planned: &dyn Fn(&Row) -> bool,
    ) {
        let row = (draft.origin().clone(), draft.row());
        let of_type = draft.choice(Field::WellType).and_then(WellType::by_name);
        if let Some(of_type) = of_type {
            for field in lacks.get(&row).into_iter().flatten() {
                *self.lacking.entry((of_type, *field)).or_default() += 1;
            }
            if is_planned(&row) {
                for field in fields {
                    let value = draft.number(*field);
                    self.values.entry((of_type, *field)).or_default().extend(value);
                }
            }
        }
        if asked.contains(&row) {
            self.words.insert(row, in_words(draft));
        }
    }
}

/// `62-822 · Corliss farm · drilled · depth 80 ft · level 60 ft · 6 in wide`.
fn in_words(draft: &Draft) -> String {
    let mut parts: Vec<String> = Vec::new();
    let mut add = |text: &str| {
        let text = shortened(text, LONGEST_CELL);
        if !text.is_empty() && !parts.contains(&text) {
            parts.push(text);
        }
    };
    add(draft.cell_of(Field::WellId));
    let is_naming = |heading: &str| {
        let heading = squash(heading);
        NAMING.iter().any(|part| heading.contains(part))
    };
    draft.carried_cells().filter(|(column, _)| is_naming(&column.heading)).take(2).for_each(|(_, text)| add(text));
    if parts.is_empty() {
        parts.extend(draft.filled_cells().take(FIRST_CELLS).map(|text| shortened(text, LONGEST_CELL)));
    }
    for (field, before, behind) in [
        (Field::WellType, "", ""),
        (Field::TotalDepth, "depth ", ""),
        (Field::StaticWaterLevel, "level ", ""),
        (Field::WaterColumn, "water ", ""),
        (Field::WaterVolume, "holds ", ""),
        (Field::CasingDiameter, "", " wide"),
    ] {
        let text = draft.cell_of(field);
        if text.is_empty() || parts.iter().any(|part| part == text) {
            continue;
        }
        let unit = draft.unit_of_column(field).filter(|_| text.ends_with(|letter: char| letter.is_ascii_digit()));
        let unit = unit.map_or_else(String::new, |unit| format!(" {}", unit.symbol));
        parts.push(format!("{before}{}{unit}{behind}", shortened(text, LONGEST_CELL)));
    }
    shortened(&parts.join(" · "), LONGEST_ROW)
}
