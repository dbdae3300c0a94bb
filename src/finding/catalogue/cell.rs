//! Findings about single cells.

use super::{Code, Entry};
use crate::finding::Severity;

catalogue! {
    NUMBER_NOT_UNDERSTOOD = "C101" "number-not-understood" Error,
        "A measured value is a number with at most a unit and a remark.",
        "What it finds: a cell that holds no number, or more than can be understood.\n\
         Why it matters: the well cannot be computed.\n\
         Example: Drilling diameter is 200.\n\
         How to fix it: write it as in \"120 ft\", or leave the cell blank.";
    ASIDE_NOT_UNDERSTOOD = "C102" "secondary-value-not-understood" Warning,
        "Coordinates, counts, rates, temperature and pH are numbers with a known unit.",
        "What it finds: a coordinate, a number of users, a yield or a pump's rate, a temperature or a pH that cannot be read, or a unit beside it that is not known; it is left blank.\n\
         Why it matters: the amount of product does not depend on it, so the well is still planned; maps, counts, flushing hours or the pH after dosing will lack it.\n\
         Example: a yield of 12 with \"Miners Inches\" beside it.\n\
         How to fix it: write a number, and its unit as in gpm or L/s.";
    UNIT_OF_OTHER_DIMENSION = "C103" "unit-of-other-dimension" Error,
        "The unit in a cell fits the field.",
        "What it finds: a value with a unit of something else.\n\
         Why it matters: it is probably in the wrong column.\n\
         Example: 120 gpm under depth.\n\
         How to fix it: move it to its column.";
    GALLON_UNDECLARED = "C104" "gallon-undeclared" Error,
        "The campaign states whether a gallon is a US or an imperial gallon.",
        "What it finds: a value in gallons, quarts, pints, fluid ounces or gpm, without saying which gallon is meant.\n\
         Why it matters: the imperial gallon is a fifth larger.\n\
         Example: 50 gal.\n\
         How to fix it: [campaign] units = \"us\" or \"imperial\", or write US gal or imp gal.";
    UNKNOWN_WELL_TYPE = "C105" "unknown-well-type" Warning,
        "The type is drilled, driven, bored, dug or spring_box, or a known word for one of them.",
        "What it finds: a type of well that is not known.\n\
         Why it matters: overrides and assumptions go by type, and so do cautions.\n\
         Example: radial collector.\n\
         How to fix it: write one of the five; [inventory.fixed] does it for a whole list.";
    UNKNOWN_CHOICE = "C106" "unknown-choice" Warning,
        "A discharge route is land, storm_drain, stream, sanitary_sewer, septic or hauled, or a known word for one.",
        "What it finds: a discharge route that is not known; it is left blank, and neutralizer is planned to be safe.\n\
         Why it matters: more neutralizer is ordered than may be needed.\n\
         Example: behind the barn.\n\
         How to fix it: write one of the six.";
    FLAG_NOT_UNDERSTOOD = "C107" "flag-not-understood" Warning,
        "A flag is yes or no.",
        "What it finds: a cell that is neither yes nor no; it is left blank.\n\
         Why it matters: conditions on it do not hold for this well.\n\
         Example: partly.\n\
         How to fix it: write yes or no.";
    SENTINEL = "C108" "placeholder-number" Note,
        "A value that is not known is left blank.",
        "What it finds: a number that stands for \"not known\", such as -999 or -9999; it is read as missing.\n\
         Why it matters: taken as a value it would be absurd.\n\
         Example: -9999.\n\
         How to fix it: leave the cell blank.";
    ZERO_FOR_MISSING = "C109" "zero-for-missing" Note,
        "A value that is not known is left blank.",
        "What it finds: a zero where zero cannot be; it is read as missing.\n\
         Why it matters: registers fill blank numbers with zero.\n\
         Example: a diameter of 0.\n\
         How to fix it: leave the cell blank, or write the value.";
    SPREADSHEET_ERROR = "C110" "spreadsheet-error" Warning,
        "A cell holds a value, not an error.",
        "What it finds: an error value of a spreadsheet such as #N/A or #DIV/0!; it is read as missing.\n\
         Why it matters: the value is lost, and with it perhaps the well.\n\
         Example: #REF! after a column was deleted.\n\
         How to fix it: fix the formula, or type the value.";
    DATE_FOR_NUMBER = "C111" "date-for-number" Error,
        "A measured value is not a date.",
        "What it finds: a date where a number is wanted.\n\
         Why it matters: spreadsheet programs turn 6-8 into the eighth of June without asking.\n\
         Example: 2024-06-08 under diameter.\n\
         How to fix it: format the cells as text and type the value again.";
    RANGE = "C112" "range" Warning,
        "A measured value is one number.",
        "What it finds: a range; its middle is used, and its ends go into low and high. Where it changes the water by a tenth or more, the well is held back (G237).\n\
         Why it matters: the true value could lie anywhere in the range.\n\
         Example: 180-185 ft.\n\
         How to fix it: write one value if you know it.";
    BOUND = "C113" "bound" Warning,
        "A measured value is one number.",
        "What it finds: a value with \"more than\" or \"less than\", of something that does not affect the volume of water; the number itself is used.\n\
         Why it matters: the true value lies beyond it.\n\
         Example: <0.3 mg/L of iron.\n\
         How to fix it: write the value if you know it.";
    REMARK_AFTER_NUMBER = "C114" "remark-after-number" Note,
        "A cell holds a number and nothing else.",
        "What it finds: words beside a number; the number is used.\n\
         Why it matters: the words may say something that matters.\n\
         Example: 120 ft (reported).\n\
         How to fix it: no action needed if correct.";
    AMBIGUOUS_COMMA = "C115" "ambiguous-comma" Warning,
        "A number is written without separators, with a point for decimals.",
        "What it finds: a comma before exactly three digits, which could separate thousands or decimals.\n\
         Why it matters: the two readings differ by a factor of a thousand.\n\
         Example: 1,234.\n\
         How to fix it: write 1234 or 1.234.";
    UNIT_DIFFERS_FROM_COLUMN = "C116" "unit-differs-from-column" Warning,
        "A column has one unit.",
        "What it finds: a cell with a unit of another system than its column; the cell counts.\n\
         Why it matters: one of the two may be a mistake.\n\
         Example: 37 m in a column headed (ft).\n\
         How to fix it: no action needed if correct.";
    CHOICE_FROM_PHRASE = "C117" "choice-from-phrase" Note,
        "A choice is one of the known words.",
        "What it finds: a phrase that holds exactly one of the known words.\n\
         Why it matters: it is read as that one.\n\
         Example: hand dug, brick lined: dug.\n\
         How to fix it: no action needed if correct.";
    UNIT_BESIDE_UNKNOWN = "C118" "unit-beside-unknown" Error,
        "The unit in the column beside a value is a recognized unit.",
        "What it finds: a unit column whose cell is not a known unit.\n\
         Why it matters: the value could be anything.\n\
         Example: ells under DEPTH_UOM.\n\
         How to fix it: write ft, m, in, mm or the like.";
    PACKED_DEGREES = "C119" "packed-degrees" Note,
        "Coordinates are decimal degrees.",
        "What it finds: a coordinate written as degrees, minutes and seconds in one number; it is converted.\n\
         Why it matters: it does not affect the dose.\n\
         Example: 443053.32: 44 degrees, 30 minutes, 53.32 seconds.\n\
         How to fix it: no action needed if correct.";
    UNIT_NOT_WRITTEN = "C120" "unit-not-written" Warning,
        "Every value of a column that writes its units cell by cell has one.",
        "What it finds: a number without a unit in a column where the others have theirs, in the cell or beside it; the campaign's usual unit is taken.\n\
         Why it matters: it may be the one row that is in meters.\n\
         Example: 180 with a blank DEPTH_UOM.\n\
         How to fix it: write the unit.";
    TWO_READINGS = "C131" "two-readings" Error,
        "A measured value is one number with one meaning.",
        "What it finds: two numbers where one is wanted, or one that can be read in two ways.\n\
         Why it matters: the first is not always the one that counts; the amount could be wrong by a factor.\n\
         Example: 6 in, then 4 in, without a depth; 180 ft or 300; 8-11 in a column of feet; a level of +3.\n\
         How to fix it: write the one that counts; for casings how deep each reaches, as in 8 in to 60 ft, 6 in below.";
    BOUND_FOR_SIZE = "C132" "bound-for-size" Error,
        "A depth, a level, a diameter, a height or a volume is a number, not a bound.",
        "What it finds: a size of the well written as more than or less than a number.\n\
         Why it matters: the true value lies beyond it, and so does the amount, by an unknown margin.\n\
         Example: >300 ft, 180+, over 100.\n\
         How to fix it: measure it, or leave the cell blank and let it be assumed.";
    NOT_AT_REST = "C133" "not-at-rest" Error,
        "A water level is measured with the pump off and the well at rest.",
        "What it finds: a level while the pump runs, or a well that is said to be dry.\n\
         Why it matters: when the pump stops the water rises, and there is more to treat; a dry well has none.\n\
         Example: pumping 85; dry.\n\
         How to fix it: write the level at rest; leave a dry well out.";
    OPEN_COLUMN_FILLED = "C150" "open-column-filled" Warning,
        "A value that affects the dose is read only from a column whose meaning is clear.",
        "What it finds: a cell of a column that may be a depth, a level, a diameter or the like, and was not read because its heading is not clear.\n\
         Why it matters: what it says may change the water of this well.\n\
         Example: a second diameter for the lower rings of a dug well.\n\
         How to fix it: map the column in [inventory.columns] to what it is, or leave it out with \"\".";
    CELL_TOO_LONG = "C140" "cell-too-long" Error,
        "A cell has no more characters than a spreadsheet's cell can hold, 32,767.",
        "What it finds: a cell, or a row, that is too long to be one of a list; it is left out, and the row is held back.\n\
         Why it matters: rows may have run together, and a few such cells would fill the memory.\n\
         Example: a quotation mark that opens a cell and closes a hundred rows below.\n\
         How to fix it: shorten the cell.";
    OWN_UNIT = "C152" "own-unit" Note,
        "A unit that is the list's own is read as its note defines it.",
        "What it finds: a size in a unit whose length a note of the list gives.\n\
         Why it matters: the amount of water rests on it.\n\
         Example: 8 rings, where each ring is 3 ft: 24 ft.\n\
         How to fix it: no action needed if correct; otherwise write the size in a usual unit.";
    DESCRIPTION_UNCLEAR = "C151" "description-unclear" Error,
        "Each number of a description stands beside a word that says what it is of.",
        "What it finds: a number in the description of a whole well that could be another depth, level or width; the row is held back.\n\
         Why it matters: it may be the measure that the dose rests on.\n\
         Example: \"6in drilled, 140 deep, water at 31, 85\".\n\
         How to fix it: write what the number is, as in \"pump at 85\", or take it out.";
}
