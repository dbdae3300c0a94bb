//! The output folder: everything of a run appears in it at once, or nothing does.

use std::path::{Path, PathBuf};

use tempfile::TempDir;

use crate::error::{Error, Result};

/// Which files of an output folder a run may replace or clear away.
#[derive(Debug)]
pub enum Ours {
    /// Those with these names: an earlier run wrote them, and nobody edited them since.
    Written(Vec<String>),
    /// Whatever has the name of an output.
    Everything,
}

impl Ours {
    fn has(&self, name: &str) -> bool {
        match self {
            Self::Written(names) => names.iter().any(|written| written == name),
            Self::Everything => true,
        }
    }
}

/// Files of one run on their way into an output folder.
#[derive(Debug)]
pub struct OutputFolder {
    target: PathBuf,
    staging: TempDir,
    ours: Ours,
    /// Goes after `staging`, which lies in the last of them.
    _made: MadeFolders,
}

/// Folders that were made for a run, the innermost first; those that are still empty at its end go again.
#[derive(Debug)]
struct MadeFolders(Vec<PathBuf>);

impl MadeFolders {
    /// Makes a folder with all those above it.
    fn make(folder: &Path) -> std::io::Result<Self> {
        let missing = folder.ancestors().take_while(|above| !above.as_os_str().is_empty() && !above.exists());
        let made = Self(missing.map(Path::to_owned).collect());
        std::fs::create_dir_all(folder)?;
        Ok(made)
    }
}

impl Drop for MadeFolders {
    fn drop(&mut self) {
        // A folder that holds something is not removed: that is how a run that succeeded keeps its own.
        self.0.iter().for_each(|folder| drop(std::fs::remove_dir(folder)));
    }
}

impl OutputFolder {
    /// Prepares to fill `target`; nothing appears there before [`OutputFolder::publish`].
    ///
    /// # Errors
    /// When `target` is a file, or its parent cannot be written to, or an input, or a file that is not ours, lies where an
    /// output would.
    pub fn prepare(target: &Path, inputs: &[PathBuf], names: &[&str], ours: Ours) -> Result<Self> {
        if target.exists() && !target.is_dir() {
            return Err(Error::output(target, "it is a file, and outputs need a folder"));
        }
        let inputs: Vec<PathBuf> = inputs.iter().filter_map(|input| input.canonicalize().ok()).collect();
        for name in names {
            let output = target.join(name);
            if output.canonicalize().is_ok_and(|output| inputs.contains(&output)) {
                return Err(Error::output(&output, "it is one of the inputs, and inputs are never overwritten"));
            }
            if output.is_dir() {
                return Err(Error::output(&output, "a folder has the name of an output"));
            }
        }
        if let Some(foreign) = names.iter().find(|name| is_there(&target.join(name)) && !ours.has(name)) {
            return Err(not_ours(&target.join(foreign)));
        }
        // A folder that exists may be another disk's, where no rename from beside it could lead.
        let parent = match target.parent() {
            _ if target.is_dir() => target.to_owned(),
            Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
            _ => PathBuf::from("."),
        };
        let made = MadeFolders::make(&parent).map_err(|error| Error::unwritten(&parent, error))?;
        let staging = tempfile::Builder::new()
            .prefix(".aftercrest-")
            .tempdir_in(&parent)
            .map_err(|error| Error::unwritten(&parent, error))?;
        Ok(Self { target: target.to_owned(), staging, ours, _made: made })
    }

    /// Where a file of this run is to be written meanwhile.
    pub fn path(&self, name: &str) -> PathBuf {
        self.staging.path().join(name)
    }

    /// Moves the files named into place and clears away what an earlier run left under `stale` names.
    ///
    /// A target that does not exist yet appears by one rename. In an existing folder each file is replaced by renames of
    /// its own, and where one fails those before it are taken back; files that are not ours stay.
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
        // Somebody may have put a file there while the run went on.
        if let Some(new) = names.iter().find(|name| is_there(&self.target.join(name)) && !self.ours.has(name)) {
            return Err(not_ours(&self.target.join(new)));
        }
        let earlier = self.path("earlier");
        std::fs::create_dir(&earlier).map_err(|error| Error::unwritten(&earlier, error))?;
        let written = |name: &str| names.iter().any(|written| written == name);
        let all = names.iter().map(String::as_str).chain(stale.iter().copied().filter(|name| !written(name)));
        let mut moved: Vec<&str> = Vec::new();
        for name in all {
            moved.push(name);
            if let Err(error) = self.replace(name, &earlier, written(name)) {
                for name in moved {
                    self.take_back(name, &earlier);
                }
                return Err(Error::output(&self.target.join(name), error));
            }
        }
        Ok(())
    }

    /// Puts an earlier run's file aside and, where there is one, this run's in its place.
    fn replace(&self, name: &str, earlier: &Path, written: bool) -> std::io::Result<()> {
        let to = self.target.join(name);
        // Asked of the link itself: one that leads nowhere is in the way as well.
        if to.symlink_metadata().is_ok() {
            std::fs::rename(&to, earlier.join(name))?;
        }
        if written { std::fs::rename(self.path(name), to) } else { Ok(()) }
    }

    fn take_back(&self, name: &str, earlier: &Path) {
        let before = earlier.join(name);
        if before.symlink_metadata().is_ok() {
            let _ = std::fs::rename(before, self.target.join(name));
        } else if !self.path(name).exists() {
            let _ = std::fs::remove_file(self.target.join(name));
        }
    }
}

/// Asked of the link itself: one that leads nowhere is in the way as well.
fn is_there(path: &Path) -> bool {
    path.symlink_metadata().is_ok()
}

fn not_ours(path: &Path) -> Error {
    let reason = "no earlier run wrote this file, or it was edited since; it is left as it is. Name another folder with \
                  --out, or say --replace";
    Error::output(path, reason)
}

#[cfg(unix)]
fn open_permissions(folder: &Path) {
    use std::os::unix::fs::PermissionsExt;
    let _ = std::fs::set_permissions(folder, std::fs::Permissions::from_mode(0o755));
}

#[cfg(not(unix))]
fn open_permissions(_folder: &Path) {}
