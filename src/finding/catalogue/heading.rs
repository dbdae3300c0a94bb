//! Findings about headings and the units in them.

use super::{Code, Entry};
use crate::finding::Severity;

catalogue! {
    NO_ID_COLUMN = "H101" "no-id-column" Warning,
        "A list has a column with the wells' ids.",
        "What it finds: a table without ids; each well is named by its file and row.\n\
         Why it matters: a crew cannot find the well by such a name, and a well listed twice is not noticed.\n\
         Example: a survey with coordinates only.\n\
         How to fix it: map the column that names the wells: [inventory.columns] \"heading\" = \"well_id\".";
    TWO_COLUMNS_FOR_ONE_FIELD = "H102" "two-columns-for-one-field" Warning,
        "One column feeds one field.",
        "What it finds: two headings that both name a field; the better name is read, the other is carried along.\n\
         Why it matters: the other column may be the one you mean.\n\
         Example: \"well_depth\" and \"hole_depth\" in one table.\n\
         How to fix it: map the right one: [inventory.columns] \"hole_depth\" = \"total_depth\".";
    NEAR_MISS = "H103" "near-miss" Warning,
        "A heading is spelled as in `aftercrest columns`.",
        "What it finds: a heading that is close to a known one; it is not read.\n\
         Why it matters: the field would be missing for the whole list.\n\
         Example: \"cassing diameter\".\n\
         How to fix it: correct the spelling, or map it in [inventory.columns].";
    IN_READ_AS_INCHES = "H104" "_in-read-as-inches" Warning,
        "A unit in a heading is unmistakable.",
        "What it finds: a heading that ends in \"_in\" in a table where no other heading ends in a unit such as \"_ft\": it is read as inches.\n\
         Why it matters: in some registers DIAMETER_IN is the inner diameter, in whatever unit.\n\
         Example: DIAMETER_IN.\n\
         How to fix it: [inventory.units] casing_diameter = \"in\" settles it.";
    AMBIGUOUS_IN = "H105" "ambiguous-_in" Error,
        "A unit in a heading is unmistakable.",
        "What it finds: a heading that ends in \"_in\" beside one that ends in \"_out\", or in a metric campaign; a depth, a level or a height of water that ends in a bare \"in\", where nothing else says the unit: it is not read.\n\
         Why it matters: inner and outer are meant, or the water in the well, and no unit is given; feet read as inches are a twelfth.\n\
         Example: DIAMETER_IN and DIAMETER_OUT; Water in.\n\
         How to fix it: [inventory.units] casing_diameter = \"in\", \"mm\" or the correct unit.";
    AMBIGUOUS_WATER_DEPTH = "H106" "ambiguous-water-depth" Error,
        "A heading says whether a water depth is measured from the ground or from the bottom.",
        "What it finds: a heading such as \"water depth\", which people use for the depth to the water and for the height of the water; it is not read.\n\
         Why it matters: the two differ by the whole column, and so does the amount of chlorine.\n\
         Example: water_depth_m.\n\
         How to fix it: map it to static_water_level or to water_column in [inventory.columns].";
    UNIT_FROM_CAMPAIGN = "H107" "unit-from-campaign" Warning,
        "A measured column carries its unit.",
        "What it finds: a column without a unit, read in the unit usual in the campaign's declared system.\n\
         Why it matters: feet read as meters make a dose 3.3 times too large.\n\
         Example: \"depth\" in a campaign with units = \"us\".\n\
         How to fix it: write the unit in the heading, or set it: [inventory.units] total_depth = \"ft\".";
    NO_UNIT = "H108" "no-unit" Error,
        "A measured value has a unit, in the cell, the heading, a column beside it, or the scenario file.",
        "What it finds: a column, and its values, for which no unit is given.\n\
         Why it matters: feet and meters differ by 3.3, US and imperial gallons by 1.2; it is not guessed.\n\
         Example: \"depth\" with 120 below it, and no [campaign] units.\n\
         How to fix it: [inventory.units] total_depth = \"ft\", or [campaign] units = \"us\".";
    HEADING_UNIT_UNKNOWN = "H109" "heading-unit-unknown" Error,
        "The unit in a heading is a recognized unit.",
        "What it finds: a heading with something in brackets that is not a known unit; the column is not read.\n\
         Why it matters: the values could be anything.\n\
         Example: \"depth (fathoms)\".\n\
         How to fix it: correct the unit, or set one in [inventory.units].";
    HEADING_UNIT_OF_OTHER_DIMENSION = "H110" "heading-unit-of-other-dimension" Error,
        "The unit in a heading fits the field.",
        "What it finds: a heading whose unit measures something else; the column is not read.\n\
         Why it matters: the heading or the unit is wrong, and with it every value.\n\
         Example: \"depth (gpm)\".\n\
         How to fix it: correct the heading, or map the column to the field it really is.";
    HEADING_GALLON_UNDECLARED = "H111" "heading-gallon-undeclared" Error,
        "The campaign states whether a gallon is a US or an imperial gallon.",
        "What it finds: a heading with gal, gpm or the like, without saying which gallon is meant.\n\
         Why it matters: the imperial gallon is a fifth larger; Ontario's registers use it, British Columbia's do not.\n\
         Example: \"yield (gpm)\".\n\
         How to fix it: [campaign] units = \"us\" or \"imperial\", or write US gpm or imp gpm.";
    UNIT_CONTRADICTED = "H112" "unit-contradicted" Warning,
        "Heading and scenario file name the same unit.",
        "What it finds: a column whose heading says one unit and [inventory.units] another; the heading counts.\n\
         Why it matters: one of the two is wrong.\n\
         Example: \"depth (m)\" with total_depth = \"ft\".\n\
         How to fix it: correct the heading, or take the line out of the scenario file.";
    MAPPING_WITHOUT_COLUMN = "H113" "mapping-without-column" Warning,
        "Every heading mapped in the scenario file exists.",
        "What it finds: a line of [inventory.columns] whose heading no table has.\n\
         Why it matters: the field it should feed stays empty.\n\
         Example: \"Depht\" = \"total_depth\" for a column called Depth.\n\
         How to fix it: copy the heading from the file as it stands there.";
    BLANK_HEADING = "H114" "blank-heading" Note,
        "Every column with cells has a heading.",
        "What it finds: a column with cells and no heading; it is carried along under its number.\n\
         Why it matters: it could be a field.\n\
         Example: a remark typed beside the table.\n\
         How to fix it: give it a heading.";
    ELEVATION_FOR_DEPTH = "H115" "elevation-for-depth" Error,
        "A depth is measured from the ground.",
        "What it finds: a column of elevations above sea level where a depth is wanted; it is not read.\n\
         Why it matters: an elevation is not a depth, and grows when the water rises.\n\
         Example: \"static water level (m amsl)\".\n\
         How to fix it: give the depth from the ground.";
    LEVEL_FROM_TOP_OF_CASING = "H116" "level-from-top-of-casing" Note,
        "A water level is measured from the ground.",
        "What it finds: a water level measured from the top of the casing; it is read as if from the ground.\n\
         Why it matters: the casing stands a little above the ground, so that the water column comes out a little short: by the stick-up, usually 0.3 to 0.6 m.\n\
         Example: static_water_level_ft-btoc.\n\
         How to fix it: no action needed if the casing sticks up only a few inches; otherwise subtract the stick-up from the values.";
    UNIT_SUSPECT = "H117" "unit-suspect" Warning,
        "A column's values are usual in the unit they are read in.",
        "What it finds: a column of depths or diameters most of whose values are unusual for their type of well in the unit they are read in, and usual in another; judged by the first rows. The unit stays as it is.\n\
         Why it matters: a whole list in the wrong unit is the costliest mistake there is: feet for meters 3.3 times, inches for centimeters 6.5 times the water.\n\
         Example: diameters of 0.5 in a column of inches: feet.\n\
         How to fix it: correct the heading, or set the unit: [inventory.units] casing_diameter = \"ft\".";
    NO_COLUMN = "H118" "no-column" Warning,
        "A list has a column for every value that affects the dose, or the scenario file says what to use.",
        "What it finds: a table without a column for the type, or for depth, water level, diameter or volume, while the scenario file says nothing about them.\n\
         Why it matters: every row of it is held back.\n\
         Example: a register without diameters.\n\
         How to fix it: map the column in [inventory.columns], fix a value in [inventory.fixed], or assume one in [missing].";
    SPECIES_NOT_STATED = "H119" "reporting-basis-not-stated" Note,
        "A column of nitrite or ammonia says whether it is reported as nitrogen (as N) or as the compound (as NO2, as NH3).",
        "What it finds: a heading with nitrite or ammonia and nothing more; it is read as N.\n\
         Why it matters: 1 mg/L of nitrite as N is 3.28 mg/L as NO2, 1 mg/L of ammonia as N is 1.22 mg/L as NH3. Read as N it asks for more chlorine, never for less; at the amounts found in most wells neither makes a difference beside the target.\n\
         Example: nitrite (mg/L).\n\
         How to fix it: write nitrite (mg/L as N) or (mg/L as NO2), or [inventory.units] nitrite_n = \"mg/L as NO2\".";
    SPECIES_CONVERTED = "H120" "reporting-basis-converted" Note,
        "Constituents are expressed as the fields say: nitrite and ammonia as N, alkalinity as CaCO3, sulfide as H2S.",
        "What it finds: a column, or a value, expressed as something else; it is multiplied by the ratio of molar masses.\n\
         Why it matters: the numbers shown are not those in the list.\n\
         Example: nitrite (mg/L as NO2): 3.28 is read as 1.00 as N.\n\
         How to fix it: no action needed if correct.";
    SPELLED_DIFFERENTLY = "H121" "spelled-differently" Note,
        "A column that is carried along is headed alike in every list.",
        "What it finds: a column that is not one of the known fields, headed in capitals in one list and in small letters in another; they are carried along as one, under the first spelling.\n\
         Why it matters: totals by road would count one column of roads and miss the other.\n\
         Example: Road no. in one file, ROAD NO. in the next.\n\
         How to fix it: no action needed, or head them alike; where they are not the same, give one of them another name.";
    COLUMN_BY_EVIDENCE = "H131" "column-read-by-evidence" Warning,
        "A heading names what its column holds in words listed by `aftercrest columns`.",
        "What it finds: a column whose heading is not one that is known; its words and its cells say what it probably is, and it is read so.\n\
         Why it matters: where the reading is wrong, every row of the list is.\n\
         Example: \"At what depth do you find water?\" read as the static water level.\n\
         How to fix it: no action needed if correct; otherwise map the column in [inventory.columns], or leave it out with \"\".";
    COLUMN_OPEN = "H132" "column-open" Error,
        "A value that affects the dose is read only from a column whose meaning is clear.",
        "What it finds: a column that may be a depth, a level, a diameter or a type of well, but not clearly enough to be used; it is not read.\n\
         Why it matters: without it rows cannot be planned, and with a wrong reading every dose would be wrong.\n\
         Example: \"water depth\" beside \"depth\".\n\
         How to fix it: map it in [inventory.columns] to what it is.";
    UNIT_BY_EVIDENCE = "H133" "unit-by-evidence" Warning,
        "A measured column carries its unit.",
        "What it finds: a column without a unit in its heading; a note, the cells or the columns beside it say which unit it probably is, and it is read so.\n\
         Why it matters: feet read as meters make a dose 3.3 times too great.\n\
         Example: \"Diameter\" with values from 152 to 900, which are only usual in mm.\n\
         How to fix it: no action needed if correct; otherwise set the unit in [inventory.units].";
    UNIT_DISPUTED = "H134" "unit-disputed" Error,
        "The cells of a column that write their unit agree with the unit of those that do not.",
        "What it finds: a column without a unit in its heading, in a campaign that declares a system, where most cells that write a unit write another; bare numbers are not read.\n\
         Why it matters: which of the two units the bare numbers are in changes every dose.\n\
         Example: units = \"us\", and 31 of 33 written units are m.\n\
         How to fix it: set the unit: [inventory.units] total_depth = \"m\".";
    COLUMNS_COMPLEMENT = "H135" "columns-complement" Note,
        "One column feeds one field.",
        "What it finds: two columns that give the same thing, where rows that fill one mostly leave the other blank; each row is read from the one it fills.\n\
         Why it matters: a merged list keeps a column from each office.\n\
         Example: \"Depth (ft)\" from one town and \"Well depth\" from another.\n\
         How to fix it: no action needed if correct; otherwise map one of them in [inventory.columns].";
    MULTIPLE_CHOICE_READ = "H130" "multiple-choice-read" Note,
        "Columns of ticks under headings with a common beginning are the answers of one question.",
        "What it finds: two columns or more that hold only 0 and 1, x or blank, or true and false, whose headings begin alike and end in types of well or in places for the water; the ticked one is read.\n\
         Why it matters: the type or the route of the whole list depends on it.\n\
         Example: well_type/drilled, well_type/dug.\n\
         How to fix it: no action needed if correct; otherwise leave one of the columns out: [inventory.columns] \"heading\" = \"\".";
    DESCRIPTIONS_READ = "H136" "descriptions-read" Warning,
        "One column holds one measure.",
        "What it finds: a column whose cells describe whole wells in words; depth, level, diameter and type are read from the words beside each number.\n\
         Why it matters: a number that is taken for another measure changes the dose; one that is not understood holds its row back.\n\
         Example: \"6in drilled, 140 deep, pump hangs at 120, water at 31\".\n\
         How to fix it: no action needed if correct; otherwise give the measures columns of their own, or leave the column out with \"\".";
    MINUS_IS_BELOW = "H137" "minus-is-below" Warning,
        "A level below the ground is written without a sign.",
        "What it finds: a column of levels most of which have a minus sign; it is read as below. A level without one would stand above and is asked.\n\
         Why it matters: read as above the ground, every well of the list would be full, and its dose too great.\n\
         Example: \"SWL (m)\" with -4.1, -16.5, -11.2.\n\
         How to fix it: no action needed if correct.";
    EARLIER_READINGS = "H138" "earlier-readings" Warning,
        "One column holds the level that counts.",
        "What it finds: columns of the same measure on several dates; the latest is read. A row without a level at rest there takes the one before it \
         where two earlier ones are nearly the same, and is asked otherwise.\n\
         Why it matters: the water of another year is another dose.\n\
         Example: \"DTW 4/22\", \"DTW 4/23\" and \"DTW 4/24\".\n\
         How to fix it: no action needed if correct; otherwise map the column that counts in [inventory.columns].";
    LENGTH_IN_TWO_COLUMNS = "H139" "length-in-two-columns" Note,
        "One column holds one measure.",
        "What it finds: two columns side by side that hold one length, feet in the first and inches in the second, or meters and centimeters; they are read together.\n\
         Why it matters: the inches alone, taken for a level, would fill the well.\n\
         Example: \"ft\" and \"in\" below \"DEPTH\".\n\
         How to fix it: no action needed if correct; otherwise leave the second column out: [inventory.columns] \"heading\" = \"\".";
}
