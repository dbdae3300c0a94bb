//! A spring's box in columns of its own: how long, how wide, and how deep the water stands in it.
//!
//! `Spring box inside length (m)`, `Spring box inside width (m)`, `Water depth in spring box (m)`; `caja largo`, `caja ancho`.

use crate::field::Field;
use crate::field::rules::ReadingRules;
use crate::inventory::heading;
use crate::inventory::lexicon;
use crate::inventory::remarks::BOXES;
use crate::inventory::table::Opened;
use crate::quantity::unit::Unit;

/// The columns of a box: two sides and the water, each with its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Basin {
    /// The sides and the height of the water.
    pub measures: [(usize, &'static Unit); 3],
}

/// More words for the box, in headings alone.
const OF_COLUMNS: [&str; 3] = ["boxes", "cuba", "tanquilla"];
const LONG: [&str; 8] = ["length", "long", "len", "largo", "longitud", "longueur", "comprimento", "l"];
const WIDE: [&str; 8] = ["width", "wide", "ancho", "anchura", "largeur", "largura", "breadth", "w"];
const WATER: [&str; 6] = ["water", "agua", "eau", "lamina", "lame", "nivel"];

/// The columns of the box, where a table has all three and each has a unit.
pub(super) fn find(table: &Opened, rules: &ReadingRules) -> Option<Basin> {
    let words = |column: usize| {
        let group = table.layout.groups.get(column).map_or("", String::as_str);
        lexicon::tokens(&format!("{group} {}", table.headings[column]))
    };
    let one = |known: &[&str], not: &[&str]| {
        let has = |words: &[String], known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
        let mut found = (0..table.headings.len()).filter(|column| {
            let words = words(*column);
            heading::mapped(&table.headings[*column], rules).is_none()
                && (has(&words, &BOXES) || has(&words, &OF_COLUMNS))
                && has(&words, known)
                && !has(&words, not)
        });
        found.next().filter(|_| found.next().is_none())
    };
    let with_unit = |column: usize| Some((column, table.length_unit(column, Field::WaterColumn)?));
    let (long, wide) = (one(&LONG, &WATER)?, one(&WIDE, &WATER)?);
    let water = one(&WATER, &[])?;
    Some(Basin { measures: [with_unit(long)?, with_unit(wide)?, with_unit(water)?] })
}
