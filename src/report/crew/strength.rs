//! The product in words: its label, its age, and the strength that it is counted with.

use super::phrases::Phrase;
use super::words::{Terms, Words};
use crate::kernel::requirement::Stock;
use crate::quantity::basis::days;
use crate::quantity::format::number;
use crate::scenario::product::Product;
use crate::scenario::stock::StockOnTheDay;

/// A phrase about the product, its strength and its age.
pub(super) fn said(
    phrase: Phrase,
    product: &Product,
    stock: &StockOnTheDay,
    age_stated: bool,
    words: &Words,
) -> String {
    let left = number(stock.prepared.stock.share_of_label() * 100.0, 2);
    let basis = words.term(Terms::Basis, product.label.basis.name());
    // The cover says the basis whole; a card has room for the word that stands on the label.
    let basis = if phrase != Phrase::FileStrength { basis.split(" (").next().unwrap_or(basis) } else { basis };
    let label = format!("{} {basis}", product.label.number);
    let counted = counted(stock, words);
    let old = number(days(stock.age), 3);
    let stated = age_stated || product.age.is_some() || stock.age.value > 0.0;
    let age = match (stock.from_test, stated) {
        (true, _) => words.with(Phrase::FileAgeTested, &[("days", &old)]),
        (false, true) => words.with(Phrase::FileAgeDays, &[("days", &old)]),
        (false, false) => words.say(Phrase::FileAgeFresh),
    };
    words.with(
        phrase,
        &[("product", &product.name), ("label", &label), ("age", &age), ("counted", &counted), ("left", &left)],
    )
}

/// The strength that a stock is counted with.
pub(super) fn counted(stock: &StockOnTheDay, words: &Words) -> String {
    match stock.prepared.stock {
        Stock::Liquid { used, .. } => {
            format!("{} {}", number(used.grams_per_liter(), 3), words.term(Terms::Basis, "grams_per_liter"))
        }
        Stock::Dry { used, .. } => {
            let percent = number(used.ratio() * 100.0, 3);
            format!("{percent} {}", words.term(Terms::Basis, "weight_available_chlorine"))
        }
    }
}

/// `60 days old, 101 g/L`: of a stock whose age or test is stated.
pub(super) fn age_and_strength(stock: &StockOnTheDay, words: &Words) -> String {
    let old = number(days(stock.age), 3);
    let phrase = if stock.from_test { Phrase::FileAgeTested } else { Phrase::FileAgeDays };
    format!("{}, {}", words.with(phrase, &[("days", &old)]), counted(stock, words))
}
