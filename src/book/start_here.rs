//! The first sheet of a book: what to do, in which order, and how far each step is.

use super::form::sheet;
use super::lists::Understood;
use super::sheets::titled;
use crate::caution;
use crate::document::cell::{Cell, Role, Sheet};

/// The sheet.
pub(super) fn start(lists: &Understood) -> Sheet {
    let mut made = titled(sheet::START, "start here");
    made.note("Everything that the campaign states stands in this book. Bordered cells are yours to fill in; save, and plan it.");
    made.heads(["Step", "What to do", "Where", "How it stands"]);
    made.layout.filter_row = None;
    let status = |sheet: &str| {
        lists.status.iter().find(|(of, _)| of == sheet).map_or("", |(_, status)| status.as_str()).to_owned()
    };
    let steps: [(&str, &str); 11] = [
        ("Say how people of the campaign measure, and what it is called.", sheet::CAMPAIGN),
        (
            "Look at what each column was read as; say otherwise in the columns Read as and Unit where it is wrong or open.",
            sheet::COLUMNS,
        ),
        ("Say what the words mean that were not understood.", sheet::WORDS),
        ("Say which name counts where two depots or regions look alike.", sheet::NAMES),
        ("Write right values for cells that are wrong; the lists themselves stay as they are.", sheet::REPAIRS),
        ("Look at what is done at every well: target, contact time, discharge.", sheet::PRACTICE),
        ("Read the labels of your products; fill in sizes and prices.", sheet::PACKAGES),
        ("Name the scenarios that you want side by side.", sheet::SCENARIOS),
        ("Say what to assume where the lists say nothing.", sheet::MISSING),
        ("Say what the depots have already.", sheet::STOCK),
        ("Say which crews go out, if the plan is to give each visit a crew and a day.", sheet::CREWS),
    ];
    for (number, (what, sheet)) in steps.iter().enumerate() {
        let state = status(sheet);
        let open = state.contains("open") || state.contains("must");
        let cell = Cell::text(state).with_role(if open { Role::Flagged } else { Role::Body });
        made.push(vec![Cell::count(number as u64 + 1), Cell::text(*what), Cell::text(*sheet), cell]);
    }
    made.gap();
    for line in [
        "Then plan it: aftercrest plan BOOK --out FOLDER, or hand the book to the program without a word. What it cannot follow it \
         names with sheet and cell, all at once.",
        "When the lists change: aftercrest start BOOK --update finds what is new and keeps every answer.",
    ] {
        made.note(line);
    }
    made.gap();
    for text in caution::in_short() {
        made.wide(text, Role::Caution);
    }
    made.layout.widths = vec![7.0, 70.0, 24.0, 60.0];
    made
}
