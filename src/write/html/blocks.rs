//! Blocks as markup.

use maud::{Markup, html};

use super::text::plain;
use super::{bars, lines, map, picture};
use crate::document::block::{Block, Caution, Column, Form, KeyFigure, List, Paragraph, Table, Tone};
use crate::document::cell::{Cell, Role, Value};
use crate::document::chart::{Chart, Kind};

/// Width of a picture in its own units: alone, beside another, and alone on a phone.
const WIDE: f64 = 720.0;
const NARROW: f64 = 400.0;
const PHONE: f64 = 340.0;

/// Lays blocks out; counts pictures, so that each has names of its own.
#[derive(Debug, Default)]
pub(super) struct Blocks {
    pictures: usize,
}

impl Blocks {
    /// Blocks one below the other; `narrow` where they stand beside others.
    pub(super) fn all(&mut self, blocks: &[Block], narrow: bool) -> Markup {
        html! { @for block in blocks { (self.one(block, narrow)) } }
    }

    fn one(&mut self, block: &Block, narrow: bool) -> Markup {
        match block {
            Block::Headline(text) => html! { h3 { (plain(text)) } },
            Block::Paragraph(paragraph) => self::paragraph(paragraph),
            Block::List(list) => self::list(list),
            Block::Table(table) => self::table(table),
            Block::Figures(figures) => self::figures(figures),
            Block::Form(form) => self::form(form),
            Block::Caution(caution) => self::caution(caution),
            Block::Chart(chart) => self.chart(chart, narrow),
            Block::Map(of) => {
                let name = self.name();
                let drawn = at_both_widths(&name, |name, width| map::drawn(name, of, width));
                picture::framed(&name, &of.title, &of.text, &html! { div.map { (drawn) } }, None)
            }
            Block::Beside(blocks) => html! {
                div.beside { @for block in blocks { div { (self.one(block, true)) } } }
            },
            Block::Folded(summary, blocks) => html! {
                details { summary { (plain(summary)) } (self.all(blocks, narrow)) }
            },
        }
    }

    fn name(&mut self) -> String {
        self.pictures += 1;
        format!("picture-{}", self.pictures)
    }

    fn chart(&mut self, chart: &Chart, narrow: bool) -> Markup {
        let name = self.name();
        let at = |name: &str, width: f64| match &chart.kind {
            Kind::Bars(names) => bars::drawn(name, chart, names, width),
            Kind::Lines | Kind::Points => lines::drawn(name, chart, width),
        };
        let drawn = if narrow { at(&name, NARROW) } else { at_both_widths(&name, at) };
        picture::framed(&name, &chart.title, &chart.text, &drawn, Some(&table(&picture::figures_of(chart))))
    }
}

/// A picture that takes the page's width, and the same for a phone, of which the screen shows one: made smaller, the letters of the
/// wide one could not be read.
fn at_both_widths(name: &str, drawn: impl Fn(&str, f64) -> Markup) -> Markup {
    html! {
        div.wide { (drawn(name, WIDE)) }
        div.phone { (drawn(&format!("{name}-phone"), PHONE)) }
    }
}

fn paragraph(paragraph: &Paragraph) -> Markup {
    let class = match paragraph.tone {
        Tone::Plain => None,
        Tone::Lead => Some("lead"),
        Tone::Small => Some("small"),
        Tone::Flagged => Some("flagged"),
    };
    html! { p dir="auto" class=[class] { (plain(&paragraph.text)) } }
}

fn list(list: &List) -> Markup {
    let items = html! { @for item in &list.items { li dir="auto" { (plain(item)) } } };
    if list.counted {
        html! { ol { (items) } }
    } else {
        html! { ul { (items) } }
    }
}

fn figures(figures: &[KeyFigure]) -> Markup {
    html! {
        dl.figures { @for figure in figures {
            div {
                dt { (plain(&figure.label)) }
                dd {
                    span.figure { (plain(&figure.value.shown())) @if !figure.unit.is_empty() { " " (plain(&figure.unit)) } }
                    @if !figure.note.is_empty() { " " span.note { (plain(&figure.note)) } }
                }
            }
        } }
    }
}

fn form(form: &Form) -> Markup {
    html! {
        div.form {
            p.form-title { (plain(&form.title)) }
            dl { @for line in &form.lines { div { dt { (plain(line)) } dd.line {} } } }
        }
    }
}

fn caution(caution: &Caution) -> Markup {
    html! {
        div.caution {
            p dir="auto" { strong { "Caution. " } (plain(&caution.text)) }
            @if !caution.note.is_empty() { p.small dir="auto" { (plain(&caution.note)) } }
        }
    }
}

fn table(table: &Table) -> Markup {
    let numeric: Vec<bool> = (0..table.columns.len()).map(|column| table.is_numeric(column)).collect();
    let kept: Vec<bool> = (0..table.columns.len()).map(|column| is_of_short_words(table, column)).collect();
    html! {
        div.scroll tabindex="0" role="group" aria-label=(plain(&table.caption)) {
            table data-sortable[table.sortable] {
                caption { (plain(&table.caption)) }
                thead { tr { @for (column, numeric) in table.columns.iter().zip(&numeric) { (head(column, *numeric)) } } }
                tbody { @for row in &table.rows {
                    tr { @for (at, numeric) in numeric.iter().enumerate() {
                        (cell(row.get(at), at == 0, *numeric, kept[at]))
                    } }
                } }
            }
        }
    }
}

/// Letters of a text that stays on one line, such as `US gal`.
const SHORT: usize = 12;

/// Whether a column holds texts that are all so short that none needs a second line.
fn is_of_short_words(table: &Table, column: usize) -> bool {
    let mut texts = table.rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.value.shown());
    texts.all(|text| text.chars().count() <= SHORT)
}

/// The head of a column; a column without one has an empty cell, which a screen reader does not announce as a heading.
fn head(column: &Column, numeric: bool) -> Markup {
    let class = numeric.then_some("n");
    if column.heading().is_empty() {
        return html! { td class=[class] {} };
    }
    html! {
        th scope="col" class=[class] {
            (plain(&column.title))
            @if !column.unit.is_empty() {
                @let is_short = column.unit.chars().count() <= SHORT;
                " " span class=[is_short.then_some("kept")] { "(" (plain(&column.unit)) ")" }
            }
        }
    }
}

fn cell(cell: Option<&Cell>, first: bool, numeric: bool, kept: bool) -> Markup {
    let (value, role) = cell.map_or((&Value::Empty, Role::Body), |cell| (&cell.value, cell.role));
    let part = match role {
        Role::Total | Role::Title | Role::Head => "total",
        Role::Flagged | Role::Caution => "flag",
        Role::Note => "aside",
        _ => "",
    };
    let class = match (numeric, part) {
        (false, "") => kept.then(|| "kept".to_owned()),
        (false, part) => Some(if kept { format!("kept {part}") } else { part.to_owned() }),
        (true, "") => Some("n".to_owned()),
        (true, part) => Some(format!("n {part}")),
    };
    let shown = value.shown();
    let text = plain(&shown);
    match (first, value.figure()) {
        (true, _) => html! { th scope="row" dir="auto" class=[class] { (text) } },
        // What a table is sorted by is the number, not its digits.
        (_, Some(figure)) => html! { td class=[class] data-v=(figure) { (text) } },
        (_, None) => html! { td dir="auto" class=[class] { (text) } },
    }
}
