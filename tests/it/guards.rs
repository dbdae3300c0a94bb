//! What must not be taken from where it does not stand: units of one measure for another, of a code, of a whole list; a level that
//! was not at rest; a width that cannot be.

use crate::habits::{FT, IN, list, round};

#[test]
fn a_note_on_sizes_says_nothing_of_depths() {
    for note in ["Nominal sizes in inches. Footages below grade", "Sizes are inches; footages from the ground"] {
        let head = format!("\"{note}\",,,,\n,,,,\nBore,Kind,Depth,SWL,Pipe");
        let well = |at: usize| {
            let (depth, level) = (160 + 3 * at, 10 + at);
            (format!(",drilled,{depth},{level},6"), round(6.0 * IN, (depth - level) as f64 * FT))
        };
        assert_eq!(list(&head, well, &[]), Vec::<String>::new(), "{note}");
    }
}

#[test]
fn a_unit_said_beside_the_column_gives_way_to_the_only_one_that_suits() {
    let head = "\"All measures in inches, levels in feet\",,,,\n,,,,\nBore,Kind,Depth,SWL (ft),Diameter";
    let well = |at: usize| {
        let (depth, level) = (100 + 3 * at, 10 + at);
        (format!(",drilled,{depth},{level},6"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    assert_eq!(list(head, well, &[]), Vec::<String>::new());
}

#[test]
fn a_code_for_a_kind_of_well_is_no_unit() {
    let head = "N°;Genre;Prof. (m);Eau à (m);Tube (mm)";
    let well = |at: usize| {
        let (kind, deep) = (["PI", "FO"][at % 2], (at * 5 % 8) as f64);
        (format!(";{kind};{};3;100", 12.0 + deep), round(0.1, 9.0 + deep))
    };
    let head = format!("PI pointe enfoncée, FO forage;;;;\n;;;;\n{head}");
    assert_eq!(list(&head, well, &[]), Vec::<String>::new());
}

#[test]
fn a_level_that_moved_is_asked() {
    let head = "No,Kind,Depth (ft),SWL (ft),Pipe (in),Remarks";
    let well = |at: usize| (format!(",drilled,{},20,6,", 80 + at), round(6.0 * IN, (60 + at) as f64 * FT));
    let asked = [
        "was drawing when taped",
        "84 was with pump on",
        "water never got a rest",
        "not at rest",
        "could not shut the pump off",
        "house was irrigating when read",
        "in use when sounded",
        "level was just pumped before",
        "no se pudo apagar la bomba",
        "niveau pas au repos",
    ]
    .map(|remark| format!(",drilled,90,20,6,{remark}"));
    let planned = [
        "rest of the casing is steel",
        "creek was running when we came",
        "no shut off valve on pump",
        "pump not running",
        "water is drawn by the barn too",
        "at rest, pump off since noon",
    ]
    .map(|remark| format!(",drilled,90,20,6,\"{remark}\""));
    let rows: Vec<(&str, Option<f64>)> = asked
        .iter()
        .map(|row| (row.as_str(), None))
        .chain(planned.iter().map(|row| (row.as_str(), round(6.0 * IN, 70.0 * FT))))
        .collect();
    assert_eq!(list(head, well, &rows), Vec::<String>::new());
}

#[test]
fn what_cannot_be_or_waters_animals_alone_is_asked() {
    let head = "No,Kind,Depth (m),SWL (m),Width (m),Remarks";
    let well = |at: usize| (format!(",dug,{},2,1.2,", 8 + at), round(1.2, (6 + at) as f64));
    let rows = [
        (",dug,9,2,0.11,", None),
        (",dug,9,2,1.2,\"cattle only, house hauls water\"", None),
        (",dug,9,2,1.2,cattle only", round(1.2, 7.0)),
        (",dug,9,2,1.2,stock tank beside it", round(1.2, 7.0)),
    ];
    assert_eq!(list(head, well, &rows), Vec::<String>::new());
}

#[test]
fn pieces_that_end_above_the_bottom_are_asked() {
    let head = "No,Kind,T.D. (ft),SWL (ft),Strings (in)";
    let well = |at: usize| {
        let depth = 150 + at;
        (format!(",drilled,{depth},30,\"6 stl 0-40, 6 OH 40-{depth}\""), round(6.0 * IN, (depth - 30) as f64 * FT))
    };
    assert_eq!(list(head, well, &[(",drilled,190,30,\"6 stl 0-40, 6 OH 40-110\"", None)]), Vec::<String>::new());
}
