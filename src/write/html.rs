//! Documents as one HTML file that needs nothing else: no network, no font, no image, no library.
//!
//! Works without its script; with it, tables can be sorted and filtered. Readable by eye, in the dark, on paper, by keyboard
//! and by ear. It lays blocks out and knows nothing of what they say.

mod axes;
mod bars;
mod blocks;
mod lines;
mod map;
mod map_key;
mod map_mark;
mod picture;
mod text;

use std::path::Path;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::document::block::{Document, Section};
use crate::error::{Error, Result};
use blocks::Blocks;
use text::plain;

const STYLE: &str = include_str!("html/page.css");
const SCRIPT: &str = include_str!("html/page.js");

/// What a page may do: show itself. Whatever asks for something from elsewhere is refused by the browser.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data:; \
                      base-uri 'none'; form-action 'none'";

/// Writes a document as a page.
///
/// # Errors
/// When the file cannot be written.
pub fn write_page(path: &Path, document: &Document) -> Result<()> {
    std::fs::write(path, page(document)).map_err(|error| Error::unwritten(path, error))
}

/// A document as the text of a page.
pub fn page(document: &Document) -> String {
    let mut blocks = Blocks::default();
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                meta name="color-scheme" content="light dark";
                link rel="icon" href="data:,";
                title { (plain(&document.title)) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                a.skip href="#main" { "Skip to the report" }
                header {
                    h1 dir="auto" { (plain(&document.title)) }
                    @if !document.subtitle.is_empty() { p.subtitle dir="auto" { (plain(&document.subtitle)) } }
                }
                @if document.sections.len() > 1 {
                    nav aria-label="Contents" {
                        ul { @for section in &document.sections {
                            li { a href={ "#" (section.id) } { (plain(&section.title)) } }
                        } }
                    }
                }
                main #main {
                    @for section in &document.sections { (section_markup(section, &mut blocks)) }
                }
                script { (PreEscaped(SCRIPT)) }
            }
        }
    };
    markup.into_string()
}

fn section_markup(section: &Section, blocks: &mut Blocks) -> Markup {
    let heading = format!("{}-heading", section.id);
    html! {
        section id=(section.id) aria-labelledby=(heading) class=[section.own_page.then_some("own-page")] {
            h2 id=(heading) { (plain(&section.title)) }
            (blocks.all(&section.blocks, false))
        }
    }
}
