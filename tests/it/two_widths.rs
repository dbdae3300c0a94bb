//! Wells of two widths in three columns, and what is asked where one of the three is missing. The lists are invented; the liters are
//! π/4 d² h of each part.

use crate::habits::{FT, IN, list, round};

fn none() -> Vec<String> {
    Vec::new()
}

/// A well with its change of width, or without: depth and level, and where 8 in. give way to 5 in.
fn well(at: usize) -> (usize, usize, Option<usize>) {
    (150 + at * 37 % 90, 20 + at * 13 % 25, (!at.is_multiple_of(3)).then_some(70 + at))
}

/// Feet and inches.
fn in_feet(at: usize) -> Option<f64> {
    let (depth, level, change) = well(at);
    let upper = round(8.0 * IN, (change.unwrap_or(depth) - level) as f64 * FT)?;
    let lower = change.map_or(Some(0.0), |change| round(5.0 * IN, (depth - change) as f64 * FT))?;
    Some(upper + lower)
}

fn row(at: usize) -> (String, Option<f64>) {
    let (depth, level, change) = well(at);
    let (end, lower) = change.map_or((String::new(), ""), |change| (change.to_string(), "5"));
    (format!(",drilled,{depth},{level},8,{end},{lower}"), in_feet(at))
}

#[test]
fn the_upper_width_ends_where_the_lower_one_begins() {
    for [upper, end, lower] in [
        ["\"Upper bore, in\"", "\"Upper bore to, ft\"", "\"Lower bore, in\""],
        ["Upper diameter (in)", "Upper diameter ends at (ft)", "Lower diameter (in)"],
        ["\"Top size, in\"", "\"Size changes at, ft\"", "\"Bottom size, in\""],
        ["Casing dia. 1 (in)", "Casing 1 bottom (ft)", "Casing dia. 2 (in)"],
        ["0 ft to change: dia. (in)", "Change of size at (ft)", "Change to bottom: dia. (in)"],
        ["Top csg (in)", "Joint at (ft)", "Bottom csg (in)"],
        ["Dia. to collar end (in)", "Collar end at (ft)", "Dia. below (in)"],
        ["Casing dia (in)", "Casing bottom (ft)", "Bore dia (in)"],
        ["Casing (in)", "Casing ends (ft)", "Reduced to (in)"],
        ["DIAM1 (in)", "DIAM1_BOT (ft)", "DIAM2 (in)"],
    ] {
        let head = format!("No,Kind,Depth (ft),Static level (ft),{upper},{end},{lower}");
        assert_eq!(list(&head, row, &[]), none(), "{head}");
    }
    let bands = "Inches and feet,,,,,,\n,,,,Upper part,,Lower part\nNo,Kind,Depth (ft),Static level (ft),Dia. (in),Down to (ft),Dia. (in)";
    assert_eq!(list(bands, row, &[]), none());
}

#[test]
fn four_languages_call_the_upper_and_the_lower_part() {
    let metric = |at: usize| {
        let (depth, level, change) =
            (60 + at * 7 % 30, 8 + at * 3 % 11, (!at.is_multiple_of(3)).then_some(25 + at * 5 % 13));
        let (end, lower) = change.map_or((String::new(), ""), |change| (change.to_string(), "150"));
        let upper = round(0.25, (change.unwrap_or(depth) - level) as f64).unwrap_or(0.0);
        let below = change.and_then(|change| round(0.15, (depth - change) as f64)).unwrap_or(0.0);
        (format!(";KIND;{depth};{level};250;{end};{lower}"), Some(upper + below))
    };
    for (head, kind) in [
        (
            "Nº;Tipo;Profundidad (m);Nivel estático (m);Diámetro mayor (mm);Diámetro mayor hasta (m);Diámetro menor (mm)",
            "perforado",
        ),
        (
            "Nº;Type;Profondeur (m);Niveau statique (m);Tubage supérieur (mm);Pied du tubage supérieur (m/sol);Diamètre du trou inférieur (mm)",
            "foré",
        ),
        ("Nº;Type;Profondeur (m);Niveau statique (m);Tube haut (mm);Tube haut jusqu'à (m);Tube bas (mm)", "foré"),
        ("Nº;Type;Profondeur (m);Niveau statique (m);Diamètre haut (mm);Réduction à (m);Diamètre bas (mm)", "foré"),
        (
            "Nº;Tipo;Profundidade (m);Nível estático (m);Diâmetro do trecho de cima (mm);Fim do trecho de cima (m abaixo do solo);Diâmetro do trecho de baixo (mm)",
            "perfurado",
        ),
    ] {
        let named = |at: usize| {
            let (cells, liters) = metric(at);
            (cells.replace("KIND", kind), liters)
        };
        assert_eq!(list(head, named, &[]), none(), "{head}");
    }
}

#[test]
fn two_widths_without_the_depth_of_the_change_are_asked() {
    // Nothing says how deep the upper one reaches.
    let without_end = |at: usize| {
        let (depth, level, change) = well(at);
        let lower = change.map_or("", |_| "5");
        let held = if change.is_some() { None } else { in_feet(at) };
        (format!(",drilled,{depth},{level},8,{lower}"), held)
    };
    for heads in ["\"Upper bore, in\",\"Lower bore, in\"", "Upper dia (in),Lower dia (in)"] {
        let head = format!("No,Kind,Depth (ft),Static level (ft),{heads}");
        assert_eq!(list(&head, without_end, &[]), none(), "{head}");
    }
    // The longer and the shorter way across an oval pit.
    let oval = |at: usize| (format!(",noria,{},{},{},{}", 12 + at, 3 + at % 3, 140 + at, 110 + at), None);
    assert_eq!(list("Pozo,Tipo,Profundidad (m),Nivel (m),Diámetro mayor (cm),Diámetro menor (cm)", oval, &[]), none());
}

#[test]
fn a_lower_width_that_is_as_wide_is_none() {
    // The hole was drilled for the casing: the water stands in the casing.
    let drilled_for = |at: usize| {
        let (depth, level, _) = well(at);
        (format!(",drilled,{depth},{level},6,9,{}", 40 + at), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let head = "No,Kind,Depth (ft),Static level (ft),Casing dia (in),Bore dia (in),Bore to (ft)";
    assert_eq!(list(head, drilled_for, &[]), none());
}
