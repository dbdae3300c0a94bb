//! Lists as offices keep them, with the truth beside them: what is understood of each without any answer, and with the
//! open questions answered once.
//!
//! The lists and their truth (`fixtures/lists`) were written by people who had not seen the program's vocabulary; the
//! litres are worked out from the facts of each well, not by the program.

use std::collections::BTreeMap;
use std::path::PathBuf;

use aftercrest::checks::{Identities, Verdict, admit};
use aftercrest::field::rules::ReadingRules;
use aftercrest::inventory::Inventory;
use aftercrest::kernel::volume::standing_volume;

use crate::reading::fixtures;

/// What a careful person makes of a row.
#[derive(Debug, Clone)]
struct Truth {
    kind: String,
    liters: Option<f64>,
    well_type: String,
    route: String,
}

/// Rows by sheet and number.
type Rows<T> = BTreeMap<(String, u32), T>;

fn truth(name: &str) -> Rows<Truth> {
    let mut reader = csv::Reader::from_path(fixtures("lists").join(format!("{name}.truth.csv"))).unwrap();
    let headings = reader.headers().unwrap().clone();
    let mut rows = Rows::new();
    for record in reader.records() {
        let record = record.unwrap();
        let cell = |heading: &str| {
            headings
                .iter()
                .position(|known| known.trim_start_matches('\u{feff}') == heading)
                .and_then(|at| record.get(at))
                .unwrap_or_default()
                .trim()
                .to_owned()
        };
        let truth = Truth {
            kind: cell("kind"),
            liters: cell("liters").parse().ok(),
            well_type: cell("type"),
            route: cell("route"),
        };
        rows.insert((cell("sheet"), cell("row").parse().unwrap()), truth);
    }
    rows
}

/// What the program makes of a row.
struct Read {
    liters: Option<f64>,
    well_type: String,
    route: String,
    warned: bool,
    reasons: Vec<String>,
}

fn read(path: PathBuf, rules: &ReadingRules) -> (Rows<Read>, Vec<String>) {
    let mut inventory = Inventory::open(&[path], rules).unwrap();
    let mut said: Vec<String> = inventory
        .file_findings()
        .iter()
        .map(|finding| format!("{} {} | {} | {}", finding.code.id(), finding.place, finding.seen, finding.says))
        .collect();
    for source in inventory.sources() {
        for (heading, field, unit) in &source.fields {
            said.push(format!("  {:?} {heading:?} -> {} {:?}", source.origin.sheet, field.name(), unit));
        }
    }
    let mut identities = Identities::new(rules);
    let mut rows = Rows::new();
    while let Some(batch) = inventory.next_batch(4096).unwrap() {
        let mut drafts = batch.drafts();
        identities.check(&mut drafts);
        for draft in drafts {
            let at = (draft.origin().sheet.as_deref().unwrap_or_default().to_owned(), draft.row());
            let read = match admit(draft, rules) {
                Verdict::Admitted { well, findings } => Read {
                    liters: Some(standing_volume(&well.standing_water).value * 1000.0),
                    well_type: well.well_type.name().to_owned(),
                    route: well.discharge_route.map_or("", |route| route.name()).to_owned(),
                    warned: findings
                        .iter()
                        .any(|finding| finding.code.severity() != aftercrest::finding::Severity::Note),
                    reasons: findings.iter().map(|finding| format!("{} {}", finding.code.id(), finding.says)).collect(),
                },
                Verdict::NotAWell(_) => Read {
                    liters: None,
                    well_type: String::new(),
                    route: String::new(),
                    warned: true,
                    reasons: vec!["not a well".to_owned()],
                },
                Verdict::HeldBack(held) => Read {
                    liters: None,
                    well_type: String::new(),
                    route: String::new(),
                    warned: true,
                    reasons: held
                        .reasons()
                        .map(|finding| format!("{} {}: {}", finding.code.id(), finding.seen, finding.says))
                        .collect(),
                },
            };
            rows.insert(at, read);
        }
    }
    (rows, said)
}

#[derive(Default, Debug)]
struct Score {
    treatable: usize,
    right: usize,
    held_back: usize,
    wrong: usize,
    wrong_silently: usize,
    should_ask: usize,
    asked: usize,
    no_wells: usize,
    no_wells_planned: usize,
    types_right: usize,
    routes_right: usize,
}

fn lists() -> Vec<(String, PathBuf)> {
    let mut found: Vec<(String, PathBuf)> = std::fs::read_dir(fixtures("lists"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter_map(|path| {
            let name = path.file_name()?.to_str()?.to_owned();
            let stem = name.split('.').next()?.to_owned();
            (name.matches('.').count() == 1 && !name.ends_with(".md")).then_some((stem, path))
        })
        .collect();
    found.sort();
    found
}

#[test]
fn lists_of_offices_are_read_as_a_careful_person_reads_them() {
    let only = std::env::var("LIST").ok();
    let mut all = Score::default();
    for (name, path) in lists() {
        if only.as_ref().is_some_and(|only| !name.contains(only.as_str())) {
            continue;
        }
        let truth = truth(&name);
        let (rows, said) = read(path, &ReadingRules::default());
        let mut score = Score::default();
        if only.is_some() {
            said.iter().for_each(|line| println!("{line}"));
        }
        for (at, truth) in &truth {
            let read = rows.get(at);
            let liters = read.and_then(|read| read.liters);
            let show = |what: &str| {
                if only.is_some() {
                    println!(
                        "{what} {}:{} truth {truth:?} read {liters:?} {:?}",
                        at.0,
                        at.1,
                        read.map(|read| &read.reasons)
                    );
                }
            };
            match truth.kind.as_str() {
                "well" => {
                    score.treatable += 1;
                    let Some(expected) = truth.liters else { continue };
                    match liters {
                        Some(liters) if (liters / expected - 1.0).abs() <= 0.1 => {
                            score.right += 1;
                            let read = read.unwrap();
                            score.types_right +=
                                usize::from(truth.well_type == "unknown" || read.well_type == truth.well_type);
                            score.routes_right += usize::from(read.route == truth.route);
                            if truth.well_type != "unknown" && read.well_type != truth.well_type {
                                show("TYPE");
                            }
                            if read.route != truth.route {
                                show("ROUTE");
                            }
                        }
                        Some(_) => {
                            score.wrong += 1;
                            score.wrong_silently += usize::from(!read.unwrap().warned);
                            show("WRONG");
                        }
                        None => {
                            score.held_back += 1;
                            show("HELD");
                        }
                    }
                }
                "ask" => {
                    score.should_ask += 1;
                    if liters.is_none() {
                        score.asked += 1;
                    } else {
                        show("SHOULD ASK");
                    }
                }
                _ => {
                    score.no_wells += 1;
                    if liters.is_some() {
                        score.no_wells_planned += 1;
                        show("NO WELL");
                    }
                }
            }
        }
        println!(
            "{name:<28} right {:>3} of {:>3}, held back {:>3}, wrong {:>2} ({} silently), asked {:>2} of {:>2}, no wells planned {:>2} of {:>3}, types {:>3}, routes {:>3}",
            score.right,
            score.treatable,
            score.held_back,
            score.wrong,
            score.wrong_silently,
            score.asked,
            score.should_ask,
            score.no_wells_planned,
            score.no_wells,
            score.types_right,
            score.routes_right
        );
        all.treatable += score.treatable;
        all.right += score.right;
        all.wrong += score.wrong;
        all.wrong_silently += score.wrong_silently;
        all.should_ask += score.should_ask;
        all.asked += score.asked;
        all.no_wells_planned += score.no_wells_planned;
        all.no_wells += score.no_wells;
    }
    println!("{all:?}");
}
