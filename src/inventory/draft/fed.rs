//! Which column of a row gives a field, and in which unit its bare numbers are there.

use super::{Draft, trim};
use crate::field::{Field, WellType, usual};
use crate::finding::catalogue;
use crate::inventory::columns::follow_up::is_other;
use crate::inventory::columns::{Feed, is_diameter};
use crate::quantity::format::quantity;
use crate::quantity::parse::{plain, plain_or_comma};
use crate::quantity::unit::{self, Unit};

/// Two columns for one field that differ by more than this share.
pub(super) const DISAGREES: f64 = 0.05;

impl Draft {
    /// The feed of this row: the second column's where the first says nothing.
    pub(super) fn feed_of_row<'a>(&mut self, field: Field, feed: &'a Feed) -> &'a Feed {
        let Some(also) = feed.also.as_deref() else { return feed };
        let cell = |feed: &Feed| trim(self.rows.cell(self.row, feed.column));
        if feed.also_if_other {
            if !is_other(cell(feed)) || cell(also).is_empty() {
                return feed;
            }
            self.from_second |= 1 << field as u64;
            return also;
        }
        let says_nothing = |text: &str| text.is_empty() || self.table.cells.says_nothing(field, text);
        if !says_nothing(cell(feed)) || says_nothing(cell(also)) {
            // Two widths are held against each other in their units, when the whole row is read.
            if let (Some(one), Some(other)) = (plain(cell(feed)), plain(cell(also)))
                && field != Field::CasingDiameter
                && (one - other).abs() > DISAGREES * one.abs()
            {
                let says = format!("this column says {}, another one {}; this one is used", cell(feed), cell(also));
                let help = "no action needed if correct; otherwise blank the cell that is wrong";
                self.say(catalogue::OVERRULED, field, says, help);
            }
            return feed;
        }
        self.from_second |= 1 << field as u64;
        also
    }

    /// The type of well of this row, where it is read already.
    pub(super) fn type_of_row(&self) -> Option<WellType> {
        self.choice(Field::WellType).and_then(WellType::by_name)
    }

    /// The unit of a bare number of a field in this row.
    pub(super) fn unit_of_bare(&self, field: Field) -> Option<&'static Unit> {
        let feed = self.table.plan.feeds[field as usize].as_ref()?;
        let second = self.from_second & 1 << field as u64 != 0;
        let feed = feed.also.as_deref().filter(|_| second).unwrap_or(feed);
        self.unit_for_type(field, feed)
    }

    /// The size that a note gives for a blank cell of this row's type of well.
    pub(super) fn size_unless_noted(&mut self, field: Field, feed: &Feed) -> Option<f64> {
        let well_type = self.type_of_row()?;
        let (_, si) = feed.unless_noted.iter().find(|(of, _)| *of == well_type)?;
        let unit = feed.unit.or_else(|| unit::by_symbol("in"))?;
        let says = format!(
            "nothing is written; {} taken, as the note above the table says of {} wells",
            quantity(*si, unit, 4),
            well_type.name().replace('_', " ")
        );
        self.say(catalogue::SIZE_FROM_NOTE, field, says, "no action needed if correct; otherwise fill in the cell");
        Some(*si)
    }

    /// The unit of a bare width whose unit is left blank beside it: the only one of those that the column writes in which it is
    /// usual for its type of well. Nothing where none is, or several.
    pub(super) fn unit_left_blank(&self, field: Field, feed: &Feed, text: &str) -> Option<&'static Unit> {
        let (well_type, number) = (self.type_of_row()?, plain(text)?);
        let (low, high) = usual(well_type, field)?;
        let fits = |unit: &&&'static Unit| (low * 0.999..=high * 1.001).contains(&unit.to_si(number));
        let mut fitting = feed.units_beside.iter().filter(fits);
        fitting.next().copied().filter(|_| fitting.next().is_none())
    }

    /// The unit of bare numbers of a column in this row: that of the row's type of well, where the list has one for each.
    pub(super) fn unit_for_type(&self, field: Field, feed: &Feed) -> Option<&'static Unit> {
        if let Some(units) = &feed.unit_of_row {
            return units.of(field, feed, |column| trim(self.rows.cell(self.row, column)));
        }
        if feed.unit_of_type.is_empty() {
            return feed.unit;
        }
        let of_type = |wanted: WellType| feed.unit_of_type.iter().find(|(of, _)| *of == wanted).map(|(_, unit)| *unit);
        let well_type = self.type_of_row();
        let own = well_type.and_then(of_type);
        own.or_else(|| self.only_sound(field, feed)).or(feed.unit.filter(|_| well_type.is_some()))
    }

    /// The only one of a column's units in which the width of this row could be a well's, where its type has none of its own.
    fn only_sound(&self, field: Field, feed: &Feed) -> Option<&'static Unit> {
        const WIDTHS: (f64, f64) = (0.025, 4.0);
        if !is_diameter(field) {
            return None;
        }
        let cell = trim(self.rows.cell(self.row, feed.column));
        let number = plain_or_comma(cell)?;
        let mut found: Option<&'static Unit> = None;
        for unit in feed.unit_of_type.iter().map(|(_, unit)| *unit).chain(feed.unit) {
            if (WIDTHS.0..=WIDTHS.1).contains(&unit.to_si(number))
                && found.is_none_or(|known| !std::ptr::eq(known, unit))
            {
                if found.is_some() {
                    return None;
                }
                found = Some(unit);
            }
        }
        found
    }
}
