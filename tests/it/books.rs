//! Campaign books: what is stated there is what a scenario file states, both ways; what cannot be followed is named with its
//! cell, all at once; the lists' questions are on its sheets, and answers are kept.

use std::path::Path;

use aftercrest::book::{self, Alike, Contents, Understood};
use aftercrest::document::cell::{Book, Cell, Sheet, Value};
use aftercrest::document::entry::Allowed;
use aftercrest::error::{Error, FaultPlace};
use aftercrest::scenario::stated::{Document, Table};
use aftercrest::scenario::{Campaign, file_text, toml_text};
use aftercrest::write::xlsx;
use calamine::Data;

use crate::reading::fixtures;
use crate::running::{folder, names, place, root, run};

fn path_in(folder: &tempfile::TempDir, name: &str) -> String {
    folder.path().join(name).display().to_string()
}

fn stated(path: &Path, text: &str) -> Table {
    let document = Document::new(path, text);
    let stated = file_text::read(&document).unwrap();
    stated.value.table().unwrap().clone()
}

fn sheets(table: &Table) -> Book {
    let lists = Understood::default();
    book::book(Contents { stated: table, lists: &lists, repairs: None, wells: None, system: None, replaces: None })
}

/// What a book states, with what is wrong in it.
fn read(path: &Path) -> (Table, Option<Error>) {
    let document = Document::new(path, "");
    let book = book::read(path, &document).unwrap();
    Campaign::of(&document, &book.stated);
    (book.stated.value.table().unwrap().clone(), document.refusal())
}

#[test]
fn a_scenario_file_is_the_same_after_having_been_a_book() {
    let folder = folder();
    let mut compared = 0;
    let mut faults = Vec::new();
    for of in ["scenarios", "fixtures/dirty", "fixtures/findings"] {
        for name in
            names(&root().join(of)).into_iter().filter(|name| name.ends_with(".toml") && name != "products.toml")
        {
            let path = root().join(of).join(&name);
            let text = std::fs::read_to_string(&path).unwrap();
            let table = stated(&path, &text);
            let before = toml_text::text_of(&table);
            let at = path_in(&folder, &format!("{compared}.xlsx"));
            xlsx::write_new_book(Path::new(&at), &sheets(&table)).unwrap();
            let after = toml_text::text_of(&read(Path::new(&at)).0);
            let lost: Vec<&str> = before.lines().filter(|line| !after.lines().any(|other| other == *line)).collect();
            let new: Vec<&str> = after.lines().filter(|line| !before.lines().any(|other| other == *line)).collect();
            if !lost.is_empty() || !new.is_empty() {
                faults.push(format!("{name}:\n  lost {lost:#?}\n  new {new:#?}"));
            }
            compared += 1;
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(compared >= 20, "{compared}");
}

#[test]
fn the_demo_as_a_book_gives_the_same_bytes() {
    let folder = folder();
    let demo = root().join("fixtures/demo");
    for list in ["harrowfen-county.xlsx", "quillmoor-county.csv"] {
        std::fs::copy(demo.join(list), folder.path().join(list)).unwrap();
    }
    let (north, south) = (path_in(&folder, "harrowfen-county.xlsx"), path_in(&folder, "quillmoor-county.csv"));
    let scenarios = root().join("scenarios/demo.toml").display().to_string();
    let (book, by_file, by_book) =
        (path_in(&folder, "demo.xlsx"), path_in(&folder, "by-file"), path_in(&folder, "by-book"));
    run(&["start", "--from", &scenarios, &north, &south, "--out", &book]).ended(0);
    run(&["plan", &north, &south, "--scenarios", &scenarios, "--out", &by_file]).ended(1);
    run(&["plan", &book, "--out", &by_book]).ended(1);
    let all = ["treatments.csv", "visits.csv", "totals.csv", "orders.csv", "findings.csv", "crew-sheets.html"];
    for name in all {
        let read = |folder: &str| std::fs::read(Path::new(folder).join(name)).unwrap();
        assert!(read(&by_file) == read(&by_book), "{name} differs");
    }
    // What to do is said by lines of the file there, by sheets of the book here; how another scenario's order is seen is said
    // by the command there; nothing else differs.
    let sheets_of = |folder: &str| crate::running::sheets(&Path::new(folder).join("campaign.xlsx"));
    for ((name, rows), (other, as_book)) in sheets_of(&by_file).iter().zip(&sheets_of(&by_book)) {
        assert_eq!(name, other);
        let differ = rows.iter().zip(as_book).filter(|(one, other)| one != other);
        let said_apart = ["--only", "To leave dry wells out"];
        let by_command =
            |row: &[Data]| row.iter().any(|cell| said_apart.iter().any(|said| cell.to_string().contains(said)));
        let alike = rows.len() == as_book.len() && differ.into_iter().all(|(row, _)| by_command(row));
        assert!(alike || name.starts_with("Findings"), "{name} differs");
    }
    // The workbook of the plan is planned again, its lists in the folder above: nothing was changed in it.
    let unchanged = path_in(&folder, "unchanged");
    run(&["plan", &format!("{by_file}/campaign.xlsx"), "--out", &unchanged]).ended(1);
    for name in ["treatments.csv", "totals.csv", "orders.csv", "findings.csv"] {
        let read = |folder: &str| std::fs::read(Path::new(folder).join(name)).unwrap();
        assert!(read(&by_file) == read(&unchanged), "{name} differs after a plan of the plan's workbook");
    }
    // And the book as a scenario file again.
    let back = path_in(&folder, "back.toml");
    run(&["start", "--from", &book, "--out", &back]).ended(0);
    let again = path_in(&folder, "again");
    run(&["plan", &north, &south, "--scenarios", &back, "--out", &again]).ended(1);
    let read = |folder: &str| std::fs::read(Path::new(folder).join("treatments.csv")).unwrap();
    assert!(read(&by_file) == read(&again), "treatments differ");
}

/// Writes a text into the cell of a sheet whose row begins with one text and whose column is headed by another.
fn fill(sheet: &mut Sheet, row: usize, heading: &str, value: Value) {
    let heads = sheet.layout.frozen_rows as usize - 1;
    let says = |cell: &Cell| matches!(&cell.value, Value::Text(text) if text == heading);
    let column = sheet.rows[heads].iter().position(says).unwrap_or_else(|| panic!("{} has no {heading}", sheet.name));
    sheet.rows[heads + 1 + row][column].value = value;
}

fn line(sheet: &mut Sheet, title: &str, value: Value) {
    let row = sheet
        .rows
        .iter()
        .position(|row| row.first().is_some_and(|cell| matches!(&cell.value, Value::Text(text) if text == title)));
    sheet.rows[row.unwrap_or_else(|| panic!("no line {title}"))][1].value = value;
}

fn sheet<'a>(book: &'a mut Book, name: &str) -> &'a mut Sheet {
    book.sheets.iter_mut().find(|sheet| sheet.name == name).unwrap_or_else(|| panic!("no sheet {name}"))
}

fn demo_book() -> Book {
    let path = root().join("scenarios/demo.toml");
    sheets(&stated(&path, &std::fs::read_to_string(&path).unwrap()))
}

#[test]
fn wrong_entries_are_refused_with_their_cells_all_at_once() {
    let text = |text: &str| Value::text(text);
    let number = |number: f64| Value::number(number, 3);
    let mut book = demo_book();
    let practice = sheet(&mut book, "Practice");
    line(practice, "Target", number(-5.0));
    line(practice, "Contact time", text("a day"));
    line(practice, "Demand factors where something was measured", text("some"));
    line(practice, "Plumbing where the list gives none", text("30 ft"));
    line(practice, "Wells re-treated", number(30.0));
    line(practice, "Product lost in handling", text("5"));
    line(practice, "Discharge limit", text("1,234"));
    line(practice, "Neutralizer", text("sugar"));
    line(practice, "Routes that are neutralized (and every unknown one)", text("stream; sky"));
    line(practice, "Water temperature where not measured", text("150 C"));
    let campaign = sheet(&mut book, "Campaign");
    line(campaign, "Units", text("american"));
    line(campaign, "Day of the plan", text("5/6/2026"));
    line(campaign, "Repeated rows", text("twice"));
    line(campaign, "Box on the map", text("45; 46"));
    let products = sheet(&mut book, "Products");
    fill(products, 0, "Chemical", text("bleach"));
    fill(products, 1, "Strength (%)", number(0.125));
    fill(products, 1, "Made on (YYYY-MM-DD)", text("last week"));
    fill(products, 2, "Stored at (with its unit)", text("warm"));
    let packages = sheet(&mut book, "Packages and prices");
    fill(packages, 2, "Size (with its unit)", text("5"));
    fill(packages, 3, "Price", text("cheap"));
    fill(packages, 4, "Available", number(2.5));
    fill(packages, 5, "Product or neutralizer", text("chalk"));
    let stock = sheet(&mut book, "Stock");
    fill(stock, 0, "Product", text("blech"));
    fill(stock, 1, "On hand (with its unit)", text("a lot"));
    let scenarios = sheet(&mut book, "Scenarios");
    fill(scenarios, 1, "Product", text("nothing"));
    fill(scenarios, 2, "Contact time (h)", number(1000.0));
    fill(scenarios, 2, "Setting 1", text("Mood"));
    fill(scenarios, 3, "Value 1", text("5"));
    let combinations = sheet(&mut book, "Combinations");
    fill(combinations, 1, "Value 1", text("fifty"));
    let exceptions = sheet(&mut book, "Exceptions");
    fill(exceptions, 0, "Leave out", text("perhaps"));
    let missing = sheet(&mut book, "Missing");
    fill(missing, 0, "Low", text("90 in"));
    fill(missing, 1, "Type of well", text("pond"));
    let supplies = sheet(&mut book, "Supplies");
    fill(supplies, 0, "Needed at each visit", number(-3.0));
    let lists = sheet(&mut book, "Lists");
    fill(lists, 0, "File", text("nolist.csv"));
    fill(lists, 0, "Units", text("yards"));
    fill(sheet(&mut book, "Columns"), 0, "Read as", text("casing dpth"));
    let words = sheet(&mut book, "Words");
    fill(words, 0, "Field", text("well type"));
    fill(words, 0, "Word", text("tbwl"));
    fill(words, 0, "Means", text("tubby"));
    let names = sheet(&mut book, "Names");
    for (heading, typed) in [("Field", "depot"), ("Name", "Hall"), ("Looks like", "Hal"), ("Keep", "Barn")] {
        fill(names, 0, heading, text(typed));
    }
    let counts = sheet(&mut book, "Counts");
    fill(counts, 0, "Scenario", text("no such"));
    fill(counts, 0, "Item", text("liquid 12.5"));
    fill(counts, 0, "Count", text("some"));
    fill(sheet(&mut book, "Crews"), 0, "Visits a day", text("many"));
    let folder = folder();
    let at = path_in(&folder, "wrong.xlsx");
    xlsx::write_new_book(Path::new(&at), &book).unwrap();
    let Some(Error::Scenario(faults)) = read(Path::new(&at)).1 else { panic!("nobody minds") };
    let cells: Vec<String> = faults
        .iter()
        .map(|fault| match &fault.place {
            FaultPlace::Cell { sheet, cell, .. } => format!("{sheet} {cell}"),
            other => panic!("no cell: {other:?} {}", fault.reason),
        })
        .collect();
    let mut once = cells.clone();
    once.sort();
    once.dedup();
    let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert!(once.len() >= 30, "{} cells:\n{}", once.len(), said.join("\n"));
    for sheet in [
        "Practice",
        "Campaign",
        "Products",
        "Packages and prices",
        "Stock",
        "Scenarios",
        "Combinations",
        "Exceptions",
        "Missing",
        "Supplies",
        "Lists",
        "Columns",
        "Words",
        "Names",
        "Counts",
        "Crews",
    ] {
        assert!(once.iter().any(|cell| cell.starts_with(sheet)), "nothing of {sheet}:\n{}", said.join("\n"));
    }
}

#[test]
fn what_is_said_twice_is_refused_where_it_is_said_again() {
    let mut book = demo_book();
    let campaign = sheet(&mut book, "Campaign");
    let currency =
        campaign.rows.iter().position(|row| matches!(&row[0].value, Value::Text(text) if text == "Currency"));
    let mut again = campaign.rows[currency.unwrap()].clone();
    again[1].value = Value::text("EUR");
    campaign.rows.push(again);
    let products = sheet(&mut book, "Products");
    for row in &mut products.rows {
        if let Some(name) = row.first().cloned() {
            row.push(name);
        }
    }
    let folder = folder();
    let at = path_in(&folder, "twice.xlsx");
    xlsx::write_new_book(Path::new(&at), &book).unwrap();
    let Some(Error::Scenario(faults)) = read(Path::new(&at)).1 else { panic!("nobody minds") };
    let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert!(said.iter().any(|said| said.contains("says something else; keep one of the two")), "{said:?}");
    assert!(said.iter().any(|said| said.contains("has two columns called")), "{said:?}");
}

#[test]
fn what_people_type_is_taken_as_they_mean_it() {
    let text = |text: &str| Value::text(text);
    let mut book = demo_book();
    let practice = sheet(&mut book, "Practice");
    line(practice, "Target", text(" 120 mg/L "));
    line(practice, "Contact time", text("12,5"));
    line(practice, "Plumbing where the list gives none", Value::number(40.0, 0));
    line(practice, "Wells re-treated", text("30"));
    line(practice, "Product lost in handling", text("7 %"));
    line(practice, "Neutralizer", text("Sodium sulfite"));
    line(sheet(&mut book, "Campaign"), "Day of the plan", text("31 May 2026"));
    fill(sheet(&mut book, "Products"), 1, "Strength (%)", text("12.5 %"));
    fill(sheet(&mut book, "Packages and prices"), 0, "Price", text("$5.60"));
    fill(sheet(&mut book, "Packages and prices"), 1, "Price", text("1 204,50"));
    fill(sheet(&mut book, "Exceptions"), 1, "Other condition", text("depot = \u{2018}Mill Lane\u{2019} OR flooded "));
    let folder = folder();
    let at = path_in(&folder, "typed.xlsx");
    xlsx::write_new_book(Path::new(&at), &book).unwrap();
    let (table, refusal) = read(Path::new(&at));
    assert!(refusal.is_none(), "{}", refusal.unwrap());
    let said = toml_text::text_of(&table);
    for wanted in [
        "target_mg_per_l = 120\n",
        "hold_hours = 12.5\n",
        "plumbing_volume = \"40 US gal\"\n",
        "repeat_share = 0.3\n",
        "handling_loss = 0.07\n",
        "neutralizer = \"sodium_sulfite\"",
        "date = 2026-05-31\n",
        "percent = 12.5",
        "price = 5.6,",
        "price = 1204.5,",
        "where = \"well_type = 'dug' AND flooded\"\n",
        "where = \"depot = 'Mill Lane' OR flooded\"\n",
    ] {
        assert!(said.contains(wanted), "{wanted} is not in:\n{said}");
    }
}

#[test]
fn hostile_text_stays_text() {
    let hostile =
        ["=1+1", "@SUM(A1)", "<b>&\"';--", "{{x}}", "\u{202E}evil", "[[override]]", "a\\nb\"", "+cmd|' /C calc'!A0"];
    for word in hostile {
        let text = format!(
            "[campaign]\nunits = \"us\"\ntitle = {0}\ngroup_by = [{0}]\n[[product]]\nname = {0}\nchemical = \"sodium_hypochlorite\"\n\
             strength = {{ percent = 6, basis = \"weight_naocl\" }}\nlabel = {0}\n[[scenario]]\nname = {0}\nproduct = {0}\n\
             [[supply]]\nname = {0}\n[[stock]]\ndepot = {0}\nproduct = {0}\n\
             [[crew]]\nname = {0}\ndepot = {0}\nvisits_per_day = 3\n[inventory.words.depot]\n\"Hall\" = {0}\n",
            toml_text::inline(&aftercrest::scenario::stated::Written::Text(word.to_owned()), None)
        );
        let table = stated(Path::new("hostile.toml"), &text);
        let folder = folder();
        let at = path_in(&folder, "hostile.xlsx");
        xlsx::write_new_book(Path::new(&at), &sheets(&table)).unwrap();
        let bytes = std::fs::read(&at).unwrap();
        assert!(!bytes.windows(3).any(|part| part == b"<f>"), "{word} became a formula");
        let (back, refusal) = read(Path::new(&at));
        assert!(refusal.is_none(), "{word}: {}", refusal.unwrap());
        assert_eq!(toml_text::text_of(&back), toml_text::text_of(&table), "{word}");
    }
}

#[test]
fn lists_become_a_book_that_is_checked_planned_and_brought_up_to_date() {
    let folder = folder();
    for list in ["county_health_form.csv", "conservation_district.xlsx"] {
        std::fs::copy(fixtures("lists").join(list), folder.path().join(list)).unwrap();
    }
    let (one, other) = (path_in(&folder, "county_health_form.csv"), path_in(&folder, "conservation_district.xlsx"));
    let book = path_in(&folder, "book.xlsx");
    let said = run(&["start", &one, "--out", &book, "--units", "us"]).ended(0);
    assert!(said.out.contains("wells can be planned now") && said.out.contains("Written: "), "{}", said.out);
    assert!(run(&["start", &one, "--out", &book]).ended(2).err.contains("already exists"));
    assert!(run(&["check", &book]).out.contains("can be planned now"));
    let planned = run(&["plan", &book, "--out", &path_in(&folder, "campaign")]);
    assert!(folder.path().join("campaign/campaign.xlsx").exists(), "{}", planned.err);
    // Units are stated in the book as well; without them it says where.
    let open = path_in(&folder, "open.xlsx");
    run(&["start", &one, &other, "--out", &open]).ended(0);
    let refused = run(&["plan", &open, "--out", &path_in(&folder, "nothing")]).ended(2);
    assert!(refused.err.contains("sheet Campaign, B"), "{}", refused.err);
    // Brought up to date: nothing is lost, and a second time nothing changes.
    run(&["start", &book, "--update"]).ended(0);
    let first = read(Path::new(&book)).0;
    let bytes = std::fs::read(&book).unwrap();
    run(&["start", &book, "--update"]).ended(0);
    assert_eq!(toml_text::text_of(&read(Path::new(&book)).0), toml_text::text_of(&first));
    assert!(bytes == std::fs::read(&book).unwrap(), "a second update changes the book");
}

#[test]
fn files_that_are_handed_over_without_a_word() {
    let folder = folder();
    std::fs::copy(fixtures("lists").join("county_health_form.csv"), folder.path().join("wells.csv")).unwrap();
    let list = path_in(&folder, "wells.csv");
    let made = run(&[&list]).ended(0);
    assert!(made.out.trim_end().lines().last().unwrap().contains("wells, campaign book.xlsx"), "{}", made.out);
    run(&[&list]).ended(0);
    assert!(folder.path().join("wells, campaign book 2.xlsx").exists());
    // The book still lacks its units, and says in which cell.
    let book = path_in(&folder, "wells, campaign book.xlsx");
    assert!(run(&[&book]).ended(2).err.contains("sheet Campaign, B"));
    let us = path_in(&folder, "us.xlsx");
    run(&["start", &list, "--out", &us, "--units", "us"]).ended(0);
    let planned = run(&[&us]);
    assert!(planned.out.trim_end().ends_with("Open campaign.xlsx in it."), "{}{}", planned.out, planned.err);
    assert!(folder.path().join("us, plan/campaign.xlsx").exists());
    assert!(run(&["chekc"]).ended(2).err.contains("did you mean `check`?"));
}

/// Wells of a depot that is written in two ways, one letter apart; W1 has no diameter, and two have a rate that cannot be read.
const TWO_SPELLINGS: &str = "Well ID,Depot,Well type,Depth (m),Static level (m),Diameter (mm),Yield (L/min)\n\
                             W1,Mill Lane,drilled,40,5,,20\nW2,Mil Lane,drilled,30,5,150,20\nW3,Mill Lane,drilled,60,5,150,30 bananas\n\
                             W4,Mill Lane,dug,20,5,1200,30\nW5,Hall,dug,60,3,1500,plenty of it\nW6,Mill Lane,drilled,50,5,150,20\n";

const METRIC: &str = "[campaign]\nunits = \"metric\"\ngroup_by = [\"depot\"]\n[practice]\nflush = { until_mg_per_l = 0.1 }\n\
                      [[scenario]]\nname = \"one\"\nproduct = \"liquid 12.5\"\n";

#[test]
fn a_book_asks_which_of_two_names_is_kept_and_plans_by_the_answer() {
    let folder = folder();
    let list = place(folder.path(), "wells.csv", TWO_SPELLINGS).display().to_string();
    let book = path_in(&folder, "book.xlsx");
    let said = run(&["start", &list, "--out", &book, "--units", "metric"]).ended(0);
    assert!(said.out.contains("Names: 1 open"), "{}", said.out);
    let table = |book: &str, name: &str| -> Vec<Vec<String>> {
        let sheets = crate::running::sheets(Path::new(book));
        let (_, rows) = sheets.into_iter().find(|(sheet, _)| sheet == name).unwrap();
        rows.into_iter().map(|row| row.iter().map(ToString::to_string).collect()).collect()
    };
    let names = table(&book, "Names");
    let asked = names.iter().find(|row| row[3] == "Mil Lane").unwrap_or_else(|| panic!("{names:#?}"));
    assert_eq!(asked[2..6], ["depot", "Mil Lane", "Mill Lane", ""]);
    // Whichever of the two is kept, the other is counted under it, and the book keeps the answer.
    for (keep, counted) in [("Mill Lane", "Mil Lane"), ("Mil Lane", "Mill Lane")] {
        let alike = Alike { field: "depot", name: "Mil Lane".into(), other: "Mill Lane".into(), ..Alike::default() };
        let lists =
            Understood { lists: vec![("wells.csv".to_owned(), 6)], names: vec![alike], ..Understood::default() };
        let stated = stated(Path::new("metric.toml"), METRIC);
        let mut made = book::book(Contents {
            stated: &stated,
            lists: &lists,
            repairs: None,
            wells: None,
            system: None,
            replaces: None,
        });
        let row = &mut sheet(&mut made, "Names").rows;
        let at =
            row.iter().position(|row| matches!(&row[..], [_, _, _, name, ..] if name.value == Value::text("Mil Lane")));
        row[at.unwrap()][5].value = Value::text(keep);
        let filled = path_in(&folder, &format!("{keep}.xlsx"));
        xlsx::write_new_book(Path::new(&filled), &made).unwrap();
        let (back, refusal) = read(Path::new(&filled));
        assert!(refusal.is_none(), "{}", refusal.unwrap());
        let text = toml_text::text_of(&back);
        assert!(text.contains(&format!("words = {{ depot = {{ \"{counted}\" = \"{keep}\" }} }}")), "{text}");
        let out = path_in(&folder, &format!("plan, {keep}"));
        run(&["plan", &filled, "--out", &out]).ended(1);
        let visits = crate::running::rows(&Path::new(&out).join("visits.csv"));
        let depots: Vec<&str> = visits.iter().map(|row| row["depot"].as_str()).collect();
        assert_eq!(depots, [keep, keep, keep, keep, "Hall", keep]);
        let orders = std::fs::read_to_string(Path::new(&out).join("orders.csv")).unwrap();
        assert!(orders.contains(&format!(",{keep},")) && !orders.contains(&format!(",{counted},")), "{orders}");
        run(&["start", &filled, "--update"]).ended(0);
        let names = table(&filled, "Names");
        assert!(names.iter().any(|row| row[2..6] == ["depot", counted, keep, keep]), "{names:#?}");
        assert!(toml_text::text_of(&read(Path::new(&filled)).0).contains(&format!("\"{counted}\" = \"{keep}\"")));
    }
    let refused = stated(Path::new("bad.toml"), &format!("{METRIC}[inventory.words.depot]\n\"Mil Lane\" = 3\n"));
    let at = path_in(&folder, "bad.toml");
    std::fs::write(&at, toml_text::text_of(&refused)).unwrap();
    let said = run(&["check", &list, "--scenarios", &at]).ended(2).err;
    assert!(said.contains("say under which name \"Mil Lane\" is counted"), "{said}");
}

#[test]
fn repairs_stand_by_problem_that_of_most_water_first() {
    let folder = folder();
    let list = place(folder.path(), "wells.csv", TWO_SPELLINGS).display().to_string();
    let book = path_in(&folder, "book.xlsx");
    run(&["start", &list, "--out", &book, "--units", "metric"]).ended(0);
    let sheets = crate::running::sheets(Path::new(&book));
    let (_, rows) = sheets.into_iter().find(|(sheet, _)| sheet == "Repairs").unwrap();
    let wells: Vec<(String, String)> = rows
        .iter()
        .filter(|row| row.len() > 8 && row[5].to_string().starts_with('W'))
        .map(|row| (row[5].to_string(), row[6].to_string()))
        .collect();
    let at = |well: &str, field: &str| {
        let found = wells.iter().position(|(of, what)| of.starts_with(&format!("{well} ·")) && what == field);
        found.unwrap_or_else(|| panic!("no {field} of {well} in {wells:?}"))
    };
    // What holds a well back comes first; of the two rates that cannot be read the well of a hundred times the water.
    let rates = (at("W5", "well yield"), at("W3", "well yield"));
    assert!(rates.0 < rates.1, "{wells:?}");
    let held_back = wells.iter().position(|(well, _)| well.starts_with("W1 ·")).unwrap();
    assert!(held_back < rates.0, "{wells:?}");
}

#[test]
fn a_book_may_hold_the_wells_itself() {
    let folder = folder();
    let mut wells = Sheet::new("Wells");
    for line in TWO_SPELLINGS.lines() {
        wells.push(line.split(',').map(Cell::text).collect());
    }
    let stated = stated(Path::new("metric.toml"), METRIC);
    let lists = Understood::default();
    let made = book::book(Contents {
        stated: &stated,
        lists: &lists,
        repairs: None,
        wells: Some(wells),
        system: None,
        replaces: None,
    });
    let book = path_in(&folder, "book.xlsx");
    xlsx::write_new_book(Path::new(&book), &made).unwrap();
    let said = run(&["check", &book]).ended(1);
    assert!(said.out.contains("5 of 6 wells"), "{}", said.out);
    let out = path_in(&folder, "out");
    run(&["plan", &book, "--out", &out]).ended(1);
    // The same wells in a file of their own need the same.
    let list = place(folder.path(), "wells.csv", TWO_SPELLINGS).display().to_string();
    let scenarios = place(folder.path(), "metric.toml", METRIC).display().to_string();
    let beside = path_in(&folder, "beside");
    run(&["plan", &list, "--scenarios", &scenarios, "--out", &beside]).ended(1);
    for name in ["treatments.csv", "totals.csv", "orders.csv"] {
        let read = |folder: &str| std::fs::read_to_string(Path::new(folder).join(name)).unwrap();
        assert_eq!(read(&out), read(&beside), "{name}");
    }
    // And the blank book is such a book: its sheet Wells waits to be filled in.
    let blank = path_in(&folder, "blank.xlsx");
    run(&["template", "--out", &blank, "--units", "metric"]).ended(0);
    let said = run(&["check", &blank]).ended(2);
    assert!(said.err.contains("its sheet Wells holds none"), "{}", said.err);
    let refused = run(&["start", &book, "--update"]).ended(2);
    assert!(refused.err.contains("its wells stand in it"), "{}", refused.err);
}

#[test]
fn cells_for_shares_and_quantities_have_bounds() {
    let mut made = demo_book();
    let rule = |sheet: &Sheet, title: &str, column: u16| {
        let row = sheet.rows.iter().position(|row| row.first().is_some_and(|cell| cell.value == Value::text(title)));
        let row = row.unwrap_or_else(|| panic!("no line {title}")) as u32;
        let mut entries = sheet.layout.entries.iter().filter(|entry| entry.column == column);
        let found = entries.find(|entry| (entry.first_row..=entry.last_row).contains(&row));
        found.unwrap_or_else(|| panic!("nothing bounds {title}")).allowed.clone()
    };
    let practice = sheet(&mut made, "Practice");
    assert_eq!(rule(practice, "Wells re-treated", 1), Allowed::TextOrBetween(0.0, 10.0, false));
    assert!(
        matches!(rule(practice, "Plumbing where the list gives none", 1), Allowed::TextOrBetween(least, _, false) if least == 0.0)
    );
    // Every share, quantity, number and count of the upright sheets has its bounds.
    for name in ["Practice", "Campaign"] {
        let sheet = sheet(&mut made, name);
        let heads = sheet.layout.frozen_rows as usize;
        let may_be = |row: &Vec<Cell>| row.get(4).map_or(String::new(), |cell| cell.value.shown());
        for row in
            sheet.rows[heads..].iter().filter(|row| may_be(row).contains(" to ") || may_be(row).contains(" or more"))
        {
            rule(sheet, &row[0].value.shown(), 1);
        }
    }
    // A size without a unit is asked about.
    let packages = sheet(&mut made, "Packages and prices");
    assert!(packages.layout.entries.iter().any(|entry| entry.allowed == Allowed::Words));
    let folder = folder();
    let at = path_in(&folder, "book.xlsx");
    xlsx::write_new_book(Path::new(&at), &made).unwrap();
    let parts = crate::running::parts(Path::new(&at));
    let rules: usize = parts
        .iter()
        .filter(|(name, _)| name.contains("worksheets/sheet"))
        .map(|(_, bytes)| String::from_utf8_lossy(bytes).matches("<formula1>OR(ISTEXT(").count())
        .sum();
    assert!(rules > 10, "{rules} cells have such a rule");
}
