//! Stock that is older than what a scenario pours: what it counts as, what is poured of it, and stock that nobody pours; and what crews
//! take out of the containers that an order buys.
//!
//! Expected shares are worked by hand: a test that finds 80 g/L in a product of 100 g/L leaves four fifths, whatever law aging follows.

use std::path::Path;

use calamine::Data;

use crate::crew::text;
use crate::filling::{Typed, filled};
use crate::running::{Row, folder, place, rows, run_in, sheets};

const WELLS: &str = "well_id,well_type,water volume (L),depot\nA,spring_box,4000,Quay\nB,spring_box,6000,Quay\n\
                     C,spring_box,5000,Ford\nD,spring_box,2000,Ford\n";
/// 100 mg/L from 100 g/L: 10 L at Quay, 7 L at Ford.
const HEAD: &str = "[campaign]\nunits = \"metric\"\ncurrency = \"EUR\"\n[practice]\ndischarge = { routes = [] }\n\
                    [[product]]\nname = \"hypo\"\nchemical = \"sodium_hypochlorite\"\n\
                    strength = { percent = 100, basis = \"grams_per_liter\" }\n\
                    packages = [{ size = \"60 L\", price = 90 }, { size = \"10 L\", price = 20 }]\n\
                    [[product]]\nname = \"spare\"\nchemical = \"sodium_hypochlorite\"\n\
                    strength = { percent = 100, basis = \"grams_per_liter\" }\n\
                    [[scenario]]\nname = \"one\"\nproduct = \"hypo\"\n";

fn stock(depot: &str, amount: &str, more: &str) -> String {
    format!("[[stock]]\ndepot = \"{depot}\"\nproduct = \"hypo\"\non_hand = \"{amount}\"\n{more}\n")
}

const TESTED: &str = "measured_strength = { percent = 80, basis = \"grams_per_liter\" }";

fn planned(at: &Path, more: &str) -> String {
    place(at, "wells.csv", WELLS);
    place(at, "plan.toml", format!("{HEAD}{more}"));
    run_in(at, &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out", "--replace"]).ended(0).err
}

fn order(at: &Path, depot: &str) -> Row {
    let lines = rows(&at.join("out/orders.csv"));
    lines.into_iter().find(|line| line["depot"] == depot && line["item"] == "hypo").unwrap()
}

fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().unwrap()
}

fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-6 * wanted.abs().max(1.0), "{found} is not {wanted}");
}

fn cards(at: &Path) -> String {
    std::fs::read_to_string(at.join("out/crew-sheets.html")).unwrap()
}

/// A sheet of the campaign's workbook.
fn sheet(at: &Path, name: &str) -> Vec<Vec<Data>> {
    sheets(&at.join("out/campaign.xlsx")).into_iter().find(|sheet| sheet.0 == name).unwrap().1
}

#[test]
fn stock_counts_by_the_chlorine_that_is_left_in_it() {
    let folder = folder();
    let at = folder.path();
    planned(at, &(stock("Quay", "5 L", TESTED) + &stock("Ford", "3 L", "")));
    let quay = order(at, "Quay");
    near(number(&quay, "on_hand"), 5.0);
    near(number(&quay, "on_hand_counts"), 4.0);
    near(number(&quay, "gap"), number(&quay, "first_round") - 4.0);
    // Stock of which nothing is said counts as strong as what is poured, and that is said.
    let ford = order(at, "Ford");
    near(number(&ford, "on_hand_counts"), 3.0);
    let sheet = sheet(at, "Order");
    let said = |wanted: &str| sheet.iter().any(|row| row[0].to_string().contains(wanted));
    assert!(said("Stock at Quay: 5 L of hypo, its strength tested: 80 g/L today, 80 % of its label."));
    assert!(said("it counts as 4 L of what is poured"));
    assert!(said("No age is stated for the stock of product at Ford: it counts as strong as what the scenario pours."));
}

#[test]
fn lots_of_different_age_have_a_line_each() {
    let folder = folder();
    let at = folder.path();
    planned(at, &(stock("Quay", "5 L", TESTED) + &stock("Quay", "1 L", "age_days = 60\nstorage = \"25 C\"")));
    let quay = order(at, "Quay");
    near(number(&quay, "on_hand"), 6.0);
    let counts = number(&quay, "on_hand_counts");
    assert!(counts > 4.5 && counts < 5.0, "{counts}");
    // The workbook has a line for each, and goes back in unchanged: with the same order.
    let lines = sheet(at, "Stock");
    let of_quay = lines.iter().filter(|row| row[0] == "Quay" && row[1] == "hypo");
    assert_eq!(of_quay.map(|row| row[2].to_string()).collect::<Vec<_>>(), ["5", "1"]);
    run_in(at, &["plan", "out/campaign.xlsx", "--out", "again"]).ended(0);
    let read = |folder: &str| std::fs::read_to_string(at.join(folder).join("orders.csv")).unwrap();
    assert_eq!(read("out"), read("again"));
}

#[test]
fn the_cards_of_a_depot_that_pours_its_stock_alone_are_for_that() {
    let folder = folder();
    let at = folder.path();
    planned(at, &stock("Quay", "40 L", TESTED));
    let of_well = |page: &str, well: &str| {
        let (_, behind) = page.split_once(&format!("id=\"{well}\"")).or_else(|| page.split_once(well)).unwrap();
        behind.to_owned()
    };
    let page = text(&cards(at));
    assert!(page.contains("Quay pours the stock that it has, and nothing else"), "{page}");
    // 4000 L at 100 mg/L: 400 g of chlorine, 5 L at 80 g/L; 4 L at 100 g/L would be too weak.
    assert!(page.contains("5 L of hypo") || page.contains("5 liters of hypo"), "{}", of_well(&page, "A"));
    assert!(page.contains("counted as 80 g/L"));
    assert!(!page.contains("OR, of the older stock"));
}

#[test]
fn the_cards_of_a_depot_that_has_both_say_both_amounts() {
    let folder = folder();
    let at = folder.path();
    planned(at, &stock("Quay", "5 L", TESTED));
    let page = text(&cards(at));
    assert_eq!(page.matches("OR, of the older stock (").count(), 2, "the two wells of Quay");
    assert_eq!(page.matches("one or the other, never both").count(), 2);
    assert!(page.contains("Quay has older stock beside new product"));
    // The list of the workbook says them too.
    let crew = sheet(at, "Crew");
    let said = crew.iter().filter(|row| row.iter().any(|cell| cell.to_string().contains("of the stock at 80 g/L")));
    assert_eq!(said.count(), 2);
}

#[test]
fn stock_that_no_scenario_pours_is_named_with_its_place() {
    let folder = folder();
    let at = folder.path();
    let line = "[[stock]]\ndepot = \"Quay\"\nproduct = \"spare\"\non_hand = \"20 L\"\n";
    let said = planned(at, line);
    let wanted = "stock of \"spare\" at depot \"Quay\" is of a product that no scenario pours";
    assert!(said.contains(wanted) && said.contains("line "), "{said}");
    let checked = run_in(at, &["check", "wells.csv", "--scenarios", "plan.toml"]).ended(0);
    assert!(checked.err.contains(wanted), "{}", checked.err);
}

#[test]
fn a_check_refuses_the_ages_that_a_plan_refuses() {
    let folder = folder();
    let at = folder.path();
    place(at, "wells.csv", WELLS);
    let no_temperature = stock("Quay", "5 L", "age_days = 60");
    place(at, "plan.toml", format!("{HEAD}{no_temperature}"));
    let by_check = run_in(at, &["check", "wells.csv", "--scenarios", "plan.toml"]).ended(2).err;
    let by_plan = run_in(at, &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(2).err;
    assert!(by_check.contains("has an age but no `storage` temperature"), "{by_check}");
    assert_eq!(by_check, by_plan);
    // In a book with the sheet and the cell.
    place(at, "right.toml", HEAD);
    run_in(at, &["start", "--from", "right.toml", "wells.csv", "--out", "right.xlsx"]).ended(0);
    let cells = [("A", "Quay"), ("B", "hypo"), ("C", "5 L"), ("E", "60")];
    let below = 3 + usize::from(sheets(&at.join("right.xlsx")).iter().any(|(name, rows)| {
        name == "Stock" && rows.get(3).is_some_and(|row| row.first().is_some_and(|cell| *cell == "Depot"))
    }));
    let named: Vec<(String, &str)> =
        cells.iter().map(|(column, typed)| (format!("{column}{}", below + 1), *typed)).collect();
    let cells: Vec<(&str, &str, Typed<'_>)> =
        named.iter().map(|(cell, typed)| ("Stock", cell.as_str(), Typed::Text(typed))).collect();
    filled(&at.join("right.xlsx"), &at.join("wrong.xlsx"), &cells);
    let by_check = run_in(at, &["check", "wrong.xlsx"]).ended(2).err;
    let by_plan = run_in(at, &["plan", "wrong.xlsx", "--out", "of-book"]).ended(2).err;
    assert!(by_check.contains("sheet Stock, E") && by_check.contains("Stored at"), "{by_check}");
    assert_eq!(by_check, by_plan);
    // What a neutralizer is it stays.
    let agent = "[[stock]]\ndepot = \"Quay\"\nproduct = \"ascorbic_acid\"\non_hand = \"2 kg\"\nage_days = 3\n";
    place(at, "plan.toml", format!("{HEAD}{agent}"));
    let refused = run_in(at, &["check", "wells.csv", "--scenarios", "plan.toml"]).ended(2).err;
    assert!(refused.contains("is for products; a neutralizer counts as it is"), "{refused}");
}

#[test]
fn two_crews_of_a_depot_do_not_take_the_same_container() {
    let folder = folder();
    let at = folder.path();
    let crew = |name: &str| {
        format!("[[crew]]\nname = \"{name}\"\ndepot = \"Quay\"\nvisits_per_day = 1\nfirst_day = 2027-03-01\n")
    };
    planned(at, &(crew("North") + &crew("South")));
    let bought = order(at, "Quay")["packages"].clone();
    let days = sheet(at, "Crew days");
    let taken: Vec<String> = days
        .iter()
        .filter(|row| row.get(2).is_some_and(|cell| *cell == "Quay"))
        .map(|row| row[5].to_string())
        .collect();
    assert_eq!(taken.len(), 2, "{days:?}");
    let whole = |said: &String| said.starts_with(|letter: char| letter.is_ascii_digit()) && said.contains(" x 10 L");
    let both_whole = taken.iter().filter(|said| whole(said) && !said.contains("filled")).count();
    let count: usize = bought.split(" + ").filter_map(|part| part.split_once(" x 10 L")?.0.parse::<usize>().ok()).sum();
    assert!(both_whole <= count, "bought {bought}, taken {taken:?}");
    assert!(taken.iter().all(|said| !said.starts_with("1 x 60 L")), "a drum goes on no truck: {taken:?}");
}

#[test]
fn a_day_without_a_date_of_the_plan_says_when_crews_go() {
    let folder = folder();
    let at = folder.path();
    planned(at, "[[crew]]\nname = \"North\"\nvisits_per_day = 2\nfirst_day = 2027-03-01\n");
    let summary = sheet(at, "Summary");
    let said = |wanted: &str| summary.iter().any(|row| row[0].to_string().contains(wanted));
    assert!(said("Crews go out from 2027-03-01 to 2027-03-02; no day of the plan is stated"));
    assert!(!said("no stated day"));
}

#[test]
fn nothing_needed_without_a_depot_has_no_block_on_the_order() {
    let folder = folder();
    let at = folder.path();
    place(at, "wells.csv", format!("{WELLS}E,drilled,,\n"));
    place(at, "plan.toml", HEAD);
    run_in(at, &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(1);
    let order = sheet(at, "Order");
    assert!(order.iter().all(|row| row.iter().all(|cell| !cell.to_string().contains("(no depot)"))), "{order:?}");
    assert!(order.iter().any(|row| row[0] == "Quay"));
}
