//! Cells that a row takes from above it, and the id that it has by what it stands under.

use super::Draft;
use crate::field::{Field, Kind};
use crate::finding::Severity;
use crate::inventory::cell::Datum;
use crate::inventory::identity::identity;
use crate::inventory::naming::Naming;

impl Draft {
    /// The cells of the row that hold something, without outer blanks, from the left.
    pub fn filled_cells(&self) -> impl Iterator<Item = &str> {
        self.rows.filled(self.row).map(|(_, text)| text)
    }

    /// What the beginning of the row's table tells of the whole of it.
    pub fn naming(&self) -> Option<&Naming> {
        self.table.naming.get()
    }

    /// Whether some cell holds a ditto mark.
    pub fn has_dittos(&self) -> bool {
        !self.dittos.is_empty()
    }

    /// Takes what ditto marks stand for from the row above; without one they stand for nothing.
    pub fn fill_dittos(&mut self, above: Option<&Self>) {
        for column in std::mem::take(&mut self.dittos) {
            let field =
                self.table.order.iter().map(|(field, _)| *field).find(|field| self.column(*field) == Some(column));
            let text = above.map_or("", |above| above.cell(column));
            self.filled.push((column, text.into()));
            let (Some(field), Some(above)) = (field, above) else { continue };
            self.doubt_as(above, field);
            self.set(field, above.datum(field));
            self.spreads.extend(above.spreads.iter().filter(|(of, ..)| *of == field));
            self.own_units.extend(above.own_units.iter().filter(|(of, _)| *of == field));
        }
        self.read_by_type();
        self.identity = identity(self.id().unwrap_or_default(), self.visit());
        // A remark that is the same as above says the same of this row.
        self.read_words();
    }

    /// What holds the cell above back holds this one back.
    fn doubt_as(&mut self, above: &Self, field: Field) {
        let (theirs, ours) = (above.place(field), self.place(field));
        for finding in &above.findings {
            if finding.place == theirs && finding.code.severity() == Severity::Error {
                let mut finding = finding.clone();
                finding.place = ours.clone();
                finding.well = self.id().map(Into::into);
                self.findings.push(finding);
            }
        }
    }

    /// Fills a blank cell of a text column in.
    pub fn fill(&mut self, column: usize, text: &str) {
        self.filled.push((column, text.into()));
        let field = self.table.order.iter().map(|(field, _)| *field).find(|field| self.column(*field) == Some(column));
        if let Some(field) = field.filter(|field| matches!(field.definition().kind, Kind::Text)) {
            self.set(field, Datum::Text);
        }
    }

    /// Makes the id that a well has with these names before it; blank ones are left out.
    pub fn known_by(&mut self, names: &[&str]) {
        let Some(id) = self.id() else { return };
        let names: Vec<&str> = names.iter().copied().filter(|name| !name.is_empty()).collect();
        if names.is_empty() {
            return;
        }
        let whole = format!("{} / {id}", names.join(" / "));
        for finding in &mut self.findings {
            finding.well = Some(whole.as_str().into());
        }
        self.identity = identity(&whole, self.visit());
        self.made_id = Some(whole.into());
        self.paired = true;
    }
}
