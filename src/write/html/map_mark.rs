//! Marks of a map: a shape and a color for each group, and a way of filling it for each state.

use super::picture::{LOOKS, tenth};

/// How a place of a group and state looks.
pub(super) fn look(group: usize, state: usize) -> String {
    format!("site t{} c{}", state % 3, group % LOOKS)
}

/// The shape of a group, drawn from its middle: after the colors have all been used, each comes with another shape. Places
/// that are not planned are larger, and the last state is crossed out.
pub(super) fn shape(group: usize, state: usize) -> String {
    let shape = (group + group / LOOKS) % LOOKS;
    let r = if state.is_multiple_of(3) { 3.4 } else { 4.6 };
    let (up, down, wide, thin) = (tenth(r * 1.2), tenth(r * 0.8), tenth(r * 1.15), tenth(r * 0.45));
    let drawn = match shape {
        0 => format!("m-{r} 0a{r} {r} 0 1 0 {0} 0 {r} {r} 0 1 0-{0} 0", 2.0 * r),
        1 => format!("m-{0}-{0}h{1}v{1}h-{1}z", tenth(r * 0.9), tenth(r * 1.8)),
        2 => format!("m0-{up}l{wide} {0}h-{1}z", tenth(up + down), tenth(2.0 * wide)),
        3 => format!("m0-{0}l{0} {0}l-{0} {0}l-{0}-{0}z", tenth(r * 1.3)),
        4 => format!("m0 {up}l{wide}-{0}h-{1}z", tenth(up + down), tenth(2.0 * wide)),
        5 => format!("m-{thin}-{0}h{1}v{2}h-{1}z", tenth(r * 1.3), tenth(2.0 * thin), tenth(r * 2.6)),
        _ => {
            let (arm, bar) = (tenth(wide - thin), tenth(2.0 * thin));
            format!("m-{thin}-{wide}h{bar}v{arm}h{arm}v{bar}h-{arm}v{arm}h-{bar}v-{arm}h-{arm}v-{bar}h{arm}z")
        }
    };
    // The stroke ends in the middle again, from where the shape is drawn.
    if state % 3 == 2 { format!("{}{drawn}", CROSSED) } else { drawn }
}

/// A stroke across the middle, and back to it.
const CROSSED: &str = "m-6 6l12-12m-6 6";

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// Printed in grey, a depot is told by its shape; seven colors and seven shapes make 49 pairs.
    #[test]
    fn no_two_groups_look_alike() {
        let shapes: BTreeSet<String> = (0..LOOKS).map(|group| shape(group, 0)).collect();
        assert_eq!(shapes.len(), LOOKS);
        let pairs: BTreeSet<String> =
            (0..LOOKS * LOOKS).map(|group| format!("{} {}", look(group, 0), shape(group, 0))).collect();
        assert_eq!(pairs.len(), LOOKS * LOOKS);
        let states: BTreeSet<String> = (0..3).map(|state| format!("{} {}", look(0, state), shape(0, state))).collect();
        assert_eq!(states.len(), 3);
    }
}
