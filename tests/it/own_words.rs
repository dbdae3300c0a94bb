//! What a list explains in its own words: codes in a heading, a unit of its own, one type for all, the length of the lower pipe; and
//! what a person answers beside it. The lists are invented; the liters are π/4 d² h of the facts beside them.

use std::path::PathBuf;

use aftercrest::checks::Verdict;
use aftercrest::field::Field;
use aftercrest::field::rules::ReadingRules;
use aftercrest::hazard::Hazard;

use crate::habits::{FT, IN, list, round};
use crate::reading::read;

fn none() -> Vec<String> {
    Vec::new()
}

/// The type of each well that is planned, in order.
fn types(list: &str, rules: &ReadingRules) -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    let path: PathBuf = folder.path().join("list.csv");
    std::fs::write(&path, list).unwrap();
    let outcome = read(&[path], rules).unwrap();
    let planned = outcome.verdicts.iter().filter_map(|verdict| match verdict {
        Verdict::Admitted { well, .. } => Some(well.well_type.name().to_owned()),
        _ => None,
    });
    planned.collect()
}

/// Depth and level of a well, in whole feet.
fn drilled(at: usize) -> (usize, usize) {
    (150 + at * 37 % 90, 20 + at * 13 % 25)
}

#[test]
fn a_heading_explains_its_own_codes() {
    for head in [
        "No,\"Type (R=drilled, D=dug)\",Depth (ft),Static level (ft),Diameter (in)",
        "No,\"How built: R = drilled, D = dug\",Depth (ft),Static level (ft),Diameter (in)",
        "No,\"Well (R=drilled D=dug)\",Depth (ft),Static level (ft),Diameter (in)",
    ] {
        let row = |at: usize| {
            let (code, depth, level, wide) =
                if at.is_multiple_of(2) { ("R", drilled(at).0, drilled(at).1, 6.0) } else { ("D", 20 + at, 8, 36.0) };
            (format!(",{code},{depth},{level},{wide}"), round(wide * IN, (depth - level) as f64 * FT))
        };
        assert_eq!(list(head, row, &[]), none(), "{head}");
        let text = format!("{head}\n1,R,180,40,6\n2,D,22,9,36\n3,R,160,35,6\n4,D,25,9,36\n5,R,150,40,6\n");
        assert_eq!(types(&text, &ReadingRules::default()), ["drilled", "dug", "drilled", "dug", "drilled"], "{head}");
    }
}

#[test]
fn one_list_of_codes_is_of_two_columns() {
    let head = "\"DR = drilled, DU = dug, BO = bored; GS = ground surface, SP = septic, ST = storm sewer\",,,,,\n\
                WELL_ID,WELLTYPECD,TOTDEPTHFT,STATWLFTBGS,CASDIAMIN,DISCHCD";
    let row = |at: usize| {
        let (kind, depth, level, wide) =
            [("DR", drilled(at).0, drilled(at).1, 6.0), ("DU", 20 + at, 8, 36.0), ("BO", 40 + at, 9, 24.0)][at % 3];
        let route = ["GS", "SP", "ST"][at % 3];
        (format!(",{kind},{depth},{level},{wide},{route}"), round(wide * IN, (depth - level) as f64 * FT))
    };
    assert_eq!(list(head, row, &[]), none());
}

#[test]
fn a_note_gives_one_type_to_all_wells() {
    for note in ["All wells on this list are driven sand points", "Every well here is a sand point."] {
        let head = format!("{note},,,,\nNo,Cottage,Point at (ft),Pull-up to water (ft),Pipe (in)");
        let row = |at: usize| {
            let wide = [1.25, 1.5, 2.0][at % 3];
            let written = ["1 1/4", "1 1/2", "2"][at % 3];
            (format!(",Lot,{},{},{written}", 20 + at, 6 + at % 3), round(wide * IN, (14 + at - at % 3) as f64 * FT))
        };
        assert_eq!(list(&head, row, &[]), none(), "{note}");
    }
    // An exception leaves the type to the size of each well, which is said.
    let list = "All wells are dug except two,,,\nNo,Depth (ft),Static level (ft),Diameter (in)\n1,22,9,36\n2,25,9,36\n3,180,40,6\n";
    assert_eq!(types(list, &ReadingRules::default()), ["dug", "dug", "drilled"]);
}

#[test]
fn a_note_makes_a_unit_of_its_own() {
    // A ring of 0.5 m, a vara of 0.836 m: as their notes say.
    let head = "\"Fundo em metros, ou em anéis (1 anel = 0,50 m).\";;;;\nNº;Tipo;Fundo;Água a (m);Largura (cm)";
    let row = |at: usize| {
        let rings = 12 + at;
        let depth = if at.is_multiple_of(2) { format!("{rings} anéis") } else { format!("{},5", rings / 2) };
        let meters = if at.is_multiple_of(2) { rings as f64 * 0.5 } else { (rings / 2) as f64 + 0.5 };
        (format!(";cavado;{depth};2,5;100"), round(1.0, meters - 2.5))
    };
    assert_eq!(list(head, row, &[]), none());
    let head = "\"Hondo y espejo en metros. v. = varas de 0,836 m\";;;;\nNº;Clase;Hondo;Espejo;Boca (cm)";
    let row = |at: usize| (format!(";excavado;{} v.;2,5;100", 10 + at), round(1.0, (10 + at) as f64 * 0.836 - 2.5));
    assert_eq!(list(head, row, &[]), none());
    // A remark that speaks of the rings leaves open how high these are.
    let head =
        "\"Fundo em metros, ou em anéis (1 anel = 0,50 m).\";;;;;\nNº;Tipo;Fundo;Água a (m);Largura (cm);Ocorrências";
    let row = |_: usize| (";cavado;14 anéis;2,5;100;tampa quebrada".to_owned(), round(1.0, 4.5));
    assert_eq!(list(head, row, &[(";cavado;14 anéis;2,5;100;os anéis dele são maiores", None)]), none());
}

#[test]
fn feet_and_inches_are_told_by_the_heading() {
    for head in ["Depth ft-in,Water in well ft-in", "Depth (feet & inches),Water in well (feet & inches)"] {
        let head = format!("No,Type,{head},Casing (in)");
        let row = |at: usize| {
            let (depth, level) = drilled(at);
            (format!(",Drilled,{depth}-{:02},{level}-{:02},6", at % 12, (at + 5) % 12), {
                round(6.0 * IN, level as f64 * FT + ((at + 5) % 12) as f64 * IN)
            })
        };
        assert_eq!(list(&head, row, &[]), none(), "{head}");
    }
}

#[test]
fn the_lower_pipe_is_told_by_its_length_or_by_a_letter() {
    let upper = |depth: f64, level: f64, change: f64| {
        Some(round(8.0 * IN, (change - level) * FT)? + round(6.0 * IN, (depth - change) * FT)?)
    };
    let head = "\"Feet from ground. The lower pipe is at the bottom; its length is given.\",,,,,,\n\
                No,Built,Full depth,Static depth,\"Upper pipe diam, in\",\"Lower pipe diam, in\",\"Lower pipe length, ft\"";
    let row = |at: usize| {
        let (depth, level) = drilled(at);
        let length = 60 + at * 7 % 11;
        let change = (depth - length) as f64;
        (format!(",drilled,{depth},{level},8,6,{length}"), upper(depth as f64, level as f64, change))
    };
    assert_eq!(list(head, row, &[(",drilled,150,30,8,6,160", None)]), none());
    let head = "\"Feet and inches, from ground. Casing A from the ground down, casing B from there to the bottom.\",,,,,,\n\
                No,Built,Depth to bottom (ft),Static (ft),A dia. (in),A down to (ft),B dia. (in)";
    let row = |at: usize| {
        let (depth, level) = drilled(at);
        let change = 70 + at * 7 % 11;
        (format!(",drilled,{depth},{level},8,{change},6"), upper(depth as f64, level as f64, change as f64))
    };
    assert_eq!(list(head, row, &[]), none());
}

#[test]
fn sentences_of_a_note_are_of_the_heading_that_they_begin_with() {
    let head = "\"PROF_SOL en m sous le sol ; HT_EAU : hauteur d'eau en m depuis le fond ; DIAM en mm ; HT_TUB en cm au-dessus du sol\",,,,,\n\
                ID_PUITS,TYP_PUITS,PROF_SOL,HT_EAU,DIAM,HT_TUB";
    let row = |at: usize| {
        let water = 30 + at * 3;
        (format!(",FORE,{},{water},125,40", water + 12), round(0.125, water as f64))
    };
    assert_eq!(list(head, row, &[]), none());
    let head = "Depth: metres from ground. Dip: centimetres from top of curb or casing. Curb: centimetres above ground.,,,,,\n\
                No,Build of well,Depth from ground (m),Dip to water (cm),Curb above ground (cm),Width (cm)";
    let row = |at: usize| {
        (
            format!(",dug,{},{},50,100", 8 + at * 3 % 5, 300 + at * 7 % 11),
            round(1.0, 8.5 + (at * 3 % 5) as f64 - 3.0 - (at * 7 % 11) as f64 / 100.0),
        )
    };
    assert_eq!(list(head, row, &[]), none());
}

#[test]
fn an_answered_column_keeps_the_one_that_fills_its_gaps() {
    let mut text =
        "No,Construit en,Prof. totale (m),Niveau statique (m),Diamètre puits (cm),Diamètre forage (mm)\n".to_owned();
    for at in 0..6 {
        text += &format!("P{at},puits,{},3,120,\nF{at},forage,{},12,,160\n", 9 + at, 50 + at);
    }
    let mut rules = ReadingRules::default();
    assert_eq!(types(&text, &rules).len(), 12);
    rules.columns.insert("Diamètre forage (mm)".into(), Some(Field::CasingDiameter));
    assert_eq!(types(&text, &rules).len(), 12);
}

#[test]
fn a_column_that_may_be_narrower_below_the_casing_is_asked() {
    let head = "No,Kind,Depth (ft),Static level (ft),Casing (in),Casing to (ft),Reamer (in)";
    let row = |at: usize| {
        let (depth, level) = drilled(at);
        (format!(",drilled,{depth},{level},8,{},6", 60 + at * 7 % 11), None)
    };
    assert_eq!(list(head, row, &[]), none());
}

#[test]
fn remarks_of_a_narrower_pipe_a_later_level_and_a_deeper_well_count() {
    let head = "No;Obra;Prof. (m);Nivel (m);Ø (mm);Observaciones";
    let row = |at: usize| (format!(";sondeo;{};12;220;", 60 + at), round(0.22, 48.0 + at as f64));
    let rows = [
        (";sondeo;85;18;220;entubado interior PVC 125 de arriba a abajo (2012)", round(0.125, 67.0)),
        (";sondeo;85;18;220;nivel repetido el 26/03: 15,00", round(0.22, 70.0)),
    ];
    assert_eq!(list(head, row, &rows), none());
    let head = "No;Ouvrage;Prof. (m);Niveau statique (m);Diam. int. (m);Observations";
    let row = |at: usize| (format!(";forage;{};12;0,15;", 60 + at), round(0.15, 48.0 + at as f64));
    let rows = [
        (";forage;66;12;0,15;rechemisé PVC 0,10 jusqu'au fond", round(0.10, 54.0)),
        (";forage;66;12;0,15;NS repris le 14/09 : 10,00 m", round(0.15, 56.0)),
        (";forage;66;12;0,15;niveau dynamique, en cours de pompage", None),
    ];
    assert_eq!(list(head, row, &rows), none());
    let head = "No,Hole,Well ft,Static ft,Csg in,Memo";
    let row = |at: usize| {
        let (depth, level) = drilled(at);
        (format!(",Drilled,{depth},{level},6,"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let rows = [
        (",Drilled,140,30,6,\"driller went to 225 in '08, static same\"", round(6.0 * IN, 195.0 * FT)),
        (",Drilled,140,30,6,relined 4 PVC to bottom 5/16", round(4.0 * IN, 110.0 * FT)),
        (",Drilled,239,2,6,that is the flood; normal level not known", None),
    ];
    assert_eq!(list(head, row, &rows), none());
}

#[test]
fn a_note_gives_the_hole_below_and_a_new_point_is_no_new_well() {
    let head = "TD and SWL below grade. Hole below casing is same size as casing.,,,,,,\n\
                Rec,Well Constr,Csg Dia in,Csg Len ft,Well TD ft,SWL ft,Conditions";
    let row = |at: usize| {
        let (depth, level) = drilled(at);
        (format!(",Drilled,6,{},{depth},{level},", 60 + at * 7 % 11), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let rows = [
        (",Driven,2,,24,9,\"Sand in water. Point replaced, same depth.\"", round(2.0 * IN, 15.0 * FT)),
        (",Drilled,6,62,185,34,\"Well replaced by a new one in 2019\"", None),
    ];
    assert_eq!(list(head, row, &rows), none());
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("list.csv");
    std::fs::write(
        &path,
        format!("{head}\n1,Drilled,6,62,185,34,\n2,Drilled,6,60,170,30,\n3,Drilled,6,65,140,flows,\n"),
    )
    .unwrap();
    let outcome = read(&[path], &ReadingRules::default()).unwrap();
    let planned: Vec<_> = outcome
        .verdicts
        .iter()
        .filter_map(|verdict| match verdict {
            Verdict::Admitted { well, .. } => Some((well.assumed.len(), well.hazards.has(Hazard::Flowing))),
            _ => None,
        })
        .collect();
    // Nothing is assumed of the holes, and the crew is told of the water that runs over.
    assert_eq!(planned, [(0, false), (0, false), (0, true)]);
}
