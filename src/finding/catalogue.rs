//! The catalogue of findings: each code once, with its name, severity, rule and user page.
//!
//! Codes are permanent: a retired one is never reused. The letter is the family (F file, H heading, C cell, I identity,
//! G geometry, W water, P plausibility, A assumption), never the severity. Names say the fault, as in "allow ...".

use super::Severity;

/// One entry of the catalogue.
#[derive(Debug)]
pub struct Entry {
    /// Permanent code, such as `G203`.
    pub id: &'static str,
    /// The fault, in words joined by hyphens.
    pub name: &'static str,
    /// What it means for the row.
    pub severity: Severity,
    /// The rule, in one sentence.
    pub rule: &'static str,
    /// The user page: what it finds, why it matters, an example, how to mend it.
    pub page: &'static str,
}

/// A reference to an entry; compares by code.
#[derive(Debug, Clone, Copy)]
pub struct Code(&'static Entry);

impl Code {
    /// Permanent code.
    pub fn id(self) -> &'static str {
        self.0.id
    }
    /// The fault.
    pub fn name(self) -> &'static str {
        self.0.name
    }
    /// What it means for the row.
    pub fn severity(self) -> Severity {
        self.0.severity
    }
    /// The rule.
    pub fn rule(self) -> &'static str {
        self.0.rule
    }
    /// The user page.
    pub fn page(self) -> &'static str {
        self.0.page
    }
}

impl PartialEq for Code {
    fn eq(&self, other: &Self) -> bool {
        self.0.id == other.0.id
    }
}
impl Eq for Code {}

macro_rules! catalogue {
    ($($(#[$doc:meta])* $constant:ident = $id:literal $name:literal $severity:ident, $rule:literal, $page:literal;)*) => {
        $($(#[$doc])* #[doc = $rule] pub const $constant: Code = Code(&Entry {
            id: $id, name: $name, severity: Severity::$severity, rule: $rule, page: $page });)*
        /// Every entry, in order of code.
        pub static ALL: &[Code] = &[$($constant),*];
    };
}

/// The entry with this code or name.
pub fn find(word: &str) -> Option<Code> {
    ALL.iter().copied().find(|code| code.id().eq_ignore_ascii_case(word) || code.name() == word)
}

catalogue! {
    EMPTY_FILE = "F101" "empty-file" Warning,
        "A list has a heading row and rows below it.",
        "What it finds: a file or workbook without any rows.\n\
         Why it matters: its wells, if it had any, are not planned.\n\
         Example: an export that was interrupted.\n\
         How to mend it: export it again, or take the file out of the call.";
    NO_KNOWN_HEADING = "F102" "no-known-heading" Error,
        "At least one heading of a list names a field.",
        "What it finds: a table none of whose headings is known.\n\
         Why it matters: no value can be read, so every row is held back.\n\
         Example: a list in another language, or one whose headings were lost.\n\
         How to mend it: map the headings in the scenario file under [inventory.columns]; `aftercrest columns` lists what is known.";
    SHEET_SKIPPED = "F103" "sheet-skipped" Note,
        "Every visible sheet with a heading row is read.",
        "What it finds: a sheet of a workbook that was not read: it is hidden, or no row of it looks like headings.\n\
         Why it matters: wells on it would be missing from the plan.\n\
         Example: a sheet \"Notes\" with a few lines of text.\n\
         How to mend it: nothing, if it holds no wells; else give it headings, or show the sheet.";
    ROWS_ABOVE_HEADING = "F104" "rows-above-heading" Note,
        "The heading is the row with the most known headings among the first forty.",
        "What it finds: rows above the heading, such as a title.\n\
         Why it matters: they are left out.\n\
         Example: \"County well register, spring 2024\" in the first row.\n\
         How to mend it: nothing, if those rows are a title.";
    NOT_UTF_8 = "F105" "not-utf-8" Note,
        "Text files are UTF-8.",
        "What it finds: a text file whose bytes are not UTF-8; it is read as Windows-1252, the usual encoding of older Western exports.\n\
         Why it matters: letters with accents could be wrong, also in ids.\n\
         Example: \"Muñoz\" saved by an old spreadsheet program.\n\
         How to mend it: compare a name with an accent against the original; save as UTF-8 if it is wrong.";
    UTF_16 = "F106" "utf-16" Note,
        "Text files are UTF-8.",
        "What it finds: a text file in UTF-16, as some programs write \"Unicode text\".\n\
         Why it matters: it is read; this is only said.\n\
         Example: \"Unicode text\" from a spreadsheet program.\n\
         How to mend it: nothing.";
    ROW_TOO_LONG = "F107" "row-too-long" Warning,
        "A row has no more cells than there are headings.",
        "What it finds: a row with filled cells beyond the last heading.\n\
         Why it matters: a cell that holds the delimiter was probably cut in two, and everything right of it stands under the wrong heading.\n\
         Example: Farm, Domestic without quotation marks in a file with commas.\n\
         How to mend it: put cells that hold the delimiter in quotation marks.";
    ROW_TOO_SHORT = "F108" "row-too-short" Warning,
        "A row has a cell under every heading that is read.",
        "What it finds: a row that ends before the last column that is read.\n\
         Why it matters: the missing cells are read as blank.\n\
         Example: a line cut off in an e-mail.\n\
         How to mend it: complete the row.";
    UNCLOSED_QUOTE = "F109" "unclosed-quote" Warning,
        "A quotation mark that opens a cell closes it.",
        "What it finds: a cell that begins with a quotation mark which is never closed; it is taken as an ordinary character.\n\
         Why it matters: taken literally it would swallow the rows below.\n\
         Example: \"Old Mill, W7, drilled\n\
         How to mend it: take the mark out, or double it and close the cell.";
    FOREIGN_BYTES = "F110" "foreign-bytes" Warning,
        "One text file has one encoding.",
        "What it finds: a row with bytes that are not UTF-8 in a file that otherwise is; the row is read as Windows-1252.\n\
         Why it matters: letters with accents could be wrong.\n\
         Example: two exports pasted together.\n\
         How to mend it: save the file as UTF-8.";
    SAME_FILE_TWICE = "F111" "same-file-twice" Warning,
        "Each file is named once.",
        "What it finds: a file that is named twice in one call, perhaps once through its folder.\n\
         Why it matters: its wells come twice; the second time they are repeated visits.\n\
         Example: aftercrest check lists lists/north.csv\n\
         How to mend it: name it once.";
    DECIMAL_COMMAS = "F112" "decimal-commas" Note,
        "Numbers are written with a point for decimals.",
        "What it finds: a list cut by semicolons whose numbers have commas and no points: the commas are read as decimal marks.\n\
         Why it matters: read as thousands separators they would make every such number a thousand times greater.\n\
         Example: W1;drilled;54,9\n\
         How to mend it: nothing, if that is right.";
    INTERVAL_TABLE = "F113" "interval-table" Note,
        "A table of casing intervals has an id, a from, a to and a diameter.",
        "What it finds: a table that holds casing intervals and not wells; its rows are joined to the list by the id.\n\
         Why it matters: the volume is summed by interval.\n\
         Example: well_id, casing_from_ft, casing_to_ft, diameter_inches.\n\
         How to mend it: nothing, if that is right.";
    NO_ID_COLUMN = "H101" "no-id-column" Warning,
        "A list has a column with the wells' ids.",
        "What it finds: a table without ids; each well is named by its file and row.\n\
         Why it matters: a crew cannot find the well by such a name, and a well listed twice is not noticed.\n\
         Example: a survey with coordinates only.\n\
         How to mend it: map the column that names the wells: [inventory.columns] \"heading\" = \"well_id\".";
    TWO_COLUMNS_FOR_ONE_FIELD = "H102" "two-columns-for-one-field" Warning,
        "One column feeds one field.",
        "What it finds: two headings that both name a field; the better name is read, the other is carried along.\n\
         Why it matters: the other column may be the one you mean.\n\
         Example: \"well_depth\" and \"hole_depth\" in one table.\n\
         How to mend it: map the right one: [inventory.columns] \"hole_depth\" = \"total_depth\".";
    NEAR_MISS = "H103" "near-miss" Warning,
        "A heading is spelled as in `aftercrest columns`.",
        "What it finds: a heading that is nearly one that is known; it is not read.\n\
         Why it matters: the field would be missing for the whole list.\n\
         Example: \"cassing diameter\".\n\
         How to mend it: correct the spelling, or map it in [inventory.columns].";
    IN_READ_AS_INCHES = "H104" "in-read-as-inches" Warning,
        "A unit in a heading is unmistakable.",
        "What it finds: a heading that ends in \"_in\" in a table where no other heading ends in a unit such as \"_ft\": it is read as inches.\n\
         Why it matters: in some registers DIAMETER_IN is the inner diameter, in whatever unit.\n\
         Example: DIAMETER_IN.\n\
         How to mend it: [inventory.units] casing_diameter = \"in\" settles it.";
    AMBIGUOUS_IN = "H105" "ambiguous-in" Error,
        "A unit in a heading is unmistakable.",
        "What it finds: a heading that ends in \"_in\" beside one that ends in \"_out\", or in a metric campaign: it is not read.\n\
         Why it matters: inner and outer are meant, and no unit is given.\n\
         Example: DIAMETER_IN and DIAMETER_OUT.\n\
         How to mend it: [inventory.units] casing_diameter = \"in\", \"mm\" or whatever it is.";
    AMBIGUOUS_WATER_DEPTH = "H106" "ambiguous-water-depth" Error,
        "A heading says whether a water depth is measured from the ground or from the bottom.",
        "What it finds: a heading such as \"water depth\", which people use for the depth to the water and for the height of the water; it is not read.\n\
         Why it matters: the two differ by the whole column, and so does the amount of chlorine.\n\
         Example: water_depth_m.\n\
         How to mend it: map it to static_water_level or to water_column in [inventory.columns].";
    UNIT_FROM_CAMPAIGN = "H107" "unit-from-campaign" Warning,
        "A measured column carries its unit.",
        "What it finds: a column without a unit, read in the unit usual in the campaign's declared system.\n\
         Why it matters: feet read as metres make a dose 3.3 times too great.\n\
         Example: \"depth\" in a campaign with units = \"us\".\n\
         How to mend it: write the unit in the heading, or impose it: [inventory.units] total_depth = \"ft\".";
    NO_UNIT = "H108" "no-unit" Error,
        "A measured value has a unit, in the cell, the heading, a column beside it, or the scenario file.",
        "What it finds: a column, and its values, for which nobody has said the unit.\n\
         Why it matters: feet and metres differ by 3.3, US and imperial gallons by 1.2; it is not guessed.\n\
         Example: \"depth\" with 120 below it, and no [campaign] units.\n\
         How to mend it: [inventory.units] total_depth = \"ft\", or [campaign] units = \"us\".";
    HEADING_UNIT_UNKNOWN = "H109" "heading-unit-unknown" Error,
        "The unit in a heading is one that is known.",
        "What it finds: a heading with something in brackets that is not a known unit; the column is not read.\n\
         Why it matters: the values could be anything.\n\
         Example: \"depth (fathoms)\".\n\
         How to mend it: correct the unit, or impose one in [inventory.units].";
    HEADING_UNIT_OF_OTHER_DIMENSION = "H110" "heading-unit-of-other-dimension" Error,
        "The unit in a heading fits the field.",
        "What it finds: a heading whose unit measures something else; the column is not read.\n\
         Why it matters: the heading or the unit is wrong, and with it every value.\n\
         Example: \"depth (gpm)\".\n\
         How to mend it: correct the heading, or map the column to the field it really is.";
    HEADING_GALLON_UNDECLARED = "H111" "heading-gallon-undeclared" Error,
        "A gallon is a US or an imperial gallon, by declaration.",
        "What it finds: a heading with gal, gpm or the like, and no declaration which gallon.\n\
         Why it matters: the imperial gallon is a fifth greater; Ontario's registers use it, British Columbia's do not.\n\
         Example: \"yield (gpm)\".\n\
         How to mend it: [campaign] units = \"us\" or \"imperial\", or write US gpm or imp gpm.";
    UNIT_CONTRADICTED = "H112" "unit-contradicted" Warning,
        "Heading and scenario file name the same unit.",
        "What it finds: a column whose heading says one unit and [inventory.units] another; the heading counts.\n\
         Why it matters: one of the two is wrong.\n\
         Example: \"depth (m)\" with total_depth = \"ft\".\n\
         How to mend it: correct the heading, or take the line out of the scenario file.";
    MAPPING_WITHOUT_COLUMN = "H113" "mapping-without-column" Warning,
        "Every heading mapped in the scenario file exists.",
        "What it finds: a line of [inventory.columns] whose heading no table has.\n\
         Why it matters: the field it should feed stays empty.\n\
         Example: \"Depht\" = \"total_depth\" for a column called Depth.\n\
         How to mend it: copy the heading from the file as it stands there.";
    BLANK_HEADING = "H114" "blank-heading" Note,
        "Every column with cells has a heading.",
        "What it finds: a column with cells and no heading; it is carried along under its number.\n\
         Why it matters: it could be a field.\n\
         Example: a remark typed beside the table.\n\
         How to mend it: give it a heading.";
    ELEVATION_FOR_DEPTH = "H115" "elevation-for-depth" Error,
        "A depth is measured from the ground.",
        "What it finds: a column of elevations above sea level where a depth is wanted; it is not read.\n\
         Why it matters: an elevation is not a depth, and grows when the water rises.\n\
         Example: \"static water level (m amsl)\".\n\
         How to mend it: give the depth from the ground.";
    LEVEL_FROM_TOP_OF_CASING = "H116" "level-from-top-of-casing" Note,
        "A water level is measured from the ground.",
        "What it finds: a water level measured from the top of the casing; it is read as if from the ground.\n\
         Why it matters: the casing stands a little above the ground, so that the water column comes out a little short: by the stick-up, usually 0.3 to 0.6 m.\n\
         Example: static_water_level_ft-btoc.\n\
         How to mend it: nothing, or take the stick-up off the values.";
    NUMBER_NOT_UNDERSTOOD = "C101" "number-not-understood" Error,
        "A measured value is a number with at most a unit and a remark.",
        "What it finds: a cell that holds no number, or more than one can understand.\n\
         Why it matters: the well cannot be computed.\n\
         Example: Drilling diameter is 200.\n\
         How to mend it: write it as in \"120 ft\", or leave the cell blank.";
    ASIDE_NOT_UNDERSTOOD = "C102" "aside-not-understood" Warning,
        "Coordinates and counts are numbers.",
        "What it finds: a coordinate or a number of users that cannot be read; it is left blank.\n\
         Why it matters: it has no part in the dose; maps and counts miss it.\n\
         Example: \"about a dozen\" users.\n\
         How to mend it: write a number.";
    UNIT_OF_OTHER_DIMENSION = "C103" "unit-of-other-dimension" Error,
        "The unit in a cell fits the field.",
        "What it finds: a value with a unit of something else.\n\
         Why it matters: it probably stands in the wrong column.\n\
         Example: 120 gpm under depth.\n\
         How to mend it: move it to its column.";
    GALLON_UNDECLARED = "C104" "gallon-undeclared" Error,
        "A gallon is a US or an imperial gallon, by declaration.",
        "What it finds: a value in gallons, quarts, pints, fluid ounces or gpm, and no declaration which.\n\
         Why it matters: the imperial gallon is a fifth greater.\n\
         Example: 50 gal.\n\
         How to mend it: [campaign] units = \"us\" or \"imperial\", or write US gal or imp gal.";
    UNKNOWN_WELL_TYPE = "C105" "unknown-well-type" Error,
        "The type is drilled, driven, bored, dug or spring_box, or a known word for one of them.",
        "What it finds: a type of well that is not known.\n\
         Why it matters: overrides and assumptions go by type, and so do cautions.\n\
         Example: ranney.\n\
         How to mend it: write one of the five; [inventory.fixed] does it for a whole list.";
    UNKNOWN_CHOICE = "C106" "unknown-choice" Warning,
        "A discharge route is land, storm_drain, stream, sanitary_sewer, septic or hauled, or a known word for one.",
        "What it finds: a discharge route that is not known; it is left blank, and neutralizer is planned to be safe.\n\
         Why it matters: more neutralizer is ordered than may be needed.\n\
         Example: behind the barn.\n\
         How to mend it: write one of the six.";
    FLAG_NOT_UNDERSTOOD = "C107" "flag-not-understood" Warning,
        "A flag is yes or no.",
        "What it finds: a cell that is neither yes nor no; it is left blank.\n\
         Why it matters: conditions on it do not hold for this well.\n\
         Example: partly.\n\
         How to mend it: write yes or no.";
    SENTINEL = "C108" "sentinel" Note,
        "A value that is not known is left blank.",
        "What it finds: a number that stands for \"not known\", such as -999 or -9999; it is read as missing.\n\
         Why it matters: taken as a value it would be absurd.\n\
         Example: -9999.\n\
         How to mend it: leave the cell blank.";
    ZERO_FOR_MISSING = "C109" "zero-for-missing" Note,
        "A value that is not known is left blank.",
        "What it finds: a zero where zero cannot be; it is read as missing.\n\
         Why it matters: registers fill blank numbers with zero.\n\
         Example: a diameter of 0.\n\
         How to mend it: leave the cell blank, or write the value.";
    SPREADSHEET_ERROR = "C110" "spreadsheet-error" Warning,
        "A cell holds a value, not an error.",
        "What it finds: an error value of a spreadsheet such as #N/A or #DIV/0!; it is read as missing.\n\
         Why it matters: the value is lost, and with it perhaps the well.\n\
         Example: #REF! after a column was deleted.\n\
         How to mend it: mend the formula, or type the value.";
    DATE_FOR_NUMBER = "C111" "date-for-number" Error,
        "A measured value is not a date.",
        "What it finds: a date where a number is wanted.\n\
         Why it matters: spreadsheet programs turn 6-8 into the eighth of June without asking.\n\
         Example: 2024-06-08 under diameter.\n\
         How to mend it: format the cells as text and type the value again.";
    RANGE = "C112" "range" Warning,
        "A measured value is one number.",
        "What it finds: a range; its middle is used, and its ends go into low and high.\n\
         Why it matters: the amount depends on the square of the diameter.\n\
         Example: 6-8 in.\n\
         How to mend it: write one value if you know it.";
    BOUND = "C113" "bound" Warning,
        "A measured value is one number.",
        "What it finds: a value with \"more than\" or \"less than\"; the number itself is used.\n\
         Why it matters: the true value lies beyond it, and so does the amount.\n\
         Example: >300 ft.\n\
         How to mend it: write the value if you know it.";
    REMARK_AFTER_NUMBER = "C114" "remark-after-number" Note,
        "A cell holds a number and nothing else.",
        "What it finds: words beside a number; the number is used.\n\
         Why it matters: the words may say something that matters.\n\
         Example: 120 ft (reported).\n\
         How to mend it: nothing, if it was understood rightly.";
    AMBIGUOUS_COMMA = "C115" "ambiguous-comma" Warning,
        "A number is written without separators, with a point for decimals.",
        "What it finds: a comma before exactly three digits, which could separate thousands or decimals.\n\
         Why it matters: the two readings differ by a factor of a thousand.\n\
         Example: 1,234.\n\
         How to mend it: write 1234 or 1.234.";
    UNIT_DIFFERS_FROM_COLUMN = "C116" "unit-differs-from-column" Warning,
        "A column has one unit.",
        "What it finds: a cell with a unit of another system than its column; the cell counts.\n\
         Why it matters: one of the two may be a slip.\n\
         Example: 37 m in a column headed (ft).\n\
         How to mend it: nothing, if it is right.";
    CHOICE_FROM_PHRASE = "C117" "choice-from-phrase" Note,
        "A choice is one of the known words.",
        "What it finds: a phrase that holds exactly one of the known words.\n\
         Why it matters: it is read as that one.\n\
         Example: hand dug, brick lined: dug.\n\
         How to mend it: nothing, if it was understood rightly.";
    UNIT_BESIDE_UNKNOWN = "C118" "unit-beside-unknown" Error,
        "The unit in the column beside a value is one that is known.",
        "What it finds: a unit column whose cell is not a known unit.\n\
         Why it matters: the value could be anything.\n\
         Example: ells under DEPTH_UOM.\n\
         How to mend it: write ft, m, in, mm or the like.";
    PACKED_DEGREES = "C119" "packed-degrees" Note,
        "Coordinates are decimal degrees.",
        "What it finds: a coordinate written as degrees, minutes and seconds in one number; it is converted.\n\
         Why it matters: it has no part in the dose.\n\
         Example: 443053.32: 44 degrees, 30 minutes, 53.32 seconds.\n\
         How to mend it: nothing, if that is right.";
    UNIT_NOT_WRITTEN = "C120" "unit-not-written" Warning,
        "Every value of a column that writes its units cell by cell has one.",
        "What it finds: a number without a unit in a column where the others have theirs, in the cell or beside it; the campaign's usual unit is taken.\n\
         Why it matters: it may be the one row that is in metres.\n\
         Example: 180 with a blank DEPTH_UOM.\n\
         How to mend it: write the unit.";
    NO_ID = "I101" "no-id" Error,
        "Every row has an id.",
        "What it finds: a row without an id in a list that has them.\n\
         Why it matters: nobody could say which well a result is for; often the row is a total or a remark.\n\
         Example: a last row \"Total\" with sums.\n\
         How to mend it: give it an id, or take the row out.";
    REPEATED_VISIT = "I102" "repeated-visit" Error,
        "One visit of one well is one row.",
        "What it finds: a row whose id and visit were read before; it is held back.\n\
         Why it matters: planned twice, the well would be ordered for twice.\n\
         Example: well 1041 on two dates with nothing in the visit column.\n\
         How to mend it: take one out, number the visits, or set [inventory] repeats = \"separate_visits\".";
    NUMBERED_VISIT = "I103" "numbered-visit" Note,
        "One visit of one well is one row.",
        "What it finds: a row whose id and visit were read before, in a campaign that takes repeats as separate visits; it gets the next free number.\n\
         Why it matters: both rows are planned.\n\
         Example: the second row of well 1041 becomes visit 2.\n\
         How to mend it: nothing, if that is right.";
    IMPOSSIBLE = "G201" "impossible-dimension" Error,
        "Depths, diameters and volumes lie within what wells can be.",
        "What it finds: a dimension that no well can have.\n\
         Why it matters: usually the unit or the decimal point is wrong.\n\
         Example: a diameter of 93,958 in.\n\
         How to mend it: check value and unit.";
    WELL_TYPE_MISSING = "G202" "well-type-missing" Error,
        "Every well has a type.",
        "What it finds: a row without a type of well.\n\
         Why it matters: overrides, assumptions and cautions go by type.\n\
         Example: a list of boreholes without a type column.\n\
         How to mend it: [inventory.fixed] well_type = \"drilled\" does it for a whole list.";
    WATER_LEVEL_BELOW_BOTTOM = "G203" "water-level-below-bottom" Error,
        "The static water level must lie above the bottom of the well.",
        "What it finds: a water level deeper than the well itself.\n\
         Why it matters: there would be no water to treat; usually one of the two is in other units, or they are swapped.\n\
         Example: depth 42, water level 57.3.\n\
         How to mend it: check both units; if the two values are exchanged, exchange them back.";
    DEPTH_MISSING = "G204" "depth-missing" Error,
        "A well's depth is known or assumed.",
        "What it finds: a well without a depth, and without a height or volume of water.\n\
         Why it matters: the volume of water cannot be computed.\n\
         Example: a blank cell.\n\
         How to mend it: write it, or state an assumption for this type under [missing].";
    LEVEL_MISSING = "G205" "level-missing" Error,
        "A well's water level is known or assumed.",
        "What it finds: a well without a water level, and without a height or volume of water.\n\
         Why it matters: the volume of water cannot be computed.\n\
         Example: a blank cell.\n\
         How to mend it: write it, or state an assumption; water at the ground is the safe one after a flood.";
    DIAMETER_MISSING = "G206" "diameter-missing" Error,
        "A well's inside diameter is known or assumed.",
        "What it finds: a well without a diameter.\n\
         Why it matters: the volume goes with its square; dug wells, which take most, are the ones that lack it.\n\
         Example: a blank cell.\n\
         How to mend it: write it, or state an assumption for this type under [missing].";
    SPRING_BOX_VOLUME_MISSING = "G207" "spring-box-volume-missing" Error,
        "A spring box has a volume, or depth, level and diameter.",
        "What it finds: a spring box without a volume.\n\
         Why it matters: a box is not a cylinder in the ground; its volume must be given.\n\
         Example: a blank cell.\n\
         How to mend it: measure length, width and depth of the water, and write water_volume.";
    CASING_BELOW_BOTTOM = "G208" "casing-below-bottom" Warning,
        "The casing ends at or above the bottom.",
        "What it finds: a casing that reaches below the bottom of the well; it is counted to the bottom.\n\
         Why it matters: one of the two depths is wrong.\n\
         Example: depth 120 ft, casing 150 ft.\n\
         How to mend it: check both and their units.";
    OPEN_HOLE_WITHOUT_CASING_DEPTH = "G209" "open-hole-without-casing-depth" Warning,
        "An open hole begins where the casing ends.",
        "What it finds: a diameter of the open hole without the depth of the casing; the casing's diameter is used all the way.\n\
         Why it matters: the volume below the casing is not right.\n\
         Example: casing 6 in, open hole 5.5 in, casing depth blank.\n\
         How to mend it: write how deep the casing reaches.";
    OPEN_HOLE_WIDER = "G210" "open-hole-wider" Warning,
        "The open hole is no wider than the casing was set through.",
        "What it finds: an open hole more than half as wide again as the casing.\n\
         Why it matters: one of the diameters is wrong, or in other units.\n\
         Example: casing 6 in, open hole 12 in.\n\
         How to mend it: check both.";
    COLUMN_EXCEEDS_DEPTH = "G211" "column-exceeds-depth" Error,
        "The height of water is no more than the depth.",
        "What it finds: more water than well.\n\
         Why it matters: one of the two is wrong, or in other units.\n\
         Example: depth 30 m, height of water 90 m.\n\
         How to mend it: check both and their units.";
    COLUMN_CONTRADICTED = "G212" "column-contradicted" Warning,
        "Height of water is depth less water level.",
        "What it finds: a height of water that does not agree with depth and level; depth and level are used.\n\
         Why it matters: one of the three is wrong.\n\
         Example: depth 100, level 20, height 50.\n\
         How to mend it: correct the one that is wrong.";
    VOLUME_CONTRADICTED = "G213" "volume-contradicted" Warning,
        "A volume agrees with diameter and height within a factor of two.",
        "What it finds: a volume that is less than half or more than twice what diameter and height give; the volume is used.\n\
         Why it matters: the amount goes with it.\n\
         Example: 60 ft of water in 6 in, volume 9 gal.\n\
         How to mend it: check volume, diameter and their units.";
    FLOWING_WELL = "G214" "flowing-well" Note,
        "The water level lies below the ground.",
        "What it finds: a water level above the ground: a flowing well.\n\
         Why it matters: what is poured in comes out again; it must be shut in or capped while the chlorine works. The water is counted to the ground.\n\
         Example: static water level -2 ft.\n\
         How to mend it: nothing, if that is right.";
    CANNOT_EXIST = "G215" "cannot-exist" Error,
        "A well can exist.",
        "What it finds: a row that passed every check and still cannot be a well.\n\
         Why it matters: it is held back so that nothing wrong is computed.\n\
         Example: none is known; please report the row.\n\
         How to mend it: check depth, level, diameter and casing.";
    INTERVAL_UNUSABLE = "G216" "interval-unusable" Warning,
        "A casing interval has an id, a top, a bottom below it, and a diameter.",
        "What it finds: a casing interval that cannot be used: upside down, without diameter or bottom, or not understood; it is left out.\n\
         Why it matters: the volume of its stretch is taken from its neighbours.\n\
         Example: from 40 to 20.\n\
         How to mend it: correct the row of the interval table.";
    INTERVALS_INCOMPLETE = "G217" "intervals-incomplete" Note,
        "Casing intervals reach from the ground to the bottom.",
        "What it finds: casing intervals with a gap, or that do not reach the bottom; the diameter above is used there.\n\
         Why it matters: a rock well is open below its casing, with nearly the same diameter.\n\
         Example: casing to 60 ft in a well of 180 ft, and no open hole listed.\n\
         How to mend it: add the open hole as an interval.";
    INTERVALS_OVERLAP = "G218" "intervals-overlap" Note,
        "Casing strings overlap only one inside another.",
        "What it finds: overlapping casing intervals; the narrowest counts, because the water stands inside it.\n\
         Why it matters: added together they would count water twice.\n\
         Example: surface casing 0 to 20 ft of 10 in, casing 0 to 120 ft of 6 in.\n\
         How to mend it: nothing, if they are strings one inside another.";
    WATER_VALUE_IMPOSSIBLE = "W301" "water-value-impossible" Error,
        "Concentrations that use up chlorine lie within what water can hold.",
        "What it finds: iron, manganese, sulfide, ammonia, nitrite or organic carbon outside what is possible.\n\
         Why it matters: the dose goes with it; usually the unit is ug/L.\n\
         Example: iron 2500 mg/L.\n\
         How to mend it: check the unit.";
    ASIDE_IMPOSSIBLE = "W302" "aside-impossible" Warning,
        "pH, temperature, alkalinity, rates, coordinates and counts lie within what is possible.",
        "What it finds: such a value outside what is possible; it is left out.\n\
         Why it matters: the amount does not rest on it, but pH after dosing, hours of flushing or the map do.\n\
         Example: a temperature of 236 C.\n\
         How to mend it: check the value and its unit.";
    PUMP_EXCEEDS_YIELD = "W303" "pump-exceeds-yield" Note,
        "A pump gives about what the well yields.",
        "What it finds: a pump that gives more than three times the well's yield; flushing goes at the yield.\n\
         Why it matters: one of the two may be in other units.\n\
         Example: pump 40 gpm, yield 2 gpm.\n\
         How to mend it: check both rates and their units.";
    UNLIKELY = "P401" "unlikely" Warning,
        "Values lie within what is usual.",
        "What it finds: a value that is possible and unusual; it is used.\n\
         Why it matters: a slip of a unit or a decimal point often looks so.\n\
         Example: a well 1.2 m deep.\n\
         How to mend it: check the value and its unit.";
    DIAMETER_UNLIKELY_FOR_TYPE = "P402" "diameter-unlikely-for-type" Warning,
        "A diameter is usual for the type of well.",
        "What it finds: a diameter that is unusual for the type; it is used.\n\
         Why it matters: the volume goes with its square.\n\
         Example: a dug well of 4 in.\n\
         How to mend it: check the unit (inches or feet) and the type.";
    COORDINATES_MENDED = "P403" "coordinates-mended" Warning,
        "Coordinates lie in the campaign's box.",
        "What it finds: coordinates outside the box that lie inside it when a sign is changed or the two are exchanged; they are read so.\n\
         Why it matters: some registers store western longitudes and southern latitudes as positive numbers.\n\
         Example: 38.1, 81.2 in West Virginia.\n\
         How to mend it: correct the list.";
    OUTSIDE_BOX = "P404" "outside-box" Warning,
        "Coordinates lie in the campaign's box.",
        "What it finds: coordinates outside the campaign's box.\n\
         Why it matters: the well may belong to another campaign, or a digit is wrong.\n\
         Example: a well three states away.\n\
         How to mend it: check the coordinates, or the box.";
    NULL_ISLAND = "P405" "null-island" Note,
        "Coordinates that are not known are left blank.",
        "What it finds: coordinates 0, 0; they are left out.\n\
         Why it matters: they stand for \"not known\".\n\
         Example: 0, 0.\n\
         How to mend it: leave the cells blank.";
    ASSUMED = "A501" "assumed" Note,
        "What the list does not say is assumed only by a stated rule.",
        "What it finds: a value that was missing and is assumed by a line of [missing].\n\
         Why it matters: totals show what share rests on such values, with low and high.\n\
         Example: casing_diameter 6 in (5 to 8) for a drilled well.\n\
         How to mend it: measure it and write it in the list.";
    ASSUMPTION_LEAVES_NO_WATER = "A502" "assumption-leaves-no-water" Error,
        "An assumed depth or level leaves water in the well.",
        "What it finds: a well that would be dry with the value assumed for it.\n\
         Why it matters: an assumption that contradicts the list cannot be used.\n\
         Example: level 20 m assumed in a well 15 m deep.\n\
         How to mend it: measure it, or change [missing] for this type.";
}
