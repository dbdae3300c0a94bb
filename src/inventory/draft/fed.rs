//! Which column of a row gives a field, and in which unit its bare numbers are there.

use super::coded::decoded;
use super::{Draft, trim};
use crate::field::{Field, WellType, usual};
use crate::finding::catalogue;
use crate::inventory::cell::Datum;
use crate::inventory::columns::follow_up::is_other;
use crate::inventory::columns::{AlsoWhen, Feed, is_diameter};
use crate::quantity::format::quantity;
use crate::quantity::parse::{plain, plain_or_comma};
use crate::quantity::unit::{self, Unit};

/// The number before a mark that a note explains as not at rest: `63.8` of `63.8 P`.
pub(super) fn without_pumped<'a>(feed: &Feed, text: &'a str) -> Option<&'a str> {
    let plain_text = text.trim_end_matches([')', '*']);
    feed.level.pumped.iter().find_map(|mark| {
        let start = plain_text.len().checked_sub(mark.len())?;
        let ends = plain_text.get(start..).is_some_and(|end| end.eq_ignore_ascii_case(mark));
        let number = plain_text.get(..start)?.trim_end_matches([' ', '(', '-', ',']);
        (ends && (number.is_empty() || plain_or_comma(number).is_some())).then_some(number)
    })
}

/// Levels of two dates that differ by less than this share of the water are steady. Common practice, no source.
const STEADY: f64 = 0.1;

/// Two columns for one field that differ by more than this share.
pub(super) const DISAGREES: f64 = 0.05;

impl Draft {
    /// The feed of this row: the second column's where the first says nothing.
    pub(super) fn feed_of_row<'a>(&mut self, field: Field, feed: &'a Feed) -> &'a Feed {
        let Some(also) = feed.also.as_deref() else { return feed };
        let cell = |feed: &Feed| trim(self.rows.cell(self.row, feed.column));
        let says_nothing = |text: &str| text.is_empty() || self.table.cells.says_nothing(field, text);
        match feed.also_when {
            AlsoWhen::Other if !is_other(cell(feed)) || cell(also).is_empty() => return feed,
            AlsoWhen::Other => {
                self.from_second |= 1 << field as u64;
                return also;
            }
            AlsoWhen::NotAtRest => {
                let at_rest = |of: &Feed| {
                    let coded = decoded(&self.table, field, of, cell(of));
                    let missing = coded.1 == Some(Datum::Missing) || says_nothing(coded.0);
                    !missing && without_pumped(feed, cell(of)).is_none()
                };
                if at_rest(feed) || !at_rest(also) {
                    return feed;
                }
                self.from_second |= 1 << field as u64;
                return also;
            }
            AlsoWhen::NoNumber => {
                let has_number = |of: &Feed| {
                    let coded = decoded(&self.table, field, of, cell(of));
                    let digits = coded.0.bytes().any(|byte| byte.is_ascii_digit());
                    matches!(coded.1, Some(Datum::Number(_))) || digits && without_pumped(feed, cell(of)).is_none()
                };
                let Some(steps) = (0..=feed.depth()).find(|steps| has_number(feed.further(*steps))) else {
                    return feed;
                };
                self.steps_back = steps;
                self.from_second |= u64::from(steps > 0) << field as u64;
                return feed.further(steps);
            }
            AlsoWhen::NoString(width) => {
                let blank = |column: usize| says_nothing(trim(self.rows.cell(self.row, column)));
                if !blank(feed.column) || !blank(width) || blank(also.column) {
                    return feed;
                }
                self.from_second |= 1 << field as u64;
                return also;
            }
            AlsoWhen::Blank => {}
        }
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

    /// Says that a level of an earlier date was taken; asks where the one before it does not bear it out.
    pub(super) fn earlier_level(&mut self) {
        const LEVEL: Field = Field::StaticWaterLevel;
        let Some(feed) = self.table.plan.feeds[LEVEL as usize].as_ref() else { return };
        if self.from_second & 1 << LEVEL as u64 != 0 && feed.also_when == AlsoWhen::NoNumber {
            let heading = |feed: &Feed| self.heading_of(feed).to_owned();
            let (latest, taken) = (heading(feed), heading(feed.further(self.steps_back)));
            let says = format!("\"{latest}\" has no number here; that of \"{taken}\" is taken, as the note says");
            self.say(catalogue::EARLIER_READINGS, LEVEL, says, "no action needed if correct");
            return;
        }
        let earlier = self.from_second & 1 << LEVEL as u64 != 0 && feed.also_when == AlsoWhen::NotAtRest;
        let Some(older) = feed.also.as_ref().and_then(|also| also.also.as_ref()).filter(|_| earlier) else { return };
        let Some(level) = self.number(LEVEL) else { return };
        let water = self.number(Field::TotalDepth).map(|depth| depth - level).filter(|water| *water > 0.0);
        let older_level = plain_or_comma(trim(self.rows.cell(self.row, older.column)))
            .zip(self.unit_for_type(LEVEL, older))
            .map(|(number, unit)| unit.to_si(number));
        let borne_out = older_level.zip(water).is_some_and(|(older, water)| (older - level).abs() <= STEADY * water);
        let heading = self.heading_of(feed);
        if borne_out {
            let says = format!("\"{heading}\" has no level at rest here; this earlier one is taken");
            let help = "no action needed if correct; otherwise write the level as it is now";
            self.say(catalogue::EARLIER_READINGS, LEVEL, says, help);
        } else {
            let says = format!("\"{heading}\" has no level at rest here, and no two earlier ones are nearly the same");
            self.say(catalogue::TWO_READINGS, LEVEL, says, "write the level as it is now");
            self.refuse(LEVEL);
        }
    }

    fn heading_of(&self, feed: &Feed) -> &str {
        self.table.plan.columns.get(feed.column).map_or("", |column| column.heading.as_ref())
    }

    /// The type of well of this row, where it is read already.
    pub(super) fn type_of_row(&self) -> Option<WellType> {
        self.choice(Field::WellType).and_then(WellType::by_name)
    }

    /// The unit of a bare number of a field in this row.
    pub(super) fn unit_of_bare(&self, field: Field) -> Option<&'static Unit> {
        let feed = self.table.plan.feeds[field as usize].as_ref()?;
        self.unit_for_type(field, self.fed_by(field, feed))
    }

    /// How many columns further back the one is that gave a field of this row.
    pub(super) fn steps_of(&self, field: Field, feed: &Feed) -> u8 {
        let second = self.from_second & 1 << field as u64 != 0;
        if feed.also_when == AlsoWhen::NoNumber { self.steps_back } else { u8::from(second) }
    }

    /// The feed that gave a field of this row, once its cells are read.
    pub(super) fn fed_by<'a>(&self, field: Field, feed: &'a Feed) -> &'a Feed {
        feed.further(self.steps_of(field, feed))
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
        // `Drilled depth (m)`: a depth has one unit, whatever the well.
        let one = feed.unit_of_type.first().map(|(_, unit)| *unit).filter(|first| {
            !is_diameter(field) && feed.unit_of_type.iter().all(|(_, unit)| std::ptr::eq(*unit, *first))
        });
        own.or_else(|| self.only_sound(field, feed)).or(feed.unit.filter(|_| well_type.is_some())).or(one)
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
