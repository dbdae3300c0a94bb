//! One fact in the writing of many offices: units in a note, a width in two columns, a level in the place of a height, remarks
//! that put another number in the place of a cell's. The lists are invented; the liters are π/4 d² h of the facts beside them.

use std::collections::BTreeMap;
use std::f64::consts::FRAC_PI_4;

use aftercrest::checks::Verdict;
use aftercrest::field::rules::ReadingRules;
use aftercrest::kernel::volume::standing_volume;

use crate::reading::read;

pub const FT: f64 = 0.3048;
pub const IN: f64 = 0.0254;

pub fn round(across: f64, height: f64) -> Option<f64> {
    Some(FRAC_PI_4 * across * across * height * 1000.0)
}

/// Liters by id; nothing for rows that are held back or no wells.
pub fn liters(list: &str) -> BTreeMap<String, f64> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("list.csv");
    std::fs::write(&path, list).unwrap();
    let outcome = read(&[path], &ReadingRules::default()).unwrap();
    let planned = outcome.verdicts.iter().filter_map(|verdict| match verdict {
        Verdict::Admitted { well, .. } => {
            Some((well.id.to_string(), standing_volume(&well.standing_water).value * 1000.0))
        }
        _ => None,
    });
    planned.collect()
}

/// What differs from the facts, row by row.
fn differing(list: &str, facts: &[(String, Option<f64>)]) -> Vec<String> {
    let read = liters(list);
    let differs = |(id, expected): &&(String, Option<f64>)| match (read.get(id), expected) {
        (Some(read), Some(expected)) => (read / expected - 1.0).abs() > 0.01,
        (read, expected) => read.is_some() != expected.is_some(),
    };
    let row = |id: &str| list.lines().find(|line| line.starts_with(id)).unwrap_or_default().to_owned();
    let wrong = facts.iter().filter(differs);
    wrong.map(|(id, expected)| format!("{}: {:?}, not {expected:?}", row(id), read.get(id))).collect()
}

/// Eight plain wells below these headings, each `kind` with its cells, then the rows that are asked about.
pub fn list(head: &str, plain: impl Fn(usize) -> (String, Option<f64>), rows: &[(&str, Option<f64>)]) -> Vec<String> {
    let mut text = format!("{head}\n");
    let mut facts = Vec::new();
    for at in 0..8 {
        let (cells, expected) = plain(at);
        text += &format!("W{at}{cells}\n");
        facts.push((format!("W{at}"), expected));
    }
    for (at, (cells, expected)) in rows.iter().enumerate() {
        text += &format!("R{at:02}{cells}\n");
        facts.push((format!("R{at:02}"), *expected));
    }
    differing(&text, &facts)
}

#[test]
fn a_note_gives_each_measure_its_own_unit() {
    let bore = |at: usize| {
        let (depth, level) = (60 + 3 * at, 10 + at);
        (format!(",drilled,{depth},{level},150"), round(0.15, (depth - level) as f64))
    };
    for note in [
        "Depth and SWL are metres from the ground and csg is mm; except where noted",
        "Depths and levels in metres and casing in mm",
        "metres for depth and SWL and mm for csg",
        "All depths in metres & casing diameters in mm",
    ] {
        let head = format!("{note},,,,\n,,,,\nBore,Kind,Depth,SWL,Csg");
        assert_eq!(list(&head, bore, &[]), Vec::<String>::new(), "{note}");
    }
    let marked = [(",drilled,80',22',\"6\"\"\"", round(6.0 * IN, 58.0 * FT)), (",dug,9,4,1.2 m", round(1.2, 5.0))];
    let note = "\"Depth and SWL are metres and csg is mm, except where I put ' and \"\" in feet\"";
    let head = format!("{note},,,,\n,,,,\nBore,Kind,Depth,SWL,Csg");
    assert_eq!(list(&head, bore, &marked), Vec::<String>::new());
    let well = |at: usize| {
        let (depth, level) = (160 + 3 * at, 10 + at);
        (format!(",drilled,{depth},{level},6"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let head = "depth and water are feet and pipe is inches,,,,\n,,,,\nWell,Kind,Depth,Water level,Pipe";
    assert_eq!(list(head, well, &[]), Vec::<String>::new());
}

#[test]
fn one_column_has_a_unit_for_each_kind_of_well() {
    for (head, kinds) in [
        ("No;Kind;Depth (m);SWL (m);Width (m, bores mm)", ["dug", "bore"]),
        ("No;Kind;Depth (m);SWL (m);Opening (m, mm for boreholes)", ["dug", "borehole"]),
        ("No;Kind;Depth;SWL;Width\n;;m;m;m (bores mm)", ["dug", "bore"]),
        ("No;Kind;Depth;SWL;Width\n;;m;m;mm (dug: m)", ["dug", "bore"]),
        ("N°;Genre;Prof. (m);Eau à (m);Ouverture (m, forages mm)", ["puits creusé", "forage"]),
        ("N°;Genre;Prof.;Eau à;Ouverture\n;;m;m;puits m, forages mm", ["puits creusé", "forage"]),
        ("Nº;Tipo;Prof. (m);Agua a (m);Luz (m, sondeos mm)", ["noria", "sondeo"]),
        ("Nº;Tipo;Prof. (m);Água a (m);Abertura (m, furos em mm)", ["cacimba", "furo"]),
    ] {
        let wells = |at: usize| {
            let (kind, deep) = (kinds[at % 2], (at * 5 % 8) as f64);
            let (depth, width, across) = if at.is_multiple_of(2) { (10.0, "1.2", 1.2) } else { (60.0, "150", 0.15) };
            (format!(";{kind};{};3;{width}", depth + deep), round(across, depth + deep - 3.0))
        };
        assert_eq!(list(head, wells, &[]), Vec::<String>::new(), "{head}");
    }
}

#[test]
fn one_width_stands_in_two_columns() {
    for head in [
        "Ref;Clase;Prof. (m);Luz (m);Entubado (mm);Alto de agua (m)",
        "Ref;Tipo;Prof. (m);Ancho (m);Tubería (mm);Lámina de agua (m)",
        "N°;Type;Prof. (m);Ouverture (m);Tubage (mm);Hauteur d'eau (m)",
        "Nº;Tipo;Prof. (m);Abertura (m);Revestimento (mm);Altura da água (m)",
    ] {
        let kinds = if head.contains("Ouverture") { ["puits creusé", "forage"] } else { ["Noria", "Sondeo"] };
        let wells = |at: usize| {
            let kind = kinds[at % 2];
            if at.is_multiple_of(2) {
                (format!(";{kind};{};1,20;;{}", 10 + at, 3 + at), round(1.2, (3 + at) as f64))
            } else {
                (format!(";{kind};{};;200;{}", 60 + at, 30 + at), round(0.2, (30 + at) as f64))
            }
        };
        assert_eq!(list(head, wells, &[]), Vec::<String>::new(), "{head}");
    }
}

#[test]
fn a_column_of_heights_holds_levels_ovals_and_later_facts() {
    let head = "Profundidad desde el suelo.;;;;;;\n;;;;;;\nRef;Clase;Prof. (m);Luz (m);Alto de agua (m);Brocal (m);Observaciones";
    let noria = |at: usize| (format!(";Noria;{};1,20;{};0,50;", 10 + at, 3 + at), round(1.2, (3 + at) as f64));
    let rows = [
        (";Noria;20;1,20;agua a 6,00;0,50;", round(1.2, 14.0)),
        (";Noria;20;1,20;agua a 6,00 del brocal;0,50;", round(1.2, 14.5)),
        (";Noria;20;1,20;6,00 desde el brocal;0,50;", round(1.2, 14.5)),
        (";Noria;20;1,20;agua a 6,00 del suelo;0,50;", round(1.2, 14.0)),
        (";Noria;20;2,00 x 1,00;4,00;0,50;", Some(8000.0)),
        (";Noria;20;2,00 x 1,00 oval;4,00;0,50;", round(2_f64.sqrt(), 4.0)),
        (";Noria;20;2,00 x;4,00;0,50;", None),
        (";Noria;20;1,20;3,00;0,50;medido otra vez el lunes: 5,00 de agua", round(1.2, 5.0)),
        (";Noria;20;1,20;3,00;0,50;tiene galería lateral con agua", None),
        (";Noria;20;1,20;3,00;0,50;galería seca", round(1.2, 3.0)),
        (";Noria;20;1,20;3,00;0,50;medido con la bomba en marcha", None),
        (
            ";Noria;20;1,50;12,00;0,50;1,50 hasta 12 m, después 1,00",
            round(1.5, 4.0).zip(round(1.0, 8.0)).map(|(upper, lower)| upper + lower),
        ),
        (";Noria;20;2,00;12,00;0,50;forrado con anillos de 1,00 hasta el fondo", round(1.0, 12.0)),
        (";Noria;20;2,00;12,00;0,50;no 2,00 sino 1,00", round(1.0, 12.0)),
    ];
    assert_eq!(list(head, noria, &rows), Vec::<String>::new());
}

#[test]
fn a_remark_puts_another_number_in_the_place_of_the_cells() {
    let head = "Well,Kind,Depth (ft),SWL (ft),Dia (in),Notes";
    let wells =
        |at: usize| (format!(",drilled,{},{},6,", 160 + 3 * at, 10 + at), round(6.0 * IN, (150 + 2 * at) as f64 * FT));
    let of = |depth: f64, level: f64, across: f64| round(across * IN, (depth - level) * FT);
    let rows = [
        (",drilled,160,40,6,\"he found the papers, it is 210 deep not 160\"", of(210.0, 40.0, 6.0)),
        (",drilled,160,40,6,\"should be 210, not 160\"", of(210.0, 40.0, 6.0)),
        (",drilled,160,40,6,not 160 but 210", of(210.0, 40.0, 6.0)),
        (",drilled,160,40,6,static is 60 not 40", of(160.0, 60.0, 6.0)),
        (",drilled,160,40,6,he says 210 not 160", None),
        (",drilled,160,40,6,210 not 160?", None),
        (",drilled,160,40,6,paid 90 not 160", None),
        (",drilled,160,40,6,sleeved with 4 right down", of(160.0, 40.0, 4.0)),
        (",drilled,160,40,6,sleeved with 100 pvc", None),
        (",drilled,160,40,6,lined with 40 ft of 4 in", None),
        (",drilled,160,40,6,not 6 but 8 ft to the barn", of(160.0, 40.0, 6.0)),
        (",drilled,160,40,6,\"cleaned out, bottom only 130 now\"", of(130.0, 40.0, 6.0)),
        (",drilled,160,40,6,\"technician says 8, recheck\"", None),
        (",drilled,160,40,6,capped & cemented by the county", None),
    ];
    assert_eq!(list(head, wells, &rows), Vec::<String>::new());
}

#[test]
fn a_pump_runs_and_a_well_flows() {
    let head = "Bore,Kind,Depth (m),SWL (m),Csg (mm),Notes";
    let bores = |at: usize| (format!(",bore,{},{},150,", 60 + 3 * at, 10 + at), round(0.15, (50 + 2 * at) as f64));
    let rows = [
        (",bore,48,33 running,150,", None),
        (",bore,48,\"25 at rest, 33 running\",150,", round(0.15, 23.0)),
        (",bore,48,running over,150,", round(0.15, 48.0)),
        (",bore,48,flows 2 m above,150,", round(0.15, 48.0)),
        (",bore,48,12.4 off top of csg,150,csg stands 0.5 up", round(0.15, 36.1)),
    ];
    assert_eq!(list(head, bores, &rows), Vec::<String>::new());
}

#[test]
fn a_whole_well_is_told_in_one_cell() {
    let wells = [
        ("6\" TD 185' W 41'", round(6.0 * IN, 144.0 * FT)),
        ("6\" 185' deep W 41'", round(6.0 * IN, 144.0 * FT)),
        ("5\" drilled, D 160', W 40'", round(5.0 * IN, 120.0 * FT)),
        ("6\" W 120' D", None),
        ("TD 185', W/L 41', 6\" csg", round(6.0 * IN, 144.0 * FT)),
        ("T.D. 185' W.L. 41' 6\" drilled", round(6.0 * IN, 144.0 * FT)),
        ("6\" steel, 140 ft deep, drilled 20 odd years ago, water 38 ft", round(6.0 * IN, 102.0 * FT)),
        ("6 in casing stands 2 ft above ground, 140 ft deep, 38 ft to water", round(6.0 * IN, 102.0 * FT)),
        ("6 in drilled w 40 ft casing, 140 ft deep, water 38 ft", round(6.0 * IN, 102.0 * FT)),
        ("Dug well 4 feet wide, 20 feet deep. Taped 8 feet down to the water.", round(4.0 * FT, 12.0 * FT)),
        ("Dug well 4 feet wide, 19 1/2 feet deep, 7 feet 6 inches before water", round(4.0 * FT, 12.0 * FT)),
        ("Dug well 4 feet wide, 20 feet deep, taped 8 feet down", round(4.0 * FT, 12.0 * FT)),
        ("Dug, 4 ft across, 20 ft deep. Taped 9 ft down from the curb, curb is 1 ft high.", round(4.0 * FT, 12.0 * FT)),
        (
            "Dug, 4 ft across, 20 ft deep. Water 9 ft down from top of casing, casing stands 12 in above the ground",
            round(4.0 * FT, 12.0 * FT),
        ),
        ("point, pitcher pump on 1 1/4 in pipe driven 25 ft, water at 10 ft", round(1.25 * IN, 15.0 * FT)),
        ("drilled 140 ft deep, hand pump on 2 in pipe, water at 40 ft", None),
        ("6 in casing, twenty some deep, water 8 down", None),
        ("6 in casing, 140-odd ft deep, water 38 ft down", None),
        ("6 in casing, 140 ft deep, some sand, water 38 ft down", round(6.0 * IN, 102.0 * FT)),
        ("6 in casing, 140 ft deep, dipped 38 ft", round(6.0 * IN, 102.0 * FT)),
        ("6 in casing, taped 140 ft to the bottom, water 38 ft down", round(6.0 * IN, 102.0 * FT)),
    ];
    let mut text = "no,well\n".to_owned();
    let mut facts = Vec::new();
    for (at, (well, expected)) in wells.iter().enumerate() {
        text += &format!("D{at:02},\"{}\"\n", well.replace('"', "\"\""));
        facts.push((format!("D{at:02}"), *expected));
    }
    assert_eq!(differing(&text, &facts), Vec::<String>::new());
}

#[test]
fn a_width_changes_on_the_way_down_in_a_remark() {
    let head = "Well,Kind,Depth (ft),SWL (ft),Dia (in),Notes";
    let wells =
        |at: usize| (format!(",drilled,{},{},6,", 160 + 3 * at, 10 + at), round(6.0 * IN, (150 + 2 * at) as f64 * FT));
    let two = |below: f64, at: f64| Some(round(6.0 * IN, (at - 40.0) * FT)? + round(below * IN, (160.0 - at) * FT)?);
    let whole = round(6.0 * IN, 120.0 * FT);
    let rows = [
        (",drilled,160,40,6,drops to 4 in at 110", two(4.0, 110.0)),
        (",drilled,160,40,6,\"hole is 5 in. from 90 ft on down\"", two(5.0, 90.0)),
        (",drilled,160,40,6,5 inch below 100 ft", two(5.0, 100.0)),
        (",drilled,160,40,6,below 100 ft it is 5 inch", two(5.0, 100.0)),
        (",drilled,160,40,6,\"6 in pipe stops at 70, then 4 in hole below\"", two(4.0, 70.0)),
        (",drilled,160,40,6,4 in drop pipe from 84 ft down", whole),
        (",drilled,160,40,6,8 in sewer line 60 ft from well", whole),
        (",drilled,160,40,6,this was the old monitoring well of the dump", None),
        (",drilled,160,40,6,monitoring well next door", whole),
        (",drilled,160,40,6,\"half filled in, weight stopped at 120\"", round(6.0 * IN, 80.0 * FT)),
        (",drilled,160,55,6,retaped after a night off: 40.0 below ground", whole),
        (",drilled,160,55,6,first one was pumping. After rest 40 ft", whole),
        (",drilled,160,40,6,pump running when sounded", None),
        (",drilled,160,40,72,", None),
        (",dug,28,8,4,it is 4 ft wide", round(4.0 * FT, 20.0 * FT)),
    ];
    assert_eq!(list(head, wells, &rows), Vec::<String>::new());
}

#[test]
fn a_mark_in_a_heading_is_its_unit_and_a_mark_beside_a_level_says_whence() {
    let note = "SWL off the ground. T beside the SWL = taped off top of pipe\n";
    let head = "No,Type,Depth ',\"Pipe \"\"\",SWL ',\"Stick up \"\"\",Pump @\n";
    let mut text = format!("{note}{head}");
    let mut facts = Vec::new();
    for at in 0..10 {
        let mark = if at % 3 == 0 { " T" } else { "" };
        text += &format!("K{at},drilled,{},6,{}{mark},12,{}\n", 150 + 4 * at, 30 + at, 100 + at);
        let level = (30 + at) as f64 - if at % 3 == 0 { 1.0 } else { 0.0 };
        facts.push((format!("K{at}"), round(6.0 * IN, ((150 + 4 * at) as f64 - level) * FT)));
    }
    assert_eq!(differing(&text, &facts), Vec::<String>::new());
}

#[test]
fn what_a_note_takes_off_the_levels_is_the_height_of_the_rim() {
    let mut text = "Water is from the top of the casing. Deduct Rise for the ground\n".to_owned();
    text += "No,Type,Depth (ft),SWL from top (ft),Rise (in),Width in inches or feet\n";
    let mut facts = Vec::new();
    for at in 0..10_usize {
        let (kind, width, across) = if at % 2 == 0 { ("drilled", "6", 6.0 * IN) } else { ("dug", "4", 4.0 * FT) };
        text += &format!("K{at},{kind},{},{},18,{width}\n", 40 + at, 20 + at);
        facts.push((format!("K{at}"), round(across, (40.0 - 20.0 + 1.5) * FT)));
    }
    assert_eq!(differing(&text, &facts), Vec::<String>::new());
}

#[test]
fn a_casing_is_written_by_its_width_and_its_length() {
    let head = "Cust,Well,Depth ft,Static ft,Casing in";
    let bore =
        |at: usize| (format!(",drilled,{},{},6 x {}", 160 + at, 20 + at, 20 + 3 * at), round(6.0 * IN, 140.0 * FT));
    let rows = [
        (",drilled,200,40,6¼ x 53", round(6.25 * IN, 160.0 * FT)),
        // The hole goes on narrower below the casing.
        (",drilled,200,40,\"8 x 60, 6 o.h.\"", {
            let liters = |across: f64, height: f64| round(across * IN, height * FT).unwrap();
            Some(liters(8.0, 20.0) + liters(6.0, 140.0))
        }),
        // Two sides of a dug well are no width and length.
        (",dug,20,8,4 x 5 ft", Some(4.0 * FT * 5.0 * FT * 12.0 * FT * 1000.0)),
        (",dug,20,8,36 x 48", Some(36.0 * IN * 48.0 * IN * 12.0 * FT * 1000.0)),
    ];
    assert_eq!(list(head, bore, &rows), Vec::<String>::new());
}

#[test]
fn numbered_columns_hold_casing_strings_and_the_drilled_hole_is_not_the_casing() {
    let head = "NBR,MTHD,TD_DRL_FT,TD_CMPL_FT,BH_DIA_IN,CSG1_ID_IN,CSG1_TO_FT,CSG2_ID_IN,CSG2_TO_FT,SWL_FT";
    let bore = |at: usize| {
        let (depth, level) = (160 + 3 * at, 20 + at);
        let cells = format!(",drilled,{},{depth},9.75,6,{depth},,,{level}", depth + 10 * (at % 2));
        (cells, round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let rows = [
        // A string that may hang from the ground inside the first: less than a tenth of the water.
        (",drilled,240,240,14,8,30,6,240,20", {
            let liters = |across: f64, height: f64| round(across * IN, height * FT).unwrap();
            Some(liters(8.0, 10.0) + liters(6.0, 210.0))
        }),
        // The same with much water in between, and a second string below an end that is not told: asked.
        (",drilled,240,240,14,8,130,6,240,20", None),
        (",drilled,240,240,14,8,,6,240,20", None),
    ];
    assert_eq!(list(head, bore, &rows), Vec::<String>::new());
}

#[test]
fn tables_below_one_another_are_read_by_their_own_headings() {
    let mut text = String::from("A. STATE LOGS (depths in feet)\nLog no.,Kind,TD,SWL,Csg dia (in)\n");
    let mut facts = Vec::new();
    for at in 0..8 {
        let more = 7 * at * at % 11;
        text += &format!("L{at},drilled,{},{},6\n", 150 + more, 30 + more);
        facts.push((format!("L{at}"), round(6.0 * IN, 120.0 * FT)));
    }
    text +=
        "8 logs\n\nB. CARDS OF THE COUNTY\nDepth and water level in meters. T.O.C. = cm casing stands above ground\n";
    text += "Permit,Road,Well type,Casing diameter (mm),Depth,Water level from top of casing,T.O.C.\n";
    for at in 0..8 {
        let more = 5 * at * at % 9;
        text += &format!("P{at},Mill Rd,bored,600,{},{},30\n", 9 + more, 3 + more);
        facts.push((format!("P{at}"), round(0.6, 6.3)));
    }
    assert_eq!(differing(&text, &facts), Vec::<String>::new());
}

#[test]
fn a_code_explained_behind_its_heading_overrules_the_units_below_the_headings() {
    let mut text = String::from(
        "Syst. M ou rien = métrique.   Syst. I = vieille fiche : Prof. et N.S. en pieds, Ø en pouces.\n\n",
    );
    text += "No,Genre,Syst.,Prof.,N.S.,Ø int.\n,,,m,m,mm\n";
    let mut facts = Vec::new();
    for at in 0..8 {
        text += &format!("A{at},foré,{},{},{},152\n", if at % 2 == 0 { "M" } else { "" }, 60 + at, 10 + at);
        text += &format!("B{at},foré,I,{},{},6\n", 200 + at, 40 + at);
        facts.push((format!("A{at}"), round(0.152, 50.0)));
        facts.push((format!("B{at}"), round(6.0 * IN, 160.0 * FT)));
    }
    assert_eq!(differing(&text, &facts), Vec::<String>::new());
}

#[test]
fn codes_of_one_column_are_explained_under_the_name_of_another() {
    let note = "\"Depth always from the ground. Level: G = taped from the ground, R = taped from the rim. n/m = not measured.\"";
    let head = format!("{note},,,,,\n,,,,,\nNo,Kind,Depth (m),Water level (m),G / R,Rim (cm),Dia. (cm)");
    let bore = |at: usize| (format!(",drilled,{},{},G,,15", 40 + at, 10 + at), round(0.15, 30.0));
    let rows = [
        (",dug,8,6,R,50,100", round(1.0, 2.5)),
        (",dug,9,7,R,40,100", round(1.0, 2.4)),
        (",dug,9,7,G,40,100", round(1.0, 2.0)),
        (",dug,9,7,R,,100", None),
    ];
    assert_eq!(list(&head, bore, &rows), Vec::<String>::new());
}

#[test]
fn questions_that_follow_on_another_are_read_with_it() {
    let head = "\"Q1. Ticket\",\"Q5. What kind of well is it?\",\"Q6. How deep is the well, in feet?\",\
                \"Q8. Feet down to the water, from the ground\",\"Q8d. Had the pump been off for an hour or more?\",\
                \"Q9. Casing, inside diameter\",\"Q9a. If other, how wide?\"";
    let bore = |at: usize| (format!(",Drilled,{},{},Yes,6 inch,", 160 + at, 40 + at), round(6.0 * IN, 120.0 * FT));
    let rows = [
        (",Dug,20,8,Yes,Other,\"4 ft, laid stone\"", round(4.0 * FT, 12.0 * FT)),
        (",Drilled,160,40,Yes,Other,4 1/2 inch", round(4.5 * IN, 120.0 * FT)),
        (",Drilled,160,40,Yes,Other,", None),
        (",Drilled,160,40,No,6 inch,", None),
        (",Drilled,160,40,No pump in it,6 inch,", round(6.0 * IN, 120.0 * FT)),
    ];
    assert_eq!(list(head, bore, &rows), Vec::<String>::new());
}

#[test]
fn a_dug_well_wider_than_any_may_have_been_measured_around() {
    let head = "Well,Kind,Depth ft,Water level ft,Diameter ft";
    let dug = |at: usize| (format!(",dug,{},{},4", 20 + at, 8 + at), round(4.0 * FT, 12.0 * FT));
    let rows = [(",dug,20,8,12.5", None), (",dug,20,8,10", round(10.0 * FT, 12.0 * FT)), (",dug,250,8,4", None)];
    assert_eq!(list(head, dug, &rows), Vec::<String>::new());
}

#[test]
fn wells_for_watching_the_water_are_no_drinking_water_wells() {
    let head = "Well,Kind,Use,Depth ft,Water level ft,Diameter in,Remarks";
    let bore = |at: usize| (format!(",drilled,DOM,{},{},6,", 160 + at, 40 + at), round(6.0 * IN, 120.0 * FT));
    let whole = round(6.0 * IN, 120.0 * FT);
    let rows = [
        (",drilled,OBS,160,40,6,", None),
        (",drilled,DOM,160,40,6,\"obs. well, research plot\"", None),
        (",drilled,DOM,160,40,6,piézomètre de suivi", None),
        (",drilled,DOM,160,40,6,observation well next door", whole),
    ];
    assert_eq!(list(head, bore, &rows), Vec::<String>::new());
}

#[test]
fn two_columns_of_units_say_how_each_row_was_measured() {
    let head = "WTN,METH,LEN_UOM,DPTH_CMPL,SWL,SWL_REF,STKUP,DIA_UOM,CSG_DIA";
    let bore = |at: usize| {
        let (depth, level) = (60 + 7 * at * at % 11, 12 + at % 3);
        (format!(",drilled,m,{depth},{level},G,0.5,cm,15.2"), round(0.152, (depth - level) as f64))
    };
    let rows = [
        (",drilled,ft,224,51,G,2,inch,6", round(6.0 * IN, 173.0 * FT)),
        (",drilled,ft,180,42,T,2,inch,6", round(6.0 * IN, 140.0 * FT)),
        (",dug,m,8,3,T,0.5,cm,120", round(1.2, 5.5)),
        // Nobody says in which unit this one is.
        (",drilled,,45,12,G,,cm,15.2", None),
    ];
    assert_eq!(list(head, bore, &rows), Vec::<String>::new());
}

#[test]
fn notes_say_for_each_type_of_well_where_its_measures_begin() {
    let notes = "\"Poços e noras: fundo e água medidos com fita desde a boca. Furos: do relatório, desde o terreno.\"\n\
                 Ø por dentro; poços e noras em metros, furos em milímetros.\n\n";
    let mut text = format!("{notes}Ref.,Captação,Fundo,Água,Ø,Guarda\n,,m,m,,cm\n");
    let mut facts = Vec::new();
    for at in 0..8 {
        let more = 5 * at * at % 9;
        text += &format!("P{at},poço,{},{},1.2,60\n", 9 + more, 3 + more);
        text += &format!("F{at},furo,{},{},160,\n", 60 + more, 20 + more);
        facts.push((format!("P{at}"), round(1.2, 6.0)));
        facts.push((format!("F{at}"), round(0.16, 40.0)));
    }
    assert_eq!(differing(&text, &facts), Vec::<String>::new());
}

#[test]
fn noughts_of_an_export_are_no_sizes() {
    let head = "FID,WS_CARD,WS_METHOD,WS_DEP_FT,WS_WL_FT,WS_DIA_IN,WS_CSG_FT,WS_OPN_IN";
    let bore = |at: usize| {
        let more = 7 * at * at % 11;
        (format!(",2{at}-A,CABLE TOOL,{}.00,{}.00,6.00,0.00,0.00", 150 + more, 30 + more), round(6.0 * IN, 120.0 * FT))
    };
    let rows = [(",230-C,ROTARY,150.00,30.00,8.00,70.00,6.00", {
        let liters = |across: f64, height: f64| round(across * IN, height * FT).unwrap();
        Some(liters(8.0, 40.0) + liters(6.0, 80.0))
    })];
    let mut ids = list(head, bore, &rows);
    // The card is the id where the office says so; here each row is named by what stands first.
    ids.retain(|line| !line.is_empty());
    assert_eq!(ids, Vec::<String>::new());
}

#[test]
fn codes_of_units_are_explained_behind_the_name_of_their_column() {
    let notes =
        "\"LEN_UOM applies to DPTH and LVL: F=feet M=metres. DIAM_UOM: I=inch C=cm M=mm. Diameters are inside.\"\n\n";
    let mut text = format!("{notes}NO,METH,DPTH,LVL,LEN_UOM,CSG1_DIAM,DIAM_UOM,REM\n");
    let mut facts = Vec::new();
    for at in 0..8 {
        let more = 7 * at * at % 11;
        text += &format!(
            "M{at},drilled,{},{},M,{},{},\n",
            60 + more,
            12 + more,
            if at % 2 == 0 { "15.2" } else { "152" },
            if at % 2 == 0 { "C" } else { "M" }
        );
        text += &format!("F{at},drilled,{},{},F,6,I,\n", 200 + more, 40 + more);
        facts.push((format!("M{at}"), round(0.152, 48.0)));
        facts.push((format!("F{at}"), round(6.0 * IN, 160.0 * FT)));
    }
    assert_eq!(differing(&text, &facts), Vec::<String>::new());
}
