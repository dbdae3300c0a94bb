//! Written quantities: what is understood, what is refused, and how values are written for people.

use aftercrest::quantity::format;
use aftercrest::quantity::parse::{Comma, Nature, Trouble, plain, quantity, quantity_with};
use aftercrest::quantity::unit::{Dimension, Gallon, by_symbol, look_up};

fn unit(symbol: &str) -> &'static aftercrest::quantity::unit::Unit {
    by_symbol(symbol).unwrap_or_else(|| panic!("no unit {symbol}"))
}

/// Written, read as this many of that unit.
fn length(written: &str, default: Option<&str>) -> Result<(f64, Nature, Option<String>), Trouble> {
    let reading = quantity(written, Dimension::Length, default.map(unit), None)?;
    Ok((reading.si, reading.nature, reading.note.map(Into::into)))
}

#[test]
fn lengths_in_every_common_form() {
    let feet = 0.3048;
    let inch = 0.0254;
    for (written, meters) in [
        ("120 ft", 120.0 * feet),
        ("120ft", 120.0 * feet),
        ("120 FT.", 120.0 * feet),
        ("120 feet", 120.0 * feet),
        ("120'", 120.0 * feet),
        ("120’", 120.0 * feet),
        ("120′", 120.0 * feet),
        ("6 in", 6.0 * inch),
        ("6in", 6.0 * inch),
        ("6\"", 6.0 * inch),
        ("6”", 6.0 * inch),
        ("6″", 6.0 * inch),
        ("6''", 6.0 * inch),
        ("6 inches", 6.0 * inch),
        ("6.625 in", 6.625 * inch),
        ("6 1/4\"", 6.25 * inch),
        ("6-1/4 in", 6.25 * inch),
        ("6¼\"", 6.25 * inch),
        ("6 ¼ in", 6.25 * inch),
        ("1/2 in", 0.5 * inch),
        ("½\"", 0.5 * inch),
        ("12 ft 6 in", 12.0 * feet + 6.0 * inch),
        ("12ft6in", 12.0 * feet + 6.0 * inch),
        ("12'6\"", 12.0 * feet + 6.0 * inch),
        ("12' 6\"", 12.0 * feet + 6.0 * inch),
        ("12’ 6 1/2”", 12.0 * feet + 6.5 * inch),
        ("12'-6\"", 12.0 * feet + 6.0 * inch),
        ("12 feet, 6 inches", 12.0 * feet + 6.0 * inch),
        ("12 feet and 6 inches", 12.0 * feet + 6.0 * inch),
        ("3 m 20 cm", 3.2),
        ("355.6mm", 0.3556),
        ("56m ", 56.0),
        ("37 m", 37.0),
        ("-2 ft", -2.0 * feet),
        ("\u{2212}2 ft", -2.0 * feet),
        ("+2 ft", 2.0 * feet),
        ("1,250 ft", 1250.0 * feet),
        ("1,250.5 ft", 1250.5 * feet),
        ("1.250,5 m", 1250.5),
        ("1 250 m", 1250.0),
        ("1\u{a0}250 m", 1250.0),
        ("12,5 m", 12.5),
        ("0,125 m", 0.125),
        (".5 m", 0.5),
        ("5. m", 5.0),
        ("1.2e2 m", 120.0),
        ("1E+02 m", 100.0),
        ("１２ m", 12.0),
    ] {
        let (si, nature, _) = length(written, None).unwrap_or_else(|trouble| panic!("{written}: {trouble}"));
        assert!((si - meters).abs() <= 1e-12 * meters.abs(), "{written}: {si} instead of {meters}");
        assert_eq!(nature, Nature::Exact, "{written}");
    }
}

#[test]
fn ranges_and_bounds() {
    for (written, low, high) in [
        ("6-8", 6.0, 8.0),
        ("6 - 8", 6.0, 8.0),
        ("6–8", 6.0, 8.0),
        ("6 to 8", 6.0, 8.0),
        ("between 6 and 8", 6.0, 8.0),
        ("7 ± 1", 6.0, 8.0),
        ("7 +/- 1", 6.0, 8.0),
        ("6..8", 6.0, 8.0),
    ] {
        for suffix in ["", " m", "m"] {
            let written = format!("{written}{suffix}");
            let (si, nature, _) = length(&written, Some("m")).unwrap_or_else(|trouble| panic!("{written}: {trouble}"));
            assert_eq!(nature, Nature::Range { low_si: low, high_si: high }, "{written}");
            assert_eq!(si, 7.0, "{written}");
        }
    }
    assert_eq!(length("1 ft - 2 ft", None).expect("a range").1, Nature::Range { low_si: 0.3048, high_si: 0.6096 });
    assert_eq!(length("0 - 10m", None).expect("a class").0, 5.0);
    for written in [
        ">300",
        "> 300 m",
        ">=300",
        "≥300",
        "over 300",
        "at least 300 m",
        "300+",
        "300 m+",
        "300 or more",
        "more than 300",
        "300 m or more",
    ] {
        let (si, nature, _) = length(written, Some("m")).unwrap_or_else(|trouble| panic!("{written}: {trouble}"));
        assert_eq!((si, nature), (300.0, Nature::AtLeast), "{written}");
    }
    for written in ["<5", "< 5 m", "≤5", "under 5", "less than 5 m", "up to 5", "5 m or less"] {
        assert_eq!(length(written, Some("m")).expect(written).1, Nature::AtMost, "{written}");
    }
    assert_eq!(length("8-6", Some("m")), Err(Trouble::BackwardRange));
}

#[test]
fn remarks_are_kept_and_unknown_units_are_not_remarks() {
    for (written, note) in [
        ("120 ft (est)", "(est)"),
        ("120 (reported)", "(reported)"),
        ("120 approx", "approx"),
        ("~120", "~"),
        ("ca. 120 m", "ca."),
        ("56m from pit latrine", "from pit latrine"),
        ("120 ft bgl", "bgl"),
        ("120?", "?"),
        ("12'6", "the number after the feet read as inches"),
    ] {
        let found = length(written, Some("ft")).unwrap_or_else(|trouble| panic!("{written}: {trouble}")).2;
        assert_eq!(found.as_deref(), Some(note), "{written}");
    }
    for written in [
        "120 furlongs",
        "120 fathoms",
        "Drilling diameter is 200",
        "deep",
        "6/8/2024",
        "12-05-2019",
        "1.2.3",
        "1,23,4",
        "ft",
        "12 ft 14 in",
        "--5",
        "6 in 8 in",
        "1e400",
        "5 6 7",
        "0x10",
        "NaN",
        "inf",
        "12:30",
    ] {
        assert!(length(written, Some("ft")).is_err(), "{written} was read as {:?}", length(written, Some("ft")));
    }
}

#[test]
fn troubles_name_the_characters() {
    let say = |written: &str, dimension, default: Option<&str>| {
        quantity(written, dimension, default.map(unit), None).expect_err(written).to_string()
    };
    assert_eq!(
        say("120 fet", Dimension::Length, Some("ft")),
        "\"fet\" (from character 5) was not understood; did you mean \"ft\"?"
    );
    assert_eq!(
        say("120 gal", Dimension::Volume, None),
        "\"gal\" is a US or an imperial measure, and nothing says which"
    );
    assert_eq!(say("120 gpm", Dimension::Length, Some("ft")), "\"gpm\" (from character 5) was not understood");
    assert_eq!(say("120 kg", Dimension::Length, Some("ft")), "\"kg\" is a unit of mass, not of length");
    assert_eq!(say("120", Dimension::Length, None), "no unit is written");
    assert_eq!(say("deep", Dimension::Length, Some("ft")), "there is no number in \"deep\"");
    assert_eq!(say("", Dimension::Length, Some("ft")), "nothing is written");
}

#[test]
fn gallons_need_a_declaration() {
    let volume = |written: &str, gallon| quantity(written, Dimension::Volume, None, gallon).map(|reading| reading.si);
    let us = 231.0 * 0.0254 * 0.0254 * 0.0254;
    assert!((volume("50 gal", Some(Gallon::Us)).expect("US") - 50.0 * us).abs() < 1e-15);
    assert!((volume("50 gal", Some(Gallon::Imperial)).expect("imperial") - 50.0 * 4.546_09e-3).abs() < 1e-15);
    assert!((volume("0.5 US gal", None).expect("by name") - 0.5 * us).abs() < 1e-15);
    assert!((volume("2 imp gal", None).expect("by name") - 2.0 * 4.546_09e-3).abs() < 1e-15);
    assert!(matches!(volume("50 gal", None), Err(Trouble::GallonUndeclared { .. })));
    assert!(
        (quantity("8 gal / min", Dimension::Flow, None, Some(Gallon::Us)).expect("a rate").si - 8.0 * us / 60.0).abs()
            < 1e-15
    );
}

#[test]
fn other_dimensions() {
    let read =
        |written: &str, dimension| quantity(written, dimension, None, Some(Gallon::Us)).map(|reading| reading.si);
    assert_eq!(read("12 °C", Dimension::Temperature), Ok(285.15));
    assert!((read("53.6 F", Dimension::Temperature).expect("Fahrenheit") - 285.15).abs() < 1e-9);
    assert_eq!(read("0.3 mg/L as Fe", Dimension::Concentration), Ok(0.3 * 1e-3));
    assert!((read("300 µg/L", Dimension::Concentration).expect("micrograms") - 0.3e-3).abs() < 1e-18);
    assert!((read("6.24 m^3/hr", Dimension::Flow).expect("a rate") - 6.24 / 3600.0).abs() < 1e-15);
    assert_eq!(read("24 h", Dimension::Duration), Ok(86_400.0));
    assert_eq!(read("2 lb 4 oz", Dimension::Mass), Ok(2.25 * 0.453_592_37));
    assert_eq!(read("-81.1428", Dimension::Angle).ok(), None); // Without a default unit even an angle needs its mark.
    assert!((read("44°30'53.32\"N", Dimension::Angle).expect("an angle") - 44.514_811_1).abs() < 1e-7);
    assert!((read("94 59 10.21 W", Dimension::Angle).expect("an angle") + 94.986_169_4).abs() < 1e-7);
}

#[test]
fn a_lone_comma_follows_the_list() {
    let read = |written: &str, comma| {
        quantity_with(written, Dimension::Length, Some(unit("m")), None, comma).expect(written).si
    };
    assert_eq!(read("1,234", Comma::ByForm), 1234.0);
    assert_eq!(read("1,234", Comma::Decimal), 1.234);
    assert_eq!(read("12,5", Comma::ByForm), 12.5);
    assert_eq!(read("12,5", Comma::Decimal), 12.5);
    assert_eq!(read("1.234,5", Comma::Decimal), 1234.5);
}

/// The fast way for plain numbers and the standard library agree to the last bit.
#[test]
fn plain_numbers_are_correctly_rounded() {
    let mut state = 0x5EED_u64;
    let mut next = || {
        state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    };
    for _ in 0..300_000 {
        let digits = (next() % 22 + 1) as usize;
        let mut text: String = (0..digits).map(|_| char::from(b'0' + (next() % 10) as u8)).collect();
        if next() % 3 > 0 {
            text.insert((next() % (digits as u64 + 1)) as usize, '.');
        }
        if next() % 4 == 0 {
            text.insert(0, '-');
        }
        let expected: f64 = text.parse().expect("a number");
        assert_eq!(plain(&text).map(f64::to_bits), Some(expected.to_bits()), "{text}");
    }
    for odd in ["", "-", ".", "-.", "1.2.3", "1e5", "1,2", " 1", "1 ", "+-1", "١"] {
        assert_eq!(plain(odd), None, "{odd:?}");
    }
}

/// No text makes the reader panic, whatever it is made of.
#[test]
fn nothing_panics() {
    let parts = [
        "1",
        "2",
        "/",
        "-",
        "–",
        ".",
        ",",
        " ",
        "'",
        "\"",
        "ft",
        "in",
        "m",
        ">",
        "~",
        "to",
        "½",
        "e9",
        "(",
        ")",
        "?",
        "±",
        "gal",
        "é",
        "\u{0}",
        "𝟙",
        "or more",
        "°",
        "N",
        "999999999999999999999",
    ];
    let mut state = 1_u64;
    for _ in 0..60_000 {
        let mut text = String::new();
        for _ in 0..7 {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            text.push_str(parts[(state >> 33) as usize % parts.len()]);
        }
        for dimension in [Dimension::Length, Dimension::Volume, Dimension::Angle, Dimension::Number] {
            if let Ok(reading) = quantity(&text, dimension, Some(unit("m")), Some(Gallon::Us)) {
                assert!(reading.si.is_finite(), "{text}");
            }
        }
    }
}

#[test]
fn every_spelling_means_one_unit() {
    for unit in aftercrest::quantity::unit::all().filter(|unit| !unit.symbol.is_empty()) {
        for spelling in std::iter::once(&unit.symbol).chain(unit.spellings) {
            match look_up(spelling, None) {
                Some(aftercrest::quantity::unit::Meaning::Unit(found)) => {
                    assert_eq!(found.symbol, unit.symbol, "{spelling}")
                }
                other => panic!("{spelling}: {other:?}"),
            }
        }
    }
}

#[test]
fn values_for_people() {
    let text = |si: f64, symbol: &str, digits| format::quantity(si, unit(symbol), digits);
    assert_eq!(text(54.864, "ft", 3), "180 ft");
    assert_eq!(text(1.25, "L", 4), "1,250 L");
    assert_eq!(text(0.000_35, "mg/L", 3), "0.35 mg/L");
    assert_eq!(format::number(1_234_567.0, 7), "1,234,567");
    assert_eq!(format::number(12_345.678, 3), "12,300");
    assert_eq!(format::number(0.000_012_3, 2), "0.000012");
    assert_eq!(format::number(-0.5, 3), "-0.5");
    assert_eq!(format::number(999.96, 4), "1,000");
    assert_eq!(format::number(0.0, 3), "0");
    assert_eq!(format::number(1e21, 3), "1,000,000,000,000,000,000,000");
    assert_eq!(text(285.15, "C", 3), "12 C");
}
