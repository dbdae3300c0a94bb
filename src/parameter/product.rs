//! Keys of products, their packages and storage, and of scenarios.

use super::{Kind, Measured, Parameter, Vocabulary, Within, temperature};
use crate::kernel::strength::{Chemical, StrengthBasis, USUAL_CAUSTIC_PERCENT};
use crate::quantity::unit::Dimension;

const STORAGE: Parameter = Parameter::new(
    "storage",
    "Stored at",
    Kind::QuantityOrTables(temperature(Within::Between(-30.0, 70.0)), &STORAGE_LEG),
)
.means("Storage temperature since it was made, or stretches of it in order; aging depends on it more than on anything else.");
const AGE_DAYS: Parameter = Parameter::number("age_days", "Age", "days", (0.0, 36_525.0))
    .else_words("as if made today")
    .means("How old the product is on the day of use; needs a storage temperature.");
const LABEL_DATE: Parameter = Parameter::new("label_date", "Made on", Kind::Date)
    .means("In place of the age, which then counts to the day of the plan.");

/// Keys of a `[[product]]`.
pub static PRODUCT: Vocabulary = Vocabulary::of(&[
    Parameter::text("name", "Product").needed().means("Its name in scenarios, orders and stock."),
    Parameter::choice("chemical", "Chemical", "chemical", || Chemical::ALL.map(Chemical::name).to_vec())
        .needed()
        .means("What is in it."),
    Parameter::table("strength", "Strength on the label", &STRENGTH)
        .needed()
        .means("A strength never comes without its basis."),
    Parameter::number("caustic_percent", "Excess caustic, % by weight", "%", (0.0, 5.0))
        .else_number(USUAL_CAUSTIC_PERCENT)
        .after("common practice, no source")
        .means("Excess sodium hydroxide of a liquid."),
    Parameter::new(
        "bulk_density",
        "Bulk density",
        Kind::Quantity(Measured {
            dimension: Dimension::Density,
            units: ["kg/L"; 3],
            unit: "kg/L",
            within: Within::Between(0.2, 2.5),
        }),
    )
    .else_words("not stated: small amounts of a dry product are weighed")
    .means("Of a dry product as poured; lets small amounts be measured by spoon and cup."),
    AGE_DAYS,
    LABEL_DATE,
    STORAGE,
    Parameter::table("measured_strength", "Strength found by a test", &MEASURED_STRENGTH)
        .else_words("the label, aged")
        .means("Counts in place of the label; aging goes on from the day of the test."),
    Parameter::tables("packages", "Packages", &PACKAGES).means("What can be bought."),
    Parameter::text("label", "Label").means("The label in words."),
    Parameter::text("source", "Source").means("Where the figures come from."),
]);

/// Keys of a strength on a label.
pub static STRENGTH: Vocabulary = Vocabulary::of(&[PERCENT, GRAMS, BASIS]);

static MEASURED_STRENGTH: Vocabulary =
    Vocabulary::of(&[PERCENT, GRAMS, BASIS, Parameter::new("date", "Tested on", Kind::Date)]);

/// Keys of a strength that a test of stock found: columns of their own, so that nobody takes them for the label's.
pub(super) static TESTED_STRENGTH: Vocabulary = Vocabulary::of(&[
    Parameter { title: "Tested strength", ..PERCENT }.means("The number that the test found, on the basis beside it."),
    Parameter { title: "Tested strength in grams per liter", ..GRAMS }.means("The same in grams per liter."),
    Parameter { title: "Basis of the tested strength", ..BASIS },
    Parameter::new("date", "Tested on", Kind::Date).else_words("the day of use"),
]);

const PERCENT: Parameter =
    Parameter::number("percent", "Strength", "%", (f64::NEG_INFINITY, f64::INFINITY)).means("The number on the label.");
const GRAMS: Parameter =
    Parameter::number("value", "Strength in grams per liter", "g/L", (f64::NEG_INFINITY, f64::INFINITY))
        .means("The number on a label in grams per liter.");
const BASIS: Parameter = Parameter::new(
    "basis",
    "Basis",
    Kind::Choice(super::Choice { noun: "basis", words: || StrengthBasis::ALL.map(StrengthBasis::name).to_vec() }),
)
.needed()
.means(
    "What the number counts: trade (g of available chlorine per 100 mL), weight_naocl, weight_available_chlorine, or \
     grams_per_liter. The same percent differs by a fifth between them.",
);

/// Keys of one stretch of storage.
pub static STORAGE_LEG: Vocabulary = Vocabulary::of(&[
    Parameter::number("days", "Days", "days", (0.0, 36_525.0))
        .means("The last stretch may leave it out: it lasts to the end."),
    Parameter::new("at", "Stored at", Kind::Quantity(temperature(Within::Between(-30.0, 70.0)))).needed(),
]);

/// Who sells something, for orders by supplier.
pub(super) const SUPPLIER: Parameter = Parameter::text("supplier", "Supplier")
    .else_words(NO_SUPPLIER)
    .means("Who sells it; orders are added up by supplier.");

/// What stands for a supplier that is not stated.
pub const NO_SUPPLIER: &str = "supplier not stated";

/// Keys of a package.
pub static PACKAGES: Vocabulary = Vocabulary::of(&[
    Parameter::new(
        "size",
        "Size",
        Kind::Quantity(Measured {
            dimension: Dimension::Volume,
            units: ["US gal", "L", "imp gal"],
            unit: "L",
            within: Within::Positive,
        }),
    )
    .needed()
    .means("What is in one: a volume of a liquid, a mass of anything dry."),
    Parameter::number("price", "Price", "", (0.0, f64::INFINITY))
        .else_words("not stated: nothing is said of cost")
        .means("Of one package, in the campaign's currency. Where some packages of an item have a price, the others are left out."),
    Parameter::new("available", "Available", Kind::Count { bounds: (0.0, 1e9) })
        .else_words("as many as are needed")
        .means("How many can be had in all, over every depot."),
    SUPPLIER,
]);

/// Keys of a `[[scenario]]`.
pub static SCENARIO: Vocabulary = Vocabulary::with_practice(&[
    Parameter::text("name", "Scenario").needed().means("No two are the same."),
    Parameter::text("product", "Product").needed().means("One of the products, also a built-in one."),
    AGE_DAYS,
    LABEL_DATE,
    STORAGE,
]);

/// Axes of a `[grid]` beside those of the practice.
pub(super) static AXES: [Parameter; 3] =
    [Parameter::text("product", "Product").means("One of the products, also a built-in one."), AGE_DAYS, STORAGE];
