//! What crews take and what is bought are one thing: no container goes out twice, what the cards round up to is alerted wherever the
//! order is called covered, older stock has its wells, and a card asks at the taps for what the amount was counted for.
//!
//! Amounts are worked by hand: 100 mg/L from 100 g/L is a liter for each cubic meter of water.

use std::path::Path;

use calamine::Data;

use crate::crew::text;
use crate::measures::worth;
use crate::running::{folder, place, run_in, sheets};

const HEAD: &str = "[campaign]\nunits = \"metric\"\ncurrency = \"EUR\"\n[practice]\ndischarge = { routes = [] }\n\
                    [[product]]\nname = \"hypo\"\nchemical = \"sodium_hypochlorite\"\n\
                    strength = { percent = 100, basis = \"grams_per_liter\" }\n";
const PAIL: &str = "packages = [{ size = \"10 L\", price = 20 }]\n";

/// A plan of wells, each with its water in liters, of the depot Quay; gives what the console said.
fn planned(at: &Path, waters: &[f64], more: &str) -> String {
    let rows: String =
        waters.iter().enumerate().map(|(at, water)| format!("W{at},drilled,{water},Quay,land\n")).collect();
    place(at, "wells.csv", format!("well_id,well_type,water volume (L),depot,discharge route\n{rows}"));
    place(at, "plan.toml", format!("{HEAD}{more}"));
    let said = run_in(at, &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out", "--replace"]).ended(0);
    let both = said.out + &said.err;
    both.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn crews(names: &[&str], visits: usize) -> String {
    let one = |name: &&str| {
        format!("[[crew]]\nname = \"{name}\"\ndepot = \"Quay\"\nvisits_per_day = {visits}\nfirst_day = 2027-03-01\n")
    };
    names.iter().map(one).collect()
}

/// A sheet of the workbook, its cells as text.
fn sheet(at: &Path, name: &str) -> Vec<Vec<String>> {
    let book = sheets(&at.join("out/campaign.xlsx"));
    let (_, rows) = book.into_iter().find(|sheet| sheet.0 == name).unwrap();
    rows.into_iter().map(|row| row.iter().map(Data::to_string).collect()).collect()
}

/// What each crew takes, by the sheet of their days.
fn containers(at: &Path) -> Vec<String> {
    let days = sheet(at, "Crew days");
    days.into_iter().filter(|row| row.get(2).is_some_and(|cell| cell == "Quay")).map(|row| row[5].clone()).collect()
}

#[test]
fn two_crews_that_need_one_pail_fill_from_it_and_neither_takes_it() {
    let folder = folder();
    let at = folder.path();
    // 4 L and 3 L, and as much again to top up: one pail of 10 L.
    planned(at, &[4000.0, 3000.0], &format!("{PAIL}{}", crews(&["North", "South"], 1)));
    let taken = containers(at);
    assert_eq!(taken.len(), 2, "{taken:?}");
    let mut all = 0.0;
    for said in &taken {
        let (amount, rest) = said.split_once(", filled at the depot from 1 x 10 L, which stays there").unwrap();
        assert!(rest.contains("other crews fill from the same"), "{said}");
        all += 1000.0 * worth(amount);
    }
    assert!((7.0..=10.0 + 1e-9).contains(&all), "{taken:?}");
    assert!(taken.iter().any(|said| said.contains("Not all of the topping up is there: it is not in the order")));
}

#[test]
fn what_was_opened_goes_out_first_on_the_next_day() {
    let folder = folder();
    let at = folder.path();
    // 6 L a day, and the same to top up, out of three pails of 10 L: the second day begins with what is left of two.
    planned(at, &[6000.0, 6000.0, 6000.0, 6000.0], &format!("{PAIL}{}", crews(&["North"], 1)));
    let taken = containers(at);
    assert_eq!(taken.len(), 4, "{taken:?}");
    assert_eq!(taken[0], "2 x 10 L");
    assert!(taken[1].starts_with("1 x 10 L, opened before, about 4 L left in it; 1 x 10 L"), "{taken:?}");
    // 24 L of 30 are poured: nothing that the cards pour is missing on any day.
    assert!(!taken.iter().any(|said| said.contains("IS NOT THERE")), "{taken:?}");
}

#[test]
fn cards_that_take_more_than_is_bought_are_alerted_wherever_the_order_is_called_covered() {
    let folder = folder();
    let at = folder.path();
    // Five of 1.99 L and one of 31 mL: 9.981 L fit into a pail. Measured out they are five of 2 L and one of 35 mL.
    let console = planned(
        at,
        &[1990.0, 1990.0, 1990.0, 1990.0, 1990.0, 31.0],
        &format!("{PAIL}{}", crews(&["North", "South"], 3)),
    );
    let said = "Quay: the cards measure out 10.04 L of hypo, and 10 L is bought and there. Buy one more package, or state a handling loss, or a higher one.";
    assert!(console.contains(said), "{console}");
    for name in ["Summary", "Order", "Crew days"] {
        assert!(sheet(at, name).iter().flatten().any(|cell| cell == said), "{name}");
    }
    let page = std::fs::read_to_string(at.join("out/report.html")).unwrap();
    assert!(page.contains(said), "report.html");
    let order = sheet(at, "Order");
    let line = order.iter().find(|row| row[0] == "hypo").unwrap();
    assert_eq!(line[9], "CARDS: MORE");
    assert!(order.iter().flatten().any(|cell| cell.starts_with("THE CARDS TAKE MORE THAN IS BOUGHT AND THERE")));
    assert!(!order.iter().flatten().any(|cell| cell == "covered"), "{order:?}");
    let summary = sheet(at, "Summary");
    assert_eq!(summary.iter().find(|row| row[0] == "Needs not covered").unwrap()[1], "1");
    let checks = sheet(at, "Checks");
    assert!(checks.iter().flatten().any(|cell| cell == "LOOK: see Order"), "{checks:?}");
    assert!(containers(at).iter().any(|said| said.contains("OF WHAT THE CARDS POUR IS NOT THERE")));

    // A handling loss buys it, and nothing is alerted.
    let with_loss = format!("{PAIL}[[scenario]]\nname = \"one\"\nproduct = \"hypo\"\nhandling_loss = 0.02\n");
    let console = planned(at, &[1990.0, 1990.0, 1990.0, 1990.0, 1990.0, 31.0], &with_loss);
    assert!(!console.contains("Buy one more package"), "{console}");
    assert!(sheet(at, "Order").iter().flatten().any(|cell| cell == "covered"));
}

#[test]
fn topping_up_is_said_in_the_same_words_wherever_something_is_called_covered() {
    let folder = folder();
    let at = folder.path();
    let console = planned(at, &[4000.0, 3000.0], &format!("{PAIL}{}", crews(&["North", "South"], 1)));
    // 7 L are poured of 10, and the cards name as much again.
    let said = "Topping up is not in the order, and \"covered\" does not count it: the cards name 7 L for strips that read too little, if \
                every card needs it once. What the packages hold beyond the need may serve for it: 3 L of 7 L at Quay. To order all of it, state a handling loss, or a higher one.";
    assert!(console.contains(said), "{console}");
    for name in ["Summary", "Order", "Crew days"] {
        assert!(sheet(at, name).iter().flatten().any(|cell| cell == said), "{name}");
    }
}

#[test]
fn older_stock_has_its_wells_and_no_well_gets_both() {
    let folder = folder();
    let at = folder.path();
    // A test that finds 80 g/L: wells of 4, 2 and 1 L of new product take 5, 2.5 and 1.25 L of it; 7 L are enough for the first and the last.
    let stock = "[[stock]]\ndepot = \"Quay\"\nproduct = \"hypo\"\non_hand = \"7 L\"\n\
                 measured_strength = { percent = 80, basis = \"grams_per_liter\" }\n";
    planned(at, &[4000.0, 2000.0, 1000.0], &format!("{PAIL}{stock}{}", crews(&["North"], 3)));
    let days = sheet(at, "Crew days");
    let row = days.iter().find(|row| row.get(2).is_some_and(|cell| cell == "Quay")).unwrap();
    let stops: Vec<&str> = row[8].split(", ").collect();
    let (new, older) = row[4].split_once(" of new product; ").unwrap();
    let wells: Vec<&str> = older.split_once(") at ").unwrap().1.split(", ").collect();
    assert!(older.contains("of the older stock (0 days since its strength was tested, 80 g/L"), "{older}");
    let water = |well: &str| [4.0, 2.0, 1.0][well[1..].parse::<usize>().unwrap()];
    let poured: f64 = wells.iter().map(|well| 1.25 * water(well)).sum();
    assert!(poured <= 7.0 && !wells.is_empty(), "{wells:?}");
    let rest: f64 = stops.iter().filter(|well| !wells.contains(well)).map(|well| water(well)).sum();
    assert!((1000.0 * worth(new) - rest).abs() < 1e-9, "{row:?}");
    // The load list says so too, and what the other amounts are for.
    let page = text(&std::fs::read_to_string(at.join("out/crew-sheets.html")).unwrap());
    assert!(
        page.contains(&format!("for these wells, by the second amount on their cards: {}", wells.join(", "))),
        "{page}"
    );
    for name in ["Order", "Crew days"] {
        let said = sheet(at, name).into_iter().flatten().find(|cell| cell.starts_with("Amounts are for hypo")).unwrap();
        assert!(said.contains("counted as 100 g/L") && said.contains("Nothing older or weaker is poured"), "{said}");
    }
}

#[test]
fn a_card_asks_at_the_taps_for_the_target_only_where_the_plumbing_is_in_the_amount() {
    let folder = folder();
    let at = folder.path();
    let list = "well_id,well_type,total depth (m),static water level (m),casing diameter (mm)\nD,drilled,60,10,150\n";
    let card = |more: &str| {
        place(at, "wells.csv", list);
        let head = HEAD.replace("[practice]\n", &format!("[practice]\n{more}"));
        place(at, "plan.toml", head);
        run_in(at, &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out", "--replace"]).ended(0);
        text(&std::fs::read_to_string(at.join("out/crew-sheets.html")).unwrap())
    };
    let without = card("");
    assert!(without.contains("Strip in the well: at least 100 mg/L"), "{without}");
    assert!(without.contains("A tap may show less: pipes and tank are not in the amount"), "{without}");
    assert!(!without.contains("a strip shows at least 100 mg/L"), "{without}");
    let counted = card("plumbing_volume = \"300 L\"\n");
    assert!(counted.contains("until it smells of chlorine and a strip shows at least 100 mg/L"), "{counted}");
}
