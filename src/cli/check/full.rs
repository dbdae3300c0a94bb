//! What `check --all` prints: every finding, a paragraph each, and what each column was read as.

use std::io::{Result, Write};

use crate::cli::width;
use crate::finding::Finding;
use crate::inventory::Inventory;
use crate::report::by_sheet::in_words_of_the_book;
use crate::report::question::lacks_column;
use crate::write::terminal;

/// Findings one by one, up to a limit.
pub(super) struct Cells {
    left: u64,
    hidden: u64,
    is_of_book: bool,
}

impl Cells {
    /// `is_of_book`: what is to be done is said by the sheets of the book that states the campaign.
    pub(super) const fn new(limit: u64, is_of_book: bool) -> Self {
        Self { left: limit, hidden: 0, is_of_book }
    }

    /// How many were not printed.
    pub(super) const fn hidden(&self) -> u64 {
        self.hidden
    }

    /// Prints findings, each row whole. What a row lacks because its list has no such column takes one line: why is said of
    /// the list, once, above.
    pub(super) fn print(&mut self, findings: &[Finding], out: &mut dyn Write) -> Result<()> {
        let same = |a: &Finding, b: &Finding| a.place.row == b.place.row && a.place.origin == b.place.origin;
        for row in findings.chunk_by(same) {
            let lacking: Vec<&str> = row.iter().filter_map(lacks_column).collect();
            if self.left == 0 {
                self.hidden += row.len() as u64;
                continue;
            }
            if let (Some(first), false) =
                (row.iter().find(|finding| lacks_column(finding).is_some()), lacking.is_empty())
            {
                let well = first.well.as_deref().map_or(String::new(), |well| format!("  well {well}"));
                let fields = lacking.join(", ").replace('_', " ");
                let text = format!("{}{well}: no column for {fields} (said once above)", first.place);
                writeln!(out, "{}  {}\n", first.code.severity().word(), terminal::wrap(&text, width(), 2))?;
            }
            for finding in row.iter().filter(|finding| lacks_column(finding).is_none()) {
                if self.left == 0 {
                    self.hidden += 1;
                    continue;
                }
                self.left -= 1;
                if self.is_of_book {
                    print_finding(out, &in_words_of_the_book(finding))?;
                } else {
                    print_finding(out, finding)?;
                }
            }
        }
        Ok(())
    }
}

fn print_finding(out: &mut dyn Write, finding: &Finding) -> Result<()> {
    let code = finding.code;
    writeln!(out, "{} [{}] {}", code.severity().word(), code.id(), code.name().replace('-', " "))?;
    let heading =
        finding.place.column.as_ref().map_or(String::new(), |column| format!("  column \"{}\"", column.heading));
    let well = finding.well.as_deref().map_or(String::new(), |well| format!("  well {well}"));
    writeln!(out, "  {}{heading}{well}", finding.place)?;
    if !finding.seen.is_empty() {
        writeln!(out, "      {}", finding.seen)?;
    }
    writeln!(out, "  {}", terminal::wrap(&finding.says.to_string(), width(), 2))?;
    for (place, phrase) in &finding.related {
        writeln!(out, "  see also {place}  {phrase}")?;
    }
    if !finding.help.is_empty() {
        writeln!(out, "  help: {}", terminal::wrap(&finding.help.to_string(), width(), 8))?;
    }
    writeln!(out)
}

/// What was not printed, and what became of each column.
pub(super) fn columns(inventory: &Inventory, hidden: u64, out: &mut dyn Write) -> Result<()> {
    if hidden > 0 {
        writeln!(out, "{hidden} further findings are not printed; --limit shows more.\n")?;
    }
    for source in inventory.sources() {
        let sheet = source.origin.sheet.as_deref().map(|sheet| format!("!{sheet}")).unwrap_or_default();
        writeln!(out, "{}{sheet}: {} rows", source.origin.file, source.rows)?;
        for (heading, field, unit) in &source.fields {
            let unit = unit.as_ref().filter(|unit| !unit.is_empty()).map_or(String::new(), |unit| format!(" ({unit})"));
            writeln!(out, "  {heading:<40} {}{unit}", field.name())?;
        }
        if !source.carried.is_empty() {
            let carried = format!("carried along: {}", source.carried.join(", "));
            writeln!(out, "  {}", terminal::wrap(&carried, width(), 4))?;
        }
    }
    writeln!(out)
}
