//! Who sells what, and counts of packages that somebody settled on: in the orders, the report and the workbook, and back from a
//! workbook in which counts were changed.

use std::path::Path;

use crate::filling::{Typed, filled};
use crate::running::{Row, folder, place, rows, run_in, sheets};

const WELLS: &str = "well_id,well_type,water volume (L),depot\nA,spring_box,4000,Mill\nB,spring_box,4000,Barn\n\
                     C,spring_box,100,Barn\n";
/// 100 mg/L from 100 g/L: 4.1 L at Barn and 4 L at Mill.
const HEAD: &str = "[campaign]\nunits = \"metric\"\ncurrency = \"EUR\"\n[practice]\nflush = \"mixed_tank\"\n\
                    discharge = { routes = [] }\n[[product]]\nname = \"liquid\"\nchemical = \"sodium_hypochlorite\"\n\
                    strength = { percent = 100, basis = \"grams_per_liter\" }\n\
                    packages = [{ size = \"1 L\", price = 2, supplier = \"farm store\" }, { size = \"1 L\", price = 3, available = 4 }, \
                    { size = \"5 L\", price = 20, supplier = \"water works\" }]\n[[scenario]]\nname = \"one\"\nproduct = \"liquid\"\n\
                    [[supply]]\nname = \"gloves\"\npackage_of = 50\n";

struct Trial {
    folder: tempfile::TempDir,
}

impl Trial {
    fn new() -> Self {
        let folder = folder();
        place(folder.path(), "wells.csv", WELLS);
        Self { folder }
    }

    fn path(&self) -> &Path {
        self.folder.path()
    }

    /// What a plan with more in its scenario file says on standard error, and how it ends.
    fn plan(&self, more: &str, ends: i32) -> String {
        place(self.path(), "plan.toml", format!("{HEAD}{more}"));
        let args = ["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out", "--replace"];
        run_in(self.path(), &args).ended(ends).err
    }

    fn order(&self, out: &str, depot: &str, item: &str) -> Row {
        let lines = rows(&self.path().join(out).join("orders.csv"));
        lines.into_iter().find(|line| line["depot"] == depot && line["item"] == item).unwrap()
    }
}

fn buy(package: &str, count: &str) -> String {
    format!(
        "[[buy]]\nscenario = \"one\"\ndepot = \"Barn\"\nitem = \"liquid\"\npackage = \"{package}\"\ncount = {count}\n"
    )
}

#[test]
fn an_order_says_who_sells_it_or_that_this_is_not_stated() {
    let trial = Trial::new();
    trial.plan("", 0);
    let barn = trial.order("out", "Barn", "liquid");
    assert_eq!((&*barn["packages"], &*barn["suppliers"], &*barn["cost"]), ("5 x 1 L", "farm store", "10"));
    assert_eq!(trial.order("out", "Barn", "gloves")["suppliers"], "supplier not stated");
    let report = std::fs::read_to_string(trial.path().join("out/report.html")).unwrap();
    assert!(report.contains("By supplier and depot") && report.contains("5 x 1 L of liquid"));
    let (_, order) =
        sheets(&trial.path().join("out/campaign.xlsx")).into_iter().find(|sheet| sheet.0 == "Order").unwrap();
    let at = order.iter().position(|row| row.first().is_some_and(|cell| *cell == "By supplier")).unwrap();
    let shown: Vec<String> =
        order[at + 1..at + 10].iter().map(|row| format!("{}|{}|{}", row[0], row[2], row[6])).collect();
    let wanted = [
        "farm store|9|18",
        "   Barn|5|10",
        "   Mill|4|8",
        "water works||",
        "   Barn||",
        "   Mill||",
        "supplier not stated|2|",
        "   Barn|1|",
        "   Mill|1|",
    ];
    assert_eq!(shown, wanted);
}

#[test]
fn without_any_supplier_that_is_said_once() {
    let trial = Trial::new();
    place(
        trial.path(),
        "plan.toml",
        "[campaign]\nunits = \"metric\"\n[practice]\nflush = \"mixed_tank\"\n[[scenario]]\nname = \"one\"\nproduct = \"liquid 12.5\"\n",
    );
    run_in(trial.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(0);
    let (_, order) =
        sheets(&trial.path().join("out/campaign.xlsx")).into_iter().find(|sheet| sheet.0 == "Order").unwrap();
    let said = order.iter().filter(|row| row.iter().any(|cell| cell.to_string().starts_with("Supplier not stated")));
    assert_eq!(said.count(), 1);
    assert!(std::fs::read_to_string(trial.path().join("out/report.html")).unwrap().contains("Supplier not stated"));
}

#[test]
fn counts_that_are_settled_are_ordered() {
    let trial = Trial::new();
    trial.plan(&buy("5 L", "1"), 0);
    let barn = trial.order("out", "Barn", "liquid");
    assert_eq!((&*barn["packages"], &*barn["short"], &*barn["cost"]), ("1 x 5 L", "0", "20"));
    assert_eq!(trial.order("out", "Mill", "liquid")["packages"], "4 x 1 L");
    let report = std::fs::read_to_string(trial.path().join("out/report.html")).unwrap();
    assert!(report.contains("Counts of packages that somebody settled on"));
    // What does not cover the need is short, and what is settled first is not to be had by others.
    trial.plan(&buy("1 L, supplier not stated", "3"), 0);
    let barn = trial.order("out", "Barn", "liquid");
    assert_eq!((&*barn["packages"], &*barn["suppliers"], &*barn["cost"]), ("3 x 1 L", "supplier not stated", "9"));
    assert!((barn["short"].parse::<f64>().unwrap() - 1.1).abs() < 1e-9, "{barn:?}");
    // None at all, and of what comes in one kind without its name.
    trial.plan(&buy("5 L", "0"), 0);
    assert_eq!(trial.order("out", "Barn", "liquid")["packages"], "");
    trial.plan("[[buy]]\nscenario = \"one\"\ndepot = \"Barn\"\nitem = \"gloves\"\ncount = 3\n", 0);
    assert_eq!(trial.order("out", "Barn", "gloves")["packages"], "3 x package of 50");
    for (wrong, said) in [
        (buy("2 L", "1"), "say which package of liquid: 1 L, farm store | 1 L, supplier not stated | 5 L"),
        (buy("1 L", "1"), "say which package of liquid"),
        (buy("5 L", "1").replace("\"one\"", "\"two\""), "no scenario \"two\""),
        (buy("5 L", "1").replace("\"liquid\"", "\"salt\""), "the order of \"one\" holds no \"salt\""),
        (buy("5 L", "1.5"), "counts whole things"),
        (buy("5 L", "1").repeat(2), "a second count of the same package"),
        (buy("1 L, supplier not stated", "5"), "5 are to be bought in all, and 4 can be had"),
        ("[[buy]]\nscenario = \"one\"\nitem = \"liquid\"\npackage = \"5 L\"\n".to_owned(), "[[buy]] needs `count`"),
    ] {
        let told = trial.plan(&wrong, 2);
        assert!(told.contains(said), "{said} is not in {told}");
    }
}

#[test]
fn counts_that_were_changed_in_a_plans_workbook_are_ordered() {
    let trial = Trial::new();
    trial.plan("", 0);
    let workbook = trial.path().join("out/campaign.xlsx");
    let (_, packages) = sheets(&workbook).into_iter().find(|(name, _)| name == "Packages").unwrap();
    let of = |depot: &str, package: &str| {
        let row = packages.iter().position(|row| row.len() > 7 && row[4] == depot && row[6] == package);
        format!("H{}", row.unwrap_or_else(|| panic!("no {package} at {depot}")) + 1)
    };
    let [first, other, big] = ["1 L, farm store", "1 L, supplier not stated", "5 L"].map(|name| of("Barn", name));
    let edited = trial.path().join("out/edited.xlsx");
    let plan = |cells: &[(&str, &str, Typed<'_>)], ends: i32| {
        filled(&workbook, &edited, cells);
        run_in(trial.path(), &["plan", "out/edited.xlsx", "--out", "again", "--replace"]).ended(ends).err
    };
    plan(&[("Packages", &first, Typed::Number(1.0)), ("Packages", &big, Typed::Text("1"))], 0);
    assert_eq!(trial.order("again", "Barn", "liquid")["packages"], "1 x 1 L + 1 x 5 L");
    assert_eq!(trial.order("again", "Mill", "liquid")["packages"], "4 x 1 L");
    // The workbook of that plan keeps them; with all of them emptied they are chosen anew.
    std::fs::copy(trial.path().join("again/campaign.xlsx"), &edited).unwrap();
    run_in(trial.path(), &["plan", "out/edited.xlsx", "--out", "kept"]).ended(0);
    assert_eq!(trial.order("kept", "Barn", "liquid")["packages"], "1 x 1 L + 1 x 5 L");
    let empty = [&first, &other, &big].map(|cell| ("Packages", cell.as_str(), Typed::Text("")));
    filled(&trial.path().join("again/campaign.xlsx"), &edited, &empty);
    run_in(trial.path(), &["plan", "out/edited.xlsx", "--out", "anew"]).ended(0);
    assert_eq!(trial.order("anew", "Barn", "liquid")["packages"], "5 x 1 L");
    for (typed, cell) in [(Typed::Text("some"), &first), (Typed::Number(1.5), &first), (Typed::Number(-1.0), &big)] {
        let said = plan(&[("Packages", cell, typed)], 2);
        assert!(said.contains(&format!("sheet Packages, {cell}: a count of packages is a whole number")), "{said}");
    }
}
