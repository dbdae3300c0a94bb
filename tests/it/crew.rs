//! What crews take along: every figure on every card is the table's, nothing that a sheet must say is missing, each kind of
//! well has its steps, hostile text stays text, and both languages say the same.
//!
//! What a card must say is from outside: the review of 34 state protocols (Sci. Total Environ. 720:137451, 2020) names a
//! measured residual, pH, circulation, contact time and follow-up; the guides are named beside the words below.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::OnceLock;

use aftercrest::caution;
use tempfile::TempDir;

use crate::measures::worth;
use crate::running::{Row, close, folder, number, place, rows, run, run_in};

/// A card as it stands in the page.
pub struct Card {
    class: String,
    pub html: String,
}

/// Cards by well and visit.
pub type Cards = BTreeMap<(String, String), Card>;

impl Card {
    /// Its words, in order.
    pub fn text(&self) -> String {
        text(&self.html)
    }

    /// Figures with this name, in order; those of the head and of the steps apart.
    pub fn figures(&self, part: &str, name: &str) -> Vec<String> {
        let (head, body) = self.html.split_once("</header>").unwrap();
        let mark = format!("<b data-figure=\"{name}\">");
        let part = match part {
            "head" => head,
            _ => body.split_once("<ol class=\"steps\">").unwrap().1,
        };
        part.split(&mark).skip(1).map(|rest| rest.split("</b>").next().unwrap().to_owned()).collect()
    }

    /// The one figure with this name in the steps.
    fn figure(&self, name: &str) -> Option<String> {
        self.figures("steps", name).into_iter().next()
    }

    fn step(&self, words: &str) -> usize {
        let steps: Vec<String> = self.html.split("<li>").skip(1).map(text).collect();
        steps.iter().position(|step| step.contains(words)).unwrap_or_else(|| panic!("no step {words:?} in {steps:#?}"))
    }
}

/// The words of a page, without its marks.
pub fn text(html: &str) -> String {
    let mut text = String::new();
    let mut inside = false;
    for letter in html.chars() {
        match letter {
            '<' => inside = true,
            '>' => inside = false,
            letter if !inside => text.push(letter),
            _ => {}
        }
    }
    text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&")
}

/// Cards of a page by well and visit; of a visit that stands in the list twice that with amounts.
fn cards(path: &Path) -> Cards {
    let page = std::fs::read_to_string(path).unwrap();
    let cards = page.split("<article class=\"card ").skip(1).map(|rest| {
        let (class, rest) = rest.split_once("\" data-well=\"").unwrap();
        let (well, rest) = rest.split_once("\" data-visit=\"").unwrap();
        let (visit, rest) = rest.split_once("\">").unwrap();
        let html = rest.split("</article>").next().unwrap().to_owned();
        ((text(well), text(visit)), Card { class: class.to_owned(), html })
    });
    let mut kept = Cards::new();
    for (key, card) in cards {
        if !card.class.contains("measure") || !kept.contains_key(&key) {
            kept.insert(key, card);
        }
    }
    kept
}

/// The demo, planned once for all tests here.
fn demo() -> &'static Path {
    static DEMO: OnceLock<TempDir> = OnceLock::new();
    DEMO.get_or_init(|| {
        let folder = folder();
        run_in(folder.path(), &["plan", "--demo", "--out", "out"]).ended(1);
        folder
    })
    .path()
}

fn first_scenario() -> Vec<Row> {
    let rows = rows(&demo().join("out/treatments.csv"));
    let first = rows[0]["scenario"].clone();
    rows.into_iter().filter(|row| row["scenario"] == first).collect()
}

fn of<'a>(cards: &'a Cards, row: &Row) -> &'a Card {
    &cards[&(row["well_id"].clone(), row["visit"].clone())]
}

/// A figure with its unit in the table's unit: `1,230 gallons` in liters.
fn read(said: &str, factor: f64) -> f64 {
    let (number, unit) = said.split_once(' ').unwrap();
    let number: f64 = number.replace(',', "").parse().unwrap_or_else(|_| panic!("{said}"));
    let gallon = 231.0 * 2.54_f64.powi(3) / 1000.0;
    let unit = match unit {
        "gallon" | "gallons" | "gallon a minute" | "gallons a minute" => gallon,
        "mg/L" | "h" | "L" | "L/min" => 1.0,
        "min" => 1.0 / 60.0,
        other => panic!("{said}: {other}"),
    };
    number * unit * factor
}

#[track_caller]
fn same(said: &str, value: f64) {
    // Three digits are shown; of a time two.
    assert!(close(read(said, 1.0), value, 0.006), "{said} on the card, {value} in the table");
}

/// A measure that was rounded up from an amount, by an eighth at most (or one of the finest graduation).
#[track_caller]
fn measured(said: &str, amount: f64) {
    let gives = worth(said);
    assert!(
        gives >= amount * (1.0 - 1e-9) && gives <= amount * 1.126 + 3e-4,
        "{said} is {gives}, the table has {amount}"
    );
}

/// Holds every figure of every card to the row of its visit, and counts what was met.
pub fn figures_are_the_tables(cards: &Cards, rows: &[Row]) -> BTreeMap<&'static str, usize> {
    let mut counted = BTreeMap::new();
    let mut count = |name: &'static str| *counted.entry(name).or_insert(0) += 1;
    for row in rows.iter().filter(|row| row["outcome"] == "planned") {
        let card = of(cards, row);
        let value = |column| number(row, column);
        let unit = aftercrest::quantity::unit::by_symbol(&row["measured_unit"]).unwrap();
        let poured = unit.factor * value("measured_amount");
        for said in [&card.figures("head", "amount")[0], &card.figure("amount").unwrap()] {
            assert!(close(worth(said), poured, 1e-9), "{said} on the card, {poured} in the table");
        }
        same(&card.figures("head", "dose")[0], value("measured_dose_mg_per_l"));
        same(&card.figures("head", "volume")[0], value("treated_volume_l"));
        for least in card.figures("head", "least") {
            same(&least, value("least_dose_mg_per_l"));
        }
        same(&card.figure("hold").unwrap(), value("hold_h"));
        same(&card.figure("target").unwrap(), value("dose_mg_per_l") - value("demand_mg_per_l"));
        let strength = value("strength_used_g_per_l");
        let target = value("dose_mg_per_l") - value("demand_mg_per_l");
        measured(&card.figure("more").unwrap(), target * value("treated_volume_l") / 1e3 / strength / 1e3);
        if let Some(water) = card.figure("dilution") {
            let bucket = worth(&water) * 1000.0;
            let asked = value("predilution_l");
            assert!(bucket >= asked * (1.0 - 1e-9) && bucket <= (asked * 1.13).max(asked + 3.9), "{water}: {asked} L");
            count("dilution");
        }
        if let Some(volume) = card.figure("volume") {
            same(&volume, value("flush_volume_l"));
            count("flush");
        }
        if let Some(rate) = card.figure("rate") {
            same(&rate, value("flush_rate_l_per_min"));
            let time = read(&card.figure("time").unwrap(), 1.0);
            assert!((time - value("flush_h")).abs() <= (0.06 * time).max(1.0 / 60.0), "{time} h: {}", value("flush_h"));
            count("rate");
        }
        match card.figure("wash") {
            Some(wash) => {
                let unit = aftercrest::quantity::unit::by_symbol(&row["wall_wash_unit"]).unwrap();
                assert!(close(worth(&wash), unit.factor * value("wall_wash_amount"), 1e-9), "{wash}");
                let bucket = worth(&card.figure("wash_water").unwrap()) * 1000.0;
                assert!(bucket >= value("wall_wash_l") && bucket <= value("wall_wash_l") + 3.9);
                count("wash");
            }
            None => assert!(value("wall_wash_l").is_nan()),
        }
        match card.figure("times") {
            Some(times) => {
                assert_eq!(times.parse::<f64>().unwrap(), value("emptyings"));
                same(&card.figure("once").unwrap(), value("treated_volume_l"));
                count("emptyings");
            }
            None => assert!(value("emptyings").is_nan()),
        }
        match card.figure("agent_amount") {
            Some(amount) => {
                measured(&amount, value("neutralizer_kg"));
                count("agent");
            }
            None => assert!(row["neutralizer"].is_empty() || value("neutralizer_kg") == 0.0, "{}", card.text()),
        }
        match card.figure("other_amount") {
            Some(amount) => {
                measured(&amount, value("neutralizer_instead_kg"));
                count("other agent");
            }
            None => assert!(value("neutralizer_instead_kg").is_nan()),
        }
        match card.figure("ph") {
            Some(ph) => {
                assert!((ph.parse::<f64>().unwrap() - value("ph_after")).abs() <= 0.051, "{ph}");
                count("pH");
            }
            None => assert!(value("ph_after").is_nan()),
        }
        if let Some(feed) = card.figure("feed") {
            measured(&feed, value("feed_l_per_h") / 1000.0);
            measured(&card.figure("feed_all").unwrap(), value("feed_l") / 1000.0);
            count("feed");
        }
        // What the list tells.
        let said = card.text();
        for column in ["notes", "crew_flags", "not_understood", "Access road", "Owner"] {
            let Some(cell) = row.get(column) else { continue };
            // A table keeps spreadsheets from reading a text as a formula by an apostrophe before it.
            let told = cell.strip_prefix('\'').unwrap_or(cell);
            let shown = column == "crew_flags" || said.contains(told.trim());
            assert!(shown, "{column} {told:?} is not on {said}");
            assert!(told.is_empty() || column != "crew_flags" || said.contains("Reported"), "{said}");
        }
        // The cautions of the row, in words.
        // Hours of emptying stand in the tables alone.
        let words = row["cautions"].split(' ').filter(|word| !word.is_empty() && *word != "hours-at-least");
        let words: Vec<&str> = words.collect();
        assert!(!said.contains("hours shown are a minimum"), "{said}");
        assert_eq!(card.html.matches("class=\"caution\"").count(), words.len());
    }
    counted
}

#[test]
fn every_figure_of_every_card_is_the_tables() {
    let cards = cards(&demo().join("out/crew-sheets.html"));
    let rows = first_scenario();
    let page = std::fs::read_to_string(demo().join("out/crew-sheets.html")).unwrap();
    assert_eq!(page.matches("<article ").count(), rows.len());
    let counted = figures_are_the_tables(&cards, &rows);
    // The demo meets every kind of figure, or the test above has asked nothing.
    for name in ["dilution", "flush", "rate", "wash", "emptyings", "agent", "other agent", "pH", "feed"] {
        assert!(counted.contains_key(name), "the demo has no {name}: {counted:?}");
    }
}

/// Words of a card of a drilled well on stream, each with who asks for it.
const ASKED_OF_A_CARD: &[(&str, &str)] = &[
    // The review of 34 protocols: what most of them lack.
    (
        "Strip in the well: at least 100 mg/L",
        "review 2020: measured residual; Wisconsin NR 812, North Carolina 02C .0111",
    ),
    ("Measure at the end: at least 25 mg/L", "review 2020: residual after contact; Montana ARM 36.21.662"),
    ("pH of the well water", "review 2020: pH"),
    ("pH before / after", "review 2020: pH, written down"),
    ("Circulate", "review 2020: circulation"),
    ("Leave it 24 h", "review 2020: contact time"),
    ("Sample for coliforms", "review 2020: follow-up; Iowa DNR"),
    ("again 30 days later", "review 2020: follow-up; Nebraska Extension"),
    ("Bacteria found", "what to do if positive"),
    // practice.md: product and agent by name, strength as counted, age.
    ("of liquid", "product by name"),
    ("counted as", "strength as counted"),
    ("days old", "age"),
    ("of ascorbic acid", "agent by name"),
    ("at least", "lowest dose"),
    ("Less: add", "what to add"),
    ("wash down the casing", "wash down"),
    ("Each tap", "each tap until it smells"),
    ("pump to waste until clear", "California DDW: pump clear first"),
    ("until the flood water has gone", "Kerala 2018: wait"),
    ("Repair damage first", "repair first"),
    ("Bypass softener", "softener, filter"),
    ("drain heater and pressure tank", "Wisconsin: they refill with chlorinated water"),
    ("stored water for the hold, other safe water until a sample is clean", "stored water"),
    ("bucket for", "what to bring"),
    ("goggles, chemical gloves", "what to bring"),
    ("funnel, pipe to below the pitless adapter", "what to bring"),
    ("sample bottles", "what to bring"),
    ("lock the switch, try it", "power off, locked and tested"),
    ("leaks, holes in the casing, bare wires", "look inside"),
    ("product into water, never the other way", "dilution"),
    ("below the pitless adapter, clear of wires", "pour"),
    ("Power off, locked, before wires and cap go back", "power off again"),
    ("Do not flush before", "until when"),
    ("Flush by hose to the stream", "flush by hose"),
    ("Not to septic", "not to septic"),
    ("two thirds while the first", "feeding the agent"),
    ("gallons and below 0.1 mg/L", "when to stop"),
    ("clean the aerators", "aerators"),
    ("end the bypass", "softener and filter are used again"),
    ("Initials, arrived", "to write in"),
    ("Poured (date, time)", "to write in"),
    ("At the taps, mg/L", "to write in"),
    ("At the end, mg/L", "to write in"),
    ("Added again", "to write in"),
    ("Flush (from, to)", "to write in"),
    ("After flush, mg/L", "to write in"),
    ("Sample 1", "to write in"),
    ("Sample 2", "to write in"),
    ("local code and licensed practice come first", "local code"),
    ("Never mix", "never mix"),
];

/// Gear that each well asks for: it stands on its card, and once on the load list.
const ASKED_OF_A_LOAD_LIST: [&str; 13] = [
    "NSF/ANSI/CAN 60",
    "measures that are not metal",
    "funnels, pipes",
    "wrenches for caps",
    "hoses",
    "clean tarps",
    "lights",
    "voltage detector, locks",
    "goggles, chemical gloves",
    "strips for high and low chlorine and pH",
    "sample bottles",
    "notices, tags",
    "eye-wash water",
];

pub const HEADS: &str = "well id,visit,depot,well type,total depth (ft),static level (ft),casing diameter (in),water volume (gal),yield \
                     (gpm),pump rate (gpm),discharge route,seawater,latitude,longitude,users served,status,notes,Owner\n";

/// One well of each kind, invented; coordinates on the open sea.
const KINDS: &str = "D1,1,North,drilled,180,40,6,,8,10,stream,,45.5,-30.5,4,in use,gate code 4471,A. Nobody\n\
                     P1,1,North,driven,25,10,2,,,5,land,,45.5,-30.4,3,,,\n\
                     B1,1,North,bored,50,20,24,,6,10,septic,,45.4,-30.4,5,,,\n\
                     U1,1,North,dug,28,12,36,,2,10,land,,45.3,-30.4,9,,dog in the yard,\n\
                     U2,1,North,dug,28,12,36,,2,10,land,yes,45.3,-30.3,9,,,\n\
                     S1,1,North,spring box,,,,500,5,,stream,,45.2,-30.4,20,,,\n\
                     F1,1,North,drilled,180,-2,6,,8,10,land,,45.1,-30.4,20,,,\n\
                     H1,1,North,drilled,,40,6,,8,10,land,,45.1,-30.3,7,,wasps,\n";

pub fn campaign(practice: &str, chemical: &str, strength: &str) -> String {
    format!(
        "[campaign]\ntitle = \"Kinds of wells\"\nunits = \"us\"\n[practice]\nflush = {{ until_mg_per_l = 0.1 }}\n{practice}\n\
         [[product]]\nname = \"liquid\"\nchemical = \"{chemical}\"\nstrength = {strength}\nage_days = 30\nstorage = \"20 C\"\n"
    )
}

pub const LIQUID: (&str, &str) = ("sodium_hypochlorite", "{ percent = 12.5, basis = \"trade\" }");

fn kinds(practice: &str, more: &[&str]) -> (TempDir, Cards) {
    planned(&format!("{HEADS}{KINDS}"), &campaign(practice, LIQUID.0, LIQUID.1), more)
}

pub fn planned(list: &str, scenarios: &str, more: &[&str]) -> (TempDir, Cards) {
    let folder = folder();
    place(folder.path(), "wells.csv", list);
    place(folder.path(), "plan.toml", scenarios);
    let mut arguments = vec!["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"];
    arguments.extend(more);
    let answer = run_in(folder.path(), &arguments);
    assert!(answer.code <= 1, "{}", answer.err);
    let cards = cards(&folder.path().join("out/crew-sheets.html"));
    (folder, cards)
}

pub fn one<'a>(cards: &'a Cards, well: &str) -> &'a Card {
    &cards[&(well.to_owned(), "1".to_owned())]
}

#[test]
fn a_card_says_what_protocols_leave_out() {
    let (folder, cards) = kinds("flowing_spring = \"isolated\"", &[]);
    let card = one(&cards, "D1");
    let said = card.text();
    for (words, why) in ASKED_OF_A_CARD {
        assert!(said.contains(words), "{why}: no {words:?} on\n{said}");
    }
    let page = std::fs::read_to_string(folder.path().join("out/crew-sheets.html")).unwrap();
    let load = text(page.split("<section class=\"page load\">").nth(1).unwrap().split("</section>").next().unwrap());
    for words in ASKED_OF_A_LOAD_LIST {
        assert!(load.contains(words), "no {words:?} on\n{load}");
    }
    for told in ["Map: 45.50000, -30.50000", "Users: 4", "Status: in use", "Remark: gate code 4471", "Owner: A. Nobody"]
    {
        assert!(said.contains(told), "no {told:?} on\n{said}");
    }
    assert!(said.contains("LOCKED"), "the gate is no flag on\n{said}");
    // Every box can be written in, and every sentence is whole: no name in braces, no sign for bold is left.
    assert!(!said.contains(['{', '}', '*']), "{said}");
    assert!(card.class.starts_with("half"), "{} {said}", card.class);
    // In the order of work.
    let order =
        ["Wait", "Power off:", "Look", "Clean", "Tell the users", "Bypass", "Mix", "Cap off", "Circulate", "Each tap"];
    let later = [
        "before wires and cap",
        "Leave it",
        "Measure at the end",
        "Flush",
        "Neutralize",
        "Stop after all",
        "Sample",
        "Bacteria",
    ];
    let steps: Vec<usize> = order.iter().chain(&later).map(|words| card.step(words)).collect();
    assert!(steps.is_sorted(), "{steps:?}");
}

#[test]
fn nothing_is_printed_below_nine_points() {
    for page in ["crew-sheets.html", "notices.html"] {
        let page = std::fs::read_to_string(demo().join("out").join(page)).unwrap();
        let style = page.split("<style>").nth(1).unwrap().split("</style>").next().unwrap();
        let mut sizes = 0;
        for declared in style.split("font").skip(1) {
            let declared = declared.split([';', '}']).next().unwrap();
            let Some(size) = declared.strip_prefix("-size:").or(declared.strip_prefix(':')) else { continue };
            let size = size.trim().split([' ', '/']).next().unwrap();
            let (number, least) = match (size.strip_suffix("pt"), size.strip_suffix("em")) {
                (Some(points), _) => (points, 9.0),
                (_, Some(share)) => (share, 1.0),
                _ => panic!("{declared:?} is in no unit that is known here"),
            };
            assert!(number.parse::<f64>().unwrap() >= least, "{declared:?}");
            sizes += 1;
        }
        assert!(sizes > 20, "{sizes} sizes found");
    }
}

#[test]
fn each_kind_of_well_has_its_own_steps() {
    let (_folder, cards) = kinds("flowing_spring = \"isolated\"", &[]);
    let has = |well: &str, words: &[&str]| {
        let said = one(&cards, well).text();
        for words in words {
            assert!(said.contains(words), "{well}: no {words:?} on\n{said}");
        }
    };
    let lacks = |well: &str, words: &[&str]| {
        let said = one(&cards, well).text();
        for words in words {
            assert!(!said.contains(words), "{well}: {words:?} on\n{said}");
        }
    };
    has(
        "P1",
        &["Driven well", "Open the top of the pipe", "pipe wrench", "House plumbing is not included", "80 gallons"],
    );
    lacks("P1", &["pitless"]);
    has(
        "B1",
        &[
            "Bored well",
            "around the wall and over the water. Never enter",
            "Nothing into the septic system",
            "Never enter: gas",
        ],
    );
    // WHO/WEDC Technical Note 1 (2011): walls, empty, refill, 30 min, below 0.5 mg/L, else again.
    has(
        "U1",
        &[
            "Dug well",
            "brush all of the wall",
            "Stir with the pole",
            "Pump it empty",
            "Let it refill, wait 30 min",
            "Below 0.5 mg/L",
        ],
    );
    has("U1", &["Else pump it empty again", "Stop if sand comes or the wall moves", "never enter", "DOG"]);
    lacks("U1", &["Circulate", "pitless"]);
    assert_eq!(one(&cards, "U1").class.split(' ').next(), Some("full"));
    // Seawater: WHO/WEDC Technical Note 15; IWMI 2011.
    has("U2", &["Pump slowly", "never pump it empty", "do not pump the well down"]);
    lacks("U2", &["Pump it empty", "Let it refill"]);
    // Oregon Health Authority: close the overflow, test, top up.
    has(
        "S1",
        &["Spring", "Close the overflow", "lead the inflow around the box", "Test every few hours: below 25 mg/L add"],
    );
    has("S1", &["plug for the overflow", "Open overflow and supply"]);
    has("F1", &["Stop the flow", "water 2 ft above ground"]);
    let held = one(&cards, "H1");
    let said = held.text();
    assert!(
        said.contains("MEASURE THIS WELL")
            && said.contains("The depth is missing")
            && said.contains("Depth to the bottom")
    );
    assert!(said.contains("STINGS") && said.contains("Users: 7"), "{said}");
    // Nothing is said of what was not computed.
    assert!(!held.html.contains("data-figure") && !said.contains("mg/L") && !said.contains("NaN"), "{said}");

    let (_folder, fed) = kinds("flowing_spring = \"feed\"", &[]);
    let said = one(&fed, "S1").text();
    // MIL-HDBK-1164, p. 27: go on feeding where the flow cannot be shut off.
    for words in
        ["Lead the overflow away", "each hour for 24 h", "Neutralize from the start", "flushes itself", "drip feeder"]
    {
        assert!(said.contains(words), "no {words:?} on\n{said}");
    }
    assert!(!said.contains("Close the overflow"), "{said}");
    for cards in [&cards, &fed] {
        for (well, card) in cards {
            let said = card.text();
            assert!(
                !said.contains(['{', '}', '*']) && !said.contains("NaN") && !said.contains("not a number"),
                "{well:?}: {said}"
            );
        }
    }
}

#[test]
fn a_septic_route_without_agent_says_so() {
    let (_folder, cards) = kinds("flowing_spring = \"isolated\"\ndischarge = { routes = [\"stream\"] }", &[]);
    let said = one(&cards, "B1").text();
    assert!(
        said.contains("Nothing into the septic system") && said.contains("None of it into the septic system"),
        "{said}"
    );
    assert!(!said.contains("Neutralize:"), "{said}");
}

#[test]
fn what_must_not_be_poured_is_said_first() {
    let list = format!("{HEADS}D1,1,North,drilled,180,40,6,,8,10,land,,,,4,,smells of diesel,\n");
    let (_folder, cards) = planned(&list, &campaign("", LIQUID.0, LIQUID.1), &[]);
    let card = one(&cards, "D1");
    assert!(
        card.text().contains("STOP: resolve the reported problem first")
            && card.text().contains("FUEL OR OIL: pour nothing")
    );
    assert_eq!(card.step("Stop:"), 0);

    // Two years at 30 C leave less than 30 % of 12.5 % (equation A3).
    let old = campaign("", LIQUID.0, LIQUID.1)
        .replace("age_days = 30\nstorage = \"20 C\"", "age_days = 730\nstorage = \"30 C\"");
    let (folder, cards) = planned(&list.replace("smells of diesel", ""), &old, &[]);
    let card = one(&cards, "D1");
    assert!(card.text().contains("DO NOT TREAT BY THIS CARD"));
    assert_eq!(card.step("Do not pour"), 0);
    let page = std::fs::read_to_string(folder.path().join("out/crew-sheets.html")).unwrap();
    assert!(page.contains("DO NOT TREAT BY THESE CARDS"));
}

#[test]
fn bleaching_powder_has_no_ph_and_is_left_to_settle() {
    let scenarios = campaign("", "chlorinated_lime", "{ percent = 33, basis = \"weight_available_chlorine\" }")
        .replace(
            "age_days = 30\nstorage = \"20 C\"\n",
            "measured_strength = { percent = 30, basis = \"weight_available_chlorine\" }\n",
        );
    let list = format!("{HEADS}D1,1,North,drilled,180,40,6,,8,10,land,,,,4,,,\n")
        .replace("Owner\n", "pH,alkalinity\n")
        .replace(",4,,,\n", ",4,,,7.4,150\n");
    let (_folder, cards) = planned(&list, &scenarios, &[]);
    let card = one(&cards, "D1");
    assert!(card.text().contains("let it settle 10 min, pour only the clear"), "{}", card.text());
    assert!(card.figure("ph").is_none(), "a pH that nobody knows");
}

#[test]
fn hostile_text_stays_text() {
    // Markup, quotation marks, names in braces; then letters that act without being seen: one that turns what follows it around
    // (Unicode Standard Annex 9), an isolate that is not closed, and one that a terminal obeys (ECMA-48).
    let evil = "<script>alert(1)</script>\"'&<img src=x onerror=alert(2)>{amount}*\u{202E}gnp\u{2066}\u{1b}[2J!";
    let shown = evil.replace('\u{202E}', "[U+202E]").replace('\u{2066}', "[U+2066]").replace('\u{1b}', "[U+001B]");
    let acts = ['\u{202E}', '\u{2066}', '\u{1b}'];
    let cell = format!("\"{}\"", evil.replace('"', "\"\""));
    let list = format!(
        "{}{cell},{cell},{cell},drilled,180,40,6,,8,10,land,,45,-30,4,{cell},{cell},{cell}\n\
         {cell},\"2 {}\",{cell},drilled,,40,6,,{cell},10,land,,45,-30,4,{cell},{cell},{cell}\n",
        HEADS.replace("Owner", &cell.replace("alert(1)", "alert(3)")),
        evil.replace('"', "\"\"")
    );
    let toml = evil.replace('\\', "\\\\").replace('"', "\\\"").replace('\u{1b}', "\\u001B");
    let scenarios = campaign("", LIQUID.0, LIQUID.1)
        .replace("Kinds of wells", &toml)
        .replace("name = \"liquid\"", &format!("name = \"{toml}\""))
        + &format!("[[scenario]]\nname = \"{toml}\"\nproduct = \"{toml}\"\n[[supply]]\nname = \"{toml}\"\n");
    let (folder, cards) = planned(&list, &scenarios, &[]);
    assert_eq!(cards.len(), 2);
    for name in ["crew-sheets.html", "notices.html"] {
        let page = std::fs::read_to_string(folder.path().join("out").join(name)).unwrap();
        assert!(!page.contains("<script") && !page.contains("<img"), "{name}");
        assert!(!page.contains(acts), "{name} holds letters that act");
    }
    for card in cards.values() {
        // Id, visit, depot, owner's heading and cell, state and remark, whole.
        assert!(card.text().matches(&shown).count() >= 5, "{}", card.text());
    }
    // Tables and sheets that a person opens show the same; only what a finding says was typed is what was typed.
    for name in ["treatments.csv", "visits.csv", "scenarios.csv", "totals.csv", "orders.csv"] {
        let table = std::fs::read_to_string(folder.path().join("out").join(name)).unwrap();
        assert!(!table.contains(acts), "{name} holds letters that act");
        assert!(table.contains("[U+202E]") && table.contains("[U+001B]"), "{name} does not show them");
    }
    let findings = rows(&folder.path().join("out/findings.csv"));
    assert!(findings.iter().any(|finding| finding["as_typed"] == evil), "{findings:#?}");
    for finding in &findings {
        for (column, text) in finding.iter().filter(|(column, _)| *column != "as_typed") {
            assert!(!text.contains(acts), "{column}: {text:?}");
        }
    }
    let mut seen = 0;
    for (sheet, cells) in crate::running::sheets(&folder.path().join("out/campaign.xlsx")) {
        // What is read back as it was stated.
        for cell in cells.iter().flatten().filter(|_| sheet != "Assumptions") {
            let text = format!("{cell}");
            seen += usize::from(text.contains("[U+202E]"));
            assert!(!text.contains(acts), "{sheet}: {text:?}");
        }
    }
    assert!(seen > 10, "{seen}");
}

#[test]
fn pages_ask_for_nothing_and_run_nothing() {
    for name in ["crew-sheets.html", "notices.html"] {
        let page = std::fs::read_to_string(demo().join("out").join(name)).unwrap();
        for word in ["http:", "https:", "src=", "@import", "url(", "<script", "<link", " onload"] {
            assert!(!page.contains(word), "{name} has {word}");
        }
    }
}

#[test]
fn every_caution_of_a_card_is_that_of_its_row() {
    let english: toml::Table =
        std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("src/report/crew/words/en.toml"))
            .unwrap()
            .parse()
            .unwrap();
    let cards = cards(&demo().join("out/crew-sheets.html"));
    let known: Vec<&str> = caution::raised().map(|(_, entry)| entry.word).collect();
    for row in first_scenario().iter().filter(|row| row["outcome"] == "planned") {
        let said = of(&cards, row).text();
        for word in row["cautions"].split(' ').filter(|word| !word.is_empty()) {
            assert!(known.contains(&word));
            if word == "hours-at-least" {
                continue; // A card shows no hours of emptying.
            }
            let text = english["caution"][word].as_str().unwrap();
            // Up to a figure that is set in.
            assert!(said.contains(text.split('{').next().unwrap()), "{word}: {said}");
        }
    }
}

#[test]
fn spanish_cards_carry_the_same_figures() {
    let (_english, english) = kinds("flowing_spring = \"isolated\"", &[]);
    let (folder, spanish) = kinds("flowing_spring = \"isolated\"", &["--language", "es"]);
    let page = std::fs::read_to_string(folder.path().join("out/crew-sheets.html")).unwrap();
    assert!(page.contains("<html lang=\"es\">"));
    let names = |card: &Card| -> Vec<String> {
        card.html.split("data-figure=\"").skip(1).map(|rest| rest.split('"').next().unwrap().to_owned()).collect()
    };
    let digits = |card: &Card| -> Vec<String> {
        let figures = card.html.split("data-figure=\"").skip(1);
        let texts = figures.map(|rest| rest.split('>').nth(1).unwrap().split('<').next().unwrap());
        texts.map(|text| text.chars().filter(|letter| letter.is_ascii_digit()).collect()).collect()
    };
    for (well, card) in &english {
        let other = &spanish[well];
        let (mut mine, mut theirs) = (names(card), names(other));
        mine.sort();
        theirs.sort();
        assert_eq!(mine, theirs, "{well:?}");
        let (mut mine, mut theirs) = (digits(card), digits(other));
        mine.sort();
        theirs.sort();
        assert_eq!(mine, theirs, "{well:?}");
        for word in ["Measure", "Flush", "of the ", "water", "gallon", "hose", "Never"] {
            assert!(!other.text().contains(word), "{well:?} says {word:?}: {}", other.text());
        }
    }
}

#[test]
fn a_load_list_holds_what_its_cards_pour() {
    // The demo without its crews: lists by depot. Those by crew and day are asked in `crews`.
    let folder = folder();
    let demo = crate::running::root().join("fixtures/demo");
    let (north, south) = (demo.join("harrowfen-county.xlsx"), demo.join("quillmoor-county.csv"));
    let stated = std::fs::read_to_string(crate::running::root().join("scenarios/demo.toml")).unwrap();
    place(folder.path(), "plan.toml", stated.split("\n[[crew]]").next().unwrap());
    let lists = [north.to_str().unwrap(), south.to_str().unwrap()];
    run_in(folder.path(), &["plan", lists[0], lists[1], "--scenarios", "plan.toml", "--out", "out"]).ended(1);
    let page = std::fs::read_to_string(folder.path().join("out/crew-sheets.html")).unwrap();
    let rows = first_scenario();
    let mut lists = 0;
    for section in page.split("<section class=\"page load\">").skip(1) {
        let load = section.split("</section>").next().unwrap();
        let depot = text(load.split("<h2>").nth(1).unwrap().split("</h2>").next().unwrap());
        let depot = depot.strip_prefix("Load list: ").unwrap();
        let depot = if depot == "No depot on record" { "" } else { depot };
        let mut poured = 0.0;
        let mut visits = 0;
        for row in rows.iter().filter(|row| row["depot"] == depot && row["outcome"] == "planned") {
            let unit =
                |column: &str| aftercrest::quantity::unit::by_symbol(&row[column]).map_or(0.0, |unit| unit.factor);
            let amount = |column: &str| Some(number(row, column)).filter(|value| !value.is_nan()).unwrap_or(0.0);
            poured += amount("measured_amount") * unit("measured_unit");
            poured += amount("wall_wash_amount") * unit("wall_wash_unit");
            poured += amount("feed_l") / 1000.0;
            visits += 1;
        }
        let said = load.split("data-figure=\"load_product\">").nth(1).unwrap().split('<').next().unwrap();
        measured(said, poured);
        assert!(text(load).contains(&format!("Visits with amounts: {visits}")), "{}", text(load));
        lists += 1;
    }
    assert_eq!(lists, 5);
}

#[test]
fn one_well_has_the_same_card_at_the_prompt() {
    let folder = folder();
    let file = folder.path().join("card.html");
    let arguments = [
        "well",
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
        "--product",
        "liquid 12.5",
        "--card",
    ];
    let mut all = arguments.to_vec();
    all.push(file.to_str().unwrap());
    let said = run(&all).ended(0).out;
    let cards = cards(&file);
    let card = one(&cards, "this well");
    let amount = &card.figures("head", "amount")[0];
    assert!(said.contains(&format!("Measure out   {amount} of liquid 12.5")), "{amount}: {said}");
    let page = std::fs::read_to_string(&file).unwrap();
    assert!(page.contains("Do not use this water") && page.contains("DO NOT USE"));
    // What is there is not written over.
    let refused = run(&all).ended(2);
    assert!(refused.err.contains("not overwritten"), "{}", refused.err);
    assert_eq!(std::fs::read_to_string(&file).unwrap(), page);
}

#[test]
fn a_notice_says_what_users_must_know() {
    let page = std::fs::read_to_string(demo().join("out/notices.html")).unwrap();
    let said = text(page.split("<main>").nth(1).unwrap());
    // CDC and EPA flood guidance; infants and patients; whom to ask; nobody treats on top.
    for words in [
        "Do not drink it",
        "Boiling does not make it safe",
        "free of coliform bacteria",
        "Not before (date, time)",
        "Infants, pregnant women",
        "never add acid",
        "Safe water is here",
        "Questions, results",
        "local code comes first",
        "lead, arsenic",
    ] {
        assert!(said.contains(words), "no {words:?} in {said}");
    }
    // Four tags behind each notice.
    let notices = page.matches("<section class=\"page notice\">").count();
    assert_eq!(said.matches("DO NOT USE").count(), 4 * notices);
}

#[test]
fn what_is_poured_and_what_is_fed_after_never_share_a_bucket() {
    let (folder, us) = kinds("flowing_spring = \"isolated\"", &[]);
    for well in ["D1", "S1"] {
        let said = one(&us, well).text();
        assert!(said.contains("agent bucket, never the product's"), "{said}");
    }
    let page = text(&std::fs::read_to_string(folder.path().join("out/crew-sheets.html")).unwrap());
    assert!(page.contains("never the same for product and agent"));
    let no_agent = one(&us, "U1").text();
    assert!(!no_agent.contains("agent bucket"), "{no_agent}");
    // 100 L of water to a liter of product: more than a bucket holds.
    let (_folder, thin) = kinds("predilution_ratio = 100", &[]);
    let said = one(&thin, "D1").text();
    assert!(said.contains("clean drum, or several clean buckets of 5 gallons, for"), "{said}");
    assert!(!said.contains("; bucket for"), "{said}");
    let metric =
        campaign("predilution_ratio = 100", LIQUID.0, LIQUID.1).replace("units = \"us\"", "units = \"metric\"");
    let list = format!("{HEADS}{KINDS}").replace("(gal)", "(US gal)").replace("(gpm)", "(US gpm)");
    let (_folder, metric) = planned(&list, &metric, &[]);
    let said = one(&metric, "D1").text();
    assert!(said.contains("clean drum, or several clean buckets of 20 L, for"), "{said}");
}

#[test]
fn an_amount_that_must_not_be_poured_yet_is_no_headline() {
    let list = format!(
        "{HEADS}A,1,N,drilled,180,40,6,,8,10,land,,,,4,,smells of fuel,\n\
                        B,1,N,drilled,180,40,6,,8,10,land,,,,4,,quiet place,\n"
    );
    let (_folder, cards) = planned(&list, &campaign("", LIQUID.0, LIQUID.1), &[]);
    let headline = |well| {
        let html = &one(&cards, well).html;
        let (_, rest) = html.split_once("class=\"headline\">").unwrap();
        text(rest.split("</p>").next().unwrap())
    };
    assert_eq!(headline("A"), "POUR NOTHING YET");
    assert!(headline("B").contains("of liquid"), "{}", headline("B"));
    let said = one(&cards, "A").text();
    assert!(said.contains("after release: ") && said.contains("of liquid, gives"), "{said}");
    assert_eq!(one(&cards, "A").figures("head", "amount"), one(&cards, "B").figures("head", "amount"));
}

#[test]
fn cautions_of_one_card_do_not_contradict_each_other() {
    let heads = "well id,type,height of water (ft),diameter (in),casing,pH,alkalinity (mg/L),iron (mg/L),route\n";
    let wells: String =
        (0..40).map(|at| format!("W{at},drilled,158,6,steel,7.{:02},{},3,stream\n", 40 + at, 20 + at)).collect();
    let (folder, cards) = planned(&format!("{heads}{wells}"), &campaign("", LIQUID.0, LIQUID.1), &[]);
    let mut above = 0;
    for row in rows(&folder.path().join("out/treatments.csv")) {
        let said = of(&cards, &row).text();
        assert!(!said.contains("lush to the ground") && !said.contains("Leave it longer"), "{said}");
        if row["cautions"].contains("ph-above-8.5") {
            above += 1;
            assert!(!said.contains("about 8.5 expected"), "{said}");
        }
    }
    assert!(above > 0, "no well ends above pH 8.5");
}
