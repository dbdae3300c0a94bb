//! Lists whose columns say by their place what they are: feet and inches side by side, strings of casing below bands, levels of
//! several rounds, letters explained at the foot. The lists are invented; the liters are π/4 d² h of the facts beside them.

use crate::habits::{FT, IN, list, round};

fn none() -> Vec<String> {
    Vec::new()
}

const fn scattered(at: usize) -> usize {
    (at * 7) % 11
}

#[test]
fn feet_and_inches_in_two_columns_are_one_length() {
    let well = |at: usize| {
        let (feet, inches, level, rest) = (90 + 9 * at, scattered(at), 20 + at, (at * 5) % 12);
        let water = (feet - level) as f64 * FT + (inches as f64 - rest as f64) * IN;
        (format!(",drilled,{feet},{inches},{level},{rest},6"), round(6.0 * IN, water))
    };
    let rows = [
        // More than a foot of inches, and inches of nothing.
        (",drilled,120,14,30,0,6", None),
        (",drilled,120,0,,9,6", None),
        (",drilled,120,,30,6,6", round(6.0 * IN, 89.5 * FT)),
        (",drilled,120 1/2,6,30,0,6", None),
    ];
    for head in [
        ",,DEPTH,,WATER BELOW GROUND,,WIDTH\nTag,Kind,ft,in,ft,in,in",
        "Tag,Kind,Depth ft,Depth in,Static level ft,Static level in,Casing dia in",
        "Tag,Kind,Depth (feet),inches,Water level (feet),inches,Casing dia (in)",
        "Tag,Kind,Depth,,Water level,,Casing dia\n,,ft,in,ft,in,in",
    ] {
        assert_eq!(list(head, well, &rows), none(), "{head}");
    }
}

#[test]
fn meters_and_centimeters_in_two_columns_are_one_length() {
    let well = |at: usize| {
        let (meters, centimeters, level, rest) = (8 + at, 9 * scattered(at), 2 + at % 3, (at * 35) % 100);
        let water = (meters - level) as f64 + (centimeters as f64 - rest as f64) / 100.0;
        (format!(",dug,{meters},{centimeters},{level},{rest},120"), round(1.2, water))
    };
    let head = ",,Depth,,Depth to water,,Diameter\nNo.,Type,m,cm,m,cm,cm";
    assert_eq!(list(head, well, &[]), none());
}

#[test]
fn inches_that_are_widths_beside_feet_of_depth_stay_widths() {
    let well = |at: usize| {
        let (depth, level) = (90 + 9 * at, 20 + at);
        (format!(",drilled,{depth},{level},6"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    assert_eq!(list("Tag,Kind,Depth ft,Static level ft,Casing in", well, &[]), none());
}

/// Water in a well of several widths, each in inches with the feet from where to where it is filled.
fn water(stretches: &[(f64, f64, f64)]) -> Option<f64> {
    let all = stretches.iter().map(|(across, from, to)| round(across * IN, (to - from) * FT).unwrap());
    Some(all.sum())
}

#[test]
fn strings_below_bands_hold_the_water_in_the_innermost() {
    let well = |at: usize| {
        let (depth, level) = (300 + 10 * at as u32, 80 + at as u32);
        let water = water(&[(8.0, f64::from(level), 190.0), (6.0, 190.0, f64::from(depth))]);
        (format!(",drilled,{depth},12,0,60,8,0,200,6,190,{depth},,{level}"), water)
    };
    let rows = [
        (",drilled,200,10,0,50,6,+2,200,,,,,70", water(&[(6.0, 70.0, 200.0)])),
        (",drilled,260,8,+1.5,60,,,,,,,8,70", water(&[(8.0, 70.0, 260.0)])),
        (",drilled,400,12,0,90,8,85,250,,,,7 7/8,150", water(&[(8.0, 150.0, 250.0), (7.875, 250.0, 400.0)])),
        // Where the first ends nobody says.
        (",drilled,400,12,0,,8,85,250,,,,8,150", None),
    ];
    let bands = ",,,Casing 1,,,Casing 2,,,Liner,,,,\nWell,Method,Depth ft,Dia in,From ft,To ft,Dia in,From ft,To ft,Dia in,From ft,To ft,Open hole dia in,SWL ft";
    assert_eq!(list(bands, well, &rows), none());
}

#[test]
fn strings_that_headings_name_hold_the_water_in_the_innermost() {
    let well = |at: usize| {
        let (outer, inner, depth, level) = (60 + at as u32, 150 + 3 * at as u32, 240 + 5 * at as u32, 25 + at as u32);
        // The inner one hangs from the outer, or reaches the surface.
        let (top, from) =
            if at.is_multiple_of(2) { ((outer - 5).to_string(), outer - 5) } else { ("+1".to_owned(), level) };
        let all = water(&[
            (8.0, f64::from(level), f64::from(from.max(level))),
            (6.0, f64::from(from.max(level)), f64::from(inner)),
            (5.5, f64::from(inner), f64::from(depth)),
        ]);
        (format!(",rotary,{depth},8,+1,{outer},6,{top},{inner},OH,5.5,{level}"), all)
    };
    let rows = [
        // One string, and a hole or nothing below it.
        (",cable tool,180,6,+1,60,,,,OH,6,30", water(&[(6.0, 30.0, 180.0)])),
        (",rotary,140,6,+1,140,,,,,,40", water(&[(6.0, 40.0, 140.0)])),
        // Where the inner one ends nobody says.
        (",rotary,300,10,+2,80,8,80,,OH,6,40", None),
    ];
    for strings in [
        "Outer str nom (in),Outer top (ft),Outer btm (ft),Inner str nom (in),Inner top (ft),Inner btm (ft),Finish,Finish nom (in)",
        "Surf csg dia (in),Surf csg from (ft),Surf csg to (ft),Prod csg dia (in),Prod csg from (ft),Prod csg to (ft),Finish,Open hole dia (in)",
        "Surface casing size (in),from (ft),to (ft),Liner size (in),set from (ft),set to (ft),Finish,Open hole size (in)",
    ] {
        let head = format!("Log,Method,TD (ft),{strings},SWL (ft)");
        assert_eq!(list(&head, well, &rows), none(), "{head}");
    }
    // What the note says of the level is not said of the depth.
    let head = "\"Footages from land surface. Stood at = static, down from the MP; MP ht = feet the MP is above land surface\",,,,\n\
                Log,Method,TD (ft),Dia (in),Stood at (ft),MP ht (ft)";
    let bore = |at: usize| {
        let (depth, level) = (48 + scattered(at), 20 + at * 5 % 8);
        (format!(",rotary,{depth},6,{level},2"), round(6.0 * IN, (depth - level + 2) as f64 * FT))
    };
    assert_eq!(list(head, bore, &[(",dug,20,48,10,", None)]), none());
}

#[test]
fn a_to_beside_a_width_is_its_end_and_the_last_one_the_bottom() {
    let well = |at: usize| {
        let (casing, depth, level) = (40 + at as u32, 180 + 10 * at as u32, 25 + at as u32);
        let water = water(&[(8.0, f64::from(level), f64::from(casing)), (6.0, f64::from(casing), f64::from(depth))]);
        (format!(",rotary,8,{casing},6,{depth},{level}"), water)
    };
    let rows = [(",cable tool,6,110,,110,30", water(&[(6.0, 30.0, 110.0)]))];
    for head in
        ["Log,Method,Dia 1 in,0 to ft,Dia 2 in,to ft,SWL ft", "Log,Method,Dia 1 in,to ft,Dia 2 in,down to ft,SWL ft"]
    {
        assert_eq!(list(head, well, &rows), none(), "{head}");
    }
}

#[test]
fn of_several_rounds_the_last_number_counts_where_the_list_says_so() {
    let well = |at: usize| {
        let (depth, level) = (120 + 10 * at, 40 + scattered(at));
        let cells = format!(",drilled,6,{depth},{},{},{},{level}", level + 9, level + 7, level + 3);
        (cells, round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let at = |depth: f64, level: f64| round(6.0 * IN, (depth - level) * FT);
    let rows = [
        (",drilled,6,150,52,48,44,P", at(150.0, 44.0)),
        (",drilled,6,150,52,NM,W,P", at(150.0, 52.0)),
        (",drilled,6,150,52,31,W,", at(150.0, 31.0)),
        (",drilled,6,150,P,NM,W,P", None),
    ];
    for note in [
        "Feet below ground. Go by the last round that has a number. P = pump on, NM = not measured, W = wet could not open",
        "Feet below ground. The latest reading counts. P = pumping, NM = not measured, W = under water",
    ] {
        let quoted = format!("\"{note}\",,,,,,,");
        let head = format!("{quoted}\n,,,,Depth to water,,,\nNo.,Kind,Casing in,Depth ft,11/20,1/15,3/28,4/19");
        assert_eq!(list(&head, well, &rows), none(), "{note}");
    }
}

#[test]
fn letters_for_headings_are_explained_at_the_foot() {
    let well = |at: usize| {
        let (depth, level) = (120 + 10 * at, 40 + scattered(at));
        (format!(",drilled,{depth},{level},6"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let foot = "\n\"DP depth ft, WL water level ft from ground, CS casing in.\",,,,";
    let mut rows = vec![(",drilled,150,31,5", round(5.0 * IN, 119.0 * FT))];
    let last = format!(",drilled,140,36,4{foot}");
    rows.push((&last, round(4.0 * IN, 104.0 * FT)));
    assert_eq!(list("No.,Kind,DP,WL,CS", well, &rows), none());
}

#[test]
fn an_old_well_without_an_id_is_called_by_its_place() {
    let well = |at: usize| {
        let (depth, level) = (120 + 10 * at, 40 + at);
        (format!(",Owner {at},drilled,{depth},{level},6"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let mut head = String::from("Permit,Owner,Kind,Depth ft,SWL ft,Casing in\n");
    head += ",Old Abel,dug,18,6,48\n,,dug,18,6,48\n,,,900,300,48";
    assert_eq!(list(&head, well, &[]), none());
    let read = crate::habits::liters(&format!("{head}\nW9,Owner,drilled,100,40,6\n"));
    let without: Vec<&String> = read.keys().filter(|id| *id != "W9").collect();
    assert_eq!(without.len(), 1, "{without:?}");
    assert!((read[without[0]] / round(48.0 * IN, 12.0 * FT).unwrap() - 1.0).abs() < 0.01);
}

#[test]
fn two_wells_of_one_farm_are_told_apart_by_what_they_serve() {
    let rows = [
        "F1,barn,drilled,220,60,6",
        "F1,house,drilled,140,48,6",
        "F2,barn,dug,26,10,48",
        "F2,house,driven,24,12,2",
        "F3,barn,drilled,190,46,6",
        "F4,house,drilled,175,44,6",
    ];
    let text = format!("Member,Serves,Kind,Depth ft,Water ft from ground,Casing in\n{}\n", rows.join("\n"));
    assert_eq!(crate::habits::liters(&text).len(), rows.len());
}

#[test]
fn the_box_of_a_spring_has_columns_of_its_own() {
    let head = "Code,Kind/Dug well,Kind/Borehole,Kind/Protected spring,Kind/Other,\"Other kind, specify\",Inside diameter (cm),\
                Depth (m),Depth to water (m),Spring box length (m),Spring box width (m),Water depth in spring box (m)";
    let well = |at: usize| {
        let (depth, level) = (6 + at, 2 + at % 3);
        (format!(",1,0,0,0,,120,{depth},{level},,,"), round(1.2, (depth - level) as f64))
    };
    let rows = [
        (",0,0,1,0,,,,,2,1.5,0.8", Some(2400.0)),
        (",0,0,1,0,,,,,2,,0.8", None),
        (",0,0,0,1,dug well,110,7,3,,,", round(1.1, 4.0)),
    ];
    assert_eq!(list(head, well, &rows), none());
}
