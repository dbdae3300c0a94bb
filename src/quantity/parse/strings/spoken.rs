//! The strings that the signs of a text tell of, each with what is said of its depths.

use super::super::items::Amount;
use super::words::Sign;
use crate::quantity::unit::Unit;

/// A string as its words give it.
#[derive(Clone, Copy)]
pub(super) struct Spoken {
    pub(super) top: Option<Amount>,
    pub(super) bottom: Option<Amount>,
    /// Goes on to the bottom of the well.
    pub(super) below: bool,
    pub(super) diameter: Amount,
    /// A hole or a screen: it begins where what is above it ends, if nothing else is said.
    pub(super) joined: bool,
}

/// The strings, in the order in which they are told; `default` is the unit of a bare diameter.
pub(super) fn spoken(signs: &[Sign], default: Option<&'static Unit>) -> Option<Vec<Spoken>> {
    telescoped(signs).or_else(|| listed(signs)).or_else(|| parts(signs, default))
}

/// `10x8 telescoped at 40'`.
fn telescoped(signs: &[Sign]) -> Option<Vec<Spoken>> {
    let [Sign::Amount(upper), Sign::By, Sign::Amount(lower), rest @ ..] = signs else { return None };
    let change = match rest {
        [Sign::Telescoped, Sign::From | Sign::To, Sign::Amount(change)] => *change,
        _ => return None,
    };
    Some(vec![
        Spoken { top: None, bottom: Some(change), below: false, diameter: *upper, joined: true },
        Spoken { top: None, bottom: None, below: true, diameter: *lower, joined: true },
    ])
}

/// `16/12/8 in. to 60/180/240`: as many depths as diameters, each string from the end of the one above.
fn listed(signs: &[Sign]) -> Option<Vec<Spoken>> {
    let middle = signs.iter().position(|sign| *sign == Sign::To)?;
    let list = |signs: &[Sign]| -> Option<Vec<Amount>> {
        let sound = signs.iter().enumerate().all(|(at, sign)| match sign {
            Sign::Amount(_) => at % 2 == 0,
            Sign::Slash | Sign::By => at % 2 == 1,
            _ => false,
        });
        sound.then(|| signs.iter().filter_map(Sign::amount).collect())
    };
    let (across, depths) = (list(&signs[..middle])?, list(&signs[middle + 1..])?);
    let deeper = depths.windows(2).all(|pair| pair[0].value < pair[1].value);
    (across.len() == depths.len() && across.len() > 1 && deeper).then(|| {
        let one = |(diameter, bottom): (&Amount, &Amount)| Spoken {
            top: None,
            bottom: Some(*bottom),
            below: false,
            diameter: *diameter,
            joined: true,
        };
        across.iter().zip(&depths).map(one).collect()
    })
}

/// The strings between the marks and words that part them; open holes without depths come last.
fn parts(signs: &[Sign], default: Option<&'static Unit>) -> Option<Vec<Spoken>> {
    let mut groups: Vec<(bool, Vec<Sign>)> = Vec::new();
    let mut then = false;
    for group in signs.split_inclusive(|sign| matches!(sign, Sign::Next | Sign::Then | Sign::Slash)) {
        let ends = matches!(group.last(), Some(Sign::Next | Sign::Then | Sign::Slash));
        let group_signs = &group[..group.len() - usize::from(ends)];
        match (groups.last_mut(), group_signs) {
            (_, []) => {}
            (Some((_, last)), [Sign::To, ..]) => last.extend(group_signs),
            // `12 in. casing, 0-96`
            (Some((_, last)), [Sign::Amount(top), ..])
                if top.value == 0.0 && last.iter().filter_map(Sign::amount).count() == 1 && last.len() == 1 =>
            {
                last.extend(group_signs);
            }
            _ => groups.push((then, group_signs.to_vec())),
        }
        then = group.last() == Some(&Sign::Then);
    }
    // `8 to 50, 6 then`: what stands last goes on below.
    if let (true, [_, .., (joined, _)]) = (then, groups.as_mut_slice()) {
        *joined = true;
    }
    let mut spoken: Vec<Spoken> = Vec::new();
    let mut holes = Vec::new();
    for (then, group) in groups {
        let hole = group.contains(&Sign::Hole);
        let inner = group.contains(&Sign::Inner);
        let bare: Vec<Sign> =
            group.iter().filter(|sign| !matches!(sign, Sign::Hole | Sign::Inner | Sign::Telescoped)).copied().collect();
        if hole && matches!(bare.as_slice(), [] | [Sign::Below] | [Sign::To, _])
            || (hole || inner) && only_reaches(&bare)
        {
            continue; // How wide it is, is not said.
        }
        let mut one = part(&bare)?;
        one.joined = hole || inner || then;
        if one.top.is_none() && one.bottom.is_none() && !one.below {
            if !hole {
                spoken.push(one);
                continue;
            }
            one.below = true;
        }
        // `5-5/8 OH, 6 to 77`: the hole lies below what follows.
        let first = hole && one.below && one.top.is_none() && spoken.is_empty();
        if first { holes.push(one) } else { spoken.push(one) }
    }
    if holes.len() > 1 {
        return None;
    }
    spoken.extend(holes);
    // `1.20, then 0.90 from 6 m`: the upper one reaches to there.
    for at in 1..spoken.len() {
        let top = spoken[at].top.filter(|_| spoken[at].bottom.is_none());
        let above = &mut spoken[at - 1];
        if let (Some(top), None, None, false) = (top, above.top, above.bottom, above.below) {
            above.bottom = Some(top);
            spoken[at].top = None;
            spoken[at].joined = true;
        }
    }
    narrowing(&spoken, default).then_some(spoken)
}

/// Whether these say from where to where something reaches, and nothing of how wide it is: `115-125'`, `5' below`.
fn only_reaches(signs: &[Sign]) -> bool {
    let long = |amount: &Amount| amount.unit.is_some_and(Unit::is_of_depths);
    let signs = signs.strip_prefix(&[Sign::From]).unwrap_or(signs);
    match signs {
        [Sign::Amount(length)] | [Sign::Amount(length), Sign::Below] => long(length),
        [Sign::Amount(top), Sign::Dash | Sign::To, Sign::Amount(bottom)] => {
            top.value < bottom.value && [top, bottom].into_iter().all(|depth| depth.unit.is_none() || long(depth))
        }
        _ => false,
    }
}

/// Below a casing a hole is seldom wider than this many times the casing. Common practice, no source.
const MOST_WIDENING: f64 = 1.3;

/// Whether no string is much wider than the one before it.
fn narrowing(spoken: &[Spoken], default: Option<&'static Unit>) -> bool {
    let of = spoken.iter().find_map(|one| one.diameter.unit).or(default);
    let Some(unit) = of else { return false };
    spoken.windows(2).all(|pair| pair[1].diameter.si(unit) <= pair[0].diameter.si(unit) * MOST_WIDENING)
}

/// The signs of one string alone, in any order in which a diameter and its depths are written; `None` for any other.
fn part(signs: &[Sign]) -> Option<Spoken> {
    use Sign::{Amount as A, Below, Bottom, Dash, From, Of, To};
    let to = |sign: &Sign| matches!(sign, To | Dash);
    let long = |amount: &Amount| amount.unit.is_some_and(Unit::is_of_depths);
    let spoken = |diameter: &Amount, top: Option<&Amount>, bottom: Option<&Amount>, below| {
        Some(Spoken { top: top.copied(), bottom: bottom.copied(), below, diameter: *diameter, joined: false })
    };
    match signs {
        [A(bottom), Of, A(diameter)] if long(bottom) => return spoken(diameter, None, Some(bottom), false),
        _ if signs.contains(&Of) => {
            return part(&signs.iter().filter(|sign| **sign != Of).copied().collect::<Vec<_>>());
        }
        _ => {}
    }
    match signs {
        [A(diameter)] => spoken(diameter, None, None, false),
        [A(diameter), To, A(bottom)] => spoken(diameter, None, Some(bottom), false),
        [A(diameter), A(bottom)] if long(bottom) && !long(diameter) => spoken(diameter, None, Some(bottom), false),
        [A(diameter), Below | Bottom]
        | [Below | Bottom, A(diameter)]
        | [A(diameter), To, Bottom]
        | [A(diameter), Below, To, Bottom]
        | [Below, A(diameter), To, Bottom]
        | [A(diameter), From, To, Bottom] => spoken(diameter, None, None, true),
        [A(diameter), Below | From, A(top)]
        | [A(diameter), Below, From, A(top)]
        | [Below | From, A(top), A(diameter)] => spoken(diameter, Some(top), None, true),
        [A(diameter), From | Below, A(top), to_bottom, Bottom] | [A(diameter), A(top), to_bottom, Bottom]
            if to(to_bottom) =>
        {
            spoken(diameter, Some(top), None, true)
        }
        [A(diameter), A(top), between, A(bottom)] | [A(diameter), From, A(top), between, A(bottom)] if to(between) => {
            spoken(diameter, Some(top), Some(bottom), false)
        }
        [A(top), between, A(bottom), A(diameter)] | [From, A(top), between, A(bottom), A(diameter)]
            if to(between) && diameter.unit.is_some() =>
        {
            spoken(diameter, Some(top), Some(bottom), false)
        }
        _ => None,
    }
}
