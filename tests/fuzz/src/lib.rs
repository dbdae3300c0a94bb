//! What the targets share: a list read and proved from its bytes, and whose panics count.

use std::path::PathBuf;
use std::sync::LazyLock;

use aftercrest::book;
use aftercrest::checks::{Identities, Verdict, admit};
use aftercrest::field::rules::{ReadingRules, RepeatPolicy, UnitSystem};
use aftercrest::field::{Field, WellType};
use aftercrest::finding::Severity;
use aftercrest::inventory::Inventory;
use aftercrest::quantity::Band;
use aftercrest::scenario::stated::Document;
use aftercrest::scenario::{Campaign, file_text, toml_text};

/// A panic inside one of the readers is caught by the inventory and becomes an error of the file; one of our own is a
/// fault wherever it happens. libFuzzer's hook aborts on both.
pub fn forgive_the_readers() {
    let told = std::panic::take_hook(); // Says what happened and aborts.
    std::panic::set_hook(Box::new(move |panic| {
        let file = panic.location().map_or("", |place| place.file());
        let theirs = file.contains("/registry/src/") || file.starts_with("/rustc/");
        if !theirs {
            told(panic);
        }
    }));
}

/// Rules that take different ways through the reading.
static RULES: LazyLock<[ReadingRules; 4]> = LazyLock::new(|| {
    let of = |system| ReadingRules { system, ..ReadingRules::default() };
    let mut metric = of(Some(UnitSystem::Metric));
    metric.repeats = RepeatPolicy::SeparateVisits;
    metric.missing_texts = vec!["unbekannt".to_owned()];
    let mut imperial = of(Some(UnitSystem::Imperial));
    imperial.repeats = RepeatPolicy::Latest;
    imperial.bounding_box = Some([40.0, -90.0, 45.0, -80.0]);
    imperial.fixed.insert(Field::WellType, "drilled".to_owned());
    imperial
        .assumptions
        .insert((WellType::Drilled, Field::CasingDiameter), Band { low: 0.1, mid: 0.15, high: 0.2 });
    imperial.drawn.insert((WellType::Drilled, Field::TotalDepth));
    [of(Some(UnitSystem::Us)), metric, imperial, of(None)]
});

/// The rules for an input; its length decides, so that every fixture is an input as it is.
pub fn rules(data: &[u8]) -> &'static ReadingRules {
    &RULES[data.len() % RULES.len()]
}

/// Reads a list and proves its rows. Every row must come out, with a reason if it is held back.
///
/// The file stays where it is: after a failure it is what was being read.
pub fn read_list(name: &str, data: &[u8]) {
    static FOLDER: LazyLock<PathBuf> = LazyLock::new(|| {
        let folder = PathBuf::from(format!("/dev/shm/aftercrest-fuzz-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder in memory");
        folder
    });
    let path = FOLDER.join(name);
    std::fs::write(&path, data).expect("a file in memory");
    let rules = rules(data);
    let Ok(mut inventory) = Inventory::open(&[path], rules) else { return };
    let mut identities = Identities::new(rules);
    let mut rows = 0;
    while let Ok(Some(batch)) = inventory.next_batch(64) {
        let mut drafts = batch.drafts();
        assert_eq!(drafts.len(), batch.rows());
        identities.check(&mut drafts);
        for draft in drafts {
            rows += 1;
            if let Verdict::HeldBack(held) = admit(draft, rules) {
                assert!(held.findings.iter().any(|finding| finding.code.severity() == Severity::Error));
            }
        }
    }
    assert!(rows <= inventory.rows_read());
}

/// A spreadsheet of a text: a line `== name` begins a sheet, every other line is a row, its cells parted by tabs. A number is
/// one, with two percent signs it is shown as a percentage, and what begins with an equals sign is a formula without a result.
pub fn laid_out(text: &str) -> Vec<u8> {
    let escaped = |text: &str| {
        let tame: String = text.chars().filter(|letter| !letter.is_control()).collect();
        tame.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;")
    };
    let mut content = String::from("\n--part-- content.xml\n<office:document-content><office:body><office:spreadsheet>");
    let mut is_open = false;
    for line in text.lines() {
        if let Some(name) = line.strip_prefix("== ") {
            if is_open {
                content += "</table:table>";
            }
            content += &format!("<table:table table:name=\"{}\">", escaped(name));
            is_open = true;
            continue;
        }
        if !is_open {
            continue;
        }
        content += "<table:table-row>";
        for cell in line.split('\t') {
            let number = |text: &str| text.parse::<f64>().is_ok_and(f64::is_finite);
            let (percent, formula) = (cell.strip_suffix("%%").filter(|cell| number(cell)), cell.strip_prefix('='));
            content += &match (percent, formula) {
                _ if cell.is_empty() => "<table:table-cell/>".to_owned(),
                (Some(of), _) => format!("<table:table-cell office:value-type=\"percentage\" office:value=\"{of}\"/>"),
                (_, Some(formula)) => format!("<table:table-cell table:formula=\"{}\"/>", escaped(formula)),
                _ if number(cell) => format!("<table:table-cell office:value-type=\"float\" office:value=\"{cell}\"/>"),
                _ => format!(
                    "<table:table-cell office:value-type=\"string\"><text:p>{}</text:p></table:table-cell>",
                    escaped(cell)
                ),
            };
        }
        content += "</table:table-row>";
    }
    content += if is_open { "</table:table>" } else { "" };
    content += "</office:spreadsheet></office:body></office:document-content>";
    archive(content.as_bytes())
}

/// Reads a file as a campaign book, and as the workbook of a plan. What is refused names the file; what is taken can be written as
/// a scenario file that is taken too.
pub fn read_book(data: &[u8]) {
    static FOLDER: LazyLock<PathBuf> = LazyLock::new(|| {
        let folder = PathBuf::from(format!("/dev/shm/aftercrest-fuzz-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder in memory");
        folder
    });
    let path = FOLDER.join("book.ods");
    std::fs::write(&path, data).expect("a file in memory");
    let _ = book::is_book(&path);
    let document = Document::new(&path, "");
    if let Ok(read) = book::read(&path, &document) {
        let campaign = Campaign::of(&document, &read.stated);
        match (document.refusal(), read.stated.value.table()) {
            (Some(error), _) => assert!(error.to_string().contains("book.ods")),
            (None, Some(table)) if campaign.is_some() => {
                let text = toml_text::text_of(table);
                assert!(Campaign::parse(&path, &text).is_ok(), "{text}");
            }
            _ => {}
        }
    }
    if let Ok(edited) = book::read_edited(&path) {
        let document = Document::new(&path, &edited.text);
        if let Some(mut stated) = file_text::read(&document) {
            edited.apply(&document, &mut stated);
            let _ = Campaign::of(&document, &stated);
        }
    }
}

/// Stands before the name of each part of a workbook.
const PART: &[u8] = b"\n--part-- ";

/// An archive of the parts in `text`, not packed and with right checksums: the parts are what is tried.
///
/// Layout as in PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16.
pub fn archive(text: &[u8]) -> Vec<u8> {
    let (mut out, mut directory, mut count) = (Vec::new(), Vec::new(), 0_u16);
    let starts: Vec<usize> =
        text.windows(PART.len()).enumerate().filter(|(_, window)| *window == PART).map(|(at, _)| at).collect();
    for (at, start) in starts.iter().enumerate() {
        let part = &text[start + PART.len()..starts.get(at + 1).copied().unwrap_or(text.len())];
        let end = part.iter().position(|byte| *byte == b'\n').unwrap_or(part.len());
        let (name, bytes) = (&part[..end], part.get(end + 1..).unwrap_or_default());
        let mut checksum = flate2::Crc::new();
        checksum.update(bytes);
        let offset = out.len() as u32;
        let mut common = vec![20, 0, 0, 0, 0, 0, 0, 0, 33, 0]; // Version, flags, not packed, 1980-01-01.
        common.extend(checksum.sum().to_le_bytes());
        common.extend((bytes.len() as u32).to_le_bytes());
        common.extend((bytes.len() as u32).to_le_bytes());
        common.extend((name.len() as u16).to_le_bytes());
        common.extend([0, 0]);
        out.extend(b"PK\x03\x04");
        out.extend(&common);
        out.extend(name);
        out.extend(bytes);
        directory.extend(b"PK\x01\x02\x14\x00");
        directory.extend(&common);
        directory.extend([0; 10]);
        directory.extend(offset.to_le_bytes());
        directory.extend(name);
        count += 1;
    }
    let (size, offset) = (directory.len() as u32, out.len() as u32);
    out.extend(directory);
    out.extend(b"PK\x05\x06\0\0\0\0");
    out.extend(count.to_le_bytes());
    out.extend(count.to_le_bytes());
    out.extend(size.to_le_bytes());
    out.extend(offset.to_le_bytes());
    out.extend([0, 0]);
    out
}
