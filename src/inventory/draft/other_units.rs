//! Cells that are in feet and inches because a row above them says so, in a list in meters.

use super::Draft;
use crate::field::{Field, WellType};
use crate::finding::catalogue;
use crate::inventory::cell::Datum;
use crate::inventory::columns::is_diameter;
use crate::inventory::lexicon;
use crate::quantity::format::number;
use crate::quantity::parse::plain;
use crate::quantity::unit::by_symbol;

/// What is measured in feet or, across, in inches.
const MEASURES: [Field; 7] = [
    Field::TotalDepth,
    Field::StaticWaterLevel,
    Field::WaterColumn,
    Field::CasingDepth,
    Field::CasingDiameter,
    Field::CasingOutsideDiameter,
    Field::OpenHoleDiameter,
];

impl Draft {
    /// Whether the row, which is no well, says that what follows is in feet and inches, or no longer.
    pub fn says_units(&self) -> Option<bool> {
        let columns = self.rows.width(self.row);
        let text: Vec<&str> = (0..columns).map(|column| self.rows.cell(self.row, column)).collect();
        let words = lexicon::tokens(&text.join(" "));
        let any = |of: &[&str]| words.iter().any(|word| of.contains(&word.as_str()));
        let feet = any(&["feet", "foot", "ft", "pies", "pieds"]) && any(&["inch", "inches", "pulgadas", "pouces"]);
        let metric = any(&["metric", "metre", "metres", "meter", "meters", "metros", "metrico"]);
        (feet != metric).then_some(feet)
    }

    /// The middle of its column, in SI, and what may be meant, where the bare width of this row is far smaller and would fit if it
    /// were inches, or had a figure more: `36` of a dug well among 90 to 120 cm, `76` of a bored one among 760 and 910 mm.
    pub fn narrow_among_others(&self) -> Option<(f64, String)> {
        const ACROSS: Field = Field::CasingDiameter;
        /// A width is far smaller below this part of the middle, and fits between these parts. No source.
        const FAR: f64 = 0.5;
        const FITS: std::ops::RangeInclusive<f64> = 0.75..=1.35;
        let feed = self.table.plan.feeds[ACROSS as usize].as_ref().filter(|feed| !feed.barred)?;
        let well_type = self.type_of_row()?;
        let middle = feed.middle_of_type.iter().find(|(of, _)| *of == well_type).map(|(_, middle)| *middle)?;
        let written = plain(self.in_cell(ACROSS))?;
        let (unit, inch, foot) = (self.unit_of_bare(ACROSS)?, by_symbol("in")?, by_symbol("ft")?);
        let read = self.number(ACROSS).filter(|si| (si - unit.to_si(written)).abs() < 1e-9)?;
        let middle = unit.to_si(middle);
        let inches = FITS.contains(&(inch.to_si(written) / middle));
        let wide = matches!(well_type, WellType::Bored | WellType::Dug);
        let figure_lost = wide && FITS.contains(&(10.0 * read / middle));
        // 3 among bored wells of 36 inches.
        let feet = wide && unit.symbol == "in" && FITS.contains(&(foot.to_si(written) / middle));
        let meant = match (inches, feet, figure_lost) {
            (true, ..) => format!("{} in", self.in_cell(ACROSS).trim()),
            (false, true, _) => format!("{} ft", self.in_cell(ACROSS).trim()),
            (false, false, true) => format!("{} {}", number(10.0 * written, 6), unit.symbol),
            (false, false, false) => return None,
        };
        (read < FAR * middle).then_some((middle, meant))
    }

    /// Reads the bare numbers of the row in feet and inches, as the row of that number says; those with a unit stay.
    pub fn read_in_feet(&mut self, said_in_row: u32) {
        let mut fields = Vec::new();
        for field in MEASURES {
            let Some(column) = self.unit_of_column(field).filter(|unit| matches!(unit.symbol, "m" | "cm" | "mm"))
            else {
                continue;
            };
            let bare = self.own_units.iter().all(|(of, _)| *of != field) && self.form(field).is_none();
            let written = self.cell_of(field).ends_with(|c: char| c.is_ascii_digit());
            let unit = by_symbol(if is_diameter(field) { "in" } else { "ft" });
            if let (Some(si), Some(unit), true) = (self.number(field), unit, bare && written) {
                self.set(field, Datum::Number(unit.to_si(column.from_si(si))));
                self.own_units.push((field, unit));
                fields.push(field);
            }
        }
        if let Some(field) = fields.first() {
            let says = format!("read in feet, and in inches across: row {said_in_row} says so");
            self.say(
                catalogue::UNITS_CHANGE_BELOW,
                *field,
                says,
                "no action needed if correct; otherwise write the units",
            );
        }
    }
}
