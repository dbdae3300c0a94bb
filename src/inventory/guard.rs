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
/// Unpacked over packed, above which a large sheet is looked through: ordinary ones come to 5 or 20.
const STEEP: u64 = 50;
/// Parts smaller than this may be as steep as they like.
const HARMLESS: u64 = 64 << 20;
/// Bytes between two tags of a sheet. Whoever reads them holds them; a cell of the usual programs has 32,767 characters.
const LONGEST_TEXT: usize = 16 << 20;
/// A number of 32 bits that says: look for the one of 64.
const WIDE: u64 = 0xffff_ffff;
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
    let mut total = 0_u64;
    for part in directory(path)? {
        let refused = |why: String| Error::input(path, format!("its part \"{}\" {why}; it is refused", part.title));
        let limit = if part.is_streamed() { LARGEST_PART } else { LARGEST_HELD };
        // A directory that lies about the size is caught by what the packed bytes could become.
        let possible = part.packed.saturating_mul(1032).saturating_add(1024);
        total = total.saturating_add(part.unpacked);
        if part.unpacked > limit || total > 2 * LARGEST_PART || part.unpacked > possible {
            return Err(refused(format!("would unpack to {} bytes", part.unpacked)));
        }
        let steepness = part.unpacked / part.packed.max(1);
        if part.unpacked > HARMLESS && steepness > STEEPEST {
            return Err(refused(format!("unpacks {steepness} fold")));
        }
        if !part.is_streamed() {
            scan(part.open(path)?).map_err(refused)?;
        } else if part.unpacked > HARMLESS && steepness > STEEP {
            scan_sheet(part.open(path)?).map_err(refused)?;
        }
    }
    Ok(())
}

/// The bytes of the part of that name, unpacked as they are read; nothing where there is none.
pub fn part(path: &Path, title: &str) -> Result<Option<Unpacked>> {
    directory(path)?.into_iter().find(|part| part.title == title).map(|part| part.open(path)).transpose()
}

/// A stream of unpacked bytes.
pub type Unpacked = Box<dyn Read + Send>;

/// One part of the archive, by its entry in the directory.
struct Part {
    title: String,
    method: u64,
    packed: u64,
    unpacked: u64,
    start: u64,
    /// The name is given a second time, and the library may go by that one.
    renamed: bool,
}

impl Part {
    /// Whether it is read piece by piece; all others the library may hold in memory.
    fn is_streamed(&self) -> bool {
        let title = self.title.to_lowercase();
        let sheet = title.contains("worksheets/") && !title.contains("sharedstrings");
        !self.renamed && (sheet || title.ends_with("content.xml"))
    }

    fn open(&self, path: &Path) -> Result<Unpacked> {
        let failed = |error: std::io::Error| {
            Error::input(path, format!("its part \"{}\" cannot be read ({})", self.title, describe(&error)))
        };
        let mut file = File::open(path).map_err(failed)?;
        let mut header = [0; 30];
        file.seek(SeekFrom::Start(self.start)).map_err(failed)?;
        file.read_exact(&mut header).map_err(failed)?;
        let skip = i64::from(u16::from_le_bytes([header[26], header[27]]))
            + i64::from(u16::from_le_bytes([header[28], header[29]]));
        file.seek(SeekFrom::Current(skip)).map_err(failed)?;
        let packed = BufReader::new(file.take(self.packed));
        match self.method {
            0 => Ok(Box::new(Declared { bytes: packed, left: self.unpacked })),
            8 => Ok(Box::new(Declared { bytes: flate2::bufread::DeflateDecoder::new(packed), left: self.unpacked })),
            _ => Err(Error::input(
                path,
                format!("its part \"{}\" is packed in a way that workbooks are not; it is refused", self.title),
            )),
        }
    }
}

/// Bytes that may not be more than the directory says: it is the directory that was judged.
struct Declared<R> {
    bytes: R,
    left: u64,
}

impl<R: Read> Read for Declared<R> {
    fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
        let count = self.bytes.read(buffer)?;
        match self.left.checked_sub(count as u64) {
            Some(left) => self.left = left,
            None => return Err(std::io::Error::other("it unpacks to more than the archive's directory says")),
        }
        Ok(count)
    }
}

/// The entries of an archive's directory.
///
/// Only an archive that can be read in one way is let through: the end record is the end of the file, the directory stands
/// right before it and holds as many entries as the record says. Otherwise the library might find another directory than
/// the one that is judged here.
fn directory(path: &Path) -> Result<Vec<Part>> {
    let failed = |error: std::io::Error| Error::input(path, describe(&error));
    let refused = |why: &str| Error::input(path, why);
    let mut file = File::open(path).map_err(failed)?;
    let length = file.metadata().map_err(failed)?.len();
    let tail_start = length - length.min(66_000);
    file.seek(SeekFrom::Start(tail_start)).map_err(failed)?;
    let mut tail = Vec::new();
    file.read_to_end(&mut tail).map_err(failed)?;
    let Some(end) = memchr::memmem::rfind(&tail, b"PK\x05\x06") else {
        return Err(refused("the workbook is cut short: its directory is missing"));
    };
    let number = |bytes: &[u8], at: usize, count: usize| -> u64 {
        bytes
            .get(at..at + count)
            .map_or(0, |slice| slice.iter().rev().fold(0, |value, byte| value << 8 | u64::from(*byte)))
    };
    let not_one = || refused("the archive's directory is not that of a workbook");
    let record = &tail[end..];
    let mut place = (number(record, 10, 2), number(record, 12, 4), number(record, 16, 4));
    let whole = record.len() as u64 == 22 + number(record, 20, 2) && number(record, 4, 6) == place.0 << 32;
    let mut stop = end;
    // Programs that do not know beforehand how much they will write say it again in 64 bits: 56 bytes, and 20 that point there.
    if let Some(wide) =
        end.checked_sub(76).map(|at| &tail[at..end]).filter(|wide| wide[56..].starts_with(b"PK\x06\x07"))
    {
        stop = end - 76;
        let again = (number(wide, 32, 8), number(wide, 40, 8), number(wide, 48, 8));
        let same = |short: u64, long: u64, most: u64| short == long || short == most;
        let agrees = same(place.0, again.0, 0xffff)
            && same(place.1, again.1, WIDE)
            && same(place.2, again.2, WIDE)
            && number(wide, 64, 8) == tail_start + stop as u64
            && number(wide, 4, 8) == 44
            && again.0 == number(wide, 24, 8);
        if !agrees || !wide.starts_with(b"PK\x06\x06") {
            return Err(not_one());
        }
        place = again;
    }
    let (count, size, offset) = place;
    if count > MOST_PARTS || size > 64 << 20 || offset.saturating_add(size) != tail_start + stop as u64 || !whole {
        return Err(not_one());
    }
    file.seek(SeekFrom::Start(offset)).map_err(failed)?;
    let mut directory = Vec::new();
    file.take(size).read_to_end(&mut directory).map_err(failed)?;
    let mut parts = Vec::new();
    let mut at = 0;
    while let Some(entry) = directory.get(at..at + 46).filter(|entry| entry.starts_with(b"PK\x01\x02")) {
        let (name, extra, comment) =
            (number(entry, 28, 2) as usize, number(entry, 30, 2) as usize, number(entry, 32, 2) as usize);
        let further = &directory[at + 46..];
        let title = String::from_utf8_lossy(further.get(..name).unwrap_or_default()).into_owned();
        let extra_bytes = further.get(name..name + extra).unwrap_or_default();
        let mut wide = wide_numbers(extra_bytes).chunks_exact(8).map(|bytes| number(bytes, 0, 8));
        // In this order, and each only where the short number is full.
        let [unpacked, packed, start] = [24, 20, 42].map(|at| match number(entry, at, 4) {
            WIDE => wide.next().unwrap_or(WIDE),
            short => short,
        });
        parts.push(Part {
            title,
            method: number(entry, 10, 2),
            packed,
            unpacked,
            start,
            // Info-ZIP's Unicode path, APPNOTE 4.6.9.
            renamed: memchr::memmem::find(extra_bytes, b"up").is_some(),
        });
        at += 46 + name + extra + comment;
    }
    // A reader that takes the directory to end at the record itself must find none.
    let other = if stop < end { directory.get(end - stop..) } else { None };
    if parts.len() as u64 != count || at as u64 != size || other.is_some_and(|other| other.starts_with(b"PK\x01\x02")) {
        return Err(not_one());
    }
    Ok(parts)
}

/// What stands in the extra field of 64-bit numbers, APPNOTE 4.5.3.
fn wide_numbers(mut extra: &[u8]) -> &[u8] {
    while let Some((&[a, b, c, d], rest)) = extra.split_first_chunk() {
        let length = usize::from(u16::from_le_bytes([c, d])).min(rest.len());
        if u16::from_le_bytes([a, b]) == 1 {
            return &rest[..length];
        }
        extra = &rest[length..];
    }
    &[]
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

/// Reads to the end; refuses a text that no cell can hold.
fn scan_sheet(mut part: impl Read) -> std::result::Result<(), String> {
    let mut buffer = vec![0; 1 << 16];
    let mut length = 0;
    while let Ok(count @ 1..) = part.read(&mut buffer) {
        length = memchr::memrchr(b'<', &buffer[..count]).map_or(length + count, |last| count - last);
        if length > LONGEST_TEXT {
            return Err("holds a text longer than any cell can".to_owned());
        }
    }
    Ok(())
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
