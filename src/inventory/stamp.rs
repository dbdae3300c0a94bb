//! What a file was when it was first looked at: a list that changes while it is read ends the run.
//!
//! A list is judged by its beginning and read later, workbooks sheet by sheet, and some lists twice. Whoever saves the file
//! meanwhile would have his new rows read by the old headings. Size, times and identity are compared; a pipe has none and is
//! read once, as one stream.

use std::fs::Metadata;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::table::{Payload, RowSource};
use crate::error::{Error, Result};

/// Size, times and identity of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stamp {
    length: u64,
    modified: Option<SystemTime>,
    identity: Identity,
}

/// Device, number of the file on it, and when its entry was last changed: other than the time of the content, nobody sets it.
#[cfg(unix)]
type Identity = (u64, u64, i64, i64);
#[cfg(not(unix))]
type Identity = ();

#[cfg(unix)]
fn identity(metadata: &Metadata) -> Identity {
    use std::os::unix::fs::MetadataExt;
    (metadata.dev(), metadata.ino(), metadata.ctime(), metadata.ctime_nsec())
}

#[cfg(not(unix))]
fn identity(_metadata: &Metadata) -> Identity {}

/// Whether this is a file that can be opened again: not standard input, a pipe or a device.
pub fn can_be_read_again(path: &Path) -> bool {
    path.as_os_str() != "-" && path.is_file()
}

impl Stamp {
    /// The stamp of a file; nothing for what can be read only once.
    pub fn of(path: &Path) -> Option<Self> {
        let metadata = path.metadata().ok().filter(Metadata::is_file)?;
        Some(Self { length: metadata.len(), modified: metadata.modified().ok(), identity: identity(&metadata) })
    }

    /// Refuses a file that is not what it was.
    ///
    /// # Errors
    /// [`Error::Input`] that says so.
    pub fn check(&self, path: &Path) -> Result<()> {
        if Self::of(path).as_ref() == Some(self) {
            return Ok(());
        }
        Err(Error::input(path, "it was changed while it was being read: nothing is written; start again"))
    }
}

/// Rows of a file that must not change before the last of them is read.
pub struct Watched {
    inner: Box<dyn RowSource>,
    path: PathBuf,
    stamp: Stamp,
}

impl Watched {
    /// Rows of a file with this stamp.
    pub fn new(inner: Box<dyn RowSource>, path: &Path, stamp: &Stamp) -> Self {
        Self { inner, path: path.to_owned(), stamp: stamp.clone() }
    }
}

impl RowSource for Watched {
    fn next(&mut self, rows: usize) -> Result<Option<Payload>> {
        let next = self.inner.next(rows);
        // A file that was cut or replaced may well look damaged: that it changed is the better word.
        if !matches!(next, Ok(Some(_))) {
            self.stamp.check(&self.path)?;
        }
        next
    }
}
