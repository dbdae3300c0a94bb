//! What a list says beside the dose: it reaches every output; words that change what a person does are found, and what was
//! taken by default is said first.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use aftercrest::hazard::{ENTRIES, find};

use crate::running::{folder, heads, number, place, root, rows, run, sheets};

/// Texts as people write them, and the flags that they raise. Common practice, no source; the words are those of field notes.
const TEXTS: &[(&str, &str)] = &[
    ("smells of fuel, ask before treating", "fuel"),
    ("No fuel smell", ""),
    ("no sign of oil or gasoline", ""),
    ("no dogs", ""),
    ("not locked", ""),
    ("isn't buried", ""),
    ("fuel: none", ""),
    ("Dog? No", ""),
    ("oil not seen", ""),
    ("free of oil", ""),
    ("free oil on the water", "fuel"),
    ("dog is friendly", "dog"),
    ("No cap, dog in the yard", "uncovered dog"),
    ("no cap or dog", "uncovered dog"),
    ("no access because of the dogs", "not-found dog"),
    ("no, dog loose", "dog"),
    ("Dog: no access", "not-found dog"),
    ("can't find it", "not-found"),
    ("couldn't find the well", "not-found"),
    ("electric pump, new", ""),
    ("ELECTRIC WIRES DOWN", "electric"),
    ("dog leg at 40 ft", ""),
    ("open hole 60 to 200 ft", ""),
    ("open hole below casing", ""),
    ("open hole in the yard", "uncovered"),
    ("oil lubricated pump", ""),
    ("diesel pump leaking", "fuel"),
    ("Oil City Road 12", ""),
    ("Snake Creek", ""),
    ("boiler, dogwood tree, keyhole", ""),
    ("well shocked in 2019", ""),
    ("chemical feed pump", ""),
    ("pesticides test positive", "chemicals"),
    ("septic tank overflowed", "sewage"),
    ("septic in back", ""),
    ("young mother, newborn; grandfather on home dialysis", "infant-or-pregnant patient"),
    ("casing cracked, lid missing, dead rat in it", "damaged uncovered dead-animal"),
    ("wasps under the cap", "stings-or-bites"),
    ("smells like gas", "gas"),
    ("gate code 4471, call first", "locked"),
    ("key with neighbour", "locked"),
    ("hay perro, sin tapa, huele a gas", "gas uncovered dog"),
    ("sin perro", ""),
    ("pas de chien", ""),
    ("chien méchant, fuite de mazout", "fuel dog"),
    ("cão solto; mulher grávida", "infant-or-pregnant dog"),
    ("kein Hund", ""),
    ("still flooded", "under-water"),
    ("under water still, come back in June", "under-water"),
    ("no longer under water", ""),
    ("not still flooded", ""),
    ("under water in 2019", ""),
    ("pump shorted out", "electric"),
    ("dead raccoon in well", "dead-animal"),
    ("saw cattle drown in well", "dead-animal"),
    ("no dead raccoon", ""),
    ("weed spray stored beside it, glyphosate", "chemicals"),
    ("used weed killer by the wellhead", "chemicals"),
    ("owner has cancer", "patient"),
    ("nursing home, 40 beds", "patient"),
    ("daycare", "infant-or-pregnant"),
    ("flows over the top", "flowing"),
    ("flowing artesian well", "flowing"),
    ("artesian aquifer below 300 ft", ""),
    ("not artesian", ""),
    ("flowing sand at 60 ft", ""),
    ("sea water got in", "seawater"),
    ("storm surge over the well", "seawater"),
    ("tsunami", "seawater"),
    ("salt water in well", "seawater"),
    ("brackish after flood", "seawater"),
    ("no salt water", ""),
    ("salt water pool in the yard", ""),
    ("Ocean View Road", ""),
    ("agua de mar en el pozo", "seawater"),
    ("HEIZÖL im Wasser, Hund", "fuel dog"),
    ("electric panel under water", "electric"),
    ("electrical box flooded", "electric"),
    ("electric pump, new, in the flooded barn", ""),
    ("electric panel in the house", ""),
    ("power line on ground", "electric"),
    ("cant find", "not-found"),
    ("not found", "not-found"),
    ("well not found", "not-found"),
    ("oil not found", ""),
    ("caving in", "damaged"),
    ("caving sand at 60 ft", ""),
    ("diesl smell", "fuel"),
    ("Deisel in the pit", "fuel pit"),
    ("propane tank floating", "gas"),
    ("LP tank tipped over", "gas"),
    ("casing broke", "damaged"),
    ("oxygen concentrator in house", "patient"),
    ("chemical free", ""),
    ("baby grand piano", ""),
    ("owner Mr Baby", ""),
    ("Mr. Baby", ""),
    ("baby next door", "infant-or-pregnant"),
    // Electrical things under water; those that stayed dry are none.
    ("ELEC PANEL UNDER WATER", "electric"),
    ("Breaker box got wet", "electric"),
    ("water in the fuse box", "electric"),
    ("control box was under water two days", "electric"),
    ("tablero inundado", "electric"),
    ("coffret électrique sous l'eau", "electric"),
    ("quadro de luz alagado", "electric"),
    ("panel stayed dry", ""),
    ("panel was not flooded", ""),
    ("no water in the panel", ""),
    ("new panel in the barn", ""),
    // Pits of wells, and those of other things.
    ("pit, cover was off", "pit uncovered"),
    ("Well in a pit behind the garage", "pit"),
    ("WELL PIT FULL OF WATER", "pit"),
    ("pozo en una fosa", "pit"),
    ("puits dans une fosse", "pit"),
    ("poço em um fosso", "pit"),
    ("not in a pit", ""),
    ("no pit", ""),
    ("Pit? No", ""),
    ("pitless adapter", ""),
    ("118 Gravel Pit Road", ""),
    ("next to the gravel pit", ""),
    ("60 m from pit latrine", "sewage"),
    ("fosa séptica nueva", "sewage"),
    // Caps, lids, covers and seals.
    ("lid is off", "uncovered"),
    ("Lid: missing", "uncovered"),
    ("SANITARY SEAL CRACKED", "uncovered"),
    ("needs new cap", "uncovered"),
    ("well cap came loose", "uncovered"),
    ("la tapa está rota", "uncovered"),
    ("couvercle cassé", "uncovered"),
    ("tampa rachada", "uncovered"),
    ("lid is on", ""),
    ("cap is not cracked", ""),
    ("does not need a new cap", ""),
    ("new cap fitted in May", ""),
    ("SEAL WITNESSED", ""),
    // Who needs oxygen.
    ("oxygen patient, priority", "patient"),
    ("elderly, uses oxygen", "patient"),
    ("paciente con oxígeno", "patient"),
    ("please be patient", ""),
    // Roads.
    ("cannot drive in before road reopens", "road-closed"),
    ("Road is closed at the bridge", "road-closed"),
    ("bridge washed out", "road-closed"),
    ("driveway under water", "road-closed"),
    ("camino cerrado", "road-closed"),
    ("route coupée", "road-closed"),
    ("estrada alagada", "road-closed"),
    ("road open", ""),
    ("road is open again", ""),
    ("road not flooded", ""),
    ("flooded road ditch", ""),
    ("cannot get in touch with owner", ""),
    // Power, and pumps that do not run.
    ("no power", "cannot-pump"),
    ("No power yet", "cannot-pump"),
    ("power is out", "cannot-pump"),
    ("power has not been restored", "cannot-pump"),
    ("pump won't run", "cannot-pump"),
    ("needs a generator", "cannot-pump"),
    ("sin luz desde el viernes", "cannot-pump"),
    ("pas d'électricité", "cannot-pump"),
    ("sem energia", "cannot-pump"),
    ("has power", ""),
    ("power is on", ""),
    ("power not out", ""),
    ("no power problems", ""),
    ("no power lines down", ""),
    ("no electric pump", ""),
    ("pump not broken", ""),
    ("static level, pump not running", ""),
    // Flows.
    ("runs out the overflow all winter", "flowing"),
    ("flows yr round", "flowing"),
    ("never runs out the overflow", ""),
];

#[test]
fn words_raise_the_flags_that_a_person_would_raise() {
    let mut failures = String::new();
    for (text, expected) in TEXTS {
        let mut hazards = aftercrest::hazard::Hazards::default();
        for hit in find(text) {
            hazards.add(hit.hazard);
        }
        if hazards.words() != *expected {
            writeln!(failures, "{text:?}: {:?}, expected {expected:?}", hazards.words()).unwrap();
        }
    }
    assert!(failures.is_empty(), "\n{failures}");
}

/// A name is made of any words: one counts only behind it. Common practice, no source.
#[test]
fn words_behind_a_name_raise_flags_and_names_do_not() {
    for (name, expected) in [
        ("1 (dialysis, gate locked)", "patient locked"),
        ("North (wires down)", "electric"),
        ("North - dog", "dog"),
        ("Dog Hill 4", ""),
        ("Oil Depot", ""),
        ("Sunny Nursing Home", "patient"),
        ("Baby Farm", ""),
    ] {
        let mut hazards = aftercrest::hazard::Hazards::default();
        aftercrest::hazard::find_in_name(name).iter().for_each(|hit| {
            hazards.add(hit.hazard);
        });
        assert_eq!(hazards.words(), expected, "{name}");
    }
}

/// "Water contaminated with fuel or toxic chemicals will not be made safe by boiling or disinfection … contact your local health
/// department" (US CDC, Private Drinking Water Wells).
#[test]
fn fuel_and_chemicals_are_not_treated_as_usual() {
    for word in ["fuel", "chemicals"] {
        let page = run(&["explain", word]).ended(0).out.replace('\n', " ");
        for said in ["Do not treat this well as usual", "does not remove", "health department", "US CDC"] {
            assert!(page.contains(said), "{word}: {page}");
        }
    }
    for entry in &ENTRIES {
        run(&["explain", entry.word]).ended(0);
    }
}

const LIST: &str = "\
well_id,well_type,depth (ft),water level (ft),diameter (in),outside diameter (in),wall (in),stick up (ft),ground elevation (ft),\
latitude,longitude,flooded,users,status,notes,casing,seawater,Dog?,Contact
W1,drilled,180,40,6,6.625,0.28,1.5,820,45.25,-30.5,yes,4,in use,\"smells of fuel; oil sheen on the water\",steel,no,no,\"Baby in house\"
W2,drilled,,40,6,,,,,45.5,-30.25,no,7,could not locate,home dialysis,PVC,yes,yes,
W3,drilled,120,30,6,,,,,,,partly,about twelve,,quiet place,,,no,
W4,drilled,180 ft wires down here,40,6 (locked cap),,,,,,,yes sewage came in,,,,,,no,
";

#[test]
fn everything_that_a_list_says_reaches_every_output() {
    let folder = folder();
    let list = place(folder.path(), "wells.csv", LIST);
    let out = folder.path().join("campaign");
    let scenarios = root().join("scenarios/minimal.toml");
    let ran = run(&[
        "plan".as_ref(),
        list.as_os_str(),
        "--scenarios".as_ref(),
        scenarios.as_os_str(),
        "--table".as_ref(),
        "csv".as_ref(),
        "--out".as_ref(),
        out.as_os_str(),
    ])
    .ended(1);

    let table = out.join("treatments.csv");
    let made = rows(&table);
    let by_id = |id: &str| made.iter().find(|row| row["well_id"] == id).unwrap_or_else(|| panic!("{id}"));
    let (planned, held) = (by_id("W1"), by_id("W2"));
    assert_eq!((&*planned["outcome"], &*held["outcome"]), ("planned", "held_back"));
    for (column, one, two) in [
        ("notes", "smells of fuel; oil sheen on the water", "home dialysis"),
        ("status", "in use", "could not locate"),
        ("flooded", "yes", "no"),
        ("seawater", "no", "yes"),
        ("casing_material", "steel", "PVC"),
        ("Contact", "Baby in house", ""),
        ("Dog?", "no", "yes"),
        ("crew_flags", "fuel infant-or-pregnant", "patient not-found dog"),
    ] {
        assert_eq!((&*planned[column], &*held[column]), (one, two), "{column}");
    }
    // Inch and foot: 25.4 mm and 0.3048 m by definition.
    for (column, one, two) in [
        ("users_served", 4.0, 7.0),
        ("latitude_deg", 45.25, 45.5),
        ("longitude_deg", -30.5, -30.25),
        ("stick_up_m", 1.5 * 0.3048, f64::NAN),
        ("ground_elevation_m", 820.0 * 0.3048, f64::NAN),
        ("casing_outside_diameter_mm", 6.625 * 25.4, f64::NAN),
        ("wall_thickness_mm", 0.28 * 25.4, f64::NAN),
    ] {
        for (row, wanted) in [(planned, one), (held, two)] {
            let found = number(row, column);
            let same = found.is_nan() && wanted.is_nan() || (found - wanted).abs() <= 1e-9 * wanted.abs();
            assert!(same, "{column}: {found}, not {wanted}");
        }
    }
    assert_eq!(by_id("W3")["crew_flags"], "");
    // What no field could take is not lost either.
    assert_eq!(by_id("W3")["not_understood"], "flooded: partly; users: about twelve");
    assert_eq!((&*by_id("W3")["flooded"], &*by_id("W3")["users_served"]), ("", ""));
    // Nor what a field took in part: the number, the yes.
    let in_part = "depth (ft): wires down here; diameter (in): locked cap; flooded: sewage came in";
    assert_eq!(by_id("W4")["not_understood"], in_part);
    assert_eq!((&*by_id("W4")["crew_flags"], &*by_id("W4")["flooded"]), ("electric sewage locked", "yes"));
    let cards = std::fs::read_to_string(out.join("crew-sheets.html")).unwrap();
    assert!(cards.contains("depth (ft): wires down here"), "the card");
    assert!(heads(&out.join("visits.csv")).iter().any(|head| head == "crew_flags"));

    // Once a row, each to be checked, with the place of the words.
    let found = rows(&out.join("findings.csv"));
    let site: Vec<(&str, &str, &str)> = found
        .iter()
        .filter(|row| row["code"].starts_with('S'))
        .map(|row| (&*row["well_id"], &*row["code"], &*row["heading"]))
        .collect();
    let expected = [
        ("W1", "S603", "notes"),
        ("W1", "S609", "Contact"),
        ("W2", "S611", "status"),
        ("W2", "S610", "notes"),
        ("W2", "S613", "Dog?"),
        ("W4", "S601", "depth (ft)"),
        ("W4", "S612", "diameter (in)"),
        ("W4", "S607", "flooded"),
    ];
    assert_eq!(site, expected);
    assert!(found.iter().filter(|row| row["code"].starts_with('S')).all(|row| row["severity"] == "check"));

    let book = sheets(&out.join("campaign.xlsx"));
    let text_of = |name: &str| {
        let (_, rows) = book.iter().find(|(sheet, _)| sheet == name).unwrap_or_else(|| panic!("no sheet {name}"));
        rows.iter().flatten().map(|cell| format!("{cell}\n")).collect::<String>()
    };
    // What is held back stands on a sheet of its own, so that nothing of it stands below the heading of an amount.
    for sheet in ["Wells", "Crew"] {
        let text = text_of(sheet) + &if sheet == "Crew" { text_of("Held back") } else { String::new() };
        for said in [
            "oil sheen on the water",
            "home dialysis",
            "fuel infant-or-pregnant",
            "patient not-found dog",
            "Users",
            "flooded: partly",
            "depth (ft): wires down here",
            "diameter (in): locked cap",
            "flooded: sewage came in",
        ] {
            assert!(text.contains(said), "{sheet} does not say {said:?}");
        }
    }
    // The crew is told what to do, on the sheet it takes along and among the cautions.
    for sheet in ["Crew", "Cautions", "Summary"] {
        assert!(text_of(sheet).contains("chlorine does not remove fuel"), "{sheet}");
        assert!(text_of(sheet).contains("Leave other safe water"), "{sheet}");
    }
    let said = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("fuel 1") && said.contains("patient 1"), "{said}");

    // What a list reports is no mistake in the list: nothing of it goes out as work for corrections.
    let todo = folder.path().join("todo.xlsx");
    run(&[
        "check".as_ref(),
        list.as_os_str(),
        "--units".as_ref(),
        "us".as_ref(),
        "--corrections-out".as_ref(),
        todo.as_os_str(),
    ])
    .ended(1);
    let work = sheets(&todo);
    assert!(!work.iter().flat_map(|(_, rows)| rows.iter().flatten()).any(|cell| cell.to_string().contains("dialysis")));
}

#[test]
fn explain_tells_the_crew_of_a_visit_that_is_held_back() {
    let folder = folder();
    let list = place(folder.path(), "wells.csv", LIST);
    let scenarios = root().join("scenarios/minimal.toml");
    for (id, said) in [("W1", "- fuel: Do not treat this well as usual"), ("W2", "- patient: Call before you treat")] {
        let answer = run(&[
            "explain".as_ref(),
            "--well".as_ref(),
            id.as_ref(),
            "--scenarios".as_ref(),
            scenarios.as_os_str(),
            list.as_os_str(),
        ])
        .ended(0);
        assert!(answer.out.contains(said), "{}", answer.out);
    }
}

/// What an answer says under `By default`.
fn by_default(arguments: &[&str]) -> Vec<String> {
    let mut arguments = arguments.to_vec();
    arguments.push("--json");
    let answer = run(&arguments).ended(0);
    let message: serde_json::Value = serde_json::from_str(&answer.out).unwrap();
    message["taken_by_default"].as_array().unwrap().iter().map(|line| line.as_str().unwrap().to_owned()).collect()
}

/// The number behind a phrase.
fn number_after(text: &str, phrase: &str) -> f64 {
    let rest = text.split_once(phrase).unwrap_or_else(|| panic!("{phrase:?} is not in {text:?}")).1;
    let end = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
    rest[..end].parse().unwrap_or_else(|_| panic!("no number behind {phrase:?} in {text:?}"))
}

const DRIVEN: [&str; 7] =
    ["well", "--type", "driven", "--water-column=15 ft", "--diameter=2 in", "--product=liquid 12.5", "--target=100"];

#[test]
fn what_was_taken_by_default_is_said_right_below_the_amount() {
    let first = run(&DRIVEN).ended(0).out;
    // One line with the amount, and right below it what it rests on.
    let lines: Vec<&str> = first.lines().collect();
    assert!(lines[0].starts_with("Measure out   "), "{first}");
    assert!(lines[1].starts_with("By default    No age is given for liquid 12.5"), "{first}");
    let (before, _) = first.split_once("\nSteps").unwrap();
    for said in ["No plumbing", "Nothing was measured", "No allowance"] {
        assert!(before.contains(said), "{said} does not come before the steps:\n{first}");
    }
    // Without a pH nothing rests on the temperature.
    assert!(!before.contains("No water temperature"), "{first}");

    let said = by_default(&DRIVEN);
    // The published table of bleach kept at 75 F (fixtures/published/aging_table.csv): 12.5 % is 9.33 % after 61 days, a loss of
    // 25.4 %. The law used and the table differ by a few points, within the band of paces.
    let lost = number_after(&said[0], "lost ");
    assert!((lost - 25.4).abs() < 5.0, "{}", said[0]);
    let more = number_after(&said[0], "pour +");
    assert!((more - (100.0 / (1.0 - lost / 100.0) - 100.0)).abs() < 1.5, "{}", said[0]);
    // 15 ft of 2 in are 2.45 US gal (0.1632 gal/ft); in 80 gal more what was poured is that much thinner, whatever was poured.
    let poured: serde_json::Value = {
        let mut arguments = DRIVEN.to_vec();
        arguments.push("--json");
        serde_json::from_str(&run(&arguments).ended(0).out).unwrap()
    };
    let gallons = 15.0 * 0.1632;
    let thin = poured["measured_dose_mg_per_l"].as_f64().unwrap() * gallons / (gallons + 80.0);
    let told = number_after(&said[1], "this amount gives ");
    assert!((told - thin).abs() < 0.1, "{}: by hand {thin}", said[1]);
    // 5 mg/L of iron take 0.635 mg/mg each (71/2/55.85, stoichiometry): 3.2 mg/L of 100.
    let iron = number_after(&said[2], "would take +");
    assert!((iron - 3.2).abs() < 0.1, "{}", said[2]);
    // Twice the water takes twice the chlorine.
    assert!((number_after(&said[3], "would take +") - 100.0).abs() < 0.1, "{}", said[3]);
}

/// The cards say the defaults of the prompt, with its figures, in the crew's language; a rule that states one for some wells is
/// known there.
#[test]
fn cards_say_what_was_taken_by_default_as_the_prompt_does() {
    let folder = folder();
    let list = "Well,Type,Water column (ft),Diameter (in),pH,Alkalinity (mg/L),Iron (mg/L),Yard\n\
                point,driven,15,2,7.2,100,,no\nyard,driven,15,2,7.2,100,4,yes\n";
    let list = place(folder.path(), "wells.csv", list);
    let scenarios = place(
        folder.path(),
        "bare.toml",
        "[campaign]\nunits = \"us\"\n[[product]]\nname = \"liquid\"\nchemical = \"sodium_hypochlorite\"\n\
         strength = { percent = 12.5, basis = \"trade\" }\n\
         [[override]]\nwhere = \"Yard = 'yes'\"\nset = { plumbing_volume = \"20 gal\", volume_allowance = 1.2 }\n",
    );
    let prompt = by_default(&[
        "well",
        "--type",
        "driven",
        "--water-column=15 ft",
        "--diameter=2 in",
        "--ph=7.2",
        "--alkalinity=100",
        "--strength=12.5",
        "--basis=trade",
        "--target=100",
    ]);
    let figure = |line: usize, phrase: &str| number_after(&prompt[line], phrase);
    for (language, [age, plumbing, demand, allowance, water]) in [
        (
            "en",
            [
                format!("fresh product (60 days, 75 °F: +{} %)", figure(0, "pour +")),
                format!("no plumbing (80 gallons: {} times as much)", figure(1, "including them takes ")),
                format!("no demand (5 mg/L of iron: +{} %)", figure(2, "would take +")),
                format!("1 x the water (2 x: +{} %)", figure(3, "would take +")),
                "water of 53.6 °F (40 °F: pH ".to_owned(),
            ],
        ),
        (
            "es",
            [
                format!("producto nuevo (60 días, 75 °F: +{} %)", figure(0, "pour +")),
                format!("sin tuberías (80 galones: {} veces la cantidad)", figure(1, "including them takes ")),
                format!("sin demanda (5 mg/L de hierro: +{} %)", figure(2, "would take +")),
                format!("1 x el agua (2 x: +{} %)", figure(3, "would take +")),
                "agua a 53.6 °F (40 °F: pH ".to_owned(),
            ],
        ),
    ] {
        let out = folder.path().join(language);
        let mut arguments = vec!["plan".as_ref(), list.as_os_str(), "--scenarios".as_ref(), scenarios.as_os_str()];
        arguments.extend(["--language".as_ref(), language.as_ref(), "--out".as_ref(), out.as_os_str()]);
        run(&arguments).ended(0);
        let page = std::fs::read_to_string(out.join("crew-sheets.html")).unwrap();
        let card = |id: &str| {
            let from = page.split_once(&format!("data-well=\"{id}\"")).unwrap().1;
            crate::crew::text(from.split("</article>").next().unwrap())
        };
        let (point, yard) = (card("point"), card("yard"));
        for said in [&age, &plumbing, &demand, &allowance, &water] {
            assert!(point.contains(said.as_str()), "{said}: {point}");
        }
        // What the list or the rule gives of the other well is not said to be missing.
        for said in [plumbing.split(" (").next().unwrap(), demand.split(" (").next().unwrap(), "(2 x:"] {
            assert!(!yard.contains(said), "{said}: {yard}");
        }
        assert!(yard.contains(age.as_str()) && yard.contains(water.as_str()), "{yard}");
    }
    // A card of one well says it as well.
    let file = folder.path().join("card.html");
    let mut arguments = DRIVEN.to_vec();
    arguments.extend(["--card", file.to_str().unwrap()]);
    run(&arguments).ended(0);
    let card = crate::crew::text(&std::fs::read_to_string(&file).unwrap());
    assert!(card.contains("By default: fresh product (60 days"), "{card}");
}

#[test]
fn what_is_given_is_not_said_to_be_missing() {
    let folder = folder();
    let scenarios = place(
        folder.path(),
        "practice.toml",
        "[campaign]\nunits = \"us\"\n[practice]\nvolume_allowance = 1.0\nplumbing_volume = \"0 gal\"\ndemand_mg_per_l = 0\n\
         [[product]]\nname = \"mine\"\nchemical = \"sodium_hypochlorite\"\nstrength = { percent = 6, basis = \"weight_naocl\" }\n\
         age_days = 10\nstorage = \"20 C\"\n",
    );
    let scenarios = scenarios.to_str().unwrap();
    let said =
        by_default(&["well", "--water-column=15 ft", "--diameter=6 in", "--product=mine", "--scenarios", scenarios]);
    assert!(said.is_empty(), "{said:?}");
    // With pH and alkalinity the temperature has a part in the answer.
    let arguments =
        ["well", "--water-column=15 ft", "--diameter=6 in", "--product=mine", "--ph=7.2", "--alkalinity=100"];
    let said = by_default(&[&arguments[..], &["--scenarios", scenarios][..]].concat());
    assert!(said.len() == 1 && said[0].starts_with("No water temperature is given: 53.6 °F"), "{said:?}");
}

#[test]
fn a_list_says_how_many_visits_rest_on_defaults() {
    let folder = folder();
    let list = place(folder.path(), "wells.csv", LIST);
    let out = folder.path().join("campaign");
    let scenarios = place(
        folder.path(),
        "young.toml",
        "[campaign]\nunits = \"us\"\n[[product]]\nname = \"liquid\"\nchemical = \"sodium_hypochlorite\"\n\
         strength = { percent = 12.5, basis = \"trade\" }\n",
    );
    let arguments =
        [list.as_os_str(), "--scenarios".as_ref(), scenarios.as_os_str(), "--out".as_ref(), out.as_os_str()];
    let ran = run(&[&[std::ffi::OsStr::new("plan")][..], &arguments[..]].concat()).ended(1);
    let said = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    let book = sheets(&out.join("campaign.xlsx"));
    let head = |name: &str| {
        let (_, rows) = book.iter().find(|(sheet, _)| sheet == name).unwrap();
        rows.iter().take(20).flatten().map(|cell| format!("{cell} ")).collect::<String>()
    };
    for phrase in [
        "No age is given for liquid",
        "3 of 3 planned visits give no plumbing: none is included",
        "3 of 3 planned visits have nothing measured that uses up chlorine",
        "No allowance is given",
    ] {
        for (place, text) in [("the answer", &said), ("Summary", &head("Summary")), ("Crew", &head("Crew"))] {
            assert!(text.contains(phrase), "{place} does not say {phrase:?}: {text}");
        }
    }
}

/// The treatments and the cards of a list under the smallest scenario.
fn planned(list: &str) -> (Vec<crate::running::Row>, Vec<String>) {
    let folder = folder();
    let list = place(folder.path(), "wells.csv", list);
    let out = folder.path().join("campaign");
    let scenarios = root().join("scenarios/minimal.toml");
    let mut arguments = vec!["plan".as_ref(), list.as_os_str(), "--scenarios".as_ref(), scenarios.as_os_str()];
    arguments.extend(["--table".as_ref(), "csv".as_ref(), "--out".as_ref(), out.as_os_str()]);
    run(&arguments).ended(0);
    let page = std::fs::read_to_string(out.join("crew-sheets.html")).unwrap();
    // In the order of the wells: pages hold them in that of their length.
    let mut cards: Vec<String> = page.split("<article ").skip(1).map(str::to_owned).collect();
    let well =
        |card: &String| card.split_once("data-well=\"").map(|(_, rest)| rest.split('"').next().map(str::to_owned));
    cards.sort_by_key(well);
    (rows(&out.join("treatments.csv")), cards)
}

const PROMPT: [&str; 7] = ["well", "--strength", "12.5", "--basis", "trade", "--diameter", "6 in"];

#[test]
fn a_well_that_flows_is_no_still_one_however_that_is_written() {
    let list = "well_id,well_type,depth (ft),water level (ft),diameter (in),route,notes\n\
                A,drilled,180,flowing,6,land,\nB,drilled,180,artesian,6,land,\nC,drilled,180,-4,6,land,\n\
                D,drilled,180,0,6,land,flows over the top\nE,artesian,180,0,6,land,\n\
                F,artesian,180,40,6,land,\nG,drilled,180,40,6,land,\n";
    let (rows, cards) = planned(list);
    for (row, card) in rows.iter().zip(&cards) {
        let flows = "ABCDE".contains(&row["well_id"]);
        assert_eq!(row["cautions"].contains("flowing-well"), flows, "{row:?}");
        assert_eq!(card.contains("Stop the flow"), flows, "{card}");
        assert_eq!(card.contains("flows over") || card.contains("above ground"), flows, "{card}");
    }
    let said = |more: &[&str]| run(&[&PROMPT[..], &["--depth", "180 ft", "--short"], more].concat()).ended(0).out;
    for more in [
        &["--water-level", "flowing"][..],
        &["--water-level", "artesian"],
        &["--water-level", "-4 ft"],
        &["--water-level", "0 ft", "--notes", "flows over the top"],
        &["--water-level", "0 ft", "--type", "artesian"],
    ] {
        let said = said(more);
        assert!(said.contains("Stop the flow") && said.contains("The well flows by itself"), "{said}");
    }
    let still = said(&["--water-level", "40 ft", "--type", "artesian"]);
    assert!(!still.contains("Stop the flow"), "{still}");
}

#[test]
fn sea_water_in_a_remark_is_sea_water() {
    let list = "well_id,well_type,depth (ft),water level (ft),diameter (in),route,notes\n\
                A,dug,30,12,36,land,sea water got in\nB,dug,30,12,36,land,storm surge over the well\n\
                C,dug,30,12,36,land,tsunami\nD,dug,30,12,36,land,salt water in well\n\
                E,dug,30,12,36,land,brackish after flood\nF,dug,30,12,36,land,no sea water\n";
    let (rows, cards) = planned(list);
    for (row, card) in rows.iter().zip(&cards) {
        let sea = row["well_id"] != *"F";
        assert_eq!(row["flush_method"] == *"mixed_tank", sea, "{row:?}");
        assert_eq!(row["cautions"].contains("seawater-do-not-empty"), sea, "{row:?}");
        assert_eq!(row["crew_flags"].contains("seawater"), sea, "{row:?}");
        assert_eq!((&*row["seawater"], card.contains("Pump slowly")), (if sea { "yes" } else { "" }, sea), "{card}");
    }
    let dug = [&PROMPT[..5], &["--type", "dug", "--diameter", "36 in", "--depth", "30 ft", "--water-level", "12 ft"]]
        .concat();
    let plain = run(&dug).ended(0).out;
    assert!(plain.contains("times"), "{plain}");
    for more in [&["--notes", "sea water got in"][..], &["--seawater"]] {
        let said = run(&[&dug[..], more].concat()).ended(0).out;
        assert!(said.contains("Seawater got in") && !said.contains("expected"), "{said}");
    }
}

/// A crew that is sent to a well under water is told to wait, above everything else.
#[test]
fn a_well_under_water_stops_the_crew() {
    let list = "well_id,well_type,depth (ft),water level (ft),diameter (in),route,notes\n\
                A,drilled,180,40,6,land,still flooded\nB,drilled,180,40,6,land,under water still\n\
                C,drilled,180,40,6,land,flooded last week\n";
    let (_, cards) = planned(list);
    for (card, stops) in cards.iter().zip([true, true, false]) {
        assert_eq!(card.contains("STOP: resolve the reported problem first"), stops, "{card}");
        assert_eq!(card.contains("UNDER WATER"), stops, "{card}");
    }
    let said =
        run(&[&PROMPT[..], &["--depth", "180 ft", "--water-level", "40 ft", "--notes", "still flooded"]].concat());
    let said = said.ended(0).out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("Wait until the flood water has gone"), "{said}");
}

/// Rows of a list with these words, with what came of each: planned, held back, or nothing where it is no well.
fn outcomes(list: &str) -> (BTreeMap<String, (String, String)>, Vec<crate::running::Row>, String) {
    let folder = folder();
    let list = place(folder.path(), "wells.csv", list);
    let out = folder.path().join("campaign");
    let scenarios = root().join("scenarios/minimal.toml");
    let mut arguments = vec!["plan".as_ref(), list.as_os_str(), "--scenarios".as_ref(), scenarios.as_os_str()];
    arguments.extend(["--table".as_ref(), "csv".as_ref(), "--out".as_ref(), out.as_os_str()]);
    run(&arguments);
    let made = rows(&out.join("treatments.csv")).into_iter();
    let made = made.map(|row| (row["well_id"].clone(), (row["outcome"].clone(), row["crew_flags"].clone()))).collect();
    let cards = std::fs::read_to_string(out.join("crew-sheets.html")).unwrap();
    (made, rows(&out.join("findings.csv")), cards)
}

/// A well that fell in, or of which somebody says that it is given up while people drink from it, is asked about with its flags;
/// nobody vanishes. Common practice, no source.
#[test]
fn a_well_that_fell_in_or_is_drunk_from_never_vanishes() {
    let head = "Well,Type,Depth (ft),Static level (ft),Dia. (in),Water goes to,Remarks\n";
    for (row, flags) in [
        ("A,drilled,180,40,6,field,well is collapsed", "damaged"),
        ("A,drilled,180,40,6,field,collapsed", "damaged"),
        ("A,drilled (collapsed),180,40,6,field,dialysis patient", "damaged patient"),
        ("A,collapsed,180,40,6,field,baby", "damaged infant-or-pregnant"),
        ("A,drilled,180,40,6,field,well abandoned - family still uses it", ""),
        ("A,drilled,180,40,6,field,well sealed 1998; dialysis patient", "patient"),
    ] {
        let (made, found, cards) = outcomes(&format!("{head}{row}\nB,drilled,180,40,6,field,\n"));
        assert_eq!(made.get("A"), Some(&("held_back".to_owned(), flags.to_owned())), "{row}");
        let asked = |row: &&crate::running::Row| row["well_id"] == "A" && row["code"] == "I107";
        assert_eq!(found.iter().filter(asked).count(), 1, "{row}");
        // Its card, held back, says what a crew must mind.
        assert!(cards.contains(">A<") || cards.contains("A</"), "{row}: no card");
    }
    // A well that is plainly no more stays out; who is told of on such a row is still counted.
    let tank = "T,storage tank,,,,,dialysis patient\nS,drilled,180,40,6,field,decommissioned 1998\n";
    let (made, found, _) = outcomes(&format!("{head}{tank}B,drilled,180,40,6,field,\n"));
    assert_eq!(made.keys().collect::<Vec<_>>(), ["B"]);
    let said: Vec<&str> = found.iter().filter(|row| row["code"] == "I114").map(|row| &*row["says"]).collect();
    assert!(said.len() == 1 && said[0].contains("row 2: a patient"), "{said:?}");
}

/// Two values where one is wanted are asked in a list and refused at the prompt; a year, a time or a depth is no second value.
/// Common practice, no source.
#[test]
fn a_second_rate_or_constituent_is_doubted_in_list_and_prompt() {
    for (heading, option, text, doubted) in [
        ("Yield", "--yield", "10 gpm or 5", true),
        ("Yield", "--yield", "5 gpm and 2 gpm", true),
        ("Yield", "--yield", "5 gpm 1990; 2 gpm now", true),
        ("Yield", "--yield", "5 gpm (2019)", false),
        ("Yield", "--yield", "5 gpm after 4 h", false),
        ("Water temperature", "--temperature", "50 F or 60", true),
        ("pH", "--ph", "7.2 (8 last year)", true),
        ("pH", "--ph", "7.2 maybe 8", true),
        ("pH", "--ph", "7.2 (2019)", false),
        ("pH", "--ph", "7.2 on 6/12/2019", false),
        ("Iron (mg/L)", "--iron", "3 (5 in spring)", true),
        ("Iron (mg/L)", "--iron", "3 (lab 4)", false),
    ] {
        let list = format!(
            "Well,Type,Depth (ft),Static level (ft),Dia. (in),Water goes to,{heading}\nA,drilled,180,40,6,field,{text}\n\
             B,drilled,180,40,6,field,\n"
        );
        let (made, found, _) = outcomes(&list);
        let of_cell = |row: &&crate::running::Row| row["well_id"] == "A" && row["heading"] == heading;
        let codes: Vec<&str> = found.iter().filter(of_cell).map(|row| &*row["code"]).collect();
        let iron = heading.starts_with("Iron");
        assert_eq!(codes.contains(&if iron { "C131" } else { "C102" }), doubted, "{text}: {codes:?}");
        assert_eq!(made["A"].0 == "held_back", iron && doubted, "{text}");
        let prompt = run(&["well", "--water-column=15 ft", "--diameter=6 in", "--product=bleach 6", option, text]);
        assert_eq!(prompt.code != 0, doubted, "{option} {text}: {}{}", prompt.out, prompt.err);
    }
}

/// What stands beside one well reaches no other well's card.
#[test]
fn remarks_in_a_column_of_roads_are_not_filled_down() {
    let list = |road: [&str; 6]| {
        let row = |(at, road): (usize, &str)| format!("{at},drilled,180,40,6,field,{road}\n");
        let rows: String = road.into_iter().enumerate().map(row).collect();
        format!("Well,Type,Depth (ft),Static level (ft),Dia. (in),Water goes to,Access road\n{rows}")
    };
    let roads = |list: &str| {
        let (made, found, cards) = outcomes(list);
        let filled = found.iter().any(|row| row["code"] == "I112");
        (made, filled, cards)
    };
    for remarks in [
        ["gate code 12", "", "", "", "", "dog loose"],
        ["Nurse on dialysis", "", "", "Mill", "", ""],
        ["call before 10", "", "", "slow down here", "", ""],
    ] {
        let (made, filled, cards) = roads(&list(remarks));
        assert!(!filled, "{remarks:?}");
        assert_eq!(cards.matches(remarks[0]).count(), 1, "{remarks:?}");
        assert_eq!(made["2"].1, "", "{remarks:?}");
    }
    let (_, filled, _) = roads(&list(["Mill Road", "", "", "Hwy 12", "", ""]));
    assert!(filled, "the name of a road holds for the rows below it");
}

/// Gas and lack of air in pits kill (OSHA 29 CFR 1910.146 on confined spaces, from memory): the card of a well in one says so,
/// also where no amount can be computed.
#[test]
fn a_pit_brings_the_line_that_nobody_enters_it() {
    let list = "well_id,well_type,depth (ft),water level (ft),diameter (in),route,notes\n\
                A,drilled,180,40,6,land,in a pit beside the barn\nB,drilled,180,40,6,land,not in a pit\n";
    let (rows, cards) = planned(list);
    for (row, is_pit) in rows.iter().zip([true, false]) {
        assert_eq!(row["cautions"].contains("confined-space"), is_pit, "{row:?}");
    }
    for (card, is_pit) in cards.iter().zip([true, false]) {
        assert_eq!(card.contains("WELL PIT: never enter"), is_pit, "{card}");
        assert_eq!(card.contains("Never enter: gas, no air"), is_pit, "{card}");
    }
    let held =
        "Well,Type,Depth (ft),Static level (ft),Dia. (in),Water goes to,Remarks\nA,drilled,,40,6,field,pump pit\n";
    let (made, _, cards) = outcomes(held);
    assert_eq!(made["A"], ("held_back".to_owned(), "pit".to_owned()));
    assert!(cards.contains("WELL PIT: never enter"), "{cards}");
}

/// What a field took is not said to be left: a card that uses 6 in, steel and the storm drain does not call them not understood.
#[test]
fn what_was_put_to_use_is_not_called_not_understood() {
    let list = "well_id,well_type,depth (ft),water level (ft),diameter (in),route,notes\n\
                A,drilled,180,40,\"6\"\" stl\",storm drn,\nB,drilled,180,40,4 in PVC,YARD/LANDSCAPE,\n\
                C,drilled,180,40,6,needs tanker,\nD,drilled,180,40,6,over the lawn to the creek,\n\
                E,drilled,180,40,6 steel (bent at top),lawn behind shed,\n";
    let (rows, cards) = planned(list);
    for (row, (material, route, left)) in rows.iter().zip([
        ("steel", "storm_drain", ""),
        ("PVC", "land", ""),
        ("", "hauled", ""),
        ("", "stream", ""),
        ("steel", "land", "diameter (in): bent at top; route: behind shed"),
    ]) {
        assert_eq!((&*row["casing_material"], &*row["discharge_route"]), (material, route), "{row:?}");
        assert_eq!(row["not_understood"], left, "{row:?}");
        assert_eq!(row["cautions"].contains("metal-casing"), material == "steel", "{row:?}");
    }
    for (card, left) in cards.iter().zip([false, false, false, false, true]) {
        assert_eq!(card.contains("Not understood"), left, "{card}");
    }
}
