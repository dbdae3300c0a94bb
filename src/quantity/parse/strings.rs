//! Casing written in words: `10 in. to 38 ft, 8 in. below`, `6" 0-40, 4" 40-120`, `6-5/8 OD x .188 to 62, OH 6`.
//!
//! Every word must be known, else nothing is read: what is not surely one string below or inside another is a doubt.

mod words;

use super::super::unit::{self, Unit};
use super::items::{Amount, Item, is_year};
use words::{Sign, sign};

/// One diameter from one depth to another, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Depth of its top.
    pub top: f64,
    /// Depth of its bottom; nothing where it is all that lies below.
    pub bottom: Option<f64>,
    /// Inside diameter; of an outside that is written with its wall, what is left inside.
    pub diameter: f64,
    /// Its top is taken to be where the string above ends; it could as well hang from the ground.
    pub may_hang_from_ground: bool,
    /// The unit its depths were read in, where none is written.
    pub depths_in: Option<&'static Unit>,
}

/// A string as its words give it.
#[derive(Clone, Copy)]
struct Spoken {
    top: Option<Amount>,
    bottom: Option<Amount>,
    /// Goes on to the bottom of the well.
    below: bool,
    diameter: Amount,
    /// A hole or a screen: it begins where what is above it ends, if nothing else is said.
    joined: bool,
}

/// Strings of casing, where the text is made of nothing else and gives a depth; `default` is the unit of a bare diameter.
pub(super) fn strings(items: &[Item<'_>], default: Option<&'static Unit>) -> Option<Vec<Piece>> {
    let mut signs = signs(items)?;
    // `8 x 40, 6 open hole`: the length of the first string.
    if let ([Sign::Amount(across), by @ Sign::By, Sign::Amount(length), _, ..], true) =
        (signs.as_mut_slice(), items.len() > 3)
        && is_long_casing(across, length, default)
    {
        *by = Sign::To;
    }
    if is_length_first(&signs, items) {
        signs.insert(1, Sign::Of);
    }
    let stepped = telescoped(&signs).or_else(|| listed(&signs));
    let whole = signs.contains(&Sign::Bottom);
    let spoken = stepped.or_else(|| parts(&signs, default))?;
    let shortest = |unit: &Unit| matches!(unit.symbol, "in" | "mm" | "cm");
    // `8 in to 30 m, 6 in below` says its own unit.
    let of_pipes = spoken.iter().any(|one| one.diameter.unit.is_some_and(shortest));
    if let Some(unit) = default.filter(|unit| is_long(unit) && !of_pipes) {
        return steps(&spoken, unit);
    }
    if let [one] = spoken.as_slice()
        && let Some(pit) = pit(one)
    {
        return Some(vec![pit]);
    }
    let depths = |spoken: &Spoken| [spoken.top, spoken.bottom].into_iter().flatten();
    if spoken.is_empty()
        || spoken.iter().any(|one| one.diameter.unit.is_some_and(|unit| !shortest(unit)))
        || spoken.iter().flat_map(depths).any(|depth| depth.unit.is_some_and(shortest))
        || !whole && !spoken.iter().any(|one| depths(one).next().is_some())
    {
        return None;
    }
    // A unit that is written once holds for its kind.
    let of_diameter = spoken.iter().find_map(|one| one.diameter.unit).or(default.filter(|unit| shortest(unit)))?;
    let written = spoken.iter().flat_map(depths).find_map(|depth| depth.unit);
    let of_depth = written.or_else(|| unit::by_symbol(if of_diameter.symbol == "in" { "ft" } else { "m" }))?;
    let mut pieces = laid(&spoken, of_diameter, of_depth)?;
    if written.is_none() {
        pieces.iter_mut().for_each(|piece| piece.depths_in = Some(of_depth));
    }
    Some(pieces)
}

/// What a pipe is made of, and what it is called.
const PIPE: [&str; 12] =
    ["steel", "stl", "pvc", "plastic", "galv", "galvanized", "iron", "pipe", "csg", "casing", "black", "abs"];

/// `20' 6" steel`: so many feet of a pipe, where feet and inches would be no pipe.
fn is_length_first(signs: &[Sign], items: &[Item<'_>]) -> bool {
    /// The widest pipe that is written so, in inches, and the shortest length, in feet. Common practice, no source.
    const WIDEST_IN: f64 = 16.0;
    const SHORTEST_FT: f64 = 10.0;
    let [Sign::Amount(length), Sign::Amount(across), ..] = signs else { return false };
    let is = |amount: &Amount, symbol: &str| amount.unit.is_some_and(|unit| unit.symbol == symbol);
    is(length, "ft")
        && is(across, "in")
        && length.value >= SHORTEST_FT
        && across.value <= WIDEST_IN
        && items.iter().filter_map(Item::word).any(|word| PIPE.contains(&word))
}

/// `8 ft rings to 32'`: the one width of a dug well, in the unit of its depth.
fn pit(one: &Spoken) -> Option<Piece> {
    let unit = one.diameter.unit.filter(|unit| is_long(unit))?;
    let (across, bottom) = (one.diameter.si(unit), one.bottom?.si(unit));
    let sound = PIT_M.contains(&across) && bottom > across && one.top.is_none_or(|top| top.value == 0.0);
    sound.then_some(Piece {
        top: 0.0,
        bottom: Some(bottom),
        diameter: across,
        may_hang_from_ground: false,
        depths_in: None,
    })
}

/// `6 x 42`: a casing by its width and its length, where no well has such sides; `default` is the unit of a bare width.
pub(super) fn across_by_length(items: &[Item<'_>], default: Option<&'static Unit>) -> Option<Piece> {
    // `4 PVC x 156`: what the pipe is made of changes nothing.
    let is_pipe = |item: &Item<'_>| item.word().is_some_and(|word| PIPE.contains(&word));
    let (across, by, length) = match items {
        [Item::Amount(across), by, Item::Amount(length)] => (across, by, length),
        [Item::Amount(across), of, by, Item::Amount(length)] if is_pipe(of) => (across, by, length),
        _ => return None,
    };
    if !by.is('×') && by.word() != Some("x") || !is_long_casing(across, length, default) {
        return None;
    }
    let of_length = length.unit.or_else(|| unit::by_symbol("ft"))?;
    Some(Piece {
        top: 0.0,
        bottom: Some(of_length.to_si(length.value)),
        diameter: across.unit.or(default)?.to_si(across.value),
        may_hang_from_ground: false,
        depths_in: if length.unit.is_some() { None } else { Some(of_length) },
    })
}

/// Whether two numbers can only be the width of a casing and its length.
fn is_long_casing(across: &Amount, length: &Amount, default: Option<&'static Unit>) -> bool {
    /// No casing that is listed so is wider, in inches, and hardly one is shorter, in feet. Common practice, no source.
    const WIDEST_IN: f64 = 12.0;
    /// A casing is so many feet long for each inch of its width. Common practice, no source.
    const LEAST_SLENDER: f64 = 2.0;
    let Some(of_across) = across.unit.or(default).map(|unit| unit.symbol) else { return false };
    let of_length = length.unit.map_or("ft", |unit| unit.symbol);
    if across.value <= 0.0 || !matches!(of_length, "ft" | "m") {
        return false;
    }
    let told = across.unit.is_some() && matches!(of_across, "in" | "mm" | "cm") && length.unit.is_some();
    told || match (of_across, of_length) {
        ("in", "ft") => {
            across.value <= WIDEST_IN && length.value > WIDEST_IN && length.value >= LEAST_SLENDER * across.value
        }
        ("mm", "m") => across.value >= LEAST_SLENDER * length.value,
        _ => false,
    }
}

fn is_long(unit: &Unit) -> bool {
    matches!(unit.symbol, "ft" | "m")
}

/// A dug well that narrows, where widths are in the unit of depths: `1.40 to 6 m, then 1.00`. Each width must be a pit's, each
/// depth more than any width, and the last must go on to the bottom.
fn steps(spoken: &[Spoken], unit: &'static Unit) -> Option<Vec<Piece>> {
    let (last, upper) = spoken.split_last().filter(|(_, upper)| !upper.is_empty())?;
    let same = |amount: &Amount| amount.unit.is_none_or(|own| std::ptr::eq(own, unit));
    let is_pit = |one: &Spoken| same(&one.diameter) && PIT_M.contains(&one.diameter.si(unit));
    let widest = spoken.iter().map(|one| one.diameter.value).fold(0.0, f64::max);
    let reaches = |one: &Spoken| one.top.is_none() && one.bottom.is_some_and(|to| same(&to) && to.value > widest);
    let goes_on = last.top.is_none() && last.bottom.is_none() && (last.below || last.joined);
    (spoken.iter().all(is_pit) && upper.iter().all(reaches) && goes_on).then(|| laid(spoken, unit, unit))?
}

/// How wide the parts of a dug well are, in metres. Common practice, no source.
const PIT_M: std::ops::RangeInclusive<f64> = 0.45..=8.0;

/// One diameter of a driven point and its pipe: `1-1/4 pipe & pt`.
pub(super) fn point(items: &[Item<'_>]) -> Option<Amount> {
    let known = |item: &Item<'_>| match item {
        Item::Word(word) => words::POINT.contains(&word.as_ref()) || matches!(sign(item), Some(None)),
        Item::Amount(_) => true,
        Item::Mark(mark) => matches!(mark, '&' | '+' | '.' | ',' | '-'),
    };
    let says = |item: &Item<'_>| item.word().is_some_and(|word| words::POINT.contains(&word) || word == "pipe");
    let mut amounts = items.iter().filter_map(Item::amount);
    let amount = amounts.next()?;
    (amounts.next().is_none() && items.iter().all(known) && items.iter().any(says)).then_some(amount)
}

/// What the parts of the text do; a wall beside an outside diameter is taken off it.
fn signs(items: &[Item<'_>]) -> Option<Vec<Sign>> {
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
    let long = |amount: &Amount| amount.unit.is_some_and(is_long);
    let signs = signs.strip_prefix(&[Sign::From]).unwrap_or(signs);
    match signs {
        [Sign::Amount(length)] | [Sign::Amount(length), Sign::Below] => long(length),
        [Sign::Amount(top), Sign::Dash | Sign::To, Sign::Amount(bottom)] => {
            top.value < bottom.value && [top, bottom].into_iter().all(|depth| depth.unit.is_none() || long(depth))
        }
        _ => false,
    }
}

/// Whether no string is much wider than the one before it.
fn narrowing(spoken: &[Spoken], default: Option<&'static Unit>) -> bool {
    let of = spoken.iter().find_map(|one| one.diameter.unit).or(default);
    let Some(unit) = of else { return false };
    spoken.windows(2).all(|pair| pair[1].diameter.si(unit) <= pair[0].diameter.si(unit) * MOST_WIDENING)
}

/// Below a casing a hole is seldom wider than this many times the casing. Common practice, no source.
const MOST_WIDENING: f64 = 1.3;

/// The signs of one string alone, in any order in which a diameter and its depths are written; `None` for any other.
fn part(signs: &[Sign]) -> Option<Spoken> {
    use Sign::{Amount as A, Below, Bottom, Dash, From, Of, To};
    let to = |sign: &Sign| matches!(sign, To | Dash);
    let long = |amount: &Amount| amount.unit.is_some_and(is_long);
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

/// The strings, each with a top; nothing where a depth is missing between two. Strings may overlap: the inner one counts.
fn laid(spoken: &[Spoken], of_diameter: &'static Unit, of_depth: &'static Unit) -> Option<Vec<Piece>> {
    let mut pieces: Vec<Piece> = Vec::with_capacity(spoken.len());
    let mut end: Option<f64> = Some(0.0);
    for (at, one) in spoken.iter().enumerate() {
        let last = at + 1 == spoken.len();
        let top = one.top.map(|top| top.si(of_depth)).or(end)?;
        let next_top = spoken.get(at + 1).and_then(|next| next.top).map(|top| top.si(of_depth));
        let next_top = next_top.filter(|next| !one.below || *next > top);
        let bottom = one.bottom.map(|bottom| bottom.si(of_depth)).or(next_top);
        // Only an open hole goes on below while a liner stands in it.
        if at == 0 && top > 0.0 || !last && bottom.is_none() && !(one.below && one.joined && at > 0) {
            return None;
        }
        // A string without any depth is not said to be below or inside.
        if last && at > 0 && one.bottom.is_none() && one.top.is_none() && !one.below && !one.joined {
            return None;
        }
        let diameter = one.diameter.si(of_diameter);
        if bottom.is_some_and(|bottom| bottom <= top) || diameter <= 0.0 {
            return None;
        }
        let may_hang_from_ground = at > 0 && one.top.is_none() && one.bottom.is_some() && !one.joined;
        pieces.push(Piece { top, bottom, diameter, may_hang_from_ground, depths_in: None });
        end = if last { bottom } else { deeper(end, bottom) };
    }
    Some(pieces)
}

/// The deeper of two depths; nothing where the second is the bottom of the well.
fn deeper(one: Option<f64>, other: Option<f64>) -> Option<f64> {
    Some(one?.max(other?))
}
