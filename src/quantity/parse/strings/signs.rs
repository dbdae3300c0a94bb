//! The signs of a text about casing, where the neighbors of a word decide what it does.

use super::super::items::{Amount, Item, is_year};
use super::words::{Sign, sign};

/// What the parts of the text do; a wall beside an outside diameter is taken off it.
pub(super) fn signs(items: &[Item<'_>]) -> Option<Vec<Sign>> {
    let mut signs = Vec::with_capacity(items.len());
    for item in items {
        match item {
            Item::Amount(amount) if is_year(amount) => {}
            item => signs.extend(sign(item)?),
        }
    }
    // `6" steel 77' open bottom`: the casing reaches to there and is open at its end.
    if let [before @ .., Sign::Open, Sign::Bottom] = signs.as_slice()
        && before.iter().filter_map(Sign::amount).count() == 2
    {
        signs.truncate(before.len());
    }
    open_holes(&mut signs);
    // `4" pvc 0-95 scr 95-105`: a screen or a hole begins another string.
    let mut at = 1;
    while at < signs.len() {
        let begins = matches!(signs[at], Sign::Inner | Sign::Hole)
            && matches!(signs[at - 1], Sign::Amount(_))
            && at >= 2
            && matches!(signs[at - 2], Sign::Dash | Sign::To)
            && matches!(signs.get(at + 1), Some(Sign::Amount(_)))
            && signs[..at].iter().filter_map(Sign::amount).count() > 1
            && signs[at..].iter().filter_map(Sign::amount).count() > 1;
        if begins {
            signs.insert(at, Sign::Next);
            at += 1;
        }
        at += 1;
    }
    // `à partir de` is from, `en bas` below.
    let said_by_the_next = |pair: &[Sign]| matches!(pair, [Sign::To, Sign::From] | [Sign::From, Sign::Below]);
    while let Some(at) = signs.windows(2).position(said_by_the_next) {
        signs.remove(at);
    }
    let mut at = 0;
    while at < signs.len() {
        if let Some((inside, used)) = walled(&signs[at..]) {
            signs.splice(at..at + used, [Sign::Amount(inside)]);
        }
        at += 1;
    }
    // An outside diameter without a wall is not an inside one.
    (!signs.iter().any(|sign| matches!(sign, Sign::Outside | Sign::Wall))).then_some(signs)
}

/// `6 in. to 58, open to 180`: what begins with the word is a hole; elsewhere it changes nothing.
fn open_holes(signs: &mut Vec<Sign>) {
    for at in 0..signs.len() {
        let begins = at == 0 || matches!(signs[at - 1], Sign::Next | Sign::Then | Sign::Slash);
        let reaches = matches!(signs.get(at + 1), None | Some(Sign::To | Sign::From | Sign::Below | Sign::Amount(_)));
        if signs[at] == Sign::Open && begins && reaches {
            signs[at] = Sign::Hole;
        }
    }
    signs.retain(|sign| *sign != Sign::Open);
}

/// `6-5/8 OD x .188 wall` at the start: the inside diameter, and how many signs it took.
fn walled(signs: &[Sign]) -> Option<(Amount, usize)> {
    let (Sign::Amount(outside), mut at) = (*signs.first()?, 1) else { return None };
    let said = signs.get(at) == Some(&Sign::Outside);
    at += usize::from(said);
    at += usize::from(matches!(signs.get(at), Some(Sign::By | Sign::Next)));
    let Some(Sign::Amount(wall)) = signs.get(at) else { return None };
    let named = signs.get(at + 1) == Some(&Sign::Wall);
    let unit = outside.unit.or(wall.unit);
    let thickness = match (wall.unit, outside.unit) {
        (Some(of_wall), Some(of_outside)) => of_wall.to_si(wall.value) / of_outside.to_si(1.0),
        _ => wall.value,
    };
    let sound = (said || named) && thickness > 0.0 && thickness < outside.value / 8.0;
    let inside = Amount { value: outside.value - 2.0 * thickness, unit, ..outside };
    sound.then_some((inside, at + 1 + usize::from(named)))
}
