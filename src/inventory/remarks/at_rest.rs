//! Whether a remark says that the level was not taken at rest: while the pump ran, or with the flood in the well.

use super::lengths::Reader;
use super::words::{MEASURING, is_unknown};
use crate::inventory::phrases::Token;

/// Whether the level was taken while the pump ran, or before the water stood still.
pub fn not_at_rest(tokens: &[Token]) -> bool {
    /// Words of the time that the water had to come back.
    const RESTED: [&str; 9] = ["hr", "hrs", "hour", "hours", "day", "days", "overnight", "week", "weeks"];
    /// What else a pump is on for: `pump was on generator`, `pump was running fine`, `pump still running after the flood`.
    const TOLD_OF_IT: [&str; 14] = [
        "fine",
        "ok",
        "okay",
        "well",
        "good",
        "after",
        "before",
        "generator",
        "order",
        "timer",
        "site",
        "hand",
        "loan",
        "during",
    ];
    let reader = Reader::of(tokens);
    let word = |at: usize| reader.word(at);
    let denied =
        |at: usize| (at.saturating_sub(3)..at).any(|at| ["not", "no", "off", "sin", "sans", "sem"].contains(&word(at)));
    (0..tokens.len()).any(|at| {
        let told = match word(at) {
            // `pump was on, milking`, `pump still running`: when the level was taken, where nothing else is told of it.
            "pump" | "pumps"
                if ["was", "still", "kept"].contains(&word(at + 1))
                    && ["on", "running", "going"].contains(&word(at + 2))
                    && !(at + 3..at + 6).any(|at| TOLD_OF_IT.contains(&word(at))) =>
            {
                true
            }
            "pump" => {
                let mut behind = (at + 1..at + 4).map(word);
                behind.any(|word| ["running", "going", "on", "ran"].contains(&word))
                    && (0..tokens.len()).any(|at| MEASURING.contains(&word(at)))
            }
            // `112 was with pump on`: what was read so is the number before it.
            "with" if ["pump", "pumps"].contains(&word(at + usize::from(word(at + 1) == "the") + 1)) => {
                let pump = at + usize::from(word(at + 1) == "the") + 1;
                let told =
                    ["on", "running", "going"].contains(&word(pump + 1)) && !TOLD_OF_IT.contains(&word(pump + 2));
                let number = |at: usize| word(at).starts_with(|c: char| c.is_ascii_digit());
                told && (0..at).any(|at| MEASURING.contains(&word(at)) || number(at))
            }
            _ if moves(&reader, at, tokens.len()) => return true,
            // `normal level not known`: what stands in the cell is another one.
            "level" | "swl" | "static" | "nivel" | "niveau"
                if is_unknown(word(at + 1)) || word(at + 1) == "not" && word(at + 2) == "known" =>
            {
                return true;
            }
            // `SWL IS PUMPING LEVEL`
            "pumping" if word(at + 1) == "level" && is_named_so(&word, at) => true,
            "pumping" | "pumped" if ["level", "rate", "test", "water"].contains(&word(at + 1)) => false,
            // `static taken after yield test`
            "test" if ["yield", "pump", "pumping", "flow", "bailer", "bail"].contains(&word(at.wrapping_sub(1))) => {
                let after = (at.saturating_sub(4)..at).any(|at| ["after", "following", "during"].contains(&word(at)));
                // `taken 24 hrs after the pump test`
                let rested = tokens.iter().any(|token| RESTED.contains(&token.word.as_str()));
                after && !rested && (0..at).any(|at| MEASURING.contains(&word(at)))
            }
            // `level had not recovered`: what is denied is the rest.
            "recovered" if ["not", "never"].contains(&word(at.wrapping_sub(1))) => {
                return tokens.iter().any(|token| MEASURING.contains(&token.word.as_str()) || token.word == "water");
            }
            // `where the water was when they were test pumping it`
            "pumping" if (at.saturating_sub(4)..at).any(|at| ["while", "when"].contains(&word(at))) => {
                (0..at).any(|at| MEASURING.contains(&word(at)) || word(at) == "water")
            }
            // `not a rest level`, `niveau au repos inconnu`
            "rest" | "resting" if word(at + 1) == "level" => {
                return (at.saturating_sub(3)..at).any(|at| ["not", "no", "never"].contains(&word(at)))
                    || is_unknown(word(at + 2))
                    || is_unknown(word(at + 3));
            }
            "repos" | "reposo" | "repouso" if is_unknown(word(at + 1)) => true,
            // `measured with the flood in it`
            "flood" | "floodwater" | "floodwaters" | "crue" | "crecida" | "creciente" | "cheia" => {
                in_the_flood(&word, at)
            }
            // `SWL taken while pumping`
            "pumping" if ["while", "when", "during"].contains(&word(at.wrapping_sub(1))) => {
                (0..at).any(|at| MEASURING.contains(&word(at)))
            }
            "pumping" | "pumped" => (at + 1..at + 4).any(|at| MEASURING.contains(&word(at))),
            "pompage" => {
                ["en", "pendant"].contains(&word(at.wrapping_sub(1)))
                    || word(at.wrapping_sub(1)) == "de" && word(at.wrapping_sub(2)) == "cours"
            }
            // `niveau dynamique`, `nivel dinámico`
            "dynamique" | "dinamico" => ["niveau", "nivel"].contains(&word(at.wrapping_sub(1))),
            "motobomba" => ["con", "com"].contains(&word(at.wrapping_sub(1))),
            "bomba" if word(at + 1) == "en" || word(at + 1) == "em" => {
                ["marcha", "funcionamiento", "funcionamento"].contains(&word(at + 2))
            }
            // `com a bomba a trabalhar`
            "bomba" if word(at + 1) == "a" => ["trabalhar", "funcionar", "tirar", "puxar"].contains(&word(at + 2)),
            "bomba" => {
                ["andando", "prendida", "encendida", "ligada", "funcionando", "trabajando", "trabalhando", "puesta"]
                    .contains(&word(at + 1))
            }
            "bombeando" => true,
            // `NS pris pompe solaire en marche`
            "pompe" => (at + 1..at + 4).any(|at| word(at) == "en" && ["marche", "route"].contains(&word(at + 1))),
            // `pump just off, still rising`: the pump is not what is denied.
            "still" => {
                let moving = ["dropping", "falling", "recovering", "rising", "coming"].contains(&word(at + 1));
                return moving && !["not", "no"].contains(&word(at.wrapping_sub(1)));
            }
            _ => false,
        };
        told && !denied(at)
    })
}

/// Whether the words at a place say that the water moved: `was drawing when read`, `never got a rest`, `pump could not be shut
/// off`, `in use when taped`, `no estaba en reposo`.
fn moves(reader: &Reader<'_>, at: usize, last: usize) -> bool {
    const NOT: [&str; 22] = [
        "not",
        "never",
        "no",
        "hadn't",
        "wasn't",
        "couldn't",
        "cannot",
        "can't",
        "wouldn't",
        "won't",
        "without",
        "didn't",
        "hadnt",
        "wasnt",
        "couldnt",
        "cant",
        "pas",
        "hors",
        "sin",
        "nao",
        "sem",
        "impossible",
    ];
    const WHEN: [&str; 14] = [
        "when", "while", "as", "before", "during", "cuando", "mientras", "al", "quando", "enquanto", "pendant", "lors",
        "au", "just",
    ];
    const READ: [&str; 21] = [
        "read", "taped", "measured", "meas", "taken", "sounded", "dipped", "checked", "tape", "reading", "medido",
        "medimos", "medir", "midio", "mediu", "mesure", "mesuree", "sonde", "sondee", "releve", "relevee",
    ];
    let word = |at: usize| reader.word(at);
    let denied = |within: usize| reader.has(&NOT, at.saturating_sub(within), at);
    let timed = || {
        (at + 1..at + 4).any(|when| WHEN.contains(&word(when)) && reader.has(&READ, when + 1, (when + 5).min(last)))
            || reader.has(&["while", "when", "during"], at.saturating_sub(4), at) && reader.has(&READ, 0, at)
    };
    match word(at) {
        // `level is pumping`, `swl pumping, not static`
        "pumping" if is_of_level(reader, at) => {
            !reader.has(&NOT, at.saturating_sub(1), at) && !["level", "rate", "test", "water"].contains(&word(at + 1))
        }
        // `was drawing when read`, `pumping when taped`, `irrigating while measured`, `being pumped when read`
        "pumped" if reader.has(&["just", "recently"], at.saturating_sub(3), at) && !denied(3) => {
            reader.has(&["level", "swl", "static", "dtw", "before"], 0, last)
        }
        "drawing" | "pumping" | "pumped" | "running" | "irrigating" | "watering" | "milking" | "filling" | "moving" => {
            timed() && !denied(3)
        }
        "use" => ["in"].contains(&word(at.wrapping_sub(1))) && timed() && !denied(3),
        // `just used`, `had just been pumped`, `used right before`
        "used" | "drawn" => {
            (reader.has(&["just", "recently"], at.saturating_sub(3), at) || ["just", "right"].contains(&word(at + 1)))
                && reader.has(&["before", "was", "been", "had", "level", "water", "well"], 0, last)
                && !denied(3)
        }
        "water" | "level" => {
            let moving =
                word(at + 2) == "moving" || word(at) == "level" && ["dropping", "falling"].contains(&word(at + 2));
            ["was", "still", "kept"].contains(&word(at + 1)) && moving && !word(at.wrapping_sub(1)).starts_with("flood")
        }
        // `never got a rest`, `not at rest`, `pas au repos`
        "rest" | "rested" | "settled" | "recovered" => {
            let rest = word(at) != "rest" || ["at", "a", "any", "had", "no", "to"].contains(&word(at.wrapping_sub(1)));
            let other = ["of", "is", "unknown"].contains(&word(at + 1)) || word(at + 1) == "level";
            let named = !["settled", "recovered"].contains(&word(at));
            let of_well = named || last <= 4 || reader.has(&["water", "level", "well", "static", "swl"], 0, last);
            rest && !other && of_well && denied(3)
        }
        "repos" | "reposo" | "repouso" => denied(4),
        // `pump could not be shut off`, `no se pudo apagar la bomba`
        "shut" | "shutting" | "turn" | "turned" | "switch" | "switched" | "stop" | "stopped" | "apagar" | "parar"
        | "desligar" | "arreter" => {
            let pumps = ["pump", "pumps", "bomba", "motobomba", "pompe", "motor"];
            let part = word(at.wrapping_sub(1)) == "no" || ["valve", "valves", "cock"].contains(&word(at + 1));
            denied(4) && !part && reader.has(&pumps, at.saturating_sub(6), (at + 6).min(last))
        }
        _ => false,
    }
}

/// Whether a well that is told to be full is so because of the flood, or for the moment: `lleno por la riada`, `to the top right
/// now`, `flood water standing over casing`.
pub fn full_for_now(tokens: &[Token]) -> bool {
    const FLOOD: [&str; 18] = [
        "flood",
        "floods",
        "flooded",
        "flooding",
        "floodwater",
        "floodwaters",
        "riada",
        "crecida",
        "creciente",
        "inundacion",
        "avenida",
        "crue",
        "inondation",
        "cheia",
        "enchente",
        "inundacao",
        "submerged",
        "underwater",
    ];
    const DENIED: [&str; 12] =
        ["not", "no", "never", "before", "without", "antes", "sin", "avant", "sans", "sem", "even", "always"];
    let reader = Reader::of(tokens);
    let word = |at: usize| reader.word(at);
    let denied = |at: usize| reader.has(&DENIED, at.saturating_sub(4), at);
    (0..tokens.len()).any(|at| {
        let told = FLOOD.contains(&word(at))
            || word(at) == "right" && word(at + 1) == "now"
            || word(at) == "at" && ["present", "moment"].contains(&word(at + 1))
            || word(at) == "the" && word(at + 1) == "moment"
            || word(at) == "under" && word(at + 1) == "water"
            || word(at) == "en" && word(at + 1) == "ce" && word(at + 2) == "moment";
        told && !denied(at)
    })
}

/// Whether a remark says that the level was not measured: `DTW not measured`, `nivel sin medir`.
pub fn level_not_measured(tokens: &[Token]) -> bool {
    const NOT: [&str; 14] = [
        "not", "never", "no", "couldn't", "could", "cannot", "can't", "wasn't", "pas", "non", "sin", "nao", "sem",
        "didn't",
    ];
    const TAKEN: [&str; 22] = [
        "measured", "meas", "taken", "taped", "read", "sounded", "dipped", "measure", "tape", "mesure", "mesuree",
        "mesurer", "medido", "medida", "medir", "midio", "mediu", "medi", "obtained", "checked", "recorded", "known",
    ];
    const OTHER: [&str; 10] = [
        "depth",
        "diameter",
        "yield",
        "width",
        "profundidad",
        "profondeur",
        "diametro",
        "largura",
        "pressure",
        "chlorine",
    ];
    const LEVEL: [&str; 11] = ["dtw", "swl", "level", "static", "water", "nivel", "niveau", "agua", "eau", "wl", "dip"];
    let reader = Reader::of(tokens);
    let last = tokens.len();
    let not_taken = (0..last).any(|at| {
        TAKEN.contains(&reader.word(at)) && reader.has(&NOT, at.saturating_sub(3), at)
            || LEVEL.contains(&reader.word(at)) && is_unknown(reader.word(at + 1))
    });
    let no_data = ["no", "sin", "sem"].iter().any(|no| {
        (0..last).any(|at| {
            reader.word(at) == *no && ["data", "datos", "dados", "reading", "lectura"].contains(&reader.word(at + 1))
        })
    });
    let of_level = reader.has(&LEVEL, 0, last) || !reader.has(&OTHER, 0, last);
    (not_taken || no_data) && of_level
}

/// Whether a level was taken with the flood in the well: `meas. with the flood in it`.
fn in_the_flood<'a>(word: &impl Fn(usize) -> &'a str, at: usize) -> bool {
    const WITH: [&str; 9] = ["with", "during", "in", "under", "con", "avec", "pendant", "durante", "com"];
    const OTHER: [&str; 10] =
        ["visit", "response", "survey", "work", "check", "relief", "list", "zone", "plain", "tickets"];
    let with = (at.saturating_sub(2)..at).find(|at| WITH.contains(&word(*at)));
    let taken = with.is_some_and(|with| (with.saturating_sub(6)..with).any(|at| MEASURING.contains(&word(at))));
    taken && !OTHER.contains(&word(at + 1))
}

/// Whether the word of pumping at a place is said of the level right before it.
fn is_of_level(reader: &Reader<'_>, at: usize) -> bool {
    const LEVEL: [&str; 6] = ["level", "swl", "static", "dtw", "wl", "reading"];
    let is = usize::from(["is", "was", "="].contains(&reader.word(at.wrapping_sub(1))));
    at.checked_sub(1 + is).is_some_and(|level| LEVEL.contains(&reader.word(level)))
}

/// Whether the pumping level that is named here is what stands for the level at rest: `SWL is pumping level`.
fn is_named_so<'a>(word: &impl Fn(usize) -> &'a str, at: usize) -> bool {
    const LEVEL: [&str; 7] = ["swl", "static", "level", "wl", "dtw", "reading", "figure"];
    const IS: [&str; 4] = ["is", "was", "=", "gives"];
    let is = (at.saturating_sub(2)..at).find(|at| IS.contains(&word(*at)));
    // `165 is pumping level`: the number of the cell.
    let number = |at: usize| word(at).starts_with(|c: char| c.is_ascii_digit());
    is.is_some_and(|is| (is.saturating_sub(3)..is).any(|at| LEVEL.contains(&word(at))) || is > 0 && number(is - 1))
}
