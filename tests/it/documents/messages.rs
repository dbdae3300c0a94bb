//! The page of JSON messages, made of the records themselves and held against what the commands really say.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;

use super::{root, same_or_bless};
use crate::running;

/// A record that is written as JSON: what it is, and its keys with what they mean and of what kind they are.
struct Record {
    name: String,
    meaning: String,
    keys: Vec<(String, String, String)>,
    /// Keys that stand for those of another record.
    flattened: Vec<String>,
}

/// Every record of a folder of the source, file by file.
fn records(folder: &Path, found: &mut Vec<Record>) {
    let mut entries: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            records(&path, found);
        } else {
            records_of(&std::fs::read_to_string(&path).unwrap(), found);
        }
    }
}

fn records_of(source: &str, found: &mut Vec<Record>) {
    let mut meaning = String::new();
    let mut lines = source.lines().map(str::trim);
    while let Some(line) = lines.next() {
        if let Some(said) = line.strip_prefix("///") {
            meaning = [meaning.as_str(), said.trim()].join(" ").trim().to_owned();
            continue;
        }
        if !line.starts_with("#[derive(Serialize") {
            meaning.clear();
            continue;
        }
        let head = lines.by_ref().find(|line| line.contains("struct ")).unwrap();
        let name = head.split("struct ").nth(1).unwrap().split(['<', ' ']).next().unwrap().to_owned();
        let mut record =
            Record { name, meaning: std::mem::take(&mut meaning), keys: Vec::new(), flattened: Vec::new() };
        let (mut said, mut flat) = (String::new(), false);
        for line in lines.by_ref().take_while(|line| *line != "}") {
            flat |= line == "#[serde(flatten)]";
            if let Some(more) = line.strip_prefix("///") {
                said = [said.as_str(), more.trim()].join(" ").trim().to_owned();
            } else if let Some((key, kind)) = line.trim_end_matches(',').split_once(": ")
                && !line.starts_with("#[")
            {
                let key = key.rsplit(' ').next().unwrap();
                record.flattened.extend(std::mem::take(&mut flat).then(|| key.to_owned()));
                record.keys.push((key.to_owned(), std::mem::take(&mut said), kind.to_owned()));
            }
        }
        found.push(record);
    }
}

/// What JSON makes of a type, where it is no record.
fn kind_of(kind: &str) -> String {
    let plain = kind.trim_start_matches("Option<").trim_end_matches('>');
    let word = match plain {
        "u32" | "u64" | "f64" => "number",
        "(f64, f64)" => "two numbers",
        _ if plain.contains("BTreeMap") => "object",
        _ if plain.starts_with("Vec<") || plain.contains('[') => "list",
        "String" => "text",
        _ if plain.ends_with("str") => "text",
        _ => "object",
    };
    if kind.starts_with("Option<") { format!("{word} or null") } else { word.to_owned() }
}

fn all_records() -> Vec<Record> {
    let mut found = Vec::new();
    records(&root().join("src/cli"), &mut found);
    unfold(&mut found);
    found
}

/// Puts the keys of a record in the place of the key that stands for them in others. One whose meaning names the message that
/// its keys are of has a section of its own.
fn unfold(records: &mut Vec<Record>) {
    let stands_for = |record: &Record, key: &str| record.flattened.iter().any(|flat| flat == key);
    let parts: BTreeMap<String, Vec<_>> = records
        .iter()
        .filter(|part| !part.meaning.starts_with("Keys of"))
        .map(|part| (part.name.clone(), part.keys.clone()))
        .collect();
    let mut unfolded = BTreeSet::new();
    for record in records.iter_mut() {
        let keys = record.keys.clone().into_iter().flat_map(|(key, said, kind)| match parts.get(&kind) {
            Some(keys) if stands_for(record, &key) => {
                unfolded.insert(kind);
                keys.clone()
            }
            _ => vec![(key, said, kind)],
        });
        record.keys = keys.collect();
    }
    records.retain(|record| !unfolded.contains(&record.name));
}

fn page(records: &[Record]) -> String {
    let mut page = String::from(
        "# What the program says to a program\n\nWith `--json` the commands write one JSON object a line; `message` says which one it \
         is. Keys end in their unit and numbers have full precision. A key that is not known to a reader may be passed over; a \
         change that must not be raises `format`. `run.json` in the folder of a plan is one object.\n",
    );
    for record in records {
        let title =
            record.meaning.split([',', ':']).next().map(|title| title.trim_end_matches('.')).unwrap().trim_matches('`');
        let title = if record.meaning.starts_with('`') { format!("`{title}`") } else { title.to_owned() };
        write!(page, "\n## {title}\n\n{}\n\n| key | kind | what it says |\n|---|---|---|\n", record.meaning).unwrap();
        for (key, said, kind) in record.keys.iter().filter(|(key, ..)| key != "moving") {
            writeln!(page, "| `{key}` | {} | {said} |", kind_of(kind)).unwrap();
        }
    }
    page
}

#[test]
fn every_key_of_a_message_says_what_it_is() {
    let silent: Vec<String> = all_records()
        .iter()
        .flat_map(|record| {
            let of = record.name.clone();
            let bare = record.keys.iter().filter(|(key, said, _)| said.is_empty() && key != "moving");
            bare.map(move |(key, ..)| format!("{of}.{key}"))
        })
        .collect();
    assert_eq!(silent, Vec::<String>::new());
    assert!(all_records().iter().all(|record| !record.meaning.is_empty()));
}

#[test]
fn the_page_of_messages_is_that_of_the_code() {
    same_or_bless(&root().join("reports/messages.md"), page(&all_records()).as_bytes());
}

/// Keys of the JSON objects in a text, one a line, by their message.
fn keys_said(text: &str, said: &mut BTreeMap<String, BTreeSet<String>>) {
    for line in text.lines() {
        let message: serde_json::Map<String, serde_json::Value> = serde_json::from_str(line).unwrap();
        let name = message["message"].as_str().unwrap().to_owned();
        said.entry(name).or_default().extend(message.keys().cloned());
    }
}

#[test]
fn the_page_of_messages_holds_what_the_commands_say() {
    let folder = running::folder();
    let out = folder.path().join("out").display().to_string();
    let list = root().join("fixtures/demo/quillmoor-county.csv").display().to_string();
    let campaign = root().join("scenarios/demo.toml").display().to_string();
    let mut said = BTreeMap::new();
    let well = [
        "well",
        "--depth",
        "180 ft",
        "--water-level",
        "40 ft",
        "--diameter",
        "6 in",
        "--product",
        "bleach 6",
        "--json",
    ];
    let commands: [&[&str]; 5] = [
        &["check", &list, "--scenarios", &campaign, "--json"],
        &["plan", &list, "--scenarios", &campaign, "--only", "S1", "--out", &out, "--json"],
        &["columns", "--json"],
        &["products", "--json"],
        &well,
    ];
    for command in commands {
        keys_said(&running::run(command).out, &mut said);
    }
    let page = page(&all_records());
    let sections: BTreeMap<&str, &str> =
        page.split("\n## ").skip(1).map(|section| section.split_once('\n').unwrap()).collect();
    let keys = |title: &str| -> BTreeSet<String> {
        let rows = sections.get(title).unwrap_or_else(|| panic!("no section {title}")).lines();
        rows.filter_map(|line| line.strip_prefix("| `")?.split_once('`').map(|(key, _)| key.to_owned())).collect()
    };
    for (name, keys_said) in &said {
        let mut known = keys(&format!("`{name}`"));
        if name == "well" {
            known.extend(keys("Keys of `well` for water that moves"));
        }
        let optional = BTreeSet::from(["visits_without_day".to_owned()]);
        assert!(keys_said.is_subset(&known), "{name}: {:?}", keys_said.difference(&known));
        let never: Vec<&String> = known.difference(keys_said).filter(|key| !optional.contains(*key)).collect();
        assert!(never.is_empty(), "{name} never says {never:?}");
    }
    for name in
        ["finding", "total", "run_finished", "check_finished", "completeness", "range", "column", "product", "well"]
    {
        assert!(said.contains_key(name), "nobody said {name}");
    }
    let record: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(folder.path().join("out/run.json")).unwrap()).unwrap();
    let known = keys("`run.json`");
    assert!(record.as_object().unwrap().keys().all(|key| known.contains(key)), "{known:?}");
}
