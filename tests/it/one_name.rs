//! Headings that are told by what stands beside them: by the word they share, by what the others leave to them, by the clause before a
//! question. The lists are invented; the liters are π/4 d² h of the facts beside them.

use crate::habits::{FT, IN, list, round};
use crate::told_beside::{by_height, by_level, water, well};

fn none() -> Vec<String> {
    Vec::new()
}

#[test]
fn how_much_water_stands_is_no_level() {
    for height in [
        "Wet feet (feet of pipe under water)",
        "Water stands (ft of water above bottom)",
        "Water (ft high above bottom)",
        "Water surface to bottom (feet)",
        "\"Water thickness, ft\"",
    ] {
        let head = format!("No,Kind,Depth (ft),{height},Casing (in)");
        assert_eq!(list(&head, by_height, &[]), none(), "{head}");
    }
    for (note, height) in [
        ("\"Column height = standing water, bottom to surface.\"", "Column height"),
        ("Standing water is the height of water from the bottom of the well up.", "Standing water"),
    ] {
        let head = format!("{note},,,,\n,,,,\nNo,Kind,Depth (ft),{height},Casing (in)");
        let feet = |at: usize| {
            let (depth, level) = well(at);
            (format!(",drilled,{depth},{} ft,6", depth - level), water(at))
        };
        assert_eq!(list(&head, feet, &[]), none(), "{note}");
    }
}

#[test]
fn a_question_asks_for_the_level() {
    for question in [
        "How many feet down is the water?",
        "\"8. When nobody has run water for a while, how many feet down from the ground is the water?\"",
    ] {
        let head = format!("No,Kind,Depth (ft),{question},Casing (in)");
        assert_eq!(list(&head, by_level, &[]), none(), "{question}");
    }
    // A level that is drawn down by the pump is none at rest.
    let pumped = |at: usize| (by_level(at).0, None);
    let head = "No,Kind,Depth (ft),\"When the pump has not stopped pumping, how many feet down from the ground is the water?\",Casing (in)";
    assert_eq!(list(head, pumped, &[]), none());
    let spanish = |at: usize| (by_level(at).0.replace("drilled", "perforado"), water(at));
    let head =
        "Caso,¿Qué tipo de pozo es?,¿Cuántos pies de hondo?,¿A cuántos pies está el agua?,¿Cuántas pulgadas de ancho?";
    assert_eq!(list(head, spanish, &[]), none());
}

#[test]
fn a_word_that_headings_share_is_the_well() {
    let bracketed = "No,Well (type),\"Well (depth, ft)\",\"Well (static, ft)\",\"Well (casing, in)\"";
    assert_eq!(list(bracketed, by_level, &[]), none());
    let filled = "No,Well (how made),Well (feet deep),Well (filled feet),Well (inches wide)";
    assert_eq!(list(filled, by_height, &[]), none());
    let short = "No,Wl. type,\"Wl. depth, ft\",\"Water thickness, ft\",\"Wl. dia., in\"";
    assert_eq!(list(short, by_height, &[]), none());
    let inside = "No,Stock well type,Stock well depth (ft),Length of water column (ft),Stock well ID (in)";
    assert_eq!(list(inside, by_height, &[]), none());
}

#[test]
fn the_surface_is_the_grounds_where_the_water_has_a_column() {
    let both = "No,Kind,Depth from surface,Water from surface,Bore";
    let units = |at: usize| {
        let (depth, level) = well(at);
        (format!(",drilled,{depth} ft,{level} ft,6 in"), water(at))
    };
    assert_eq!(list(both, units, &[]), none());
}

#[test]
fn a_kind_of_pump_is_no_kind_of_well() {
    let pumps = |at: usize| {
        let (cells, liters) = by_level(at);
        (format!(",{}{cells}", ["jet", "jet", "submersible"][at % 3]), liters)
    };
    assert_eq!(list("No,Pump set,Well,Depth (ft),Static level (ft),Casing (in)", pumps, &[]), none());
    let coded = |at: usize| (pumps(at).0.replace("drilled", "dr"), water(at));
    let head = "No,Pump head,\"Well (dr = drilled, du = dug)\",Ground to bottom (ft),Ground to water (ft),Pipe (in)";
    assert_eq!(list(head, coded, &[]), none());
}

#[test]
fn what_stands_up_is_no_width() {
    let high = |at: usize| {
        let (cells, liters) = by_level(at);
        (format!("{cells},{}", 12 + at % 5), liters)
    };
    for up in [
        "\"Casing upstand, in\"",
        "\"Casing reveal, inches\"",
        "Casing projects (in)",
        "Headworks ht (in)",
        "Parapet height (in)",
    ] {
        let head = format!("No,Kind,Depth (ft),Static level (ft),\"Bore, in\",{up}");
        assert_eq!(list(&head, high, &[]), none(), "{head}");
    }
    // A height of something that is not known is none of water, and no reason to hold the well back.
    let head = "No,Kind,Depth (ft),Static level (ft),Bore (in),Gatepost height (in)";
    assert!(list(head, high, &[]).iter().all(|row| row.contains("None")), "read wrong");
}

#[test]
fn a_depth_that_was_plumbed_hangs_from_the_same_point() {
    let dipped = |at: usize| {
        let (depth, level) = well(at);
        (format!(",drilled,{depth},{level},6,24"), water(at))
    };
    let head = |depth: &str| {
        format!(
            "Dipped from top of casing (ft).,,,,,\n,,,,,\nNo,Kind,{depth} (ft),Dipped level (ft),Bore (in),Casing upstand (in)"
        )
    };
    assert_eq!(list(&head("Plumbed depth"), dipped, &[]), none());
    // A depth that nobody measured there is counted from the ground.
    let logged = |at: usize| {
        let (depth, level) = well(at);
        (dipped(at).0, round(6.0 * IN, (depth - level + 2) as f64 * FT))
    };
    assert_eq!(list(&head("Depth"), logged, &[]), none());
}

#[test]
fn a_nominal_size_is_no_outside() {
    let metric = |at: usize| {
        let (depth, level) = (40 + at * 11 % 17, 5 + at * 3 % 7);
        (format!(",drilled,{depth},{level},150"), round(0.15, (depth - level) as f64))
    };
    assert_eq!(list("WWR_NO,METHOD,FINAL_DEPTH_M,SWL_M,CASING_NOM_MM", metric, &[]), none());
}
