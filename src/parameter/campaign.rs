//! Keys of the campaign as a whole, of reading its lists, of exceptions, stock and supplies; and the tables of the file.

use super::product::{AXES, PACKAGES, PRODUCT, SCENARIO, STORAGE_LEG, SUPPLIER, TESTED_STRENGTH};
use super::{Kind, Measured, PRACTICE, Parameter, Vocabulary, Within, temperature};
use crate::kernel::agent::Agent;
use crate::quantity::unit::Dimension;

const SYSTEMS: fn() -> Vec<&'static str> = || vec!["us", "metric", "imperial"];

/// The tables of a scenario file.
pub static FILE: Vocabulary = Vocabulary::of(&[
    Parameter::table("campaign", "Campaign", &CAMPAIGN).needed(),
    Parameter::table("inventory", "How the lists are read", &INVENTORY),
    Parameter::tables("list", "Single lists", &LIST),
    Parameter::table("practice", "Practice", &PRACTICE),
    Parameter::tables("product", "Products", &PRODUCT),
    Parameter::tables("scenario", "Scenarios", &SCENARIO),
    Parameter::table("grid", "Combinations", &GRID),
    Parameter::tables("override", "Exceptions", &OVERRIDE),
    Parameter::new("missing", "Missing", Kind::Names),
    Parameter::tables("stock", "Stock", &STOCK),
    Parameter::tables("neutralizer", "Neutralizers", &NEUTRALIZER),
    Parameter::tables("supply", "Supplies", &SUPPLY),
    Parameter::tables("buy", "Counts", &BUY),
    Parameter::tables("crew", "Crews", &CREW),
]);

/// What stands for a currency that is not stated.
pub const NO_CURRENCY: &str = "currency not stated";

/// Keys of `[campaign]`: what holds for all of it, such as units, totals and currency.
pub static CAMPAIGN: Vocabulary = Vocabulary::of(&[
    Parameter::text("title", "Title").else_word("Shock chlorination campaign").means("Stands over every sheet."),
    Parameter::choice("units", "Units", "", SYSTEMS)
        .needed()
        .means("How people read and measure; decides what a bare \"gal\" is and how numbers without a unit are read."),
    Parameter::new("group_by", "Totals by", Kind::Texts)
        .else_words("the whole campaign")
        .means("Columns of the lists that totals are grouped by, such as region and depot."),
    Parameter::text("currency", "Currency").else_word(NO_CURRENCY).means("Of every price."),
    Parameter::new("bounding_box", "Box on the map", Kind::Corners)
        .else_words("not checked")
        .means("South, west, north, east, in degrees. A well outside is reported: usually a lost minus sign."),
    Parameter::table("outsized", "Outsized visits", &OUTSIZED)
        .means("When a single visit takes so much that it is named: one wrong diameter can swallow a depot's stock."),
]);

static OUTSIZED: Vocabulary = Vocabulary::of(&[
    Parameter::share("share_of_depot", "Outsized: more than this share of its depot's product", (0.01, 1.0))
        .else_number(0.10)
        .after("common practice, no source"),
    Parameter::number("times_median", "Outsized: more than so many times the median of its type", "x", (1.0, 1e6))
        .else_number(20.0)
        .after("common practice, no source"),
]);

const MISSING_TEXTS: Parameter = Parameter::new("missing_texts", "Texts that mean \"not known\"", Kind::Texts)
    .else_words("the built-in ones: NA, n/a, -, ?, unknown, none, -999 …")
    .means("Beside the built-in ones.");
const COLUMNS: Parameter = Parameter::new("columns", "Columns", Kind::Names).means(
    "Heading as written = field; an empty text leaves the column out; \"unit of FIELD\" and \"qualifier of FIELD\" are columns \
     beside another.",
);
const UNITS: Parameter = Parameter::new("units", "Units of columns", Kind::Names)
    .means("Field = unit, where neither heading nor cell names one.");
const FIXED: Parameter =
    Parameter::new("fixed", "Values for blank cells", Kind::Names).means("Field = value for every blank cell of it.");
const WORDS: Parameter = Parameter::new("words", "Words", Kind::Names).means(
    "Field = words of the list with their meanings, for fields of choices and of yes and no; \"unknown\" says nothing, \"not a \
     well\" holds the row back. Of depot and region: names with the name that each is counted under.",
);

/// Keys of `[inventory]`: how the lists are read where no `[[list]]` says otherwise.
pub static INVENTORY: Vocabulary = Vocabulary::of(&[
    Parameter::new("date", "Day of the plan", Kind::Date)
        .else_words("not stated: products must not count their age from a date")
        .means("The day that the lists are of; one that is given with the command counts over it."),
    Parameter::choice("repeats", "Repeated rows", "", || vec!["hold_back", "separate_visits", "latest"])
        .else_word("hold_back")
        .means(
            "A second row of the same well and visit: hold_back plans the first, separate_visits counts each, latest plans the \
             latest visit of each well.",
        ),
    MISSING_TEXTS,
    COLUMNS,
    UNITS,
    FIXED,
    WORDS,
]);

/// Keys of a `[[list]]`.
pub static LIST: Vocabulary = Vocabulary::of(&[
    Parameter::text("file", "List")
        .needed()
        .means("The file's name without its folder; with it, as north/wells.csv, where two lists are called the same."),
    Parameter::text("sheet", "Sheet").else_words("all sheets").means("Where only one sheet is meant."),
    Parameter::choice("system", "Units", "", SYSTEMS)
        .else_words("the campaign's")
        .means("Where this list measures in another system than the campaign."),
    MISSING_TEXTS,
    COLUMNS,
    UNITS,
    FIXED,
    WORDS,
]);

/// Axes of `[grid]`, each a list of values: every combination of them becomes a scenario.
pub static GRID: Vocabulary = Vocabulary::with_practice(&AXES);

/// Keys of an `[[override]]`.
pub static OVERRIDE: Vocabulary = Vocabulary::of(&[
    Parameter::text("where", "Which wells").needed().means("A condition over the columns of the lists, in SQL."),
    Parameter::table("set", "Settings", &SET)
        .means("Practice keys that apply to these wells; the last exception that holds wins."),
    Parameter::new("exclude", "Leave out", Kind::Flag)
        .means("true: not planned, for the reason beside it; false: planned after all."),
    Parameter::text("reason", "Reason").means("Stands beside each visit that is left out."),
]);

static SET: Vocabulary = Vocabulary::with_practice(&[]);

/// The table of every well type in `[missing]`; its keys are fields.
pub static MISSING: Vocabulary = Vocabulary::free();

/// Keys of an assumed value.
pub static ASSUMED: Vocabulary = Vocabulary::of(&[
    Parameter::new("from_list", "Drawn from the list", Kind::Flag)
        .means("Drawn first from the list's own wells of the same type; low, mid and high where it has too few."),
    Parameter::text("low", "Low").means("Needs least product."),
    Parameter::text("mid", "Mid").means("Planned with and bought."),
    Parameter::text("high", "High").means("Needs most product."),
]);

const AMOUNT: Kind = Kind::Quantity(Measured {
    dimension: Dimension::Volume,
    units: ["US gal", "L", "imp gal"],
    unit: "L",
    within: Within::NotNegative,
});

/// Keys of a `[[stock]]` line.
pub static STOCK: Vocabulary = Vocabulary::of(&[
    Parameter::text("depot", "Depot").needed().means("As it is written in the lists."),
    Parameter::text("product", "Product").needed().means("A product, or a neutralizer."),
    Parameter::new("on_hand", "On hand", AMOUNT).else_words("none").means("There already."),
    Parameter::new("on_order", "On order", AMOUNT)
        .else_words("none")
        .means("Ordered already; counts as strong as what the scenario pours."),
    Parameter::number("age_days", "Age", "days", (0.0, 36_525.0))
        .else_words("as the scenario says of its product")
        .means(
            "How old what is on hand is on the day of use. It covers a need by the chlorine that is left in it, and the cards of its depot say \
             how much of it to pour.",
        ),
    Parameter::new("label_date", "Made on", Kind::Date)
        .means("In place of the age, which then counts to the day of the plan."),
    Parameter::new(
        "storage",
        "Stored at",
        Kind::QuantityOrTables(temperature(Within::Between(-30.0, 70.0)), &STORAGE_LEG),
    )
    .else_words("as the scenario or the product says")
    .means("Storage temperature of what is on hand since it was made, or stretches of it in order."),
    Parameter::table("measured_strength", "Strength found by a test", &TESTED_STRENGTH)
        .else_words("the label, aged")
        .means("Of what is on hand; counts in place of label and age. Aging goes on from the day of the test."),
]);

/// Keys of a `[[neutralizer]]`.
pub static NEUTRALIZER: Vocabulary = Vocabulary::of(&[
    Parameter::choice("agent", "Neutralizer", "neutralizer", || Agent::ALL.map(Agent::name).to_vec()).needed(),
    Parameter::tables("packages", "Packages", &PACKAGES).means("What can be bought."),
]);

/// Keys of a `[[supply]]`.
pub static SUPPLY: Vocabulary = Vocabulary::of(&[
    Parameter::text("name", "Supply").needed().means("What it is: test strips, sample bottles, gloves."),
    Parameter::number("per_visit", "Needed at each visit", "", (0.0, 1e4)).else_number(1.0),
    Parameter::number("package_of", "In one package", "", (1.0, 1e6)).else_number(1.0),
    Parameter::number("price", "Price of a package", "", (0.0, f64::INFINITY))
        .else_words("not stated: nothing is said of cost")
        .means("In the campaign's currency."),
    SUPPLIER,
]);

/// Keys of a `[[buy]]` line.
pub static BUY: Vocabulary = Vocabulary::of(&[
    Parameter::text("scenario", "Scenario").needed().means("Whose order it is."),
    Parameter::text("depot", "Depot").else_words("visits without a depot").means("As it is written in the lists."),
    Parameter::text("item", "Item").needed().means("A product, a neutralizer or a supply."),
    Parameter::text("package", "Package").else_words("the only kind there is").means(
        "Its size as it is stated. Kinds of the same item that have no line here are not bought for this depot.",
    ),
    Parameter::new("count", "Count", Kind::Count { bounds: (0.0, 1e9) })
        .needed()
        .means("How many are bought, in place of those that cover the need at least cost."),
]);

/// Keys of a `[[crew]]`.
pub static CREW: Vocabulary = Vocabulary::of(&[
    Parameter::text("name", "Crew").needed().means("What the crew is called; no two crews are called the same."),
    Parameter::text("depot", "Loads at")
        .else_words("any depot, one a day")
        .means("The depot of the crew, as it is written in the lists. A crew without one goes where work is left."),
    Parameter::new("visits_per_day", "Visits a day", Kind::Count { bounds: (1.0, 1000.0) }).needed().means(
        "How many wells it treats in a day. The return to flush after the contact time, emptying again and sampling are not counted: \
         leave room for them.",
    ),
    Parameter::new("first_day", "First day", Kind::Date)
        .else_words("day 1, counted without a date")
        .means("From then on every day counts, Sundays too."),
    Parameter::new("days", "Days", Kind::Count { bounds: (1.0, 3660.0) })
        .else_words("as many as it takes")
        .means("How many days it goes out."),
]);
