//! Findings about values that are possible and unlikely.

use super::{Code, Entry};
use crate::finding::Severity;

catalogue! {
    UNLIKELY = "P401" "unlikely" Warning,
        "Values lie within what is usual.",
        "What it finds: a value that is possible and unusual; it is used.\n\
         Why it matters: a wrong unit or decimal point often looks like this.\n\
         Example: a well 1.2 m deep.\n\
         How to fix it: check the value and its unit.";
    DIAMETER_UNLIKELY_FOR_TYPE = "P402" "diameter-unlikely-for-type" Warning,
        "A diameter is usual for the type of well.",
        "What it finds: a diameter that is unusual for the type; it is used.\n\
         Why it matters: the volume grows with the square of the diameter.\n\
         Example: a dug well of 4 in.\n\
         How to fix it: check the unit (inches or feet) and the type.";
    COORDINATES_MENDED = "P403" "coordinates-corrected" Warning,
        "Coordinates lie in the campaign's box.",
        "What it finds: coordinates outside the box that lie inside it when a sign is changed or the two are swapped; they are read that way.\n\
         Why it matters: some registers store western longitudes and southern latitudes as positive numbers.\n\
         Example: 45.2, 30.3 where the box reaches from 45 to 46 north and from 31 to 30 west; read as 45.2, -30.3.\n\
         How to fix it: correct the list.";
    OUTSIDE_BOX = "P404" "outside-box" Warning,
        "Coordinates lie in the campaign's box.",
        "What it finds: coordinates outside the campaign's box.\n\
         Why it matters: the well may belong to another campaign, or a digit is wrong.\n\
         Example: a well three states away.\n\
         How to fix it: check the coordinates, or the box.";
    NULL_ISLAND = "P405" "coordinates-zero" Note,
        "Coordinates that are not known are left blank.",
        "What it finds: coordinates 0, 0; they are left out.\n\
         Why it matters: they stand for \"not known\".\n\
         Example: 0, 0.\n\
         How to fix it: leave the cells blank.";
    DEPTH_UNLIKELY_FOR_TYPE = "P406" "depth-unlikely-for-type" Warning,
        "A depth is usual for the type of well.",
        "What it finds: a depth that is unusual for the type; it is used.\n\
         Why it matters: the volume grows with it; a dug well of 180 is usually one of 18.0, or not dug.\n\
         Example: a dug well 180 ft deep.\n\
         How to fix it: check the unit (feet or meters), the decimal point and the type.";
    OUTSIDE_DIAMETER = "P407" "outside-diameter" Warning,
        "A casing's diameter is that of its inside.",
        "What it finds: a diameter that is just the outside diameter of a common size of pipe.\n\
         Why it matters: the water stands inside; a fifth too much product is planned, which is wasteful but not dangerous.\n\
         Example: 6.625 in for a 6 in pipe.\n\
         How to fix it: write the inside diameter; for a whole register it may be left as it is.";
    UNIT_IN_DOUBT = "P411" "unit-in-doubt" Error,
        "A size without a unit of its own is usual in the unit of its column.",
        "What it finds: a bare number that, in the unit of its column, is less than two fifths of the least or more than two and a half times the most that is usual for the type of well, and would be usual in another unit.\n\
         Why it matters: taken in the wrong unit the amount is wrong by a factor of a hundred.\n\
         Example: a dug well of 3 in a column of inches: 3 in or 3 ft.\n\
         How to fix it: write the value with its unit.";
}
