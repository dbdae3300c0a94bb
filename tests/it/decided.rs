//! What somebody decides and signs by: which packages are bought where only some have a price, what is assumed of sizes and what of
//! something else, which scenario the order and the cards are for, and whether a total still covers the need.

use std::path::Path;

use crate::running::{folder, parts, place, rows, run_in, sheets};

/// 100 mg/L of 120 m3 from 100 g/L: 120 L of product.
const CISTERN: &str = "well_id,well_type,water volume (L),depot,flush to\nA,spring_box,120000,Ford,land\n";

fn stated(packages: &str, more: &str) -> String {
    format!(
        "[campaign]\nunits = \"metric\"\ncurrency = \"EUR\"\n[practice]\nflush = \"mixed_tank\"\ndischarge = {{ routes = [] }}\n\
         [[product]]\nname = \"brine\"\nchemical = \"sodium_hypochlorite\"\nstrength = {{ percent = 100, basis = \"grams_per_liter\" }}\n\
         packages = [{packages}]\n{more}"
    )
}

fn planned(folder: &Path, list: &str, stated: &str, ends: i32) {
    place(folder, "list.csv", list);
    place(folder, "plan.toml", stated);
    run_in(folder, &["plan", "list.csv", "--scenarios", "plan.toml", "--out", "out", "--replace"]).ended(ends);
}

fn lines(folder: &Path, out: &str, name: &str) -> Vec<Vec<String>> {
    let book = sheets(&folder.join(out).join("campaign.xlsx"));
    let (_, rows) = book.into_iter().find(|(found, _)| found == name).unwrap();
    rows.iter().map(|row| row.iter().map(ToString::to_string).collect()).collect()
}

fn page(folder: &Path, out: &str) -> String {
    std::fs::read_to_string(folder.join(out).join("report.html")).unwrap()
}

#[test]
fn packages_without_a_price_are_left_out_where_others_have_one() {
    let folder = folder();
    let folder = folder.path();
    let bought = |packages: &str| {
        planned(folder, CISTERN, &stated(packages, ""), 0);
        let line = rows(&folder.join("out/orders.csv")).into_iter().find(|line| line["kind"] == "product").unwrap();
        (line["packages"].clone(), line["cost"].clone())
    };
    let said = |text: &str| format!("{:?}{}", lines(folder, "out", "Order"), page(folder, "out")).contains(text);
    // The larger and the nearer one have no price.
    let some = "{ size = \"25 L\", price = 30 }, { size = \"60 L\" }, { size = \"120 L\" }";
    assert_eq!(bought(some), ("5 x 25 L".to_owned(), "150".to_owned()));
    assert!(said("Left out, because no price is given for it while another package has one: brine in 60 L, 120 L."));
    assert!(page(folder, "out").contains("The cheapest choice that can be made"));
    assert!(!page(folder, "out").contains("No scenario can be chosen"));
    // Where no package has one, the least surplus counts.
    assert_eq!(bought("{ size = \"25 L\" }, { size = \"60 L\" }, { size = \"120 L\" }").0, "1 x 120 L");
    assert!(!said("Left out"));
    // Where those with a price run out, the rest is bought without one rather than not at all, and is not said to be left out.
    let few = "{ size = \"25 L\", price = 30, available = 2 }, { size = \"60 L\" }, { size = \"200 L\" }";
    assert_eq!(bought(few), ("2 x 25 L + 2 x 60 L".to_owned(), String::new()));
    assert!(said("another package has one: brine in 200 L."));
}

#[test]
fn sizes_that_are_assumed_are_counted_apart_from_type_and_place() {
    let folder = folder();
    let folder = folder.path();
    // B lacks its level, C a place for the water, D a type; E lacks nothing.
    let list = "well_id,well_type,depth (m),water level (m),diameter (mm),flush to\nB,drilled,40,,150,land\n\
                C,drilled,40,10,150,\nD,,40,10,150,land\nE,drilled,40,10,150,land\n";
    let level = "[missing.drilled]\nstatic_water_level = { low = \"8 m\", mid = \"10 m\", high = \"12 m\" }\n";
    planned(folder, list, &stated("{ size = \"5 L\", price = 9 }", level), 0);
    let wanted = "1 visit rests on assumed depths, levels or diameters: 25 % of the water to be treated. No place for the flush water \
                  is given for 1 visit (a stream is counted), no type of well for 1 (told from width and depth); that moves none of \
                  the water.";
    let page = page(folder, "out");
    assert!(page.contains(wanted), "{page}");
    assert!(lines(folder, "out", "Summary").iter().any(|row| row[0].starts_with(wanted)));
    let figure = page.split("Visits on assumed sizes").nth(1).unwrap();
    assert!(figure[..400].contains("25 % of those planned"), "{}", &figure[..400]);
    // Nothing is called a size that is none.
    let known = list.replace("B,drilled,40,,", "B,drilled,40,10,");
    planned(folder, &known, &stated("{ size = \"5 L\", price = 9 }", level), 0);
    assert!(!self::page(folder, "out").contains("on assumed depths"));
    assert!(
        self::page(folder, "out").contains("No place for the flush water is given for 1 visit (a stream is counted)")
    );
}

const TWO: &str = "[[product]]\nname = \"other\"\nchemical = \"sodium_hypochlorite\"\nage_days = 0\n\
                   strength = { percent = 100, basis = \"grams_per_liter\" }\npackages = [{ size = \"5 L\", price = 1 }]\n\
                   [[scenario]]\nname = \"dear\"\nproduct = \"brine\"\n[[scenario]]\nname = \"cheap\"\nproduct = \"other\"\n";

#[test]
fn who_plans_by_workbook_reads_which_order_it_is_and_of_no_option() {
    let folder = folder();
    let folder = folder.path();
    planned(folder, CISTERN, &stated("{ size = \"5 L\", price = 9 }", TWO), 0);
    let of_file = page(folder, "out");
    assert!(
        of_file.contains("pick that one on the Summary for its order; for its cards plan again with --only"),
        "{of_file}"
    );
    std::fs::copy(folder.join("out/campaign.xlsx"), folder.join("book.xlsx")).unwrap();
    run_in(folder, &["plan", "book.xlsx", "--out", "again"]).ended(0);
    let page = page(folder, "again");
    let decision = page.split("<section id=\"decision\"").nth(1).unwrap().split("</section>").next().unwrap();
    assert!(decision.contains("Release the order of &quot;cheap&quot;"), "{decision}");
    assert!(decision.contains("the Order sheet shows it once it is picked on the Summary"), "{decision}");
    assert!(decision.contains("put it in the first line of the sheet Scenarios of the campaign book"), "{decision}");
    let cards = std::fs::read_to_string(folder.join("again/crew-sheets.html")).unwrap();
    assert!(cards.contains("for &quot;dear&quot; only. For another, plan again with that one first."));
    let summary = lines(folder, "again", "Summary");
    let said = "The cheapest choice that can be made is \"cheap\" (report.html): pick it above for its order.";
    assert!(summary.iter().any(|row| row[0].starts_with(said)), "{summary:?}");
    for text in [decision.to_owned(), format!("{summary:?}"), format!("{:?}", lines(folder, "again", "Crew")), cards] {
        assert!(!text.contains("--only"), "{text}");
    }
}

#[test]
fn a_total_says_that_it_does_not_cover_the_need_where_it_is_signed() {
    let folder = folder();
    let folder = folder.path();
    let few = "[[scenario]]\nname = \"one\"\nproduct = \"brine\"\nage_days = 0\n\
               [[buy]]\nscenario = \"one\"\ndepot = \"Ford\"\nitem = \"brine\"\npackage = \"5 L\"\ncount = 3\n";
    planned(folder, CISTERN, &stated("{ size = \"5 L\", price = 9 }", few), 0);
    let order = lines(folder, "out", "Order");
    let at =
        |title: &str| order.iter().position(|row| row[0].starts_with(title)).unwrap_or_else(|| panic!("no {title}"));
    for title in ["brine", "Total for Ford", "Total of the order"] {
        assert_eq!(order[at(title)][9], "NOT COVERED", "{title}");
    }
    assert!(order[at("THIS TOTAL")][0].contains("Needs that are not covered: 1 (column Alert)."));
    assert_eq!(at("THIS TOTAL"), at("Total of the order") + 1);
    // What is signed stands between the total and the signature, on the same page.
    let (total, signature) = (at("Total of the order"), at("Signature:"));
    for (title, value) in [("Day of the plan", "not stated"), ("Target (mg/L)", "100"), ("Strength used (g/L)", "100")]
    {
        assert!(
            (total..signature).contains(&at(title)) && order[at(title)][1] == value,
            "{title}: {}",
            order[at(title)][1]
        );
    }
    let number = sheets(&folder.join("out/campaign.xlsx")).iter().position(|(name, _)| name == "Order").unwrap() + 1;
    let part = parts(&folder.join("out/campaign.xlsx"))[&format!("xl/worksheets/sheet{number}.xml")].clone();
    let part = String::from_utf8(part).unwrap();
    let breaks = part.split("<brk id=\"").skip(1).map(|rest| rest.split('"').next().unwrap().parse::<usize>().unwrap());
    assert!(breaks.into_iter().all(|row| row <= total || row > signature));

    // As many as are needed: the same cells say nothing.
    planned(folder, CISTERN, &stated("{ size = \"5 L\", price = 9 }", &few.replace("= 3", "= 24")), 0);
    let order = lines(folder, "out", "Order");
    assert!(order.iter().flatten().all(|cell| cell != "NOT COVERED" && !cell.starts_with("THIS TOTAL")), "{order:?}");
}

#[test]
fn who_decides_on_people_and_days_reads_the_hours_of_flushing() {
    let folder = folder();
    let folder = folder.path();
    // 120 m3 at 20 m3/h; the second pump is not known.
    let list = "well_id,well_type,water volume (L),pump rate (L/min),depot\nA,spring_box,60000,500,Ford\nB,spring_box,60000,,Ford\n";
    planned(folder, list, &stated("{ size = \"5 L\", price = 9 }", ""), 0);
    let hours = page(folder, "out");
    let hours = hours.split("How many people and days: flushing alone takes about ").nth(1).expect("no line of hours");
    let (hours, rest) = hours.split_once(' ').unwrap();
    let known: f64 = rows(&folder.join("out/totals.csv"))[0]["flush_h"].parse().unwrap();
    assert_eq!(hours.replace(',', ""), format!("{known:.0}"));
    assert!(rest.starts_with("hours in all, without 1 visit whose rate is not known."), "{}", &rest[..80]);
    let crew = "[[crew]]\nname = \"red\"\nvisits_per_day = 1\n";
    planned(folder, list, &stated("{ size = \"5 L\", price = 9 }", crew), 0);
    let page = page(folder, "out");
    assert!(page.contains(&format!(
        "How many people and days: 1 crew has 2 days of work, each visit counted once; flushing takes about {hours} hours in all"
    )));
    let summary = format!("{:?}", lines(folder, "out", "Summary"));
    assert!(summary.contains(&format!("Flushing takes about {hours} hours in all")), "{summary}");
}
