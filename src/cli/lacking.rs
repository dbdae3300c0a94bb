//! Fields that wells of a type lack and are held back for, with what the lists' own wells of that type have: proposals for the sheet
//! of missing values.

use crate::book::Lacking;
use crate::engine::quality::{Quality, Range};
use crate::field::{Field, WellType};
use crate::inventory::FEWEST_WELLS;
use crate::quantity::format::number;
use crate::quantity::unit;
use crate::report::causes::Causes;
use crate::report::question::missing_field;

/// Each field that holds wells back where it is blank, by type, most wells first.
pub(super) fn lacking(causes: &Causes, quality: &Quality) -> Vec<Lacking> {
    let mut held_back: Vec<Field> = Vec::new();
    for cause in causes.all().iter().filter(|cause| cause.wells > 0) {
        let field = missing_field(cause.code).filter(|field| *field != Field::WellType);
        held_back.extend(field.filter(|field| !held_back.contains(field)));
    }
    let (rows, ranges) = (quality.rows(), quality.ranges());
    let complete = quality.completeness();
    let mut all = Vec::new();
    for field in held_back {
        let given = complete.iter().find(|of| of.field == field).map(|of| of.given);
        for (kind, well_type) in WellType::ALL.into_iter().enumerate() {
            let wells = rows[kind].saturating_sub(given.map_or(0, |given| given[kind]));
            // A spring is a volume, any other well is not.
            let fits = (well_type == WellType::SpringBox) == (field == Field::WaterVolume);
            if wells > 0 && fits {
                let own = ranges.iter().find(|range| range.field == field && range.well_type == Some(well_type));
                // Of lists with wells of one type the range of all is that of the type.
                let is_only = rows.iter().filter(|count| **count > 0).count() == 1;
                let own = own.or_else(|| ranges.iter().find(|range| range.field == field && is_only));
                let own = own.map_or_else(|| "none of them says".to_owned(), |range| in_words(range, quality));
                all.push(Lacking { well_type: well_type.name(), field: field.name(), wells, own });
            }
        }
    }
    all.sort_by_key(|lacking| std::cmp::Reverse(lacking.wells));
    all
}

/// `52 wells: 4 to 8 in, half of them 6 in or less; most often 6 in`.
fn in_words(range: &Range, quality: &Quality) -> String {
    let Some(unit) = quality.unit(range.field) else { return format!("{} wells", range.count) };
    let shown = |si: f64| number(unit.from_si(si), 3);
    let symbol = unit.symbol;
    let [least, median, greatest, most] = [range.least, range.median, range.greatest, range.most_frequent].map(shown);
    let often = if range.most_frequent_count > 1 { format!("; most often {most} {symbol}") } else { String::new() };
    let own = match range.count {
        1 => format!("1 well: {median} {symbol}"),
        count => {
            format!("{count} wells: {least} to {greatest} {symbol}, half of them {median} {symbol} or less{often}")
        }
    };
    // What is not even possible is in another unit, or wrong: nothing may be drawn from it yet.
    let quantity = range.field.quantity();
    let bounds = quantity.and_then(|quantity| Some((quantity.possible, unit::by_symbol(quantity.unit)?)));
    if bounds.is_some_and(|((low, high), of)| range.least < of.to_si(low) || range.greatest > of.to_si(high)) {
        return format!("{own}; some of these cannot be: settle Repairs first, and bring the book up to date");
    }
    match range.count >= FEWEST_WELLS {
        true => format!("{own}; yes under Drawn from the list takes these"),
        false => format!("{own}; too few to be drawn from: write Low, Mid and High"),
    }
}
