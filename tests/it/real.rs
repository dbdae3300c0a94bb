//! Openly licensed excerpts of real lists through the whole command, with the mapping files that `scenarios/` has ready.
//!
//! The counts were looked at by eye, finding by finding, when they were written down; sources and licences stand in
//! `fixtures/real/README.md`.

use std::path::Path;
use std::process::Command;

/// Excerpt, mapping, visits planned, visits held back, and a finding that must be among those that hold back.
const LISTS: [(&str, &str, u64, u64, Option<&str>); 6] = [
    // Level below bottom in two rows: depth and level exchanged between visits of one borehole.
    ("uganda_boreholes_raw.csv", "uganda", 170, 3, Some("G203")),
    // More water than well: the height of the water was read off wrongly in four rows.
    ("malawi_flood_chlorination_excerpt.csv", "malawi-flood-chlorination", 246, 4, Some("G211")),
    ("malawi_flood_preassessment_excerpt.csv", "malawi-flood-assessment", 153, 1, Some("I107")),
    // Twelve rows without a depth, five shallower than the assumed water level.
    ("malawi_drilling_survey_raw_excerpt.csv", "malawi-drilling", 135, 17, Some("G204")),
    // Streams, not wells: nothing can be planned, and nothing is.
    ("usgs_site_file_multirow.rdb", "usgs-sites", 0, 98, Some("G204")),
    ("usgs_site_file_groundwater_1row.rdb", "usgs-sites", 1, 0, None),
];

#[test]
fn real_lists_are_planned_as_far_as_they_can_be() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for (list, mapping, planned, held_back, reason) in LISTS {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("campaign");
        let ran = Command::new(env!("CARGO_BIN_EXE_aftercrest"))
            .arg("plan")
            .arg(root.join("fixtures/real").join(list))
            .arg("--scenarios")
            .arg(root.join(format!("scenarios/register-{mapping}.toml")))
            .arg("--out")
            .arg(&out)
            .output()
            .unwrap();
        let said = String::from_utf8(ran.stdout).unwrap();
        assert_eq!(
            ran.status.code(),
            Some(i32::from(held_back > 0)),
            "{list}: {}",
            String::from_utf8_lossy(&ran.stderr)
        );
        let all = planned + held_back;
        let coverage = format!("{planned} of {all} well visits planned; {held_back} held back");
        assert!(said.contains(&coverage), "{list}: {said}");
        let findings = std::fs::read_to_string(out.join("findings.csv")).unwrap();
        if let Some(code) = reason {
            assert!(
                findings.lines().any(|line| line.starts_with(&format!("held back,{code},"))),
                "{list} has no {code}"
            );
        }
    }
}
