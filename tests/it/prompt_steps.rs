//! `well` in the terminal tells the procedure of the well's own card, for each kind of well, and where nothing may be poured yet it
//! says so first and last.

use crate::crew::text;
use crate::running::{folder, run};

/// What is typed for a kind of well, words that its steps must have, and words that they must not have.
type Kind = (&'static str, &'static [&'static str], &'static [&'static str], &'static [&'static str]);

/// What each kind of well asks for: of springs MIL-HDBK-1164, p. 27 (go on feeding where the flow cannot be shut off), of dug
/// wells WHO/WEDC Technical Note 1 (brush, empty, refill, measure); the rest common practice, no source.
const KINDS: [Kind; 9] = [
    (
        "drilled",
        &[
            "--depth",
            "180 ft",
            "--water-level",
            "40 ft",
            "--diameter",
            "6 in",
            "--pump-rate",
            "10 gpm",
            "--route",
            "stream",
        ],
        &[
            "below the pitless adapter",
            "wash down the casing",
            "Power off, locked, before wires and cap go back",
            "of ascorbic acid (vitamin C) in ",
        ],
        &["septic system:"],
    ),
    (
        "driven",
        &["--type", "driven", "--depth", "25 ft", "--water-level", "10 ft", "--diameter", "2 in", "--route", "land"],
        &["Open the top of the pipe", "Clean around the pipe"],
        &["pitless", "Neutralize:"],
    ),
    (
        "bored",
        &["--type", "bored", "--depth", "50 ft", "--water-level", "20 ft", "--diameter", "24 in", "--route", "land"],
        &["From above pour all of it around the wall", "Never enter"],
        &["pitless"],
    ),
    (
        "dug",
        &[
            "--type",
            "dug",
            "--depth",
            "28 ft",
            "--water-level",
            "12 ft",
            "--diameter",
            "36 in",
            "--yield",
            "2 gpm",
            "--pump-rate",
            "10 gpm",
            "--route",
            "land",
        ],
        &["Walls: mix", "Pump it empty", "Let it refill", "never enter"],
        &["pitless", "Circulate"],
    ),
    (
        "isolated spring",
        &[
            "--type",
            "spring_box",
            "--volume",
            "500 gal",
            "--yield",
            "5 gpm",
            "--flowing-spring",
            "isolated",
            "--route",
            "stream",
        ],
        &["Close the overflow", "Shut off the supply pipe", "Open overflow and supply"],
        &["each hour", "Power off"],
    ),
    (
        "fed spring",
        &[
            "--type",
            "spring_box",
            "--volume",
            "500 gal",
            "--yield",
            "5 gpm",
            "--flowing-spring",
            "feed",
            "--route",
            "stream",
        ],
        &["Lead the overflow away", "Neutralize from the start", "each hour for 24 h", "The spring flushes itself"],
        &["Close the overflow", "Power off"],
    ),
    (
        "flowing well",
        &["--depth", "180 ft", "--water-level=-2 ft", "--diameter", "6 in", "--route", "land"],
        &["Stop the flow with valve or standpipe"],
        &[],
    ),
    (
        "seawater",
        &[
            "--type",
            "dug",
            "--depth",
            "28 ft",
            "--water-level",
            "12 ft",
            "--diameter",
            "36 in",
            "--seawater",
            "--route",
            "land",
        ],
        &["do not pump the well down to clear it", "Pump slowly, keep the level up", "never pump it empty"],
        &["until clear, 30 min", "Pump it empty", "Flush by hose"],
    ),
    (
        "septic route",
        &["--depth", "180 ft", "--water-level", "40 ft", "--diameter", "6 in", "--route", "septic"],
        &["Nothing into the septic system"],
        &[],
    ),
];

/// What every well asks for, with whom: a residual at the taps (Wisconsin NR 812) and at the end (Montana ARM 36.21.662), days of
/// samples (Iowa DNR, Nebraska Extension), heater drained (Wisconsin); the rest common practice, no source.
const EVERY: [&str; 10] = [
    "ook",
    "Bypass softener, filters",
    "drain heater",
    "at least 100 mg/L",
    "at the end: at least 25 mg/L",
    "Less: add",
    "clean the aerators",
    "not before 7 days after the flush, again 30 days later",
    "Bacteria found",
    "pH of the well water",
];

/// Steps of a terminal's answer, each in one line, rooms for a pen left out.
fn told(out: &str) -> Vec<String> {
    let (_, rest) = out.split_once("\nSteps").unwrap();
    let mut steps: Vec<String> = Vec::new();
    for line in rest.lines().skip(1).take_while(|line| !line.is_empty()) {
        match line.trim_start().split_once(". ") {
            Some((number, text)) if number.parse() == Ok(steps.len() + 1) => steps.push(text.to_owned()),
            _ => {
                let last = steps.last_mut().unwrap();
                last.push(' ');
                last.push_str(line.trim());
            }
        }
    }
    steps
}

/// Steps of a printed card, without its marks.
fn printed(page: &str) -> Vec<String> {
    let (_, list) = page.split_once("<ol class=\"steps\">").unwrap();
    let steps = list.split("</ol>").next().unwrap().split("<li>").skip(1);
    steps.map(text).collect()
}

fn letters(step: &str) -> String {
    step.chars().filter(|letter| *letter != '_' && !letter.is_whitespace()).collect()
}

#[test]
fn the_steps_in_the_terminal_are_those_of_the_card() {
    for (kind, typed, has, has_not) in KINDS {
        let folder = folder();
        let file = folder.path().join("card.html");
        let file = file.to_str().unwrap();
        let product = ["--product", "liquid 12.5", "--card", file];
        let out = run(&[&["well"][..], typed, &product].concat()).ended(0).out;
        let (told, printed) = (told(&out), printed(&std::fs::read_to_string(file).unwrap()));
        assert!(told.len() > 12, "{kind}: {told:#?}");
        let letters = |steps: &[String]| steps.iter().map(|step| letters(step)).collect::<Vec<_>>();
        assert_eq!(letters(&told), letters(&printed), "{kind}");
        let whole = told.join(" ");
        for words in EVERY.iter().chain(has) {
            assert!(whole.contains(words), "{kind}: no {words:?} in {told:#?}");
        }
        for words in has_not {
            assert!(!whole.contains(words), "{kind}: {words:?} in {told:#?}");
        }
        for line in out.lines() {
            assert!(line.chars().count() <= 100, "{kind}: {line:?} is wider than the terminal");
        }
    }
}

#[test]
fn what_is_fed_and_brushed_on_is_brought_too() {
    let (_, fed, ..) = KINDS[5];
    let out = run(&[&["well"][..], fed, &["--product", "liquid 12.5"]].concat()).ended(0).out;
    // 100 mg/L in 5 gpm for 24 h are 6.0087 lb of chlorine (mg/L x MGD x 8.3454, as operators' sheets print it): 5.8 gal of 12.5 %.
    assert!(out.contains("Bring         ") && out.contains(" + 6 gallons of liquid 12.5"), "{out}");
}

#[test]
fn a_well_that_must_not_be_poured_into_yet_says_so_first_and_last() {
    let well = ["well", "--depth", "180 ft", "--water-level", "40 ft", "--diameter", "6 in", "--product", "bleach 6"];
    for more in
        [&["--notes", "smells of diesel"][..], &["--notes", "smells of diesel", "--short"], &["--notes", "wires down"]]
    {
        let out = run(&[&well[..], more].concat()).ended(0).out;
        let lines: Vec<&str> = out.lines().collect();
        let stopped = "Measure out   POUR NOTHING YET. STOP: resolve the reported problem first";
        assert_eq!((lines[0], lines[lines.len() - 1]), (stopped, stopped), "{out}");
        assert!(lines[1].starts_with("After release 1 quart + 1 1/2 cups of bleach 6"), "{out}");
        assert!(told(&out)[0].starts_with("Stop: read what is reported above"), "{out}");
        // Whoever reads the answer by a program is told as well.
        let json = run(&[&well[..], more, &["--json"]].concat()).ended(0).out;
        assert!(json.contains("\"pour_nothing_yet\":\"POUR NOTHING YET"), "{json}");
    }
    let quiet = run(&[&well[..], &["--notes", "quiet place"]].concat()).ended(0).out;
    assert!(!quiet.contains("POUR NOTHING"), "{quiet}");
}
