//! The first sheet of a book: what to do, in which order, and how far each step is.

use super::form::sheet;
use super::lists::Understood;
use super::sheets::titled;
use super::standing::{of_stated, open, open_points};
use crate::caution;
use crate::document::cell::{Cell, Role, Sheet};
use crate::scenario::stated::Table;

/// How the line begins that says which book this one goes on from.
pub(super) const REPLACES: &str = "This book replaces ";

pub(super) fn start(stated: &Table, lists: &Understood, replaces: Option<&str>) -> Sheet {
    let mut made = titled(sheet::START, "start here");
    made.note("Everything that the campaign states stands in this book. Bordered cells are yours to fill in; save, and plan it.");
    if let Some(older) = replaces {
        made.wide(
            format!("{REPLACES}{older}: go on here. What is filled in in the older one from now on stands in no plan of this one."),
            Role::Flagged,
        );
    }
    let own = of_stated(stated);
    made.note(
        match open_points(stated, lists) {
            0 => "Nothing is open.".to_owned(),
            1 => "1 point is open.".to_owned(),
            several => format!("{several} points are open."),
        } + " Counted when the book was written: bring it up to date to count again.",
    );
    made.heads(["Step", "What to do", "Where", "How it stands"]);
    made.layout.filter_row = None;
    let status = |sheet: &str| -> String {
        let of_lists = lists.status.iter().find(|(of, _)| of == sheet).map(|(_, status)| status.clone());
        of_lists
            .or_else(|| own.iter().find(|(of, _)| *of == sheet).map(|(_, status)| status.clone()))
            .unwrap_or_default()
    };
    let steps: [(&str, &str); 12] = [
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
        (
            "Say which wells are treated otherwise, or left out: those that the flood did not reach, if they are not to be treated.",
            sheet::EXCEPTIONS,
        ),
        ("Say what to assume where the lists say nothing.", sheet::MISSING),
        ("Say what the depots have already.", sheet::STOCK),
        ("Say which crews go out, if the plan is to give each visit a crew and a day.", sheet::CREWS),
    ];
    for (number, (what, sheet)) in steps.iter().enumerate() {
        let state = status(sheet);
        let open = open(&state).is_some();
        made.layout.links.push((made.rows.len() as u32, 2, sheet));
        let cell = Cell::text(state).with_role(if open { Role::Flagged } else { Role::Body });
        made.push(vec![Cell::count(number as u64 + 1), Cell::text(*what), Cell::text(*sheet), cell]);
    }
    made.gap();
    for line in [
        "Then save it and plan it: drop the book on the program, or type aftercrest plan BOOK --out FOLDER. What it cannot follow \
         it names with sheet and cell, all at once.",
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
