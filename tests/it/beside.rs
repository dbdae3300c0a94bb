//! What one column says of another in a row, and what a file's own words say of a column: other offices' ways of writing it
//! than those of the lists in `fixtures/lists`. Liters are geometry (π/4 d² h).

use std::f64::consts::FRAC_PI_4;

use aftercrest::checks::Verdict;
use aftercrest::field::rules::ReadingRules;
use aftercrest::kernel::volume::standing_volume;

use crate::reading::read;

const FT: f64 = 0.3048;
const IN: f64 = 0.0254;

/// Liters of each row of a list; nothing for a row that is held back.
fn liters(text: &str) -> Vec<Option<f64>> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("list.csv");
    std::fs::write(&path, text).unwrap();
    let outcome = read(&[path], &ReadingRules::default()).unwrap();
    let of = |verdict: &Verdict| match verdict {
        Verdict::Admitted { well, .. } => Some(Some(standing_volume(&well.standing_water).value * 1000.0)),
        Verdict::HeldBack(_) => Some(None),
        Verdict::NotAWell(_) => None,
    };
    outcome.verdicts.iter().filter_map(of).collect()
}

/// Meters across and meters of water.
fn bore(across: f64, height: f64) -> Option<f64> {
    Some(FRAC_PI_4 * across * across * height * 1000.0)
}

fn same(found: &[Option<f64>], expected: &[Option<f64>]) {
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (at, (found, expected)) in found.iter().zip(expected).enumerate() {
        match (found, expected) {
            (Some(found), Some(expected)) => assert!((found / expected - 1.0).abs() < 0.01, "{at}: {found} {expected}"),
            (found, expected) => assert_eq!(found.is_some(), expected.is_some(), "{at}: {found:?} {expected:?}"),
        }
    }
}

#[test]
fn a_column_beside_the_level_says_what_it_is() {
    let found = liters(
        "Puits,Type,Profondeur totale (m),Niveau d'eau (m),Valeur mesurée,Hauteur margelle (cm),Diamètre intérieur (m)\n\
         P1,puits,8,3,depuis la margelle,50,1\n\
         P2,puits,8,3,depuis le sol,50,1\n\
         P3,puits,8,3,hauteur d'eau,50,1\n\
         P4,puits,8,3,depuis le sol,,1\n\
         P5,puits,8,3,depuis la margelle,,1\n\
         P6,puits,8,3,hauteur d'eau,,1\n",
    );
    same(&found, &[bore(1.0, 5.5), bore(1.0, 5.0), bore(1.0, 3.0), bore(1.0, 5.0), None, bore(1.0, 3.0)]);
}

#[test]
fn a_level_that_was_not_at_rest_is_asked_and_one_that_flows_is_full() {
    let found = liters(
        "Well,Type,Total depth (ft),Water level (ft),Level status,Casing diameter (in)\n\
         1,drilled,100,20,static,6\n2,drilled,100,60,pumping,6\n3,drilled,100,0,flowing,6\n4,drilled,100,,flowing,6\n\
         5,drilled,100,20,flowing,6\n6,drilled,100,20,static,6\n7,drilled,100,30,recovering,6\n8,drilled,100,20,,6\n",
    );
    let (full, rest) = (bore(6.0 * IN, 100.0 * FT), bore(6.0 * IN, 80.0 * FT));
    same(&found, &[rest, None, full, full, None, rest, None, rest]);
}

#[test]
fn sides_stand_in_columns_of_their_own() {
    let found = liters(
        "Well,Type,Shape,Total depth (ft),Static water level (ft),Diameter (ft),Side 1 (ft),Side 2 (ft)\n\
         1,dug,round,20,10,4,,\n2,dug,square,20,10,,4,\n3,dug,rectangular,20,10,,4,5\n4,dug,rectangular,20,10,,4,\n\
         5,dug,round,20,10,3,,\n6,dug,square,20,10,4,4,4\n",
    );
    let sides = |one: f64, other: f64| Some(one * other * 10.0 * FT.powi(3) * 1000.0);
    let expected = [bore(4.0 * FT, 10.0 * FT), sides(4.0, 4.0), sides(4.0, 5.0), None, bore(3.0 * FT, 10.0 * FT), None];
    same(&found, &expected);
}

#[test]
fn a_heading_that_only_goes_on_belongs_to_the_one_before_it() {
    let row = |id: &str, cells: &str| format!("{id},drilled,200,50,{cells}\n");
    let text = format!(
        "Well,Type,Total depth (ft),Static water level (ft),Casing (in),to,then\n{}{}{}{}",
        row("1", "6,100,5"),
        row("2", "6,200,"),
        row("3", "8,80,6"),
        row("4", "6,150,5")
    );
    let two = |upper: f64, change: f64, lower: f64| {
        Some(bore(upper * IN, (change - 50.0) * FT)? + bore(lower * IN, (200.0 - change) * FT)?)
    };
    same(
        &liters(&text),
        &[two(6.0, 100.0, 5.0), bore(6.0 * IN, 150.0 * FT), two(8.0, 80.0, 6.0), two(6.0, 150.0, 5.0)],
    );
}

#[test]
fn a_note_gives_each_row_its_units_by_a_code() {
    let found = liters(
        "Old cards,,,,,\n\
         Sys says how the card was written: E feet and pipes in inches. S metres and pipes in mm.,,,,,\n\
         Well,Type,Sys,Total depth,Static level,Diameter\n\
         1,drilled,E,100,20,6\n2,drilled,S,40,10,150\n3,drilled,E,150,30,5\n4,drilled,S,30,8,125\n5,drilled,,60,20,100\n",
    );
    let expected = [bore(6.0 * IN, 80.0 * FT), bore(0.15, 30.0), bore(5.0 * IN, 120.0 * FT), bore(0.125, 22.0), None];
    same(&found, &expected);
}

#[test]
fn two_widths_that_do_not_agree_are_asked() {
    let found = liters(
        "Pozo,Tipo,Profundidad total (m),Nivel estático (m),Diámetro interior (m),Diámetro tubo (pulg)\n\
         1,excavado,10,4,1.2,\n2,excavado,10,4,1,\n3,excavado,10,4,1.1,\n4,perforado,40,10,,6\n5,perforado,40,10,,8\n\
         6,perforado,40,10,,6\n7,perforado,40,10,,6\n8,perforado,40,10,,6\n9,perforado,40,10,1.1,6\n",
    );
    let drilled = bore(6.0 * IN, 30.0);
    let expected = [
        bore(1.2, 6.0),
        bore(1.0, 6.0),
        bore(1.1, 6.0),
        drilled,
        bore(8.0 * IN, 30.0),
        drilled,
        drilled,
        drilled,
        None,
    ];
    same(&found, &expected);
}

#[test]
fn a_remark_says_in_which_unit_the_cells_were_filled_in() {
    let found = liters(
        "Well,Type,Total depth (m),Static level (m),Diameter (m),Remarks\n\
         1,dug,740,310,1.2,typed the depth and the water level in cm\n2,dug,8,3,1,\n3,dug,9,3,1,depth to be checked\n",
    );
    same(&found, &[bore(1.2, 4.3), bore(1.0, 5.0), bore(1.0, 6.0)]);
}

#[test]
fn strings_in_a_remark_have_their_own_unit_where_the_column_is_in_meters() {
    let found = liters(
        "Pozo,Tipo,Profundidad total (m),Nivel estático (m),Diámetro interior (m),Observaciones\n\
         1,perforado,60,20,0.2032,8 pulg hasta los 30 m y de ahí abajo 6 pulg\n\
         2,excavado,10,4,1.2,\n3,excavado,12,4,1,tapa de concreto\n",
    );
    let two = Some(bore(8.0 * IN, 10.0).unwrap() + bore(6.0 * IN, 30.0).unwrap());
    same(&found, &[two, bore(1.2, 6.0), bore(1.0, 8.0)]);
}
