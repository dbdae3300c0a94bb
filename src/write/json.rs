//! JSON: one pretty document, or lines of one message each; keys stay in the order they are given.

use std::io::Write;
use std::path::Path;

use serde::Serialize;

use crate::error::{Error, Result};

/// Writes a document with a final line end.
///
/// # Errors
/// When the file cannot be written.
pub fn write_document(path: &Path, document: &impl Serialize) -> Result<()> {
    let mut text = serde_json::to_string_pretty(document).map_err(|error| Error::unwritten(path, error))?;
    text.push('\n');
    std::fs::write(path, text).map_err(|error| Error::unwritten(path, error))
}

/// Writes one message on a line of its own.
///
/// # Errors
/// What the stream says.
pub fn write_line(stream: &mut dyn Write, message: &impl Serialize) -> std::io::Result<()> {
    serde_json::to_writer(&mut *stream, message)?;
    stream.write_all(b"\n")
}
