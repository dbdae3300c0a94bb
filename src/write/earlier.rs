//! What an earlier run wrote into an output folder: only that may be replaced without a word.
//!
//! The record of a run lists its outputs with their digests. A file that is not among them, or is not what it was, is
//! somebody's own.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use serde::Deserialize;
use sha2::{Digest, Sha256};

use super::folder::OutputFolder;
use crate::error::{Error, Result};

/// A record longer than this is not one of ours.
const LONGEST_RECORD: u64 = 64 << 20;

#[derive(Deserialize)]
struct Earlier {
    program: String,
    outputs: Vec<Output>,
}

#[derive(Deserialize)]
struct Output {
    file: String,
    sha256: String,
}

/// Names of what an earlier run wrote beside its record and nobody touched since, the record included; none where there is
/// no such record.
pub fn written(record: &Path) -> Vec<String> {
    let Some(earlier) = read(record) else { return Vec::new() };
    let folder = record.parent().unwrap_or(Path::new("."));
    let untouched = earlier.outputs.into_iter().filter(|output| {
        !output.file.contains(['/', '\\'])
            && sha256(&folder.join(&output.file)).is_ok_and(|found| found == output.sha256)
    });
    let record = record.file_name().map(|name| name.to_string_lossy().into_owned());
    untouched.map(|output| output.file).chain(record).collect()
}

fn read(record: &Path) -> Option<Earlier> {
    let mut text = String::new();
    File::open(record).ok()?.take(LONGEST_RECORD).read_to_string(&mut text).ok()?;
    let earlier: Earlier = serde_json::from_str(&text).ok()?;
    (earlier.program == env!("CARGO_PKG_NAME")).then_some(earlier)
}

/// Digests of files that a run has written, by name.
///
/// # Errors
/// When a file cannot be read again.
pub fn digests(staged: &OutputFolder, names: &[&str]) -> Result<Vec<(String, String)>> {
    let digest = |name: &&str| {
        let path = staged.path(name);
        let sha256 = sha256(&path).map_err(|error| Error::unwritten(&path, error))?;
        Ok(((*name).to_owned(), sha256))
    };
    names.iter().map(digest).collect()
}

fn sha256(path: &Path) -> std::io::Result<String> {
    let mut file = File::open(path)?;
    let mut digest = Sha256::new();
    let mut buffer = vec![0; 1 << 16];
    loop {
        match file.read(&mut buffer)? {
            0 => return Ok(digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect()),
            count => digest.update(&buffer[..count]),
        }
    }
}
