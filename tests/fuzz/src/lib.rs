//! What the targets share: a list read and proved from its bytes, and whose panics count.

use std::path::PathBuf;
use std::sync::LazyLock;

use aftercrest::checks::{Identities, Verdict, admit};
use aftercrest::field::rules::{ReadingRules, RepeatPolicy, UnitSystem};
use aftercrest::field::{Field, WellType};
use aftercrest::finding::Severity;
use aftercrest::inventory::Inventory;
use aftercrest::quantity::Band;

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
