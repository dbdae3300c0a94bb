//! More habits of offices: levels of several dates, entries that count instead of others, a note parted by dashes, a liner in
//! columns of its own, a spring's box in words. The lists are invented; the liters are π/4 d² h of the facts beside them.

use crate::habits::{FT, IN, list, round};

fn none() -> Vec<String> {
    Vec::new()
}

/// Up and down: numbers that count up number things.
const fn scattered(at: usize) -> usize {
    [0, 17, 5, 28, 11, 2, 23, 8][at % 8]
}

/// `,drilled,DEPTH,LEVEL,6` in feet and inches.
fn plain(at: usize) -> (String, Option<f64>) {
    let (depth, level) = (160 + scattered(at), 20 + scattered(at + 3) / 2);
    (format!(",drilled,{depth},{level},6"), round(6.0 * IN, (depth - level) as f64 * FT))
}

#[test]
fn of_levels_of_several_seasons_the_latest_counts_where_it_was_taken_at_rest() {
    let head = "TD = feet below land surface. MP = measuring point above land surface. DTW = depth to water below MP,,,,,,,\n\
                ,,,,,,,\nWell,Kind,TD (ft),MP (ft),DTW Spr 24,DTW Fall 24,DTW Spr 25,Dia (in)";
    let foot = [
        (",drilled,126,2.1,41.1,42.7,63.8 P,6", round(6.0 * IN, (126.0 - 42.7 + 2.1) * FT)),
        (",drilled,188,2.1,71.8,73.1,NM,5", round(5.0 * IN, (188.0 - 73.1 + 2.1) * FT)),
        // Years far apart, and nothing at rest.
        (",bored,38,1,24.5,15.2,NM,24", None),
        (",drilled,101,2,58.1 P,,60.4 P,6", None),
        // What the point stands above the ground decides for a shallow well.
        (",driven,22,,15,15.6,14.8,2", None),
    ];
    let well = |at: usize| {
        let (depth, level, rim) = (60.0 + scattered(at) as f64, 20.0 + scattered(at + 3) as f64 / 2.0, 1.5);
        let cells = format!(",bored,{depth},{rim},{},{},{level},24", level - 1.0, level + 1.0);
        (cells, round(24.0 * IN, (depth - level + rim) * FT))
    };
    let legend = "\n\"DTW codes: P = pumping, R = recently pumped, NM = not measured\",,,,,,,";
    let mut rows: Vec<(&str, Option<f64>)> = foot.to_vec();
    let last = format!("{}{legend}", rows[4].0);
    rows[4].0 = &last;
    assert_eq!(list(head, well, &rows), none());
    // The office has taken the height off already.
    let head = "\"DTW = depth to water, ft below land surface (MP height already taken off)\",,,,,,,\n\
                ,,,,,,,\nWell,Kind,TD (ft),MP (ft),DTW 4/23,DTW 4/24,DTW 4/25,Dia (in)";
    let well = |at: usize| {
        let (depth, level) = (60.0 + scattered(at) as f64, 20.0 + scattered(at + 3) as f64 / 2.0);
        let cells = format!(",bored,{depth},1.5,{},{},{level},24", level - 1.0, level + 1.0);
        (cells, round(24.0 * IN, (depth - level) * FT))
    };
    assert_eq!(list(head, well, &[]), none());
}

#[test]
fn dashes_part_a_note_as_commas_do() {
    let head = "WELL FIGURES FROM DRILLERS LOG OR OWNER - FEET BELOW GROUND - DIAM INCHES,,,,\n,,,,\n\
                WELL NO,WELL TYPE,WELL DEPTH,WTR LVL,WELL DIAM";
    assert_eq!(list(head, plain, &[(",dug,31,10,60", round(60.0 * IN, 21.0 * FT))]), none());
}

#[test]
fn what_was_sounded_counts_before_the_log_each_from_where_its_note_says() {
    let head = "\"All ft and in. Sounded TD and static off top of casing, TD log off grade. Csg ht = in. above grade\",,,,,,\n\
                ,,,,,,\nWell,Kind,TD log,TD sounded,Static,Csg ht,Csg dia";
    let well = |at: usize| {
        let (sounded, level) = (150.0 + scattered(at) as f64, 20.0 + scattered(at + 3) as f64 / 4.0);
        let log = if at.is_multiple_of(2) { format!("{}", sounded + 1.0) } else { String::new() };
        (format!(",drilled,{log},{sounded},{level},12,6"), round(6.0 * IN, (sounded - level) * FT))
    };
    let rows = [
        (",drilled,370,308,20.7,20,6", round(6.0 * IN, (308.0 - 20.7) * FT)),
        (",driven,16,,7.2,14,2", round(2.0 * IN, (16.0 - 7.2) * FT + 14.0 * IN)),
        (",driven,18,,8.2,12,2", round(2.0 * IN, (18.0 - 8.2) * FT + 12.0 * IN)),
        (",driven,20,,8.2,12,2", round(2.0 * IN, (20.0 - 8.2) * FT + 12.0 * IN)),
        // Shallow, and how high the casing stands is not given.
        (",dug,14,,7.5,,48", None),
    ];
    assert_eq!(list(head, well, &rows), none());
}

#[test]
fn an_entry_that_counts_instead_of_another_takes_its_place() {
    let head = "Order no,Name,Address,Kind,Depth (ft),Static (ft),Casing (in),Notes";
    let well = |at: usize| {
        let (cells, liters) = plain(at);
        (format!(",P. Own{at},{at} Mill Rd{cells},"), liters)
    };
    let six = |height: f64| round(6.0 * IN, height * FT);
    let rows = [
        (",R. Nagel,28 Fork Rd,drilled,104,30,6,", None),
        (",R. Nagel,28 Fork Rd,drilled,140,30,6,\"Sent this in before, please use this one\"", six(110.0)),
        (",N. Quick,77 Saw Rd,drilled,92,25,6,", six(67.0)),
        (",N. Quick,77 Saw Rd,drilled,92,25,6,\"Same as R02, didn't know if it went through\"", None),
        (",B. Coyne,50 Pell Rd,drilled,235,38,6,see R05", None),
        (",B. Coyne,50 Pell Rd,drilled,295,42,6,deepening of R04", six(253.0)),
        // Points to another well of the list, and nobody says which counts.
        (",A. Beck,9 Elm St,drilled,235,38,6,see R07", None),
        (",C. Dorn,12 Elm St,drilled,295,42,6,", six(253.0)),
        // No entry has this number; another is only named.
        (",E. Fell,14 Elm St,drilled,235,38,6,see X44", six(197.0)),
        (",G. Hall,16 Elm St,drilled,235,38,6,neighbor of R07", six(197.0)),
        // Two others of this person at this place: which is meant is asked.
        (",I. Jung,18 Elm St,drilled,235,38,6,", None),
        (",I. Jung,18 Elm St,drilled,95,38,6,", None),
        (",I. Jung,18 Elm St,drilled,245,38,6,use this one", six(207.0)),
    ];
    assert_eq!(list(head, well, &rows), none());
}

#[test]
fn a_record_of_a_deepening_stands_for_the_one_under_its_number() {
    let head = "Permit no,Owner,Method,Depth (ft),Static (ft),Casing (in),Remarks";
    let well = |at: usize| (format!(",Own{at}{},", plain(at).0), plain(at).1);
    let deeper = round(6.0 * IN, (325.0 - 58.0) * FT);
    let both = ",R. Schaefer,drilled,145,40,6,\nR00,R. Schaefer,drilled,325,58,6,DEEPENED 145 TO 325";
    assert_eq!(list(head, well, &[(both, deeper)]), none());
    // Another person's well under the same number is another well, or a slip: the second is held back as ever.
    let first = round(6.0 * IN, (145.0 - 40.0) * FT);
    let two = ",R. Schaefer,drilled,145,40,6,\nR00,A. Beck,drilled,325,58,6,DEEPENED 145 TO 325";
    assert_eq!(list(head, well, &[(two, first)]), none());
}

#[test]
fn a_liner_has_columns_of_its_own() {
    let head =
        "Well,Kind,Depth ft,Static ft,Casing dia in,Casing bottom ft,Liner dia in,Liner top ft,Liner bottom ft,Remarks";
    let well = |at: usize| {
        let (depth, level) = (160 + scattered(at), 20 + scattered(at + 3) / 2);
        (format!(",drilled,{depth},{level},6,{depth},,,,"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let two = |one: f64, above: f64, other: f64, below: f64| {
        Some(round(one * IN, above * FT).unwrap() + round(other * IN, below * FT).unwrap())
    };
    let rows = [
        (",drilled,230,45,8,70,5,60,230,", two(8.0, 15.0, 5.0, 170.0)),
        (",drilled,305,78,6,62,4,0,305,PVC LINER GRND TO TD", round(4.0 * IN, 227.0 * FT)),
        (",drilled,260,50,6,80,4,70,260,", two(6.0, 20.0, 4.0, 190.0)),
    ];
    assert_eq!(list(head, well, &rows), none());
}

#[test]
fn remarks_tell_levels_and_liners_in_other_words() {
    let head = "Well,Kind,Depth (ft),Static (ft),Casing (in),Remarks";
    let well = |at: usize| (format!("{},", plain(at).0), plain(at).1);
    let six = |height: f64| round(6.0 * IN, height * FT);
    let rows = [
        (",drilled,160,20,6,re-measured May 12: 35.5 ft below ground", six(124.5)),
        (",drilled,160,20,6,\"Correction - we dropped a weighted tape, it is 33 ft to water\"", six(127.0)),
        // Measured anew, and nothing says that it was the level.
        (",drilled,160,20,6,re-measured May 12: depth 161 ft", six(140.0)),
        (",drilled,230,108,6,SWL IS PUMPING LEVEL", None),
        (",drilled,230,48,6,\"static taken after yield test, not recovered\"", None),
        (",drilled,230,48,6,\"pump lost, tool not recovered\"", six(182.0)),
        (",drilled,230,48,6,static taken 24 hrs after pump test", six(182.0)),
        (",drilled,138,55,6,\"4\"\" PVC liner top to bottom, grouted in 2016\"", round(4.0 * IN, 83.0 * FT)),
        (",drilled,138,55,6,\"4\"\" PVC liner full length, sealed\"", round(4.0 * IN, 83.0 * FT)),
        (",drilled,322,20,6,DEEPENED 04/2022 NEW TD 407 FT SAME DIA", six(387.0)),
        (
            ",drilled,240,70,6,\"6 in to 90, 4 in liner from 90 on down\"",
            Some(six(20.0).unwrap() + round(4.0 * IN, 150.0 * FT).unwrap()),
        ),
        // Another well is filled in, and the house has other water: is this one still there?
        (",dug,24,9,48,\"OLD WELL FILLED 2016, RURAL WATER HOOKUP\"", None),
    ];
    assert_eq!(list(head, well, &rows), none());
}

#[test]
fn a_spring_box_is_its_sides_and_its_water() {
    let head = "Well,Kind,Depth (ft),Static (ft),Casing (in),Remarks";
    let well = |at: usize| (format!("{},cap loose", plain(at).0), plain(at).1);
    let rows = [
        (",spring,,,,\"chamber 1.5 x 1.0 m, 0.8 m water\"", Some(1200.0)),
        (",spring box,\"box is 4 ft by 6 ft, water 3 ft deep\",,,", Some(72.0 * FT * FT * FT * 1000.0)),
        (",spring box,,,,\"box 4 x 6 ft, lid 3 ft\"", None),
        (",spring box,,,,\"box 4 x 6 ft, water 2 or 3 ft\"", None),
    ];
    assert_eq!(list(head, well, &rows), none());
}

#[test]
fn a_note_gives_a_type_the_size_that_is_not_written() {
    let head = "Depth and SWL in ft below ground. Sand points (SP) are 1 1/4 in. unless a size is given,,,,\n,,,,\n\
                Well,Type,Depth (ft),SWL (ft),Casing (in)";
    let rows = [(",sand point,32,7,", round(1.25 * IN, 25.0 * FT)), (",sand pt,32,7,2", round(2.0 * IN, 25.0 * FT))];
    assert_eq!(list(head, plain, &rows), none());
}

#[test]
fn a_word_is_what_the_list_says_that_it_is() {
    let head = "Aljibe = pozo excavado a mano. Columna de agua = del espejo al fondo;;;;\n;;;;\n\
                No.;Tipo;Profundidad (m);Columna de agua (m);Diámetro (m);Observaciones";
    let well = |at: usize| {
        let kind = ["aljibe", "aljibe anillado", "aljibe en ladrillo"][at % 3];
        let (depth, tenths) = (8 + scattered(at) / 5, scattered(at + 3) % 10);
        (format!(";{kind};{depth},5;3,{tenths};1,2;"), round(1.2, 3.0 + tenths as f64 / 10.0))
    };
    let rows = [
        (";aljibe;8,3;2,5;1,0;se profundizó, ahora columna de 4,5 m", round(1.0, 4.5)),
        (";aljibe;7;;1,5;espejo a 2,1 m de la boca", round(1.5, 4.9)),
        (";aljibe;5,2;4;1,20;arriba 1,20 m, abajo como 0,80", None),
    ];
    assert_eq!(list(head, well, &rows), none());
}

#[test]
fn a_figure_that_a_wide_well_lost_is_asked() {
    let head = "Well,Type,Depth (m),Static (m),Casing dia (mm)";
    let well = |at: usize| {
        let across = if at.is_multiple_of(2) { 760 } else { 910 };
        let depth = 14 + scattered(at) / 4;
        (format!(",bored,{depth},4,{across}"), round(f64::from(across) / 1000.0, depth as f64 - 4.0))
    };
    assert_eq!(list(head, well, &[(",bored,16.7,9.6,76", None), (",drilled,60,9,152", round(0.152, 51.0))]), none());
}

#[test]
fn a_question_may_say_that_the_pump_has_been_off() {
    let head = "Well,What kind of well do you have?,How deep is the well? (feet),\
                How far down is it to the water when the pump has been off a while? (feet),\
                What is the inside diameter of the casing or pipe? (inches)";
    let rows = [
        (",drilled,260,0 - it overflows,4", round(4.0 * IN, 260.0 * FT)),
        (",drilled,110,50,regular 6 inch", round(6.0 * IN, 60.0 * FT)),
        (",drilled,110,50,standard", None),
    ];
    assert_eq!(list(head, plain, &rows), none());
}

#[test]
fn a_cell_gives_a_level_and_how_high_its_rim_stands() {
    let head = "Well,Kind,Depth (ft),Static (ft),Casing (in)";
    let height = round(24.0 * IN, (50.0 - 31.0 + 1.5) * FT);
    let rows = [
        (",bored,50,\"31 from TOC, TOC 1.5' up\",24", height),
        (",bored,50,31 below TOC (TOC 18 in above ground),24", height),
        (",bored,50,\"31 from top of pipe, pipe is 1.5 ft up\",24", height),
    ];
    assert_eq!(list(head, plain, &rows), none());
}

#[test]
fn a_bare_in_behind_a_depth_or_a_height_of_water_is_no_inch() {
    // `,drilled,DEPTH,WATER,6`: the height of the water, in feet.
    let feet = |at: usize| {
        let (depth, water) = (160 + scattered(at), 80 + scattered(at + 3));
        (format!(",drilled,{depth},{water},6"), round(6.0 * IN, water as f64 * FT))
    };
    let asked = |at: usize| (feet(at).0, None);
    let note = "Depth and Water column in are feet,,,,\n,,,,\n";
    for (head, are_known) in [
        (format!("{note}Well,Kind,Depth,Water column in,Dia (in)"), true),
        // Nobody says what it is.
        ("Well,Kind,Depth (ft),Water column in,Dia (in)".to_owned(), false),
        ("Well,Kind,Depth in,Water column (ft),Dia (in)".to_owned(), true),
        ("Well,Kind,Depth in ft,Water column (ft),Dia in".to_owned(), true),
    ] {
        let found = if are_known { list(&head, feet, &[]) } else { list(&head, asked, &[]) };
        assert_eq!(found, none(), "{head}");
    }
    // Levels that are inches by their bracket, their comma or their joint.
    let inches = |at: usize| {
        let (depth, level) = (18 + scattered(at) / 4, 100 + scattered(at + 3));
        (format!(",dug,{depth},{level},48"), round(48.0 * IN, depth as f64 * FT - level as f64 * IN))
    };
    for level in ["SWL (in)", "\"SWL, in\"", "SWL_in"] {
        let head = format!("Well,Kind,Depth (ft),{level},Dia (in)");
        assert_eq!(list(&head, inches, &[]), none(), "{head}");
    }
    let bare = |at: usize| (inches(at).0, None);
    assert_eq!(list("Well,Kind,Depth (ft),SWL in,Dia (in)", bare, &[]), none());
}

#[test]
fn a_level_that_was_taken_anew_counts_and_one_in_the_flood_does_not() {
    let head = "Well,Kind,Depth (ft),SWL (ft),Dia (in),Notes";
    let wells = |at: usize| {
        let (cells, expected) = plain(at);
        (format!("{cells},"), expected)
    };
    let of = |level: f64, across: f64| round(across * IN, (150.0 - level) * FT);
    let rows = [
        (",drilled,150,60,6,STATIC 34 REMEASURED 20190611", of(34.0, 6.0)),
        (",drilled,150,60,6,Re-checked 4/20 SWL 38", of(38.0, 6.0)),
        (",drilled,150,60,6,retaped 6/12 SWL 31 after rest", of(31.0, 6.0)),
        (",drilled,150,60,6,old SWL 31 before it was retaped", of(60.0, 6.0)),
        (",drilled,150,60,6,meas. with the flood in it", None),
        (",drilled,150,60,6,level checked on the flood visit", of(60.0, 6.0)),
        (",drilled,150,60,6,SWL is not a rest level", None),
        (",drilled,150,60,6,60 is pumping level", None),
        (",drilled,150,60,6,the 60 is where the water was when they were test pumping it", None),
        (",drilled,150,60,6,call back: diameter is 4 not 6", of(60.0, 4.0)),
        (",drilled,150,60,6,\"pump man was there, he says 4 in pipe not 6\"", None),
        (",drilled,150,60,6,open hole below casing; size n/r", None),
    ];
    assert_eq!(list(head, wells, &rows), none());
}

#[test]
fn a_deepened_well_holds_another_height_of_water() {
    let head = "Well,Kind,Depth (ft),Ft of water,Dia (in),Notes";
    let wells = |at: usize| {
        let (depth, water) = (160 + scattered(at), 80 + scattered(at + 3));
        (format!(",drilled,{depth},{water},6,"), round(6.0 * IN, water as f64 * FT))
    };
    let rows = [
        (",drilled,150,110,6,\"drilled on down to 230 in 2015, 180 ft of water now\"", round(6.0 * IN, 180.0 * FT)),
        (",drilled,140,96,6,\"drilled down to 190 in Sept., water now 141\"", round(6.0 * IN, 141.0 * FT)),
        (",drilled,140,96,6,deepened to 190 in 2012", None),
        (",drilled,140,96,6,re-checked in May: SWL 38", None),
    ];
    assert_eq!(list(head, wells, &rows), none());
}

#[test]
fn a_casing_by_width_and_length_is_no_well_of_two_sides() {
    let head = "Well,Kind,TD (ft),Pipe (in),Hole (in),SWL (ft),Memo";
    let piped = |at: usize| {
        let (depth, pipe, level) = (160 + scattered(at), 60 + scattered(at + 1), 20 + scattered(at + 3) / 2);
        let (upper, lower) = ((pipe - level) as f64, (depth - pipe) as f64);
        let expected = round(6.0 * IN, upper * FT).zip(round(5.875 * IN, lower * FT)).map(|(one, other)| one + other);
        (format!(",drilled,{depth},6 x {pipe},5-7/8,{level},"), expected)
    };
    let rows = [
        (",drilled,156,4 PVC x 156,,86,", round(4.0 * IN, 70.0 * FT)),
        (",drilled,156,6 x 156,,86,4 in PVC liner top to bottom 2014", round(4.0 * IN, 70.0 * FT)),
        (",drilled,156,6 x 156,,86,4 in liner set in 2014", None),
        (",drilled,156,6 x 156,,86,4 in. liner pulled 2014", round(6.0 * IN, 70.0 * FT)),
    ];
    assert_eq!(list(head, piped, &rows), none());
}
