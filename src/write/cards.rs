//! Cards, load lists, notices and tags as one offline page each, made to be printed.
//!
//! Text is escaped by the templates; a page asks for nothing from outside, and prints on A4 and on Letter: two cards of half a
//! size share a page on either. It knows cards, not wells.

mod notices;
mod room;
mod sentences;
mod sheets;

use std::path::Path;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::new_file;
use crate::document::card::{CrewSheets, Notices};
use crate::document::plain::plain;
use crate::error::{Error, Result};

/// The style of every page.
const STYLE: &str = include_str!("cards/cards.css");

/// Writes the crew's file.
///
/// # Errors
/// When the file cannot be written.
pub fn write_sheets(path: &Path, sheets: &CrewSheets) -> Result<()> {
    write(path, &page(&sheets.language, &sheets.title, &sheets::body(sheets)))
}

/// Writes cards with notice and tag behind them to a place where nothing is yet.
///
/// # Errors
/// When something is there already, or the file cannot be written.
pub fn write_new_sheets(path: &Path, sheets: &CrewSheets, notices: &Notices) -> Result<()> {
    let body = html! { (sheets::body(sheets)) (notices::body(notices)) };
    new_file::write(path, page(&sheets.language, &sheets.title, &body).as_bytes())
}

/// Writes the notice and the tag.
///
/// # Errors
/// When the file cannot be written.
pub fn write_notices(path: &Path, notices: &Notices) -> Result<()> {
    write(path, &page(&notices.language, &notices.title, &notices::body(notices)))
}

fn write(path: &Path, page: &str) -> Result<()> {
    std::fs::write(path, page).map_err(|error| Error::unwritten(path, error))
}

/// The whole page; letters of a list that act without being seen are shown by number wherever they stand.
fn page(language: &str, title: &str, body: &Markup) -> String {
    let page = html! {
        (DOCTYPE)
        html lang=(language) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                // The style is ours, and holds nothing of a list.
                style { (PreEscaped(STYLE)) }
            }
            body { main { (body) } }
        }
    };
    plain(&page.0).into_owned()
}
