//! A file written to a place where nothing is yet.

use std::fs::File;
use std::io::{ErrorKind, Write};
use std::path::Path;

use crate::error::{Error, Result};

/// Writes a new file, whole or not at all.
///
/// # Errors
/// When something is there already, or the file cannot be written.
pub(super) fn write(path: &Path, bytes: &[u8]) -> Result<()> {
    let mut file = File::options().write(true).create_new(true).open(path).map_err(|error| {
        if error.kind() == ErrorKind::AlreadyExists {
            Error::output(path, "the file already exists and is not overwritten; name another file")
        } else {
            Error::output(path, error)
        }
    })?;
    file.write_all(bytes).map_err(|error| {
        let _ = std::fs::remove_file(path); // Half a file helps nobody.
        Error::output(path, error)
    })
}
