//! Sizes as people write them: the reader form by form, a list whose volumes are worked out from geometry, and the prompt.
//!
//! Sources: pipe by ASME B36.10M and ASTM D1785 (6 in: 6.625 in outside, 0.280 in wall of schedule 40), from memory; the
//! rest is geometry (π/4 d² h; a side times a side; the way around over π) and the words of the trade, common practice.

use std::f64::consts::{FRAC_PI_4, PI};

use aftercrest::checks::Verdict;
use aftercrest::field::Field;
use aftercrest::kernel::volume::standing_volume;
use aftercrest::quantity::parse::{Comma, Nature, Reference, Size, Sort, Trouble, Wall, size, water_in_words};
use aftercrest::quantity::unit::by_symbol;

use crate::reading::{fixtures, read, us};
use crate::running::{folder, place, root, run};

const FT: f64 = 0.3048;
const IN: f64 = 0.0254;

fn read_as(text: &str, sort: Sort) -> Result<Size, Trouble> {
    let unit = if sort == Sort::Diameter { "in" } else { "ft" };
    size(text, sort, by_symbol(unit), Comma::ByForm)
}

#[test]
fn one_value_in_many_forms() {
    use Sort::{Depth, Diameter, Height, Level, Rim};
    for (text, sort, meters) in [
        ("31' 4\"", Depth, (31.0 + 4.0 / 12.0) * FT),
        ("31'-4\"", Depth, (31.0 + 4.0 / 12.0) * FT),
        ("31-4", Depth, (31.0 + 4.0 / 12.0) * FT),
        ("7 ft 2", Level, (7.0 + 2.0 / 12.0) * FT),
        ("twenty two feet", Level, 22.0 * FT),
        ("twenty-two feet", Level, 22.0 * FT),
        ("one hundred and ten ft", Depth, 110.0 * FT),
        ("a hundred feet", Depth, 100.0 * FT),
        ("six and a half feet", Height, 6.5 * FT),
        ("flush", Rim, 0.0),
        ("flush with ground", Rim, 0.0),
        ("rente", Rim, 0.0),
        ("six inch", Diameter, 6.0 * IN),
        ("5-5/8", Diameter, 5.625 * IN),
        ("5 5/8\"", Diameter, 5.625 * IN),
        ("6 1/4", Diameter, 6.25 * IN),
        ("½", Diameter, 0.5 * IN),
        ("6-inch", Diameter, 6.0 * IN),
        ("4 ft sq", Diameter, (4.0 * 16.0 / PI).sqrt() * FT),
        ("4 x 6 ft", Diameter, (4.0 * 24.0 / PI).sqrt() * FT),
        ("4' x 6'", Diameter, (4.0 * 24.0 / PI).sqrt() * FT),
        ("4 by 6 ft", Diameter, (4.0 * 24.0 / PI).sqrt() * FT),
        ("1,2 m x 0,9 m", Diameter, (4.0 * 1.08 / PI).sqrt()),
        ("circumference 95 in", Diameter, 95.0 / PI * IN),
        ("95 in around", Diameter, 95.0 / PI * IN),
        ("girth 95 in", Diameter, 95.0 / PI * IN),
        ("circonférence 3,1 m", Diameter, 3.1 / PI),
        ("radius 2 ft", Diameter, 4.0 * FT),
        ("36 in tile", Diameter, 36.0 * IN),
        ("36 inch concrete rings", Diameter, 36.0 * IN),
        ("6 in ID", Diameter, 6.0 * IN),
        ("25 swl 85 pwl", Level, 25.0 * FT),
        ("static 25, pumping 85", Level, 25.0 * FT),
        ("25 (85 pumping)", Level, 25.0 * FT),
        ("swl 25 ft", Level, 25.0 * FT),
        ("9 ft to water", Level, 9.0 * FT),
        ("1-1/4 pipe & pt", Diameter, 1.25 * IN),
        ("2\" pt", Diameter, 2.0 * IN),
        ("9 ft 5 around", Diameter, (9.0 + 5.0 / 12.0) / PI * FT),
        ("circumf. 11 ft", Diameter, 11.0 / PI * FT),
        ("périmètre 4,08 m", Diameter, 4.08 / PI),
        ("contorno 3,5 m", Diameter, 3.5 / PI),
        ("48 X 60", Diameter, (4.0 * 48.0 * 60.0 / PI).sqrt() * IN),
        ("5 x 4 ft cribbed, square corners", Diameter, (4.0 * 20.0 / PI).sqrt() * FT),
        ("three and a half feet each way", Diameter, (4.0 * 3.5 * 3.5 / PI).sqrt() * FT),
        ("buses Ø 1,20 m", Diameter, 1.2),
        ("anillos 1,2 m", Diameter, 1.2),
        ("30\" tile", Diameter, 30.0 * IN),
        ("2 m 10", Level, 2.1),
        ("one hundred & twelve", Depth, 112.0 * FT),
        ("neuf mètres", Level, 9.0),
        ("quatre-vingt-douze mètres", Depth, 92.0),
        ("soixante et onze mètres", Depth, 71.0),
        ("cent vingt mètres", Depth, 120.0),
        ("deux mètres cinquante", Level, 2.5),
        ("trois mètres et demi", Level, 3.5),
        ("tres metros y medio", Level, 3.5),
        ("treinta y cinco metros", Depth, 35.0),
        ("un metro ochenta", Level, 1.8),
        ("vinte e cinco metros", Depth, 25.0),
        ("três metros e meio", Level, 3.5),
        ("doze metros", Depth, 12.0),
        ("+3.5 above ground", Level, -3.5 * FT),
        ("3 ft above gl", Level, -3.0 * FT),
        ("-2 ft", Level, -2.0 * FT),
        ("150 ft, drilled 1987", Depth, 150.0 * FT),
        ("150 ft (6/12/1987)", Depth, 150.0 * FT),
        ("150 ft at 5 gpm", Depth, 150.0 * FT),
        ("150 ft, permit no 4411", Depth, 150.0 * FT),
    ] {
        match read_as(text, sort) {
            Ok(Size::One { reading, .. }) => {
                assert!((reading.si - meters).abs() < 1e-9, "{text}: {} instead of {meters}", reading.si);
                assert_eq!(reading.nature, Nature::Exact, "{text}");
            }
            other => panic!("{text}: {other:?}"),
        }
    }
}

#[test]
fn only_a_rim_can_be_level_with_the_ground() {
    // A height of water or of the ground that says `level` says no number.
    for text in ["level", "flush"] {
        assert!(read_as(text, Sort::Height).is_err(), "{text}");
    }
}

#[test]
fn estimates_are_told_from_measurements() {
    for text in [
        "~150",
        "approx. 150 ft",
        "about 150",
        "150 +/-",
        "est 150",
        "150-ish",
        "150 or so",
        "150 ft (est)",
        "environ 150",
        "env. 150",
        "aprox. 150",
        "unos 150",
        "como 150",
        "cerca de 150",
        "150 más o menos",
    ] {
        match read_as(text, Sort::Depth) {
            Ok(Size::One { reading, .. }) => assert!(reading.about && reading.si == 150.0 * FT, "{text}: {reading:?}"),
            other => panic!("{text}: {other:?}"),
        }
    }
    let Ok(Size::One { reading, .. }) = read_as("150 ft bgl", Sort::Depth) else { panic!() };
    assert!(!reading.about);
}

#[test]
fn strings_of_casing() {
    for (text, wanted) in [
        ("10 in. to 38 ft, 8 in. below", &[(0.0, Some(38.0), 10.0), (38.0, None, 8.0)][..]),
        ("8 in to 60 ft, then 6 in", &[(0.0, Some(60.0), 8.0), (60.0, None, 6.0)]),
        ("6\" 0-40, 4\" 40-120", &[(0.0, Some(40.0), 6.0), (40.0, Some(120.0), 4.0)]),
        ("6 in from 0 to 40 ft; 4 in from 40 to 120 ft", &[(0.0, Some(40.0), 6.0), (40.0, Some(120.0), 4.0)]),
        ("0-80 ft 6 in", &[(0.0, Some(80.0), 6.0)]),
        ("0-80 ft 6 in; 80-150 ft 4 in", &[(0.0, Some(80.0), 6.0), (80.0, Some(150.0), 4.0)]),
        ("6 inch casing, 4 inch below 80 ft", &[(0.0, Some(80.0), 6.0), (80.0, None, 4.0)]),
        ("10x8 telescoped at 40'", &[(0.0, Some(40.0), 10.0), (40.0, None, 8.0)]),
        ("8 in hasta 60 ft, luego 6 in", &[(0.0, Some(60.0), 8.0), (60.0, None, 6.0)]),
        ("8 in até 60 ft, depois 6 in", &[(0.0, Some(60.0), 8.0), (60.0, None, 6.0)]),
        ("8 in jusqu'à 60 ft, puis 6 in", &[(0.0, Some(60.0), 8.0), (60.0, None, 6.0)]),
        ("8 in to 60 ft", &[(0.0, Some(60.0), 8.0)]),
        ("8 to 90, OH 6", &[(0.0, Some(90.0), 8.0), (90.0, None, 6.0)]),
        ("6 to 40, OH 6 to TD", &[(0.0, Some(40.0), 6.0), (40.0, None, 6.0)]),
        ("42 ft of 6\"", &[(0.0, Some(42.0), 6.0)]),
        ("6\" csg 38 ft", &[(0.0, Some(38.0), 6.0)]),
        ("6 in. csg 102 ft, 6 in. o.h.", &[(0.0, Some(102.0), 6.0), (102.0, None, 6.0)]),
        // Outside less twice the wall: 6.625 - 0.376, 6.625 - 0.5, 18 - 0.75, 8.625 - 0.644, 6.625 - 0.56.
        ("6-5/8 OD x .188 to 62, OH 6", &[(0.0, Some(62.0), 6.249), (62.0, None, 6.0)]),
        ("6 5/8 O.D. x .250 wall to 84, 6 in. hole below", &[(0.0, Some(84.0), 6.125), (84.0, None, 6.0)]),
        ("6-5/8 OD .250w to 22, 6\" OH below", &[(0.0, Some(22.0), 6.125), (22.0, None, 6.0)]),
        (
            "18 in. O.D., 3/8 wall, to 54; 17 in. I.D. screen 54-74",
            &[(0.0, Some(54.0), 17.25), (54.0, Some(74.0), 17.0)],
        ),
        ("8-5/8 OD x .322 to 60, 6-5/8 OD x .280 60 to 152", &[(0.0, Some(60.0), 7.981), (60.0, Some(152.0), 6.065)]),
        ("6 to btm", &[(0.0, None, 6.0)]),
        ("5 PVC full depth", &[(0.0, None, 5.0)]),
        ("5-5/8 OH, 6 to 77", &[(0.0, Some(77.0), 6.0), (77.0, None, 5.625)]),
        ("8 to 53 ft, 6 from there to TD", &[(0.0, Some(53.0), 8.0), (53.0, None, 6.0)]),
        ("6\" to 58, scr 5\" 58 to TD", &[(0.0, Some(58.0), 6.0), (58.0, None, 5.0)]),
        ("8 surf to 20, 6 prod 0-140", &[(0.0, Some(20.0), 8.0), (0.0, Some(140.0), 6.0)]),
        ("12 in. 0-96, gravel pack, 12 in. screen 76-96", &[(0.0, Some(96.0), 12.0), (76.0, Some(96.0), 12.0)]),
        ("12 in. to 90, 10 in. screen telescoped 88-112", &[(0.0, Some(90.0), 12.0), (88.0, Some(112.0), 10.0)]),
        ("16/12/8 in. to 60/180/240", &[(0.0, Some(60.0), 16.0), (60.0, Some(180.0), 12.0), (180.0, Some(240.0), 8.0)]),
        (
            "8 in. surface csg 0-40 grouted; 6 in. csg 0-155; 4.5 in. PVC liner 145-300",
            &[(0.0, Some(40.0), 8.0), (0.0, Some(155.0), 6.0), (145.0, Some(300.0), 4.5)],
        ),
        (
            "6 in. to 45, 6 in. o.h.; 4 in. liner 20-225 (2018, grouted in)",
            &[(0.0, Some(45.0), 6.0), (45.0, None, 6.0), (20.0, Some(225.0), 4.0)],
        ),
        ("8 in. PVC to 140, 8 in. screen to 180", &[(0.0, Some(140.0), 8.0), (140.0, Some(180.0), 8.0)]),
        ("36 in. curb to 18, 6 in. drilled below", &[(0.0, Some(18.0), 36.0), (18.0, None, 6.0)]),
        ("3 ft to 20 ft, 6 in below", &[(0.0, Some(20.0), 36.0), (20.0, None, 6.0)]),
        ("36 tile to 24, 30 tile below", &[(0.0, Some(24.0), 36.0), (24.0, None, 30.0)]),
        ("24 in. conc. to 33", &[(0.0, Some(33.0), 24.0)]),
    ] {
        let Ok(Size::Strings(pieces)) = read_as(text, Sort::Diameter) else {
            panic!("{text}: {:?}", read_as(text, Sort::Diameter))
        };
        assert_eq!(pieces.len(), wanted.len(), "{text}: {pieces:?}");
        for (piece, (top, bottom, across)) in pieces.iter().zip(wanted) {
            assert!((piece.top - top * FT).abs() < 1e-9, "{text}: {piece:?}");
            assert!((piece.diameter - across * IN).abs() < 1e-9, "{text}: {piece:?}");
            match (piece.bottom, bottom) {
                (Some(read), Some(wanted)) => assert!((read - wanted * FT).abs() < 1e-9, "{text}: {piece:?}"),
                (read, wanted) => assert_eq!(read.is_some(), wanted.is_some(), "{text}: {piece:?}"),
            }
        }
    }
}

/// Only a casing of which neither the top nor the joint to the one above is said may hang from the ground.
#[test]
fn a_string_that_may_hang_from_the_ground() {
    for (text, doubts) in [
        ("10 in. to 50; 8 in. to 120; 6 in. o.h. to 260", [false, true, false]),
        ("10 in. to 50, 8 in. 50-120, 6 in. o.h.", [false, false, false]),
        ("10 in. to 50, then 8 in. to 120, 6 in. below", [false, false, false]),
    ] {
        let Ok(Size::Strings(pieces)) = read_as(text, Sort::Diameter) else { panic!("{text}") };
        let read: Vec<bool> = pieces.iter().map(|piece| piece.may_hang_from_ground).collect();
        assert_eq!(read, doubts, "{text}");
    }
}

#[test]
fn pipes_in_millimeters() {
    let read = |text: &str| size(text, Sort::Diameter, by_symbol("mm"), Comma::ByForm);
    for (text, outside, wall) in [
        ("PVC ext. 125 ép. 5", 0.125, 0.005),
        ("ext. 125 e 5", 0.125, 0.005),
        ("o.d. 168 x 7.1", 0.168, 0.0071),
        ("140 x 6,7", 0.14, 0.0067),
    ] {
        let Ok(Size::Pipe(pipe)) = read(text) else { panic!("{text}: {:?}", read(text)) };
        let Wall::Thickness(thickness) = pipe.wall else { panic!("{text}: {pipe:?}") };
        assert!(pipe.outside && (pipe.size - outside).abs() < 1e-9 && (thickness - wall).abs() < 1e-9, "{text}");
    }
    // Inside and outside.
    assert!(matches!(read("112/125"), Ok(Size::One { reading, .. }) if (reading.si - 0.112).abs() < 1e-9));
    assert!(read("200 puis 150").is_err() && read("200/150").is_err());
}

#[test]
fn pipes_by_their_outside_or_trade_size() {
    for (text, inches, outside, wall) in [
        ("6 5/8 OD x .188 wall", 6.625, true, Wall::Thickness(0.188 * IN)),
        ("6.625 in OD, 0.25 wall", 6.625, true, Wall::Thickness(0.25 * IN)),
        ("6 in sch 40", 6.0, false, Wall::Schedule(40)),
        ("6 in sch. 80 pvc", 6.0, false, Wall::Schedule(80)),
        ("4\" SDR-21", 4.0, false, Wall::Ratio(21.0)),
        ("6 5/8 o.d.", 6.625, true, Wall::Unsaid),
    ] {
        let Ok(Size::Pipe(pipe)) = read_as(text, Sort::Diameter) else {
            panic!("{text}: {:?}", read_as(text, Sort::Diameter))
        };
        assert!((pipe.size - inches * IN).abs() < 1e-9 && pipe.outside == outside, "{text}: {pipe:?}");
        match (pipe.wall, wall) {
            (Wall::Thickness(read), Wall::Thickness(wanted)) => assert!((read - wanted).abs() < 1e-9, "{text}"),
            (read, wanted) => assert_eq!(read, wanted, "{text}"),
        }
    }
}

#[test]
fn water_flow_and_references() {
    for (text, meters) in [
        ("hauteur d'eau 3,10 m", 3.1),
        ("3,10 m d'eau", 3.1),
        ("tirante 2,4 m", 2.4),
        ("columna de agua 3,2 m", 3.2),
        ("2 m de agua", 2.0),
        ("altura de água 3,4 m", 3.4),
        ("3 m de água", 3.0),
        ("holds six foot, never less", 6.0 * FT),
    ] {
        assert!(
            matches!(read_as(text, Sort::Level), Ok(Size::Water(reading)) if (reading.si - meters).abs() < 1e-9),
            "{text}: {:?}",
            read_as(text, Sort::Level)
        );
    }
    for text in ["holds 9 ft of water", "9 ft of water in it", "9 ft water", "9 ft de agua", "about 9 ft of water"] {
        assert!(
            matches!(read_as(text, Sort::Level), Ok(Size::Water(reading)) if (reading.si - 9.0 * FT).abs() < 1e-9),
            "{text}"
        );
    }
    assert_eq!(water_in_words("bucket well, holds 9 ft of water, lid broken"), Some(9.0 * FT));
    assert_eq!(water_in_words("9 ft water level"), None);
    assert_eq!(water_in_words("holds water well"), None);
    for (text, flowing) in [
        ("flowing", true),
        ("flows", true),
        ("artesian", true),
        ("runs over", true),
        ("overflows", true),
        ("flowing 5 gpm", true),
        ("brim full", false),
        ("full", false),
        ("at surface", false),
        ("at grade", false),
        ("lleno", false),
        ("runs over by itself", true),
        ("brim full right now", false),
        ("artesian, 6 psi shut in", true),
        ("artesian, 12 kPa shut in", true),
        ("affleurant", false),
        ("à ras bord", false),
        ("au niveau du sol", false),
        ("déborde", true),
        ("artésien", true),
        ("jaillissant", true),
        ("al ras", false),
        ("a flor de tierra", false),
        ("rebosa", true),
        ("à flor da terra", false),
        ("transborda", true),
        ("jorrante", true),
    ] {
        assert_eq!(read_as(text, Sort::Level), Ok(Size::Full { flowing }), "{text}");
    }
    for (text, wanted) in [
        ("12 below rim", Reference::Top),
        ("12 ft btoc", Reference::Top),
        ("12 ft below top of casing", Reference::Top),
        ("12 ft bgl", Reference::Ground),
        ("612 ft asl", Reference::SeaLevel),
        ("612 ft above sea level", Reference::SeaLevel),
    ] {
        assert!(
            matches!(read_as(text, Sort::Level), Ok(Size::One { from: Some(from), reading }) if from == wanted && reading.si > 0.0),
            "{text}: {:?}",
            read_as(text, Sort::Level)
        );
    }
}

#[test]
fn doubts_are_refused() {
    use Sort::{Depth, Diameter, Level};
    let two = |found: &Trouble| matches!(found, Trouble::TwoValues { .. });
    for (text, sort) in [
        ("180 ft or 300", Depth),
        ("200 / 240", Level),
        ("6 in, then 4 in", Diameter),
        ("6 in, 4 in", Diameter),
        ("10x8", Diameter),
        ("6 in to 60 ft, 4 in liner", Diameter),
        ("3 ft to 2 ft, 6 in below", Diameter), // Wider than deep.
        ("4 x 6 x 20 ft", Diameter),
        ("6 in (4 in liner)", Diameter),
        ("10-6", Diameter),
        ("10x8 to 40", Diameter),
        ("24 x 16", Diameter),
        ("8 in OD to 60, 6 in below", Diameter),                // No wall.
        ("6 in. casing to 40 ft, 10 in. hole below", Diameter), // Wider below.
        ("7 m 4", Level),
    ] {
        assert!(read_as(text, sort).is_err_and(|found| two(&found)), "{text}: {:?}", read_as(text, sort));
    }
    assert!(matches!(read_as("8-11", Level), Err(Trouble::FeetOrRange { .. })));
    assert_eq!(read_as("+3 ft", Level), Err(Trouble::PlusLevel));
    for text in ["dry", "seco", "à sec", "sec"] {
        assert_eq!(read_as(text, Level), Err(Trouble::Dry), "{text}");
    }
    // New, in French; one time, in English.
    for text in ["neuf", "once dry", "once"] {
        assert!(read_as(text, Level).is_err(), "{text}: {:?}", read_as(text, Level));
    }
    assert!(matches!(read_as("+80", Depth), Ok(Size::One { reading, .. }) if reading.nature == Nature::AtLeast));
    for text in ["pumping 85", "85 (pumping)", "PWL 85"] {
        assert_eq!(read_as(text, Level), Err(Trouble::Pumping), "{text}");
    }
    for text in ["no longer flows", "not flowing", "flows in spring", "used to flow"] {
        assert!(read_as(text, Level).is_err(), "{text}: {:?}", read_as(text, Level));
    }
}

/// Each row of the list carries diameter squared times height, summed over its stretches, in square inches times feet, as
/// worked out on paper; or `ask`.
#[test]
fn a_list_as_written_holds_what_geometry_says() {
    let outcome = read(&[fixtures("sizes").join("as-written.csv")], &us()).unwrap();
    let mut failures = Vec::new();
    let mut planned = 0;
    for verdict in &outcome.verdicts {
        match verdict {
            Verdict::Admitted { well, .. } => {
                let liters = standing_volume(&well.standing_water).value * 1000.0;
                let truth = &well.carried[0];
                let Ok(wanted) = truth.parse::<f64>() else {
                    failures.push(format!("{}: planned with {liters:.1} L, should ask", well.id));
                    continue;
                };
                planned += 1;
                let wanted = FRAC_PI_4 * wanted * IN * IN * FT * 1000.0;
                if (liters / wanted - 1.0).abs() > 1e-6 {
                    failures.push(format!("{}: {liters:.2} L instead of {wanted:.2} L", well.id));
                }
            }
            Verdict::HeldBack(held) => {
                if held.carried[0].as_str() != "ask" {
                    failures.push(format!(
                        "{}: {}",
                        held.id,
                        held.reasons().map(|f| f.says.to_string()).collect::<String>()
                    ));
                }
            }
            Verdict::NotAWell(row) => failures.push(format!("{}: no well", row.seen)),
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    assert_eq!(planned, 48);
    let well = |id: &str| {
        outcome.verdicts.iter().find_map(|verdict| match verdict {
            Verdict::Admitted { well, .. } if well.id.as_str() == id => Some(well),
            _ => None,
        })
    };
    // What is assumed is counted, with its spread: least and greatest water.
    let spread = |id: &str| {
        let (low, high) = well(id).unwrap().standing_water_range.as_deref().unwrap();
        [low, high].map(|water| standing_volume(water).value / (FRAC_PI_4 * IN * IN * FT))
    };
    assert_eq!(well("C01").unwrap().assumed, [Field::OpenHoleDiameter]);
    // 20 ft of casing of 6 in and 110 ft of hole of 5 3/4 to 6 in: 720 + 33.0625 x 110 = 4356.875.
    let [low, high] = spread("C01");
    assert!((low - 4356.875).abs() < 1e-6 && (high - 4680.0).abs() < 1e-6, "{low} {high}");
    assert_eq!(well("P05").unwrap().assumed, [Field::WallThickness]);
    // Walls of 0.280 and 0.188 in: 6.065^2 and 6.249^2 times 130.
    let [low, high] = spread("P05");
    assert!((low - 36.784_225 * 130.0).abs() < 1e-6 && (high - 39.050_001 * 130.0).abs() < 1e-6, "{low} {high}");
    // About 40 ft: 36 to 44 ft, so 106 to 114 ft of water.
    let [low, high] = spread("L09");
    assert!((low - 36.0 * 106.0).abs() < 1e-6 && (high - 36.0 * 114.0).abs() < 1e-6, "{low} {high}");
}

fn asked(arguments: &[&str], code: i32) -> String {
    let answer = run(&[&["well", "--product", "bleach 6"], arguments].concat()).ended(code);
    if code == 0 { answer.out } else { answer.err }
}

#[test]
fn the_prompt_answers_as_a_list_does() {
    let json = |more: &[&str]| -> f64 {
        let text = asked(&[&["--json"], more].concat(), 0);
        let message: serde_json::Value = serde_json::from_str(&text).unwrap();
        message["standing_volume_l"].as_f64().unwrap()
    };
    let liters = |square_inch_feet: f64| FRAC_PI_4 * square_inch_feet * IN * IN * FT * 1000.0;
    let well = ["--depth", "150 ft", "--water-level", "20 ft"];
    let with = |more: &[&'static str]| [&well[..], more].concat();
    for (more, wanted) in [
        (&["--diameter", "6 inch casing, 4 inch below 80 ft"][..], 3280.0),
        (&["--interval", "0-80 ft 6 in", "--interval", "80-150 ft 4 in"], 3280.0),
        (&["--diameter", "6 in", "--casing-depth", "80 ft", "--open-hole-diameter", "4 in"], 3280.0),
        (&["--diameter", "6 5/8 in OD x .188 wall"], 5_076.500_13),
        (&["--diameter", "6 in", "--casing-depth", "80 ft"], 4680.0),
    ] {
        let read = json(&with(more));
        assert!((read / liters(wanted) - 1.0).abs() < 1e-6, "{more:?}: {read} instead of {}", liters(wanted));
    }
    for (more, says) in [
        (
            &["--diameter", "6 in, then 4 in"][..],
            "--diameter \"6 in, then 4 in\": two values are written, 6 in and 4 in",
        ),
        (&["--diameter", "4-6 in"], "a range, 4 in to 6 in"),
        (&["--diameter", "6"], "no unit is written"),
        (&["--diameter", "6 in", "--type", "sandpont"], "which is driven"),
        (&["--diameter", "6 in", "--route", "dich"], "which is storm_drain"),
    ] {
        let text = asked(&with(more), 2);
        assert!(text.contains(says), "{more:?}: {text}");
    }
    let text = asked(&["--depth", "180 ft or 300", "--water-level", "20 ft", "--diameter", "6 in"], 2);
    assert!(text.contains("two values are written, 180 ft and 300"), "{text}");
    // A number that is passed over is said, at the prompt and of a row.
    let folder = folder();
    for (typed, depth, level, says) in [
        ("180 ft, was 150", "180 ft, was 150", "20 ft", "read as 180 ft (the former one is left out)"),
        (
            "20 ft static, 60 ft pumping",
            "180 ft",
            "20 ft static, 60 ft pumping",
            "read as 20 ft (at rest; the level while pumping is left out)",
        ),
    ] {
        let text = asked(&["--depth", depth, "--water-level", level, "--diameter", "6 in"], 0);
        assert!(text.split_whitespace().collect::<Vec<_>>().join(" ").contains(says), "{typed}: {text}");
        let cell = |text: &str| format!("\"{text}\"");
        let list = format!(
            "well_id,well_type,depth (ft),static water level (ft),diameter (in)\na,drilled,{},{},6\n",
            cell(depth),
            cell(level)
        );
        let list = place(folder.path(), "wells.csv", list);
        let scenarios = root().join("scenarios/minimal.toml");
        let answer = run(&[
            "check".as_ref(),
            "--json".as_ref(),
            list.as_os_str(),
            "--scenarios".as_ref(),
            scenarios.as_os_str(),
        ]);
        assert!(answer.ended(0).out.contains(says), "{typed}");
    }
    let text = asked(&with(&["--diameter", "36 in", "--type", "hand dug", "--route", "ditch", "--json"]), 0);
    assert!(text.contains("\"message\":\"well\""), "{text}");
}

#[test]
fn a_missing_level_is_asked_for_or_assumed_aloud() {
    let text = asked(&["--depth", "150 ft", "--diameter", "6 in"], 2);
    assert!(text.contains("--assume"), "{text}");
    let text = asked(&["--depth", "150 ft", "--diameter", "6 in", "--assume"], 0);
    assert!(text.contains("\nAssumed "), "{text}");
    let text =
        asked(&["--depth", "150 ft", "--water-level", "20 ft", "--diameter", "6 in", "--casing-depth", "80 ft"], 0);
    assert!(text.contains("\nAssumed       casing depth the casing ends at 80 ft"), "{text}");
}
