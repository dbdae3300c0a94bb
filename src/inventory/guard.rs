//! Refuses archives that would unpack to more than a workbook can be, before anything is unpacked.
//!
//! Reads only the directory at the end of the file (PKWARE APPNOTE 6.3, sections 4.3.12 and 4.3.16). What the directory
//! claims is checked against what the packed bytes could become at most: deflate expands at most 1032 times.

use std::fs::File;
use std::io::{Read, Seek, SeekFrom};
use std::path::Path;

use super::bytes::describe;
use crate::error::{Error, Result};

/// The most a part of a workbook may unpack to; the largest sheet possible, a million rows, stays below.
const LARGEST_PART: u64 = 4 << 30;
/// Text that is held in memory while the workbook is read.
const LARGEST_HELD: u64 = 1 << 30;
/// Unpacked over packed, above which a large part is not honest data.
const STEEPEST: u64 = 400;
/// Parts smaller than this may be as steep as they like.
const HARMLESS: u64 = 64 << 20;
/// Parts of one workbook.
const MOST_PARTS: u64 = 20_000;

/// Refuses an archive whose parts are too many or too large.
pub fn check_archive(path: &Path) -> Result<()> {
    let failed = |error: std::io::Error| Error::input(path, describe(&error));
    let refused = |why: String| Error::input(path, why);
    let mut file = File::open(path).map_err(failed)?;
    let length = file.metadata().map_err(failed)?.len();
    let tail_length = length.min(66_000);
    file.seek(SeekFrom::Start(length - tail_length)).map_err(failed)?;
    let mut tail = Vec::new();
    file.read_to_end(&mut tail).map_err(failed)?;
    let Some(end) = memchr::memmem::rfind(&tail, b"PK\x05\x06") else {
        return Err(refused("the workbook is cut short: its directory is missing".to_owned()));
    };
    let field = |at: usize, bytes: usize| -> u64 {
        tail.get(end + at..end + at + bytes)
            .map_or(0, |slice| slice.iter().rev().fold(0, |value, byte| value << 8 | u64::from(*byte)))
    };
    let (count, size, offset) = (field(10, 2), field(12, 4), field(16, 4));
    if count == 0xffff || size == 0xffff_ffff || offset == 0xffff_ffff {
        return Err(refused("it is a ZIP64 archive; no workbook needs to be".to_owned()));
    }
    if count > MOST_PARTS || size > 64 << 20 || offset + size > length {
        return Err(refused("the archive's directory is not that of a workbook".to_owned()));
    }
    file.seek(SeekFrom::Start(offset)).map_err(failed)?;
    let mut directory = Vec::new();
    file.take(size).read_to_end(&mut directory).map_err(failed)?;
    let mut at = 0;
    let mut total = 0_u64;
    while let Some(entry) = directory.get(at..at + 46).filter(|entry| entry.starts_with(b"PK\x01\x02")) {
        let number = |from: usize, bytes: usize| -> u64 {
            entry[from..from + bytes].iter().rev().fold(0, |value, byte| value << 8 | u64::from(*byte))
        };
        let (packed, unpacked) = (number(20, 4), number(24, 4));
        let (name, extra, comment) = (number(28, 2) as usize, number(30, 2) as usize, number(32, 2) as usize);
        let title = String::from_utf8_lossy(directory.get(at + 46..at + 46 + name).unwrap_or_default()).into_owned();
        let held = !title.contains("worksheets/") && !title.ends_with("content.xml");
        let limit = if held { LARGEST_HELD } else { LARGEST_PART };
        // A directory that lies about the size is caught by what the packed bytes could become.
        let possible = packed.saturating_mul(1032);
        total = total.saturating_add(unpacked);
        if unpacked > limit || total > 2 * LARGEST_PART || unpacked > possible.saturating_add(1024) {
            return Err(refused(format!("its part \"{title}\" would unpack to {unpacked} bytes; it is refused")));
        }
        if unpacked > HARMLESS && unpacked / packed.max(1) > STEEPEST {
            return Err(refused(format!(
                "its part \"{title}\" unpacks {} fold; it is refused",
                unpacked / packed.max(1)
            )));
        }
        at += 46 + name + extra + comment;
    }
    Ok(())
}
