//! Findings about files and sheets.

use super::{Code, Entry};
use crate::finding::Severity;

catalogue! {
    EMPTY_FILE = "F101" "empty-file" Error,
        "A list has a heading row and rows below it.",
        "What it finds: a file or workbook without any rows; nothing is planned, and an output folder is left as it was.\n\
         Why it matters: its wells, if it had any, would be missing from the orders.\n\
         Example: an export that was interrupted.\n\
         How to fix it: export it again, or leave the file out of the command.";
    NO_KNOWN_HEADING = "F102" "no-known-heading" Error,
        "At least one heading of a list names a field.",
        "What it finds: a table none of whose headings is known.\n\
         Why it matters: no value can be read, so every row is held back.\n\
         Example: a list in another language, or one whose headings were lost.\n\
         How to fix it: map the headings in the scenario file under [inventory.columns]; `aftercrest columns` lists what is known.";
    SHEET_SKIPPED = "F103" "sheet-skipped" Note,
        "Every visible sheet with a heading row is read.",
        "What it finds: a sheet of a workbook that was not read: it is hidden, or no row of it looks like headings.\n\
         Why it matters: wells on it would be missing from the plan.\n\
         Example: a sheet \"Notes\" with a few lines of text.\n\
         How to fix it: no action needed if it holds no wells; else give it headings, or show the sheet.";
    ROWS_ABOVE_HEADING = "F104" "rows-above-heading" Note,
        "The heading is the row with the most known headings among the first forty.",
        "What it finds: rows above the heading, such as a title.\n\
         Why it matters: they are left out.\n\
         Example: \"County well register, spring 2024\" in the first row.\n\
         How to fix it: no action needed if those rows are a title.";
    NOT_UTF_8 = "F105" "not-utf-8" Note,
        "Text files are UTF-8.",
        "What it finds: a text file whose bytes are not UTF-8; it is read as Windows-1252, the usual encoding of older Western exports.\n\
         Why it matters: letters with accents could be wrong, also in ids.\n\
         Example: \"Muñoz\" saved by an old spreadsheet program.\n\
         How to fix it: compare a name with an accent against the original; save as UTF-8 if it is wrong.";
    UTF_16 = "F106" "utf-16" Note,
        "Text files are UTF-8.",
        "What it finds: a text file in UTF-16, as some programs write \"Unicode text\".\n\
         Why it matters: the file is read; this is only for information.\n\
         Example: \"Unicode text\" from a spreadsheet program.\n\
         How to fix it: no action needed.";
    ROW_TOO_LONG = "F107" "row-too-long" Warning,
        "A row has no more cells than there are headings.",
        "What it finds: a row with filled cells beyond the last heading.\n\
         Why it matters: a cell that holds the delimiter was probably cut in two, and everything right of it stands under the wrong heading.\n\
         Example: Farm, Domestic without quotation marks in a file with commas.\n\
         How to fix it: put cells that hold the delimiter in quotation marks.";
    ROW_TOO_SHORT = "F108" "row-too-short" Warning,
        "A row has a cell under every heading that is read.",
        "What it finds: a row that ends before the last column that is read.\n\
         Why it matters: the missing cells are read as blank.\n\
         Example: a line cut off in an e-mail.\n\
         How to fix it: complete the row.";
    UNCLOSED_QUOTE = "F109" "unclosed-quote" Warning,
        "A quotation mark that opens a cell closes it.",
        "What it finds: a cell that begins with a quotation mark which is never closed; it is taken as an ordinary character.\n\
         Why it matters: taken literally it would swallow the rows below.\n\
         Example: \"Old Mill, W7, drilled\n\
         How to fix it: take the mark out, or double it and close the cell.";
    FOREIGN_BYTES = "F110" "foreign-bytes" Warning,
        "One text file has one encoding.",
        "What it finds: a row with bytes that are not UTF-8 in a file that otherwise is; the row is read as Windows-1252.\n\
         Why it matters: letters with accents could be wrong.\n\
         Example: two exports pasted together.\n\
         How to fix it: save the file as UTF-8.";
    SAME_FILE_TWICE = "F111" "same-file-twice" Warning,
        "Each file is named once.",
        "What it finds: a file that is named twice in one command, perhaps once through its folder.\n\
         Why it matters: its wells come twice; the second time they are repeated visits.\n\
         Example: aftercrest check lists lists/north.csv\n\
         How to fix it: name it once.";
    DECIMAL_COMMAS = "F112" "decimal-commas" Note,
        "Numbers are written with a point for decimals.",
        "What it finds: a list cut by semicolons whose numbers have commas and no points: the commas are read as decimal marks.\n\
         Why it matters: read as thousands separators they would make every such number a thousand times larger.\n\
         Example: W1;drilled;54,9\n\
         How to fix it: no action needed if correct.";
    INTERVAL_TABLE = "F113" "interval-table" Note,
        "A table of casing intervals has an id, a from, a to and a diameter.",
        "What it finds: a table that lists casing intervals, not wells; its rows are joined to the list by the id. Where the scenario file maps their bottom to total_depth, the deepest of a well is its depth if the list gives none.\n\
         Why it matters: the volume is summed by interval.\n\
         Example: well_id, casing_from_ft, casing_to_ft, diameter_inches.\n\
         How to fix it: no action needed if correct.";
    UNIT_ROW = "F114" "unit-row" Note,
        "Units stand in the headings.",
        "What it finds: a row below the headings that holds units and nothing else; they are read as those of the columns.\n\
         Why it matters: without them the units would be guessed.\n\
         Example: ft, ft, in under depth, water level, diameter.\n\
         How to fix it: no action needed if correct.";
    CORRECTION_UNMATCHED = "F115" "correction-unmatched" Warning,
        "A correction names a cell of a list that is read.",
        "What it finds: a row of the table of corrections whose cell is not there: another file or sheet, a row without a well, or a cell that another correction gives another value.\n\
         Why it matters: the plan uses the uncorrected value.\n\
         Example: a correction for wells.csv row 93 of a list with 80 rows.\n\
         How to fix it: correct file, sheet, row and column, or take the correction out.";
    CORRECTION_OUTDATED = "F116" "correction-outdated" Warning,
        "A correction says what was typed, and the cell still holds it.",
        "What it finds: a correction whose cell holds something else than when the correction was written.\n\
         Why it matters: rows may have moved, or someone corrected the list itself; the correction is not applied.\n\
         Example: the correction expects 57, the cell holds 75.\n\
         How to fix it: look at the cell again; take the correction out, or write what is typed now.";
    MERGED_CELLS = "F117" "merged-cells" Note,
        "Each row has its own cells.",
        "What it finds: cells of a workbook that are merged over several rows; their value counts for each of the rows.\n\
         Why it matters: without that only the first row would have it.\n\
         Example: one cell \"North\" beside ten wells.\n\
         How to fix it: no action needed if correct.";
    GROUPED_HEADINGS = "F118" "grouped-headings" Note,
        "Headings stand in one row.",
        "What it finds: names of groups in the row above the headings, such as Casing above Diameter and Depth; each heading \
         is read with its group before it.\n\
         Why it matters: without its group, the depth of the casing would be taken for that of the well.\n\
         Example: Casing above Depth (ft).\n\
         How to fix it: no action needed if correct.";
    INTERVALS_WITHOUT_WELL = "F119" "intervals-without-well" Warning,
        "Each id of a table of casing intervals stands in a list of wells.",
        "What it finds: casing intervals whose id does not match any well in the lists; reported once per table, with how many there are and the first of them.\n\
         Why it matters: where the two tables write ids differently, every well lacks its intervals.\n\
         Example: 00142 in the list, 142 in the table of casings.\n\
         How to fix it: no action needed if the list is part of the register; else write the ids alike.";
    EMPTY_SHEET = "F129" "empty-sheet" Warning,
        "A sheet with headings has rows below them.",
        "What it finds: a sheet of a workbook with headings and no rows, beside others that have some.\n\
         Why it matters: its wells, if it should have any, are not planned.\n\
         Example: a sheet for a township that was never filled in.\n\
         How to fix it: no action needed if it has no wells; else fill it in, or export the workbook again.";
    LIST_NOT_READ = "F130" "list-not-read" Warning,
        "Each [[list]] of the scenario file names a list that is read.",
        "What it finds: a [[list]] whose file, or whose sheet, is not among those that were read; what it says is not used.\n\
         Why it matters: the list it was meant for is read by the rules of all the others, perhaps in another unit.\n\
         Example: file = \"county-b.csv\" where the file is called County B.csv.\n\
         How to fix it: write the name as the file has it, or take the [[list]] out.";
    SHEET_WITHOUT_WELLS = "F133" "sheet-without-wells" Note,
        "A sheet beside the wells that names and measures none is no list of wells.",
        "What it finds: a short sheet of a workbook in which no column names a well or measures one, while another sheet has the wells; its rows are left out and counted as no wells.\n\
         Why it matters: each of its rows would be held back as a well without measures.\n\
         Example: a sheet Summary with townships and counts.\n\
         How to fix it: no action needed if correct; else say what its columns are in [inventory.columns].";
    TABLE_BELOW = "F132" "table-below" Note,
        "Tables that stand one below the other on a sheet are read one by one.",
        "What it finds: a row of other headings further down a sheet; the rows below it are read by these.\n\
         Why it matters: read by the headings at the top, every cell would be taken for something else.\n\
         Example: permits from row 4 on, and from row 60 on the calls of a hotline, with columns of their own.\n\
         How to fix it: no action needed if correct; else put each table on a sheet of its own.";
    CODE_LIST_READ = "F131" "code-list-read" Note,
        "A list of codes in the file says what its codes mean.",
        "What it finds: a list of codes on a sheet of its own, at the foot, above the table or beside it; the cells of the column are read as what their codes mean, and codes for \"not known\" are read as missing.\n\
         Why it matters: the types, routes and values of the whole column depend on it.\n\
         Example: D = drilled, H = hand dug, 999 = not measured.\n\
         How to fix it: no action needed if the list is right and belongs to that column.";
}
