//! Sums and orders of whole runs, counted again from the treatments table: totals by group, the three figures of a need,
//! whole packages per depot, stock, shortage and cost.

use std::collections::BTreeMap;
use std::path::Path;

use aftercrest::scenario::Campaign;

use crate::running::{Row, close, folder, number, place, root, rows, run_in, sheets};

/// Plans the demo and hands over treatments, totals and orders.
fn demo() -> (Vec<Row>, Vec<Row>, Vec<Row>) {
    let folder = folder();
    run_in(folder.path(), &["plan", "--demo", "--out", "out"]).ended(1);
    tables(&folder.path().join("out"))
}

fn tables(out: &Path) -> (Vec<Row>, Vec<Row>, Vec<Row>) {
    (rows(&out.join("treatments.csv")), rows(&out.join("totals.csv")), rows(&out.join("orders.csv")))
}

fn or_zero(value: f64) -> f64 {
    if value.is_nan() { 0.0 } else { value }
}

fn sum<'a>(rows: impl Iterator<Item = &'a Row>, column: &str) -> f64 {
    rows.map(|row| or_zero(number(row, column))).sum()
}

/// Shares of a scenario: repeat and loss, for a file whose overrides leave them alone.
fn shares(campaign: &Campaign, scenario: &str) -> (f64, f64) {
    let scenario = campaign.scenarios.iter().find(|one| one.name == scenario).unwrap();
    let practice = campaign.practice_of(scenario, 0);
    (practice.repeat_share, practice.handling_loss)
}

#[test]
fn totals_are_the_sums_of_the_treatments() {
    let (treatments, totals, _) = demo();
    let campaign = Campaign::read(&root().join("scenarios/demo.toml")).unwrap();
    for scenario in &campaign.scenarios {
        let of = |row: &&Row| row["scenario"] == scenario.name;
        let lines: Vec<&Row> = totals.iter().filter(of).collect();
        assert_eq!(lines.iter().filter(|line| line["level"] == "campaign").count(), 1, "{}", scenario.name);
        let (repeat, loss) = shares(&campaign, &scenario.name);
        let mut grouped = 0.0;
        for line in &lines {
            let mine = || {
                treatments.iter().filter(of).filter(|row| {
                    line["level"] == "campaign" || (row["region"] == line["region"] && row["depot"] == line["depot"])
                })
            };
            let planned = || mine().filter(|row| row["outcome"] == "planned");
            let resting = || planned().filter(|row| !row["assumed"].is_empty());
            let count = |rows: usize, column: &str| assert_eq!(line[column], rows.to_string(), "{column} {line:?}");
            count(mine().count(), "visits");
            count(planned().count(), "visits_planned");
            count(mine().count() - planned().count(), "visits_held_back");
            count(resting().count(), "visits_assumed");
            count(planned().filter(|row| row["flush_h"].is_empty()).count(), "visits_without_flush_h");
            let liquid = !line["product_l"].is_empty();
            let unit = if liquid { "l" } else { "kg" };
            let product = sum(planned(), &format!("product_{unit}"));
            for (column, expected) in [
                ("treated_volume_l".to_owned(), sum(planned(), "treated_volume_l")),
                ("assumed_volume_l".to_owned(), sum(resting(), "treated_volume_l")),
                ("chlorine_g".to_owned(), sum(planned(), "chlorine_g")),
                ("product_weight_kg".to_owned(), sum(planned(), "product_kg")),
                ("flush_volume_l".to_owned(), sum(planned(), "flush_volume_l")),
                ("flush_h".to_owned(), sum(planned(), "flush_h")),
                ("neutralizer_kg".to_owned(), sum(planned(), "neutralizer_kg")),
                ("neutralizer_repeat_kg".to_owned(), repeat * sum(planned(), "neutralizer_kg")),
                ("neutralizer_loss_kg".to_owned(), loss * (1.0 + repeat) * sum(planned(), "neutralizer_kg")),
                (format!("product_{unit}"), product),
                (format!("product_low_{unit}"), sum(planned(), &format!("product_low_{unit}"))),
                (format!("product_high_{unit}"), sum(planned(), &format!("product_high_{unit}"))),
                (format!("product_repeat_{unit}"), repeat * product),
                (format!("product_loss_{unit}"), loss * (1.0 + repeat) * product),
                (format!("product_in_all_{unit}"), (1.0 + repeat) * (1.0 + loss) * product),
            ] {
                let found = number(line, &column);
                assert!(close(found, expected, 1e-11), "{column}: {found}, but {expected} by the table: {line:?}");
            }
            let other = if liquid { "product_kg" } else { "product_l" };
            assert_eq!(line[other], "", "a product is bought one way: {line:?}");
            if line["level"] == "group" {
                grouped += number(line, "chlorine_g");
            }
        }
        let whole = number(lines.iter().find(|line| line["level"] == "campaign").unwrap(), "chlorine_g");
        assert!(close(grouped, whole, 1e-12), "the groups do not make the whole");
    }
}

/// A package list, `2 x 55 gal + 1 x 5 gal`, as counts by package.
fn packages(list: &str) -> BTreeMap<String, u64> {
    list.split(" + ")
        .filter(|part| !part.is_empty())
        .map(|part| {
            let (count, size) = part.split_once(" x ").unwrap();
            (size.to_owned(), count.parse().unwrap())
        })
        .collect()
}

#[test]
fn orders_cover_the_need_and_would_not_with_one_package_fewer() {
    let (treatments, _, orders) = demo();
    let campaign = Campaign::read(&root().join("scenarios/demo.toml")).unwrap();
    let mut bought = 0;
    let mut used: BTreeMap<(String, String, String), u64> = BTreeMap::new();
    for line in orders.iter().filter(|line| line["kind"] == "product" || line["kind"] == "neutralizer") {
        let planned: Vec<&Row> = treatments
            .iter()
            .filter(|row| {
                row["scenario"] == line["scenario"] && row["depot"] == line["depot"] && row["outcome"] == "planned"
            })
            .collect();
        let (repeat, loss) = shares(&campaign, &line["scenario"]);
        let (first, low, high, choices) = if line["kind"] == "product" {
            let product = campaign.products.iter().find(|product| product.name == line["item"]).unwrap();
            let unit = if line["unit"] == "L" { "l" } else { "kg" };
            let of = |band: &str| sum(planned.iter().copied(), &format!("product_{band}{unit}"));
            (of(""), of("low_"), of("high_"), product.packages.clone())
        } else {
            let takes = planned.iter().copied().filter(|row| row["neutralizer"] == line["item"]);
            let first = sum(takes, "neutralizer_kg");
            let supply = campaign.neutralizers.iter().find(|supply| supply.agent.name() == line["item"]).unwrap();
            (first, first, first, supply.packages.clone())
        };
        let same = |column: &str, expected: f64| {
            let found = number(line, column);
            assert!(close(found, expected, 1e-9), "{column}: {found}, but {expected}: {line:?}");
        };
        same("first_round", first);
        same("first_round_low", low);
        same("first_round_high", high);
        same("repeat_round", repeat * first);
        same("handling_loss", loss * (1.0 + repeat) * first);
        let stock = campaign.stock.iter().filter(|stock| stock.depot == line["depot"] && stock.item == line["item"]);
        let (on_hand, on_order) =
            stock.fold((0.0, 0.0), |sums, stock| (sums.0 + stock.on_hand, sums.1 + stock.on_order));
        same("on_hand", on_hand);
        same("on_order", on_order);
        let gap = ((1.0 + repeat) * (1.0 + loss) * first - on_hand - on_order).max(0.0);
        same("gap", gap);
        let counts = packages(&line["packages"]);
        let (mut amount, mut cost) = (0.0, 0.0);
        for (size, count) in &counts {
            let package = choices.iter().find(|package| package.text == *size).unwrap_or_else(|| panic!("{line:?}"));
            amount += *count as f64 * package.amount;
            cost += *count as f64 * package.price.unwrap();
            *used.entry((line["scenario"].clone(), line["item"].clone(), size.clone())).or_default() += count;
            if let Some(available) = package.available {
                let so_far = used[&(line["scenario"].clone(), line["item"].clone(), size.clone())];
                assert!(so_far <= u64::from(available), "more than there are: {line:?}");
            }
        }
        same("amount_bought", amount);
        same("cost", cost);
        let short = number(line, "short");
        assert!(amount + short >= gap * (1.0 - 1e-9), "{line:?}");
        for size in counts.keys() {
            let package = choices.iter().find(|package| package.text == *size).unwrap();
            assert!(amount - package.amount < gap, "one package of {size} fewer would do: {line:?}");
            bought += 1;
        }
        assert_eq!(line["currency"], "USD");
    }
    assert!(bought > 50, "{bought}");
    // Every depot with a planned visit has an order line for its product, in every scenario.
    for row in treatments.iter().filter(|row| row["outcome"] == "planned") {
        assert!(
            orders.iter().any(|line| line["kind"] == "product"
                && line["scenario"] == row["scenario"]
                && line["depot"] == row["depot"]),
            "{row:?}"
        );
    }
}

#[test]
fn supplies_are_whole_pieces_for_both_rounds() {
    let (treatments, _, orders) = demo();
    let campaign = Campaign::read(&root().join("scenarios/demo.toml")).unwrap();
    let mut seen = 0;
    for line in orders.iter().filter(|line| line["kind"] == "supply") {
        let visits = treatments
            .iter()
            .filter(|row| {
                row["scenario"] == line["scenario"] && row["depot"] == line["depot"] && row["outcome"] == "planned"
            })
            .count() as f64;
        let supply = campaign.supplies.iter().find(|supply| supply.name == line["item"]).unwrap();
        let (repeat, _) = shares(&campaign, &line["scenario"]);
        assert_eq!(number(line, "first_round"), (visits * supply.per_visit).ceil());
        // 0.2 × 35 is 7.000000000000001 in floats, and seven pieces in a depot.
        let repeated = (visits * repeat * supply.per_visit - 1e-9).ceil().max(0.0);
        assert_eq!(number(line, "repeat_round"), repeated, "{line:?}");
        let need = number(line, "first_round") + repeated;
        let boxes = (need / supply.package_of).ceil();
        assert_eq!(number(line, "amount_bought"), boxes * supply.package_of, "{line:?}");
        assert!(close(number(line, "cost"), boxes * supply.price.unwrap(), 1e-12));
        seen += 1;
    }
    assert!(seen >= 45, "{seen}");
}

#[test]
fn what_cannot_be_had_is_said_and_not_invented() {
    let folder = folder();
    place(
        folder.path(),
        "wells.csv",
        "well_id,well_type,water volume (L),depot\nA,spring_box,4000,Mill\nB,spring_box,4000,Barn\nC,spring_box,100,Barn\n",
    );
    let file = |packages: &str, stock: &str| {
        format!(
            "[campaign]\nunits = \"metric\"\ncurrency = \"EUR\"\n[practice]\nflush = \"mixed_tank\"\n\
             discharge = {{ routes = [] }}\n[[product]]\nname = \"liquid\"\nchemical = \"sodium_hypochlorite\"\n\
             strength = {{ percent = 100, basis = \"grams_per_liter\" }}\n{packages}\n{stock}"
        )
    };
    let plan = |packages: &str, stock: &str| {
        place(folder.path(), "plan.toml", file(packages, stock));
        run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(0);
        let lines: Vec<Row> = tables(&folder.path().join("out")).2;
        let line = |depot: &str| {
            lines.iter().find(|line| line["depot"] == depot && line["kind"] == "product").cloned().unwrap()
        };
        (line("Barn"), line("Mill"))
    };
    // 4 L for each 4000 L at 100 mg/L from 100 g/L; Barn needs 4.1 L, Mill 4 L.
    let (barn, mill) = plan("packages = [{ size = \"1 L\", price = 2, available = 6 }]", "");
    assert_eq!((barn["packages"].as_str(), barn["short"].as_str(), barn["cost"].as_str()), ("5 x 1 L", "0", "10"));
    assert_eq!((mill["packages"].as_str(), mill["cost"].as_str()), ("1 x 1 L", "2"));
    assert!(close(number(&mill, "short"), 3.0, 1e-9), "{mill:?}");
    // Exactly a whole number of packages needs no further one.
    let (_, mill) = plan("packages = [{ size = \"4 L\", price = 8 }]", "");
    assert_eq!((mill["packages"].as_str(), mill["amount_bought"].as_str()), ("1 x 4 L", "4"));
    // Cheaper by mixing: 5 L for 9 or 1 L for 2.
    let (barn, mill) = plan("packages = [{ size = \"5 L\", price = 9 }, { size = \"1 L\", price = 2 }]", "");
    assert_eq!((barn["packages"].as_str(), mill["packages"].as_str()), ("1 x 5 L", "4 x 1 L"));
    // What has no price is not bought beside what has one.
    let (barn, _) = plan("packages = [{ size = \"5 L\" }, { size = \"1 L\", price = 2 }]", "");
    assert_eq!((barn["packages"].as_str(), barn["cost"].as_str()), ("5 x 1 L", "10"));
    // No price, no cost; no package, no cost and no shortage that nobody could measure.
    let (barn, _) = plan("packages = [{ size = \"5 L\" }, { size = \"1 L\" }]", "");
    assert_eq!((barn["packages"].as_str(), barn["cost"].as_str()), ("1 x 5 L", ""));
    let (barn, _) = plan("", "");
    assert_eq!((barn["packages"].as_str(), barn["amount_bought"].as_str(), barn["cost"].as_str()), ("", "0", ""));
    assert!(close(number(&barn, "gap"), 4.1, 1e-9));
    // What is there and what is on its way is not bought again, and more than enough is no negative order.
    let stock = "[[stock]]\ndepot = \"Mill\"\nproduct = \"liquid\"\non_hand = \"1 L\"\non_order = \"1 L\"\n\
                 [[stock]]\ndepot = \"Barn\"\nproduct = \"liquid\"\non_hand = \"400 L\"\n";
    let (barn, mill) = plan("packages = [{ size = \"1 L\", price = 2 }]", stock);
    assert_eq!((mill["packages"].as_str(), mill["gap"].as_str()), ("2 x 1 L", "2"));
    assert_eq!((barn["packages"].as_str(), barn["gap"].as_str(), barn["cost"].as_str()), ("", "0", "0"));
}

#[test]
fn stock_for_a_depot_that_no_list_has_is_not_passed_over() {
    let folder = folder();
    place(folder.path(), "wells.csv", "well_id,well_type,water volume (L),depot\nA,spring_box,4000,Mill\n");
    place(
        folder.path(),
        "plan.toml",
        "[campaign]\nunits = \"metric\"\n[[product]]\nname = \"liquid\"\nchemical = \"sodium_hypochlorite\"\n\
         strength = { percent = 100, basis = \"grams_per_liter\" }\n\
         [[stock]]\ndepot = \"Mil\"\nproduct = \"liquid\"\non_hand = \"3 L\"\n",
    );
    let answer = run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(0);
    assert_eq!(
        answer.err,
        "stock is stated for depot \"Mil\", which no list has; did you mean `Mill`?; it was not used\n"
    );
}

/// The product has a price, the neutralizer and the supply have none: what is priced is said, and never as the cost.
#[test]
fn an_order_that_is_not_all_priced_says_what_is_priced_so_far() {
    let folder = folder();
    place(
        folder.path(),
        "list.csv",
        "Well ID,Depot,Well type,Depth (m),Static level (m),Diameter (mm),Flush to\n\
         A,Hall,drilled,30,3,150,stream\nB,Barn,drilled,40,3,150,land\n",
    );
    let scenarios = "[campaign]\ntitle = \"Prices\"\nunits = \"metric\"\ncurrency = \"USD\"\n\
                     [practice]\nflush = { until_mg_per_l = 0.1 }\n\
                     [[product]]\nname = \"liquid\"\nchemical = \"sodium_hypochlorite\"\n\
                     strength = { percent = 12.5, basis = \"trade\" }\npackages = [{ size = \"5 L\", price = 9 }]\n\
                     [[supply]]\nname = \"gloves\"\nper_visit = 2\n\
                     [[supply]]\nname = \"strips\"\nper_visit = 3\nprice = 4\n";
    place(folder.path(), "plan.toml", scenarios);
    let said = run_in(folder.path(), &["plan", "list.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(0).out;
    let out = folder.path().join("out");
    let orders = rows(&out.join("orders.csv"));
    let priced: Vec<&Row> = orders.iter().filter(|row| row["priced"] == "yes").collect();
    assert!(orders.iter().all(|row| row["cost"].is_empty() == (row["priced"] == "no")));
    let cost = sum(priced.iter().copied(), "cost");
    assert!(cost > 0.0 && priced.len() < orders.len());
    let (some, all) = (priced.len(), orders.len());
    let share = format!("{some} of {all} lines priced");

    let scenario = &rows(&out.join("scenarios.csv"))[0];
    assert_eq!(scenario["order_cost"], "");
    assert_eq!(number(scenario, "order_priced_so_far"), cost);
    assert_eq!((number(scenario, "order_lines"), number(scenario, "order_lines_priced")), (all as f64, some as f64));
    assert_eq!(scenario["order_not_priced"], "ascorbic acid (vitamin C), gloves");

    assert!(said.contains(&format!("{cost} priced so far, {share}")), "{said}");
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("Without a price, or a package that has one: ascorbic acid (vitamin C), gloves."), "{said}");
    assert!(said.contains("No scenario can be chosen as it stands: 1 not all priced."), "{said}");

    let page = std::fs::read_to_string(out.join("report.html")).unwrap();
    for words in [
        "Priced so far, not the order".to_owned(),
        format!("{cost} USD priced so far ({share}; not priced: ascorbic acid (vitamin C), gloves)"),
    ] {
        assert!(page.contains(&words), "no {words:?}");
    }
    assert!(
        !page.contains("yes, the cheapest") && !page.contains("Cost of the order</"),
        "a part of the cost as the whole"
    );

    let book = sheets(&out.join("campaign.xlsx"));
    let sheet = |name: &str| -> Vec<Vec<String>> {
        let (_, rows) = book.iter().find(|(sheet, _)| sheet == name).unwrap();
        rows.iter().map(|row| row.iter().map(ToString::to_string).collect()).collect()
    };
    let order = sheet("Order");
    let total = order.iter().find(|row| row[0] == "Priced so far, not the order").unwrap();
    assert_eq!(
        (total[1].as_str(), total[6].as_str()),
        (format!("{some} of {all} priced").as_str(), cost.to_string().as_str())
    );
    assert!(
        order.iter().any(|row| row[0] == "Not priced: ascorbic acid (vitamin C); gloves; the sum is not the cost of the order.")
    );
    assert!(order.iter().any(|row| row[0] == "gloves" && row[9] == "no price"));
    assert!(order.iter().all(|row| !row[0].starts_with("Total")), "{order:?}");
    let summary = sheet("Summary");
    assert!(summary.iter().any(|row| row[0] == "Priced so far, not the order"), "{summary:?}");
    assert!(summary.iter().all(|row| row[0] != "Order cost"), "{summary:?}");
    let compare = sheet("Compare");
    let line = |name: &str| compare.iter().find(|row| row[0].trim() == name).unwrap()[2].clone();
    assert_eq!(line("Cost of everything on the order"), "");
    assert_eq!(line("of them not priced"), (all - some).to_string());
}
