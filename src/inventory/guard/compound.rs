//! The older binary workbooks: refuses cells beyond the 256 columns that the format has.
//!
//! Two things undo the library. It lays a sheet out as a rectangle from its first to its last cell; two cells in far corners, which a file of
//! 4 kB can claim, would ask for 130 GB. And it follows a chain of sectors that runs in a circle for ever (found by fuzzing;
//! fixtures/dirty/old-workbook-in-a-circle.xls). So both are looked for before it sees the file: compound file as in
//! [MS-CFB] 2.2 to 2.6, records as in [MS-XLS] 2.1.4. What cannot be walked is left for the library to refuse.

/// A workbook of this kind has 65,536 rows at most; files stay far below this.
pub(super) const LARGEST: u64 = 256 << 20;

const END_OF_CHAIN: u32 = 0xFFFF_FFFE;
const MOST_COLUMNS: usize = 256;
const MOST_ROWS: u64 = 65_536;

/// Why the workbook in these bytes is refused, if it is.
pub(super) fn refusal(file: &[u8]) -> Option<String> {
    match workbook_stream(file)? {
        Stream::Found(stream) => records(&stream),
        Stream::Circular => Some("its sectors run in a circle; it is damaged".to_owned()),
    }
}

enum Stream {
    Found(Vec<u8>),
    Circular,
}

/// Whether following the entries of this table from anywhere comes back to where it was.
fn is_circular(table: &[u32]) -> bool {
    // The walk in which an entry was seen; 0 for none.
    let mut seen = vec![0_usize; table.len()];
    for start in 0..table.len() {
        let walk = start + 1;
        let mut at = start;
        while at < table.len() && seen[at] == 0 {
            seen[at] = walk;
            at = table[at] as usize;
        }
        // It came to the end, to an earlier walk, or back to this one.
        if at < table.len() && seen[at] == walk {
            return true;
        }
    }
    false
}

fn short(bytes: &[u8], at: usize) -> Option<usize> {
    Some(usize::from(u16::from_le_bytes(bytes.get(at..at + 2)?.try_into().ok()?)))
}

fn long(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_le_bytes(bytes.get(at..at + 4)?.try_into().ok()?))
}

/// The stream called `Workbook` or `Book`.
fn workbook_stream(file: &[u8]) -> Option<Stream> {
    let size = 1_usize.checked_shl(short(file, 30)? as u32).filter(|size| (128..=1 << 16).contains(size))?;
    let sector = |number: u32| {
        let start = (number as usize).checked_add(1)?.checked_mul(size)?;
        file.get(start..file.len().min(start.checked_add(size)?))
    };
    // The table of sectors: its own sectors are listed in the header, and in a chain for large files.
    let mut listed: Vec<u32> = (0..109).filter_map(|at| long(file, 76 + at * 4)).collect();
    let mut next = long(file, 68)?;
    for _ in 0..file.len() / size {
        let Some(more) = sector(next) else { break };
        let entries = size / 4 - 1;
        listed.extend((0..entries).filter_map(|at| long(more, at * 4)));
        next = long(more, entries * 4).unwrap_or(END_OF_CHAIN);
    }
    let table: Vec<u32> = listed
        .into_iter()
        .filter(|number| *number < END_OF_CHAIN - 1)
        .filter_map(sector)
        .flat_map(|part| part.chunks_exact(4).filter_map(|entry| long(entry, 0)))
        .collect();
    if is_circular(&table) {
        return Some(Stream::Circular);
    }
    let chain = |first: u32| {
        let mut bytes = Vec::new();
        let mut at = first;
        // No chain is longer than the file, even if it runs in a circle.
        for _ in 0..=file.len() / size {
            let Some(part) = sector(at) else { break };
            bytes.extend_from_slice(part);
            at = table.get(at as usize).copied().unwrap_or(END_OF_CHAIN);
        }
        bytes
    };
    let pieces: Vec<u32> = chain(long(file, 60)?).chunks_exact(4).filter_map(|entry| long(entry, 0)).collect();
    if is_circular(&pieces) {
        return Some(Stream::Circular);
    }
    let directory = chain(long(file, 48)?);
    let entries: Vec<&[u8]> = directory.chunks_exact(128).collect();
    let named = |entry: &&&[u8]| {
        let units = entry.get(..64).unwrap_or_default().chunks_exact(2);
        let name: Vec<u8> = units.take_while(|unit| *unit != [0, 0]).map(|unit| unit[0]).collect();
        name.eq_ignore_ascii_case(b"workbook") || name.eq_ignore_ascii_case(b"book")
    };
    let entry = entries.iter().find(named)?;
    let (start, length) = (long(entry, 116)?, long(entry, 120)? as usize);
    let mut stream = if length >= long(file, 56)? as usize {
        chain(start)
    } else {
        // Small streams lie in pieces of 64 bytes within the stream of the root entry.
        let piece = 1_usize.checked_shl(short(file, 32)? as u32).filter(|piece| (16..=4096).contains(piece))?;
        let root = chain(long(entries.first()?, 116)?);
        let mut bytes = Vec::new();
        let mut at = start;
        for _ in 0..=root.len() / piece {
            let Some(from) = (at as usize).checked_mul(piece) else { break };
            let Some(part) = root.get(from..root.len().min(from + piece)).filter(|part| !part.is_empty()) else {
                break;
            };
            bytes.extend_from_slice(part);
            at = pieces.get(at as usize).copied().unwrap_or(END_OF_CHAIN);
        }
        bytes
    };
    stream.truncate(length);
    Some(Stream::Found(stream))
}

/// Walks the records; says why if one lies outside the format.
fn records(stream: &[u8]) -> Option<String> {
    let mut at = 0;
    loop {
        let (kind, length) = (short(stream, at)?, short(stream, at + 2)?);
        let data = stream.get(at + 4..stream.len().min(at + 4 + length))?;
        let column = match kind {
            // Blank, number, label, Boolean or error, formula, rich text, RK, text by number.
            0x0201 | 0x0203 | 0x0204 | 0x0205 | 0x0006 | 0x0206 | 0x0406 | 0x00D6 | 0x027E | 0x00FD => short(data, 2),
            // Several in a row: the last column stands at the end.
            0x00BD | 0x00BE => data.len().checked_sub(2).and_then(|last| short(data, last)),
            0x0200 if length >= 14 => {
                let (first_row, rows) = (long(data, 0).unwrap_or(0), long(data, 4).unwrap_or(0));
                if u64::from(rows) > MOST_ROWS || first_row > rows {
                    return Some(format!(
                        "a sheet claims {rows} rows, and this kind of workbook has 65536; it is refused"
                    ));
                }
                short(data, 10).map(|columns| columns.saturating_sub(1))
            }
            _ => None,
        };
        if let Some(column) = column.filter(|column| *column >= MOST_COLUMNS) {
            return Some(format!(
                "a cell lies in column {}, and this kind of workbook has 256; it is refused",
                column + 1
            ));
        }
        at += 4 + length;
    }
}
