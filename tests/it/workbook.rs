//! The workbook read back: its sheets, headings with units, what stays in sight, how it prints; every number of the Wells
//! sheet beside the treatments table, by a conversion of its own; totals, orders and findings beside theirs.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use aftercrest::ledger::{COLUMNS, Get};
use aftercrest::quantity::kitchen::words;
use calamine::Data;
use tempfile::TempDir;

use crate::running::{Row, close, folder, heads, number, parts, place, root, rows, run_in, sheets};

const SHEETS: [&str; 9] =
    ["Summary", "Compare", "Order", "Wells", "Crew", "Findings", "Assumptions", "Method", "Cautions"];

/// Sheets that come with some lists only, or that go beyond the contract's nine; they stand between those.
const FURTHER: [&str; 17] = [
    "About",
    "Held back",
    "Charts",
    "Crew days",
    "Storage",
    "Findings by cell",
    "Quality",
    "Corrections",
    "Inputs",
    "Prices",
    "Stock",
    "Needs",
    "Packages",
    "Checks",
    "Scenarios",
    "Practices",
    "Numbers",
];

/// The demo campaign, planned in one system of units.
fn demo(units: &str) -> (TempDir, PathBuf) {
    let folder = folder();
    let text = std::fs::read_to_string(root().join("scenarios/demo.toml")).unwrap();
    // A bare gallon is a US gallon in the demo; in another system it must say so.
    let text = text.replace("units    = \"us\"", &format!("units    = \"{units}\""));
    let text = if units == "us" {
        text
    } else {
        text.replace(" gal\"", " US gal\"").replace(" gpm\"", " US gpm\"").replace(" fl oz\"", " US fl oz\"")
    };
    let scenarios = place(folder.path(), "demo.toml", text);
    let list = |name: &str| root().join("fixtures/demo").join(name).to_str().unwrap().to_owned();
    let out = folder.path().join("out");
    run_in(
        folder.path(),
        &[
            "plan",
            &list("harrowfen-county.xlsx"),
            &list("quillmoor-county.csv"),
            "--scenarios",
            scenarios.to_str().unwrap(),
            "--out",
            out.to_str().unwrap(),
        ],
    )
    .ended(1);
    (folder, out)
}

/// Unit and factor by which people of a system read a unit of the tables; written out here a second time on purpose.
fn shown(unit: &str, system: &str) -> (&'static str, f64) {
    match (unit, system) {
        ("", _) => ("", 1.0),
        ("m", "metric") => ("m", 1.0),
        ("m", _) => ("ft", 1.0 / 0.3048),
        ("mm", "metric") => ("mm", 1.0),
        ("mm", _) => ("in", 1.0 / 25.4),
        ("°", _) => ("°", 1.0),
        ("L", "metric") => ("L", 1.0),
        ("L", "us") => ("US gal", 1.0 / 3.785_411_784),
        ("L", _) => ("imp gal", 1.0 / 4.546_09),
        ("L/min", "metric") => ("L/min", 1.0),
        ("L/min", "us") => ("US gpm", 1.0 / 3.785_411_784),
        ("L/min", _) => ("imp gpm", 1.0 / 4.546_09),
        ("kg", "metric") => ("kg", 1.0),
        ("kg", _) => ("lb", 1.0 / 0.453_592_37),
        ("L/h", "metric") => ("L/h", 1.0),
        ("L/h", "us") => ("US gal/h", 1.0 / 3.785_411_784),
        ("L/h", _) => ("imp gal/h", 1.0 / 4.546_09),
        ("kg/h", "metric") => ("kg/h", 1.0),
        ("kg/h", _) => ("lb/h", 1.0 / 0.453_592_37),
        ("g", "metric") => ("kg", 1e-3),
        ("g", _) => ("lb", 1.0 / 453.592_37),
        ("mg/L", _) => ("mg/L", 1.0),
        ("g/L", _) => ("g/L", 1.0),
        ("g/kg", _) => ("g/kg", 1.0),
        ("h", _) => ("h", 1.0),
        (other, _) => panic!("no rule for {other}"),
    }
}

fn sheet(out: &Path, name: &str) -> Vec<Vec<Data>> {
    sheets(&out.join("campaign.xlsx")).into_iter().find(|(found, _)| found == name).unwrap().1
}

fn text(cell: Option<&Data>) -> String {
    match cell {
        Some(Data::String(text)) => text.clone(),
        Some(Data::Empty) | None => String::new(),
        Some(other) => panic!("{other:?} is no text"),
    }
}

fn value(cell: Option<&Data>) -> f64 {
    match cell {
        Some(Data::Float(value)) => *value,
        Some(Data::Int(value)) => *value as f64,
        Some(Data::Empty) | None => f64::NAN,
        // A formula without a value says nothing.
        Some(Data::String(text)) if text.is_empty() => f64::NAN,
        Some(other) => panic!("{other:?} is no number"),
    }
}

/// Rows under the first row whose first cells are these, up to the next empty row, by heading.
fn under<'a>(rows: &'a [Vec<Data>], first: &[&str]) -> (Vec<String>, Vec<BTreeMap<String, &'a Data>>) {
    let at = rows
        .iter()
        .position(|row| {
            first
                .iter()
                .enumerate()
                .all(|(column, head)| matches!(row.get(column), Some(Data::String(found)) if found == head))
        })
        .unwrap_or_else(|| panic!("no row begins with {first:?}"));
    let heads: Vec<String> = rows[at].iter().map(|cell| text(Some(cell))).collect();
    let body = rows[at + 1..]
        .iter()
        .take_while(|row| !matches!(row.first(), None | Some(Data::Empty)))
        .map(|row| heads.iter().cloned().zip(row).collect())
        .collect();
    (heads, body)
}

#[test]
fn nine_sheets_in_reading_order() {
    let (_folder, out) = demo("us");
    let mut found: Vec<String> = sheets(&out.join("campaign.xlsx")).into_iter().map(|(name, _)| name).collect();
    found.retain(|name| !FURTHER.contains(&name.as_str()));
    assert_eq!(found, SHEETS);
    for (name, rows) in sheets(&out.join("campaign.xlsx")) {
        assert!(matches!(&rows[0][0], Data::String(title) if title.len() > 10), "{name} has no title");
        assert!(!rows.iter().flatten().any(|cell| matches!(cell, Data::Error(_))), "{name} shows an error");
    }
}

#[test]
fn heads_stay_in_sight_and_pages_can_be_printed() {
    let (_folder, out) = demo("us");
    let parts = parts(&out.join("campaign.xlsx"));
    let part = |name: &str| String::from_utf8(parts[name].clone()).unwrap();
    let workbook = part("xl/workbook.xml");
    let all: Vec<String> = sheets(&out.join("campaign.xlsx")).into_iter().map(|(name, _)| name).collect();
    for (at, name) in all.iter().map(String::as_str).enumerate() {
        let xml = part(&format!("xl/worksheets/sheet{}.xml", at + 1));
        assert!(workbook.contains(&format!("name=\"{name}\"")), "{workbook}");
        for wanted in ["<pageMargins ", "<pageSetup ", "orientation=\"", "<headerFooter>", "<cols>"] {
            assert!(xml.contains(wanted), "{name} has no {wanted}");
        }
        assert!(xml.contains("local code and licensed practice come first"), "{name} is printed without its caution");
        if name != "Summary" {
            assert!(xml.contains("state=\"frozen\""), "{name} lets its heads scroll away");
        }
        if ["Wells", "Crew", "Findings"].contains(&name) {
            assert!(xml.contains("<autoFilter ref="), "{name} cannot be filtered");
            assert!(
                workbook.contains(&format!("'{name}'!$")) || workbook.contains(&format!("{name}!$")),
                "{name} repeats no heads when printed"
            );
        }
    }
    assert!(part("xl/styles.xml").contains("#,##0.0"), "numbers have no format");
}

#[test]
fn every_cell_of_the_wells_sheet_is_that_of_the_table() {
    for system in ["us", "metric", "imperial"] {
        let (_folder, out) = demo(system);
        let table = rows(&out.join("treatments.csv"));
        let own = COLUMNS.iter().map(|column| column.id.to_owned());
        // Crew and day stand on the sheets of the crews.
        let of_crews = |name: &String| aftercrest::ledger::OF_CREWS.iter().any(|column| column.id == name);
        let known = |name: &String| aftercrest::ledger::column(name).is_some() || of_crews(name);
        let carried = heads(&out.join("visits.csv")).into_iter().filter(|name| !known(name));
        let table_heads: Vec<String> = own.chain(carried).collect();
        let wells = sheet(&out, "Wells");
        let at =
            wells.iter().position(|row| matches!(row.first(), Some(Data::String(head)) if head == "Scenario")).unwrap();
        let body = &wells[at + 1..];
        assert_eq!(body.len(), table.len(), "{system}");
        for (column, name) in table_heads.iter().enumerate() {
            let head = text(wells[at].get(column));
            let ledger = COLUMNS.iter().find(|entry| entry.id == *name);
            let (unit, factor) = shown(ledger.map_or("", |entry| entry.unit), system);
            let title = ledger.map_or(name.as_str(), |entry| entry.title);
            let wanted = if unit.is_empty() { title.to_owned() } else { format!("{title} ({unit})") };
            assert_eq!(head, wanted, "{system}: heading of {name}");
            if let Some(entry) = ledger
                && !entry.unit.is_empty()
            {
                let ending = format!("_{}", entry.unit.to_lowercase().replace('/', "_per_").replace('°', "deg"));
                assert!(entry.id.ends_with(&ending), "{} does not end in its unit {}", entry.id, entry.unit);
            }
            let is_text = ledger.is_none_or(|entry| entry.get.is_text());
            for (row, cells) in table.iter().zip(body) {
                if is_text {
                    let found = text(cells.get(column));
                    let plain = row[name].strip_prefix('\'').unwrap_or(&row[name]);
                    // People read words: lines between them are of the tables, and a code stands behind what it means.
                    let in_words = found == plain.replace('_', " ");
                    let codes =
                        found.split("; ").map(|reason| reason.rsplit_once('(').map_or(reason, |(_, code)| code));
                    let codes: Vec<&str> = codes.map(|code| code.trim_end_matches(')')).collect();
                    let named =
                        name == "reasons" && codes.join(" ") == plain && (found.is_empty() || found.contains(" ("));
                    let is_said = found == row[name] || found == plain || in_words || named;
                    assert!(is_said, "{system} {name}: {found:?}, but {:?}", row[name]);
                } else {
                    // Figures of a product are not shown beside a row that has no treatment.
                    let of_product = ledger.is_some_and(|entry| matches!(entry.get, Get::CaseNumber(_)));
                    let shown = !of_product || row["outcome"] == "planned";
                    let wanted = if shown { number(row, name) * factor } else { f64::NAN };
                    let found = value(cells.get(column));
                    assert!(close(found, wanted, 1e-12), "{system} {name}: {found}, but {wanted}: {row:?}");
                }
            }
        }
    }
}

#[test]
fn summary_and_compare_are_the_totals_table() {
    let (_folder, out) = demo("us");
    let totals = rows(&out.join("totals.csv"));
    let orders = rows(&out.join("orders.csv"));
    let summary = sheet(&out, "Summary");
    let (_, lines) = under(&summary, &["Scenario", "Product"]);
    let compare = sheet(&out, "Compare");
    let top = compare.iter().position(|row| text(row.first()) == "Figure").unwrap();
    let compare_heads: Vec<String> = compare[top].iter().map(|cell| text(Some(cell))).collect();
    let compare: Vec<Vec<Data>> = compare[top + 1..].to_vec();
    let whole: Vec<&Row> = totals.iter().filter(|row| row["level"] == "campaign").collect();
    assert_eq!(lines.len(), whole.len());
    let (_, gallon) = shown("L", "us");
    let (_, pound) = shown("kg", "us");
    for (line, total) in lines.iter().zip(whole) {
        assert_eq!(text(Some(line["Scenario"])), total["scenario"]);
        let (unit, factor) = if total["product_l"].is_empty() { ("kg", pound) } else { ("l", gallon) };
        let cost: f64 =
            orders.iter().filter(|row| row["scenario"] == total["scenario"]).map(|row| number(row, "cost")).sum();
        let product = |part: &str| number(total, &format!("product{part}_{unit}")) * factor;
        let form = if unit == "l" { "liquid" } else { "dry" };
        let column = compare_heads.iter().position(|head| *head == total["scenario"]).unwrap();
        // A star marks what does not follow the inputs.
        let compared = |title: &str| {
            let row = compare.iter().find(|row| text(row.first()).trim_end_matches(" *") == title);
            value(row.unwrap_or_else(|| panic!("Compare has no {title}")).get(column))
        };
        let parts =
            compare.iter().position(|row| text(row.first()) == format!("Product, {form}, first round")).unwrap();
        for (at, part) in ["", "_low", "_high", "_repeat", "_loss", "_in_all"].into_iter().enumerate() {
            assert!(
                close(value(compare[parts + at].get(column)), product(part), 1e-12),
                "{part} of {}",
                total["scenario"]
            );
        }
        for (title, wanted) in [
            ("Visits planned", number(total, "visits_planned")),
            ("Visits held back", number(total, "visits_held_back")),
            ("Water treated", number(total, "treated_volume_l") * gallon),
            ("Chlorine, as Cl2", number(total, "chlorine_g") / 1000.0 * pound),
            ("Neutralizer, all agents, first round", number(total, "neutralizer_kg") * pound),
            ("Flush water", number(total, "flush_volume_l") * gallon),
            ("Flush time, where a rate is known", number(total, "flush_h")),
            ("Cost of everything on the order", cost),
        ] {
            assert!(close(compared(title), wanted, 1e-9), "{title}: {}, but {wanted}", compared(title));
        }
        for (head, wanted) in [
            ("First round", product("")),
            ("  low", product("_low")),
            ("  high", product("_high")),
            ("Total, incl. repeats and losses", product("_in_all")),
            ("Neutralizer, first round (lb)", number(total, "neutralizer_kg") * pound),
            ("Flush time (h)", number(total, "flush_h")),
            ("Order cost (USD)", cost),
        ] {
            let found = value(line.get(head).copied());
            assert!(
                close(found, wanted, 1e-12),
                "{head}: {found}, but {wanted} in the totals of {}",
                total["scenario"]
            );
        }
    }
    // And the first scenario's groups, under their own heads.
    let (_, lines) = under(&summary, &["region / depot"]);
    let first = &totals[0]["scenario"];
    let groups: Vec<&Row> = totals.iter().filter(|row| row["level"] == "group" && row["scenario"] == *first).collect();
    assert_eq!(lines.len(), groups.len());
    for (line, total) in lines.iter().zip(groups) {
        let named = |text: &str| if text.is_empty() { "(not given)".to_owned() } else { text.to_owned() };
        assert_eq!(
            text(Some(line["region / depot"])),
            format!("{} / {}", named(&total["region"]), named(&total["depot"]))
        );
        assert!(close(value(Some(line["First round"])), number(total, "product_l") * gallon, 1e-12));
    }
    let says: Vec<String> = summary
        .iter()
        .filter_map(|row| row.first())
        .filter_map(|cell| match cell {
            Data::String(text) => Some(text.clone()),
            _ => None,
        })
        .collect();
    assert!(
        says.iter().any(|line| line == "224 of 245 well visits planned; 21 held back; 1 row is not a well."),
        "{says:?}"
    );
}

#[test]
fn needs_and_packages_are_the_orders_table() {
    let (_folder, out) = demo("us");
    let table = rows(&out.join("orders.csv"));
    let (needs, packages) = (sheet(&out, "Needs"), sheet(&out, "Packages"));
    let (_, lines) = under(&needs, &["No.", "Scenario no."]);
    let (_, bought) = under(&packages, &["No.", "Need no."]);
    assert_eq!(lines.len(), table.len());
    for (line, row) in lines.iter().zip(&table) {
        assert_eq!(text(Some(line["Scenario"])), row["scenario"]);
        // A neutralizer is called what is written on its bag.
        let first_word = |name: &str| name.split([' ', '_']).next().unwrap().to_owned();
        assert_eq!(first_word(&text(Some(line["Item"]))), first_word(&row["item"]), "{row:?}");
        let (unit, factor) = match row["unit"].as_str() {
            "pieces" => ("pieces", 1.0),
            unit => shown(unit, "us"),
        };
        assert_eq!(text(Some(line["Unit"])), unit);
        for (head, column) in [
            ("First round", "first_round"),
            ("Repeat round", "repeat_round"),
            ("Handling loss", "handling_loss"),
            ("On hand", "on_hand"),
            ("On order", "on_order"),
            ("To buy", "gap"),
            ("Bought", "amount_bought"),
        ] {
            assert!(close(value(Some(line[head])), number(row, column) * factor, 1e-12), "{head}: {row:?}");
        }
        let own = bought.iter().filter(|package| value(Some(package["Need no."])) == value(Some(line["No."])));
        let own: Vec<String> = own
            .filter(|package| value(Some(package["Count"])) > 0.0)
            .map(|package| format!("{} x {}", value(Some(package["Count"])), text(Some(package["Package"]))))
            .collect();
        let listed: BTreeSet<&str> = row["packages"].split(" + ").filter(|part| !part.is_empty()).collect();
        assert_eq!(own.iter().map(String::as_str).collect::<BTreeSet<_>>(), listed);
        assert!(close(value(Some(line["Cost"])), number(row, "cost"), 1e-12));
    }
}

#[test]
fn findings_by_cell_are_the_findings_table() {
    let (_folder, out) = demo("us");
    let table = rows(&out.join("findings.csv"));
    let findings = sheet(&out, "Findings by cell");
    let (_, lines) = under(&findings, &["Severity", "Code", "Place"]);
    assert_eq!(lines.len(), table.len());
    for (line, row) in lines.iter().zip(&table) {
        let plain = |column: &str| row[column].strip_prefix('\'').unwrap_or(&row[column]).to_owned();
        assert_eq!(
            (text(Some(line["Severity"])), text(Some(line["Code"]))),
            (row["severity"].clone(), row["code"].clone())
        );
        assert_eq!(text(Some(line["As typed"])), plain("as_typed"));
        assert_eq!(text(Some(line["What to do"])), plain("what_to_do"));
        assert!(text(Some(line["Place"])).starts_with(&row["file"]));
    }
}

/// The causes are those of a recount of findings.csv; a rule stands once a cause.
#[test]
fn findings_sheet_counts_causes() {
    let (_folder, out) = demo("us");
    let table = rows(&out.join("findings.csv"));
    let mut times: BTreeMap<&str, f64> = BTreeMap::new();
    let mut held_back: BTreeMap<(&str, &str, &str), BTreeSet<&str>> = BTreeMap::new();
    for row in &table {
        *times.entry(&row["code"]).or_default() += 1.0;
        if row["severity"] == "held back" && !row["well_id"].is_empty() {
            held_back.entry(of_row(row)).or_default().insert(&row["code"]);
        }
    }
    let findings = sheet(&out, "Findings");
    let (_, lines) = under(&findings, &["Severity", "Code", "Cause"]);
    let mut found: BTreeMap<String, f64> = BTreeMap::new();
    let mut alone = 0.0;
    for line in &lines {
        *found.entry(text(Some(line["Code"]))).or_default() += value(Some(line["Times"]));
        alone += value(Some(line["Held back by it alone"]));
        assert!(!text(Some(line["The rule"])).is_empty() && !text(Some(line["What to do"])).is_empty());
        let holds = value(Some(line["Wells held back"])) > 0.0;
        assert_eq!(holds, text(Some(line["Severity"])) == "held back", "{line:?}");
    }
    let times: BTreeMap<String, f64> = times.into_iter().map(|(code, count)| (code.to_owned(), count)).collect();
    assert_eq!(found, times);
    assert!(!held_back.is_empty() && alone >= held_back.values().filter(|codes| codes.len() == 1).count() as f64);
}

fn of_row(row: &Row) -> (&str, &str, &str) {
    (&row["file"], &row["sheet"], &row["row"])
}

#[test]
fn field_sheet_has_every_planned_visit_of_the_first_scenario_once() {
    let (_folder, out) = demo("us");
    let table = rows(&out.join("treatments.csv"));
    let first = table[0]["scenario"].clone();
    let field = sheet(&out, "Crew");
    let at = field
        .iter()
        .position(|row| row.iter().any(|cell| matches!(cell, Data::String(head) if head == "Initials")))
        .unwrap();
    let column =
        |head: &str| field[at].iter().position(|cell| matches!(cell, Data::String(found) if found == head)).unwrap();
    let (well, visit, amount) = (column("Well"), column("Visit"), column("Measure out"));
    let mut found: Vec<(String, String, String)> = field[at + 1..]
        .iter()
        // Below them, behind an empty row, stand the visits that are held back.
        .take_while(|row| !text(row.get(well)).is_empty())
        .map(|row| (text(row.get(well)), text(row.get(visit)), text(row.get(amount))))
        .collect();
    let mut wanted: Vec<(String, String, String)> = table
        .iter()
        .filter(|row| row["scenario"] == first && row["outcome"] == "planned")
        .map(|row| {
            (row["well_id"].clone(), row["visit"].clone(), words(number(row, "measured_amount"), &row["measured_unit"]))
        })
        .collect();
    found.sort();
    wanted.sort();
    assert_eq!(found, wanted);
}

#[test]
fn beyond_its_limit_the_workbook_says_where_the_rest_is() {
    let folder = folder();
    let mut list = "well_id,well_type,water volume (L)\n".to_owned();
    for well in 0..20_500 {
        // Not 9999, which stands for "not known" in many a list.
        list += &format!("W{well},spring_box,{}.5\n", 100 + well);
    }
    place(folder.path(), "list.csv", list);
    place(
        folder.path(),
        "plan.toml",
        "[campaign]\nunits = \"metric\"\n[[product]]\nname = \"liquid\"\nchemical = \"sodium_hypochlorite\"\n\
         strength = { percent = 12.5, basis = \"trade\" }\n",
    );
    for (table, says) in [("csv", "every row is in treatments.csv"), ("none", "run again with --table csv or parquet")]
    {
        run_in(folder.path(), &["plan", "list.csv", "--scenarios", "plan.toml", "--out", "out", "--table", table])
            .ended(0);
        let wells = sheet(&folder.path().join("out"), "Wells");
        let told = wells.iter().take(4).flatten().any(
            |cell| matches!(cell, Data::String(text) if text.contains("of 20500 rows are here") && text.contains(says)),
        );
        assert!(told, "{:?}", &wells[..4]);
        assert!(wells.len() > 1000 && wells.len() < 20_500);
    }
}

/// What a person pays by is kept together, and no page of the order is left half empty but the last.
#[test]
fn depots_share_a_page_of_the_order_where_it_has_room() {
    let (_folder, out) = demo("us");
    let book = out.join("campaign.xlsx");
    let number = sheets(&book).iter().position(|(name, _)| name == "Order").unwrap() + 1;
    let part = String::from_utf8(parts(&book)[&format!("xl/worksheets/sheet{number}.xml")].clone()).unwrap();
    let breaks: Vec<usize> = part
        .split("<rowBreaks")
        .nth(1)
        .map(|rest| rest.split("<brk id=\"").skip(1).map(|at| at.split('"').next().unwrap().parse().unwrap()).collect())
        .unwrap_or_default();
    let order = sheet(&out, "Order");
    let totals = order.iter().filter(|row| text(row.first()).starts_with("Total for ")).count();
    assert!(!breaks.is_empty() && breaks.len() + 1 < totals, "{breaks:?} for {totals} depots");
    // A page begins with a depot, never amid its lines, or with the total that is signed, the suppliers, or what is to be known on
    // the road.
    for row in breaks {
        let begins = order.get(row).map_or_else(String::new, |below| text(below.first()));
        let at_the_end =
            ["On the road, and what is left over", "By supplier", "Total of the order"].contains(&&*begins);
        assert!(at_the_end || text(order[row - 1].first()).starts_with("Total for "), "{row}");
    }
}
