//! From a file, a compressed file or standard input to UTF-8 bytes, counted and digested on the way.
//!
//! The text reader uses it. The SHA-256 is of the bytes as they lie on disk. Refuses to know about rows.

use std::fs::File;
use std::io::{self, BufReader, Read};
use std::path::Path;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use encoding_rs::{Encoding, UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};
use sha2::{Digest, Sha256};

pub use crate::error::describe;
use crate::error::{Error, Result};

/// How much of a text is looked at to judge it.
pub const HEAD_BYTES: usize = 256 * 1024;

/// What has been read of one file, shared between its reader and whoever reports progress.
#[derive(Debug, Default)]
pub struct Tally {
    bytes: AtomicU64,
    digest: Mutex<Sha256>,
}

impl Tally {
    /// Bytes read so far.
    pub fn bytes(&self) -> u64 {
        self.bytes.load(Ordering::Relaxed)
    }

    /// SHA-256 of what was read so far, in hexadecimal.
    pub fn sha256(&self) -> String {
        let digest = self.digest.lock().unwrap_or_else(PoisonError::into_inner).clone();
        digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
    }

    fn add(&self, bytes: &[u8]) {
        self.bytes.fetch_add(bytes.len() as u64, Ordering::Relaxed);
        self.digest.lock().unwrap_or_else(PoisonError::into_inner).update(bytes);
    }
}

/// Counts and digests what passes through.
pub struct Tallied<R> {
    inner: R,
    tally: Arc<Tally>,
}

impl<R> Tallied<R> {
    /// A reader over `inner` that keeps `tally`.
    pub fn new(inner: R, tally: Arc<Tally>) -> Self {
        Self { inner, tally }
    }
}

impl<R: Read> Read for Tallied<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let count = self.inner.read(buffer)?;
        self.tally.add(&buffer[..count]);
        Ok(count)
    }
}

/// A stream of raw bytes, decompressed.
pub type Stream = Box<dyn Read + Send>;

/// Opens a file or standard input (`-`), through gzip where the content is gzip.
pub fn open(path: &Path, tally: &Arc<Tally>) -> Result<Stream> {
    let raw: Stream = if path.as_os_str() == "-" {
        Box::new(io::stdin())
    } else {
        Box::new(File::open(path).map_err(|error| Error::unread(path, error))?)
    };
    let mut tallied = Tallied::new(raw, Arc::clone(tally));
    let mut start = Vec::new();
    (&mut tallied).take(2).read_to_end(&mut start).map_err(|error| Error::unread(path, error))?;
    let compressed = start == [0x1f, 0x8b];
    let whole = io::Cursor::new(start).chain(tallied);
    Ok(if compressed {
        Box::new(flate2::bufread::MultiGzDecoder::new(BufReader::with_capacity(1 << 16, whole)))
    } else {
        Box::new(whole)
    })
}

/// How a text is encoded, judged by its beginning.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Charset {
    /// How bytes become letters, by the mark at the beginning or by what the bytes allow.
    pub encoding: &'static Encoding,
    /// Whether a byte order mark said so.
    pub marked: bool,
}

impl Charset {
    /// Judges by byte order mark, by the zero bytes of UTF-16, by validity as UTF-8; what is left is Windows-1252.
    pub fn of(head: &[u8]) -> Self {
        if let Some((encoding, _)) = Encoding::for_bom(head) {
            return Self { encoding, marked: true };
        }
        let sample = &head[..head.len().min(4096) & !1];
        let zeros = |offset: usize| sample.iter().skip(offset).step_by(2).filter(|byte| **byte == 0).count();
        let mostly = sample.len() / 2 * 7 / 10;
        if sample.len() >= 8 && zeros(1) > mostly && zeros(0) < mostly / 4 {
            return Self { encoding: UTF_16LE, marked: false };
        }
        if sample.len() >= 8 && zeros(0) > mostly && zeros(1) < mostly / 4 {
            return Self { encoding: UTF_16BE, marked: false };
        }
        let utf8 = match std::str::from_utf8(head) {
            Ok(_) => true,
            // A character may be cut in two at the end of what was looked at.
            Err(error) => error.error_len().is_none(),
        };
        Self { encoding: if utf8 { UTF_8 } else { WINDOWS_1252 }, marked: false }
    }

    /// A stream of UTF-8 without byte order mark.
    pub fn decode(self, stream: Stream) -> Stream {
        if self.encoding == UTF_8 {
            return if self.marked { Box::new(SkipMark { inner: stream, left: 3 }) } else { stream };
        }
        Box::new(Transcoder {
            inner: stream,
            decoder: self.encoding.new_decoder_with_bom_removal(),
            raw: vec![0; 1 << 16],
            ready: Vec::new(),
            given: 0,
            finished: false,
        })
    }
}

struct SkipMark {
    inner: Stream,
    left: usize,
}

impl Read for SkipMark {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        while self.left > 0 {
            let mut mark = [0; 3];
            let count = self.inner.read(&mut mark[..self.left])?;
            if count == 0 {
                return Ok(0);
            }
            self.left -= count;
        }
        self.inner.read(buffer)
    }
}

struct Transcoder {
    inner: Stream,
    decoder: encoding_rs::Decoder,
    raw: Vec<u8>,
    ready: Vec<u8>,
    given: usize,
    finished: bool,
}

impl Read for Transcoder {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        while self.given == self.ready.len() {
            if self.finished {
                return Ok(0);
            }
            let count = self.inner.read(&mut self.raw)?;
            self.finished = count == 0;
            let room = self.decoder.max_utf8_buffer_length(count).unwrap_or(count * 3 + 16);
            self.ready.resize(room, 0);
            let (_, _, written, _) = self.decoder.decode_to_utf8(&self.raw[..count], &mut self.ready, self.finished);
            self.ready.truncate(written);
            self.given = 0;
        }
        let count = buffer.len().min(self.ready.len() - self.given);
        buffer[..count].copy_from_slice(&self.ready[self.given..self.given + count]);
        self.given += count;
        Ok(count)
    }
}

/// Old line ends: every carriage return becomes a line feed.
pub struct CarriageReturns(pub Stream);

impl Read for CarriageReturns {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let count = self.0.read(buffer)?;
        for byte in &mut buffer[..count] {
            if *byte == b'\r' {
                *byte = b'\n';
            }
        }
        Ok(count)
    }
}

/// Reads up to `limit` bytes or to the end.
pub fn head(stream: &mut dyn Read, limit: usize) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    stream.take(limit as u64).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The whole file's SHA-256, for files that are not read as a stream.
pub fn digest(path: &Path, tally: &Arc<Tally>) -> Result<()> {
    let file = File::open(path).map_err(|error| Error::unread(path, error))?;
    let mut reader = Tallied::new(file, Arc::clone(tally));
    let mut buffer = vec![0; 1 << 16];
    loop {
        match reader.read(&mut buffer) {
            Ok(0) => return Ok(()),
            Ok(_) => {}
            Err(error) => return Err(Error::unread(path, error)),
        }
    }
}
