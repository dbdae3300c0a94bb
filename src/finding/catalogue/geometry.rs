//! Findings about depth, level, diameter, casing and volume.

use super::{Code, Entry};
use crate::finding::Severity;

catalogue! {
    IMPOSSIBLE = "G201" "impossible-dimension" Error,
        "Depths, diameters and volumes are possible for a well.",
        "What it finds: a dimension that no well can have.\n\
         Why it matters: usually the unit or the decimal point is wrong.\n\
         Example: a diameter of 93,958 in.\n\
         How to fix it: check value and unit.";
    WELL_TYPE_MISSING = "G202" "well-type-missing" Error,
        "Every well has a type.",
        "What it finds: a row without a type of well.\n\
         Why it matters: overrides, assumptions and cautions go by type.\n\
         Example: a list of boreholes without a type column.\n\
         How to fix it: [inventory.fixed] well_type = \"drilled\" does it for a whole list.";
    WATER_LEVEL_BELOW_BOTTOM = "G203" "water-level-below-bottom" Error,
        "The static water level must lie above the bottom of the well.",
        "What it finds: a water level deeper than the well itself.\n\
         Why it matters: there would be no water to treat; usually one of the two is in other units, or they are swapped.\n\
         Example: depth 42, water level 57.3.\n\
         How to fix it: check both units; if the two values are swapped, swap them back.";
    DEPTH_MISSING = "G204" "depth-missing" Error,
        "A well's depth is known or assumed.",
        "What it finds: a well without a depth, and without a height or volume of water.\n\
         Why it matters: the volume of water cannot be computed.\n\
         Example: a blank cell.\n\
         How to fix it: write it, or state an assumption for this type under [missing].";
    LEVEL_MISSING = "G205" "level-missing" Error,
        "A well's water level is known or assumed.",
        "What it finds: a well without a water level, and without a height or volume of water.\n\
         Why it matters: the volume of water cannot be computed.\n\
         Example: a blank cell.\n\
         How to fix it: write it, or state an assumption; water at the ground is the safe one after a flood.";
    DIAMETER_MISSING = "G206" "diameter-missing" Error,
        "A well's inside diameter is known or assumed.",
        "What it finds: a well without a diameter.\n\
         Why it matters: the volume goes with its square; dug wells, which need the most, are the ones that most often lack it.\n\
         Example: a blank cell.\n\
         How to fix it: write it, or state an assumption for this type under [missing].";
    SPRING_BOX_VOLUME_MISSING = "G207" "spring-box-volume-missing" Error,
        "A spring box has a volume, or depth, level and diameter.",
        "What it finds: a spring box without a volume.\n\
         Why it matters: a box is not a cylinder in the ground; its volume must be given.\n\
         Example: a blank cell.\n\
         How to fix it: measure length, width and depth of the water, and write water_volume.";
    CASING_BELOW_BOTTOM = "G208" "casing-below-bottom" Warning,
        "The casing ends at or above the bottom.",
        "What it finds: a casing that reaches below the bottom of the well; it is counted to the bottom.\n\
         Why it matters: one of the two depths is wrong.\n\
         Example: depth 120 ft, casing 150 ft.\n\
         How to fix it: check both and their units.";
    OPEN_HOLE_WITHOUT_CASING_DEPTH = "G209" "open-hole-without-casing-depth" Warning,
        "An open hole begins where the casing ends.",
        "What it finds: a diameter of the open hole without the depth of the casing; the casing's diameter is used all the way.\n\
         Why it matters: the volume below the casing is not right.\n\
         Example: casing 6 in, open hole 5.5 in, casing depth blank.\n\
         How to fix it: write how deep the casing reaches.";
    OPEN_HOLE_WIDER = "G210" "open-hole-wider" Warning,
        "The open hole is not much wider than the casing.",
        "What it finds: an open hole more than half as wide again as the casing.\n\
         Why it matters: one of the diameters is wrong, or in other units.\n\
         Example: casing 6 in, open hole 12 in.\n\
         How to fix it: check both.";
    COLUMN_EXCEEDS_DEPTH = "G211" "column-exceeds-depth" Error,
        "The height of water is no more than the depth.",
        "What it finds: more water than well.\n\
         Why it matters: one of the two is wrong, or in other units.\n\
         Example: depth 30 m, height of water 90 m.\n\
         How to fix it: check both and their units.";
    COLUMN_CONTRADICTED = "G212" "column-contradicted" Warning,
        "Height of water is depth minus water level.",
        "What it finds: a height of water that differs a little from depth less level; depth and level are used.\n\
         Why it matters: one of the three is wrong.\n\
         Example: depth 100, level 20, height 70.\n\
         How to fix it: correct the one that is wrong.";
    HEIGHT_DISPUTED = "G219" "height-disputed" Error,
        "Height of water is depth minus water level.",
        "What it finds: a height of water that differs by more than a quarter from depth less level; the row is held back.\n\
         Why it matters: the amount goes with the height, and nothing says which of the three is wrong.\n\
         Example: depth 100, level 20, height 50.\n\
         How to fix it: correct the one that is wrong.";
    VOLUME_CONTRADICTED = "G213" "volume-contradicted" Error,
        "A volume agrees with diameter and height within a factor of two.",
        "What it finds: a volume that is less than half or more than twice what diameter and height give; the row is held back.\n\
         Why it matters: the amount would be half or double, and nothing says which of them is wrong.\n\
         Example: 60 ft of water in 6 in, volume 9 gal.\n\
         How to fix it: check volume, diameter and their units.";
    FLOWING_WELL = "G214" "flowing-well" Note,
        "The water level lies below the ground.",
        "What it finds: a water level above the ground: a flowing well.\n\
         Why it matters: what is poured in comes out again; it must be shut in or capped while the chlorine works. The water is counted to the ground.\n\
         Example: static water level -2 ft.\n\
         How to fix it: no action needed if correct.";
    CANNOT_EXIST = "G215" "cannot-exist" Error,
        "The measurements fit together as a well.",
        "What it finds: a row that passed every check but still does not describe a possible well.\n\
         Why it matters: it is held back so that nothing wrong is computed.\n\
         Example: none is known; please report the row.\n\
         How to fix it: check depth, level, diameter and casing.";
    INTERVAL_UNUSABLE = "G216" "interval-unusable" Warning,
        "A casing interval has an id, a top, a bottom below it, and a diameter.",
        "What it finds: a casing interval that cannot be used: upside down, without diameter or bottom, outside what is possible for a well, or not understood; it is left out.\n\
         Why it matters: the volume of its stretch is taken from its neighbors.\n\
         Example: from 40 to 20.\n\
         How to fix it: correct the row of the interval table.";
    INTERVALS_INCOMPLETE = "G217" "intervals-incomplete" Note,
        "Casing intervals reach from the ground to the bottom.",
        "What it finds: casing intervals with a gap, or that do not reach the bottom: the diameter above is used there. Or intervals without any depths: the narrowest diameter is used all the way. Or one that begins above the ground.\n\
         Why it matters: a rock well is open below its casing, with nearly the same diameter.\n\
         Example: casing to 60 ft in a well of 180 ft, and no open hole listed.\n\
         How to fix it: add the open hole as an interval.";
    INTERVALS_OVERLAP = "G218" "intervals-overlap" Note,
        "Casing strings overlap only where one is inside another.",
        "What it finds: overlapping casing intervals; the narrowest counts, because the water stands inside it.\n\
         Why it matters: added together they would count water twice.\n\
         Example: surface casing 0 to 20 ft of 10 in, casing 0 to 120 ft of 6 in.\n\
         How to fix it: no action needed if they are strings one inside another.";
    SPRING_FLOWS = "G230" "spring-flows" Error,
        "A spring that flows is planned only where the scenario file says whether it is isolated or fed.",
        "What it finds: a spring box whose yield replaces more than a tenth of its water during the hold, where flowing_spring is not stated or says hold_back.\n\
         Why it matters: one dose is washed out in a few hours, and the chlorine runs to the stream.\n\
         Example: a box of 500 gal with 5 gpm turns over 14 times in 24 h.\n\
         How to fix it: state flowing_spring = \"isolated\" (overflow closed, supply off) or \"feed\" (chlorine fed all through the hold) in [practice] or in an [[override]].";
    LEVEL_REDUCED = "G231" "level-reduced" Note,
        "A water level is a depth from the ground.",
        "What it finds: a level counted from the top of the casing or the rim, or above the sea; it is turned into a depth with the stick-up or the elevation of the ground in the same row.\n\
         Why it matters: the water is counted from the ground down.\n\
         Example: 12 ft below the rim, which stands 1.5 ft above the ground: 10.5 ft.\n\
         How to fix it: no action needed if correct.";
    STICK_UP_MISSING = "G232" "stick-up-missing" Error,
        "A level counted from the top of the casing needs the stick-up where it matters.",
        "What it finds: a level counted from the top of the casing or the rim without the height of that above the ground, in a well where a usual stick-up of 0.3 to 0.6 m would change the water by a tenth or more.\n\
         Why it matters: a shallow well holds little, and a foot counts.\n\
         Example: depth 14 ft, level 8 ft below the rim.\n\
         How to fix it: measure it and write stick_up, or write the level from the ground.";
    GROUND_ELEVATION_MISSING = "G233" "ground-elevation-missing" Error,
        "A level above the sea needs the elevation of the ground.",
        "What it finds: a water level given as an elevation, and no elevation of the ground in the row.\n\
         Why it matters: an elevation is not a depth.\n\
         Example: water at 612 ft above sea level.\n\
         How to fix it: write ground_elevation, or the depth from the ground.";
    INSIDE_FROM_OUTSIDE = "G234" "inside-from-outside" Note,
        "The water stands inside the casing.",
        "What it finds: a casing by its outside or its trade size, with its wall; the wall is taken off twice.\n\
         Why it matters: the volume goes with the square of the inside diameter.\n\
         Example: 6 5/8 OD x .188 wall: 6.249 in inside.\n\
         How to fix it: no action needed if correct.";
    STRINGS_IN_WORDS = "G235" "strings-in-words" Note,
        "Each string of casing has a diameter, a top and a bottom.",
        "What it finds: several diameters with the depths they reach, in one cell; they are read as intervals.\n\
         Why it matters: a range or the first number alone would be wrong.\n\
         Example: 10 in to 38 ft, 8 in below.\n\
         How to fix it: no action needed if correct.";
    WATER_IN_WORDS = "G236" "water-in-words" Note,
        "A height of water is not a depth.",
        "What it finds: a height of standing water in the cell of a level or a depth, or in the notes of a well that has neither.\n\
         Why it matters: read as a depth it would give another volume.\n\
         Example: holds 9 ft of water.\n\
         How to fix it: no action needed if correct.";
    RANGE_TOO_WIDE = "G237" "range-too-wide" Error,
        "A range is used only where it changes the water by less than a tenth.",
        "What it finds: a range of a depth, a level, a diameter, a height or a volume that changes the water by a tenth or more from end to end.\n\
         Why it matters: the middle could be wrong by as much as half of that.\n\
         Example: 4-6 in.\n\
         How to fix it: write one value.";
    REFERENCE_UNSAID = "G239" "reference-unsaid" Warning,
        "A water level is a depth from the ground.",
        "What it finds: a level, the height of the rim or casing above the ground, and nothing that says from which of the two the level is counted, where that changes the water by a tenth or more.\n\
         Why it matters: counted from the rim there is more water than counted from the ground, and the dose would be too small.\n\
         Example: depth 5 m, level 3.8 m, rim 40 cm high.\n\
         How to fix it: say so in the heading of the level: (from ground) or (from top of casing).";
    LEVEL_ZERO = "G240" "level-zero" Warning,
        "A zero in a column of levels is water at the ground, or nobody measured.",
        "What it finds: a level of zero, and no word that the well flows or stands full.\n\
         Why it matters: registers fill blank numbers with zero; then there is less water, and the dose is too large.\n\
         Example: 0.00.\n\
         How to fix it: leave the cell blank where it was not measured; write full, or flows, where the water stands at the ground.";
    WALL_UNKNOWN = "G238" "wall-unknown" Error,
        "An outside diameter needs the thickness of the wall.",
        "What it finds: an outside diameter, or a trade size, whose wall is neither given nor usual: concrete, brick and stone are made in any thickness.\n\
         Why it matters: the water stands inside.\n\
         Example: concrete rings, 48 in outside.\n\
         How to fix it: write the inside diameter, or wall_thickness.";
}
