//! Things at a well that are a danger in some states only: a panel under water, a lid that is off, a road that is closed; and pits.
//!
//! What is said in other words denies itself: a panel that stayed dry, a road that is open. Common practice, no source.

use super::Hazard;
use super::words::{States, VOCABULARY, Vocabulary, words};

/// Every vocabulary, with those of things in states.
pub(super) fn vocabularies() -> impl Iterator<Item = &'static Vocabulary> {
    VOCABULARY.iter().chain(IN_STATES)
}

/// Words between a thing and its state: the panel *is now* under water, the cap *came* off.
#[rustfmt::skip]
pub const LINKS: &[&str] = &[
    "is", "was", "are", "were", "s", "has", "had", "have", "been", "be", "being", "still", "now", "got", "gets",
    "getting", "came", "blew", "blown", "knocked", "all", "half", "partly", "fully", "totally", "completely", "badly",
    "very", "also", "just", "found", "left", "looks", "seems", "may", "might", "the", "a", "an", "its", "new", "está",
    "estaba", "estuvo", "es", "fue", "el", "la", "est", "était", "le", "foi", "está", "estava", "é", "ist", "war",
];

const fn in_states(
    hazard: Hazard,
    things: &'static [&'static str],
    behind: &'static [&'static str],
    before: &'static [&'static str],
    harmless_before: &'static [&'static str],
) -> Vocabulary {
    Vocabulary { states: Some(States { behind, before, are_rarer: false }), ..words(hazard, things, harmless_before) }
}

/// Electrical things that stand above ground: pumps and their cables are made for water.
#[rustfmt::skip]
const ELECTRICAL: &[&str] = &[
    "panel", "elec panel", "electric panel", "electrical panel", "breaker box*", "breaker panel", "breakers",
    "fuse box*", "fuse panel", "control box*", "switch box*", "junction box*", "elec box*", "electric box*",
    "electrical box*", "meter base", "meter box*", "electric meter", "elec meter", "pressure switch", "pump control*",
    "pump switch", "wiring", "disconnect box*", "elec service", "tablero", "tablero eléctrico", "caja eléctrica",
    "caja de control", "caja de fusibles", "instalación eléctrica", "tableau électrique", "coffret électrique",
    "armoire électrique", "disjoncteur*", "installation électrique", "quadro elétrico", "quadro de luz",
    "quadro de força", "disjuntor*", "instalação elétrica", "schaltkasten", "schaltschrank", "sicherungskasten",
];

#[rustfmt::skip]
const IN_WATER: &[&str] = &[
    "flooded", "under water", "underwater", "went under", "submerged", "wet", "soaked", "drowned", "inundated",
    "in water", "in the water", "in flood water", "in the flood water", "full of water", "filled with water",
    "water in", "water inside", "took water", "took on water", "burned", "burnt", "burned out", "burnt out", "melted",
    "smoking", "sparks", "sparking", "arcing", "damaged", "broken", "hanging", "torn off", "inundad*", "mojad*",
    "bajo agua", "bajo el agua", "en el agua", "con agua", "sumergid*", "quemad*", "dañad*", "inondé*", "noyé*",
    "mouillé*", "trempé*", "sous l eau", "dans l eau", "submergé*", "brûlé*", "endommagé*", "alagad*", "molhad*",
    "debaixo de água", "debaixo d água", "dentro d água", "na água", "submers*", "queimad*", "danificad*", "überflutet",
    "nass", "unter wasser", "im wasser", "verbrannt", "beschädigt",
];

#[rustfmt::skip]
const COVERS: &[&str] = &[
    "cap", "caps", "well cap", "lid", "well lid", "cover", "well cover", "concrete cover", "concrete lid",
    "manhole cover", "hatch", "seal", "well seal", "sanitary seal", "tapa", "tapadera", "sello sanitario", "couvercle",
    "capot", "bouchon", "joint sanitaire", "tampa", "selo sanitário", "deckel",
];

#[rustfmt::skip]
const OPEN: &[&str] = &[
    "off", "missing", "gone", "broken", "broke", "cracked", "loose", "damaged", "bent", "split", "rusted through",
    "rusted out", "rotted", "rotten", "lost", "open", "not on", "not tight", "not sealed", "does not fit", "torn off",
    "washed off", "washed away", "floated off", "floated away", "needs replac*", "needs to be replaced", "needs repair",
    "needs fixing", "needed", "bad", "rota", "roto", "quebrad*", "agrietad*", "suelt*", "floj*", "falta", "perdid*",
    "dañad*", "abiert*", "manquant*", "cassé*", "fissuré*", "absent*", "ouvert*", "enlevé*", "perdu*", "abîmé*",
    "rachad*", "solt*", "faltando", "abert*", "danificad*", "trincad*", "fehlt", "defekt", "kaputt", "lose",
];

#[rustfmt::skip]
const ROADS: &[&str] = &[
    "road", "roads", "rd", "driveway", "drive", "bridge", "culvert", "lane", "street", "highway", "hwy", "access",
    "access road", "route", "low water crossing", "camino", "carretera", "calle", "puente", "chemin", "pont", "estrada",
    "ponte", "straße", "strasse", "brücke",
];

#[rustfmt::skip]
const CLOSED: &[&str] = &[
    "closed", "washed out", "washed away", "flooded", "under water", "underwater", "blocked", "impassable",
    "not passable", "not open", "cut off", "gone", "collapsed", "shut", "barricaded", "cerrad*", "cortad*", "inundad*",
    "caíd*", "bloquead*", "fermé*", "coupé*", "barré*", "inondé*", "emporté*", "fechad*", "interditad*", "alagad*",
    "caiu", "gesperrt", "überflutet",
];

/// The words of every hazard that hangs on a state, and those of what a well stands in.
#[rustfmt::skip]
pub static IN_STATES: &[Vocabulary] = &[
    in_states(Hazard::Electric, ELECTRICAL, IN_WATER, &[
        "flooded", "wet", "submerged", "soaked", "burned", "burnt", "damaged", "broken", "exposed", "sparking", "water in", "water inside",
        "water got in", "water got into", "water reached", "water over", "agua en", "eau dans", "água em",
    ], &[]),
    in_states(Hazard::Uncovered, COVERS, OPEN, &[
        "missing", "broken", "cracked", "loose", "damaged", "bent", "rusted", "rotted", "rotten", "lost", "bad", "needs", "need", "replace",
        "falta", "necesita", "manque", "precisa de",
    ], &["letter", "crop"]),
    words(Hazard::CannotPump, &[
        "no power", "without power", "no electric", "no electricity", "without electricity", "power outage*", "power failure*", "lost power",
        "waiting on power", "waiting for power", "until power", "till power", "once power", "when power is back", "when power is restored",
        "when power returns", "when power comes", "needs generator", "needs a generator", "need generator", "need a generator",
        "generator needed", "bring generator", "bring a generator",
        "sin luz", "sin electricidad", "sin corriente", "no hay luz", "no hay electricidad", "no hay corriente", "sans électricité",
        "sans courant", "pas d électricité", "pas de courant", "coupure de courant", "panne de courant", "sem energia", "sem luz",
        "sem eletricidade", "falta de luz", "falta de energia", "kein strom", "ohne strom", "stromausfall",
    ], &[
        "outage", "outages", "problem", "problems", "issue", "issues", "line", "lines", "pole", "poles", "tool", "tools", "wire", "wires",
        "cord", "pump", "pumps", "fence", "danger", "hazard", "hazards", "shock", "needed", "required", "plant", "company",
    ]),
    in_states(Hazard::CannotPump, &["power", "electricity", "electric", "elec", "luz", "electricidad", "courant", "energia", "strom"], &[
        "out", "off", "down", "cut", "lost", "shut off", "turned off", "disconnected", "failed", "not on", "not back", "not restored", "not been restored", "not come back",
        "not yet", "not hooked up", "cortad*", "coupé*", "weg",
    ], &[], &[]),
    in_states(Hazard::CannotPump, &[
        "pump", "pumps", "well pump", "jet pump", "sub pump", "submersible pump", "pump motor", "bomba", "pompe", "pumpe",
    ], &[
        "not working", "does not work", "does not run", "did not run", "will not run", "will not start", "will not work", "wo not run",
        "wo not start", "wo not work", "wont run", "wont start", "wont work", "dead", "burned out", "burnt out", "burned up", "broken",
        "broke", "failed", "quit", "seized", "ruined", "shot", "out of order", "no funciona", "no sirve", "descompuest*", "quemad*",
        "dañad*", "en panne", "ne marche pas", "cassée", "não funciona", "quebrad*", "queimad*", "estragad*", "kaputt", "defekt",
    ], &["dead", "broken", "burned out", "burnt out", "bad", "failed"], &["house"]),
    Vocabulary {
        // Every address names a road; few say that one is closed.
        states: Some(States { behind: CLOSED, before: &["closed", "flooded", "blocked", "impassable", "washed out"], are_rarer: true }),
        ..words(Hazard::RoadClosed, ROADS, &["ditch", "ditches", "side", "drain", "drains", "basement"])
    },
    words(Hazard::RoadClosed, &["bridge out", "bridge is out", "bridge down", "bridge is down", "culvert out", "culvert is out",
        "impassable", "road reopens", "roads reopen", "road opens", "road to reopen", "road to open", "road not clear", "no road access",
        "no vehicle access", "boat only", "by boat", "need boat", "needs boat", "need a boat", "cut off by water", "cut off by flood*",
        "no hay paso", "sin paso", "intransitable*", "intransitáve*", "infranchissable*", "impraticable*", "unpassierbar",
    ], &[]),
    words(Hazard::RoadClosed, &[
        "cannot drive in", "can not drive in", "cant drive in", "cannot drive up", "can not drive up", "cannot drive there",
        "cannot get in", "can not get in", "cant get in", "cannot get there", "can not get there", "cannot get through",
        "can not get through", "cannot get to", "can not get to", "no way in",
    ], &["touch", "phone", "contact", "hold", "records"]),
    words(Hazard::Pit, &[
        "well pit", "pump pit", "valve pit", "in pit", "in a pit", "in the pit", "in an old pit", "in old pit", "in well pit", "in a well pit",
        "in the well pit", "in a vault", "in the vault", "in vault", "well vault",
        "en una fosa", "en fosa", "en un foso", "en el foso", "fosa del pozo", "foso del pozo", "dans une fosse", "dans un regard",
        "puits en fosse", "em um fosso", "num fosso", "no fosso", "brunnenschacht", "im schacht", "in einem schacht",
    ], NOT_OF_A_WELL),
    Vocabulary {
        harmless_after: &[
            "gravel", "borrow", "burn", "fire", "sand", "clay", "marl", "stone", "coal", "quarry", "manure", "sewage", "cess", "silage", "slurry",
            "compost", "leach", "leaching", "seepage", "soak", "soakage", "soakaway", "septic", "latrine", "garbage", "rubbish", "refuse",
            "trash", "waste", "dump", "test", "perc", "mud", "reserve", "horseshoe", "barbecue", "bbq", "barrow", "strip", "arm",
        ],
        ..words(Hazard::Pit, &["pit"], NOT_OF_A_WELL)
    },
];

/// Words behind a pit that is none around a well.
#[rustfmt::skip]
const NOT_OF_A_WELL: &[&str] = &[
    "bull", "bulls", "latrine", "latrines", "toilet", "toilets", "privy", "privies", "viper", "vipers", "less", "run",
    "stop", "tag", "filled", "removed", "eliminated", "abandoned", "séptica", "septica", "septique", "septiques", "bbq",
    "mine",
];
