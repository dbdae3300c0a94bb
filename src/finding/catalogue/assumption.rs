//! Findings about values that were missing and are assumed.

use super::{Code, Entry};
use crate::finding::Severity;

catalogue! {
    ASSUMED = "A501" "assumed" Note,
        "What the list does not say is assumed only by a stated rule.",
        "What it finds: a value that was missing and is assumed by a line of [missing] in the scenario file.\n\
         Why it matters: totals show how much depends on such values, with low and high.\n\
         Example: casing_diameter 6 in (5 to 8) for a drilled well.\n\
         How to fix it: measure it and write it in the list.";
    ASSUMPTION_LEAVES_NO_WATER = "A502" "assumption-leaves-no-water" Error,
        "An assumed depth or water level must leave water in the well.",
        "What it finds: a well that would be dry with the value assumed for it.\n\
         Why it matters: an assumption that contradicts the list cannot be used.\n\
         Example: level 20 m assumed in a well 15 m deep.\n\
         How to fix it: measure it, or change [missing] for this type.";
    DRAWN_FROM_LIST = "A503" "estimated-from-list" Note,
        "What the list does not say is assumed only by a stated rule.",
        "What it finds: a value that was missing and is estimated from the list's own wells of the same type: those of the same region if at least ten have it, else those of the whole list; 10th, 50th and 90th percentile as low, mid and high.\n\
         Why it matters: totals show how much depends on such values. Wells without the value may differ from those with it.\n\
         Example: casing_diameter 36 in (24 to 48) from 41 dug wells of the same region.\n\
         How to fix it: measure it and write it in the list.";
    WALL_ASSUMED = "A511" "wall-assumed" Warning,
        "What the list does not say is assumed only by a stated rule.",
        "What it finds: an outside diameter of a steel or plastic casing without its wall; the usual wall is taken off twice: steel 0.25 in (0.188 to 0.28) up to 8 in, plastic SDR 21 (17 to 26).\n\
         Why it matters: totals show how much depends on such values, with low and high.\n\
         Example: 6 5/8 OD, steel: 6.13 in inside (6.07 to 6.25).\n\
         How to fix it: write the inside diameter or the wall.";
    HOLE_BELOW_ASSUMED = "A512" "hole-below-assumed" Note,
        "What the list does not say is assumed only by a stated rule.",
        "What it finds: a casing that ends above the bottom, and no diameter of what lies below; the hole is taken as wide as the casing (down to a bit a quarter of an inch narrower). Common practice, no source.\n\
         Why it matters: most of the water of a rock well stands below its casing; totals show how much depends on such values.\n\
         Example: 6 in casing to 40 ft in a well of 180 ft.\n\
         How to fix it: write open_hole_diameter.";
    TYPE_INFERRED = "A513" "type-inferred" Warning,
        "Every well has a type.",
        "What it finds: a well whose type the list does not give in words that are recognized; it is taken as the type that wells of its width and depth usually are. Common practice, no source: a pipe up to 2 1/2 in is driven, a hole of 22 in or more is dug, 14 to 22 in bored, anything else drilled.\n\
         Why it matters: the amount of chlorine does not depend on the type, but how the well is flushed, and what a crew must not do there, does.\n\
         Example: 6 in wide and 210 ft deep, no type: taken as drilled.\n\
         How to fix it: write the type, or say what the word means in [inventory.words.well_type].";
    SIZE_FROM_NOTE = "A514" "size-from-note" Note,
        "What the list does not say is assumed only by a stated rule.",
        "What it finds: a blank cell of a diameter, in a list whose own note gives the size of such wells: drilled wells are 6 in. unless noted; or a note that says that the hole below a casing is as wide as the casing.\n\
         Why it matters: the amount of chlorine rests on it.\n\
         Example: a blank diameter of a drilled well, taken as 6 in.\n\
         How to fix it: no action needed if correct; otherwise fill in the cell.";
    TYPE_FROM_NOTE = "A515" "type-from-note" Note,
        "Every well has a type.",
        "What it finds: a list without a column for the type of well, whose own note gives one type for all of its wells.\n\
         Why it matters: how the wells are flushed, and what a crew must not do there, rests on it.\n\
         Example: all wells on this list are driven sand points.\n\
         How to fix it: no action needed if correct; else give the type: [inventory.fixed] well_type = \"drilled\".";
}
