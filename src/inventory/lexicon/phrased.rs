//! What the small words of a heading say: from where to where something is measured, and whether water stands in the well or
//! comes up to a point.
//!
//! `Ft. from casing top to water` names a casing, a top and water, and is none of them; `Feet of water in hole` is no hole. Such
//! turns are put into the one word that stands for them before the other words are looked up. Common practice, no source; the
//! Spanish, French and Portuguese from memory.

/// What one word does in such a turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    /// The ground, or what stands for it.
    Ground,
    /// The upper end of the casing or the wall.
    Top,
    /// What holds the water.
    Container,
    /// The lower end of the well.
    Bottom,
    /// Water, and nothing of how it was measured.
    Water,
    /// Standing, at rest.
    Still,
    /// A unit of length, or words for how much.
    Length,
    /// `to`, `down to`.
    To,
    /// `from`, `below`: counted down.
    From,
    /// `in`, `inside`.
    In,
    /// `above`, `over`, `out of`.
    Above,
    /// What is done to measure: a tape, a sounding.
    Tape,
    /// A depth by name.
    Deep,
    /// `down`, where it is no `down to`: a depth, and no height.
    Down,
    /// `the`, `of`, `and`: joins and says nothing.
    Joint,
    /// Anything else.
    Other,
}

use Part as P;

fn part(word: &str) -> Part {
    match word {
        "tierra" | "terra" | "tn" | "ground" | "grade" | "gs" | "gl" | "ls" | "grd" | "surface" | "land" | "lawn"
        | "lsd" | "suelo" | "terreno" | "sol" | "chao" | "solo" => P::Ground,
        "top" | "rim" | "lip" | "brim" | "collar" | "riser" | "curb" | "toc" | "mp" | "cap" | "head" | "brocal"
        | "margelle" | "pretil" | "boca" | "borde" | "cabezal" | "tope" | "haut" | "sommet" | "tete" | "topo" => P::Top,
        "well" | "hole" | "shaft" | "bore" | "borehole" | "casing" | "pipe" | "ring" | "rings" | "tile" | "box"
        | "csg" | "liner" | "sleeve" | "pozo" | "noria" | "puits" | "forage" | "poco" | "furo" | "tubo" | "tube"
        | "tubage" | "cano" | "ademe" | "revestimento" => P::Container,
        "bottom" | "btm" | "floor" | "base" | "fondo" | "fond" | "fundo" => P::Bottom,
        "water" | "wtr" | "agua" | "eau" => P::Water,
        "standing" | "sitting" | "still" | "static" | "resting" | "undisturbed" | "estatica" | "quieta" | "parada" => {
            P::Still
        }
        "ft" | "feet" | "foot" | "footage" | "inches" | "meters" | "metres" | "metros" | "pies" | "pes" | "amount"
        | "much" | "cuanta" | "cuantos" | "quanta" | "quantos" => P::Length,
        "to" | "hasta" | "al" | "ao" | "au" | "ate" | "jusqu" => P::To,
        "from" | "below" | "under" | "beneath" | "desde" | "depuis" | "sous" | "bajo" | "abaixo" => P::From,
        "in" | "inside" | "within" | "dentro" | "en" | "dans" | "adentro" | "em" => P::In,
        "above" | "over" | "out" | "sobre" | "acima" | "dessus" | "hors" | "fuera" | "fora" | "sai" | "sale"
        | "sobresale" | "sort" | "depasse" => P::Above,
        "tape" | "taped" | "mesure" | "reading" | "read" | "measured" | "sounding" | "sounded" | "drop" | "dropped"
        | "tag" => P::Tape,
        "depth" | "deep" | "dpth" | "profundidad" | "profundidade" | "profondeur" => P::Deep,
        "down" | "dn" | "abajo" => P::Down,
        "the" | "of" | "de" | "del" | "do" | "da" | "du" | "l" | "la" | "el" | "le" | "no" | "na" | "a" | "o"
        | "and" | "is" | "there" | "finished" | "natural" => P::Joint,
        _ => P::Other,
    }
}

/// Words as headings shorten them, and letters of one abbreviation that were written with points: `T.O.C.`, `blw`.
fn written_out(words: &[String]) -> Vec<String> {
    const JOINED: [&str; 6] = ["toc", "btoc", "bgs", "bgl", "bls", "mp"];
    const SHORT: [(&str, &str); 8] = [
        ("abv", "above"),
        ("blw", "below"),
        ("bel", "below"),
        ("frm", "from"),
        ("fr", "from"),
        ("gr", "ground"),
        ("btwn", "between"),
        ("stdg", "standing"),
    ];
    let mut found: Vec<String> = Vec::new();
    let mut at = 0;
    'words: while at < words.len() {
        for joined in JOINED {
            let rest = words.get(at..at + joined.len()).unwrap_or_default();
            if !rest.is_empty() && rest.concat() == joined && rest.iter().all(|word| word.len() == 1) {
                found.push(joined.to_owned());
                at += joined.len();
                continue 'words;
            }
        }
        let long = SHORT.iter().find(|(short, _)| *short == words[at]).map(|(_, long)| *long);
        found.push(long.unwrap_or(&words[at]).to_owned());
        at += 1;
    }
    points(found)
}

/// `measuring point` in one word, and `datum TOC` as what it is counted from.
fn points(words: Vec<String>) -> Vec<String> {
    const POINTS: [&str; 6] = ["measuring", "measurement", "measure", "meas", "reference", "ref"];
    let mut found: Vec<String> = Vec::new();
    for word in words {
        match found.last_mut() {
            Some(last) if matches!(word.as_str(), "point" | "pt") && POINTS.contains(&last.as_str()) => {
                "mp".clone_into(last)
            }
            Some(last) if last == "datum" && matches!(part(&word), P::Top | P::Ground) => {
                "from".clone_into(last);
                found.push(word);
            }
            _ => found.push(word),
        }
    }
    found
}

/// The words of a heading with each such turn in one word.
pub fn phrased(words: &[String]) -> Vec<String> {
    let words = written_out(words);
    let parts: Vec<Part> = (0..words.len())
        .map(|at| {
            // `do tubo à água`, `du haut du tube à l'eau`.
            let mut behind =
                words[at + 1..].iter().map(String::as_str).skip_while(|word| ["l", "la", "el", "o"].contains(word));
            let mut reaches = || behind.next().is_some_and(|next| matches!(part(next), P::Water | P::Bottom));
            if words[at] == "a" && reaches() { P::To } else { part(&words[at]) }
        })
        .collect();
    let told: Vec<(usize, Part)> =
        parts.iter().copied().enumerate().filter(|(_, part)| !matches!(part, P::Joint | P::Down)).collect();
    // `How many feet down is the water?`
    let down = parts.contains(&P::Down);
    let Some((from, to, says)) = (0..told.len()).find_map(|at| turn(&told, at, down)) else { return words };
    let mut found = words[..from].to_vec();
    found.extend(says.iter().map(|word| (*word).to_owned()));
    found.extend_from_slice(&words[to..]);
    found
}

/// A turn that begins at one of the parts that tell: where it begins and ends among the words, and what it says.
fn turn(told: &[(usize, Part)], at: usize, down: bool) -> Option<(usize, usize, &'static [&'static str])> {
    const HEIGHT: &[&str] = &["height", "water"];
    const LEVEL: &[&str] = &["swl"];
    const DEPTH: &[&str] = &["td"];
    const STICK_UP: &[&str] = &["stickup"];
    const RIM: &[&str] = &["rim"];
    let has = |part: Part| told.iter().any(|(_, other)| *other == part);
    let only_in = |parts: &[Part]| told.iter().all(|(_, part)| parts.contains(part) || *part == P::Other);
    let is = |ahead: usize, parts: &[Part]| told.get(at + ahead).is_some_and(|(_, part)| parts.contains(part));
    let span = |ahead: usize, says| Some((told[at].0, told[at + ahead].0 + 1, says));
    let place = &[P::Ground, P::Top, P::Container];
    // `ground to water`, `from casing top down to water`, `surface to bottom`, `ground to well floor`.
    if is(0, place) {
        let mut ahead = 1;
        while ahead <= 3 && is(ahead, place) {
            ahead += 1;
        }
        if is(ahead, &[P::To]) {
            let mut ahead = ahead + 1;
            while is(ahead, &[P::Container, P::Top, P::Still]) {
                ahead += 1;
            }
            if is(ahead, &[P::Water]) {
                return span(ahead, LEVEL);
            }
            if is(ahead, &[P::Bottom]) {
                return span(ahead, DEPTH);
            }
        }
    }
    // `feet of standing water`, `ft of water in hole`; `depth of water` may be either.
    if is(0, &[P::Length]) && !down && !has(P::From) && !has(P::To) {
        let ahead = if is(1, &[P::Still]) { 2 } else { 1 };
        if is(ahead, &[P::Water]) && !is(ahead + 1, &[P::Other]) {
            return span(ahead, HEIGHT);
        }
    }
    // `Wtr from csg top`, `Agua bajo el suelo`: counted down to it.
    if at == 0 && is(0, &[P::Water]) && is(1, &[P::From]) && is(2, &[P::Ground, P::Top, P::Container]) {
        let mut last = 2;
        while is(last + 1, &[P::Ground, P::Top, P::Container]) {
            last += 1;
        }
        let is_place = (2..=last).any(|ahead| is(ahead, &[P::Ground, P::Top]));
        if is_place && !has(P::Bottom) && !has(P::Deep) && !has(P::Above) {
            return span(last, LEVEL);
        }
    }
    // `water in shaft`, `standing water above bottom`, `water standing over the bottom`; `water level in well`, `depth to water in well` are no such thing.
    let still = usize::from(is(1, &[P::Still]));
    if is(0, &[P::Water])
        && is(1 + still, &[P::In, P::Above])
        && is(2 + still, &[P::Container, P::Bottom])
        && only_in(&[P::Water, P::In, P::Above, P::Container, P::Bottom, P::Still, P::Length])
        && at <= 1
    {
        return span(2 + still, HEIGHT);
    }
    // `water surface to bottom`, `water to bottom`.
    let surface = usize::from(is(1, &[P::Ground]));
    if is(0, &[P::Water]) && is(1 + surface, &[P::To]) && is(2 + surface, &[P::Bottom]) {
        return span(2 + surface, HEIGHT);
    }
    // `water from bottom to surface`.
    if is(0, &[P::Water]) && is(1, &[P::From]) && is(2, &[P::Bottom]) {
        let up = is(3, &[P::To]) && is(4, &[P::Ground, P::Top, P::Water]);
        return span(if up { 4 } else { 2 }, HEIGHT);
    }
    // `lip above ground`, `pipe sticks out of ground`, `casing head above finished grade`.
    if is(0, &[P::Top, P::Container]) && !has(P::Water) && !has(P::To) {
        let mut ahead = 1;
        while ahead <= 2 && is(ahead, &[P::Top, P::Container, P::Other, P::Length]) {
            ahead += 1;
        }
        if is(ahead, &[P::Above]) {
            // `above floor/ground`, `above land surface`.
            let mut last = ahead + usize::from(is(ahead + 1, &[P::Bottom]));
            while is(last + 1, &[P::Ground]) {
                last += 1;
            }
            if is(last, &[P::Ground]) {
                return span(last, STICK_UP);
            }
        }
    }
    // `Below T.O.C. (ft)`, `above ground`: from where, and nothing else.
    let alone =
        told.iter().all(|(_, part)| matches!(part, P::From | P::Top | P::Above | P::Ground | P::Length | P::Container));
    if at == 0 && alone && has(P::From) && has(P::Top) && !has(P::Above) {
        return span(told.len() - 1, LEVEL);
    }
    if at == 0 && alone && has(P::Above) && has(P::Ground) && !has(P::From) {
        return span(told.len() - 1, STICK_UP);
    }
    // `tape reading at lip`, `measured ft. from pipe top`: what is taped from the top is the water.
    if is(0, &[P::Tape])
        && !has(P::Bottom)
        && !has(P::Deep)
        && told.iter().any(|(_, part)| *part == P::Top)
        && !has(P::Above)
    {
        let mut last = told.iter().rposition(|(_, part)| *part == P::Top)?;
        while told.get(last + 1).is_some_and(|(_, part)| *part == P::Container) {
            last += 1;
        }
        return (last > at).then(|| (told[at].0, told[last].0 + 1, LEVEL));
    }
    // `Lvl ft fr top csg`: the top of the casing is one place.
    let ends = [[P::Top, P::Container], [P::Container, P::Top]];
    if is(0, &[P::From]) && ends.iter().any(|[one, other]| is(1, &[*one]) && is(2, &[*other])) {
        return Some((told[at + 1].0, told[at + 2].0 + 1, RIM));
    }
    None
}

#[cfg(test)]
mod tests {
    use super::super::tokens;
    use super::phrased;

    #[test]
    fn turns_are_put_into_one_word() {
        for (heading, says) in [
            ("Ft. from rim down to water", "ft from swl"),
            ("Grade to bottom", "td"),
            ("Meters of water in bore", "height water in bore"),
            ("Feet of standing water", "height water"),
            ("How many feet down is the water", "how many feet down is the water"),
            ("Water in the pipe, ft", "height water ft"),
            ("Water level in well", "water level in well"),
            ("Depth to water in well", "depth to water in well"),
            ("Depth of water", "depth of water"),
            ("How many feet down is the water?", "how many feet down is the water"),
            ("Rim above grade", "stickup"),
            ("Pipe sticks out of ground", "stickup"),
            ("Taped from rim", "swl"),
            ("Depth blw T.O.C.", "depth below toc"),
            ("Depth sounded, TOC", "depth sounded toc"),
            ("Below rim, ft", "swl"),
            ("Tape from meas. point", "swl"),
            ("Wtr from csg top", "swl"),
            ("Water below ground, ft", "swl ft"),
            ("Csg. above floor/ground", "stickup"),
            ("Height of Casing Above Land Surface, in Feet", "height of stickup in feet"),
            ("MP above LSD, ft", "stickup ft"),
            ("Lvl ft fr top csg", "lvl ft from rim"),
            ("Water standing over the bottom of the hole", "height water of the hole"),
            ("Quanto o tubo sai do chão", "quanto o stickup"),
        ] {
            assert_eq!(phrased(&tokens(heading)).join(" "), says, "{heading}");
        }
    }
}
