//! What the lists are worth: what holds visits back and how to answer it, how complete they are, what to measure first.

use super::{Pages, counted};
use crate::document::block::{Block, Column, Section, Table};
use crate::document::cell::{Cell, Role};
use crate::finding::Severity;
use crate::report::causes::Cause;
use crate::report::fitted::list_name;
use crate::report::quality::{Units, cluster_words, kinds, names, percent, place_words};
use crate::report::questions::what;

/// Causes that are shown.
const CAUSES: usize = 200;

pub(super) fn section(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("lists", "What the lists are worth");
    section.say(format!("{}.", pages.matter.account()));
    causes(pages, &mut section);
    completeness(pages, &mut section);
    repairs(pages, &mut section);
    let clusters = pages.matter.run.quality.clusters();
    if !clusters.is_empty() {
        section.headline("Worth checking; may be correct");
        let units = Units::Campaign(pages.matter.plan.campaign.system);
        for cluster in clusters {
            section.say(cluster_words(&cluster, units).replace('_', " "));
        }
    }
    section
}

fn causes(pages: &Pages<'_>, section: &mut Section) {
    let causes = pages.matter.causes;
    let (notes, shown): (Vec<&Cause>, Vec<&Cause>) =
        causes.by_weight().into_iter().partition(|cause| cause.severity() == Severity::Note);
    if notes.is_empty() && shown.is_empty() {
        section.say("Nothing was found in the lists that needs a look.");
        return;
    }
    if pages.matter.is_of_book {
        section.say("Sheets that are named under What to do are those of the campaign book.");
    }
    if shown.len() > CAUSES {
        section.flag(format!("The first {CAUSES} of {} causes are here; findings.csv has every finding.", shown.len()));
    }
    section.push(table(pages, "What was found in the lists, and what to do", shown));
    if !notes.is_empty() {
        let summary =
            format!("{} that need no action where they are right", counted(notes.len() as u64, "note", "notes"));
        section.push(Block::Folded(summary, vec![table(pages, "Notes about the lists", notes).into()]));
    }
}

fn table(pages: &Pages<'_>, caption: &str, shown: Vec<&Cause>) -> Table {
    let causes = pages.matter.causes;
    let columns = vec![
        Column::new("Cause"),
        Column::new("List"),
        Column::new("Severity"),
        Column::new("Times"),
        Column::new("Visits held back"),
        Column::new("By it alone"),
        Column::new("What to do"),
    ];
    let mut table = Table::new(caption, columns);
    for cause in shown.into_iter().take(CAUSES) {
        let severity = cause.severity();
        let role = if severity == Severity::Error { Role::Flagged } else { Role::Body };
        let list = cause.list.and_then(|list| causes.lists().get(list)).map_or(String::new(), list_name);
        table.rows.push(vec![
            Cell::text(what(cause)),
            Cell::text(list),
            Cell::text(severity.word()).with_role(role),
            Cell::count(cause.times()),
            Cell::count(cause.wells),
            Cell::count(cause.alone),
            Cell::text(pages.matter.what_to_do(cause)),
        ]);
    }
    table
}

fn completeness(pages: &Pages<'_>, section: &mut Section) {
    let quality = &pages.matter.run.quality;
    let rows = quality.rows();
    let all: u64 = rows.iter().sum();
    let kinds = kinds(quality);
    let mut columns =
        vec![Column::new("Field"), Column::of(format!("All {all} rows"), "%"), Column::new("Not readable")];
    columns.extend(
        kinds.iter().map(|(kind, name)| Column::of(format!("{} {}", rows[*kind], name.replace('_', " ")), "%")),
    );
    let mut table = Table::new("How complete the lists are", columns);
    for field in quality.completeness() {
        let given: u64 = field.given.iter().sum();
        let share = |part: u64, whole: u64| Cell::number(percent(part as f64, whole as f64), 0);
        let unread = if field.unread > 0 { Role::Flagged } else { Role::Body };
        let mut row = vec![
            Cell::text(field.field.name().replace('_', " ")),
            share(given, all),
            Cell::count(field.unread).with_role(unread),
        ];
        row.extend(kinds.iter().map(|(kind, _)| share(field.given[*kind], rows[*kind])));
        table.rows.push(row);
    }
    section.push(table);
}

fn repairs(pages: &Pages<'_>, section: &mut Section) {
    let quality = &pages.matter.run.quality;
    if quality.repairs.is_empty() {
        return;
    }
    let on_size = pages.matter.run.totals.overall(pages.shown).resting.on_size;
    section.say(format!(
        "{} {} assumed sizes. These measurements narrow the range of the water most:",
        counted(on_size, "planned visit", "planned visits"),
        if on_size == 1 { "uses" } else { "use" }
    ));
    let columns = vec![
        Column::new("Well"),
        Column::new("Visit"),
        Column::new("Where"),
        Column::new("Measure"),
        Column::of("Range of its water", pages.volume.symbol),
        Column::of("Share of the whole range", "%"),
    ];
    let mut table = Table::new("Measure first", columns);
    for repair in &quality.repairs {
        table.rows.push(vec![
            Cell::text(&*repair.well),
            Cell::text(&*repair.visit),
            Cell::text(place_words(repair)),
            Cell::text(names(&repair.fields).replace('_', " ")),
            super::amount(pages.volume, repair.span_l),
            Cell::number(percent(repair.span_l, quality.span_l), 1),
        ]);
    }
    section.push(table);
}
