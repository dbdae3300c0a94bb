//! What goes along on a truck: topping up, strips, bottles, water, gear for the wells that are on it, what holds on the road; and
//! what a card says for want of room, of coordinates or of a day's order.

use std::path::Path;

use crate::crew::text;
use crate::running::{folder, place, run_in};

const HEADS: &str = "well id,visit,depot,well type,total depth (ft),static level (ft),casing diameter (in),casing,water volume (gal),\
                     yield (gpm),pump rate (gpm),discharge route,users served,latitude,longitude,notes\n";
const DRILLED: &str = "D1,1,North,drilled,180,40,6,steel,,8,10,land,4,45.5,-30.5,\n";
const DUG: &str = "U1,1,North,dug,28,12,36,stone,,2,10,land,,,,\n";
const SPRING: &str = "S1,1,North,spring box,,,,,500,,,land,2,,,\n";
const FLOWS: &str = "F1,1,North,drilled,180,0,6,,,8,10,land,3,45.5,-30.5,flows over the top\n";

const LIQUID: &str = "chemical = \"sodium_hypochlorite\"\nstrength = { percent = 12.5, basis = \"trade\" }\nage_days = 1\nstorage = \"15 C\"\n";
const GRANULES: &str =
    "chemical = \"calcium_hypochlorite\"\nstrength = { percent = 68, basis = \"weight_available_chlorine\" }\n";
const POWDER: &str =
    "chemical = \"chlorinated_lime\"\nstrength = { percent = 30, basis = \"weight_available_chlorine\" }\n";

/// The crew's file of a list under a product, with more lines in the scenario file.
fn sheets(rows: &str, product: &str, more: &str, arguments: &[&str]) -> String {
    let folder = folder();
    place(folder.path(), "wells.csv", format!("{HEADS}{rows}"));
    let scenarios = format!(
        "[campaign]\ntitle = \"Trucks\"\nunits = \"us\"\n[practice]\nflowing_spring = \"isolated\"\n[[product]]\nname = \"it\"\n{product}{more}"
    );
    place(folder.path(), "plan.toml", scenarios);
    let all = [&["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"][..], arguments].concat();
    run_in(folder.path(), &all).ended(0);
    read(&folder.path().join("out/crew-sheets.html"))
}

fn read(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap()
}

fn load(page: &str) -> String {
    let section = page.split("<section class=\"page load\">").nth(1).unwrap();
    text(section.split("</section>").next().unwrap())
}

fn figure<'a>(page: &'a str, name: &str) -> Option<&'a str> {
    page.split(&format!("<b data-figure=\"{name}\">")).nth(1).map(|rest| rest.split('<').next().unwrap())
}

#[test]
fn each_product_has_its_number_on_the_road_and_its_spill_to_report() {
    // 49 CFR 172.101 (edition of 2018-10-01): UN 1748 and UN 2880, 5.1. PHMSA interpretation 98-0413: UN 1791, class 8, 100 lb.
    // UN 2208 and 10 lb (40 CFR 302.4) from memory; 40 CFR 302.4 also for the 100 lb.
    for (product, has, has_not) in [
        (
            LIQUID,
            &["UN 1791", "class 8", "100 lb (45 kg) of sodium hypochlorite"][..],
            &["UN 1748", "UN 2208", "10 lb"][..],
        ),
        (
            GRANULES,
            &["UN 1748", "UN 2880", "class 5.1", "10 lb (4.5 kg) of calcium"],
            &["UN 1791", "UN 2208", "100 lb"],
        ),
        (POWDER, &["UN 2208", "class 5.1", "10 lb (4.5 kg) of calcium"], &["UN 1791", "UN 1748", "100 lb"]),
    ] {
        let load = load(&sheets(DRILLED, product, "", &[]));
        // 49 CFR 173.6; certificate, leftovers and containers: labels and common practice.
        let every = [
            "49 CFR 173.6",
            "440 lb (200 kg)",
            "NSF/ANSI/CAN 60",
            "never into a drain, a stream",
            "rinse three times",
            "return them",
            "local codes and the label decide",
        ];
        for words in has.iter().chain(&every) {
            assert!(load.contains(words), "{product}: no {words:?} on {load}");
        }
        for words in has_not {
            assert!(!load.contains(words), "{product}: {words:?} on {load}");
        }
    }
}

#[test]
fn the_order_says_what_holds_on_the_road() {
    let folder = folder();
    place(folder.path(), "wells.csv", format!("{HEADS}{DRILLED}"));
    let file =
        format!("[campaign]\nunits = \"us\"\n[[product]]\nname = \"a\"\n{LIQUID}[[product]]\nname = \"b\"\n{GRANULES}");
    place(folder.path(), "plan.toml", file);
    run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(0);
    let book = crate::running::sheets(&folder.path().join("out/campaign.xlsx"));
    let (_, order) = book.iter().find(|(name, _)| name == "Order").unwrap();
    let said: Vec<String> = order.iter().flatten().map(|cell| format!("{cell}")).collect();
    for words in [
        "UN 1791",
        "UN 1748",
        "100 lb (45 kg)",
        "10 lb (4.5 kg)",
        "Leftovers: never into a drain",
        "local codes and the label",
    ] {
        assert_eq!(said.iter().filter(|cell| cell.contains(words)).count(), 1, "{words}: {said:#?}");
    }
}

#[test]
fn a_truck_has_what_its_wells_ask_for_and_no_more() {
    let drilled = sheets(DRILLED, LIQUID, "", &[]);
    let said = load(&drilled);
    assert!(said.contains("Visits with amounts: 1; to measure: 0") && !said.contains("1 visits"), "{said}");
    for words in ["pipes to below the pitless adapter", "clean water to mix with", "hoses for circulating"] {
        assert!(said.contains(words), "no {words:?} on {said}");
    }
    for words in
        ["brushes", "plugs for overflows", "a pump that empties", "reads as low as the discharge limit", "sounder"]
    {
        assert!(!said.contains(words), "{words:?} on {said}");
    }
    // Topping up: the card adds as much again as reaches the target in water without chlorine (D2), rounded up by itself.
    let [poured, with_more] =
        ["load_product", "load_top_up"].map(|name| crate::measures::worth(figure(&drilled, name).unwrap()));
    let more = crate::measures::worth(figure(&drilled, "more").unwrap());
    assert!(
        with_more >= poured + more - 1e-9 && with_more <= 1.126 * (poured + more) + 3e-4,
        "{poured} {more} {with_more}"
    );
    // Usual counts, common practice, no source: 16 strips and 2 bottles a visit. Drinking water: a gallon a head and day, for 24 h.
    assert_eq!(
        ["load_strips", "load_bottles", "load_users"].map(|name| figure(&drilled, name).unwrap()),
        ["16", "2", "4 gallons"]
    );

    let all = sheets(&format!("{DRILLED}{DUG}{SPRING}"), LIQUID, "", &[]);
    let said = load(&all);
    for words in ["brushes", "plugs for overflows", "a pump that empties", "for users who have none stored"] {
        assert!(said.contains(words), "no {words:?} on {said}");
    }
    assert_eq!(
        ["load_strips", "load_bottles", "load_users"].map(|name| figure(&all, name).unwrap()),
        ["48", "6", "6 gallons"]
    );

    // What the campaign states stands alone.
    let supplies = "[[supply]]\nname = \"chlorine strips\"\nper_visit = 3\n[[supply]]\nname = \"Bottles, sterile\"\n";
    let stated = sheets(DRILLED, LIQUID, supplies, &[]);
    assert!(figure(&stated, "load_strips").is_none() && figure(&stated, "load_bottles").is_none());
    assert!(load(&stated).contains("chlorine strips3"), "{}", load(&stated));
}

#[test]
fn a_card_says_what_it_once_left_open() {
    let page = sheets(&format!("{DRILLED}{DUG}{SPRING}{FLOWS}"), LIQUID, "", &[]);
    let card = |well: &str| {
        let rest = page.split(&format!("data-well=\"{well}\"")).nth(1).unwrap();
        text(rest.split("</article>").next().unwrap())
    };
    for well in ["D1", "U1", "S1", "F1"] {
        let said = card(well);
        for words in ["measure (not metal)", "goggles, chemical gloves", "sample bottles", "notice, tags"] {
            assert!(said.contains(words), "{well}: no {words:?} on {said}");
        }
    }
    for well in ["U1", "S1"] {
        let said = card(well);
        assert!(said.contains("Map: ____") && !said.contains("pitless"), "{said}");
    }
    for well in ["D1", "U1", "S1", "F1"] {
        let said = card(well);
        assert!(!said.contains("go on") && said.contains("test once more"), "{said}");
        assert!(
            said.contains(
                "stored water for the hold, other safe water until a sample is clean, flush + 7 days or more"
            ),
            "{said}"
        );
    }
    assert!(card("F1").contains("flows over; the amount is for a well that is full to the ground"), "{}", card("F1"));
    let spanish = sheets(&format!("{DRILLED}{DUG}"), LIQUID, "", &["--language", "es"]);
    assert!(spanish.contains("acero") && spanish.contains("piedra") && !spanish.contains("stone"), "{spanish}");
}

#[test]
fn a_truck_says_what_its_product_weighs_and_when_that_is_no_small_amount() {
    // 49 CFR 173.6: at most 200 kg on a vehicle. Granules: 68 % of 100 mg/L in the wells' water and the same to top up.
    let crew = "[[crew]]\nname = \"red\"\ndepot = \"North\"\nvisits_per_day = 60\n";
    let few = sheets(DRILLED, LIQUID, crew, &[]);
    assert!(load(&few).contains("This truck: ") && !load(&few).contains("MORE THAN SMALL"), "{}", load(&few));
    // 40 wide wells of 24,000 gallons: 9.1 kg of chlorine each.
    let rows: String = (0..40).map(|at| format!("W{at},1,North,drilled,400,40,36,steel,,8,10,land,4,,,\n")).collect();
    let many = sheets(&rows, LIQUID, crew, &[]);
    assert!(load(&many).contains("MORE THAN SMALL AMOUNTS: this truck carries "), "{}", load(&many));
    // Without crews nobody knows how many trucks there are.
    assert!(!load(&sheets(DRILLED, LIQUID, "", &[])).contains("This truck"));
}

#[test]
fn the_cards_of_a_day_stand_in_the_order_of_its_stops() {
    let rows: String = (0..6)
        .map(|at| {
            let kind = if at % 2 == 0 { "drilled,180,40,6,steel,,8,10" } else { "dug,28,12,36,stone,,2,10" };
            format!("W{at},1,North,{kind},land,4,45.{at},-30.{at},\n")
        })
        .collect();
    let crews = "[[crew]]\nname = \"red\"\ndepot = \"North\"\nvisits_per_day = 6\n";
    let page = sheets(&rows, LIQUID, crews, &[]);
    let stops: Vec<usize> = page
        .split("class=\"depot\">")
        .skip(1)
        .map(|rest| rest.split(", stop ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap())
        .collect();
    assert_eq!(stops, [1, 2, 3, 4, 5, 6]);
}
