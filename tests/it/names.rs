//! Names that differ in capitals, blanks or marks only are one depot, region, product or supply.

use aftercrest::field::names::{fold, is_near, is_same, spellings_that_count};

use crate::running::{folder, number, place, rows, run_in};

const HEAD: &str = "id,type,depth (ft),water level (ft),diameter (in),depot,region\n";
const PLAN: &str = "[campaign]\nunits = \"us\"\ngroup_by = [\"region\"]\n[[product]]\nname = \"bleach 6\"\n\
                    chemical = \"sodium_hypochlorite\"\nstrength = { percent = 6, basis = \"weight_naocl\" }\n\
                    packages = [{ size = \"1 gal\" }]\n[[scenario]]\nname = \"all\"\nproduct = \"Bleach-6\"\n";

fn list(wells: &[(&str, &str)]) -> String {
    let row = |(at, (depot, region)): (usize, &(&str, &str))| format!("W{at},drilled,180,40,6,{depot},{region}\n");
    HEAD.to_owned() + &wells.iter().enumerate().map(row).collect::<String>()
}

#[test]
fn what_is_one_name_and_what_is_not() {
    for (one, other) in [
        ("Firehall 3", "firehall 3"),
        ("Firehall 3", "Fire-hall 3"),
        ("Firehall 3", "Fire hall #3"),
        ("Firehall 3", "Fire Hall No. 3"),
        ("Tank Nr 12", "tank 12"),
        ("St. Mary's", "St Marys"),
        ("ÉCOLE NORD", "école nord"),
    ] {
        assert!(is_same(one, other), "{one} {other}");
    }
    for (one, other) in [("Depot 1-5", "Depot 15"), ("Depot 1", "Depot 2"), ("Mill", "Hill"), ("-", "+")] {
        assert!(!is_same(one, other), "{one} {other}");
    }
    assert!(is_near("Mill Lane", "Mil Lane") && is_near("Firehall 3", "Firehal 3"));
    assert!(!is_near("Depot 1", "Depot 2") && !is_near("Mill", "Hill") && !is_near("Mill Lane", "mill-lane"));
    assert_eq!(fold("  Fire-Hall  No. 3 "), "firehall3");
    let counts = [("b a", 3), ("B A", 3), ("ba", 2)].map(|(name, rows)| (name.to_owned(), rows)).into();
    let under = |stated: &[String]| spellings_that_count(&counts, stated)["ba"].clone();
    assert_eq!((under(&[]), under(&["B-a".to_owned()])), ("B A".to_owned(), "B-a".to_owned()));
}

#[test]
fn one_depot_gets_one_order_and_finds_its_stock() {
    let wells =
        [("Firehall 3", "North"), ("firehall 3", "NORTH"), ("Fire-hall 3", "north"), ("Barn", "North"), ("Barns", "")];
    let stock = "[[stock]]\ndepot = \"FIREHALL 3\"\nproduct = \"BLEACH 6\"\non_hand = \"100 gal\"\n\
                 [[supply]]\nname = \"test strips\"\npackage_of = 50\n\
                 [[override]]\nwhere = \"region = 'north' AND depot = 'FireHall 3'\"\nset = { target_mg_per_l = 77 }\n";
    let mut bytes = Vec::new();
    for turned in [false, true] {
        let folder = folder();
        let mut wells = wells.to_vec();
        if turned {
            wells.reverse();
        }
        place(folder.path(), "wells.csv", list(&wells));
        place(folder.path(), "plan.toml", format!("{PLAN}{stock}"));
        run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(0);
        let orders = rows(&folder.path().join("out/orders.csv"));
        let depots: Vec<&str> =
            orders.iter().filter(|row| row["item"] == "bleach 6").map(|row| row["depot"].as_str()).collect();
        assert_eq!(depots, ["Barn", "Barns", "FIREHALL 3"]);
        let hall = orders.iter().find(|row| row["item"] == "bleach 6" && row["depot"] == "FIREHALL 3").unwrap();
        assert!(number(hall, "on_hand") > 378.0 && number(hall, "gap") == 0.0, "{hall:?}");
        let treatments = rows(&folder.path().join("out/treatments.csv"));
        let doses = treatments.iter().filter(|row| number(row, "dose_mg_per_l") == 77.0).count();
        assert_eq!(doses, 3, "an override finds the depot however it is spelled");
        assert!(treatments.iter().any(|row| row["depot"] == "Fire-hall 3"), "the table shows what was typed");
        let findings = rows(&folder.path().join("out/findings.csv"));
        let typed = |code: &str| -> Vec<&str> {
            let of_code = findings.iter().filter(|row| row["code"] == code);
            let mut typed: Vec<&str> = of_code.map(|row| row["as_typed"].as_str()).collect();
            typed.sort_unstable();
            typed
        };
        assert_eq!(typed("I130"), ["Fire-hall 3", "Firehall 3", "NORTH", "firehall 3", "north"]);
        assert_eq!(typed("I131").len(), 0, "Barn is too short to be a slip of Barns");
        bytes.push(std::fs::read(folder.path().join("out/totals.csv")).unwrap());
    }
    assert!(bytes[0] == bytes[1], "the order of rows decides nothing");
}

#[test]
fn names_that_are_nearly_one_are_asked_about_and_stay_two() {
    let folder = folder();
    place(
        folder.path(),
        "wells.csv",
        list(&[("Mill Lane", "East"), ("Mill Lane", "West"), ("Mil Lane", "East 1"), ("", "East 2")]),
    );
    let answer = run_in(folder.path(), &["check", "wells.csv", "--units", "us", "--all"]).ended(0);
    assert!(answer.out.contains("I131") && answer.out.contains("Mil Lane"), "{}", answer.out);
    assert_eq!(answer.out.matches("[I131]").count(), 1, "{}", answer.out);
}

#[test]
fn a_second_product_or_supply_of_one_name_is_refused() {
    for (second, wanted) in [
        (
            "[[product]]\nname = \"BLEACH-6\"\nchemical = \"sodium_hypochlorite\"\nstrength = { percent = 6, basis = \"trade\" }\n",
            "a second product",
        ),
        ("[[supply]]\nname = \"gloves\"\n[[supply]]\nname = \"Gloves\"\n", "a second supply"),
    ] {
        let folder = folder();
        place(folder.path(), "wells.csv", list(&[("", "")]));
        place(folder.path(), "plan.toml", format!("{PLAN}{second}"));
        let answer = run_in(folder.path(), &["check", "wells.csv", "--scenarios", "plan.toml"]).ended(2);
        assert!(answer.err.contains(wanted), "{}", answer.err);
    }
}
