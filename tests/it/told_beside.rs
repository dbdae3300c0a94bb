//! What stands beside a heading and tells how it is meant: a unit before it, a bracket, a note that counts everything from one place,
//! gallons and whose they are. The lists are invented; the liters are π/4 d² h of the facts beside them.

use crate::habits::{FT, IN, list, round};

fn none() -> Vec<String> {
    Vec::new()
}

/// Feet down, with levels and heights that differ.
pub fn well(at: usize) -> (usize, usize) {
    (120 + at * 37 % 90, 30 + at * 13 % 25)
}

pub fn water(at: usize) -> Option<f64> {
    let (depth, level) = well(at);
    round(6.0 * IN, (depth - level) as f64 * FT)
}

pub fn by_level(at: usize) -> (String, Option<f64>) {
    let (depth, level) = well(at);
    (format!(",drilled,{depth},{level},6"), water(at))
}

pub fn by_height(at: usize) -> (String, Option<f64>) {
    let (depth, level) = well(at);
    (format!(",drilled,{depth},{},6", depth - level), water(at))
}

#[test]
fn a_height_of_water_is_told_by_its_words() {
    for height in [
        "Footage of water standing",
        "\"Depth of water standing in well, ft\"",
        "Water (floor to surface) ft",
        "Water ft (height)",
        "\"Wet part of line, ft\"",
        "Water from bottom to surface (ft)",
    ] {
        let head = format!("No,Kind,Depth (ft),{height},Casing (in)");
        assert_eq!(list(&head, by_height, &[]), none(), "{head}");
    }
    let metric = |at: usize| {
        let (depth, level) = (40 + at * 11 % 30, 5 + at * 5 % 13);
        (format!(";foré;{depth};{};150", depth - level), round(0.15, (depth - level) as f64))
    };
    for height in ["Eau (m de haut)", "Puits, eau (hauteur) (m)"] {
        let head = format!("N°;Type;Profondeur (m);{height};Diamètre (mm)");
        assert_eq!(list(&head, metric, &[]), none(), "{head}");
    }
}

#[test]
fn a_level_is_told_by_what_stands_beside_it() {
    for (note, level) in [
        ("All vertical measures feet below ground", "Water depth"),
        ("All feet are below the ground", "Water depth (ft)"),
        ("Bottom and water both down from ground", "Water (ft)"),
        ("Feet below ground", "Water"),
        ("Casings in inches", "Water is down (ft)"),
        ("Drillers' reports: depth and water in feet from ground", "Report water"),
    ] {
        let head = format!("{note},,,,\n,,,,\nNo,Kind,Depth (ft),{level},Casing (in)");
        assert_eq!(list(&head, by_level, &[]), none(), "{note}: {level}");
    }
    // Without such a note nobody can tell.
    let open = |at: usize| (by_level(at).0, None);
    assert_eq!(list("No,Kind,Depth (ft),Water (ft),Casing (in)", open, &[("", None)]), none());
}

#[test]
fn the_top_of_the_casing_is_told_by_notes_and_by_its_letters() {
    let from_top = |at: usize| {
        let (depth, level) = well(at);
        (format!(",drilled,{depth},{}.5,6,1.5", level + 1), water(at))
    };
    for (note, level, height) in [
        ("Depths are from grade. Static is taped from the top of the casing.", "Static (ft)", "Stick-up (ft)"),
        ("As found", "Below T.O.C. (ft)", "Stick-up (ft)"),
        ("btoc = below top of casing; ags = above ground surface", "DTW (ft btoc)", "TOC (ft ags)"),
        ("BMP = below measuring point", "Water level (ft BMP)", "MP above LS (ft)"),
    ] {
        let head = format!("{note},,,,,\n,,,,,\nNo,Kind,Depth (ft),{level},Casing (in),{height}");
        assert_eq!(list(&head, from_top, &[]), none(), "{note}: {level}");
    }
    let of_all = |at: usize| {
        let (depth, level) = well(at);
        (format!(",drilled,{depth},{}.5,6", level + 1), water(at))
    };
    let head = "Every casing stands 1.5 ft above ground. Static levels read from casing top; depths below ground.,,,,\n,,,,\n\
                No,Kind,Depth below ground (ft),Static from casing top (ft),Dia. of casing (in)";
    assert_eq!(list(head, of_all, &[]), none());
}

#[test]
fn the_unit_of_a_heading_is_that_of_every_kind_of_well() {
    let kinds = |at: usize| {
        let wide = if at.is_multiple_of(2) { 24 } else { 6 };
        let kind = if at.is_multiple_of(2) { "barrenado" } else { "perforado" };
        let high = 4 + at * 5 % 11;
        (format!(",{kind},{},{high},{wide}", 20 + 5 * at), round(f64::from(wide) * IN, high as f64))
    };
    for width in ["Pulgadas de tubo", "Tubo (pulg.)", "Camisa pulg."] {
        let head = format!("Orden,Tipo pozo,Metros de pozo,Metros de agua,{width}");
        assert_eq!(list(&head, kinds, &[]), none(), "{head}");
    }
    let head =
        "Perforaciones Arroyo Hondo - lista en pies y pulgadas,,,,\n,,,,\nNo,Tipo,Prof. pies,N.E. pies,Camisa pulg.";
    let drilled = |at: usize| (by_level(at).0.replace("drilled", "perforado"), water(at));
    assert_eq!(list(head, drilled, &[]), none());
    let before = "in feet and inches as marked,,,,\n,,,,\nNo,Kind,ft - Total depth,ft - Static level,in - Casing";
    assert_eq!(list(before, by_level, &[]), none());
    let marks = "No,Kind,TD',SWL',\"Csg.\"\"\"";
    assert_eq!(list(marks, by_level, &[]), none());
    let decimeters = |at: usize| {
        let (depth, level) = (400 + at * 37 % 90, 60 + at * 13 % 40);
        (format!(",drilled,{depth},{level},15"), round(0.15, (depth - level) as f64 / 10.0))
    };
    assert_eq!(list("No,Kind,Depth (dm),Water level below ground (dm),Diameter (cm)", decimeters, &[]), none());
}

#[test]
fn nominal_bores_are_millimeters() {
    let bores = |at: usize| {
        let (depth, level) = (40 + at * 11 % 30, 5 + at * 5 % 13);
        (format!(",drilled,{depth},{level},DN 100"), round(0.1, (depth - level) as f64))
    };
    for width in ["Pipe DN", "Pipe", "Casing"] {
        let head = format!("No,Kind,Depth (m),Water below ground (m),{width}");
        assert_eq!(list(&head, bores, &[]), none(), "{head}");
    }
}

#[test]
fn gallons_are_those_of_the_list_or_asked() {
    const US_GALLON_L: f64 = 3.785_411_784;
    let gallons = |at: usize| (format!(",drilled,120,6,{}", 50 + at), Some((50 + at) as f64 * US_GALLON_L));
    let asked = |at: usize| (gallons(at).0, None);
    let head = |note: &str| format!("{note},,,,\n,,,,\nNo,Kind,Depth (ft),Casing (in),Gallons of water in well");
    for note in ["Harrow County Extension worksheet", "Wells of Ohio", "Water in the well in U.S. gallons"] {
        assert_eq!(list(&head(note), gallons, &[]), none(), "{note}");
    }
    // Feet, inches and a county are Canadian as well.
    for note in ["Well list", "Harrow County wells", "Kestrel Plain, Alberta: county extension"] {
        assert_eq!(list(&head(note), asked, &[]), none(), "{note}");
    }
    let spanish = |at: usize| (gallons(at).0.replace("drilled", "perforado"), gallons(at).1);
    let head = "Caso,Tipo de pozo,Profundidad (pies),Diámetro (pulgadas),Agua en el pozo (galones EE.UU.)";
    assert_eq!(list(head, spanish, &[]), none());
    let liters = |at: usize| (format!(",drilled,48,125,{}", 300 + at), Some((300 + at) as f64));
    assert_eq!(list("No,Kind,\"Hole depth, m\",\"Hole size, mm\",\"Standing water, litres\"", liters, &[]), none());
}
