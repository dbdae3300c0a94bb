//! Findings about ids and visits.

use super::{Code, Entry};
use crate::finding::Severity;

catalogue! {
    NO_ID = "I101" "no-id" Error,
        "Every row has an id.",
        "What it finds: a row without an id in a list that has them.\n\
         Why it matters: no one could tell which well a result is for; often the row is a total or a remark.\n\
         Example: a last row \"Total\" with sums.\n\
         How to fix it: give it an id, or take the row out.";
    ID_FROM_PLACE = "I116" "id-from-place" Warning,
        "Every row has an id.",
        "What it finds: a row without an id in a list that has them, with a type of well, at least two of its measures and a name or an address; it is called by its file and row.\n\
         Why it matters: an old well without a permit is drunk from like any other; but nobody can name it to the laboratory.\n\
         Example: a dug well in a list of permits, \"no permit, old well\".\n\
         How to fix it: give it an id, or take the row out if it is no well of its own.";
    REPEATED_VISIT = "I102" "repeated-visit" Error,
        "One visit of one well is one row.",
        "What it finds: a row whose id and visit were read before; it is held back.\n\
         Why it matters: planned twice, the well would be ordered for twice.\n\
         Example: well 1041 on two dates with nothing in the visit column.\n\
         How to fix it: take one out, number the visits, or set [inventory] repeats = \"separate_visits\".";
    NUMBERED_VISIT = "I103" "numbered-visit" Note,
        "One visit of one well is one row.",
        "What it finds: a row whose id and visit were read before, in a campaign that takes repeats as separate visits; it gets the next free number.\n\
         Why it matters: both rows are planned.\n\
         Example: the second row of well 1041 becomes visit 2.\n\
         How to fix it: no action needed if correct.";
    SUPERSEDED_VISIT = "I104" "superseded-visit" Error,
        "Only the latest visit of each well is planned, where the campaign says so.",
        "What it finds: a row of a well that has a later visit; it is held back.\n\
         Why it matters: [inventory] repeats = \"latest\" asks for it. Visits are compared as numbers, or as text such as 2024-06-08; of equal ones the later row counts.\n\
         Example: visit 1 of a well with a visit 2.\n\
         How to fix it: no action needed if only the latest is to be planned.";
    NOT_A_WELL = "I105" "not-a-well" Note,
        "A row that is not a well to be treated is counted, and is neither planned nor held back.",
        "What it finds: rows of a list that are not wells: headings once more, names of sections, totals, remarks, legends, blank forms; \
         tanks, taps, intakes, ponds, test holes; wells that are sealed, filled, destroyed or replaced. Said once for each list.\n\
         Why it matters: planned as a well, a row of sums would be the largest of all; and a well that is taken for something else gets no chlorine.\n\
         Example: Total wells 41 in the column of ids, with the average depth beside it.\n\
         How to fix it: no action needed if correct; where a row is a well after all, correct the words that say otherwise.";
    CONFLICTING_VISIT = "I106" "conflicting-visit" Error,
        "One visit of one well has one depth, level and diameter.",
        "What it finds: a row whose id and visit were read before, perhaps in another file, with another depth, level or diameter; it is held back.\n\
         Why it matters: one of the two is wrong, or two wells have one id.\n\
         Example: well 1041: 63.4 and 35.36 m, then 35.3 and 63 m.\n\
         How to fix it: take the wrong one out; give two wells two ids; for visits set [inventory] repeats = \"separate_visits\" or \"latest\".";
    PERHAPS_NO_WELL = "I107" "perhaps-not-a-well" Error,
        "A row that may not be a well, or a well that may no longer exist, is asked about.",
        "What it finds: words such as sealed, plugged or abandoned that may be said of the well or of a part of it; a tank or a tap in a row with the measures of a well; an entry that \
         points to a later one (\"see 24-006\").\n\
         Why it matters: chlorine for a well that is filled is wasted, and a well left out by mistake stays unsafe.\n\
         Example: maybe sealed.\n\
         How to fix it: write which it is: well sealed, or cap sealed.";
    NOT_IN_USE = "I108" "not-in-use" Warning,
        "A well that is not in use is planned like the others and reported.",
        "What it finds: a well that the list calls unused, inactive or an observation well; and a remark about another, older well.\n\
         Why it matters: people may go back to it after a flood; or no one drinks from it, and chlorine and a trip can be saved.\n\
         Example: inactive in the column of the state.\n\
         How to fix it: no action needed if it is to be treated; else an [[override]] with exclude = true and a reason.";
    OVERRULED = "I109" "overruled-by-remark" Warning,
        "Where a remark is clearly more recent than a cell, the remark is used.",
        "What it finds: remarks such as deepened to 240 ft, plugged back to 180, sanded in 5 ft, 4 in liner set, beside a depth, level or diameter that says otherwise.\n\
         Why it matters: the water that stands in the well is that of the well as it is now.\n\
         Example: depth 120 ft, deepened 1994 to 240 ft: 240 ft.\n\
         How to fix it: no action needed if correct; otherwise correct the cell or the remark.";
    REMARK_AGAINST_CELL = "I110" "remark-against-cell" Error,
        "Where a remark and a cell disagree and it is not clear which is right, the row is asked about.",
        "What it finds: a remark that gives another depth, level or diameter than the cell, and does not clearly say that it is the later one.\n\
         Why it matters: one of the two would be dosed wrongly.\n\
         Example: depth 240 ft, deepened to 200.\n\
         How to fix it: write the value as it is now into the cell, and say so in the remark.";
    ID_WITH_GROUP = "I111" "id-with-its-group" Note,
        "Where ids repeat from one system, township, section or sheet to the next, that is part of the id.",
        "What it finds: a list in which ids repeat, and never under the same system, township, road, section or sheet.\n\
         Why it matters: taken by the number alone, wells would be held back as repeated visits of one another.\n\
         Example: wells 1 to 9 of Pine Hollow and wells 1 to 7 of Oak Flat become Pine Hollow / 1 and Oak Flat / 1.\n\
         How to fix it: no action needed if correct.";
    FILLED_DOWN = "I112" "filled-down" Note,
        "Ditto marks, and names written once above the rows they hold for, count for each of these rows.",
        "What it finds: ditto marks (\", do., idem), and a column of townships or the like that is filled only where the name changes.\n\
         Why it matters: a blank depot or system would be another one.\n\
         Example: Pine Hollow in the first of nine rows.\n\
         How to fix it: no action needed if correct; otherwise fill in the cells.";
    REMARK_WITH_MEASURES = "I113" "remark-with-measures" Warning,
        "What a remark says of a well's measures counts, or is looked at.",
        "What it finds: a remark with a length beside a word of depth, water or casing, with two lengths, or about a pump that ran, of which nothing could be put to use.\n\
         Why it matters: the cells may be older than the remark, or of a part of the well only.\n\
         Example: card has 8 in to 60 ft, 6 in from 60 to 240.\n\
         How to fix it: no action needed if the cells are right; otherwise correct the cells, or write several diameters into the cell of the diameter.";
    PEOPLE_WITHOUT_WELL = "I114" "people-without-a-well" Warning,
        "Infants and patients in a row that is not a well are not forgotten.",
        "What it finds: a row that is counted as no well (a tank, a sealed well, a remark) and tells of an infant, a pregnant woman or a patient. \
         Said once for each list, with the rows.\n\
         Why it matters: such a row gets no visit and no card, and these people fall ill first.\n\
         Example: a cistern, and in its remarks: dialysis patient.\n\
         How to fix it: where the row is a well, correct the words that say otherwise; else find out where these people get their water.";
    UNITS_CHANGE_BELOW = "I115" "units-change-below" Warning,
        "What a row between the wells says of the units below it holds for the wells below it.",
        "What it finds: a row without a well that says feet and inches, or meters again, and wells below it without units in their cells.\n\
         Why it matters: feet read as meters are three times the water.\n\
         Example: a list in meters, and in row 49 \"old cards, feet and inches\".\n\
         How to fix it: no action needed if correct; otherwise write the unit into the cells below that row.";
    NAMES_FOLDED = "I130" "names-folded" Note,
        "A depot or a region is spelled the same way everywhere.",
        "What it finds: a depot or region whose name differs from another only in capitals, spaces, hyphens or other marks; \
         they are counted as one: under the spelling of the stock in the scenario file, else under that of most rows.\n\
         Why it matters: counted apart, each would be ordered for by itself, and the stock of one would be missed.\n\
         Example: Firehall 3, firehall 3 and Fire-hall 3.\n\
         How to fix it: no action needed if they are the same; else give one of them another name.";
    NAMES_NEARLY_ALIKE = "I131" "names-nearly-alike" Warning,
        "A depot or a region is spelled the same way everywhere.",
        "What it finds: two depots, or two regions, whose names are one letter apart; they are counted as two. Names that \
         differ in a figure are not asked about.\n\
         Why it matters: if it is a typing mistake, one depot gets two orders, each rounded up, and the stock counts for one of them.\n\
         Example: Mill Lane and Mil Lane.\n\
         How to fix it: write both the same way, if they are one.";
}
