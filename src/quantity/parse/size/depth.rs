//! A depth, a level or a height that is not one number: `holds 9 ft of water`, `flows`, `25 (85 pumping)`, `flush`.

use super::super::items::{Amount, Item, lengths};
use super::super::number::Comma;
use super::super::standing::{self, DRY, PUMPING, full, has, height_of_water, resting};
use super::super::{Reading, Trouble, quantity_with};
use super::reference::{Reference, reference};
use super::{Size, Sort};
use crate::quantity::unit::{self, Dimension, Unit};

/// The forms of a depth, a level or a height.
pub(super) fn depth(
    words: &str,
    whole: &[Item<'_>],
    sort: Sort,
    default: Option<&'static Unit>,
    comma: Comma,
) -> Result<Option<Size>, Trouble> {
    if let Some(reading) = hyphened(whole, default)? {
        return Ok(Some(Size::one(reading)));
    }
    let first = whole.first().and_then(Item::word);
    if first.is_some_and(|word| DRY.contains(&word)) || lengths(whole).next().is_none() && has(whole, DRY) {
        return Err(Trouble::Dry);
    }
    let read =
        |amount: Amount| quantity_with(&words[amount.start..amount.end], Dimension::Length, default, None, comma);
    if matches!(sort, Sort::Depth | Sort::Level)
        && let Some(amount) = height_of_water(whole)
    {
        return read(amount).map(|reading| Some(Size::Water(reading)));
    }
    // `NS 13,5` where the height of the water was asked: a level all the same.
    if sort == Sort::Height
        && first.is_some_and(|word| standing::LEVEL.contains(&word))
        && let [amount] = lengths(whole).collect::<Vec<_>>().as_slice()
        && whole
            .iter()
            .filter_map(Item::word)
            .all(|word| standing::LEVEL.contains(&word) || standing::AT.contains(&word))
    {
        return read(*amount).map(|reading| Some(Size::Level { reading, from: reference(whole) }));
    }
    if sort == Sort::Height
        && let Some(amount) = standing::level_for_height(whole)
    {
        let from = reference(whole).filter(|from| *from != Reference::SeaLevel);
        return read(amount).map(|reading| Some(Size::Level { reading, from }));
    }
    if sort == Sort::Height
        && let Some(flowing) = full(whole)
    {
        return Ok(Some(Size::Full { flowing }));
    }
    if sort == Sort::Rim && lengths(whole).next().is_none() && (has(whole, FLUSH) || is_without_rim(whole)) {
        let meter = unit::by_symbol("m");
        return Ok(meter.map(|meter| {
            let mut reading = Reading::plain(0.0, meter, true);
            reading.note = Some("level with the ground".into());
            Size::one(reading)
        }));
    }
    // Of several numbers one holds: which, is said.
    let chosen = |amount, why: &'static str| {
        read(amount).map(|mut reading| {
            reading.note.get_or_insert(why.into());
            reading
        })
    };
    if let Some(amount) = standing::no_longer(whole) {
        let reading = chosen(amount, "the former one is left out")?;
        return Ok(Some(Size::One { reading, from: reference(whole) }));
    }
    if let Some(amount) = standing::worked_out(whole).filter(|_| sort == Sort::Depth) {
        return chosen(amount, "the sum that is written out").map(|reading| Some(Size::one(reading)));
    }
    if sort != Sort::Level {
        return Ok(None);
    }
    if let Some(amount) = standing::below_top(whole) {
        return read(amount).map(|reading| Some(Size::One { reading, from: reference(whole) }));
    }
    if let Some(flowing) = full(whole) {
        return Ok(Some(Size::Full { flowing }));
    }
    if has(whole, PUMPING) || has(whole, standing::RUNNING) {
        let resting = resting(whole).ok_or(Trouble::Pumping)?;
        let reading = chosen(resting, "at rest; the level while pumping is left out")?;
        return Ok(Some(Size::One { reading, from: reference(whole) }));
    }
    Ok(None)
}

/// A casing or rim that ends level with the ground.
const FLUSH: &[&str] = &["flush", "rente", "ras", "rasant", "rasante", "level"];

/// `lid at ground`, `sin brocal`: nothing stands above the ground.
fn is_without_rim(items: &[Item<'_>]) -> bool {
    const WITHOUT: [&str; 4] = ["sin", "sans", "sem", "no"];
    const RIM: [&str; 12] = [
        "brocal", "pretil", "margelle", "curb", "rim", "collar", "bocal", "casing", "manilha", "riser", "kerb",
        "rebord",
    ];
    let words: Vec<&str> = items.iter().filter_map(Item::word).collect();
    let at_ground = words.windows(2).any(|pair| pair[0] == "at" && ["ground", "grade"].contains(&pair[1]));
    at_ground || matches!(words.as_slice(), [without, rim] if WITHOUT.contains(without) && RIM.contains(rim))
}

/// `31-4` in a column of feet: feet and inches where it cannot be a range, a doubt where it can.
fn hyphened(items: &[Item<'_>], default: Option<&'static Unit>) -> Result<Option<Reading>, Trouble> {
    let [Item::Amount(feet), Item::Mark('-'), Item::Amount(inches)] = items else { return Ok(None) };
    let bare = feet.unit.is_none() && inches.unit.is_none();
    let Some(unit) = default.filter(|unit| bare && unit.symbol == "ft") else { return Ok(None) };
    if inches.value >= 12.0 || feet.value.fract() != 0.0 {
        return Ok(None);
    }
    if inches.value > feet.value {
        return Err(Trouble::FeetOrRange { feet: feet.value, inches: inches.value });
    }
    let mut reading = Reading::plain(feet.value + inches.value / 12.0, unit, false);
    reading.note = Some("feet and inches".into());
    Ok(Some(reading))
}
