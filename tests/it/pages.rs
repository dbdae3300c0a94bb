//! The report as a page: whatever was typed shows as text, every picture can be read without seeing it, the figures are those
//! of the tables, and a list of which nothing can be planned has a report as well. What only a browser can tell is asked in
//! `tests/pages/report.py`.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::OnceLock;

use crate::running::{Row, folder, place, root, rows, run_in};

const HOSTILE: [&str; 2] = ["hostile.csv", "hostile.toml"];

fn report(folder: &Path) -> String {
    std::fs::read_to_string(folder.join("out/report.html")).unwrap()
}

/// What the demo comes to.
struct Demo {
    page: String,
    totals: Vec<Row>,
    orders: Vec<Row>,
}

fn demo() -> &'static Demo {
    static DEMO: OnceLock<Demo> = OnceLock::new();
    DEMO.get_or_init(|| {
        let folder = folder();
        run_in(folder.path(), &["plan", "--demo", "--out", "out"]).ended(1);
        let table = |name: &str| rows(&folder.path().join("out").join(name));
        Demo { page: report(folder.path()), totals: table("totals.csv"), orders: table("orders.csv") }
    })
}

fn count(page: &str, text: &str) -> usize {
    page.matches(text).count()
}

#[test]
fn hostile_text_shows_as_text() {
    let folder = folder();
    for name in HOSTILE {
        place(folder.path(), name, std::fs::read(root().join("tests/pages").join(name)).unwrap());
    }
    run_in(folder.path(), &["plan", HOSTILE[0], "--scenarios", HOSTILE[1], "--out", "out"]).ended(1);
    let page = &report(folder.path());
    assert_eq!(count(page, "<script"), 1, "the page's own script and no other");
    for acts in ["<img", "<a href=\"java", "onload=window", "<u>", "<b>", "\u{202E}"] {
        // Behind an escaped sign, or at the head of a line of a name, a word may stand as it was typed; as markup it may not.
        let as_text = |at: usize| page[..at].ends_with("svg ") || (page[..at].ends_with('>') && !acts.starts_with('<'));
        let markup = page.match_indices(acts).filter(|(at, _)| !as_text(*at)).count();
        assert_eq!(markup, 0, "{acts:?} acts on the page");
    }
    for shown in [
        "&lt;script&gt;window.hostile=1&lt;/script&gt;",
        "&lt;/title&gt;",
        "&lt;img src=x onerror=window.hostile=1&gt;",
        "&lt;a href=&quot;javascript:window.hostile=1&quot;&gt;in&lt;/a&gt;",
        "&lt;u&gt;USD&lt;/u&gt;",
        "De[U+202E]pot",
        "=1+1",
    ] {
        assert!(page.contains(shown), "{shown:?} is not shown");
    }
}

#[test]
fn every_picture_can_be_read_without_seeing_it() {
    let page = &demo().page;
    let pictures = count(page, "<svg");
    assert!(pictures > 8, "only {pictures} pictures");
    for part in ["role=\"img\"", "<title id=", "<desc id="] {
        assert_eq!(count(page, part), pictures, "{part}");
    }
    assert_eq!(count(page, "<table"), count(page, "<caption>"));
    assert_eq!(count(page, "<h1"), 1);
    for outside in ["http://", "https://", "src=", "@import", "url("] {
        assert!(!page.contains(outside), "{outside} could ask for something from elsewhere");
    }
}

/// Every number of the page that a row begins with a scenario's name for.
fn row<'a>(page: &'a str, caption: &str, name: &str) -> Vec<&'a str> {
    let table = page.split("<table").find(|table| table.contains(&format!("<caption>{caption}</caption>"))).unwrap();
    let row = table.split("<tr>").find(|row| row.contains(&format!(">{name}</th>"))).unwrap();
    row.split("data-v=\"").skip(1).map(|rest| rest.split('"').next().unwrap()).collect()
}

#[test]
fn figures_are_those_of_the_tables() {
    /// Liters in a US gallon, exactly, and kilograms in a pound: 15 CFR and NIST Special Publication 811, appendix B.
    const LITERS: f64 = 3.785_411_784;
    const KILOGRAMS: f64 = 0.453_592_37;
    let page = &demo().page;
    let close = |a: f64, b: f64| (a - b).abs() <= 1e-9 * a.abs().max(b.abs());
    let mut seen = 0;
    for total in demo().totals.iter().filter(|total| total["level"] == "campaign") {
        let (name, number) = (&total["scenario"], |key: &str| total[key].parse::<f64>().ok());
        let shown: Vec<f64> = row(page, "Amounts by scenario", name).iter().map(|text| text.parse().unwrap()).collect();
        let (unit, first, in_all) = match number("product_l") {
            Some(liters) => (LITERS, liters, number("product_in_all_l").unwrap()),
            None => (KILOGRAMS, number("product_kg").unwrap(), number("product_in_all_kg").unwrap()),
        };
        // Target, strength left, first round, low, high, in all, chlorine, weight.
        assert!(close(shown[2] * unit, first) && close(shown[5] * unit, in_all), "{name}: {shown:?}");
        assert!(close(shown[6] * KILOGRAMS, number("chlorine_g").unwrap() / 1000.0), "{name}: {shown:?}");
        seen += 1;
    }
    assert_eq!(seen, 16);
    // Cost of everything ordered, from the orders' own lines.
    let mut costs: BTreeMap<String, f64> = BTreeMap::new();
    for line in &demo().orders {
        *costs.entry(line["scenario"].clone()).or_default() += line["cost"].parse::<f64>().unwrap_or(f64::NAN);
    }
    for (name, cost) in costs {
        let shown: f64 = row(page, "Cost and consequences by scenario", &name)[0].parse().unwrap();
        assert!(close(shown, cost), "{name}: {shown} is not {cost}");
    }
}

#[test]
fn the_cheapest_is_the_cheapest_of_those_that_can_be_chosen() {
    // By hand from reports/demo/said.txt: at the campaign's own 100 mg/L or more, not spent and no younger than the product
    // says, 150 mg/L costs least (its measured residual spares neutralizer); 50 mg/L would cost less and is said to aim lower.
    let page = &demo().page;
    let answer = page.split("The cheapest choice that can be made").nth(1).unwrap();
    assert!(answer.split("</p>").next().unwrap().contains("&quot;liquid 12.5, 150 mg/L, 60 left after contact&quot;"));
    assert!(answer.contains("3 with a lower target than the campaign's own, 2 with spent stock, 1 with younger stock"));
    assert!(answer.contains("&quot;liquid 12.5, 50 mg/L&quot; would cost 2,886 USD"));
}

#[test]
fn a_list_of_which_nothing_can_be_planned_has_a_report() {
    let folder = folder();
    place(folder.path(), "wells.csv", "id,type,depth (ft),water level (ft),diameter (in)\nA,drilled,20,40,6\n");
    let plan = "[campaign]\nunits = \"us\"\n[[product]]\nname = \"bleach\"\nchemical = \"sodium_hypochlorite\"\n\
                strength = { percent = 6, basis = \"weight_naocl\" }\n[[scenario]]\nname = \"all\"\nproduct = \"bleach\"\n";
    place(folder.path(), "plan.toml", plan);
    run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(1);
    let page = report(folder.path());
    assert!(page.contains("0 of 1 well visit can be treated as listed. 1 is held back"));
    assert!(page.contains("Nothing is planned, so nothing can be compared"));
    assert!(page.contains("No list gives coordinates."));
}

/// Names as long as people make them: sentences stay whole, nothing empty is drawn, and bars are told apart.
#[test]
fn long_names_and_missing_prices_leave_the_directors_page_whole() {
    let folder = folder();
    let list =
        "Private drinking-water wells of the Upper and Lower Sorrel valleys, as handed over in the second week.csv";
    place(folder.path(), list, std::fs::read(root().join("tests/pages/long.csv")).unwrap());
    let page = |stated: &str| {
        place(folder.path(), stated, std::fs::read(root().join("tests/pages").join(stated)).unwrap());
        run_in(folder.path(), &["plan", list, "--scenarios", stated, "--out", "out", "--replace"]).ended(1);
        let page = report(folder.path());
        let decision = page.split("<section id=\"decision\"").nth(1).unwrap().split("</section>").next().unwrap();
        for item in decision.split("<li dir=\"auto\">").skip(1) {
            let item = item.split("</li>").next().unwrap();
            assert!(item.ends_with(['.', '?']) && !item.ends_with("….") && item.chars().count() <= 300, "{item:?}");
        }
        assert!(!page.contains("Nothing to draw"), "an empty picture is drawn");
        (decision.to_owned(), page)
    };
    let (decision, _) = page("long.toml");
    assert!(decision.contains("4 visits report fuel or oil. Do not treat these wells as usual"), "{decision}");
    let names: Vec<&str> =
        decision.split("<g class=\"bars\">").nth(1).unwrap().split("<text x=\"1\"").skip(1).collect();
    let names: std::collections::BTreeSet<&str> =
        names.iter().map(|name| name.split('>').nth(1).unwrap().split('<').next().unwrap()).collect();
    assert_eq!(names.len(), 3, "bars of the same name: {names:?}");
    let (decision, page) = page("long-unpriced.toml");
    let why = "No cost is drawn, because no order is priced whole. Without a price: ascorbic acid (vitamin C).";
    assert_eq!(count(&decision, why), 1, "{decision}");
    // Once more where the scenarios are compared.
    assert_eq!(count(&page, why), 2);
}

#[test]
fn scenarios_that_come_to_the_same_share_a_bar_and_days_of_crews_are_said() {
    // By hand from reports/demo/said.txt: as delivered, and at 100 mg/L of the grid, are one and the same.
    let page = &demo().page;
    assert!(page.contains(">liquid 12.5, as delivered = liquid 12.5, 100 mg/L</text>"));
    assert!(page.contains("crews go out from 2026-04-13 to 2026-05-07; ages of stock as stated."));
    assert!(!page.contains("no day of the plan is stated"));
    assert_eq!(count(page, "<th scope=\"col\"></th>"), 0, "a heading without a word");
}

const TWO: &str = "[campaign]\nunits = \"us\"\n[[product]]\nname = \"drum\"\nchemical = \"sodium_hypochlorite\"\n\
                   strength = { percent = 12.5, basis = \"trade\" }\nage_days = 20\nstorage = \"20 C\"\n\
                   packages = [{ size = \"5 gal\", price = 17.0 }]\n\
                   [[neutralizer]]\nagent = \"ascorbic_acid\"\npackages = [{ size = \"1 lb\", price = 1.0 }]\n\
                   [[scenario]]\nname = \"as it stands\"\nproduct = \"drum\"\n\
                   [[scenario]]\nname = \"as if fresh\"\nproduct = \"drum\"\nage_days = 0\n";

/// Nobody buys 20 days off a drum: a scenario with younger stock than the product states is for comparison alone.
#[test]
fn the_page_says_for_which_scenario_the_cards_are_and_offers_no_younger_stock() {
    let folder = folder();
    let wells: String = (0..60).map(|at| format!("W{at},drilled,180,40,6,7.9,250,land\n")).collect();
    place(
        folder.path(),
        "wells.csv",
        format!("id,type,depth (ft),water level (ft),diameter (in),pH,alkalinity (mg/L),route\n{wells}"),
    );
    place(folder.path(), "plan.toml", TWO);
    run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(0);
    let page = report(folder.path());
    assert!(
        page.contains("The crew sheets, the Summary and the Order sheet are for &quot;as it stands&quot;."),
        "{page}"
    );
    assert!(page.contains("no: younger stock than stated"), "{page}");
    assert!(
        page.contains("1 with younger stock than the product&#39;s own age")
            || page.contains("1 with younger stock than the product's own age"),
        "{page}"
    );
    assert!(page.contains("(currency not stated) for everything on the order"), "{page}");
    assert!(!page.contains("acid, a longer contact time"), "{page}");
    let cards = std::fs::read_to_string(folder.path().join("out/crew-sheets.html")).unwrap();
    assert!(cards.contains("These cards are for &quot;as it stands&quot; only."), "{cards}");
}
