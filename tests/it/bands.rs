//! Lists that say by a band, a column beside or the order in a cell what their measures are: the unit in a column of its own, one
//! cell over bottom and water, an upper and a lower casing, two measures in one cell, what an owner says. The lists are
//! invented; the liters are π/4 d² h of the facts beside them.

use crate::habits::{FT, IN, list, liters, round};

fn none() -> Vec<String> {
    Vec::new()
}

#[test]
fn a_column_of_units_is_of_the_measure_before_it() {
    let well = |at: usize| {
        let (depth, level) = (120 + 9 * at, 30 + at);
        (format!(",drilled,6,in,{depth},{level}"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let rows = [
        (",bored,2,ft,44,20", round(2.0 * FT, 24.0 * FT)),
        (",bored,2.5,ft,52,18", round(2.5 * FT, 34.0 * FT)),
        (",dug,4,ft,21,9", round(4.0 * FT, 12.0 * FT)),
        (",dug,48,in,21,9", round(48.0 * IN, 12.0 * FT)),
        (",dug,,,21,9", None),
    ];
    for unit in
        ["in/ft", "ft / in", "in or ft", "unit", "U", "UOM", "", "Measured in", "inches/feet", "Unidad", "unité"]
    {
        let head = format!("Tag,Kind,Diameter,{unit},Well depth ft,Depth to water ft");
        assert_eq!(list(&head, well, &rows), none(), "{unit}");
    }
}

#[test]
fn a_column_of_in_and_out_is_no_unit() {
    let well = |at: usize| {
        let (depth, level) = (120 + 9 * at, 30 + at);
        (format!(",drilled,{depth},in,{level},6"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    assert_eq!(list("Tag,Kind,Well depth ft,Pump,Depth to water ft,Casing in", well, &[]), none());
}

#[test]
fn a_band_says_what_bottom_and_water_are_counted_from() {
    let well = |at: usize| {
        let (depth, level) = (90 + 9 * at, 20 + at * 5 % 7);
        (format!(",drilled,{depth},{level},18,6"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    // The height is that of both.
    let rows = [(",dug,24,9,30,36", round(36.0 * IN, 15.0 * FT)), (",dug,24,,30,36", None)];
    for (band, height) in [
        ("below pump base", "Base height in"),
        ("from top of casing", "Casing above ground in"),
        ("down from the rim", "Stick-up in"),
        ("below top of slab", "Slab height in"),
        ("measured from top of pipe", "Pipe up in"),
    ] {
        let head = format!(",,{band},,,\nTag,Kind,Bottom ft,Water ft,{height},Casing size in");
        assert_eq!(list(&head, well, &rows), none(), "{band}");
        let head = format!(",,\"{band}, ft\",,others,\nTag,Kind,bottom,water,{height},Casing size in");
        assert_eq!(list(&head, well, &rows), none(), "{band}, two bands");
    }
}

#[test]
fn bands_in_other_languages_say_what_is_counted_from() {
    let well = |kind: &'static str| {
        move |at: usize| {
            let (depth, level) = (9 + (at * 7) % 11, 3 + at % 3);
            (format!(",{kind},{depth},{level},0.6,1.2"), round(1.2, (depth - level) as f64))
        }
    };
    let head = ",,desde el brocal,,,\nClave,Tipo,Fondo m,Agua m,Altura del brocal m,Diámetro m";
    assert_eq!(list(head, well("excavado"), &[]), none());
    let head = ",,depuis la margelle,,,\nNo,Type,Fond m,Eau m,Hauteur margelle m,Diamètre m";
    assert_eq!(list(head, well("puits busé"), &[]), none());
    let head = ",,desde a boca,,,\nNo.,Tipo,Fundo m,Água m,Altura da boca m,Diâmetro m";
    assert_eq!(list(head, well("poço escavado"), &[]), none());
}

/// Water in a well of two widths, each in inches with the feet from where to where it is filled.
fn strings(stretches: &[(f64, f64, f64)]) -> Option<f64> {
    Some(stretches.iter().map(|(across, from, to)| round(across * IN, (to - from) * FT).unwrap()).sum())
}

#[test]
fn the_lower_of_two_strings_ends_where_the_well_does() {
    let well = |at: usize| {
        let (upper, depth, level) = (90 + at as u32 * 5 % 7, 210 + 10 * at as u32, 45 + at as u32 * 3 % 8);
        let water = strings(&[(8.0, f64::from(level), f64::from(upper)), (6.0, f64::from(upper), f64::from(depth))]);
        (format!(",drilled,8,{upper},6,{depth},{level}"), water)
    };
    let rows = [
        // No lower string, one whose bottom nobody knows, a level below the end of the upper one.
        (",drilled,6,180,,,44", strings(&[(6.0, 44.0, 180.0)])),
        (",drilled,8,70,6,,40", None),
        (",drilled,8,100,6,190,120", strings(&[(6.0, 120.0, 190.0)])),
    ];
    for (upper, lower) in
        [("UPPER CASING", "LOWER CASING"), ("Upper casing", "Lower casing / screen"), ("Casing", "Screen")]
    {
        let head = format!(",,{upper},,{lower},,\nNo.,Kind,Dia in,Bottom ft,Dia in,Bottom ft,SWL ft");
        assert_eq!(list(&head, well, &rows), none(), "{upper}, {lower}");
    }
}

#[test]
fn the_last_band_reaches_as_far_as_the_one_before_it() {
    let well = |at: usize| {
        let (upper, lower, depth, level) = (30 + at % 5, 80 + at % 7, 200 + 10 * at, 20 + at % 9);
        let water = strings(&[
            (10.0, level as f64, upper as f64),
            (8.0, upper as f64, lower as f64),
            (6.0, lower as f64, depth as f64),
        ]);
        (format!(",drilled,10,{upper},8,{lower},6,{depth},{depth},{level}"), water)
    };
    let rows = [
        (",drilled,10,35,,,6,240,240,22", strings(&[(10.0, 22.0, 35.0), (6.0, 35.0, 240.0)])),
        // A string that ends between two others and has no width.
        (",drilled,10,35,,110,6,240,240,22", None),
    ];
    let head = ",,UPPER CASING,,LOWER CASING,,OPEN HOLE,,,\n\
                No.,Kind,Dia in,To ft,Dia in,To ft,Dia in,To ft,Total depth ft,Static level ft";
    assert_eq!(list(head, well, &rows), none());
}

#[test]
fn two_measures_in_one_cell_are_in_the_order_of_the_heading() {
    let water = |depth: usize, level: usize| round(6.0 * IN, (depth - level) as f64 * FT);
    let note = "first number is the depth, second is how far down to the water from the ground";
    for (title, heading, mark) in [
        (note, "Depth / water (ft)", "/"),
        ("", "Depth/SWL (ft)", "/"),
        ("", "Depth & static level (ft)", " & "),
        ("", "Bottom / static (feet)", " - "),
    ] {
        let well = |at: usize| {
            let (depth, level) = (120 + 9 * at, 30 + at);
            (format!(",drilled,{depth}{mark}{level},6"), water(depth, level))
        };
        let head = format!("\"{title}\",,,\nTag,Kind,{heading},Casing in");
        let second = format!(",drilled,40{mark}110,6");
        let rows = [(",drilled,120,6", None), (second.as_str(), None), (",drilled,,6", None)];
        assert_eq!(list(&head, well, &rows), none(), "{heading}");
    }
    // Nobody says whether the water is counted down or up.
    let well = |at: usize| (format!(",drilled,{}/{},6", 120 + 9 * at, 30 + at), None);
    assert_eq!(list("Tag,Kind,Depth / water (ft),Casing in", well, &[]), none());
}

#[test]
fn a_measure_is_the_same_whoever_tells_it() {
    let well = |at: usize| {
        let (depth, level) = (120 + 9 * at, 30 + at);
        (format!(",drilled,{depth},{level},6"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    for heading in [
        "Owner says deep (ft)",
        "Driller's depth (ft)",
        "Owner told us depth (ft)",
        "Tenant thinks depth (ft)",
        "Card says depth (ft)",
    ] {
        let head = format!("Tag,Kind,{heading},SWL ft,Casing in");
        assert_eq!(list(&head, well, &[]), none(), "{heading}");
    }
    let metric = |at: usize| {
        let (depth, level) = (40 + 3 * at, 9 + at);
        (format!(",perforado,{depth},{level},0.15"), round(0.15, (depth - level) as f64))
    };
    let head = "Clave,Tipo,El dueño dice profundidad (m),Nivel estático (m),Diámetro (m)";
    assert_eq!(list(head, metric, &[]), none());
}

#[test]
fn gallons_that_stand_in_the_well_are_asked_which_gallons() {
    let list = "Tag,Kind,Dia.,Depth,Gallons standing\nT1,drilled,\"4\"\"\",180',73\nT2,drilled,\"6\"\"\",220',222\n\
                T3,drilled,\"6\"\"\",150',141\nT4,drilled,\"5\"\"\",160',120\n";
    assert!(liters(list).is_empty());
    let standing = list.replace("Gallons standing", "Gallons standing (US gal)");
    let read = liters(&standing);
    assert!((read["T1"] / (73.0 * 3.785_411_784) - 1.0).abs() < 0.01, "{read:?}");
}

#[test]
fn codes_are_told_behind_the_name_of_their_column_in_capitals() {
    let head = "\"Well cards of the township. WELL: 1 drilled, 2 dug, 3 drove point, 4 bored, 0 none\",,,,,,\n\
                \"Tape Ft = ground to water. WASTE: F field, D road ditch, S town sewer\",,,,,,\n\
                Card No.,Owner,Well,Well ft,Bore in,Tape Ft,Waste";
    let well = |at: usize| {
        let (depth, level) = (120 + 9 * at, 30 + at * 5 % 7);
        (format!(",Owner {at},1,{depth},6,{level},F"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let rows = [
        (",Abel,2,21,48,8,D", round(48.0 * IN, 13.0 * FT)),
        (",Bell,4,46,24,20,S", round(24.0 * IN, 26.0 * FT)),
        (",Cole,0,,,,", None),
        (",Dale,3,26,1.5,12,F", round(1.5 * IN, 14.0 * FT)),
    ];
    assert_eq!(list(head, well, &rows), none());
}

#[test]
fn remarks_of_width_level_and_flow_count() {
    let well = |at: usize| {
        let (depth, level) = (40 + 3 * at, 9 + at);
        (format!(",drilled,{depth},-{level},150,"), round(0.15, (depth - level) as f64))
    };
    let rows = [
        (",drilled,60,1.4,150,flows", round(0.15, 60.0)),
        (",drilled,60,1.4,150,does not flow", None),
        (",drilled,60,1.4,150,", None),
        (",drilled,30,-10,100,monitoring bore", None),
    ];
    assert_eq!(list("Bore,Kind,Depth m,SWL m,Casing mm,Remarks", well, &rows), none());
    let well = |at: usize| {
        let (depth, level) = (120 + 9 * at, 30 + at);
        (format!(",drilled,6,{depth},{level},"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let rows = [
        (",drilled,,180,40,5 inch per driller", round(5.0 * IN, 140.0 * FT)),
        (",driven,,24,11,1 1/4 pipe", round(1.25 * IN, 13.0 * FT)),
        (",drilled,,180,40,2 pipes to barn", None),
        (",drilled,6,180,90,\"pump was on, milking\"", None),
        (",drilled,6,180,90,pump was on generator", round(6.0 * IN, 90.0 * FT)),
    ];
    assert_eq!(list("Tag,Kind,Casing in,Depth ft,SWL ft,Remarks", well, &rows), none());
}
