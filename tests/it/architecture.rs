//! The house: which room may use which, who owns an outside crate, who may print, how long a file may be, and that nothing
//! in `src` can stop the program but an error. Reads the source as text; says file, line and rule.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Rooms by floor, cellar first, with what each may use of the other rooms. A room uses rooms of lower floors, and of its
/// own floor only those that are named with a reason below.
const HOUSE: &[(usize, &str, &[&str])] = &[
    (0, "error", &[]),
    (0, "source", &[]),
    (0, "quantity", &[]),
    (0, "place", &[]),
    (0, "table", &["error"]),
    (1, "field", &["place", "quantity"]),
    (1, "finding", &["place", "quantity"]),
    (1, "caution", &["source"]),
    (1, "hazard", &["source"]),
    // What a report is made of; knows no well and no file format.
    (1, "document", &["quantity"]),
    (2, "well", &["field", "hazard", "quantity"]),
    // Reads files into drafts; knows no well, no kernel and no scenario.
    (2, "inventory", &["error", "field", "finding", "hazard", "place", "quantity"]),
    // Knows wells and units, but not where a number came from: no place, no finding, no inventory.
    (2, "kernel", &["caution", "field", "quantity", "source", "well"]),
    // Proves drafts; asks no scenario and computes nothing.
    (3, "checks", &["field", "finding", "hazard", "inventory", "place", "quantity", "well"]),
    // Describes what to compute; knows no list and no well.
    (3, "parameter", &["field", "kernel", "quantity"]),
    (3, "scenario", &["error", "field", "kernel", "parameter", "quantity"]),
    // What is stated as a workbook and back; reads sheets, not lists, and knows no well.
    (
        4,
        "book",
        &["caution", "document", "error", "field", "inventory", "kernel", "parameter", "place", "quantity", "scenario"],
    ),
    // What came of each row; knows no scenario.
    (4, "visit", &["checks", "field", "finding", "hazard", "kernel", "place", "quantity", "well"]),
    (5, "rollup", &["error", "field", "kernel", "place", "quantity", "scenario", "visit"]),
    // Who makes which visit when; knows places and counts, and no amount.
    (5, "schedule", &["field", "scenario", "visit"]),
    (5, "ledger", &["field", "kernel", "quantity", "table", "visit"]),
    // Says again, as data, what the kernel computes; a quantity of a relation is a column of the ledger.
    (6, "relation", &["field", "kernel", "ledger", "quantity", "scenario", "visit", "well"]),
    (
        6,
        "engine",
        &[
            "caution",
            "checks",
            "error",
            "field",
            "finding",
            "hazard",
            "inventory",
            "kernel",
            "ledger",
            "place",
            "quantity",
            "rollup",
            "scenario",
            "schedule",
            "table",
            "visit",
            "well",
        ],
    ),
    (
        7,
        "report",
        &[
            "caution",
            "document",
            "engine",
            "error",
            "field",
            "finding",
            "hazard",
            "kernel",
            "ledger",
            "parameter",
            "place",
            "quantity",
            "relation",
            "rollup",
            "scenario",
            "schedule",
            "source",
            "visit",
            "well",
        ],
    ),
    // Writers know documents and tables, not wells, and no report.
    (8, "write", &["document", "error", "table"]),
    (
        9,
        "cli",
        &[
            "book",
            "caution",
            "checks",
            "document",
            "engine",
            "error",
            "field",
            "finding",
            "hazard",
            "inventory",
            "kernel",
            "ledger",
            "parameter",
            "place",
            "quantity",
            "relation",
            "report",
            "rollup",
            "scenario",
            "schedule",
            "source",
            "table",
            "visit",
            "well",
            "write",
        ],
    ),
];

/// Rooms of one floor that may use one another: (who, whom), with the reason.
const NEIGHBOURS: &[(&str, &str)] = &[
    // A table's sink can fail.
    ("table", "error"),
    // The physics is about wells.
    ("kernel", "well"),
    // What is stated is read by the vocabulary of what may be.
    ("scenario", "parameter"),
];

/// Each outside crate, and the files or rooms that own it.
const OWNERS: &[(&str, &[&str])] = &[
    ("aho_corasick", &["hazard"]),
    ("calamine", &["inventory"]),
    // Parquet writes a date as a count; what people read is a day.
    (
        "chrono",
        &[
            "book",
            "scenario",
            "engine",
            "report",
            "document",
            "write/xlsx.rs",
            "cli",
            "inventory/parquet/cells.rs",
            "visit/turn.rs",
        ],
    ),
    ("clap", &["cli"]),
    ("clap_complete", &["cli"]),
    ("clap_mangen", &["cli"]),
    ("compact_str", &["finding", "well.rs", "inventory", "checks", "visit", "rollup", "engine"]),
    ("csv", &["write"]),
    ("encoding_rs", &["inventory"]),
    ("flate2", &["inventory"]),
    ("foldhash", &["quantity", "inventory", "relation", "rollup", "engine", "write"]),
    ("indicatif", &["cli"]),
    // Templates that escape by themselves.
    ("maud", &["write"]),
    ("memchr", &["inventory", "write/rows.rs"]),
    // The program's allocator is chosen where the program begins.
    ("mimalloc", &["main.rs"]),
    ("polars", &["engine", "write/parquet.rs", "inventory"]),
    ("polars_arrow", &["write/parquet.rs", "inventory"]),
    ("polars_buffer", &["write/parquet.rs", "inventory"]),
    // Named by a test alone, for what it reads.
    ("polars_parquet", &["write/parquet.rs", "inventory"]),
    ("polars_parquet_format", &["inventory"]),
    ("quick_xml", &["inventory"]),
    ("rayon", &["engine", "cli/plan.rs"]),
    ("rust_xlsxwriter", &["write"]),
    ("ryu", &["write"]),
    ("serde", &["write", "cli"]),
    ("serde_json", &["write"]),
    ("sha2", &["inventory", "cli", "write"]),
    ("strsim", &["scenario"]),
    ("tempfile", &["write", "cli"]),
    ("terminal_size", &["cli"]),
    // Words of the trade stand in data files.
    ("toml", &["scenario", "inventory", "report/crew/words.rs"]),
    // Words are compared without their accents.
    ("unicode_normalization", &["inventory"]),
    // Quantities are made of it; the rooms that read or show a number name its units.
    ("uom", &["quantity", "kernel", "scenario", "report", "cli", "parameter"]),
    // A finished workbook is opened once more, for formulas that are copies.
    ("zip", &["write/rows.rs"]),
];

/// The longest file, in lines and in bytes.
const MOST_LINES: usize = 400;
const MOST_BYTES: usize = 24 * 1024;

/// Tables that may be longer, each with the reason why it is not cut.
const LONG_TABLES: &[(&str, &str)] = &[
    ("field/table.rs", "one table of the fields of a list, in their order: a field is looked up in one place"),
    ("kernel/constants.rs", "one table of constants in the order of the chapters; the papers list it as it stands"),
];

/// A source file without comments and with empty texts, so that only code is left; lines stay where they are.
struct Source {
    path: String,
    code: String,
    bytes: usize,
    lines: usize,
    first_line: String,
}

impl Source {
    fn room(&self) -> &str {
        self.path.split(['/', '.']).next().unwrap_or_default()
    }

    /// `finding/catalogue/cell.rs` is the module finding::catalogue::cell.
    fn module(&self) -> Vec<&str> {
        let path = self.path.strip_suffix(".rs").unwrap_or(&self.path);
        path.strip_suffix("/mod").unwrap_or(path).split('/').filter(|part| *part != "lib" && *part != "main").collect()
    }

    fn line(&self, at: usize) -> usize {
        self.code[..at].matches('\n').count() + 1
    }
}

fn sources() -> Vec<Source> {
    fn gather(root: &Path, folder: &Path, found: &mut Vec<Source>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                gather(root, &path, found);
            } else if path.extension().is_some_and(|end| end == "rs") {
                let text = std::fs::read_to_string(&path).unwrap();
                found.push(Source {
                    path: path.strip_prefix(root).unwrap().to_str().unwrap().replace('\\', "/"),
                    code: code_of(&text),
                    bytes: text.len(),
                    lines: text.lines().count(),
                    first_line: text.lines().next().unwrap_or_default().to_owned(),
                });
            }
        }
    }
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    gather(&root, &root, &mut found);
    assert!(found.len() > 80, "only {} files found", found.len());
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}

/// The text with comments and the insides of texts blanked out, and what follows `#[cfg(test)]` left off.
fn code_of(text: &str) -> String {
    let bytes = text.as_bytes();
    let mut code = String::with_capacity(text.len());
    let mut at = 0;
    let blank = |from: usize, to: usize, code: &mut String| {
        code.extend(text[from..to].chars().map(|letter| if letter == '\n' { '\n' } else { ' ' }));
    };
    while at < bytes.len() {
        let rest = &text[at..];
        let end = if rest.starts_with("//") {
            rest.find('\n').map_or(bytes.len(), |length| at + length)
        } else if rest.starts_with("/*") {
            rest.find("*/").map_or(bytes.len(), |length| at + length + 2)
        } else if rest.starts_with("r\"") || rest.starts_with("r#\"") {
            let (opening, closing) = if rest.starts_with("r\"") { (2, "\"") } else { (3, "\"#") };
            rest[opening..].find(closing).map_or(bytes.len(), |length| at + opening + length + closing.len())
        } else if rest.starts_with('"') {
            let mut end = at + 1;
            while end < bytes.len() && bytes[end] != b'"' {
                end += if bytes[end] == b'\\' { 2 } else { 1 };
            }
            (end + 1).min(bytes.len())
        } else if let Some(escaped) = rest.strip_prefix("'\\") {
            escaped.find('\'').map_or(bytes.len(), |length| at + 2 + length.max(1) + 1)
        } else if rest.starts_with('\'') && rest.chars().nth(2) == Some('\'') {
            at + 2 + rest.chars().nth(1).map_or(1, char::len_utf8)
        } else {
            let letter = rest.chars().next().unwrap();
            code.push(letter);
            at += letter.len_utf8();
            continue;
        };
        blank(at, end, &mut code);
        at = end;
    }
    match code.find("#[cfg(test)]") {
        Some(tests) => code[..tests].to_owned(),
        None => code,
    }
}

fn is_word(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '_'
}

/// Every place where a word stands by itself.
fn words<'a>(code: &'a str, word: &'a str) -> impl Iterator<Item = usize> + 'a {
    code.match_indices(word).map(|(at, _)| at).filter(move |&at| {
        !code[..at].chars().next_back().is_some_and(is_word)
            && !code[at + word.len()..].chars().next().is_some_and(is_word)
    })
}

/// The names that a path goes on with: one, or those at the outermost level of its braces.
fn next_names(rest: &str) -> Vec<String> {
    let rest = rest.trim_start();
    let Some(group) = rest.strip_prefix('{') else {
        return vec![rest.chars().take_while(|letter| is_word(*letter)).collect()];
    };
    let (mut depth, mut names, mut name, mut waiting) = (0, Vec::new(), String::new(), true);
    for letter in group.chars() {
        match letter {
            '{' => depth += 1,
            '}' if depth == 0 => break,
            '}' => depth -= 1,
            ',' if depth == 0 => waiting = true,
            letter if waiting && is_word(letter) => name.push(letter),
            _ if !name.is_empty() => {
                names.push(std::mem::take(&mut name));
                waiting = false;
            }
            _ => {}
        }
    }
    if !name.is_empty() {
        names.push(name);
    }
    names
}

/// Every use of another room in a file: where, and which.
fn uses(source: &Source, rooms: &BTreeSet<&str>) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    for at in words(&source.code, "crate") {
        if let Some(rest) = source.code[at + 5..].strip_prefix("::") {
            found.extend(next_names(rest).into_iter().map(|name| (at, name)));
        }
    }
    // As many `super` as the file is deep lead to the same place as `crate`.
    let climb = "super::".repeat(source.module().len());
    if !climb.is_empty() {
        for (at, _) in source.code.match_indices(&climb) {
            let before = source.code[..at].chars().next_back();
            if before != Some(':') && !before.is_some_and(is_word) {
                found.extend(next_names(&source.code[at + climb.len()..]).into_iter().map(|name| (at, name)));
            }
        }
    }
    found.retain(|(_, name)| rooms.contains(name.as_str()));
    found
}

#[test]
fn stairs_go_down_only() {
    let floor: BTreeMap<&str, usize> = HOUSE.iter().map(|(floor, room, _)| (*room, *floor)).collect();
    let rooms: BTreeSet<&str> = floor.keys().copied().collect();
    for (height, room, allowed) in HOUSE {
        for other in *allowed {
            let neighbours = NEIGHBOURS.contains(&(*room, *other)) && floor[other] == *height;
            assert!(floor[other] < *height || neighbours, "the house lets {room} use {other}, which is not below it");
        }
    }
    let mut faults = Vec::new();
    for source in sources() {
        if source.path == "lib.rs" || source.path == "main.rs" {
            continue;
        }
        let Some((_, room, allowed)) = HOUSE.iter().find(|(_, room, _)| *room == source.room()) else {
            faults.push(format!("src/{}: a room that is on no floor", source.path));
            continue;
        };
        for (at, other) in uses(&source, &rooms) {
            if other != *room && !allowed.contains(&other.as_str()) {
                faults.push(format!("src/{}:{}: {room} may not use {other}", source.path, source.line(at)));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_grant_is_used() {
    let rooms: BTreeSet<&str> = HOUSE.iter().map(|(_, room, _)| *room).collect();
    let sources = sources();
    let mut used: BTreeSet<(String, String)> = BTreeSet::new();
    for source in &sources {
        used.extend(uses(source, &rooms).into_iter().map(|(_, other)| (source.room().to_owned(), other)));
    }
    let mut idle: Vec<String> = Vec::new();
    for (_, room, allowed) in HOUSE {
        let unused = |other: &&&str| !used.contains(&((*room).to_owned(), (**other).to_owned()));
        idle.extend(allowed.iter().filter(unused).map(|other| format!("{room} may use {other}, and does not")));
    }
    for (room, other) in NEIGHBOURS {
        if !used.contains(&((*room).to_owned(), (*other).to_owned())) {
            idle.push(format!("{room} and {other} are neighbors without dealings"));
        }
    }
    for (name, owners) in OWNERS {
        for owner in *owners {
            let names = |source: &Source| {
                let own = source.path == *owner || source.room() == *owner;
                own && words(&source.code, name).any(|at| !source.code[..at].ends_with("::"))
            };
            if !sources.iter().any(names) {
                idle.push(format!("{owner} owns {name}, and does not name it"));
            }
        }
    }
    assert!(idle.is_empty(), "{}", idle.join("\n"));
}

#[test]
fn what_a_type_can_do_stands_in_its_own_room() {
    let sources = sources();
    let name_at = |code: &str, at: usize| code[at..].chars().take_while(|letter| is_word(*letter)).collect::<String>();
    let mut homes: BTreeMap<String, BTreeSet<&str>> = BTreeMap::new();
    for source in &sources {
        for kind in ["struct ", "enum ", "union ", "type "] {
            for (at, _) in source.code.match_indices(kind) {
                homes.entry(name_at(&source.code, at + kind.len())).or_default().insert(source.room());
            }
        }
    }
    let (mut faults, mut seen) = (Vec::new(), 0);
    for source in &sources {
        for at in words(&source.code, "impl") {
            let line_starts = source.code[..at].ends_with('\n');
            let head = source.code[at..].split('{').next().unwrap_or_default();
            if !line_starts || head.contains(" for ") {
                continue;
            }
            // `impl<'a> Draft<'a>`: what stands behind the lifetimes.
            let rest = head["impl".len()..].trim_start();
            let rest = if rest.starts_with('<') { rest.split_once("> ").map_or(rest, |(_, rest)| rest) } else { rest };
            let name = name_at(rest.trim_start(), 0);
            seen += 1;
            if homes.get(&name).is_some_and(|rooms| !rooms.contains(source.room())) {
                faults.push(format!("src/{}:{}: {name} is of another room", source.path, source.line(at)));
            }
        }
    }
    assert!(seen > 200, "only {seen} found");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// The module that a path from a module names: the longest part of it that is one.
fn module_of(parts: &[String], modules: &BTreeSet<Vec<String>>) -> Option<Vec<String>> {
    (1..=parts.len()).rev().map(|length| parts[..length].to_vec()).find(|path| modules.contains(path))
}

/// The full paths that the code names, `crate` and `super` resolved; groups in braces fall into their members.
fn paths(code: &str, own: &[String]) -> Vec<Vec<String>> {
    let mut found = Vec::new();
    for (word, is_super) in [("crate", false), ("super", true)] {
        for at in words(code, word) {
            if code[..at].ends_with("::") {
                continue;
            }
            let mut rest = &code[at + word.len()..];
            let mut base: Vec<String> = if is_super { own[..own.len() - 1].to_vec() } else { Vec::new() };
            while let Some(more) = rest.strip_prefix("::super").filter(|_| is_super && !base.is_empty()) {
                base.pop();
                rest = more;
            }
            let mut open = vec![(base, rest.strip_prefix("::").unwrap_or_default())];
            while let Some((path, rest)) = open.pop() {
                let names = next_names(rest);
                let single = !rest.trim_start().starts_with('{');
                for name in names.into_iter().filter(|name| !name.is_empty()) {
                    let mut longer = path.clone();
                    longer.push(name.clone());
                    match rest.trim_start().get(name.len()..).and_then(|more| more.strip_prefix("::")) {
                        Some(more) if single => open.push((longer, more)),
                        _ => found.push(longer),
                    }
                }
            }
        }
    }
    found
}

#[test]
fn files_do_not_import_each_other_in_a_loop() {
    let sources = sources();
    let module = |source: &Source| -> Vec<String> { source.module().iter().map(ToString::to_string).collect() };
    let modules: BTreeSet<Vec<String>> = sources.iter().map(&module).filter(|path| !path.is_empty()).collect();
    let related = |one: &[String], other: &[String]| one.starts_with(other) || other.starts_with(one);
    let mut reach: BTreeMap<Vec<String>, BTreeSet<Vec<String>>> = BTreeMap::new();
    for source in &sources {
        let own = module(source);
        if own.is_empty() {
            continue;
        }
        let named = paths(&source.code, &own).into_iter().filter_map(|path| module_of(&path, &modules));
        // A module and what is inside it are one house: only neighbors are asked.
        reach.entry(own.clone()).or_default().extend(named.filter(|other| !related(&own, other)));
    }
    // Whatever is reached from what is reached, until nothing is new.
    loop {
        let before: usize = reach.values().map(BTreeSet::len).sum();
        let step = reach.clone();
        for others in reach.values_mut() {
            let more: Vec<Vec<String>> = others.iter().filter_map(|other| step.get(other)).flatten().cloned().collect();
            others.extend(more);
        }
        if reach.values().map(BTreeSet::len).sum::<usize>() == before {
            break;
        }
    }
    let mut circles: BTreeSet<Vec<String>> = BTreeSet::new();
    for (own, others) in &reach {
        let circle: Vec<String> = others
            .iter()
            .filter(|other| reach.get(*other).is_some_and(|back| back.contains(own)))
            .map(|path| path.join("/"))
            .collect();
        if circle.len() > 1 {
            circles.insert(circle);
        }
    }
    assert!(circles.is_empty(), "files that import each other in a loop: {circles:?}");
}

#[test]
fn every_outside_crate_has_its_owner() {
    let manifest: toml::Table =
        std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml")).unwrap().parse().unwrap();
    let crates: Vec<String> =
        manifest["dependencies"].as_table().unwrap().keys().map(|name| name.replace('-', "_")).collect();
    let mut faults = Vec::new();
    for name in &crates {
        if !OWNERS.iter().any(|(owned, _)| owned == name) {
            faults.push(format!("Cargo.toml: {name} has no owner in this test"));
        }
    }
    for source in sources() {
        for name in &crates {
            let owners = OWNERS.iter().find(|(owned, _)| owned == name).map_or(&[][..], |(_, owners)| owners);
            if owners.iter().any(|owner| source.path == *owner || source.room() == *owner) {
                continue;
            }
            // A module of ours may have the name of a crate: `crate::write::csv`, brought in by a `use`.
            let ours = words(&source.code, name).any(|at| {
                let statement = source.code[..at].rfind(';').map_or(0, |end| end + 1);
                source.code[statement..at].contains("use crate::")
            });
            for at in words(&source.code, name) {
                let path = source.code[at + name.len()..].starts_with("::") && !source.code[..at].ends_with("::");
                if path && !ours {
                    faults.push(format!("src/{}:{}: {name} belongs to {owners:?}", source.path, source.line(at)));
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn only_the_command_speaks_and_asks_its_surroundings() {
    const LOUD: &[&str] = &[
        "print!",
        "println!",
        "eprint!",
        "eprintln!",
        "dbg!",
        "stdout",
        "stderr",
        "env::var",
        "env::args",
        "current_dir",
        "process::exit",
        "SystemTime::now",
        "Instant::now",
        "Utc::now",
        "Local::now",
    ];
    let mut faults = Vec::new();
    for source in sources().iter().filter(|source| source.room() != "cli") {
        for word in LOUD {
            for (at, _) in source.code.match_indices(word) {
                if !source.code[..at].chars().next_back().is_some_and(is_word) {
                    faults.push(format!("src/{}:{}: {word} outside cli", source.path, source.line(at)));
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn nothing_stops_the_program_but_an_error() {
    const STOPS: &[&str] = &[
        ".unwrap()",
        ".expect(",
        "panic!",
        "todo!",
        "unimplemented!",
        "unreachable!",
        "assert!(",
        "assert_eq!(",
        "unsafe",
    ];
    let mut faults = Vec::new();
    for source in sources() {
        for word in STOPS {
            for (at, _) in source.code.match_indices(word) {
                let inside = word.starts_with(is_word) && source.code[..at].chars().next_back().is_some_and(is_word);
                // In a constant an assertion is asked by the compiler, not by the program.
                let compiled =
                    source.code[..at].trim_end().ends_with("const {") || source.code[..at].ends_with("const _: () = ");
                if !inside && !compiled {
                    faults.push(format!("src/{}:{}: {word}", source.path, source.line(at)));
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn files_are_short_and_say_what_they_are() {
    let mut faults = Vec::new();
    for source in sources() {
        let Source { path, lines, bytes, .. } = &source;
        let long = *lines > MOST_LINES || *bytes > MOST_BYTES;
        let excused = LONG_TABLES.iter().any(|(table, _)| table == path);
        if long && !excused {
            faults.push(format!(
                "src/{path}: {lines} lines, {bytes} bytes; cut it by its jobs below {MOST_LINES} and {MOST_BYTES}"
            ));
        }
        if !long && excused {
            faults.push(format!("src/{path}: is not long, and stands among the tables that may be"));
        }
        if !source.first_line.starts_with("//! ") {
            faults.push(format!("src/{}: does not begin by saying what it is", source.path));
        }
        for word in ["utils", "helpers", "common", "misc"] {
            if source.module().contains(&word) {
                faults.push(format!("src/{}: {word} is no room", source.path));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_room_is_in_the_library_and_every_test_file_is_run() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    let library = std::fs::read_to_string(folder.join("src/lib.rs")).unwrap();
    for (_, room, _) in HOUSE {
        assert!(library.contains(&format!("pub mod {room};")), "{room} is not in lib.rs");
        assert!(library.contains(&format!("[`{room}`]")), "{room} is not among the rooms that lib.rs lists");
    }
    let declared = std::fs::read_to_string(folder.join("tests/it/main.rs")).unwrap();
    for entry in std::fs::read_dir(folder.join("tests/it")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|end| end == "rs") {
            let name = path.file_stem().unwrap().to_str().unwrap();
            let text = std::fs::read_to_string(&path).unwrap();
            assert!(name == "main" || declared.contains(&format!("mod {name};")), "tests/it/{name}.rs is never run");
            assert!(text.starts_with("//! "), "tests/it/{name}.rs does not say what belongs there");
        }
    }
}

#[test]
fn the_rules_see_what_they_are_for() {
    // A rule that finds nothing could be blind: each must see a planted fault, and not see the same words in a comment.
    let planted = "use crate::{well::Well, checks::{admit, Verdict}};\n// crate::cli\nlet a = \"crate::write\"; super::super::engine::run();\nlet b = '\"'; crate::report::x; 'c: loop {}\n#[cfg(test)]\ncrate::ledger";
    let source =
        Source { path: "kernel/dose.rs".into(), code: code_of(planted), bytes: 0, lines: 0, first_line: String::new() };
    let rooms: BTreeSet<&str> = HOUSE.iter().map(|(_, room, _)| *room).collect();
    let found: BTreeSet<String> = uses(&source, &rooms).into_iter().map(|(_, name)| name).collect();
    let wanted = ["checks", "engine", "report", "well"].map(str::to_owned);
    assert_eq!(found, wanted.into_iter().collect());
    assert_eq!(source.line(source.code.find("super").unwrap()), 3);
}
