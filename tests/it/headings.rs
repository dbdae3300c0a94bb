//! Columns by what their headings say in many hands: squeezed names, things with the unit of a measure, questions with advice,
//! elevations, and gallons in a foot of casing. The lists are invented; the liters are π/4 d² h of the facts beside them.

use crate::habits::{FT, IN, list, round};

fn none() -> Vec<String> {
    Vec::new()
}

/// Feet down and inches across, scattered as the wells of a country are.
fn well(at: usize) -> (usize, usize) {
    (120 + at * 37 % 90, 30 + at * 13 % 25)
}

fn water(at: usize, across: f64) -> Option<f64> {
    let (depth, level) = well(at);
    round(across, (depth - level) as f64 * FT)
}

#[test]
fn a_thing_with_the_unit_of_a_measure_is_measured() {
    for (deep, wide) in [
        ("Well (ft)", "ID (in.)"),
        ("Well ft", "I.D. (in)"),
        ("Drilled (ft)", "ID in."),
        ("Hole (ft)", "Well (in)"),
        ("Feet drilled", "D (in)"),
        ("Length of well (ft)", "Breadth (in)"),
        ("Footage", "Nominal OD (in)"),
    ] {
        let head = format!("Ref,Owner,Kind,{deep},Static level (ft),{wide},Remarks");
        let plain = |at: usize| {
            let (depth, level) = well(at);
            (format!(",Name {at},drilled,{depth},{level},6,"), water(at, 6.0 * IN))
        };
        assert_eq!(list(&head, plain, &[]), none(), "{head}");
    }
    // Its unit may stand in the cells: `135'`.
    let plain = |at: usize| {
        let (depth, level) = well(at);
        (format!(",Name {at},drilled,{depth}',{level}',\"6\"\"\""), water(at, 6.0 * IN))
    };
    assert_eq!(list("Ref,Owner,Kind,Well,Water @,Casing", plain, &[]), none());
}

#[test]
fn few_words_that_come_again_are_types_and_no_names() {
    let plain = |at: usize| {
        let (depth, level) = well(at);
        if at.is_multiple_of(2) {
            (format!(",Name {at},Dug,{},{},42", 20 + at, 6 + at), round(42.0 * IN, 14.0 * FT))
        } else {
            (format!(",Name {at},Drilled,{depth},{level},6"), water(at, 6.0 * IN))
        }
    };
    assert_eq!(list("Ref,Owner,Well,Depth (ft),Static (ft),Casing (in)", plain, &[]), none());
}

#[test]
fn a_w_before_a_name_stands_for_well() {
    for head in [
        "WELLNO,WTYPE,WDEPTH,WLEVEL,WSIZE\n,,ft,ft,in",
        "PARCEL,WSRC,W_DPTH,WLVL,W_DIA\n,,ft,ft,in",
        "PARCEL,KIND,WDEPTH_FT,SWL_FT,WDIAM_IN",
        "PARCEL,KIND,TDFT,WLEV_FT,WELLSIZE_IN",
    ] {
        let plain = |at: usize| {
            let (depth, level) = well(at);
            (format!(",drilled,{depth},{level},6"), water(at, 6.0 * IN))
        };
        assert_eq!(list(head, plain, &[]), none(), "{head}");
    }
    // Beside a column of depths it may be that of the water.
    let plain = |at: usize| {
        let (depth, level) = well(at);
        (format!(",drilled,{depth},{level},6"), None)
    };
    assert_eq!(list("PARCEL,KIND,DEPTH_FT,WDEPTH_FT,DIA_IN", plain, &[]), none());
}

#[test]
fn the_paper_behind_a_measure_and_the_advice_behind_a_question_say_nothing() {
    for (deep, level) in [
        (
            "Depth per driller's log (ft below grade)",
            "How far down is the water with nothing running? (feet) Ask your driller.",
        ),
        ("Depth according to driller (ft)", "Water level in the well (ft)"),
        ("Depth, owner says (ft)", "Water, ft down"),
        ("Depth from the county card (ft)", "Wtr @ (ft)"),
        ("How deep is it? (ft) Leave blank if you do not know.", "Stat. W/L (ft)"),
    ] {
        let head = format!("Ref;Kind;{deep};{level};Casing (in)");
        let plain = |at: usize| {
            let (depth, level) = well(at);
            (format!(";drilled;{depth};{level};6"), water(at, 6.0 * IN))
        };
        assert_eq!(list(&head, plain, &[]), none(), "{head}");
    }
    let metric = |at: usize| {
        (
            format!(";perforado;{};{};15", 50 + at * 29 % 40, 10 + at * 3 % 7),
            round(0.15, (40 + at * 29 % 40 - at * 3 % 7) as f64),
        )
    };
    let head = "Núm.;Tipo;Profundidad según perforista (m);Espejo (m);Boca (cm)";
    assert_eq!(list(head, metric, &[]), none());
}

#[test]
fn the_mouth_of_a_well_is_measured_across() {
    for head in [
        "N.º;Origem da água;Fundo (m);Água aos (m);Boca (cm)",
        "Núm.;Tipo;Fondo (m);El agua está a (m);Medida de la boca (cm)",
        "N°;Type;Fond (m);Nappe à (m);Bouche (cm)",
    ] {
        let kind =
            if head.contains("Origem") { "furo" } else { ["forage", "perforado"][usize::from(head.contains("Tipo"))] };
        let plain = |at: usize| {
            (
                format!(";{kind};{};{};15", 50 + at * 29 % 40, 10 + at * 3 % 7),
                round(0.15, (40 + at * 29 % 40 - at * 3 % 7) as f64),
            )
        };
        assert_eq!(list(head, plain, &[]), none(), "{head}");
    }
    // Where a note counts both from there, nothing is taken off.
    for note in ["fundo e água contados da boca do poço ou do tubo", "Fundo e água medidos desde a boca"] {
        let head = format!("{note};;;;\nN.º;Tipo;Fundo (m);Água (m);Boca (cm)");
        let plain = |at: usize| (format!(";furo;{};{};150", 7 + at * 5 % 8, 2 + at % 2), None);
        let read = list(&head, plain, &[]);
        assert!(read.iter().all(|row| row.contains("Some(")), "{note}: {read:?}");
    }
}

#[test]
fn a_height_of_water_is_told_in_many_words() {
    for (head, kind) in [
        ("Ref;Kind;Depth (m);Water over the bottom (m);Width (m)", "dug"),
        ("Ref;Kind;Depth (m);Water in pipe (m);Width (m)", "dug"),
        ("Núm.;Tipo;Hondo (m);¿Cuántos metros de agua tiene?;Ancho (m)", "excavado"),
        ("Núm.;Tipo;Hondo (m);Del fondo al agua (m);Ancho (m)", "excavado"),
        ("N°;Type;Prof. (m);Combien de mètres d'eau ?;Largeur (m)", "puits creusé"),
        ("N.º;Tipo;Prof. (m);Quanta água tem? (m);Largura (m)", "escavado"),
    ] {
        let plain = |at: usize| {
            (format!(";{kind};{};{};1.2", 8 + at * 5 % 8, 2 + at * 3 % 5), round(1.2, (2 + at * 3 % 5) as f64))
        };
        assert_eq!(list(head, plain, &[]), none(), "{head}");
    }
    // A bare height beside a level may be that of the well from its bottom.
    let plain = |at: usize| (format!(";escavado;{};{};1.2", 8 + at * 5 % 8, 2 + at * 3 % 5), None);
    assert_eq!(list("N.º;Tipo;Altura (m);Nível estático (m);Largura (m)", plain, &[]), none());
}

#[test]
fn elevations_give_the_water_between_them() {
    for head in [
        "Ref,Kind,Rim el.,Bottom el.,Water el.,Inside dia. (in)\n,,ft,ft,ft,",
        "Ref,Kind,Ground elev (ft),Bottom elev (ft),Water elev (ft),Inside dia. (in)",
        "Ref,Kind,Remark,Bottom elevation (ft),Elevation of water (ft),Inside dia. (in)",
    ] {
        let top = |at: usize| if head.contains("Remark") { "ok".to_owned() } else { format!("{}", 512 + at) };
        let plain = |at: usize| {
            let (depth, level) = well(at);
            let (bottom, water_at) = (512 + at - depth, 512 + at - level);
            (format!(",drilled,{},{bottom},{water_at},6", top(at)), water(at, 6.0 * IN))
        };
        // A bottom above the rim, and a water below the bottom.
        let wrong = format!(",drilled,{},520,480,6", top(0));
        assert_eq!(list(head, plain, &[(&wrong, None)]), none(), "{head}");
    }
}

#[test]
fn gallons_in_a_foot_of_casing_tell_its_width() {
    // 1.47, 1.02, 2.61 and 0.65 US gallons: 6, 5, 8 and 4 in, as handbooks print them.
    let held = [("1.47", 6.0), ("1.02", 5.0), ("2.61", 8.0), ("0.65", 4.0)];
    let plain = |at: usize| {
        let (depth, level) = well(at);
        let (gallons, inches) = held[at % 4];
        (format!(",drilled,{gallons},{depth},{level}"), water(at, inches * IN))
    };
    for head in ["Acct,Well,Gal/ft,Bottom (ft),Static (ft)", "Acct,Kind,Gallons per foot of casing,Depth (ft),SWL (ft)"]
    {
        assert_eq!(list(head, plain, &[]), none(), "{head}");
    }
    // Where the sizes fit neither gallon nobody can say which it is.
    let odd = |at: usize| {
        let (depth, level) = well(at);
        (format!(",drilled,{},{depth},{level}", ["1.33", "1.21", "2.3", "0.7"][at % 4]), None)
    };
    assert_eq!(list("Acct,Kind,Gal/ft,Depth (ft),SWL (ft)", odd, &[]), none());
}

#[test]
fn a_spring_has_a_box_beside_wells_that_have_casings() {
    let head = "Stop,Supply,Well depth (ft),Water at (ft),Casing (in),Box length (ft),Box width (ft),Water in box (ft),Remarks";
    let plain = |at: usize| {
        let (depth, level) = well(at);
        (format!(",drilled well,{depth},{level},6,,,,"), water(at, 6.0 * IN))
    };
    let cubic_foot = FT * FT * FT * 1000.0;
    let rows = [
        (",spring box,,,,4,3,2.5,", Some(30.0 * cubic_foot)),
        (",spring box,,,,3,3,2,round inside", round(3.0 * FT, 2.0 * FT)),
        (",spring box,,,,4,3,2,round inside", None),
        (",spring box,,,,4,3,,", None),
    ];
    assert_eq!(list(head, plain, &rows), none());
}

/// Wells whose depths are scattered and whose levels are much alike, as height and as level: depth, level.
fn scattered(at: usize) -> (usize, usize) {
    (90 + at * 53 % 140, 24 + at * 5 % 9)
}

/// Twenty wells; the last twelve stand as rows of their own.
fn twenty(cells: impl Fn(usize) -> (String, Option<f64>), head: &str) -> Vec<String> {
    let rest: Vec<(String, Option<f64>)> = (8..20).map(&cells).collect();
    let rest: Vec<(&str, Option<f64>)> = rest.iter().map(|(cells, water)| (cells.as_str(), *water)).collect();
    list(head, &cells, &rest)
}

#[test]
fn what_only_stands_is_told_by_its_cells_or_by_a_note_or_asked() {
    let bore = |at: usize| {
        let (depth, level) = scattered(at);
        (depth, level, round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let height = |at: usize| {
        let (depth, level, water) = bore(at);
        (format!(",drilled,{depth},{},6", depth - level), water)
    };
    let level = |at: usize| {
        let (depth, level, water) = bore(at);
        (format!(",drilled,{depth},{level},6"), water)
    };
    for words in ["Ft standing", "Standing (ft)", "Feet standing"] {
        let head = format!("Ref,Kind,Depth (ft),{words},Casing (in)");
        assert_eq!(twenty(height, &head), none(), "{words} as a height");
        assert_eq!(twenty(level, &head), none(), "{words} as a level");
        // Eight wells prove nothing.
        let unknown = |at: usize| (height(at).0, None);
        assert_eq!(list(&head, unknown, &[]), none(), "{words} of few wells");
        for note in [
            "means feet of water in the casing when nothing runs (NOT how far down it is)",
            "= height of water, not feet down to it",
        ] {
            let note = format!("\"{words} {note}\"").replace(" means", " =");
            let head = format!("{note},,,,\n{head}");
            assert_eq!(list(&head, height, &[]), none(), "{note}");
        }
    }
    for words in [
        "Standing level (ft)",
        "Standing water level (ft)",
        "Static (ft)",
        "Stands at (ft)",
        "Lower a weight with the pump off. How many feet down is the water?",
    ] {
        let head = format!("Ref,Kind,Depth (ft),{words},Casing (in)");
        assert_eq!(list(&head, level, &[]), none(), "{words}");
    }
    // Beside the level while pumping it is a level.
    let pumped = |at: usize| (format!("{},{}", level(at).0, 60), level(at).1);
    assert_eq!(list("Ref,Kind,Depth (ft),Standing (ft),Casing (in),Pumping (ft)", pumped, &[]), none());
    // How a permit stands is no level.
    let permit = |at: usize| (format!("{},{}", level(at).0, ["in use", "standby"][at % 2]), level(at).1);
    assert_eq!(twenty(permit, "Ref,Kind,Depth (ft),SWL (ft),Casing (in),Standing"), none());
}

#[test]
fn a_depth_below_a_band_of_water_is_that_of_the_water() {
    let cells = |at: usize| {
        let (depth, level) = scattered(at);
        (format!(",drilled,{depth},6,{level},5/21"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    for head in [
        ",,BORE,,WATER,\nTag,Kind,Depth,Width,Depth,When\n,,ft,in,ft down,mo/yr",
        ",,BORE,,WATER,\nTag,Kind,Depth,Across,Depth,When\n,,feet,inches,feet below,mo/yr",
        ",,WELL,,WATER,\nTag,Kind,Depth (ft),Dia (in),Depth (ft down),When",
    ] {
        assert_eq!(list(head, cells, &[]), none(), "{head}");
    }
    // Where nothing says down, many wells tell by how they spread, and few do not.
    let head = ",,BORE,,WATER,\nTag,Kind,Depth,Width,Depth,When\n,,ft,in,ft,mo/yr";
    assert_eq!(twenty(cells, head), none());
    assert_eq!(list(head, |at| (cells(at).0, None), &[]), none());
    let deep = |at: usize| {
        let (depth, level) = scattered(at);
        (format!(",drilled,{depth},6,{},5/21", depth - level), cells(at).1)
    };
    let head = ",,BORE,,WATER,\nTag,Kind,Depth,Width,Depth,When\n,,ft,in,ft of water,mo/yr";
    assert_eq!(list(head, deep, &[]), none());
}

#[test]
fn names_that_begin_with_their_unit_are_taken_apart() {
    let cells = |at: usize| {
        let (depth, level) = scattered(at);
        let cased = 50 + at;
        let water = [(6.0, level, cased), (5.5, cased, depth)]
            .map(|(across, from, to)| round(across * IN, (to - from) as f64 * FT).unwrap());
        (format!(",drilled,{depth},6,{cased},5.5,{level}"), Some(water.iter().sum()))
    };
    let whole = |at: usize| {
        let (depth, level) = scattered(at);
        (format!(",drilled,{depth},6,{depth},0,{level}"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    let rest: Vec<(String, Option<f64>)> = (8..14).map(whole).collect();
    let mut rest: Vec<(&str, Option<f64>)> = rest.iter().map(|(cells, water)| (cells.as_str(), *water)).collect();
    // A number below nothing that stands for what was not measured.
    rest.extend([
        (",drilled,120,6,120,0,-8", None),
        (",drilled,-8,6,80,0,20", None),
        (",drilled,150,-8,80,0,20", None),
    ]);
    for head in [
        "APPLNO,HOWMADE,FTBORE,INPIPE,FTPIPE,INROCK,FTREST",
        "PERMIT,METHOD,FT_DEPTH,IN_CASING,FT_CASING,IN_HOLE,FT_STATIC",
        "TAGNO,KIND,FTDPTH,INCSG,FTCSG,INROCK,FTSWL",
    ] {
        assert_eq!(list(head, cells, &rest), none(), "{head}");
    }
    let tail = |at: usize| {
        let (depth, level) = scattered(at);
        (format!(",drilled,{depth},6,{level}"), round(6.0 * IN, (depth - level) as f64 * FT))
    };
    for head in ["PERMIT,KIND,DPTHFT,DIAMIN,SWLFT", "PERMIT,KIND,TOTDPTHFT,CSGDIAIN,DTWFT"] {
        assert_eq!(list(head, tail, &[]), none(), "{head}");
    }
}
