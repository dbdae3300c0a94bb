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
    NOT_A_WELL = "I105" "not-a-well" Note,
        "A row that is no well to be treated is counted, and is neither planned nor held back.",
        "What it finds: rows of a list that are no wells: headings once more, names of sections, totals, remarks, legends, blank forms; \
         tanks, taps, intakes, ponds, test holes; wells that are sealed, filled, destroyed or replaced. Said once for each list.\n\
         Why it matters: planned as a well, a row of sums would be the largest of all; and a well that is taken for none gets no chlorine.\n\
         Example: Total wells 41 in the column of ids, with the average depth beside it.\n\
         How to mend it: nothing, if that is right; where a row is a well after all, correct the words that say otherwise.";
    CONFLICTING_VISIT = "I106" "conflicting-visit" Error,
        "One visit of one well has one depth, level and diameter.",
        "What it finds: a row whose id and visit were read before, perhaps in another file, with another depth, level or diameter; it is held back.\n\
         Why it matters: one of the two is wrong, or two wells have one id.\n\
         Example: well 1041: 63.4 and 35.36 m, then 35.3 and 63 m.\n\
         How to mend it: take the wrong one out; give two wells two ids; for visits set [inventory] repeats = \"separate_visits\" or \"latest\".";
}
