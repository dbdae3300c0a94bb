//! Files made to do harm: each ends as an error that names it, in bounded memory and time, and nothing outside is read.

use std::io::Write;
use std::process::Command;

use crate::reading::fixtures;
use crate::running::{Answer, answer, folder, place};

/// Address space of the command, in kilobytes: what is reserved counts, filled or not. The allocator asks for 1 GB at once.
const ADDRESS_SPACE: &str = "2500000";
/// Seconds of computing before the system ends the command.
const SECONDS: &str = "20";

/// Runs the command where neither memory nor time is without end.
fn confined(arguments: &[&str]) -> Answer {
    let script = format!("ulimit -v {ADDRESS_SPACE} && ulimit -t {SECONDS} && exec \"$@\"");
    let program = env!("CARGO_BIN_EXE_aftercrest");
    // One thread a core would reserve more the larger the machine.
    let mut command = Command::new("sh");
    command.env("RAYON_NUM_THREADS", "2").env("POLARS_MAX_THREADS", "2").env_remove("RUST_BACKTRACE");
    answer(command.current_dir(fixtures("dirty")).args(["-c", &script, "sh", program]).args(arguments))
}

#[test]
#[cfg(target_os = "linux")]
fn refused_files_are_named_in_bounded_memory() {
    let table = std::fs::read_to_string(fixtures("dirty").join("expected.csv")).unwrap();
    let refused: Vec<(&str, &str)> = table
        .lines()
        .filter_map(|line| line.split_once(",refused,,"))
        .filter(|(name, _)| !name.ends_with(".csv"))
        .collect();
    assert!(refused.len() >= 14, "{refused:?}");
    for (name, why) in refused {
        let answer = confined(&["check", name, "--units", "us"]).ended(2);
        let says = answer.err.replace(',', ";");
        assert!(says.contains(&format!("{name}: {why}")), "{name}: {says}");
    }
}

/// These are read: what they claim is more than what they hold, or they point at what is elsewhere.
#[test]
#[cfg(target_os = "linux")]
fn files_that_claim_much_and_hold_little_are_read_in_bounded_memory() {
    for name in
        ["huge-dimension-claimed.xlsx", "cell-in-the-farthest-corner.xlsx", "rows-far-apart.ods", "external-link.xlsx"]
    {
        confined(&["check", name, "--units", "us"]).ended(0);
    }
}

/// The control: the limit is in force, and so tight that what the fixtures claim would break it.
#[test]
#[cfg(target_os = "linux")]
fn the_limit_bites() {
    let script = format!("ulimit -v {ADDRESS_SPACE} && head -c 3000000000 /dev/zero | tail -n 1 | wc -c");
    let answer = answer(Command::new("sh").args(["-c", &script]));
    assert!(!answer.err.is_empty() && answer.out.trim() != "3000000000", "{} {}", answer.out, answer.err);
}

/// An archive of one packed part; its checksums are not looked at before its size is.
fn packed(name: &str, bytes: &[u8]) -> Vec<u8> {
    let mut packer = flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::fast());
    packer.write_all(bytes).unwrap();
    let content = packer.finish().unwrap();
    // Flags, deflate, 1980-01-01, no checksum, sizes, length of the name: PKWARE APPNOTE 6.3, section 4.3.7.
    let mut common = vec![20, 0, 0, 0, 8, 0, 0, 0, 33, 0, 0, 0, 0, 0];
    common.extend((content.len() as u32).to_le_bytes());
    common.extend((bytes.len() as u32).to_le_bytes());
    common.extend((name.len() as u32).to_le_bytes());
    let local = [b"PK\x03\x04", common.as_slice(), name.as_bytes(), &content].concat();
    let entry = [b"PK\x01\x02\x14\x00", common.as_slice(), &[0; 14], name.as_bytes()].concat();
    let sizes = [(entry.len() as u32).to_le_bytes(), (local.len() as u32).to_le_bytes()].concat();
    let end = [b"PK\x05\x06\0\0\0\0\x01\0\x01\0".as_slice(), &sizes, &[0, 0]].concat();
    [local, entry, end].concat()
}

/// A sheet that packs a hundredfold, as honest data might, and is one text: whoever reads it must hold all of it.
#[test]
#[cfg(target_os = "linux")]
fn a_sheet_that_is_one_text_is_refused() {
    let mut chance = 1_u32;
    let mut sheet = b"<worksheet><sheetData><row><c t=\"inlineStr\"><is><t>".to_vec();
    while sheet.len() < 80 << 20 {
        for _ in 0..700 {
            chance = chance.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            sheet.push(b'a' + (chance >> 24) as u8 % 26);
        }
        sheet.resize(sheet.len() + 99_300, b'a');
    }
    let folder = folder();
    let path = place(folder.path(), "one-text.xlsx", packed("xl/worksheets/sheet1.xml", &sheet));
    let says = confined(&["check", path.to_str().unwrap(), "--units", "us"]).ended(2).err;
    assert!(
        says.contains("one-text.xlsx: its part \"xl/worksheets/sheet1.xml\" holds a text longer than any"),
        "{says}"
    );
}
