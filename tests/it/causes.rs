//! What `check` says on one screen: counts that agree with its messages, questions whose answers free as many wells as was
//! said, and never more than a screen.
//!
//! There is no outside source for a screen; what it says is held against the answer itself, given and run again.

use std::collections::BTreeSet;
use std::path::Path;

use serde_json::Value;

use crate::running::{Answer, answer, command, folder, names, place, root, run, run_in};

/// A sound row of a list in feet and inches.
fn sound(id: &str) -> String {
    format!("{id},drilled,180,40,6\n")
}

fn messages(answer: &Answer) -> Vec<Value> {
    answer.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

/// The last message of `check --json` with these arguments.
fn finished(folder: &Path, arguments: &[&str]) -> Value {
    let mut all = vec!["check", "--json"];
    all.extend(arguments);
    messages(&run_in(folder, &all)).pop().unwrap()
}

fn planned(folder: &Path, arguments: &[&str]) -> u64 {
    finished(folder, arguments)["visits_admitted"].as_u64().unwrap()
}

fn screen(folder: &Path, arguments: &[&str]) -> String {
    let mut all = vec!["check"];
    all.extend(arguments);
    run_in(folder, &all).out
}

/// How many wells the question whose line holds this text would free by itself.
#[track_caller]
fn frees(screen: &str, question: &str) -> u64 {
    let line =
        screen.lines().find(|line| line.contains(question)).unwrap_or_else(|| panic!("no {question} in\n{screen}"));
    let (_, count) = line.rsplit_once(": ").unwrap();
    count.split(' ').next().unwrap().parse().unwrap()
}

/// Two counties: one writes its units and has 14 words for a type that nobody knows, the other says no unit of its volumes.
fn two_counties(folder: &Path) {
    // Without a width nothing says what type a well of an unknown word is.
    let mut a = "well_id,well_type,depth (ft),swl (ft),diameter (in),volume (L)\n".to_owned();
    (0..118).for_each(|at| a += &sound(&format!("A{at}")).replace('\n', ",\n"));
    (0..14).for_each(|at| a += &format!("B{at},bord,,,,500\n"));
    (0..11).for_each(|at| a += &format!("C{at},drilled,60,80,6,\n"));
    (0..12).for_each(|_| a += "Total,,1800,400,,\n");
    place(folder, "county-a.csv", a);
    let mut b = "well_id,well_type,Volume\n".to_owned();
    (0..88).for_each(|at| b += &format!("D{at},drilled,500\n"));
    (0..12).for_each(|at| b += &format!("E{at},Bord,500\n"));
    place(folder, "county-b.csv", b);
}

#[test]
fn the_worked_example_says_what_each_answer_frees() {
    let folder = folder();
    let lists = ["county-a.csv", "county-b.csv"];
    two_counties(folder.path());
    let said = run_in(folder.path(), &["check", "county-a.csv", "county-b.csv"]).ended(1);
    assert_eq!(said.err, "");
    let wanted = "\
118 of 243 wells can be planned now; 125 are held back.
12 rows are not wells: 12 totals or averages.
No place for the flush water is given for 118 visits (a stream is counted).
  county-a.csv                              118 of 143 wells, 12 rows not wells
  county-b.csv                                0 of 100 wells

Questions, and the wells an answer frees, unless another problem shows up:
  1. unit of \"Volume\": 88 more wells
     county-b.csv: --units UNITS, or [inventory.units] water_volume = \"UNIT\"
  2. meaning of \"bord\" (14) in \"well_type\": 14 more wells
     county-a.csv: [inventory.words.well_type] \"bord\" = \"TYPE\"
  3. meaning of \"Bord\" (12) in \"well_type\": 0 by itself, 12 with others
     county-b.csv: [inventory.words.well_type] \"Bord\" = \"TYPE\"
Together 1 and 3: 100 more wells.
All 3 answered: 114 more wells.
11 wells are held back by single cells or rows, to be corrected one by one.

Held back, by cause (wells):
    100  no unit: \"Volume\"  county-b.csv C1
     14  well type missing: \"well_type\", \"bord\"  county-a.csv B120
     12  well type missing: \"well_type\", \"Bord\"  county-b.csv B90
     11  water level below bottom: \"swl (ft)\"  county-a.csv D134
Check (how often):
     14  unknown well type: \"well_type\", \"bord\"  county-a.csv B120
     12  unknown well type: \"well_type\", \"Bord\"  county-b.csv B90
Note (how often):
      1  12 rows are not wells: 12 totals or averages (rows 145 t…  county-a.csv

Next, say which units they use (UNITS: us, metric or imperial), and check again:
  aftercrest check county-a.csv county-b.csv --units UNITS
To plan the others as they are: plan in place of check, and --out campaign.
125 wells are held back (exit code 1).
";
    assert_eq!(said.out, wanted);
    // The messages count alike, and the answers free what was said.
    let last = finished(folder.path(), &lists);
    let counts = ["rows_read", "visits_admitted", "visits_held_back", "rows_not_wells"].map(|key| last[key].as_u64());
    assert_eq!(counts, [255, 118, 125, 12].map(Some));
    assert_eq!(planned(folder.path(), &["county-a.csv", "county-b.csv", "--units", "us"]), 118 + 88);
    let mend = |name: &str| {
        let list = std::fs::read_to_string(folder.path().join(name)).unwrap();
        place(folder.path(), name, list.replace("bord", "bored").replace("Bord", "bored"));
    };
    mend("county-b.csv");
    assert_eq!(planned(folder.path(), &["county-a.csv", "county-b.csv", "--units", "us"]), 118 + 100);
    mend("county-a.csv");
    assert_eq!(planned(folder.path(), &lists), 118 + 14);
    assert_eq!(planned(folder.path(), &["county-a.csv", "county-b.csv", "--units", "us"]), 118 + 114);
}

/// Each question with the line that answers it, run again: the wells that were promised come free, and no others.
#[test]
fn answers_free_what_was_promised() {
    const HEAD: &str = "[campaign]\nunits = \"us\"\n";
    let types = ["drilled", "driven", "bored", "dug"];
    let missing =
        |field: &str, values: &str| types.map(|kind| format!("[missing.{kind}.{field}]\n{values}\n")).concat();
    let diameters = missing("casing_diameter", "low = \"5 in\"\nmid = \"6 in\"\nhigh = \"8 in\"");
    let level = |heading: &str| format!("[inventory.columns]\n\"{heading}\" = \"static_water_level\"\n");
    let cases: [(&str, &str, &str, String, u64); 8] = [
        (
            "a column under a heading of its own",
            "well_id,well_type,depth (ft),Gauge (ft),diameter (in)\nA,drilled,180,40,6\nB,dug,30,12,36\nC,drilled,90,95,6\n",
            "1. column for water level",
            level("Gauge (ft)"),
            3,
        ),
        (
            "a heading that can mean two things",
            "well_id,well_type,depth (ft),water depth (ft),diameter (in)\nA,drilled,180,40,6\nB,dug,30,12,36\nC,,90,9,6\n",
            "1. ambiguous water depth",
            level("water depth (ft)"),
            3,
        ),
        (
            "a unit in a heading that nobody knows",
            "well_id,well_type,depth (wands),swl (ft),diameter (in)\nA,drilled,180,40,6\nB,dug,30,12,36\nC,dug,30,,36\n",
            "1. heading unit unknown",
            "[inventory.units]\ntotal_depth = \"ft\"\n".to_owned(),
            2,
        ),
        (
            "blank cells of one column",
            "well_id,well_type,depth (ft),swl (ft),diameter (in)\nA,drilled,180,40,\nB,dug,30,12,\nC,dug,30,40,\nD,dug,30,12,36\n",
            "1. what to take where \"diameter (in)\" is blank",
            diameters,
            3,
        ),
        (
            "blank types",
            "well_id,well_type,volume (gal)\nA,,500\nB,,300\nC,,\nD,dug,400\n",
            "1. what to take where \"well_type\" is blank",
            "[inventory.fixed]\nwell_type = \"dug\"\n".to_owned(),
            2,
        ),
        (
            "a type that no column gives",
            "well_id,volume (gal)\nA,500\nB,300\n",
            "1. column for type",
            "[inventory.fixed]\nwell_type = \"dug\"\n".to_owned(),
            2,
        ),
        (
            "rows that come again",
            "well_id,well_type,depth (ft),swl (ft),diameter (in)\nA,drilled,180,40,6\nA,drilled,180,40,6\nA,drilled,180,41,6\nB,dug,30,40,36\nB,dug,30,40,36\n",
            "1. are repeated rows visits of their own?",
            "[inventory]\nrepeats = \"separate_visits\"\n".to_owned(),
            2,
        ),
        (
            "gallons that are nobody's",
            "well_id,well_type,volume\nA,spring_box,180 gal\nB,spring_box,90 gal\nC,spring_box,90 US gal\n",
            "",
            String::new(),
            0,
        ),
    ];
    for (name, list, question, answer, wells) in cases {
        let folder = folder();
        place(folder.path(), "wells.csv", list);
        place(folder.path(), "lists.toml", HEAD);
        let arguments = ["wells.csv", "--scenarios", "lists.toml"];
        let said = screen(folder.path(), &arguments);
        let before = planned(folder.path(), &arguments);
        let below_bottom = finding_rows(folder.path(), &arguments, &["G203"]);
        if question.is_empty() {
            // With a declared system there is nothing to ask.
            assert!(!said.contains("Questions"), "{name}:\n{said}");
            let said = screen(folder.path(), &["wells.csv"]);
            assert_eq!(frees(&said, "1. unit of"), 2, "{name}:\n{said}");
            assert_eq!(planned(folder.path(), &["wells.csv"]) + 2, before, "{name}");
            continue;
        }
        // What comes to light with the answer is not promised away: a level below the bottom, once it can be read.
        assert_eq!(frees(&said, question), wells, "{name}:\n{said}");
        place(folder.path(), "lists.toml", format!("{HEAD}{answer}"));
        let after = planned(folder.path(), &arguments);
        let last = finished(folder.path(), &arguments);
        let came_to_light = finding_rows(folder.path(), &arguments, &["G203"]) - below_bottom;
        assert_eq!(after - before + came_to_light, wells, "{name}: {last}\n{said}");
    }
}

/// How many rows have a finding of these codes.
fn finding_rows(folder: &Path, arguments: &[&str], codes: &[&str]) -> u64 {
    let mut all = vec!["check", "--json"];
    all.extend(arguments);
    let found = messages(&run_in(folder, &all));
    found.iter().filter(|message| message["code"].as_str().is_some_and(|code| codes.contains(&code))).count() as u64
}

/// Letters of the East are two places wide.
fn places(line: &str) -> usize {
    let wide = |letter: char| matches!(letter, '\u{1100}'..='\u{115f}' | '\u{2e80}'..='\u{ffef}');
    line.chars().map(|letter| if wide(letter) { 2 } else { 1 }).sum()
}

#[track_caller]
fn fits(screen: &str, name: &str) {
    let lines: Vec<&str> = screen.lines().collect();
    assert!(lines.len() <= 40, "{name}: {} lines\n{screen}", lines.len());
    for line in &lines {
        assert!(places(line) <= 80, "{name}: {} wide: {line}", places(line));
        assert!(!line.chars().any(char::is_control), "{name}: {line:?}");
    }
}

/// Every fixture that can be read: a screen, whose counts are those of the messages and of a recount of the findings.
#[test]
fn every_screen_fits_and_counts_as_the_messages_do() {
    let mut screens = 0;
    let mut not_wells = 0;
    for under in ["fixtures/dirty", "fixtures/findings"] {
        let folder = root().join(under);
        for name in names(&folder).iter().filter(|name| !name.ends_with(".toml")) {
            let json = run_in(&folder, &["check", name, "--json"]);
            if json.code == 2 {
                continue;
            }
            let said = run_in(&folder, &["check", name]).ended(json.code);
            screens += 1;
            fits(&said.out, name);
            let messages = messages(&json);
            let last = messages.last().unwrap();
            let count = |key: &str| last[key].as_u64().unwrap();
            let (planned, held_back) = (count("visits_admitted"), count("visits_held_back"));
            not_wells += count("rows_not_wells");
            let others = count("visits_excluded") + count("rows_not_wells");
            assert_eq!(count("rows_read"), planned + held_back + others, "{name}");
            let wells = if planned + held_back == 1 { "well" } else { "wells" };
            let begins = format!("{planned} of {} {wells} can be planned now", planned + held_back);
            assert!(said.out.starts_with(&begins), "{name}: wanted {begins}\n{}", said.out);
            assert_eq!(said.out.contains("(exit code 1)"), held_back > 0, "{name}\n{}", said.out);
            assert_eq!(said.code, i32::from(held_back > 0), "{name}");
            // Rows with a finding that holds back: those of a list, below its headings, have a well's name or lack one.
            let mut rows: BTreeSet<String> = BTreeSet::new();
            for message in messages.iter().filter(|message| message["message"] == "finding") {
                let below = !message["well_id"].is_null() || message["code"] == "I101";
                if message["severity"] == "error" && below {
                    rows.insert(format!("{} {} {}", message["file"], message["sheet"], message["row"]));
                }
            }
            let recount = rows.len() as u64;
            // A file named twice has its rows twice.
            if !name.starts_with("F111") {
                assert_eq!(recount, held_back, "{name}: {rows:?}");
            }
        }
    }
    assert!(screens > 200 && not_wells > 3, "{screens} screens, {not_wells} rows that are no wells");
}

/// Lists made to run over: hundreds of words, of questions, of lists; headings with line breaks, marks and wide letters.
#[test]
fn no_list_is_too_messy_for_a_screen() {
    let folder = folder();
    let wide = "深さの単位がどこにも書かれていない列の見出しはとても長いので一行には収まりません";
    let mut lists = Vec::new();
    for file in 0..30 {
        let mut list =
            format!("well_id,well_type,depth (ells \u{1b}[31m{file}),\"water\nlevel (ft) {wide}\",diameter\r\n");
        for row in 0..40 {
            let kind = format!("{wide} kind {}", row * file);
            list += &format!("W{file}-{row},{kind},1{row},{row} or 300,\"{row} x {wide}\"\r\n");
        }
        let name = format!("a list with a very long name, of county number {file} and its townships.csv");
        place(folder.path(), &name, list);
        lists.push(name);
    }
    for many in [1, 2, 30] {
        let arguments: Vec<&str> = lists[..many].iter().map(String::as_str).collect();
        let said = screen(folder.path(), &arguments);
        fits(&said, &format!("{many} lists"));
        assert_eq!(said.contains("more causes; --all shows them"), many == 30, "{said}");
    }
    // And the whole, where it is asked for.
    let mut all = vec!["--all"];
    all.extend(lists.iter().map(String::as_str));
    let said = screen(folder.path(), &all);
    assert!(!said.contains("more causes;") && said.lines().count() > 1000, "{said}");
}

#[test]
fn a_missing_column_is_said_once() {
    let folder = folder();
    let mut list = "well_id,well_type,depth (ft),swl (ft)\n".to_owned();
    (0..30).for_each(|at| list += &format!("W{at},drilled,180,40\n"));
    place(folder.path(), "wells.csv", list);
    let said = screen(folder.path(), &["wells.csv"]);
    assert!(said.contains("\n     30  no column for diameter  wells.csv\n"), "{said}");
    assert!(!said.contains("diameter missing"), "{said}");
    let all = screen(folder.path(), &["wells.csv", "--all"]);
    assert_eq!(all.matches("[H118]").count(), 1, "{all}");
    assert!(!all.contains("[G206]"), "{all}");
    assert!(
        all.contains("\nheld back  wells.csv:2 well W0: no column for casing diameter (said once above)\n"),
        "{all}"
    );
    // The tables keep a line a row, in words that say why.
    let json = run_in(folder.path(), &["check", "wells.csv", "--json"]);
    let rows: Vec<Value> = messages(&json).into_iter().filter(|message| message["code"] == "G206").collect();
    assert_eq!(rows.len(), 30);
    assert!(rows.iter().all(|row| row["says"] == "the list has no column for the diameter"), "{rows:?}");
}

/// The next command is one that can be typed: it is, and does what was said.
#[test]
fn the_next_command_can_be_typed() {
    let folder = folder();
    place(folder.path(), "my wells.csv", format!("well_id,well_type,depth,swl,diameter\n{}", sound("A")));
    let said = screen(folder.path(), &["my wells.csv"]);
    assert!(said.contains("\n  aftercrest check 'my wells.csv' --units UNITS\n"), "{said}");
    let said = run_in(folder.path(), &["check", "my wells.csv", "--units", "us"]).ended(0).out;
    assert!(said.ends_with("\n  aftercrest plan 'my wells.csv' --scenarios FILE --out campaign\n"), "{said}");
    // Single cells: written out, mended, given back.
    place(folder.path(), "wells.csv", "well_id,well_type,depth (ft),swl (ft),diameter (in)\nA,drilled,40,180,6\n");
    let said = screen(folder.path(), &["wells.csv"]);
    assert!(said.contains("\n  aftercrest check wells.csv --corrections-out todo.xlsx\n"), "{said}");
    let said = screen(folder.path(), &["wells.csv", "--corrections-out", "todo.xlsx"]);
    assert!(said.contains("\n  aftercrest check wells.csv --corrections todo.xlsx\n"), "{said}");
    run_in(folder.path(), &["check", "wells.csv", "--corrections", "todo.xlsx"]).ended(1);
    let minimal = std::fs::read_to_string(root().join("scenarios/minimal.toml")).unwrap();
    place(folder.path(), "plan.toml", minimal);
    place(folder.path(), "wells.csv", "well_id,well_type,depth (ft),swl (ft),diameter (in)\nA,drilled,180,40,6\n");
    let said = run_in(folder.path(), &["check", "wells.csv", "--scenarios", "plan.toml"]).ended(0).out;
    let typed = said.lines().last().unwrap().trim().strip_prefix("aftercrest ").unwrap().to_owned();
    run_in(folder.path(), &typed.split(' ').collect::<Vec<_>>()).ended(0);
}

/// The same bytes on any number of threads, over many batches.
#[test]
fn the_screen_is_the_same_on_any_number_of_threads() {
    let folder = folder();
    let mut list = "well_id,well_type,depth,swl (ft),diameter (in)\n".to_owned();
    for at in 0..40_000 {
        let kind = ["drilled", "bord", "DR", "sunk"][at % 4];
        let depth = ["180", "180 ft", "", "180 gal"][at / 7 % 4];
        let swl = ["40", "200", "40 or 50", "", "dry"][at / 11 % 5];
        list += &format!("W{at},{kind},{depth},{swl},6\n");
    }
    let path = place(folder.path(), "wells.csv", list);
    let said: Vec<String> = ["1", "2", "5"]
        .iter()
        .map(|threads| {
            let path = path.to_str().unwrap();
            answer(command().args(["check", path]).env("RAYON_NUM_THREADS", threads)).ended(1).out
        })
        .collect();
    assert!(said.iter().all(|one| *one == said[0]), "{said:#?}");
    fits(&said[0], "40,000 rows");
}

/// What people read says what a finding does to a well; programs read the words they always read.
#[test]
fn what_holds_a_well_back_is_called_so() {
    let list = "fixtures/findings/G203-water-level-below-bottom.csv";
    assert!(run(&["check", list, "--all"]).out.starts_with("held back [G203]"));
    assert!(run(&["check", list, "--json"]).out.contains("\"severity\":\"error\""));
    assert!(run(&["explain", "G203"]).out.starts_with("G203 water level below bottom (held back)\n"));
    assert!(run(&["explain", "C112"]).out.starts_with("C112 range (check)\n"));
}
