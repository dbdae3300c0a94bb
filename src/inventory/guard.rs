//! Refuses archives that would unpack to more than a workbook can be, before anything is unpacked.
//!
//! Reads the directory at the end of the file (PKWARE APPNOTE 6.3, sections 4.3.12 and 4.3.16). What the directory
//! claims is checked against what the packed bytes could become at most: deflate expands at most 1032 times. The parts
//! that the library keeps in memory are unpacked once to nowhere, because it believes the number of texts they claim: a
//! workbook of 2 kB asked it for 168 GB (found by fuzzing; fixtures/dirty/shared-strings-claim.xlsx).

mod compound;

use std::fs::File;
use std::io::{BufReader, Read, Seek, SeekFrom};
use std::path::Path;

use super::bytes::describe;
use crate::error::{Error, Result};

/// The most a part of a workbook may unpack to; the largest sheet possible, a million rows, stays below.
const LARGEST_PART: u64 = 4 << 30;
/// Text that is held in memory while the workbook is read.
const LARGEST_HELD: u64 = 512 << 20;
/// Unpacked over packed, above which a large part is not honest data.
const STEEPEST: u64 = 400;
/// Parts smaller than this may be as steep as they like.
const HARMLESS: u64 = 64 << 20;
/// Parts of one workbook.
const MOST_PARTS: u64 = 20_000;

/// Refuses an older binary workbook whose cells lie outside what the format has.
pub fn check_compound(path: &Path) -> Result<()> {
    let failed = |error: std::io::Error| Error::input(path, describe(&error));
    let file = File::open(path).map_err(failed)?;
    if file.metadata().map_err(failed)?.len() > compound::LARGEST {
        return Err(Error::input(path, "it is larger than a workbook of this kind can be"));
    }
    let mut bytes = Vec::new();
    file.take(compound::LARGEST).read_to_end(&mut bytes).map_err(failed)?;
    match compound::refusal(&bytes) {
        Some(why) => Err(Error::input(path, why)),
        None => Ok(()),
    }
}

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
    (&mut file).take(size).read_to_end(&mut directory).map_err(failed)?;
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
        if held {
            let part = Part { method: number(10, 2), packed, start: number(42, 4) };
            part.check(&mut file).map_err(|why| refused(format!("its part \"{title}\" {why}; it is refused")))?;
        }
        at += 46 + name + extra + comment;
    }
    Ok(())
}

/// One part of the archive, by its entry in the directory.
struct Part {
    method: u64,
    packed: u64,
    start: u64,
}

impl Part {
    /// Unpacks the part to nowhere, and looks at the counts that it claims.
    fn check(&self, file: &mut File) -> std::result::Result<(), String> {
        let told = |error: std::io::Error| format!("cannot be read ({})", describe(&error));
        let mut header = [0; 30];
        file.seek(SeekFrom::Start(self.start)).map_err(told)?;
        file.read_exact(&mut header).map_err(told)?;
        let skip = u64::from(u16::from_le_bytes([header[26], header[27]]))
            + u64::from(u16::from_le_bytes([header[28], header[29]]));
        file.seek(SeekFrom::Current(skip as i64)).map_err(told)?;
        let packed = BufReader::new(file.take(self.packed));
        match self.method {
            0 => scan(packed),
            8 => scan(flate2::bufread::DeflateDecoder::new(packed)),
            _ => Err("is packed in a way that workbooks are not".to_owned()),
        }
    }
}

/// Reads to the end; refuses too much, and a claimed count of texts that the bytes cannot hold.
fn scan(mut part: impl Read) -> std::result::Result<(), String> {
    let mut window: Vec<u8> = Vec::new();
    let mut buffer = vec![0; 1 << 16];
    let mut total = 0_u64;
    let mut claimed = 0_u64;
    // A damaged part is the library's to refuse, in its own words.
    while let Ok(count) = part.read(&mut buffer) {
        if count == 0 {
            break;
        }
        total += count as u64;
        if total > LARGEST_HELD {
            return Err("unpacks to more than a workbook holds".to_owned());
        }
        window.extend_from_slice(&buffer[..count]);
        for found in memchr::memmem::find_iter(&window, b"uniqueCount") {
            claimed = claimed.max(number_after(&window[found + b"uniqueCount".len()..]));
        }
        // A number may be cut in two by the edge.
        let keep = window.len().saturating_sub(64);
        window.drain(..keep);
    }
    // Each text takes at least its own tags.
    if claimed > total { Err(format!("claims {claimed} texts in {total} bytes")) } else { Ok(()) }
}

/// The number in `="123"`, as an XML attribute is written.
fn number_after(bytes: &[u8]) -> u64 {
    let marks =
        bytes.iter().take_while(|byte| matches!(byte, b' ' | b'=' | b'"' | b'\'' | b'\t' | b'\n' | b'\r')).count();
    bytes[marks..]
        .iter()
        .take_while(|byte| byte.is_ascii_digit())
        .fold(0_u64, |value, digit| value.saturating_mul(10).saturating_add(u64::from(digit - b'0')))
}
