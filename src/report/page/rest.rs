//! Assumptions, method and cautions: what the sheets of the workbook say, as sections.

use super::{Pages, counted};
use crate::caution;
use crate::document::block::{Block, Caution, Column, Paragraph, Section, Table, Tone};
use crate::document::cell::{Cell, Role, Sheet, Value};
use crate::report::{assumptions as assumed, defaults, method as methods, site};
use crate::source::Provenance;

/// Columns that name a row of the Assumptions sheet; behind them stands one column a scenario.
const NAMING: usize = 2;

pub(super) fn assumptions(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("assumptions", "Assumptions");
    for says in defaults::of_run(pages.matter) {
        section.flag(says);
    }
    section.say(format!(
        "What is done at every well under \"{}\", before overrides. The Assumptions sheet of the workbook has every scenario; what \
         the others change is listed below.",
        pages.name(pages.shown)
    ));
    let mut sheet = assumed::per_scenario(pages.matter);
    let scenarios = pages.matter.plan.cases.len();
    // Only the rows of practice have a column a scenario; they end at the first gap.
    let end = sheet.rows.iter().position(|row| row.is_empty()).unwrap_or(sheet.rows.len());
    for row in sheet.rows[..end].iter_mut().filter(|row| row.len() == NAMING + scenarios) {
        let kept = row[NAMING + pages.shown].clone();
        row.truncate(NAMING);
        row.push(kept);
    }
    let skipped = sheet.rows.iter().take_while(|row| row.len() < NAMING).count();
    section.blocks.extend(blocks(&sheet, skipped, "Assumptions"));
    let mut changes = Table::new("What each scenario changes", vec![Column::new("Scenario"), Column::new("Changes")]);
    for case in &pages.matter.plan.cases {
        let settings: Vec<String> = case
            .scenario
            .settings
            .iter()
            .map(|setting| format!("{}: {}", setting.key.replace('_', " "), setting.label))
            .collect();
        let settings = if settings.is_empty() { "nothing".to_owned() } else { settings.join("; ") };
        changes.rows.push(vec![Cell::text(&case.scenario.name), Cell::text(settings)]);
    }
    section.push(changes);
    section
}

pub(super) fn method(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("method", "Method");
    section.say(
        "How each figure is made: every column of the tables names its equation, and every equation its symbols, its limits and \
         its source. `aftercrest explain` shows one with numbers put in.",
    );
    let sheet = methods::sheet(pages.matter);
    let skipped = sheet.rows.iter().take_while(|row| row.len() < NAMING).count();
    let folded = blocks(&sheet, skipped, "Method");
    section.push(Block::Folded("Columns, equations and constants, with their sources".to_owned(), folded));
    section
}

pub(super) fn cautions(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("cautions", "Cautions");
    section.say("Read before anyone opens a product or a well. Local code and licensed practice come first.");
    let push = |section: &mut Section, text: &str, note: String| {
        section.push(Block::Caution(Caution { text: text.to_owned(), note }));
    };
    for entry in &caution::GENERAL {
        push(&mut section, entry.text, String::new());
    }
    for (caution, entry) in caution::raised() {
        let count = crate::engine::raised(pages.matter.run, pages.shown, caution);
        if count > 0 {
            let source = match entry.source.provenance {
                // Its citation says the same.
                Provenance::CommonPractice => entry.source.provenance.label().to_owned(),
                provenance => format!("{} ({})", entry.source.citation, provenance.label()),
            };
            push(&mut section, entry.text, format!("{}. Source: {source}.", counted(count, "visit", "visits")));
        }
    }
    for (entry, count) in site::reported(pages.matter) {
        push(
            &mut section,
            &site::told(entry, count),
            format!("{}: {}.", entry.what, counted(count, "visit", "visits")),
        );
    }
    section
}

/// A sheet as blocks: its wide rows as text, the rows under each row of headings as a table.
fn blocks(sheet: &Sheet, skipped: usize, name: &str) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    let mut open: Option<Table> = None;
    let mut tables = 0;
    for row in sheet.rows.iter().skip(skipped) {
        let is_head = row.len() > 1 && row.iter().all(|cell| cell.role == Role::Head);
        match (row.as_slice(), is_head) {
            ([], _) => blocks.extend(open.take().map(Block::Table)),
            (heads, true) => {
                blocks.extend(open.take().map(Block::Table));
                tables += 1;
                let columns: Vec<Column> = heads.iter().map(|head| Column::new(head.value.shown())).collect();
                let first = columns.first().map_or("", |column| column.title.as_str());
                open = Some(Table::new(format!("{name} {tables}: {}", first.to_lowercase()), columns));
            }
            ([only], _) => {
                blocks.extend(open.take().map(Block::Table));
                let Value::Text(text) = &only.value else { continue };
                blocks.push(match only.role {
                    Role::Title => Block::Headline(text.clone()),
                    Role::Flagged | Role::Caution => Paragraph::new(text, Tone::Flagged).into(),
                    _ => Paragraph::new(text, Tone::Plain).into(),
                });
            }
            (cells, _) => {
                if let Some(table) = &mut open {
                    table.rows.push(cells.to_vec());
                }
            }
        }
    }
    blocks.extend(open.map(Block::Table));
    blocks
}
