//! Every element that a crew's sheet is asked for stands on the card of each kind of well that it belongs to, in the place where a
//! crew looks for it; and the amounts of those cards are the tables'.
//!
//! Who asks: the review of 34 state emergency protocols (Sci. Total Environ. 720:137451, 2020), which names what such sheets leave
//! out, and the guides that stand beside each element.

use std::collections::BTreeSet;

use tempfile::TempDir;

use crate::crew::{Card, Cards, HEADS, LIQUID, campaign, figures_are_the_tables, one, planned, text};
use crate::running::rows;

/// One well of each kind, invented; coordinates on the open sea. The last of each is its route.
const WELLS: &str = "drilled,1,North,drilled,180,40,6,,8,10,stream,,45.5,-30.5,4,in use,,A. Nobody\n\
                     driven,1,North,driven,25,10,2,,,5,land,,45.5,-30.4,3,,,\n\
                     bored,1,North,bored,50,20,24,,6,10,land,,45.4,-30.4,5,,,\n\
                     dug,1,North,dug,28,12,36,,2,10,land,,45.3,-30.4,9,,,\n\
                     spring,1,North,spring box,,,,500,5,,stream,,45.2,-30.4,20,,,\n\
                     flowing,1,North,drilled,180,-2,6,,8,10,land,,45.1,-30.4,20,,,\n\
                     seawater,1,North,drilled,120,20,6,,8,10,land,yes,45.1,-30.3,7,,,\n\
                     dug in seawater,1,North,dug,28,12,36,,2,10,land,yes,45.3,-30.3,9,,,\n\
                     septic,1,North,drilled,180,40,6,,8,10,septic,,45.0,-30.4,6,,,\n";

/// The kinds of cards: the wells of the list, and the spring that is fed where its flow cannot be shut off.
const KINDS: [&str; 10] =
    ["drilled", "driven", "bored", "dug", "spring", "flowing", "seawater", "dug in seawater", "septic", "fed spring"];
/// Wells with a casing, treated from its top.
const CASED: &[&str] = &["drilled", "driven", "bored", "flowing", "seawater", "septic"];
/// Wells that are treated from the rim.
const OPEN: &[&str] = &["dug", "spring", "dug in seawater", "fed spring"];
const WELLS_WITH_POWER: &[&str] =
    &["drilled", "driven", "bored", "dug", "flowing", "seawater", "dug in seawater", "septic"];
/// Wells that are flushed by pumping on.
const PUMPED: &[&str] = &["drilled", "driven", "bored", "flowing", "septic"];

/// Where on a card something stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    /// Name, amount and what it gives.
    Head,
    /// What is known of well and product.
    Facts,
    /// What to bring.
    Bring,
    /// The steps.
    Step,
    /// The boxes to write in.
    Blank,
    /// What to mind.
    Caution,
    /// The line at the foot.
    Foot,
}

use Place::{Blank, Bring, Caution, Facts, Foot, Head, Step};

/// An element: what it is, who asks for it, and which words say it where on which kinds of cards.
type Element = (&'static str, &'static [(&'static [&'static str], Place, &'static str)]);

const ELEMENTS: &[Element] = &[
    // The review's own: 2 of 34 protocols had a measured residual, 3 of 34 pH.
    (
        "review: residual measured once the chlorine is in; Wisconsin NR 812",
        &[
            (&KINDS, Step, "at least 100 mg/L"),
            (CASED, Blank, "At the taps, mg/L|In the well, mg/L"),
            (&["dug", "dug in seawater"], Blank, "In the well, mg/L"),
            (&["spring", "fed spring"], Blank, "In the spring box, mg/L"),
        ],
    ),
    (
        "review: residual measured after contact; Montana ARM 36.21.662",
        &[(&KINDS, Step, "at the end: at least 25 mg/L"), (&KINDS, Blank, "At the end, mg/L")],
    ),
    ("review: pH", &[(&KINDS, Step, "pH of the well water"), (&KINDS, Blank, "pH before / after")]),
    (
        "review: circulation",
        &[
            (CASED, Step, "Circulate: power on, hose from the nearest tap into the well"),
            (OPEN, Step, "Stir with the pole, or lift and drop a clean bucket"),
        ],
    ),
    (
        "review: contact time",
        &[
            (WELLS_WITH_POWER, Step, "Leave it 24 h. Do not flush before"),
            (&["spring"], Step, "Leave it 24 h. Do not flush before"),
            (&["fed spring"], Step, "each hour for 24 h"),
            (&KINDS, Blank, "Poured (date, time)"),
            (&KINDS, Blank, "Contact ended"),
        ],
    ),
    (
        "review: follow-up; Iowa DNR, Nebraska Extension",
        &[
            (&KINDS, Step, "Sample for coliforms, free of chlorine, not before 7 days after the flush, again 30 days"),
            (&KINDS, Step, "Bacteria found: do not use. Find the way in, repair, treat, sample again"),
            (&KINDS, Blank, "Sample 1"),
            (&KINDS, Blank, "Sample 2"),
        ],
    ),
    // The table of what could hurt people.
    (
        "product by name, its strength as counted, its age; the amount in words, and what it gives",
        &[
            (&KINDS, Head, "of liquid"),
            (&KINDS, Head, "gives 1"),
            (&KINDS, Head, "with more water or weaker product"),
            (&KINDS, Facts, "Only this product: liquid, label 12.5 % trade, 30 days old, counted as"),
            (&KINDS, Bring, "of liquid"),
            (&KINDS, Step, "of liquid into"),
        ],
    ),
    (
        "agent by name, dissolved, fed",
        &[
            (&["drilled", "septic"], Step, "of ascorbic acid (vitamin C) in"),
            (&["drilled", "septic"], Step, "of water: two thirds while the first"),
            (&["spring"], Step, "of ascorbic acid (vitamin C) in"),
            (&["fed spring"], Step, "Neutralize from the start"),
            (&["drilled", "septic", "spring", "fed spring"], Bring, "of ascorbic acid"),
        ],
    ),
    (
        "house plumbing thins the chlorine; Maryland COMAR 26.04.04.24, Alberta Agdex 716 A10",
        &[
            (&["driven"], Caution, "House plumbing is not included"),
            (&["driven"], Step, "pipes and tank thin it to about"),
        ],
    ),
    (
        "springs: closed, tested, topped up; Oregon Health Authority, start-up disinfection. Fed: MIL-HDBK-1164",
        &[
            (&["spring"], Step, "Close the overflow; lead the inflow around the box"),
            (&["spring"], Step, "Test every few hours: below 25 mg/L add"),
            (&["fed spring"], Step, "Lead the overflow away from streams and ponds"),
            (&["fed spring"], Step, "Test the overflow each hour: at least 100 mg/L"),
            (&["fed spring"], Blank, "Fed (hours, amount)"),
        ],
    ),
    (
        "dug wells: cleaned, brushed, stirred, emptied, refilled, below 0.5 mg/L; WHO/WEDC Technical Note 1",
        &[
            (&["dug"], Step, "mud, leaves, dead animals out with hook and bucket; pump or bail until clear"),
            (&["dug"], Step, "brush all of the wall, top to bottom"),
            (&["dug"], Step, "Pump it empty"),
            (&["dug"], Step, "Let it refill, wait 30 min, measure. Below 0.5 mg/L"),
            (&["dug"], Step, "done. Else pump it empty again"),
            (&["dug", "spring"], Blank, "Times emptied, agent"),
            (OPEN, Step, "never enter"),
        ],
    ),
    (
        "seawater: not pumped empty; IWMI 2011, WHO/WEDC Technical Note 15",
        &[
            (&["seawater"], Step, "Seawater got in: pump slowly until clear, keep the level up"),
            (&["dug in seawater"], Step, "Seawater got in: do not pump the well down to clear it"),
            (&["seawater", "dug in seawater"], Step, "never pump it empty"),
        ],
    ),
    ("flowing wells: the flow is stopped", &[(&["flowing"], Step, "Stop the flow with valve or standpipe")]),
    (
        "septic systems: nothing into them, the agent for all of it",
        &[
            (&["septic"], Step, "Nothing into the septic system"),
            (&["septic"], Caution, "Agent is for all of it"),
            (&["drilled", "driven", "bored", "flowing"], Step, "Not to septic"),
        ],
    ),
    // The table of what the chain must say.
    (
        "wait until the water has gone, repair first; Kerala 2018",
        &[(&KINDS, Step, "Wait until the flood water has gone. Repair damage first")],
    ),
    ("power off, locked and tested", &[(WELLS_WITH_POWER, Step, "lock the switch, try it, detector on the wires")]),
    (
        "look inside before work, with room to note",
        &[
            (CASED, Step, "Look in with the light: leaks, holes in the casing, bare wires. Found:"),
            (OPEN, Step, "Look from above with the light, never enter: cracks, holes, loose stones, wires. Found:"),
        ],
    ),
    (
        "pumped clear of silt first; Michigan MDARD, California DDW 30 min",
        &[
            (
                &["drilled", "driven", "bored", "flowing", "septic"],
                Step,
                "pump to waste until clear, 30 min at least|Pump to waste until clear, 30 min at least",
            ),
            (&["spring"], Step, "pump or bail until clear"),
        ],
    ),
    (
        "users warned, stored water, other supply",
        &[(
            &KINDS,
            Step,
            "stored water for the hold, other safe water until a sample is clean, flush + 7 days or more",
        )],
    ),
    (
        "softener and filter bypassed, heater and tank drained, refilled, used again; Wisconsin",
        &[
            (&KINDS, Step, "Bypass softener, filters. Heater off, cool; drain heater and pressure tank"),
            (&["drilled", "driven", "bored", "flowing", "septic", "dug"], Step, "refill the heater"),
            (&KINDS, Step, "end the bypass"),
        ],
    ),
    (
        "what to add when a strip reads too little",
        &[(&KINDS, Step, "Weaker: add"), (&KINDS, Step, "Less: add"), (&KINDS, Blank, "Added again")],
    ),
    ("wash down the casing", &[(CASED, Step, "wash down the casing")]),
    (
        "each tap until it smells",
        &[
            (CASED, Step, "hot, outdoor: until it smells of chlorine"),
            (OPEN, Step, "each tap until it smells of chlorine"),
        ],
    ),
    ("power off again before wires and cap", &[(CASED, Step, "Power off, locked, before wires and cap go back")]),
    (
        "flushed by hose, stopped by a low residual",
        &[
            (PUMPED, Step, "Flush by hose to"),
            (PUMPED, Step, "Stop below 0.1 mg/L on a low strip, not by the clock|and below 0.1 mg/L"),
            (&KINDS, Blank, "Flush (from, to)"),
            (&["drilled", "driven", "bored", "flowing", "seawater", "septic"], Blank, "Flushed, agent"),
            (&KINDS, Blank, "After flush, mg/L"),
        ],
    ),
    ("aerators cleaned", &[(&KINDS, Step, "clean the aerators")]),
    ("who was there, and when", &[(&KINDS, Blank, "Initials, arrived")]),
    (
        "never mixed, local code first, protection",
        &[
            (&KINDS, Foot, "local code and licensed practice come first"),
            (&KINDS, Foot, "Never mix with acid, ammonia, another product. Goggles, gloves"),
        ],
    ),
];

/// Elements that hold for all wells: they stand on the load list or the notice, once.
const ON_THE_LOAD_LIST: &[&str] = &[
    "certified (NSF/ANSI/CAN 60)",
    "UN 1791, hypochlorite solutions, class 8",
    "49 CFR 173.6",
    "100 lb (45 kg) of sodium hypochlorite",
    "Leftovers: never into a drain, a stream or the ground",
    "Empty containers: rinse three times",
    "safe drinking water for the users",
    "test strips: high chlorine, low chlorine, pH",
    "sample bottles",
    "a meter that reads as low as the discharge limit",
];
const ON_THE_NOTICE: &[&str] = &[
    "Boiling does not make it safe",
    "free of coliform bacteria",
    "Infants, pregnant women, patients on dialysis",
    "lead, arsenic",
    "Softener and filters stay bypassed",
    "never add acid, vinegar, ammonia",
];

/// The words of a part of a card; of several, each apart.
fn of(card: &Card, place: Place) -> Vec<String> {
    let between = |from: &str, to: &str| -> Vec<String> {
        card.html.split(from).skip(1).map(|rest| text(rest.split(to).next().unwrap())).collect()
    };
    match place {
        Head => between("<header>", "</header>"),
        Facts => between("<p class=\"facts\">", "</p>"),
        Bring => between("<p class=\"bring\">", "</p>"),
        Step => between("<li>", "</li>"),
        Blank => between("<div class=\"box\">", "</div>"),
        Caution => between("<p class=\"cautions\">", "</p>"),
        Foot => between("<footer>", "</footer>"),
    }
}

fn run_of(spring: &str) -> (TempDir, Cards) {
    let practice = format!("flowing_spring = \"{spring}\"");
    planned(&format!("{HEADS}{WELLS}"), &campaign(&practice, LIQUID.0, LIQUID.1), &[])
}

#[test]
fn every_element_is_on_every_kind_of_card() {
    let (folder, cards) = run_of("isolated");
    let (_fed, fed) = run_of("feed");
    let card = |kind: &str| if kind == "fed spring" { one(&fed, "spring") } else { one(&cards, kind) };
    let mut missing = Vec::new();
    for (element, asked) in ELEMENTS {
        for (kinds, place, words) in *asked {
            for kind in *kinds {
                let said = of(card(kind), *place);
                let has = words.split('|').any(|words| said.iter().any(|said| said.contains(words)));
                if !has {
                    missing.push(format!("{element}: the {kind} card has no {words:?} in {place:?}: {said:#?}"));
                }
            }
        }
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
    // The review's own elements leave out no kind.
    for (element, asked) in ELEMENTS.iter().filter(|(element, _)| element.starts_with("review")) {
        let met: BTreeSet<&str> = asked.iter().flat_map(|(kinds, ..)| *kinds).copied().collect();
        assert_eq!(met, KINDS.into_iter().collect(), "{element}");
    }
    let page = |name: &str| text(&std::fs::read_to_string(folder.path().join("out").join(name)).unwrap());
    for (name, asked) in [("crew-sheets.html", ON_THE_LOAD_LIST), ("notices.html", ON_THE_NOTICE)] {
        let said = page(name);
        for words in asked {
            assert!(said.contains(words), "no {words:?} in {name}");
        }
    }
}

#[test]
fn the_amounts_of_every_kind_of_card_are_the_tables() {
    for spring in ["isolated", "feed"] {
        let (folder, cards) = run_of(spring);
        let rows = rows(&folder.path().join("out/treatments.csv"));
        assert_eq!(rows.iter().filter(|row| row["outcome"] == "planned").count(), KINDS.len() - 1);
        let counted = figures_are_the_tables(&cards, &rows);
        let figures: &[&str] = match spring {
            "feed" => &["dilution", "flush", "rate", "wash", "emptyings", "agent", "feed"],
            _ => &["dilution", "flush", "rate", "wash", "emptyings", "agent"],
        };
        for name in figures {
            assert!(counted.contains_key(name), "no card has {name}: {counted:?}");
        }
    }
}
