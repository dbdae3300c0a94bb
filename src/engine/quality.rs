//! What the lists are worth: how complete each field is, its range, clusters worth a look, what the computed volume rests
//! on, and the repairs that would narrow it most.
//!
//! Gathered batch by batch on every core and merged in reading order, in memory that does not grow with the list. It counts
//! what was typed and could be read, before anything is assumed.

mod found;
mod values;

pub use found::{Cluster, Completeness, Range, Repair, Rested};

use std::collections::{BTreeMap, HashMap};

use crate::field::rules::UnitSystem;
use crate::field::{FIELD_COUNT, FIELDS, Field, WellType};
use crate::inventory::{Datum, Draft};
use crate::kernel::volume::standing_volume;
use crate::quantity::liters;
use crate::quantity::unit::{self, Dimension, Unit};
use crate::well::Well;
use values::{Counter, Tops, Values};

/// Types of wells, and one place more for rows that give none.
const KINDS: usize = WellType::ALL.len() + 1;

/// Fields that the standing water is computed from; a range in one of them is a low and a high volume.
const VOLUME_FIELDS: [Field; 7] = [
    Field::TotalDepth,
    Field::StaticWaterLevel,
    Field::WaterColumn,
    Field::CasingDiameter,
    Field::CasingDepth,
    Field::OpenHoleDiameter,
    Field::WaterVolume,
];

/// Repairs that are named.
const REPAIRS: usize = 10;

/// The quality of what was read.
#[derive(Debug, Clone, Default)]
pub struct Quality {
    rows: [u64; KINDS],
    given: HashMap<Field, ([u64; KINDS], u64)>,
    values: HashMap<(Field, usize), Values>,
    /// How many cells were read in each unit.
    units: BTreeMap<(Field, &'static str), u64>,
    places: Tops,
    /// Treated water of all planned visits, L.
    pub volume_l: f64,
    /// Standing water between low and high of all planned visits, L.
    pub span_l: f64,
    /// By type of well and field: what rests on its being assumed. One visit may rest on several.
    pub rested: BTreeMap<(WellType, Field), Rested>,
    /// The repairs that would narrow the span most, the greatest first.
    pub repairs: Vec<Repair>,
}

/// What must be remembered of the rows of a batch until it is known what becomes of them.
pub(super) struct Marks {
    list: Box<str>,
    /// Row, and which of [`VOLUME_FIELDS`] were given as a range.
    rows: Vec<(u32, u8)>,
}

/// The place of a type among the types.
fn kind_of(draft: &Draft) -> usize {
    draft.choice(Field::WellType).and_then(WellType::by_name).map_or(KINDS - 1, |kind| kind as usize)
}

impl Quality {
    /// Looks at the rows of a batch; all of one table.
    pub(super) fn of(drafts: &[Draft]) -> (Self, Marks) {
        let mut quality = Self::default();
        let mut marks = Marks { list: "".into(), rows: Vec::with_capacity(drafts.len()) };
        let Some(first) = drafts.first() else { return (quality, marks) };
        let origin = first.origin();
        let sheet = origin.sheet.as_deref().map(|sheet| format!("!{sheet}")).unwrap_or_default();
        marks.list = format!("{}{sheet}", origin.file).into();
        let fields: Vec<Field> = first.fields().collect();
        let is_measured: Vec<bool> = fields
            .iter()
            .map(|field| field.quantity().is_some_and(|quantity| quantity.dimension != Dimension::Angle))
            .collect();
        let mut given = vec![([0_u64; KINDS], 0_u64); FIELD_COUNT];
        let mut numbers: Vec<[Vec<f64>; KINDS]> = fields.iter().map(|_| Default::default()).collect();
        let mut own_units: BTreeMap<(Field, &'static str), u64> = BTreeMap::new();
        let mut places = Vec::new();
        // Row by row, because a row's data lie together; the numbers of a field are brought together for counting.
        for draft in drafts {
            let spread = VOLUME_FIELDS.iter().enumerate().filter(|(_, field)| draft.spread(**field).is_some());
            marks.rows.push((draft.row(), spread.fold(0, |mask, (at, _)| mask | 1 << at)));
            if draft.no_well().is_some() {
                continue;
            }
            let kind = kind_of(draft);
            quality.rows[kind] += 1;
            if let (Some(latitude), Some(longitude)) = (draft.number(Field::Latitude), draft.number(Field::Longitude)) {
                places.push(place_key(latitude, longitude));
            }
            for (field, unit) in draft.own_units() {
                *own_units.entry((*field, unit.symbol)).or_default() += 1;
            }
            for (at, field) in fields.iter().enumerate() {
                let (by_kind, unread) = &mut given[*field as usize];
                match draft.datum(*field) {
                    Datum::Missing => continue,
                    Datum::Unread => {
                        *unread += 1;
                        continue;
                    }
                    Datum::Number(value) if is_measured[at] => numbers[at][kind].push(value),
                    _ => {}
                }
                by_kind[kind] += 1;
            }
        }
        quality.given = FIELDS.iter().map(|definition| (definition.field, given[definition.field as usize])).collect();
        let mut counter = Counter::new(drafts.len());
        quality.units = own_units;
        for (field, by_kind) in fields.into_iter().zip(numbers) {
            if let Some(column) = first.unit_of_column(field) {
                let all: usize = by_kind.iter().map(Vec::len).sum();
                let own: u64 = units_of(&quality.units, field).map(|(_, count)| count).sum();
                // `all` counts both: the cells in the column's unit and those in one of their own.
                *quality.units.entry((field, column.symbol)).or_default() += (all as u64).saturating_sub(own);
            }
            let unit = quality.unit(field);
            for (kind, numbers) in by_kind.into_iter().enumerate().filter(|(_, numbers)| !numbers.is_empty()) {
                // Zero has two signs and is one value.
                let counts = counter.count(numbers.into_iter().map(|value| (value + 0.0).to_bits()));
                let values = Values::of(counts, |si| unit.map_or(si, |unit| unit.from_si(si)));
                quality.values.insert((field, kind), values);
            }
        }
        quality.places = Tops::of(counter.count(places.into_iter()));
        (quality, marks)
    }

    /// Takes a planned visit into account: the row's place in its batch, and its treated water.
    pub(super) fn planned(&mut self, marks: &Marks, at: usize, well: &Well, treated_l: f64) {
        self.volume_l += treated_l;
        let span_l = well
            .standing_water_range
            .as_ref()
            .map_or(0.0, |range| (liters(standing_volume(&range.1)) - liters(standing_volume(&range.0))).max(0.0));
        self.span_l += span_l;
        for field in &well.assumed {
            let rested = self.rested.entry((well.well_type, *field)).or_default();
            rested.visits += 1;
            rested.volume_l += treated_l;
            rested.span_l += span_l;
        }
        let least = self.repairs.get(REPAIRS - 1).map_or(0.0, |repair| repair.span_l);
        if span_l > least {
            let (row, spread) = marks.rows.get(at).copied().unwrap_or_default();
            let wide = VOLUME_FIELDS.into_iter().enumerate();
            let fields = wide
                .filter(|(place, field)| spread & (1 << place) != 0 || well.assumed.contains(field))
                .map(|(_, field)| field);
            let repair = Repair {
                well: well.id.as_str().into(),
                visit: well.visit.as_str().into(),
                list: marks.list.clone(),
                row,
                fields: fields.collect(),
                span_l,
            };
            self.offer(repair);
        }
    }

    /// Of equal spans the earlier row comes first.
    fn offer(&mut self, repair: Repair) {
        let at = self.repairs.partition_point(|other| other.span_l >= repair.span_l);
        if at < REPAIRS {
            self.repairs.insert(at, repair);
            self.repairs.truncate(REPAIRS);
        }
    }

    /// Adds the next batch; batches must come in reading order.
    pub(super) fn absorb(&mut self, other: Self) {
        for (mine, theirs) in self.rows.iter_mut().zip(other.rows) {
            *mine += theirs;
        }
        for (field, (given, unread)) in other.given {
            let mine = self.given.entry(field).or_default();
            mine.0.iter_mut().zip(given).for_each(|(mine, theirs)| *mine += theirs);
            mine.1 += unread;
        }
        for (key, values) in other.values {
            self.values.entry(key).or_default().merge(&values);
        }
        for (key, cells) in other.units {
            *self.units.entry(key).or_default() += cells;
        }
        self.places.merge(&other.places);
        self.volume_l += other.volume_l;
        self.span_l += other.span_l;
        for (key, theirs) in other.rested {
            let mine = self.rested.entry(key).or_default();
            mine.visits += theirs.visits;
            mine.volume_l += theirs.volume_l;
            mine.span_l += theirs.span_l;
        }
        other.repairs.into_iter().for_each(|repair| self.offer(repair));
    }

    /// Rows by type of well; last those without a type. Rows that are not wells are not counted.
    pub fn rows(&self) -> [u64; KINDS] {
        self.rows
    }

    /// The unit that most cells of a field were written in; nothing where none was read.
    pub fn unit(&self, field: Field) -> Option<&'static Unit> {
        // Of two units with as many cells the one that comes first by its name.
        let most = units_of(&self.units, field).max_by_key(|(symbol, cells)| (*cells, std::cmp::Reverse(*symbol)))?;
        unit::by_symbol(most.0)
    }

    /// How the people of these lists measure, by the units of most cells; metric where nothing says otherwise.
    pub fn system(&self) -> UnitSystem {
        let (mut english, mut metric, mut us, mut imperial) = (0, 0, 0, 0);
        for ((_, symbol), cells) in &self.units {
            match *symbol {
                "ft" | "in" | "yd" | "ft3" | "F" => english += cells,
                symbol if symbol.starts_with("US ") => us += cells,
                symbol if symbol.starts_with("imp ") => imperial += cells,
                "m" | "cm" | "mm" | "m3" | "L" | "mL" | "m3/h" | "m3/d" | "L/s" | "L/min" | "L/h" | "C" => {
                    metric += cells
                }
                _ => {}
            }
        }
        if metric >= english + us + imperial {
            UnitSystem::Metric
        } else if imperial > us {
            UnitSystem::Imperial
        } else {
            UnitSystem::Us
        }
    }

    /// How complete each field is that some row gives, or fails to give in a way that can be read.
    pub fn completeness(&self) -> Vec<Completeness> {
        FIELDS
            .iter()
            .filter_map(|definition| {
                let (given, unread) = self.given.get(&definition.field).copied()?;
                (given.iter().sum::<u64>() + unread > 0).then_some(Completeness {
                    field: definition.field,
                    given,
                    unread,
                })
            })
            .collect()
    }

    /// Ranges of what is measured: for all wells, then by type where there are several.
    pub fn ranges(&self) -> Vec<Range> {
        let mut ranges = Vec::new();
        for definition in &FIELDS {
            let field = definition.field;
            let by_kind: Vec<(usize, &Values)> =
                (0..KINDS).filter_map(|kind| Some((kind, self.values.get(&(field, kind))?))).collect();
            let mut all = Values::default();
            by_kind.iter().for_each(|(_, values)| all.merge(values));
            ranges.extend(range(field, None, &all));
            if by_kind.len() > 1 {
                for (kind, values) in by_kind {
                    ranges.extend(WellType::ALL.get(kind).and_then(|kind| range(field, Some(*kind), values)));
                }
            }
        }
        ranges
    }

    /// What is worth a look.
    pub fn clusters(&self) -> Vec<Cluster> {
        /// Fewer values prove nothing.
        const FEWEST: u64 = 30;
        let mut clusters = Vec::new();
        for definition in &FIELDS {
            let field = definition.field;
            let mut all = Values::default();
            (0..KINDS).filter_map(|kind| self.values.get(&(field, kind))).for_each(|values| all.merge(values));
            if all.count < FEWEST {
                continue;
            }
            let is_diameter = matches!(field, Field::CasingDiameter | Field::OpenHoleDiameter);
            let dimension = field.quantity().map(|quantity| quantity.dimension);
            let counted = matches!(dimension, Some(Dimension::Length | Dimension::Volume | Dimension::Flow));
            // Casing is sold in few sizes; counts of people and pH have few values as well.
            let share = if is_diameter { 90 } else { 25 };
            if let Some((value, count)) = all.most_frequent()
                && count * 100 >= all.count * share
                && !matches!(field, Field::UsersServed)
            {
                clusters.push(Cluster::OneValue { field, value, of: all.count, count });
            } else if counted && !is_diameter && all.whole >= FEWEST && all.tens * 10 >= all.whole * 4 {
                // One in ten ends in 0 by chance.
                clusters.push(Cluster::RoundNumbers { field, of: all.whole, round: all.tens });
            }
        }
        let places = self.places.in_order().into_iter().filter(|(_, count)| *count >= 3).take(5);
        clusters.extend(places.map(|(key, count)| {
            let (latitude, longitude) = place_of(key);
            Cluster::SamePlace { latitude, longitude, count }
        }));
        clusters
    }
}

/// Units of one field with their cells.
fn units_of<'a>(
    units: &'a BTreeMap<(Field, &'static str), u64>,
    field: Field,
) -> impl Iterator<Item = (&'static str, u64)> + 'a {
    units
        .range((field, "")..)
        .take_while(move |((of, _), _)| *of == field)
        .map(|((_, symbol), cells)| (*symbol, *cells))
}

fn range(field: Field, well_type: Option<WellType>, values: &Values) -> Option<Range> {
    let (most_frequent, most_frequent_count) = values.most_frequent()?;
    Some(Range {
        field,
        well_type,
        count: values.count,
        least: values.least,
        median: values.median(),
        greatest: values.greatest,
        most_frequent,
        most_frequent_count,
    })
}

/// Degrees to the sixth decimal, a hand's breadth, as one key.
const GRAIN: f64 = 1e6;

fn place_key(latitude: f64, longitude: f64) -> u64 {
    let whole = |degrees: f64| (degrees * GRAIN).round() as i32;
    u64::from(whole(latitude) as u32) << 32 | u64::from(whole(longitude) as u32)
}

fn place_of(key: u64) -> (f64, f64) {
    (f64::from((key >> 32) as u32 as i32) / GRAIN, f64::from(key as u32 as i32) / GRAIN)
}
