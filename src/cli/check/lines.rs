//! The lines of a check: how long they are, and how wells are counted in them.

/// Letters of a line.
pub(super) const WIDTH: usize = 80;

/// `1 well is`, `2 wells are`.
pub(super) fn are_wells(count: u64) -> String {
    format!("{} {}", wells(count), if count == 1 { "is" } else { "are" })
}

/// `1 well`, `2 wells`.
pub(super) fn wells(count: u64) -> String {
    if count == 1 { "1 well".to_owned() } else { format!("{count} wells") }
}
