//! The output folder: everything of a run appears in it at once, or nothing does.

use std::path::{Path, PathBuf};

use tempfile::TempDir;

use crate::error::{Error, Result};

/// Files of one run on their way into an output folder.
#[derive(Debug)]
pub struct OutputFolder {
    target: PathBuf,
    staging: TempDir,
}

impl OutputFolder {
    /// Prepares to fill `target`; nothing appears there before [`OutputFolder::publish`].
    ///
    /// # Errors
    /// When `target` is a file, or its parent cannot be written to, or an input lies where an output would.
    pub fn prepare(target: &Path, inputs: &[PathBuf], names: &[&str]) -> Result<Self> {
        if target.exists() && !target.is_dir() {
            return Err(Error::output(target, "it is a file, and outputs need a folder"));
        }
        let inputs: Vec<PathBuf> = inputs.iter().filter_map(|input| input.canonicalize().ok()).collect();
        for name in names {
            let output = target.join(name);
            if output.canonicalize().is_ok_and(|output| inputs.contains(&output)) {
                return Err(Error::output(&output, "it is one of the inputs, and inputs are never written over"));
            }
        }
        let parent = match target.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
            _ => PathBuf::from("."),
        };
        std::fs::create_dir_all(&parent).map_err(|error| Error::output(&parent, error))?;
        let staging = tempfile::Builder::new()
            .prefix(".aftercrest-")
            .tempdir_in(&parent)
            .map_err(|error| Error::output(&parent, error))?;
        Ok(Self { target: target.to_owned(), staging })
    }

    /// Where a file of this run is to be written meanwhile.
    pub fn path(&self, name: &str) -> PathBuf {
        self.staging.path().join(name)
    }

    /// Moves the files named into place and clears away what an earlier run left under `stale` names.
    ///
    /// A target that does not exist yet appears by one rename. In an existing folder each file is replaced by a rename of
    /// its own; files that are not ours stay.
    ///
    /// # Errors
    /// When a rename fails; the message names the file.
    pub fn publish(self, names: &[String], stale: &[&str]) -> Result<()> {
        if !self.target.exists() {
            let staging = self.staging.keep();
            // Temporary folders are private; an output folder is as open as its owner's other folders.
            open_permissions(&staging);
            return std::fs::rename(&staging, &self.target).map_err(|error| {
                let _ = std::fs::remove_dir_all(&staging);
                Error::output(&self.target, error)
            });
        }
        for name in names {
            let to = self.target.join(name);
            std::fs::rename(self.path(name), &to).map_err(|error| Error::output(&to, error))?;
        }
        for name in stale.iter().filter(|name| !names.iter().any(|written| written == *name)) {
            let _ = std::fs::remove_file(self.target.join(name));
        }
        Ok(())
    }
}

#[cfg(unix)]
fn open_permissions(folder: &Path) {
    use std::os::unix::fs::PermissionsExt;
    let _ = std::fs::set_permissions(folder, std::fs::Permissions::from_mode(0o755));
}

#[cfg(not(unix))]
fn open_permissions(_folder: &Path) {}
