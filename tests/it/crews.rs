//! Crews and days: every visit that is planned has one turn or is counted as without, a day's load is the sum of its cards, days
//! are compact, and nothing but the lists and the crews decides who goes where when.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use tempfile::TempDir;

use crate::measures::worth;
use crate::running::{Row, answer, command, contents, folder, heads, number, place, rows, run_in, sheets};

/// Wells of three depots, invented, on the open sea: in clusters, some without a place, some that are held back, and one depot
/// that is written in two ways.
fn list() -> String {
    let mut list =
        String::from("Well ID,Depot,Well type,Depth (m),Static level (m),Diameter (mm),Latitude,Longitude,Flush to\n");
    for at in 0..120_u32 {
        let depot = ["North Barn", "Mill Lane", "Hall", "north-barn"][(at % 4) as usize];
        let kind = if at % 7 == 0 { "dug" } else { "drilled" };
        let across = if kind == "dug" { 900 } else { 150 };
        let depth = if at % 17 == 3 { String::new() } else { format!("{}", 12 + at % 30) };
        let (north, east) = (45.0 + f64::from(at % 5) * 0.1, -30.0 - f64::from(at % 3) * 0.1);
        let place = if at % 11 == 5 { ",".to_owned() } else { format!("{north},{east}") };
        let route = ["land", "stream"][(at % 2) as usize];
        list.push_str(&format!("W{at:03},{depot},{kind},{depth},3,{across},{place},{route}\n"));
    }
    list
}

const HEAD: &str = "[campaign]\ntitle = \"Crews\"\nunits = \"metric\"\n\
                    [practice]\nflush = { until_mg_per_l = 0.1 }\n\
                    [[product]]\nname = \"liquid\"\nchemical = \"sodium_hypochlorite\"\nstrength = { percent = 12.5, basis = \"trade\" }\n\
                    packages = [{ size = \"5 L\", price = 9 }, { size = \"20 L\", price = 25 }]\n\
                    [[supply]]\nname = \"strips\"\nper_visit = 3\n";

/// What the crews of these tests make: two of a depot, one that goes anywhere, and too few days for all.
const CREWS: &str = "[[crew]]\nname = \"red\"\ndepot = \"North Barn\"\nvisits_per_day = 5\nfirst_day = 2026-04-13\ndays = 6\n\
                     [[crew]]\nname = \"blue\"\ndepot = \"NORTH BARN\"\nvisits_per_day = 3\nfirst_day = 2026-04-15\ndays = 2\n\
                     [[crew]]\nname = \"green\"\nvisits_per_day = 7\ndays = 6\n";

#[test]
fn a_crew_of_one_depot_that_could_help_elsewhere_is_named() {
    let crews = "[[crew]]\nname = \"red\"\ndepot = \"North Barn\"\nvisits_per_day = 500\ndays = 6\n";
    let (_folder, said) = planned(&list(), crews, &[]);
    let hint = "Crew \"red\" has 5 days left and loads at North Barn alone: with its Depot left blank";
    assert!(one_line(&said).contains(hint), "{said}");
    // One that goes wherever it is needed stands by only where nothing is left.
    let (_folder, said) = planned(&list(), &crews.replace("depot = \"North Barn\"\n", ""), &[]);
    assert!(!one_line(&said).contains("days left and loads"), "{said}");
}

fn planned(list: &str, crews: &str, more: &[&str]) -> (TempDir, String) {
    let folder = folder();
    place(folder.path(), "list.csv", list);
    place(folder.path(), "plan.toml", format!("{HEAD}{crews}"));
    let mut arguments = vec!["plan", "list.csv", "--scenarios", "plan.toml", "--out", "out"];
    arguments.extend(more);
    let said = run_in(folder.path(), &arguments);
    assert!(said.code < 2, "{}", said.err);
    (folder, said.out)
}

fn visits(folder: &TempDir) -> Vec<Row> {
    rows(&folder.path().join("out/visits.csv"))
}

fn page(folder: &TempDir) -> String {
    std::fs::read_to_string(folder.path().join("out/crew-sheets.html")).unwrap()
}

/// Visits by crew and day.
fn days(visits: &[Row]) -> BTreeMap<(String, String), Vec<&Row>> {
    let mut days: BTreeMap<_, Vec<&Row>> = BTreeMap::new();
    for row in visits.iter().filter(|row| !row["crew"].is_empty()) {
        days.entry((row["crew"].clone(), row["crew_day"].clone())).or_default().push(row);
    }
    days
}

/// Lines are broken where they are full.
fn one_line(said: &str) -> String {
    said.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_planned_visit_has_one_turn_or_is_counted_as_without() {
    let (folder, said) = planned(&list(), CREWS, &[]);
    let visits = visits(&folder);
    let planned: Vec<&Row> = visits.iter().filter(|row| row["outcome"] == "planned").collect();
    let held_back = visits.len() - planned.len();
    assert!(held_back > 3, "{held_back}");
    assert!(
        visits.iter().all(|row| row["outcome"] == "planned" || row["crew"].is_empty() && row["crew_day"].is_empty())
    );
    let most = BTreeMap::from([("red", (5, 6)), ("blue", (3, 2)), ("green", (7, 6))]);
    let days = days(&visits);
    for ((crew, day), made) in &days {
        let (most, _) = most[crew.as_str()];
        assert!(made.len() <= most, "{crew} makes {} on {day}", made.len());
        let stops: BTreeSet<usize> = made.iter().map(|row| number(row, "crew_stop") as usize).collect();
        assert_eq!(stops, (1..=made.len()).collect(), "{crew} {day}");
        // It loads at one depot a day, its own where it has one.
        let loaded: BTreeSet<String> = made.iter().map(|row| row["depot"].replace('-', " ").to_lowercase()).collect();
        assert_eq!(loaded.len(), 1, "{crew} {day}: {loaded:?}");
        assert!(crew == "green" || loaded.contains("north barn"), "{crew} {day}: {loaded:?}");
    }
    for (crew, (_, most)) in most {
        let out: Vec<&String> = days.keys().filter(|(of, _)| of == crew).map(|(_, day)| day).collect();
        assert!(!out.is_empty() && out.len() <= most, "{crew}: {out:?}");
    }
    let of =
        |crew: &str| -> Vec<&str> { days.keys().filter(|(of, _)| of == crew).map(|(_, day)| day.as_str()).collect() };
    assert_eq!(of("blue"), ["2026-04-15", "2026-04-16"]);
    assert_eq!(of("green"), ["day 1", "day 2", "day 3", "day 4", "day 5", "day 6"]);
    let without = planned.iter().filter(|row| row["crew"].is_empty()).count();
    assert!(without > 0, "these crews were to be too few");
    assert_eq!(days.values().map(Vec::len).sum::<usize>() + without, planned.len());
    let told = format!("{without} of {} visits have no day; add crews or days.", planned.len());
    assert!(one_line(&said).contains(&told), "{said}");
    let record = std::fs::read_to_string(folder.path().join("out/run.json")).unwrap();
    assert!(record.contains(&format!("\"visits_without_day\": {without}")), "{record}");
    // Every visit has its card once, those without a day too.
    let page = page(&folder);
    for row in &visits {
        let mark = format!("data-well=\"{}\"", row["well_id"]);
        assert_eq!(page.matches(&mark).count(), 1, "{mark}");
    }
    // People read it where they look: on the first sheet, and a row a day on the sheet of the days.
    let book = sheets(&folder.path().join("out/campaign.xlsx"));
    let text = |name: &str| -> String {
        let (_, rows) = book.iter().find(|(sheet, _)| sheet == name).unwrap_or_else(|| panic!("no sheet {name}"));
        rows.iter().map(|row| row.iter().map(ToString::to_string).collect::<Vec<_>>().join("\t") + "\n").collect()
    };
    assert!(text("Summary").contains(&told) && text("Crew days").contains(&told));
    for ((crew, day), made) in &days {
        let sheet = text("Crew days");
        let line = sheet.lines().find(|line| line.starts_with(&format!("{crew}\t{day}\t"))).unwrap();
        let mut made = made.clone();
        made.sort_by_key(|row| number(row, "crew_stop") as u32);
        let wells: Vec<&str> = made.iter().map(|row| row["well_id"].as_str()).collect();
        assert!(line.ends_with(&wells.join(", ")), "{line}");
        assert!(text("Crew").contains(&format!("{crew}, {day}\t")), "{crew} {day}");
    }
}

#[test]
fn the_load_of_a_day_is_the_sum_of_its_cards() {
    let (folder, _) = planned(&list(), CREWS, &[]);
    let visits = visits(&folder);
    let page = page(&folder);
    let sections: Vec<&str> = page.split("<section class=\"page load\">").skip(1).collect();
    let mut counted = BTreeMap::new();
    for ((crew, day), made) in days(&visits) {
        let title = format!("<h2>Load list: {crew}, {day}, ");
        let found: Vec<&&str> = sections.iter().filter(|section| section.contains(&title)).collect();
        let [section] = found[..] else { panic!("{} load lists of {crew}, {day}", found.len()) };
        let (load, cards) = section.split_once("</section>").unwrap();
        let figures = |html: &str, name: &str| -> Vec<String> {
            let mark = format!("<b data-figure=\"{name}\">");
            html.split(&mark).skip(1).map(|rest| rest.split("</b>").next().unwrap().to_owned()).collect()
        };
        let steps = |name: &str| -> f64 {
            let steps = cards.split("<ol class=\"steps\">").skip(1).map(|rest| rest.split("</ol>").next().unwrap());
            steps.flat_map(|html| figures(html, name)).map(|said| worth(&said)).sum()
        };
        // What is loaded was rounded up once more, by an eighth at most.
        let mut holds = |name: &'static str, cards: f64| {
            let said = figures(load, name);
            if cards == 0.0 {
                assert!(said.is_empty(), "{crew} {day}: {name} {said:?}, and the cards have none");
                return;
            }
            *counted.entry(name).or_insert(0) += 1;
            let loaded = worth(&said[0]);
            assert!(
                loaded >= cards * (1.0 - 1e-9) && loaded <= cards * 1.126 + 3e-4,
                "{crew} {day}: {name} is {loaded}, the cards have {cards}"
            );
        };
        holds("load_product", steps("amount") + steps("wash"));
        holds("load_agent", steps("agent_amount"));
        holds("load_water", steps("dilution") + steps("wash_water") + steps("agent_water"));
        assert_eq!(figures(load, "load_supply"), [(3 * made.len()).to_string()]);
        assert_eq!(cards.matches("<article ").count(), made.len());
        // Whole containers hold it all with topping up, once a card, and no container is one too many; where the order has none left
        // for this crew, so much is filled from those there are.
        let more: f64 =
            cards.split("<ol class=\"steps\">").skip(1).map(|steps| worth(&figures(steps, "more")[0])).sum();
        let containers = figures(load, "load_containers").remove(0);
        let poured = 1000.0 * (steps("amount") + steps("wash") + more);
        let is_less = containers.contains("Not all of the topping up is there");
        // Cards round up: the last of a depot may find that a cup is missing.
        let missing = containers
            .split_once(" OF WHAT THE CARDS POUR IS NOT THERE")
            .map_or(0.0, |(said, _)| 1000.0 * worth(said.rsplit(". ").next().unwrap()));
        assert!(missing < 1.0, "{crew} {day}: {containers}");
        // Each part with what it holds: whole containers, opened ones, and what is filled from what stays.
        let (mut held, mut least) = (Vec::new(), 0.0_f64);
        for part in containers.split(". ").next().unwrap().split("; ") {
            let liters = |said: &str| 1000.0 * worth(said);
            if let Some((amount, _)) = part.split_once(", filled at the depot from ") {
                held.push(liters(amount));
            } else if let Some((_, left)) = part.split_once(", opened before, about ") {
                held.push(liters(left.split(" left in it").next().unwrap()));
            } else {
                for whole in part.split(" + ") {
                    let (count, size) = whole.split_once(" x ").unwrap();
                    let (count, size): (usize, f64) =
                        (count.parse().unwrap(), size.strip_suffix(" L").unwrap().parse().unwrap());
                    held.extend(std::iter::repeat_n(size, count));
                    least = if least > 0.0 { least.min(size) } else { size };
                }
            }
        }
        let all: f64 = held.iter().sum();
        assert!(all >= poured - 1e-9 || is_less || missing > 0.0, "{containers} for {poured} L");
        assert!(all + missing >= poured - 1000.0 * more - 1e-9, "{containers} does not hold what the cards pour");
        assert!(least == 0.0 || all - least < poured * 1.126 + 0.3, "{containers} for {poured} L");
    }
    for name in ["load_product", "load_agent", "load_water"] {
        assert!(counted[name] > 3, "{counted:?}");
    }
}

#[test]
fn a_day_stays_in_one_corner() {
    // Four villages far from one another, their wells mixed up in the list; a village is a day's work.
    let mut list =
        String::from("Well ID,Depot,Well type,Depth (m),Static level (m),Diameter (mm),Latitude,Longitude\n");
    for at in 0..32_u32 {
        let village = at * 5 % 4;
        let (north, east) = (f64::from(village / 2), f64::from(village % 2));
        let (aside, beside) = (f64::from(at / 4 % 3) * 0.01, f64::from(at / 12) * 0.01);
        list.push_str(&format!(
            "V{village}-{at},Hall,drilled,30,3,150,{},{}\n",
            45.0 + north + aside,
            -30.0 + east + beside
        ));
    }
    let (folder, said) = planned(&list, "[[crew]]\nname = \"red\"\nvisits_per_day = 8\n", &[]);
    let visits = visits(&folder);
    let days = days(&visits);
    assert_eq!(days.len(), 4);
    for (day, made) in days {
        let villages: BTreeSet<&str> = made.iter().map(|row| &row["well_id"][..2]).collect();
        assert_eq!(villages.len(), 1, "{day:?}: {villages:?}");
    }
    assert!(!said.contains("no day;"), "{said}");
    // Where nothing is known of places the order of the list counts.
    let list: String = list.lines().map(|line| line.rsplitn(3, ',').nth(2).unwrap().to_owned() + "\n").collect();
    let (folder, _) = planned(&list, "[[crew]]\nname = \"red\"\nvisits_per_day = 8\n", &[]);
    let turns: Vec<(String, String)> =
        self::visits(&folder).iter().map(|row| (row["crew_day"].clone(), row["crew_stop"].clone())).collect();
    let wanted: Vec<_> = (0..32).map(|at| (format!("day {}", at / 8 + 1), (at % 8 + 1).to_string())).collect();
    let turns: Vec<_> = turns.into_iter().map(|(day, stop)| (day, stop.trim_end_matches(".0").to_owned())).collect();
    assert_eq!(turns, wanted);
}

#[test]
fn the_same_days_on_any_number_of_threads_and_for_any_scenario() {
    let folder = folder();
    place(folder.path(), "list.csv", list());
    let more = "[[scenario]]\nname = \"strong\"\nproduct = \"liquid\"\ntarget_mg_per_l = 200\n\
                [[scenario]]\nname = \"weak\"\nproduct = \"liquid\"\ntarget_mg_per_l = 50\n";
    place(folder.path(), "plan.toml", format!("{HEAD}{CREWS}{more}"));
    for (out, threads, table) in [("1", "1", "csv"), ("2", "2", "csv"), ("5", "5", "csv"), ("parquet", "2", "parquet")]
    {
        let arguments =
            ["plan", "list.csv", "--scenarios", "plan.toml", "--out", out, "--threads", threads, "--table", table];
        run_in(folder.path(), &arguments).ended(1);
    }
    let of = |out: &str| contents(&folder.path().join(out));
    assert!(of("1") == of("2") && of("1") == of("5"));
    assert!(of("1")["crew-sheets.html"] == of("parquet")["crew-sheets.html"]);
    run_in(folder.path(), &["plan", "list.csv", "--scenarios", "plan.toml", "--out", "weak", "--only", "weak"])
        .ended(1);
    let turns = |out: &str| -> Vec<[String; 4]> {
        let rows = rows(&folder.path().join(out).join("visits.csv"));
        rows.iter().map(|row| ["well_id", "crew", "crew_day", "crew_stop"].map(|head| row[head].clone())).collect()
    };
    assert_eq!(turns("1"), turns("weak"));
}

#[test]
fn without_crews_nothing_is_said_of_them() {
    let (folder, said) = planned(&list(), "", &[]);
    let heads = heads(&folder.path().join("out/visits.csv"));
    assert!(!heads.iter().any(|head| head == "crew" || head == "crew_day"), "{heads:?}");
    assert!(!said.contains("days of work") && !said.contains("no day"), "{said}");
    let book = sheets(&folder.path().join("out/campaign.xlsx"));
    assert!(book.iter().all(|(name, _)| name != "Crew days"));
    let page = page(&folder);
    for words in ["in whole containers", "Stops", "stop 1 of"] {
        assert!(!page.contains(words), "{words}");
    }
    let record = std::fs::read_to_string(folder.path().join("out/run.json")).unwrap();
    assert!(!record.contains("visits_without_day"));
}

#[test]
fn a_crew_that_nothing_is_left_for_is_named() {
    let crews = "[[crew]]\nname = \"red\"\nvisits_per_day = 100\n\
                 [[crew]]\nname = \"lost\"\ndepot = \"Mil Lane\"\nvisits_per_day = 4\n\
                 [[crew]]\nname = \"late\"\nvisits_per_day = 100\n";
    let (_, said) = planned(&list(), crews, &[]);
    let said = one_line(&said);
    assert!(
        said.contains("Crew \"lost\" goes out on no day: no visit that is planned has the depot \"Mil Lane\"."),
        "{said}"
    );
    // Three depots of less than a day each are three days: both others go out.
    assert!(!said.contains("\"late\"") && !said.contains("\"red\""), "{said}");
}

#[test]
fn names_of_crews_and_depots_stay_text() {
    let bad = "<script>alert(1)</script>";
    let list = list().replace("Hall", bad).replace("W001", "<b>W001</b>");
    let crews = format!(
        "[[crew]]\nname = \"{bad}\"\nvisits_per_day = 50\n[[crew]]\nname = \"=HYPERLINK(1)\"\ndepot = \"{bad}\"\nvisits_per_day = 4\n"
    );
    let (folder, _) = planned(&list, &crews, &[]);
    for file in ["crew-sheets.html", "report.html"] {
        let html = std::fs::read_to_string(folder.path().join("out").join(file)).unwrap();
        assert!(!html.contains("<script>alert") && !html.contains("<b>W001"), "{file}");
    }
    let page = page(&folder);
    assert!(
        page.contains("Load list: &lt;script&gt;alert(1)&lt;/script&gt;, day 1, "),
        "the name is not shown as it is written"
    );
    assert!(visits(&folder).iter().any(|row| row["crew"] == "'=HYPERLINK(1)"));
    let book = sheets(&folder.path().join("out/campaign.xlsx"));
    let days = &book.iter().find(|(name, _)| name == "Crew days").unwrap().1;
    assert!(days.iter().flatten().any(|cell| *cell == "=HYPERLINK(1)"));
}

/// The notices of a page, each as what is filled in under each label of it and of its tags, which say the same.
fn notices(folder: &TempDir) -> Vec<BTreeMap<String, String>> {
    let page = std::fs::read_to_string(folder.path().join("out/notices.html")).unwrap();
    let plain = |html: &str| html.split('<').map(|part| part.split('>').next_back().unwrap()).collect::<String>();
    let boxes = |html: &str| {
        let boxes = html.split("<div class=\"box\"><span class=\"label\">").skip(1).map(|rest| {
            let (label, rest) = rest.split_once("</span>").unwrap();
            (label.to_owned(), plain(rest.split("</div>").next().unwrap()))
        });
        boxes.collect::<BTreeMap<_, _>>()
    };
    let notices = page.split("<section class=\"page notice\">").skip(1).map(|notice| {
        let (notice, tags) = notice.split_once("<section class=\"page tags\">").unwrap();
        let tags: Vec<_> = tags.split("<div class=\"tag\">").skip(1).map(boxes).collect();
        assert_eq!(tags.len(), 4);
        assert!(tags.iter().all(|tag| *tag == tags[0]));
        let mut filled = boxes(notice);
        filled.extend(tags[0].iter().map(|(label, text)| (format!("tag: {label}"), text.clone())));
        filled
    });
    notices.collect()
}

#[test]
fn dates_that_are_planned_stand_on_card_notice_and_tag() {
    // Poured on the 26th of February of a leap year: the contact time of 36 h ends on the 28th where work begins late, the flush of a
    // well without a rate takes no time that is known, seven days later is the first sample, thirty after it the second.
    let head = "Well ID,Depot,Well type,Depth (m),Static level (m),Diameter (mm)\n";
    let list = format!("{head}A,Hall,drilled,30,3,150\nB,Hall,dug,8,3,900\nC,Barn,drilled,30,3,150\n");
    let crews = "[[crew]]\nname = \"red\"\ndepot = \"Hall\"\nvisits_per_day = 2\nfirst_day = 2028-02-26\n\
                 [[crew]]\nname = \"blue\"\ndepot = \"Barn\"\nvisits_per_day = 2\n";
    for (hold, ends, sample, second) in [
        (36, "2028-02-28", "2028-03-06", "2028-04-05"),
        (24, "2028-02-27", "2028-03-05", "2028-04-04"),
        (8, "2028-02-26", "2028-03-05", "2028-04-04"),
    ] {
        let folder = folder();
        place(folder.path(), "list.csv", &list);
        let held = HEAD.replace("[practice]\n", &format!("[practice]\nhold_hours = {hold}\n"));
        place(folder.path(), "plan.toml", format!("{held}{crews}"));
        for (language, planned, of_box) in [("en", "planned", "planned, or:"), ("es", "previsto", "previsto, o:")] {
            let arguments =
                ["plan", "list.csv", "--scenarios", "plan.toml", "--out", "out", "--language", language, "--replace"];
            run_in(folder.path(), &arguments).ended(0);
            let page = page(&folder);
            let card = |well: &str| {
                let rest = page.split(&format!("data-well=\"{well}\"")).nth(1).unwrap();
                rest.split("</article>").next().unwrap().to_owned()
            };
            for well in ["A", "B"] {
                let card = card(well);
                let figure = |name: &str, date: &str| format!("<b data-figure=\"{name}\">{date}</b>");
                // Room for another date stands beside the planned one.
                let hour = "<span class=\"room reading\"></span> h";
                let until = format!("{}, {hour} ({planned}; ", figure("planned", ends));
                assert!(card.contains(&until), "{hold} {well}: {card}");
                let (_, after) = card.split_once(&figure("planned", ends)).unwrap();
                assert!(after.split("</li>").next().unwrap().contains("class=\"room moment\""), "{card}");
                assert!(card.contains(&format!("{planned} {}, ", figure("sample_first", sample))), "{card}");
                assert!(card.contains(&figure("sample_second", second)), "{card}");
            }
            // A crew without a first day has no dates.
            let without = card("C");
            assert!(!without.contains(planned) && without.contains("class=\"room moment\""), "{without}");

            let notices = notices(&folder);
            assert_eq!(notices.len(), 3, "a blank one, and one for each visit with a date");
            assert!(notices[0].values().all(String::is_empty), "{:?}", notices[0]);
            for (notice, well) in notices[1..].iter().zip(["A", "B"]) {
                let mut filled: Vec<&str> =
                    notice.values().map(String::as_str).filter(|text| !text.is_empty()).collect();
                filled.sort_unstable();
                let (from, until) = (format!("2028-02-26 {of_box}"), format!("{sample} {of_box}"));
                let wanted: [&str; 7] = [&from, &from, &until, &until, &until, well, well];
                assert_eq!(filled, wanted, "{notice:?}");
            }
        }
    }
}

#[test]
fn a_column_of_the_list_that_is_called_as_ours_is_renamed() {
    let list = list();
    let mut lines = list.lines();
    let first = lines.next().unwrap();
    let list = format!("{first},crew\n{}", lines.map(|line| format!("{line},theirs\n")).collect::<String>());
    let (folder, _) = planned(&list, CREWS, &[]);
    let row = &visits(&folder)[0];
    assert_eq!(row["crew (list)"], "theirs");
    assert_ne!(row["crew"], "theirs");
}

#[test]
fn faults_of_crews_are_told_at_once_with_their_lines() {
    let folder = folder();
    place(folder.path(), "list.csv", list());
    let crews = "[[crew]]\nname = \"red\"\n[[crew]]\nname = \"RED\"\nvisits_per_day = 0\n[[crew]]\nvisits_per_day = 2.5\nfirst_day = \"soon\"\n\
                 days = -1\ncolour = \"red\"\n";
    let text = format!("{HEAD}{crews}");
    let line = |wanted: &str| text.lines().position(|line| line == wanted).unwrap() + 1;
    place(folder.path(), "plan.toml", &text);
    let said = run_in(folder.path(), &["check", "list.csv", "--scenarios", "plan.toml"]).ended(2).err;
    let faults = [
        (line("[[crew]]"), "[[crew]] needs `visits_per_day`"),
        (line("name = \"RED\""), "a second crew named \"RED\""),
        (line("visits_per_day = 0"), "`visits_per_day` must be from 1 to 1000, not 0"),
        (line("visits_per_day = 2.5"), "`visits_per_day` counts whole things"),
        (line("first_day = \"soon\""), "`first_day` must be a date such as 2026-05-31"),
        (line("days = -1"), "`days` must be from 1 to 3660, not -1"),
        (line("colour = \"red\""), "unknown key `colour` in [[crew]]"),
    ];
    for (line, says) in faults {
        assert!(said.contains(says), "{says:?} is not in {said}");
        assert!(said.contains(&format!(":{line}:")) || said.contains(&format!("line {line}")), "line {line}: {said}");
    }
    assert!(one_line(&said).contains("[[crew]] needs `name`"), "{said}");
}

#[test]
fn what_is_piped_in_cannot_be_read_twice() {
    let folder = folder();
    place(folder.path(), "list.csv", list());
    place(folder.path(), "plan.toml", format!("{HEAD}{CREWS}"));
    let mut command = command();
    command.current_dir(folder.path()).args(["plan", "-", "--scenarios", "plan.toml", "--out", "out"]);
    command.stdin(std::fs::File::open(folder.path().join("list.csv")).unwrap());
    let said = answer(&mut command).ended(2).err;
    assert!(one_line(&said).contains("crews need the lists to be read twice"), "{said}");
    assert!(!Path::new(&folder.path().join("out")).exists());
}
