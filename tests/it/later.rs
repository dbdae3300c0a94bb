//! Remarks that are later than their cells, in many hands: measured once more, told with a day, called wrong, cased anew. And
//! those that are not, or leave open which of two holds. The lists are invented; the liters are π/4 d² h of the facts beside them.

use crate::habits::{FT, IN, list, round};

const HEAD: &str = "Well,Owner,Kind,Depth (ft),SWL (ft),Dia (in),Notes";

fn wells(at: usize) -> (String, Option<f64>) {
    (format!(",Hale {at},drilled,{},{},6,", 160 + 3 * at, 10 + at), round(6.0 * IN, (150 + 2 * at) as f64 * FT))
}

fn of(depth: f64, level: f64, across: f64) -> Option<f64> {
    round(across * IN, (depth - level) * FT)
}

/// Remarks of a well 160 ft deep with its water at 40 ft in 6 in, each with what is read of it.
fn told(remarks: &[(&str, Option<f64>)]) {
    let cells: Vec<(String, Option<f64>)> =
        remarks.iter().map(|(remark, liters)| (format!(",Marden,drilled,160,40,6,\"{remark}\""), *liters)).collect();
    let rows: Vec<(&str, Option<f64>)> = cells.iter().map(|(cells, liters)| (cells.as_str(), *liters)).collect();
    assert_eq!(list(HEAD, wells, &rows), Vec::<String>::new());
}

#[test]
fn a_level_with_its_day_or_its_right_counts() {
    let later = of(160.0, 55.0, 6.0);
    told(&[
        ("SWL 55 this May with the county's tape", later),
        ("static 55 ft at visit 6/3/24", later),
        ("DTW 55 on 5/14, list not changed yet", later),
        ("WL 55 MEASURED 20240511", later),
        ("swl 55, use this", later),
        ("water now 55'", later),
        ("level 55 on Tuesday", later),
        ("SWL 55 in 1987", of(160.0, 40.0, 6.0)),
        ("old SWL 55 on 5/14", of(160.0, 40.0, 6.0)),
        ("SWL 55 on 3/12/91 per log", of(160.0, 40.0, 6.0)),
        ("sample 55 on 5/14", of(160.0, 40.0, 6.0)),
        ("water now 2 ft over the lid", of(160.0, 40.0, 6.0)),
        ("use this gate, chain 55 ft long", of(160.0, 40.0, 6.0)),
        // What came with a deepening is of then: only with the depth of then.
        ("deepened 2019: bottom 240, water 60", of(240.0, 60.0, 6.0)),
        ("deepened 1994 to 160, water at 60", of(160.0, 40.0, 6.0)),
        ("had a new well drilled, 240 ft, water 60", of(240.0, 60.0, 6.0)),
        ("had a new well drilled, 240 ft", None),
        ("in use at 240 ft since 2019, water the same", of(240.0, 40.0, 6.0)),
        ("creek 300 ft away since 2019", of(160.0, 40.0, 6.0)),
    ]);
}

#[test]
fn a_cell_that_is_called_wrong_gives_way() {
    told(&[
        ("deeper 2012 - 240 ft", None),
        ("hole lowered to 240 in 2012, sheet not updated", of(240.0, 40.0, 6.0)),
        ("pump lowered to 120", of(160.0, 40.0, 6.0)),
        ("culvert is 8, measured it", of(160.0, 40.0, 8.0)),
        ("measured 5/14: 55", of(160.0, 55.0, 6.0)),
        ("checked 5/14", of(160.0, 40.0, 6.0)),
        ("tape hung up at 40, measured again: 55", of(160.0, 55.0, 6.0)),
        ("tape caught at 40, measured again: 55 ft", of(160.0, 55.0, 6.0)),
        ("40 was misread, correct is 55", of(160.0, 55.0, 6.0)),
        ("depth changed from 160 to 210", of(210.0, 40.0, 6.0)),
        ("casing was 6 in, now 4 in", of(160.0, 40.0, 4.0)),
        ("wrong, it is 8 in pipe", of(160.0, 40.0, 8.0)),
        ("correction: casing 5 in", of(160.0, 40.0, 5.0)),
        ("wrong address, 8 in the book", of(160.0, 40.0, 6.0)),
        ("maybe wrong, 8 in pipe?", None),
        ("tag reads 210 not 160, owner confirmed 210", of(210.0, 40.0, 6.0)),
        ("tag says 160 not 60", of(160.0, 40.0, 6.0)),
        ("casing is 5 in per the inspector's field sheet, not 6", of(160.0, 40.0, 5.0)),
        ("that depth is to the pump", None),
        ("pump depth is 120", of(160.0, 40.0, 6.0)),
        ("contractor: bottom is 210", None),
        ("contractor: bottom is 160", of(160.0, 40.0, 6.0)),
        ("depth is 160 by the pipe, log says 250", None),
    ]);
}

#[test]
fn a_pipe_from_top_to_bottom_holds_the_water() {
    let lined = of(160.0, 40.0, 4.0);
    told(&[
        ("re-cased with 4 in PVC full depth 2018", lined),
        ("cased 4 in all the way down", lined),
        ("4 in liner, 0-160, set 2017", lined),
        ("4 in liner, 0-60", None),
        ("entubado a 4 pulg hasta el fondo en 2020", lined),
        ("retubé en 4 po jusqu'au fond", lined),
        ("revestido com tubo de 4 pol até o fundo", lined),
        ("tubos de 4 pulgadas por dentro hasta el fondo", lined),
        ("6 in casing to bottom", of(160.0, 40.0, 6.0)),
        ("old 4 in pipe inside to the bottom, pulled 2015", of(160.0, 40.0, 6.0)),
    ]);
}

#[test]
fn heights_that_were_measured_anew_are_heights() {
    let head = "N°;Nom;Ouvrage;Diamètre (m);Prof. totale (m);Hauteur d'eau (m);Constats";
    let dug = |at: usize| (format!(";Nom {at};puits busé;1,2;{};{};", 10 + at, 3 + at), round(1.2, (3 + at) as f64));
    let rows = [
        (";Roy;puits busé;1,2;12;3,0;remesuré mardi: eau 4,5", round(1.2, 4.5)),
        (";Roy;puits busé;1,2;12;3,0;eau 4,5 mesurée de nouveau", round(1.2, 4.5)),
        (";Roy;puits busé;1,2;12;3,0;hoy medí 4,5 de agua", round(1.2, 4.5)),
        (";Roy;puits busé;1,2;12;3,0;rechecked Monday - 4.5 m of water", round(1.2, 4.5)),
        (";Roy;puits busé;1,2;12;3,0;eau trouble, 4,5 km du bourg", round(1.2, 3.0)),
        (";Roy;puits busé;1,6;12;3,0;\"buses de 1,0 posées à l'intérieur jusqu'au fond\"", round(1.0, 3.0)),
    ];
    assert_eq!(list(head, dug, &rows), Vec::<String>::new());
}

#[test]
fn what_is_left_of_a_silted_well_is_its_depth() {
    let head = "Ref;Titular;Clase;Prof. (m);Nivel (m);Diám. (m);Observaciones";
    let dug = |at: usize| (format!(";Titular {at};noria;{};{};1,2;", 10 + at, 3 + at), round(1.2, 7.0));
    let rows = [
        (";Vega;noria;12;4;1,2;azolvada 2 m, fondo a 10", round(1.2, 6.0)),
        (";Vega;noria;12;4;1,2;aterrado, queda a 10 m", round(1.2, 6.0)),
        (";Vega;noria;12;4;1,2;aterrado por el dueño", None),
        (";Vega;sondeo;60;10;0,20;entubado de 200 mm hasta 30 m y de 160 mm hasta el fondo", {
            round(0.2, 20.0).zip(round(0.16, 30.0)).map(|(upper, lower)| upper + lower)
        }),
    ];
    assert_eq!(list(head, dug, &rows), Vec::<String>::new());
}

#[test]
fn a_zero_is_no_level_where_the_list_or_a_remark_says_so() {
    let full = |depth: f64| round(6.0 * IN, depth * FT);
    told(&[]);
    let rows = [
        (",Marden,drilled,160,0,6,level not measured", None),
        (",Marden,drilled,160,0,6,full to the top", full(160.0)),
        (",Marden,drilled,160,0,6,flood stood over the casing when we came", None),
        (",Marden,drilled,160,full right now,6,smells", None),
        (",Marden,drilled,160,flows,6,flooded in May", full(160.0)),
    ];
    assert_eq!(list(HEAD, wells, &rows), Vec::<String>::new());
    // A well that is none deep: zeros stand for nothing here.
    let rows = [(",Marden,drilled,0,20,6,", None), (",Marden,drilled,160,0,6,", None)];
    assert_eq!(list(HEAD, wells, &rows), Vec::<String>::new());
}

#[test]
fn rows_that_are_no_wells_say_so_in_few_words() {
    let plain = of(160.0, 40.0, 6.0);
    told(&[
        ("training at the office, delete", None),
        ("test", plain),
        ("pressed twice, sorry", None),
        ("lab test pending", plain),
        ("test well water in July", plain),
        ("not potable, stock", plain),
    ]);
}

#[test]
fn a_box_is_told_in_a_remark_whatever_stands_in_the_column_of_the_casing() {
    let rows = [
        (
            ",Marden,spring box,,,conc box,\"box 4 ft x 5 ft inside, 3 ft of water in it\"",
            Some(4.0 * 5.0 * 3.0 * FT.powi(3) * 1000.0),
        ),
        (",Marden,spring box,,,,\"caixa 2,00 x 1,50 m, lâmina 1,00 m\"", Some(3000.0)),
        (",Marden,spring box,,,conc box,\"box 4 ft x 5 ft, 3 ft deep\"", None),
    ];
    let noted = |at: usize| {
        let (cells, liters) = wells(at);
        (format!("{cells}gate is locked after six"), liters)
    };
    assert_eq!(list(HEAD, noted, &rows), Vec::<String>::new());
}

#[test]
fn a_level_of_the_flood_or_of_the_pump_is_not_at_rest() {
    let later = of(160.0, 55.0, 6.0);
    told(&[
        ("the 40 was with the flood in it, 55 on 6/22", later),
        ("40 ft during the flood; 55 ft on 6/22", later),
        ("40 era da enchente, dia 22/06: 55", later),
        ("40 son de la riada, medido el 22/06: 55", later),
        ("40 pendant la crue ; le 22/06 : 55", later),
        // Without a day nobody knows which is the later one.
        ("40 ft during the flood, 55 ft", of(160.0, 40.0, 6.0)),
        ("water is at 55, measured Aug", later),
        ("4/30: water down 55 now", later),
        ("level is pumping, crew could not wait", None),
        ("SWL pumping", None),
        ("level is not pumping", of(160.0, 40.0, 6.0)),
    ]);
}

#[test]
fn a_slip_that_somebody_owns_up_to_is_mended_or_asked() {
    told(&[
        ("pipe is 8 inch, wrote 6 by mistake", of(160.0, 40.0, 8.0)),
        ("6 was wrote by mistake", of(160.0, 40.0, 6.0)),
        ("owner's paper says 8 in casing, not 6", of(160.0, 40.0, 8.0)),
        ("as built 185 ft by the driller", of(185.0, 40.0, 6.0)),
        ("pump house as built 2018", of(160.0, 40.0, 6.0)),
        ("measured across again: 8 in", of(160.0, 40.0, 8.0)),
        ("clerk read 160 for 106", None),
        ("lid 12 for 21 dollars", of(160.0, 40.0, 6.0)),
        ("sanded in, today only 90 ft", of(90.0, 40.0, 6.0)),
        ("silted, only 90 ft now", of(90.0, 40.0, 6.0)),
        ("three points on one header", None),
        ("three points to note: locked", of(160.0, 40.0, 6.0)),
        ("P&A'd 2009, town water", None),
        ("4 in liner 0-TD", of(160.0, 40.0, 4.0)),
    ]);
}

/// The water of a hole that is 6 in to 100 ft and 4 in below, down to 160 ft, with its water at 40 ft.
fn narrower() -> Option<f64> {
    let across = |inches: f64, feet: f64| round(inches * IN, feet * FT).unwrap_or_default();
    Some(across(6.0, 60.0) + across(4.0, 60.0))
}

#[test]
fn a_narrower_bore_further_down_is_told_in_four_languages() {
    told(&[
        ("6 in to 100 ft, then 4 in below", narrower()),
        ("6 pol ate 30,48 m, dai para baixo 4 pol", narrower()),
        ("6 pulg hasta 30,48 m, luego 4 pulg", narrower()),
        ("4 in in the bottom 60 ft", narrower()),
        ("4 in across in the last 60 ft", narrower()),
        ("bottom 60 ft is sandstone", of(160.0, 40.0, 6.0)),
    ]);
}

#[test]
fn strings_give_the_bottom_where_the_list_does_not_and_are_asked_where_they_go_past_it() {
    const HEAD: &str = "Well,Owner,Kind,TD (ft),Csg (in),SWL (ft),Notes";
    let plain = |at: usize| {
        let (top, end) = (30 + at, 150 + at);
        (format!(",Hale {at},drilled,{end},\"6\"\" stl 0-{top}, 6\"\" OH {top}-{end}\",30,"), of(end as f64, 30.0, 6.0))
    };
    let rows = [
        (",Marden,drilled,160,\"6\"\" stl to 100, 4\"\" OH to TD\",40,", narrower()),
        (",Marden,drilled,,\"6\"\" stl 0-100, 4\"\" OH 100-160\",40,", narrower()),
        // A casing may end above the bottom, and say nothing of it.
        (",Marden,drilled,,\"8\"\" stl 0-20, 6\"\" stl 20-100\",40,", None),
        (",Marden,drilled,120,\"6\"\" stl 0-100, 4\"\" OH 100-160\",40,", None),
        (",Marden,drilled,158,\"6\"\" stl 0-100, 6\"\" OH 100-160\",40,", of(158.0, 40.0, 6.0)),
    ];
    assert_eq!(list(HEAD, plain, &rows), Vec::<String>::new());
}
