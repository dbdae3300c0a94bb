//! Findings about ids and visits.

use super::{Code, Entry};
use crate::finding::Severity;

catalogue! {
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
    SUPERSEDED_VISIT = "I104" "superseded-visit" Error,
        "Only the latest visit of each well is planned, where the campaign says so.",
        "What it finds: a row of a well that has a later visit; it is held back.\n\
         Why it matters: [inventory] repeats = \"latest\" asks for it. Visits are compared as numbers, or as text such as 2024-06-08; of equal ones the later row counts.\n\
         Example: visit 1 of a well with a visit 2.\n\
         How to mend it: nothing, if only the latest is to be planned.";
    NOT_A_WELL = "I105" "not-a-well" Error,
        "Every row below the headings is a well.",
        "What it finds: a row that repeats the headings, or whose id is a word such as total.\n\
         Why it matters: planned as a well, a row of sums would be the largest of all.\n\
         Example: Total in the column of ids.\n\
         How to mend it: take the row out of the list.";
    CONFLICTING_VISIT = "I106" "conflicting-visit" Error,
        "One visit of one well has one depth, level and diameter.",
        "What it finds: a row whose id and visit were read before, perhaps in another file, with another depth, level or diameter; it is held back.\n\
         Why it matters: one of the two is wrong, or two wells have one id.\n\
         Example: well 1041: 63.4 and 35.36 m, then 35.3 and 63 m.\n\
         How to mend it: take the wrong one out; give two wells two ids; for visits set [inventory] repeats = \"separate_visits\" or \"latest\".";
    NAMES_FOLDED = "I130" "names-folded" Note,
        "A depot or a region is spelled alike everywhere.",
        "What it finds: a depot or region whose name differs from another only in capitals, blanks, hyphens or other marks; \
         they are counted as one: under the spelling of the stock in the scenario file, else under that of most rows.\n\
         Why it matters: counted apart, each would be ordered for by itself, and the stock of one would be missed.\n\
         Example: Firehall 3, firehall 3 and Fire-hall 3.\n\
         How to mend it: nothing, if they are the same; else give one of them another name.";
    NAMES_NEARLY_ALIKE = "I131" "names-nearly-alike" Warning,
        "A depot or a region is spelled alike everywhere.",
        "What it finds: two depots, or two regions, whose names are one letter apart; they are counted as two. Names that \
         differ in a figure are not asked about.\n\
         Why it matters: if it is a slip, one depot gets two orders, each rounded up, and the stock counts for one of them.\n\
         Example: Mill Lane and Mil Lane.\n\
         How to mend it: write both alike, if they are one.";
}
