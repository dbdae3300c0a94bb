//! The sheets of the book that hold what is stated, and the parameter that each of their cells is.

use crate::parameter::{
    BUY, CAMPAIGN, CREW, GRID, INVENTORY, Kind, LIST, OVERRIDE, PRACTICE, PRODUCT, Parameter, SCENARIO, STOCK, SUPPLY,
    Vocabulary,
};

/// Names of the sheets, in their order.
pub(super) mod sheet {
    pub const START: &str = "Start here";
    pub const LISTS: &str = "Lists";
    pub const COLUMNS: &str = "Columns";
    pub const WORDS: &str = "Words";
    pub const NAMES: &str = "Names";
    pub const REPAIRS: &str = "Repairs";
    pub const CAMPAIGN: &str = "Campaign";
    pub const PRACTICE: &str = "Practice";
    pub const PRODUCTS: &str = "Products";
    pub const PACKAGES: &str = "Packages and prices";
    pub const STOCK: &str = "Stock";
    pub const SCENARIOS: &str = "Scenarios";
    pub const COMBINATIONS: &str = "Combinations";
    pub const EXCEPTIONS: &str = "Exceptions";
    pub const MISSING: &str = "Missing";
    pub const SUPPLIES: &str = "Supplies";
    pub const COUNTS: &str = "Counts";
    pub const CREWS: &str = "Crews";
    pub const WELLS: &str = "Wells";
    pub const CHOICES: &str = "Choices";
}

/// One value of the campaign: where it stands in the tree, and what it is called on its sheet.
#[derive(Debug, Clone)]
pub(super) struct Slot {
    /// Keys from the table down.
    pub path: Vec<&'static str>,
    /// What it is called.
    pub title: String,
    pub parameter: &'static Parameter,
}

/// Every value of a table that a cell can hold, tables within it laid flat.
pub(super) fn slots(keys: &'static Vocabulary) -> Vec<Slot> {
    fn gather(keys: &'static Vocabulary, path: &[&'static str], within: &str, slots: &mut Vec<Slot>) {
        for parameter in keys.own {
            let mut path = path.to_vec();
            path.push(parameter.key);
            match parameter.kind {
                Kind::Names => {}
                Kind::Tables(_) if parameter.key == "packages" => {}
                Kind::Table(inner) | Kind::ChoiceOrTable(_, inner) => gather(inner, &path, parameter.title, slots),
                _ => {
                    let mut title = parameter.title.to_owned();
                    if slots.iter().any(|slot| slot.title == title) {
                        title = format!("{within}: {title}");
                    }
                    slots.push(Slot { path, title, parameter });
                }
            }
        }
    }
    let mut slots = Vec::new();
    gather(keys, &[], "", &mut slots);
    slots
}

/// A sheet with one value a row, of these tables of the file.
pub(super) const UPRIGHT: [(&str, &[(&str, &Vocabulary)]); 2] = [
    (sheet::CAMPAIGN, &[("campaign", &CAMPAIGN), ("inventory", &INVENTORY)]),
    (sheet::PRACTICE, &[("practice", &PRACTICE)]),
];

/// A sheet with one table of the file a row.
pub(super) struct RowForm {
    pub sheet: &'static str,
    pub key: &'static str,
    pub keys: &'static Vocabulary,
    /// Settings of the practice that have columns of their own; others are named in pairs of columns.
    pub settings: Option<&'static str>,
    /// Rows that can be filled in with drop-downs.
    pub notes: &'static [&'static str],
}

/// The sheets with one table a row, but for those that are made of several tables.
pub(super) static ROWS: [RowForm; 7] = [
    RowForm {
        sheet: sheet::PRODUCTS,
        key: "product",
        keys: &PRODUCT,
        settings: None,
        notes: &[
            "Read your own label: the same percent means different strengths on different bases. A product of a built-in name \
             counts in its place.",
            "A storage history: [{ days = 20, at = \"30 C\" }, { at = \"15 C\" }].",
        ],
    },
    RowForm {
        sheet: sheet::STOCK,
        key: "stock",
        keys: &STOCK,
        settings: None,
        notes: &[
            "What is there already, and what is ordered, with its unit: 10 gal, 25 lb; a row for each age. Product loses strength: give its \
             age and the temperature it was stored at, or what a test of it found. Left blank, it counts as strong as the scenario's \
             product.",
        ],
    },
    RowForm {
        sheet: sheet::SCENARIOS,
        key: "scenario",
        keys: &SCENARIO,
        settings: Some(""),
        notes: &[
            "Each is a product and what differs from the sheet Practice. Name a setting as it stands there, and its value beside \
             it.",
        ],
    },
    RowForm {
        sheet: sheet::EXCEPTIONS,
        key: "override",
        keys: &OVERRIDE,
        settings: Some("set"),
        notes: &[
            "Wells that are treated otherwise, or left out. Say which: by their names, type, depot, region or whether they were flooded; \
             several names with semicolons between; what stands in several columns must hold together.",
            "Example: Type of well dug, Flooded yes, Target 200. Or: Depot Mill Lane, Leave out yes, Reason road closed. Where two \
             lines hold for a well, the lower one wins.",
            "Other condition is for what these columns cannot say, in the form total_depth_ft > 200 AND users >= 25; the columns command \
             lists the names.",
        ],
    },
    RowForm {
        sheet: sheet::SUPPLIES,
        key: "supply",
        keys: &SUPPLY,
        settings: None,
        notes: &["What goes with each visit."],
    },
    RowForm {
        sheet: sheet::COUNTS,
        key: "buy",
        keys: &BUY,
        settings: None,
        notes: &[
            "Leave it empty: the plan buys the packages that cover each need at least cost. Fill it in only where you want other \
             counts for an item of a depot.",
        ],
    },
    RowForm {
        sheet: sheet::CREWS,
        key: "crew",
        keys: &CREW,
        settings: None,
        notes: &[
            "Who goes out. With crews the plan gives each visit its crew and day, crew sheets and load lists come by crew and day, and \
             what has no day is counted. Without crews all of it is by depot.",
        ],
    },
];

/// The slots of a row form: without the table of settings, which has columns of its own.
pub(super) fn row_slots(form: &RowForm) -> Vec<Slot> {
    // A condition has columns of its own as well.
    let is_own = |slot: &Slot| slot.path.first() != Some(&"set") && slot.path.first() != Some(&"where");
    slots(form.keys).into_iter().filter(is_own).collect()
}

/// Settings that have columns of their own where settings may stand.
pub(super) const OWN_COLUMNS: [&str; 3] = ["target_mg_per_l", "hold_hours", "repeat_share"];

/// The setting with this title, or with this key.
pub(super) fn setting_titled(written: &str) -> Option<Slot> {
    let fold = |text: &str| text.trim().to_lowercase();
    let wanted = fold(written);
    slots(&PRACTICE).into_iter().find(|slot| fold(&slot.title) == wanted || slot.path.join(".") == wanted)
}

/// What `[[list]]` says beside columns and words.
pub(super) fn list_parameter(key: &str) -> Option<&'static Parameter> {
    LIST.get(key)
}

/// A heading with its unit: `Age (days)`.
pub(super) fn heading(slot: &Slot) -> String {
    let unit = match slot.parameter.kind {
        Kind::Number { unit, .. } => unit,
        Kind::Share { .. } => "%",
        Kind::Quantity(_) | Kind::QuantityOrTables(..) => "with its unit",
        Kind::Date => "YYYY-MM-DD",
        _ => "",
    };
    if unit.is_empty() || slot.title.contains(unit) { slot.title.clone() } else { format!("{} ({unit})", slot.title) }
}

/// What a heading is found by: its words without the unit.
pub(super) fn folded(heading: &str) -> String {
    let heading = heading.rsplit_once(" (").filter(|(_, unit)| unit.ends_with(')')).map_or(heading, |(title, _)| title);
    heading.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

/// What an axis is called: as on the sheets of practice and scenarios, or by its key.
pub(super) fn axis_title(key: &str) -> String {
    GRID.get(key).map_or_else(|| key.to_owned(), |parameter| parameter.title.to_owned())
}

/// Meaning of a column that is left out of the fields.
pub(super) const fn form_not_read() -> &'static str {
    "(not a field)"
}

/// Headings of the sheet of columns; the last three are filled in.
pub(super) const COLUMN_HEADS: [&str; 13] = [
    "File",
    "Sheet",
    "Heading",
    "Cell 1",
    "Cell 2",
    "Cell 3",
    "Understood as",
    "In",
    "How sure",
    "Why",
    "Read as",
    "Unit",
    "Where blank",
];
/// Headings of the sheet of names; the sixth is filled in.
pub(super) const NAME_HEADS: [&str; 8] =
    ["File", "Sheet", "Field", "Name", "Looks like", "Keep", "What is said of it", "First at"];
/// Headings of the sheet of words; the last is filled in.
pub(super) const WORD_HEADS: [&str; 7] = ["File", "Sheet", "Field", "Word", "Rows", "First at", "Means"];
