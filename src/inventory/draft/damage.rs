//! What is wrong with a row as a row: too many cells or too few, damage from its file, no id.

use compact_str::CompactString;

use super::super::lexicon::{self, Concept, Language};
use super::super::rows::{CellKind, Damage, LONGEST_CELL};
use super::Draft;
use crate::field::{Field, names};
use crate::finding::{Code, Finding, Words, catalogue};
use crate::place::Place;

impl Draft {
    /// Whose well a row is, where it has a type and a measure, or stands for a place of its own.
    fn named_otherwise(&self) -> Option<String> {
        // `Dug/Bored` is a type too.
        if self.cell_of(Field::WellType).is_empty() || !self.is_typed() && self.measures() < 3 {
            return None;
        }
        let of = |concept: Concept| {
            let cell = self.table.plan.carried.iter().find_map(|(column, heading)| {
                let words = lexicon::tokens(heading);
                let says = !names::is_way(heading)
                    && Language::ALL.into_iter().any(|language| lexicon::meaning(&words, language).has(concept));
                Some(self.cell(*column)).filter(|text| says && text.chars().filter(|c| c.is_alphabetic()).count() > 2)
            });
            cell.map(str::to_owned)
        };
        let (name, place) = (of(Concept::Name), of(Concept::Address));
        if self.measures() == 0 && (name.is_none() || place.is_none()) {
            return None;
        }
        name.or(place)
    }

    pub(super) fn row_damage(&mut self, has_ids: bool) {
        let row = self.row();
        let mut found: Vec<(Code, Words, &'static str)> = Vec::new();
        for damage in self.rows.damages(self.row) {
            found.push(match damage {
                Damage::UnclosedQuote => (
                    catalogue::UNCLOSED_QUOTE,
                    "a quotation mark opens a cell and is never closed; the cells of this row may be cut wrongly"
                        .into(),
                    "take the mark out, or double it and close the cell",
                ),
                Damage::TooLong => (
                    catalogue::CELL_TOO_LONG,
                    format!("a cell of this row has more than {LONGEST_CELL} letters, or the row is longer still; the cell is left out")
                        .into(),
                    "shorten the cell, or look for a quotation mark that is not closed",
                ),
                Damage::ForeignBytes => (
                    catalogue::FOREIGN_BYTES,
                    "some bytes are not UTF-8; the row was read as Windows-1252".into(),
                    "save the file as UTF-8",
                ),
            });
        }
        let described = self.table.plan.described;
        let columns = described.map_or(self.table.plan.columns.len(), |described| described.first);
        let cut = described.is_some_and(|described| described.was_cut(&self.rows, self.row));
        let width = if cut { columns } else { self.rows.width(self.row) };
        if width > columns {
            let filled = (columns..width).filter(|column| !self.rows.cell(self.row, *column).trim().is_empty()).count();
            if filled > 0 {
                found.push((
                    catalogue::ROW_TOO_LONG,
                    format!(
                        "{width} cells under {columns} headings; a cell with the delimiter in it may have been cut"
                    )
                    .into(),
                    "put cells that hold the delimiter in quotation marks",
                ));
            }
        } else if width < columns
            && !self.table.short_rows
            && self.rows.kind(self.row, 0) == CellKind::Text
            && width > 0
        {
            let last = self.table.plan.feeds.iter().flatten().map(|feed| feed.column).max().unwrap_or(0);
            if width <= last {
                found.push((
                    catalogue::ROW_TOO_SHORT,
                    format!("{width} cells under {columns} headings; the missing ones are read as blank").into(),
                    "check that no cell was lost on the way",
                ));
            }
        }
        for (code, says, help) in found {
            let finding = Finding::new(code, Place::row(self.origin(), row), says, help).of_well(self.id());
            self.findings.push(finding);
        }
        let ditto = self.column(Field::WellId).is_some_and(|column| self.dittos.contains(&column));
        let nameless = has_ids && self.id().is_none() && !ditto;
        if nameless && let Some(name) = self.named_otherwise() {
            let id = format!("{name} (row {row})");
            let says = format!("this row has no id, and all else of a well; it is called \"{id}\"");
            self.made_id = Some(id.into());
            self.say(
                catalogue::ID_MADE,
                Field::WellId,
                says,
                "no action needed if it is a well of its own; else give it its id",
            );
        } else if nameless {
            self.say(
                catalogue::NO_ID,
                Field::WellId,
                "this row has no id",
                "give it one, or take the row out if it is a total or a remark",
            );
        }
        // Findings of cells left of the id were made before it was known.
        if self.findings.iter().any(|finding| finding.well.is_none())
            && let Some(id) = self.id().map(CompactString::from)
        {
            for finding in &mut self.findings {
                finding.well.get_or_insert_with(|| id.clone());
            }
        }
    }
}
