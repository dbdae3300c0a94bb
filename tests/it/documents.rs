//! Documents and checked-in reports that are made from the code: the reference pages, the README's first screen, and what the demo campaign produces.
//!
//! `AFTERCREST_BLESS=1 cargo test --release documents` writes them anew; look at the difference before you commit it.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

mod messages;
mod pictures;

use aftercrest::field::{FIELDS, Kind};
use aftercrest::finding::catalogue;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn blessing() -> bool {
    std::env::var_os("AFTERCREST_BLESS").is_some()
}

/// Compares a file with what it should be, or writes it anew.
fn same_or_bless(path: &Path, made: &[u8]) {
    if blessing() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, made).unwrap();
        return;
    }
    let stored = std::fs::read(path).unwrap_or_default();
    let name = path.strip_prefix(root()).unwrap().display().to_string();
    if stored != made {
        let stored = String::from_utf8_lossy(&stored).into_owned();
        let made = String::from_utf8_lossy(made).into_owned();
        let line = stored.lines().zip(made.lines()).position(|(a, b)| a != b);
        let at = line.unwrap_or_else(|| stored.lines().count().min(made.lines().count()));
        panic!(
            "{name} is out of date from line {}:\n  stored: {:?}\n  made:   {:?}\nAFTERCREST_BLESS=1 writes it anew",
            at + 1,
            stored.lines().nth(at),
            made.lines().nth(at)
        );
    }
}

/// Every field of a list.
fn headings_page() -> String {
    let mut table = String::from(
        "# Headings\n\nThe fields that a list may give, the unit that is read where none is written, and some of the headings that are \
         understood outright; others are understood by their words and by what stands below them. `aftercrest columns` prints \
         the same.\n\n| field | unit read where none is written (us, metric, imperial) | some accepted headings | |\n|---|---|---|---|\n",
    );
    for definition in &FIELDS {
        let unit = match definition.kind {
            Kind::Quantity(quantity) => match quantity.default_units {
                Some(units) => units.join(", "),
                None => quantity.unit.to_owned(),
            },
            Kind::Choice(choices) => choices.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", "),
            Kind::Flag => "yes, no".to_owned(),
            Kind::Text => String::new(),
        };
        let headings: Vec<&str> = definition.headings.iter().take(4).copied().collect();
        writeln!(table, "| `{}` | {unit} | {} | {} |", definition.name, headings.join(", "), definition.help).unwrap();
    }
    table
}

/// Every finding with its rule.
fn findings_page() -> String {
    let mut table = String::from(
        "# Findings\n\nWhat may be said of a list, with the rule behind it. `aftercrest explain CODE` prints what each one finds, why it \
         matters, an example and how to fix it.\n\n| code | | severity | rule |\n|---|---|---|---|\n",
    );
    for code in catalogue::ALL {
        let name = code.name().replace('-', " ");
        writeln!(table, "| {} | {name} | {} | {} |", code.id(), code.severity().word(), code.rule()).unwrap();
    }
    table
}

/// Every key that a campaign may state.
fn parameters_page() -> String {
    use aftercrest::parameter::{FILE, Kind, Parameter, Taken, Vocabulary, Within};
    fn allowed(parameter: &Parameter) -> String {
        let between = |(low, high): (f64, f64), unit: &str| match (low.is_finite(), high.is_finite()) {
            (true, true) => format!("{low} to {high} {unit}").trim_end().to_owned(),
            (true, false) => format!("{low} {unit} or more").replace("  ", " "),
            _ => format!("a number, {unit}"),
        };
        let measured = |within: Within, dimension: &str, unit: &str| match within {
            Within::NotNegative => format!("{dimension} with its unit"),
            Within::Positive => format!("{dimension} with its unit, more than 0"),
            Within::Between(low, high) => format!("{dimension} with its unit, {low} to {high} {unit}"),
        };
        match parameter.kind {
            Kind::Number { unit, bounds } => between(bounds, unit),
            Kind::Count { bounds } => format!("whole, {}", between(bounds, "")),
            Kind::Share { bounds } => format!("share, {}", between(bounds, "")),
            Kind::Quantity(of) => measured(of.within, of.dimension.name(), of.unit),
            Kind::QuantityOrTables(of, _) => {
                format!("{}; or a list of tables", measured(of.within, of.dimension.name(), of.unit))
            }
            Kind::Choice(_) => parameter.words().unwrap_or_default().join(", "),
            Kind::Choices(_) => format!("list of: {}", parameter.words().unwrap_or_default().join(", ")),
            Kind::ChoiceOrTable(..) => format!("{}; or a table", parameter.words().unwrap_or_default().join(", ")),
            Kind::Text => "text".to_owned(),
            Kind::Texts => "list of texts".to_owned(),
            Kind::Flag => "true, false".to_owned(),
            Kind::Date => "date".to_owned(),
            Kind::Corners => "four numbers, degrees".to_owned(),
            Kind::Table(_) => "table".to_owned(),
            Kind::Tables(_) => "list of tables".to_owned(),
            Kind::Names => "names of your own".to_owned(),
        }
    }
    fn rows(keys: &'static Vocabulary, path: &str, page: &mut String) {
        for parameter in keys.own {
            let path = if path.is_empty() { parameter.key.to_owned() } else { format!("{path}.{}", parameter.key) };
            let default = match parameter.default {
                _ if parameter.is_needed => "must be stated".to_owned(),
                Taken::Words(words) => words.to_owned(),
                Taken::Word(word) => word.to_owned(),
                Taken::Several(words) => words.join(", "),
                Taken::Number(number) => {
                    format!("{number} {}", parameter.measured().map_or("", |of| of.unit)).trim_end().to_owned()
                }
            };
            let source = if parameter.source.is_empty() { String::new() } else { format!(" ({})", parameter.source) };
            page.push_str(&format!(
                "| `{path}` | {} | {} | {default}{source} | {} |\n",
                parameter.title,
                allowed(parameter),
                parameter.meaning
            ));
            if let Some(inner) = parameter.keys() {
                rows(inner, &path, page);
            }
        }
    }
    let mut page = "# What a campaign states\n\nEvery key of a scenario file, as the program reads it. `[[scenario]]`, \
                    `[grid]` and the `set` of an `[[override]]` take every key of `[practice]` too. Defaults are planning \
                    figures: local code and licensed practice come first.\n\n| key | what it is | what may be written | \
                    otherwise | meaning |\n|---|---|---|---|---|\n"
        .to_owned();
    rows(&FILE, "", &mut page);
    page
}

#[test]
fn the_page_of_parameters_is_that_of_the_code() {
    same_or_bless(&root().join("reports/parameters.md"), parameters_page().as_bytes());
}

/// Every column of the three related tables.
fn tables_page() -> String {
    use aftercrest::ledger::{self, Column, Width};
    use aftercrest::report::scenarios;
    let row = |column: &Column| {
        let varies = match (column.is_of_visit(), column.width) {
            (true, _) | (_, Width::Visit) => "visit",
            (_, Width::Practice) => "visit, practice",
            (_, Width::Product) => "visit, practice, product",
        };
        format!("| `{}` | {} | {} | {varies} |\n", column.id, column.meaning, column.equation)
    };
    let heads = "| column | meaning | equation | varies with |\n|---|---|---|---|\n";
    let mut page = format!(
        "# The three tables of a run\n\n`visits`, `treatments` and `scenarios` are written by `plan` as CSV or Parquet. Headings \
         end in the unit; numbers have full precision; an absent cell is not known or does not apply, never zero.\n\nThe keys: \
         `well_id` and `visit` find a visit in `visits` and `treatments`, `scenario` finds a scenario in `treatments`, `scenarios`, \
         `totals` and `orders`. A visit's treatments stand together, one for each scenario, in the order of both tables. A visit \
         that is held back or excluded has its rows in `treatments` too, without amounts.\n\n## visits\n\nOne row a visit. Behind \
         these columns stands every column of the lists that was not understood as one of them.\n\n{heads}"
    );
    ledger::visits().for_each(|column| page.push_str(&row(column)));
    page.push_str(&format!("\nWhere the campaign states crews:\n\n{heads}"));
    ledger::OF_CREWS.iter().for_each(|column| page.push_str(&row(column)));
    page.push_str(&format!("\n## treatments\n\nOne row a visit and scenario.\n\n{heads}"));
    ledger::treatments().for_each(|column| page.push_str(&row(column)));
    page.push_str(
        "\n## scenarios\n\nOne row a scenario. Columns of the practice are what the campaign states before overrides; \
         `parameters.md` explains them.\n\n| column | meaning |\n|---|---|\n",
    );
    let line = |column: &scenarios::Column| format!("| `{}` | {} |\n", column.id, column.meaning);
    scenarios::WHAT.iter().for_each(|column| page.push_str(&line(column)));
    for (id, parameter) in scenarios::of_the_practice() {
        page.push_str(&format!("| `{id}` | {}. |\n", parameter.title));
    }
    scenarios::CAME_TO.iter().for_each(|column| page.push_str(&line(column)));
    page.push_str(&format!("\n{}\n", aftercrest::report::AS_IF_TOGETHER));
    page
}

#[test]
fn the_page_of_tables_is_that_of_the_code() {
    same_or_bless(&root().join("reports/tables.md"), tables_page().as_bytes());
}

/// Every file of the source with the first sentence of its own words, folder by folder.
fn files_page() -> String {
    fn walk(folder: &Path, page: &mut String) {
        let mut entries: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        entries.sort();
        for path in entries.iter().filter(|path| path.extension().is_some_and(|ending| ending == "rs")) {
            let text = std::fs::read_to_string(path).unwrap();
            let words: Vec<&str> = text.lines().map_while(|line| line.strip_prefix("//!")).map(str::trim).collect();
            let first = words.split(|line| line.is_empty()).next().unwrap_or_default().join(" ");
            let sentence = first.split_once(". ").map_or(first.as_str(), |(sentence, _)| sentence);
            let name = path.strip_prefix(root().join("src")).unwrap().display().to_string();
            writeln!(page, "| `{name}` | {} |", sentence.trim_end_matches('.').replace('|', "\\|")).unwrap();
        }
        for folder in entries.iter().filter(|path| path.is_dir()) {
            walk(folder, page);
        }
    }
    let mut page = String::from(
        "# Files of the source\n\nEach file of `src` by the first sentence of its own words; DEVELOPERS.md says which room may use which.\n\n\
         | file | |\n|---|---|\n",
    );
    walk(&root().join("src"), &mut page);
    page
}

#[test]
fn the_page_of_files_is_that_of_the_source() {
    let page = files_page();
    let silent = page.lines().filter(|line| line.ends_with("|  |")).collect::<Vec<_>>();
    assert_eq!(silent, Vec::<&str>::new(), "a file without words at its head");
    same_or_bless(&root().join("reports/files.md"), page.as_bytes());
}

#[test]
fn the_pages_of_headings_and_findings_are_those_of_the_code() {
    same_or_bless(&root().join("reports/headings.md"), headings_page().as_bytes());
    same_or_bless(&root().join("reports/findings.md"), findings_page().as_bytes());
}

/// The blocks of a text that are fenced and marked with a language, or with none.
fn blocks<'a>(text: &'a str, language: &str) -> Vec<&'a str> {
    let open = format!("\n```{language}\n");
    text.match_indices(&open)
        .filter_map(|(at, _)| text[at + open.len()..].split_once("\n```").map(|(block, _)| block))
        .collect()
}

#[test]
fn the_first_screen_of_the_readme_is_what_the_program_says() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let place = |name: &str, block: &str| std::fs::write(folder.path().join(name), format!("{block}\n")).unwrap();
    place("wells.csv", blocks(&readme, "csv")[0]);
    place("plan.toml", blocks(&readme, "toml")[0]);
    let said = |arguments: &[&str]| {
        let ran = Command::new(env!("CARGO_BIN_EXE_aftercrest"))
            .args(arguments)
            .current_dir(folder.path())
            .env_remove("SOURCE_DATE_EPOCH")
            .env_remove("COLUMNS")
            .output()
            .unwrap();
        assert_eq!(ran.status.code(), Some(1), "{}", String::from_utf8_lossy(&ran.stderr));
        String::from_utf8(ran.stdout).unwrap()
    };
    let planned = said(&["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "campaign"]);
    let checked = said(&["check", "wells.csv", "--scenarios", "plan.toml", "--all"]);
    let shown = |begins: &str| {
        let plain = blocks(&readme, "");
        (*plain.iter().find(|block| block.starts_with(begins)).unwrap_or_else(|| panic!("no block {begins:?}")))
            .to_owned()
    };
    for line in shown("4 of 6 well visits planned").lines() {
        assert!(planned.contains(line), "{line:?} is not said:\n{planned}");
    }
    for line in shown("check [I109]").lines() {
        assert!(checked.contains(line), "{line:?} is not said:\n{checked}");
    }
}

/// The demo campaign's outputs that a person can read as a difference; the others are held by tests of their own.
const REPORTS: [&str; 4] = ["totals.csv", "orders.csv", "findings.csv", "run.json"];

#[test]
fn demo_reports_are_what_the_program_makes() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("campaign");
    let ran = Command::new(env!("CARGO_BIN_EXE_aftercrest"))
        .args(["plan", "--demo", "--out"])
        .arg(&out)
        .env_remove("SOURCE_DATE_EPOCH")
        .env_remove("COLUMNS")
        .output()
        .unwrap();
    assert_eq!(ran.status.code(), Some(1), "{}", String::from_utf8_lossy(&ran.stderr));
    let reports = root().join("reports/demo");
    for name in REPORTS {
        same_or_bless(&reports.join(name), &std::fs::read(out.join(name)).unwrap());
    }
    let said = String::from_utf8(ran.stdout).unwrap().replace(&out.display().to_string(), "campaign");
    same_or_bless(&reports.join("said.txt"), said.as_bytes());
    // The README shows how the table begins and the answer, which comes last, but not where it was written.
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let table: Vec<&str> = said.lines().skip_while(|line| !line.trim_start().starts_with("With")).take(7).collect();
    let answer: Vec<&str> = said.lines().skip_while(|line| !line.contains("well visits planned;")).take(6).collect();
    assert_eq!((table.len(), answer.len()), (7, 6), "{said}");
    for line in table.into_iter().chain(answer) {
        assert!(readme.contains(line), "the README does not show {line:?}");
    }
    let record: serde_json::Value = serde_json::from_slice(&std::fs::read(out.join("run.json")).unwrap()).unwrap();
    let count = |key: &str| record[key].as_u64().unwrap();
    let begins = format!(
        "plans {} visits under {} scenarios",
        count("visits_planned") + count("visits_held_back"),
        record["scenarios"].as_array().unwrap().len()
    );
    assert!(readme.contains(&begins), "the README does not say {begins:?}");
    pictures::hold(&out);
}
