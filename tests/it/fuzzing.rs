//! Mutated cells, headings, lists and workbooks: nothing may panic, hang or lose a row.
//!
//! A plain run tries a few thousand of each. `AFTERCREST_FUZZ=1000000 cargo test --release fuzzing -- --nocapture` tries as
//! many as it says; the sequence is the same each time, and a failure prints its input. What is found becomes a fixture.

use std::collections::BTreeSet;
use std::path::PathBuf;

use aftercrest::book;
use aftercrest::checks::{Identities, Verdict, admit};
use aftercrest::field::Field;
use aftercrest::finding::Severity;
use aftercrest::inventory::{Inventory, choices, description, heading, remarks};
use aftercrest::quantity::parse::quantity;
use aftercrest::quantity::unit::{Dimension, Gallon, by_symbol};
use aftercrest::scenario::stated::Document;
use aftercrest::scenario::{Campaign, file_text, toml_text};

use crate::reading::{fixtures, us};

/// How many inputs to try where so many are quick enough for every run.
fn rounds(usual: u64) -> u64 {
    std::env::var("AFTERCREST_FUZZ").ok().and_then(|rounds| rounds.parse().ok()).unwrap_or(usual)
}

/// SplitMix64: the same sequence everywhere.
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn below(&mut self, limit: usize) -> usize {
        (self.next() % limit.max(1) as u64) as usize
    }
}

/// Changes some bytes: flips, cuts, repeats, and words that have meaning here.
fn mutate(seed: &[u8], words: &[&str], chance: &mut Chance) -> Vec<u8> {
    let mut bytes = seed.to_vec();
    for _ in 0..=chance.below(6) {
        let at = chance.below(bytes.len() + 1);
        match chance.below(7) {
            0 if at < bytes.len() => bytes[at] = chance.next() as u8,
            1 if at < bytes.len() => {
                bytes.remove(at);
            }
            2 => bytes.truncate(at),
            3 => {
                let end = (at + chance.below(40)).min(bytes.len());
                let piece = bytes[at..end].to_vec();
                let to = chance.below(bytes.len() + 1);
                bytes.splice(to..to, piece);
            }
            4 if at < bytes.len() => bytes[at] ^= 1 << chance.below(8),
            _ => {
                let word = words[chance.below(words.len())].as_bytes();
                bytes.splice(at..at, word.iter().copied());
            }
        }
    }
    bytes
}

const WORDS: &[&str] = &[
    "\"",
    "\"\"",
    "\n",
    "\r\n",
    "\r",
    ",",
    ";",
    "\t",
    "|",
    "\u{feff}",
    "\0",
    "'",
    "6 1/4",
    "12'6\"",
    "6-8",
    ">300",
    "-9999",
    "NA",
    "1,234",
    "1e308",
    "-",
    "ft",
    " in",
    "gal",
    "gpm",
    "mg/L",
    "°",
    "½",
    "(ft)",
    "[m]",
    "_in",
    "_uom",
    "unit",
    "drilled",
    "dug",
    "spring_box",
    "well_id",
    "depth",
    "yes",
    "#REF!",
    "999999999999999999999999",
    "0.0000000000000000000001",
    "±",
    "to",
    "<",
    "id",
    "from",
    "diameter",
    "é",
    "\u{ffff}",
    "𝟙",
    "#",
];

#[test]
fn cells() {
    let seeds = [
        "120 ft",
        "6 in",
        "12'6\"",
        "6 1/4\"",
        "6-8",
        ">300",
        "1.234,5 m",
        "44°30'53.32\"N",
        "120 ft (est)",
        "0.5 gal",
        "7 ± 1",
        "1E+02",
    ];
    let units = ["ft", "in", "m", "US gal", "mg/L", "C", ""].map(|symbol| by_symbol(symbol).expect("a unit"));
    let dimensions = [
        Dimension::Length,
        Dimension::Volume,
        Dimension::Flow,
        Dimension::Angle,
        Dimension::Number,
        Dimension::Temperature,
        Dimension::Concentration,
    ];
    let mut chance = Chance(1);
    for _ in 0..rounds(50_000) {
        let bytes = mutate(seeds[chance.below(seeds.len())].as_bytes(), WORDS, &mut chance);
        let text = String::from_utf8_lossy(&bytes);
        let unit = units[chance.below(units.len())];
        let dimension = dimensions[chance.below(dimensions.len())];
        if let Ok(reading) = quantity(&text, dimension, Some(unit), Some(Gallon::Us)) {
            assert!(reading.si.is_finite(), "{text:?}");
        }
    }
}

/// Descriptions of whole wells, remarks and words for types, routes and answers.
#[test]
fn words() {
    const SEEDS: [&str; 12] = [
        "6in drilled, 140 deep, pump hangs at 120, water at 31",
        "8in to 50 then 6in, 260 deep, brim full since flood",
        "drilled 5 in. 195 ft. water at 11",
        "6\" stl 142' swl 38 pump 120 - 4in liner to 90",
        "dug, 5x5 ft timbered, one hundred eighty deep; 7 to water",
        "two wells, 6in both. house one 150 water at 30, barn one dont know",
        "deepened 1994 to 240 ft, plugged back from 300, sanded in 5 ft",
        "puits cimenté, Ø 1,20 m, prof. 12,5 m, NS 4 m sous margelle",
        "pozo excavado, 1.10 m x 9 m, nivel a 3,5 m; ademe de 6 pulg",
        "poço tubular 6 pol, 60 m, NE 12 m, bomba a 48 m",
        "no fuel smell, dog, gate locked, drains to ditch w/ culvert",
        "22 ft from top of pipe, pipe up 18 in",
    ];
    let mut chance = Chance(5);
    for _ in 0..rounds(20_000) {
        let bytes = mutate(SEEDS[chance.below(SEEDS.len())].as_bytes(), WORDS, &mut chance);
        let text = String::from_utf8_lossy(&bytes).into_owned();
        shown(&bytes, || {
            for part in description::parts(&text).of {
                assert!(part.len() <= 4 * text.len() + 200, "{text:?}");
            }
            let _ = remarks::statements(&text);
            let _ = (choices::well_type(&text), choices::route(&text), choices::flag(Field::Flooded, &text));
            let _ = heading::name(&text, Some(Gallon::Us));
        });
    }
}

/// Reads and proves; every row must come out, with a reason if it is held back.
fn whole(path: PathBuf) -> Option<u64> {
    let rules = us();
    let mut inventory = Inventory::open(&[path], &rules).ok()?;
    let mut identities = Identities::new(&rules);
    let mut rows = 0;
    while let Some(batch) = inventory.next_batch(64).ok()? {
        let mut drafts = batch.drafts();
        assert_eq!(drafts.len(), batch.rows());
        identities.check(&mut drafts);
        for draft in drafts {
            rows += 1;
            if let Verdict::HeldBack(held) = admit(draft, &rules) {
                assert!(held.findings.iter().any(|finding| finding.code.severity() == Severity::Error));
            }
        }
    }
    assert_eq!(rows, inventory.rows_read());
    Some(rows)
}

/// A folder in memory where there is one: thousands of files are written.
fn folder() -> tempfile::TempDir {
    let memory = std::path::Path::new("/dev/shm");
    if memory.is_dir() { tempfile::tempdir_in(memory) } else { tempfile::tempdir() }.expect("a folder")
}

/// Runs `work`, and shows the input when it panics.
fn shown(input: &[u8], work: impl FnOnce() + std::panic::UnwindSafe) {
    if std::panic::catch_unwind(work).is_err() {
        panic!("failed on {:?}", String::from_utf8_lossy(input));
    }
}

#[test]
fn lists() {
    let mut seeds: Vec<Vec<u8>> = Vec::new();
    for name in ["dirty", "findings"] {
        let mut paths: Vec<PathBuf> =
            std::fs::read_dir(fixtures(name)).expect("fixtures").map(|entry| entry.expect("an entry").path()).collect();
        paths.sort();
        for path in paths {
            let text = path.extension().is_some_and(|end| end == "csv" || end == "tsv" || end == "txt" || end == "rdb");
            let bytes = std::fs::read(&path).expect("a fixture");
            if text && bytes.len() < 2000 {
                seeds.push(bytes);
            }
        }
    }
    assert!(seeds.len() > 60);
    let folder = folder();
    let path = folder.path().join("list.csv");
    let mut chance = Chance(2);
    let mut outcomes = BTreeSet::new();
    for _ in 0..rounds(3_000) {
        let seed = &seeds[chance.below(seeds.len())];
        let bytes = mutate(seed, WORDS, &mut chance);
        std::fs::write(&path, &bytes).expect("a file");
        let path = path.clone();
        let (send, receive) = std::sync::mpsc::channel();
        shown(&bytes, move || {
            let _ = send.send(whole(path));
        });
        outcomes.insert(receive.recv().ok().flatten());
    }
    assert!(outcomes.len() > 3, "the inputs are all alike: {outcomes:?}");
}

/// A ZIP archive of stored parts, with right checksums: the parts are what is tried, not the archive.
fn archive(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let crc = |bytes: &[u8]| {
        let mut crc = !0_u32;
        for byte in bytes {
            crc ^= u32::from(*byte);
            for _ in 0..8 {
                crc = if crc & 1 == 1 { crc >> 1 ^ 0xEDB8_8320 } else { crc >> 1 };
            }
        }
        !crc
    };
    let (mut out, mut directory) = (Vec::new(), Vec::new());
    for (name, bytes) in parts {
        let offset = out.len() as u32;
        let mut common = Vec::new();
        common.extend([20, 0, 0, 0, 0, 0, 0, 0, 33, 0]); // Version, flags, stored, 1980-01-01.
        common.extend(crc(bytes).to_le_bytes());
        common.extend((bytes.len() as u32).to_le_bytes());
        common.extend((bytes.len() as u32).to_le_bytes());
        common.extend((name.len() as u16).to_le_bytes());
        common.extend([0, 0]);
        out.extend(b"PK\x03\x04");
        out.extend(&common);
        out.extend(name.as_bytes());
        out.extend(*bytes);
        directory.extend(b"PK\x01\x02\x14\x00");
        directory.extend(&common);
        directory.extend([0; 10]);
        directory.extend(offset.to_le_bytes());
        directory.extend(name.as_bytes());
    }
    let (size, offset, count) = (directory.len() as u32, out.len() as u32, parts.len() as u16);
    out.extend(directory);
    out.extend(b"PK\x05\x06\0\0\0\0");
    out.extend(count.to_le_bytes());
    out.extend(count.to_le_bytes());
    out.extend(size.to_le_bytes());
    out.extend(offset.to_le_bytes());
    out.extend([0, 0]);
    out
}

#[test]
fn workbooks() {
    const TYPES: &[u8] = br#"<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>"#;
    const ROOT: &[u8] = br#"<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>"#;
    const BOOK: &[u8] = br#"<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Wells" sheetId="1" r:id="rId1"/></sheets></workbook>"#;
    const RELATIONS: &[u8] = br#"<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="sharedStrings.xml"/></Relationships>"#;
    const STRINGS: &[u8] = br#"<?xml version="1.0"?><sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" count="6" uniqueCount="6"><si><t>well_id</t></si><si><t>well_type</t></si><si><t>depth (ft)</t></si><si><t>water level (ft)</t></si><si><t>diameter (inches)</t></si><si><t>drilled</t></si></sst>"#;
    const SHEET: &[u8] = br#"<?xml version="1.0"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><dimension ref="A1:E2"/><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c><c r="C1" t="s"><v>2</v></c><c r="D1" t="s"><v>3</v></c><c r="E1" t="s"><v>4</v></c></row><row r="2"><c r="A2" t="inlineStr"><is><t>W1</t></is></c><c r="B2" t="s"><v>5</v></c><c r="C2"><v>180</v></c><c r="D2" t="str"><v>40</v></c><c r="E2" t="e"><v>#N/A</v></c></row></sheetData></worksheet>"#;
    const WORDS: &[&str] = &[
        "<row r=\"1048576\">",
        "<c r=\"XFD1\">",
        "<c r=\"A0\"",
        "r=\"ZZZZZZZ99999999999\"",
        "t=\"s\"",
        "<v>99999999999</v>",
        "</row>",
        "</c>",
        "<is><t>",
        "&lt;",
        "&#x0;",
        "&bogus;",
        "]]>",
        "<![CDATA[",
        "<!--",
        "-1",
        "1e999",
        "NaN",
        "t=\"b\"",
        "t=\"d\"",
        "s=\"4294967295\"",
        "\u{0}",
        "\"",
        "<mergeCell ref=\"A1:XFD1048576\"/>",
        "sheet1.xml",
        "../../..",
    ];
    let folder = folder();
    let path = folder.path().join("list.xlsx");
    let mut chance = Chance(3);
    for round in 0..rounds(1_500) {
        let mut parts: Vec<(&str, Vec<u8>)> = vec![
            ("[Content_Types].xml", TYPES.to_vec()),
            ("_rels/.rels", ROOT.to_vec()),
            ("xl/workbook.xml", BOOK.to_vec()),
            ("xl/_rels/workbook.xml.rels", RELATIONS.to_vec()),
            ("xl/sharedStrings.xml", STRINGS.to_vec()),
            ("xl/worksheets/sheet1.xml", SHEET.to_vec()),
        ];
        if round > 0 {
            // Mostly the sheet; sometimes what leads to it.
            let which = if chance.below(4) == 0 { chance.below(parts.len()) } else { 5 };
            parts[which].1 = mutate(&parts[which].1, WORDS, &mut chance);
        }
        let borrowed: Vec<(&str, &[u8])> = parts.iter().map(|(name, bytes)| (*name, bytes.as_slice())).collect();
        let mut bytes = archive(&borrowed);
        if chance.below(10) == 0 && round > 0 {
            bytes = mutate(&bytes, WORDS, &mut chance);
        }
        std::fs::write(&path, &bytes).expect("a file");
        let path = path.clone();
        let (send, receive) = std::sync::mpsc::channel();
        shown(&bytes, move || {
            let _ = send.send(whole(path));
        });
        let rows = receive.recv().expect("an outcome");
        if round == 0 {
            assert_eq!(rows, Some(1), "the seed itself must be read");
        }
    }
}

#[test]
fn older_workbooks() {
    let seed = std::fs::read(fixtures("dirty").join("old-workbook.xls")).expect("a fixture");
    let folder = folder();
    let path = folder.path().join("list.xls");
    let mut chance = Chance(4);
    for round in 0..rounds(400) {
        let mut bytes = seed.clone();
        if round > 0 {
            for _ in 0..=chance.below(8) {
                let at = chance.below(bytes.len());
                match chance.below(4) {
                    0 => bytes[at] = 0xff,
                    1 => bytes[at] ^= 1 << chance.below(8),
                    2 if chance.below(20) == 0 => bytes.truncate(at.max(8)),
                    _ => bytes[at] = chance.next() as u8,
                }
            }
        }
        std::fs::write(&path, &bytes).expect("a file");
        let path = path.clone();
        let (send, receive) = std::sync::mpsc::channel();
        shown(&bytes, move || {
            let _ = send.send(whole(path));
        });
        let rows = receive.recv().expect("an outcome");
        assert!(round > 0 || rows == Some(2), "the seed itself must be read");
    }
}

/// A spreadsheet of a text: `== name` begins a sheet, every other line is a row, its cells parted by tabs; numbers are numbers,
/// with two percent signs they are shown as percentages, and what begins with an equals sign is a formula without a result.
fn spreadsheet(text: &str) -> Vec<u8> {
    let escaped = |text: &str| {
        let tame: String = text.chars().filter(|letter| !letter.is_control()).collect();
        tame.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;")
    };
    let number = |text: &str| text.parse::<f64>().is_ok_and(f64::is_finite);
    let cell = |cell: &str| match (cell.strip_suffix("%%").filter(|cell| number(cell)), cell.strip_prefix('=')) {
        _ if cell.is_empty() => "<table:table-cell/>".to_owned(),
        (Some(of), _) => format!("<table:table-cell office:value-type=\"percentage\" office:value=\"{of}\"/>"),
        (_, Some(formula)) => format!("<table:table-cell table:formula=\"{}\"/>", escaped(formula)),
        _ if number(cell) => format!("<table:table-cell office:value-type=\"float\" office:value=\"{cell}\"/>"),
        _ => {
            let text = escaped(cell);
            format!("<table:table-cell office:value-type=\"string\"><text:p>{text}</text:p></table:table-cell>")
        }
    };
    let mut tables: Vec<String> = Vec::new();
    for line in text.lines() {
        if let Some(name) = line.strip_prefix("== ") {
            tables.push(format!("<table:table table:name=\"{}\">", escaped(name)));
        } else if let Some(table) = tables.last_mut() {
            let cells: String = line.split('\t').map(cell).collect();
            *table += &format!("<table:table-row>{cells}</table:table-row>");
        }
    }
    let tables: String = tables.into_iter().map(|table| table + "</table:table>").collect();
    let content = format!(
        "<office:document-content><office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body></office:document-content>"
    );
    archive(&[("content.xml", content.as_bytes())])
}

/// Reads a campaign book or the workbook of a plan; whether anything is stated there and nothing is refused. What is taken of a book
/// is taken as a scenario file too.
fn book_read(path: &std::path::Path) -> bool {
    let mut taken = false;
    let document = Document::new(path, "");
    if let Ok(read) = book::read(path, &document) {
        let campaign = Campaign::of(&document, &read.stated);
        match (document.refusal(), campaign, read.stated.value.table()) {
            (Some(error), ..) => assert!(error.to_string().contains("book.ods"), "{error}"),
            (None, Some(_), Some(table)) => {
                let text = toml_text::text_of(table);
                let again = Campaign::parse(path, &text);
                assert!(again.is_ok(), "{text}\n{again:?}");
                taken = true;
            }
            _ => {}
        }
    }
    if let Ok(edited) = book::read_edited(path) {
        let document = Document::new(path, &edited.text);
        if let Some(mut stated) = file_text::read(&document) {
            edited.apply(&document, &mut stated);
            taken |= Campaign::of(&document, &stated).is_some() && document.refusal().is_none();
        }
    }
    taken
}

/// Up to three sheets of a text of [`spreadsheet`], in their order.
fn some_sheets(seed: &[u8], chance: &mut Chance) -> Vec<u8> {
    let text = String::from_utf8_lossy(seed);
    let sheets: Vec<&str> = text.split("== ").skip(1).collect();
    let kept: BTreeSet<usize> = (0..3).map(|_| chance.below(sheets.len())).collect();
    kept.into_iter().map(|sheet| format!("== {}", sheets[sheet])).collect::<String>().into_bytes()
}

#[test]
fn campaign_books() {
    const WORDS: &[&str] = &[
        "\t",
        "\n",
        "== ",
        "=75*2",
        "0.3%%",
        "24 days",
        "3 ppb",
        "$5.60",
        "EUR 18",
        "1.200",
        "1,200",
        "n/a",
        "tbd",
        "20 %",
        "1e999",
        "31 May 2026",
        "5/6/2026",
        "yes",
        "no",
        "[{ days = 20, at = \"30 C\" }]",
        "{",
        "12 US gal",
        "; ",
        "(blank)",
        "-",
        "\"",
        "\u{202E}",
        "\u{a0}",
        "total_depth",
        "drilled",
        "Setting 1",
        "Value 1",
        " (days)",
        " (h)",
        "%",
        "Someplace else",
    ];
    let folder = folder();
    let path = folder.path().join("book.ods");
    let mut chance = Chance(5);
    let mut refused = 0;
    for name in ["book.txt", "edited.txt"] {
        let seed = std::fs::read(crate::running::root().join("tests/fuzz").join(name)).expect("a seed");
        let tries = rounds(300);
        for round in 0..tries {
            let bytes = match round {
                0 => seed.clone(),
                // A few sheets alone are read several times as fast, and more of what is changed in them is reached.
                _ if round % 8 > 0 => mutate(&some_sheets(&seed, &mut chance), WORDS, &mut chance),
                _ => mutate(&seed, WORDS, &mut chance),
            };
            // Half of the inputs are cut by a mutation; the sheets before it are read all the same.
            let text = String::from_utf8_lossy(&bytes).into_owned();
            std::fs::write(&path, spreadsheet(&text)).expect("a file");
            let path = path.clone();
            let (send, receive) = std::sync::mpsc::channel();
            shown(&bytes, move || {
                let _ = send.send(book_read(&path));
            });
            let taken = receive.recv().expect("an outcome");
            assert!(round > 0 || taken, "the seed {name} itself must be taken");
            refused += u64::from(!taken);
        }
    }
    assert!(refused > 3, "nothing was refused: the inputs are all alike");
}
