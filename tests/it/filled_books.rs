//! Campaign books as people fill them in and hand them to the command: every cell is taken as it is meant, asked or refused with
//! its place; nothing typed becomes something else, and nothing is lost when a book is brought up to date.

use std::path::{Path, PathBuf};

use tempfile::TempDir;

use crate::filling::{Typed, as_spreadsheet, beside, filled, pack};
use crate::running::{contents, folder, names, number, parts, place, rows, run, sheets};

const LIST: &str = "Well ID,Depot,Well type,Depth (m),Static level (m),Diameter (mm),Yield (L/min),Discharge,Flooded\n\
                    W1,Mill Lane,drilled,40,5,150,20,pasture,yes\nW2,Mil Lane,drilled,30,5,150,20,moonside,yes\n\
                    W3,Mill Lane,drilled,60,5,150,30,pasture,mebbe\nW4,Mill Lane,dug,20,5,1200,30,pasture,no\n\
                    W5,Hall,tbwl,60,3,150,20,pasture,no\nW6,Mill Lane,drilled,50,5,150,plenty,pasture,no\n";

struct Trial {
    folder: TempDir,
    book: PathBuf,
}

impl Trial {
    /// A list, and the book of it in metric units and the currency $.
    fn new() -> Self {
        let folder = folder();
        let list = place(folder.path(), "wells.csv", LIST).display().to_string();
        let blank = folder.path().join("blank.xlsx");
        run(&["start", &list, "--out", &blank.display().to_string(), "--units", "metric"]).ended(0);
        let book = folder.path().join("book.xlsx");
        let currency = beside(&blank, "Campaign", "Currency", "B");
        filled(&blank, &book, &[("Campaign", &currency, Typed::Text("$"))]);
        Self { folder, book }
    }

    fn at(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// The practice's cell of values for a title.
    fn line(&self, title: &str) -> String {
        beside(&self.book, "Practice", title, "B")
    }

    /// The book with cells filled in.
    fn with(&self, name: &str, cells: &[(&str, &str, Typed<'_>)]) -> String {
        let to = self.at(name);
        filled(&self.book, &to, cells);
        to.display().to_string()
    }

    /// The scenario file that a book with these cells comes to.
    fn states(&self, name: &str, cells: &[(&str, &str, Typed<'_>)]) -> String {
        let book = self.with(&format!("{name}.xlsx"), cells);
        let to = self.at(&format!("{name}.toml"));
        run(&["start", "--from", &book, "--out", &to.display().to_string()]).ended(0);
        std::fs::read_to_string(to).unwrap()
    }

    /// What is said of a book with these cells, which is refused.
    fn refused(&self, cells: &[(&str, &str, Typed<'_>)]) -> String {
        let book = self.with("refused.xlsx", cells);
        let said = run(&["check", &book]).ended(2).err;
        std::fs::remove_file(book).unwrap();
        said
    }
}

/// SI Brochure, 9th edition: 1 d = 24 h, 1 µg = 0.001 mg; ppb as µg/L holds for dilute water. ISO 4217 for codes of currencies.
#[test]
fn a_letter_in_a_figure_is_its_unit_or_refused() {
    let trial = Trial::new();
    let (contact, demand, target) =
        (trial.line("Contact time"), trial.line("Demand where nothing was measured"), trial.line("Target"));
    let repeated = trial.line("Wells re-treated");
    let said = trial.states(
        "units",
        &[
            ("Practice", &contact, Typed::Text("2 days")),
            ("Practice", &demand, Typed::Text("3 ppb")),
            ("Practice", &target, Typed::Text("150 mg/L")),
            ("Practice", &repeated, Typed::Text("20")),
            ("Packages and prices", "C6", Typed::Text("$5.60")),
            ("Packages and prices", "C7", Typed::Text("tbd")),
            ("Packages and prices", "C8", Typed::Text("n/a")),
        ],
    );
    for wanted in [
        "hold_hours = 48\n",
        "demand_mg_per_l = 0.003\n",
        "target_mg_per_l = 150\n",
        "repeat_share = 0.2\n",
        "price = 5.6 }",
    ] {
        assert!(said.contains(wanted), "{wanted} is not in\n{said}");
    }
    assert_eq!(said.matches("price =").count(), 1, "{said}");
    for (sheet, cell, typed, wanted) in [
        ("Practice", contact.as_str(), "24 days", "\"Contact time\" must be from 0 to 336, not 576"),
        ("Practice", &contact, "about 7", "write the number alone"),
        ("Practice", &contact, "7 or so", "write it in h"),
        ("Practice", &target, "24 h", "is a unit of duration"),
        ("Practice", &target, "1.200", "1200 or 1.2000"),
        ("Practice", &target, "1,200", "1200 or 1.2000"),
        ("Practice", &repeated, "0.3", "0.3 % or 30 %"),
        ("Packages and prices", "C6", "5.60 CAD", "not the currency of the campaign, $"),
        ("Packages and prices", "C6", "EUR 18", "not the currency of the campaign, $"),
        ("Packages and prices", "C6", "about 7", "not the currency"),
        ("Packages and prices", "C6", "5.60/gal", "not the currency"),
        ("Packages and prices", "C6", "cheap", "is no price"),
    ] {
        let said = trial.refused(&[(sheet, cell, Typed::Text(typed))]);
        assert!(said.contains(&format!("sheet {sheet}, {cell}: ")) && said.contains(wanted), "{typed}: {said}");
    }
    // A line or a heading whose unit somebody changed is in that unit.
    let unit = beside(&trial.book, "Practice", "Contact time", "C");
    let days = [("Practice", contact.as_str(), Typed::Number(2.0)), ("Practice", &unit, Typed::Text("days"))];
    assert!(trial.states("days", &days).contains("hold_hours = 48\n"));
}

/// ECMA-376, part 1, 18.8.30: number format 9 is 0%, and shows 0.06 as 6%.
#[test]
fn a_cell_that_shows_a_percentage_is_one() {
    let trial = Trial::new();
    let (repeated, target) = (trial.line("Wells re-treated"), trial.line("Target"));
    let said = trial
        .states("percent", &[("Practice", &repeated, Typed::Percent(0.3)), ("Products", "C6", Typed::Percent(0.06))]);
    assert!(said.contains("repeat_share = 0.3\n") && said.contains("percent = 6,"), "{said}");
    let refused = trial.refused(&[("Practice", &target, Typed::Percent(0.5))]);
    assert!(refused.contains("shown as a percentage"), "{refused}");
    let refused = trial.refused(&[("Products", "C6", Typed::Number(0.06))]);
    assert!(refused.contains("may be 6 % or 0.06 %"), "{refused}");
}

#[test]
fn a_formula_without_a_result_is_refused_with_its_cell() {
    let trial = Trial::new();
    let target = trial.line("Target");
    for (sheet, cell) in [("Practice", target.as_str()), ("Packages and prices", "C6"), ("Scenarios", "F4")] {
        let said = trial.refused(&[(sheet, cell, Typed::Formula("75*2"))]);
        let wanted = format!("sheet {sheet}, {cell}: the cell holds a formula without a result: open the book in your");
        assert!(said.contains(&wanted), "{said}");
    }
}

#[test]
fn the_workbook_of_a_plan_is_read_like_the_book() {
    let trial = Trial::new();
    let planned = trial.at("plan");
    run(&["plan", &trial.book.display().to_string(), "--out", &planned.display().to_string()]);
    let workbook = planned.join("campaign.xlsx");
    let (_, inputs) = sheets(&workbook).into_iter().find(|(name, _)| name == "Inputs").unwrap();
    let target = inputs.iter().rposition(|row| row.len() > 2 && row[1] == "Target").unwrap() + 1;
    let cell = format!("C{target}");
    let edited = planned.join("edited.xlsx");
    let again = trial.at("again");
    let plan = |typed: Typed<'_>| {
        filled(&workbook, &edited, &[("Inputs", &cell, typed)]);
        run(&["plan", &edited.display().to_string(), "--out", &again.display().to_string(), "--replace"])
    };
    for typed in [Typed::Text("150 mg/L"), Typed::Number(150.0), Typed::Text("150 ppm")] {
        assert_ne!(plan(typed).code, 2);
        let treatments = rows(&again.join("treatments.csv"));
        let planned = treatments.iter().find(|row| row["well_id"] == "W1").unwrap();
        assert_eq!(number(planned, "target_mg_per_l"), 150.0);
    }
    for (typed, wanted) in [
        (Typed::Text("150 days"), "is a unit of duration"),
        (Typed::Formula("75*2"), "a formula without a result"),
        (Typed::Text("1.200"), "1200 or 1.2000"),
    ] {
        let said = plan(typed).ended(2).err;
        assert!(said.contains(&format!("sheet Inputs, {cell}: ")) && said.contains(wanted), "{said}");
    }
}

#[test]
fn what_is_wrong_beside_the_lists_is_told_with_everything_else() {
    let trial = Trial::new();
    let text = Typed::Text;
    let (target, groups) = (trial.line("Target"), beside(&trial.book, "Campaign", "Totals by", "B"));
    let row_of = |sheet: &str, wanted: &str| {
        let (_, rows) = sheets(&trial.book).into_iter().find(|(name, _)| name == sheet).unwrap();
        let row = rows.iter().position(|row| row.iter().any(|cell| *cell == wanted));
        row.unwrap_or_else(|| panic!("{sheet} has no {wanted}: {rows:#?}")) + 1
    };
    let names_cell = format!("F{}", row_of("Names", "Mil Lane"));
    let repair = format!("M{}", row_of("Repairs", "plenty"));
    let word = format!("G{}", row_of("Words", "tbwl"));
    let column = format!("K{}", row_of("Columns", "Depth (m)"));
    let unit = format!("L{}", row_of("Columns", "Static level (m)"));
    let blank = format!("M{}", row_of("Columns", "Diameter (mm)"));
    let after = format!("L{}", row_of("Columns", "Depth (m)"));
    let wrong: Vec<(&str, &str, Typed<'_>)> = vec![
        ("Practice", &target, text("lots")),
        ("Campaign", &groups, text("Wards")),
        ("Lists", "C4", text("yards")),
        ("Lists", "A5", text("nolist.csv")),
        ("Columns", &column, text("wel depth")),
        ("Words", &word, text("tubby")),
        ("Names", &names_cell, text("Someplace else")),
        ("Exceptions", "F6", text("well_kind = 'dug'")),
        ("Exceptions", "I6", text("200")),
        ("Stock", "A4", text("Nowhere")),
        ("Stock", "B4", text("liquid 12.5")),
        ("Stock", "C4", text("3 L")),
        ("Crews", "A4", text("Team")),
        ("Crews", "B4", text("Elsewhere")),
        ("Crews", "C4", text("many")),
        ("Crews", "D4", text("soon")),
        ("Products", "C5", text("strong")),
        ("Repairs", &repair, text("blah")),
        ("Columns", &unit, text("fathom")),
        ("Columns", &blank, text("deep")),
        ("Columns", &after, text("fathom")),
    ];
    // With a file that is not there the lists cannot be asked: that is told first, with what the book alone can tell.
    let said = trial.refused(&wrong);
    assert!(said.contains("sheet Lists, A5: there is no such file"), "{said}");
    let without: Vec<_> = wrong.iter().filter(|(sheet, cell, _)| (*sheet, *cell) != ("Lists", "A5")).copied().collect();
    let said = trial.refused(&without);
    // Settings of an exception, right words of a stock line, the crew's name: what helps a wrong cell is not wrong itself.
    let sound = [("Columns", after.as_str()), ("Exceptions", "I6"), ("Stock", "B4"), ("Stock", "C4"), ("Crews", "A4")];
    for (sheet, cell, _) in without.iter().filter(|(sheet, cell, _)| !sound.contains(&(*sheet, *cell))) {
        assert!(said.contains(&format!("sheet {sheet}, {cell}: ")), "nothing of {sheet} {cell}:\n{said}");
    }
    // No fault after a fault, and no key of a scenario file.
    for (sheet, cell) in sound {
        assert!(!said.contains(&format!("sheet {sheet}, {cell}: ")), "{sheet} {cell}: {said}");
    }
    assert!(!said.contains("sheet Products, E5"), "{said}");
    for key in ["hold_hours", "visits_per_day", "[[", "[inventory", "[campaign", "`"] {
        assert!(!said.contains(key), "{key}: {said}");
    }
    assert!(said.contains("keep one of the two, \"Mil Lane\" or \"Mill Lane\""), "{said}");
    assert!(said.contains("no well of the lists belongs to a depot \"Nowhere\""), "{said}");
    assert!(said.ends_with("entries to correct; nothing was written\n"), "{said}");
}

#[test]
fn a_book_of_another_format_is_brought_up_to_date_beside_it() {
    let trial = Trial::new();
    let old = trial.at("c.ods");
    as_spreadsheet(&trial.book, &old);
    let before = std::fs::read(&old).unwrap();
    let said = run(&["start", &old.display().to_string(), "--update"]).ended(0);
    assert!(before == std::fs::read(&old).unwrap(), "the old book was written over");
    let new = trial.at("c, brought up to date.xlsx");
    assert!(said.out.contains("c.ods stays as it is") && new.exists(), "{}", said.out);
    run(&["check", &new.display().to_string()]);
    assert!(parts(&new).contains_key("xl/workbook.xml"));
}

#[test]
fn the_book_as_it_was_is_kept_when_it_is_brought_up_to_date() {
    let trial = Trial::new();
    // A sheet of the user's own.
    let mut all = parts(&trial.book);
    let number = (1..).find(|number| !all.contains_key(&format!("xl/worksheets/sheet{number}.xml"))).unwrap();
    let sheet = "<?xml version=\"1.0\"?><worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData>\
                 <row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>Call the county</t></is></c></row></sheetData></worksheet>";
    all.insert(format!("xl/worksheets/sheet{number}.xml"), sheet.into());
    let mut edit = |part: &str, mark: &str, more: &str| {
        let text = String::from_utf8(all[part].clone()).unwrap().replacen(mark, &format!("{more}{mark}"), 1);
        all.insert(part.to_owned(), text.into_bytes());
    };
    edit("xl/workbook.xml", "</sheets>", "<sheet name=\"My notes\" sheetId=\"99\" r:id=\"rIdOwn\"/>");
    edit(
        "xl/_rels/workbook.xml.rels",
        "</Relationships>",
        &format!(
            "<Relationship Id=\"rIdOwn\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet\" \
             Target=\"worksheets/sheet{number}.xml\"/>"
        ),
    );
    edit(
        "[Content_Types].xml",
        "</Types>",
        &format!(
            "<Override PartName=\"/xl/worksheets/sheet{number}.xml\" \
             ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml\"/>"
        ),
    );
    pack(&trial.book, &all.into_iter().collect::<Vec<_>>());
    let before = std::fs::read(&trial.book).unwrap();
    let book = trial.book.display().to_string();
    let said = run(&["start", &book, "--update"]).ended(0).out;
    assert!(said.contains("Not carried over: the sheet \"My notes\", comments on cells"), "{said}");
    let kept = trial.at("book, before update.xlsx");
    assert!(before == std::fs::read(&kept).unwrap());
    // Nothing new: nothing is kept a second time; something new: under another name.
    let said = run(&["start", &book, "--update"]).ended(0).out;
    assert!(said.contains("Nothing is new in it.") && !trial.at("book, before update 2.xlsx").exists(), "{said}");
    place(trial.folder.path(), "wells.csv", format!("{LIST}W7,Hall,bore hole thing,60,3,150,20,pasture,no\n"));
    run(&["start", &book, "--update"]).ended(0);
    assert!(trial.at("book, before update 2.xlsx").exists());
    assert!(before == std::fs::read(&kept).unwrap());
}

#[test]
fn lists_in_folders_are_found_again_and_told_apart() {
    let folder = folder();
    for name in ["a", "b"] {
        std::fs::create_dir(folder.path().join(name)).unwrap();
    }
    let list = |depth: &str| {
        format!("Well ID,Kind,{depth},Static level (m),Diameter (mm)\nA{},drilled,40,5,150\n", depth.len())
    };
    place(&folder.path().join("a"), "wells.csv", list("Reach (m)"));
    place(
        &folder.path().join("b"),
        "wells.csv",
        list("Reach (m)").replace("A9", "B9").replace("drilled,40", "drilled,60"),
    );
    let at = |name: &str| folder.path().join(name).display().to_string();
    let book = at("book.xlsx");
    run(&["start", &at("a/wells.csv"), &at("b/wells.csv"), "--out", &book, "--units", "metric"]).ended(0);
    let (_, columns) = sheets(Path::new(&book)).into_iter().find(|(name, _)| name == "Columns").unwrap();
    let row = |file: &str, heading: &str| {
        let found = columns.iter().position(|row| row[0] == file && row[2] == heading);
        found.unwrap_or_else(|| panic!("no {file} {heading} in {columns:#?}")) + 1
    };
    // An answer for one of two lists of the same name is no answer for the other.
    let (read_as, other) = (format!("K{}", row("a/wells.csv", "Reach (m)")), row("b/wells.csv", "Reach (m)"));
    assert!(other > 0);
    let answered = at("answered.xlsx");
    filled(Path::new(&book), Path::new(&answered), &[("Columns", &read_as, Typed::Text("total_depth"))]);
    let out = at("plan");
    run(&["plan", &answered, "--out", &out]).ended(1);
    let visits = rows(&Path::new(&out).join("visits.csv"));
    let outcome = |id: &str| visits.iter().find(|row| row["well_id"] == id).unwrap()["outcome"].clone();
    assert_eq!((outcome("A9").as_str(), outcome("B9").as_str()), ("planned", "held_back"));
    // The workbook of the plan finds its lists from the folder of the book.
    let again = at("again");
    run(&["plan", &format!("{out}/campaign.xlsx"), "--out", &again]).ended(1);
    let read = |folder: &str| std::fs::read(Path::new(folder).join("treatments.csv")).unwrap();
    assert!(read(&out) == read(&again));
}

#[test]
fn words_and_open_points_are_counted_from_the_book() {
    let trial = Trial::new();
    let (_, words) = sheets(&trial.book).into_iter().find(|(name, _)| name == "Words").unwrap();
    let of = |word: &str| {
        let row = words.iter().find(|row| row.len() > 5 && row[3] == word);
        row.unwrap_or_else(|| panic!("no {word} in {words:#?}")).iter().map(ToString::to_string).collect::<Vec<_>>()
    };
    // A type that holds its well back, and a route and an answer of wells that are planned all the same.
    assert_eq!(of("tbwl")[2..6], ["well type", "tbwl", "1", "C6"]);
    assert_eq!(of("moonside")[2..6], ["discharge route", "moonside", "1", "H3"]);
    assert_eq!(of("mebbe")[2..6], ["flooded", "mebbe", "1", "I4"]);
    let state = |book: &Path, sheet: &str| {
        let (_, rows) = sheets(book).into_iter().find(|(name, _)| name == "Start here").unwrap();
        rows.iter().find(|row| row.len() > 3 && row[2] == sheet).unwrap()[3].to_string()
    };
    assert_eq!(state(&trial.book, "Words"), "3 open");
    let unpriced = state(&trial.book, "Packages and prices");
    let all: u64 = unpriced.split(' ').next().unwrap().parse().unwrap();
    assert!(unpriced.contains(&format!("{all} of {all} prices open")), "{unpriced}");
    // Prices that are filled in are no longer open.
    let book = trial.with("priced.xlsx", &[("Packages and prices", "C6", Typed::Text("$5.60"))]);
    let said = run(&["start", &book, "--update"]).ended(0).out;
    assert!(state(Path::new(&book), "Packages and prices").starts_with(&format!("{} of {all}", all - 1)), "{said}");
    let total = said.lines().find_map(|line| line.strip_prefix("Open points: ")).unwrap();
    let noted = sheets(Path::new(&book)).into_iter().find(|(name, _)| name == "Start here").unwrap().1;
    assert!(noted.iter().any(|row| row[0].to_string().starts_with(total.trim_end_matches('.'))), "{total} {noted:#?}");
    // Names of sheets lead there.
    let links = String::from_utf8(parts(Path::new(&book))["xl/worksheets/sheet1.xml"].clone()).unwrap();
    assert!(links.contains("location=\"'Columns'!A1\"") || links.contains("location=\"Columns!A1\""), "{links}");
    // Repairs speak of sheets, and leave to Columns, Words and Names what they ask.
    let (_, repairs) = sheets(Path::new(&book)).into_iter().find(|(name, _)| name == "Repairs").unwrap();
    let said = format!("{repairs:?}");
    for not in ["tbwl", "moonside", "mebbe", "Mil Lane", "[missing", "[inventory", "[campaign"] {
        assert!(!said.contains(not), "{not}: {said}");
    }
    assert!(said.contains("plenty"), "{said}");
}

#[test]
fn what_is_dropped_on_the_program_is_answered_in_files() {
    let trial = Trial::new();
    let garbage = trial.at("x.docx");
    std::fs::write(&garbage, "Dear Sir,\nthe river rose again, and nobody came.\nYours\n").unwrap();
    let said = run(&[&garbage]).ended(2);
    assert!(said.err.contains("no heading of it is understood"), "{}", said.err);
    let missing = trial.at("x, what is missing.txt");
    assert!(said.out.trim_end().ends_with(&format!("What is missing stands in {}. Open it.", missing.display())));
    assert!(std::fs::read_to_string(&missing).unwrap().contains("no heading of it is understood"));
    assert!(!names(trial.folder.path()).iter().any(|name| name.starts_with("x, campaign book")));
    let list = trial.at("wells.csv");
    let made = run(&[&list]).ended(0).out;
    assert!(!made.contains("aftercrest ") && made.trim_end().ends_with("drop it on the program again."), "{made}");
    // A refused book changes nothing and says what is missing beside it, under a new name each time.
    let target = trial.line("Target");
    let wrong = trial.with("wrong.xlsx", &[("Practice", &target, Typed::Text("lots"))]);
    let before = contents(trial.folder.path());
    run(&[&wrong]).ended(2);
    run(&[&wrong]).ended(2);
    let after = contents(trial.folder.path());
    let new: Vec<&String> = after.keys().filter(|name| !before.contains_key(*name)).collect();
    assert_eq!(new, ["wrong, what is missing 2.txt", "wrong, what is missing.txt"]);
    assert!(before.iter().all(|(name, bytes)| after[name] == *bytes));
    let said = String::from_utf8(after["wrong, what is missing.txt"].clone()).unwrap();
    assert!(said.contains(&format!("sheet Practice, {target}: \"lots\" is no number")), "{said}");
}
