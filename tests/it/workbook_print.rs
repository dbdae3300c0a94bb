//! The workbook as people meet it: what is printed and what is not, what a sheet is for, what a picture says to who cannot see it, and
//! what stands above the rows of a crew's list.

use std::collections::BTreeSet;
use std::path::Path;

use calamine::Data;

use crate::running::{folder, parts, place, rows, run_in, sheets};

fn texts(out: &Path, name: &str) -> Vec<String> {
    let (_, rows) = sheets(&out.join("campaign.xlsx")).into_iter().find(|(found, _)| found == name).unwrap();
    rows.iter().map(|row| row.iter().map(Data::to_string).collect::<Vec<_>>().join("\t")).collect()
}

#[test]
fn sheets_say_what_they_are_for_and_workings_stay_off_paper() {
    let folder = folder();
    run_in(folder.path(), &["plan", "--demo", "--out", "out"]).ended(1);
    let out = folder.path().join("out");
    let parts = parts(&out.join("campaign.xlsx"));
    let part = |name: &str| String::from_utf8(parts[name].clone()).unwrap();
    let names: Vec<String> = sheets(&out.join("campaign.xlsx")).into_iter().map(|(name, _)| name).collect();
    let workbook = part("xl/workbook.xml");
    let about = texts(&out, "About").join("\n");
    for (at, name) in names.iter().enumerate() {
        let xml = part(&format!("xl/worksheets/sheet{}.xml", at + 1));
        assert!(xml.contains("<tabColor "), "{name} has no class");
        assert!(about.contains(&format!("{name}\t")), "About does not name {name}");
        // About, Checks and five sheets of workings print one cell, in which nothing stands.
        let areas = workbook.split("<definedName name=\"_xlnm.Print_Area\"").skip(1);
        let area = areas.filter_map(|area| area.split('<').next()?.split_once('!')).find(|(sheet, _)| {
            let sheet = sheet.rsplit('>').next().unwrap_or_default().trim_matches('\'');
            sheet == name
        });
        let is_one_cell = area.is_some_and(|(_, cells)| {
            let ends: Vec<&str> = cells.split(':').collect();
            ends.len() == 1 || ends[0] == ends[1]
        });
        let is_working =
            ["About", "Checks", "Packages", "Needs", "Scenarios", "Practices", "Numbers"].contains(&name.as_str());
        assert_eq!(is_one_cell, is_working, "{name}: {area:?}");
    }
    for wanted in ["aftercrest ", "harrowfen-county.xlsx", "246 rows read", "Yellow in a frame"] {
        assert!(about.contains(wanted), "About does not say {wanted}");
    }

    // Held-back visits have a sheet of their own; on Crew none stands below the heading of an amount.
    let visits = rows(&out.join("visits.csv"));
    let held: Vec<&str> =
        visits.iter().filter(|row| row["outcome"] == "held_back").map(|row| row["well_id"].as_str()).collect();
    let apart = texts(&out, "Held back");
    assert!(held.len() >= 20 && held.iter().all(|id| apart.iter().any(|line| line.contains(&format!("\t{id}\t")))));
    assert!(apart.iter().any(|line| line.contains("diameter missing (G206)")), "codes stand alone");
    let crew = texts(&out, "Crew");
    let head = crew.iter().position(|line| line.contains("Measure out")).unwrap();
    assert!(crew[..head].iter().any(|line| line.contains("Measured for typical")), "the side is not said");
    let unplanned = crew[head + 1..].iter().filter(|line| line.split('\t').nth(4).is_none_or(str::is_empty)).count();
    assert_eq!(unplanned, 0, "rows without an amount");

    // The low and the high are said for what they are wherever totals show them.
    for name in ["Summary", "Compare", "Charts"] {
        assert!(texts(&out, name).iter().any(|line| line.contains("as if all of them erred")), "{name}");
    }
    assert!(texts(&out, "Order").iter().any(|line| line.contains("Count\tPrice of one\tAmount")));
}

#[test]
fn pictures_say_everything_they_show() {
    let folder = folder();
    run_in(folder.path(), &["plan", "--demo", "--out", "out", "--table", "none"]).ended(1);
    let parts = parts(&folder.path().join("out/campaign.xlsx"));
    let drawings = parts.iter().filter(|(name, _)| name.starts_with("xl/drawings/drawing"));
    let told: Vec<String> = drawings
        .flat_map(|(_, part)| {
            let part = String::from_utf8(part.clone()).unwrap();
            part.split("descr=\"").skip(1).map(|text| text.split('"').next().unwrap().to_owned()).collect::<Vec<_>>()
        })
        .collect();
    assert!(told.len() >= 4, "{told:?}");
    assert!(told.iter().all(|text| text.len() > 40 && !text.contains('…') && !text.contains("text of the chart")));
    let scenarios = texts(&folder.path().join("out"), "Scenarios");
    let names: BTreeSet<&str> = scenarios.iter().skip(3).filter_map(|line| line.split('\t').nth(1)).collect();
    assert_eq!(names.len(), 16);
    let cost = told.iter().find(|text| text.contains("Cost of the order by scenario")).unwrap();
    assert!(names.iter().all(|name| cost.contains(&name.replace('&', "&amp;"))), "{cost}");
}

const POWDER: &str = "[campaign]\nunits = \"metric\"\n[practice]\nmeasure_for = \"high\"\n[[product]]\nname = \"powder\"\n\
                      chemical = \"chlorinated_lime\"\nstrength = { percent = 30, basis = \"weight_available_chlorine\" }\n\
                      packages = [{ size = \"40 kg\" }]\n";

#[test]
fn a_crew_reads_how_powder_is_poured_and_a_chart_without_figures_is_left_out() {
    let folder = folder();
    place(folder.path(), "list.csv", "well_id,well_type,water volume (L)\nA,spring_box,400\n");
    place(folder.path(), "plan.toml", POWDER);
    run_in(folder.path(), &["plan", "list.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(0);
    let out = folder.path().join("out");
    let crew = texts(&out, "Crew").join("\n");
    assert!(crew.contains("stir it into its water, let it settle, pour only the clear"), "{crew}");
    assert!(crew.contains("Measured for high"), "{crew}");
    assert!(texts(&out, "Charts").iter().any(|line| line.contains("No price is stated")));
    // Some prices: what is priced so far is drawn, and called that.
    let some = POWDER.replace("}]", "}]\n[[supply]]\nname = \"strips\"\nper_visit = 3\npackage_of = 50\nprice = 16.5");
    place(folder.path(), "plan.toml", some);
    run_in(folder.path(), &["plan", "list.csv", "--scenarios", "plan.toml", "--out", "out", "--replace"]).ended(0);
    let charts = texts(&out, "Charts").join("\n");
    assert!(charts.contains("Priced so far") && !charts.contains("No price is stated"), "{charts}");
}
