//! The bundled demo campaign: invented lists and a scenario file, so that the first run needs nothing but the command.

use std::path::PathBuf;

use tempfile::TempDir;

use crate::error::{Error, Result};

/// Lists and scenario file of the demo campaign, unpacked for one run.
pub struct Demo {
    _folder: TempDir,
    /// The lists, in order.
    pub inventory: Vec<PathBuf>,
    /// The scenario file, in the same temporary folder as the lists.
    pub scenarios: PathBuf,
}

const LISTS: [(&str, &[u8]); 2] = [
    ("harrowfen-county.xlsx", include_bytes!("../../fixtures/demo/harrowfen-county.xlsx")),
    ("quillmoor-county.csv", include_bytes!("../../fixtures/demo/quillmoor-county.csv")),
];
const SCENARIOS: (&str, &[u8]) = ("demo.toml", include_bytes!("../../scenarios/demo.toml"));

/// Unpacks the demo campaign.
///
/// # Errors
/// When no temporary folder can be made.
pub fn unpack() -> Result<Demo> {
    let folder =
        tempfile::tempdir().map_err(|error| Error::request(format!("no temporary folder for the demo: {error}")))?;
    let place = |name: &str, content: &[u8]| {
        let path = folder.path().join(name);
        std::fs::write(&path, content).map_err(|error| Error::unwritten(&path, error))?;
        Ok(path)
    };
    let inventory = LISTS.iter().map(|(name, content)| place(name, content)).collect::<Result<_>>()?;
    let scenarios = place(SCENARIOS.0, SCENARIOS.1)?;
    Ok(Demo { inventory, scenarios, _folder: folder })
}
