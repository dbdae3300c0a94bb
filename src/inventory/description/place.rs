//! The numbers of a description that no word of their own explains: what they can be but one thing.

use super::lengths::{Group, Length};
use super::words::Label;
use crate::field::WellType;

/// Finds the place of the numbers without a word of their own.
pub(super) fn place(groups: &mut [Group], well_type: Option<WellType>) {
    let has = |groups: &[Group], label: Label| groups.iter().any(|group| group.label == Some(label));
    let with_units = groups.iter().filter(|group| group.label != Some(Label::Aside) && !group.is_bare()).count();
    let depth_told = has(groups, Label::Depth);
    let told_of_water = |groups: &[Group]| has(groups, Label::Level) || has(groups, Label::Height);
    let water_told = told_of_water(groups);
    for group in groups.iter_mut().filter(|group| group.label.is_none()) {
        // Where measures carry their units, a bare number among other words is none: `nitrate 7`, `section 12`.
        if group.is_bare() && group.in_words && with_units >= 2 {
            group.label = Some(Label::Aside);
        } else if depth_told && group.is_long() && group.cased {
            group.label = Some(Label::Casing);
        }
    }
    // `6" TD 185' W 41'`: between a depth and a width `W` is the water.
    let wide = has(groups, Label::Width);
    let long = |group: &Group| group.is_long() && !group.after_w;
    let deep = groups.iter().any(|group| group.label == Some(Label::Depth) || group.label.is_none() && long(group));
    if wide && deep && !water_told {
        for group in
            groups.iter_mut().filter(|group| group.label.is_none() && group.after_w && group.is_long() && !group.cased)
        {
            group.label = Some(Label::Level);
        }
    }
    // `6 in steel, 26 csg`: beside a width with its unit a bare number of casing is how deep it reaches.
    let across = groups.iter().any(|group| group.label == Some(Label::Width) && group.first().is_across());
    for group in groups.iter_mut().filter(|group| group.label == Some(Label::Width)) {
        if across && group.is_bare() && group.cased && group.lengths.len() == 1 {
            group.label = Some(Label::Casing);
        }
    }
    let open: Vec<usize> = (0..groups.len()).filter(|at| groups[*at].label.is_none()).collect();
    let long: Vec<usize> = open.iter().copied().filter(|at| groups[*at].is_long()).collect();
    match (open.as_slice(), long.as_slice()) {
        ([only], _) | (_, [only]) if !depth_told => groups[*only].label = Some(Label::Depth),
        // `dug, 4 ft, 28 ft deep`: what is left of a dug well is its width.
        ([only], _)
            if well_type == Some(WellType::Dug)
                && told_of_water(groups)
                && !has(groups, Label::Width)
                && may_be_dug(&groups[*only]) =>
        {
            groups[*only].label = Some(Label::Width);
        }
        _ => {}
    }
}

/// Whether a length may be the width of a dug well: 2 to 20 ft, 0.6 to 6 m. Common practice, no source.
fn may_be_dug(group: &Group) -> bool {
    let Length { value, unit, .. } = *group.first();
    group.is_long()
        && (unit == Some("ft") && (2.0..=20.0).contains(&value) || unit == Some("m") && (0.6..=6.0).contains(&value))
}
