//! From what the user named to the files to read: files, folders, patterns, standard input.

use std::fs;
use std::path::{Path, PathBuf};

use super::bytes::describe;
use crate::error::{Error, Result};

/// Endings of files that are read when a folder is named.
const ENDINGS: &[&str] =
    &["csv", "tsv", "tab", "txt", "psv", "rdb", "xlsx", "xlsm", "xls", "xlsb", "ods", "parquet", "gz"];

/// The files to read, in the order named; those of a folder or a pattern in the order of their names.
pub fn expand(paths: &[PathBuf]) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    if paths.iter().filter(|path| path.as_os_str() == "-").count() > 1 {
        return Err(Error::request("standard input can be read once: name - once"));
    }
    for path in paths {
        if path.as_os_str() == "-" || path.is_file() {
            files.push(path.clone());
        } else if path.is_dir() {
            let found = in_folder(path, has_known_ending)?;
            if found.is_empty() {
                return Err(Error::input(path, "no file in this folder is of a kind that can be read"));
            }
            files.extend(found);
        } else if let Some(pattern) =
            path.file_name().and_then(|name| name.to_str()).filter(|name| name.contains(['*', '?']))
        {
            let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
            let found = in_folder(folder, |name| matches(pattern, name))?;
            if found.is_empty() {
                return Err(Error::input(path, "no file fits this pattern"));
            }
            files.extend(found);
        } else {
            // A pipe or a device is read like a file; what is not there says so when it is opened.
            files.push(path.clone());
        }
    }
    Ok(files)
}

fn in_folder(folder: &Path, wanted: impl Fn(&str) -> bool) -> Result<Vec<PathBuf>> {
    let failed = |error: std::io::Error| Error::input(folder, describe(&error));
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let entry = entry.map_err(failed)?;
        let path = entry.path();
        let name = entry.file_name().to_string_lossy().into_owned();
        // Hidden files, and the lock files that office programs leave beside an open workbook.
        let hidden = name.starts_with('.') || name.starts_with("~$");
        if !hidden && path.is_file() && wanted(&name) {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

fn has_known_ending(name: &str) -> bool {
    let lower = name.to_lowercase();
    lower.rsplit_once('.').is_some_and(|(_, ending)| ENDINGS.contains(&ending))
}

/// Whether a name fits a pattern with `*` and `?`.
fn matches(pattern: &str, name: &str) -> bool {
    let pattern: Vec<char> = pattern.chars().collect();
    let name: Vec<char> = name.chars().collect();
    let (mut p, mut n) = (0, 0);
    let mut star: Option<(usize, usize)> = None;
    while n < name.len() {
        match pattern.get(p) {
            Some('*') => {
                star = Some((p, n));
                p += 1;
            }
            Some(c) if *c == '?' || *c == name[n] => {
                p += 1;
                n += 1;
            }
            _ => match star {
                Some((at, from)) => {
                    p = at + 1;
                    n = from + 1;
                    star = Some((at, n));
                }
                None => return false,
            },
        }
    }
    pattern[p..].iter().all(|c| *c == '*')
}
