//! Words of levels that several readers know: each adds those of its own place.

/// Beginnings of words for water that stands at the ground, or rises above it.
pub(super) const FLOWING: [&str; 8] =
    ["flow", "overflow", "artesian", "surgent", "jaillissant", "rebosa", "jorra", "repuxa"];
/// Words by which water stands above what it is counted from.
pub(super) const ABOVE: [&str; 4] = ["above", "over", "acima", "dessus"];
