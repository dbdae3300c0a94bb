//! The command to type next, made from what was typed.

use std::path::Path;

use super::Tally;
use super::lines::{WIDTH, are_wells};
use crate::cli::args::Check as Options;
use crate::cli::quoted;
use crate::cli::sources::book_of;
use crate::report::causes::Causes;
use crate::report::question::Key;

/// Lines a command may take; a longer one is written with the lists left out.
const MOST_LINES: usize = 3;

pub(super) struct Next<'a> {
    pub(super) options: &'a Options,
}

impl Next<'_> {
    /// The sentence that says why, and the command.
    pub(super) fn lines(&self, causes: &Causes, tally: &Tally) -> Vec<String> {
        let mut lines = Vec::new();
        let scenarios = self.options.scenarios.as_deref();
        if tally.wells() == 0 {
            return vec!["There is no well to plan: name a list that has wells.".to_owned()];
        }
        if let Some(book) = book_of(&self.options.inventory, self.options.scenarios.as_ref()) {
            return self.of_book(&book, tally);
        }
        if tally.held_back == 0 {
            lines.push(match scenarios {
                Some(_) => "Next, plan them:".to_owned(),
                None => "Next, plan them (FILE: a scenario file; scenarios/minimal.toml is the shortest):".to_owned(),
            });
            lines.extend(self.command("plan", &self.planning(scenarios)));
            return lines;
        }
        let open = causes.open_questions();
        let units_only = |at: &usize| matches!(causes.questions()[*at].key, Key::Units(_));
        if self.options.units.is_none() && scenarios.is_none() && open.iter().any(units_only) {
            lines.push("Next, say which units they use (UNITS: us, metric or imperial), and check again:".to_owned());
            lines.extend(self.command("check", &["--units".to_owned(), "UNITS".to_owned()]));
        } else if let (false, Some(file)) = (open.is_empty(), scenarios) {
            lines.push(format!("Next, write such lines into {}, and check again:", name(file)));
            lines.extend(self.command("check", &self.given()));
        } else if !open.is_empty() {
            lines.push("Next, write such lines into a file, say lists.toml, that begins with [campaign]".to_owned());
            lines.push("and units = \"us\" (or metric, imperial), and check again:".to_owned());
            lines.extend(self.command("check", &["--scenarios".to_owned(), "lists.toml".to_owned()]));
        } else if let Some(book) = &self.options.corrections_out {
            lines.push(format!("Next, fill in the right values in {}, and check again:", name(book)));
            let mut more = self.given();
            more.extend(["--corrections".to_owned(), quoted(book)]);
            lines.extend(self.command("check", &more));
        } else {
            lines.push("Next, have the cells that hold wells back written out, to be corrected:".to_owned());
            let mut more = self.given();
            more.extend(["--corrections-out".to_owned(), "todo.xlsx".to_owned()]);
            lines.extend(self.command("check", &more));
        }
        if tally.planned > 0 {
            lines.push("To plan the others as they are: plan in place of check, and --out campaign.".to_owned());
        }
        lines.push(format!("{} held back (exit code 1).", are_wells(tally.held_back)));
        lines
    }

    /// What comes next with a book, which states everything itself.
    fn of_book(&self, book: &Path, tally: &Tally) -> Vec<String> {
        let mut lines = Vec::new();
        if tally.held_back > 0 {
            lines.push(format!(
                "Next, answer on the sheets Columns, Words, Missing and Repairs of {}, save it,",
                name(book)
            ));
            lines.push("and check again; or plan the others as they are:".to_owned());
        } else {
            lines.push("Next, plan it:".to_owned());
        }
        lines.extend(self.command("plan", &["--out".to_owned(), "campaign".to_owned()]));
        if tally.held_back > 0 {
            lines.push(format!("{} held back (exit code 1).", are_wells(tally.held_back)));
        }
        lines
    }

    /// Options that say how the lists are read, as they were given.
    fn given(&self) -> Vec<String> {
        let mut given = Vec::new();
        if let Some(file) = &self.options.scenarios {
            given.extend(["--scenarios".to_owned(), quoted(file)]);
        }
        if let Some(units) = self.options.units {
            given.extend(["--units".to_owned(), units.system().name().to_owned()]);
        }
        given
    }

    fn planning(&self, scenarios: Option<&Path>) -> Vec<String> {
        // No example: its units need not be those that were asked about here.
        let file = scenarios.map_or_else(|| "FILE".to_owned(), quoted);
        let mut more = vec!["--scenarios".to_owned(), file];
        if let Some(file) = &self.options.corrections {
            more.extend(["--corrections".to_owned(), quoted(file)]);
        }
        more.extend(["--out".to_owned(), "campaign".to_owned()]);
        more
    }

    /// The command over these lists; folded where it is longer than a line, as a shell takes it.
    fn command(&self, verb: &str, more: &[String]) -> Vec<String> {
        let mut more = more.to_vec();
        let corrections = self.options.corrections.as_ref().filter(|_| verb == "check");
        if let Some(file) = corrections.filter(|_| !more.iter().any(|word| word == "--corrections")) {
            more.extend(["--corrections".to_owned(), quoted(file)]);
        }
        let lists: Vec<String> = self.options.inventory.iter().map(quoted).collect();
        let whole = folded(verb, &lists, &more);
        if whole.len() <= MOST_LINES
            && whole.iter().all(|line| line.chars().count() <= WIDTH && !line.contains(char::is_control))
        {
            return whole;
        }
        folded(verb, &["LISTS".to_owned()], &more)
            .into_iter()
            .chain(["  (LISTS: the same lists as now)".to_owned()])
            .collect()
    }
}

fn folded(verb: &str, lists: &[String], more: &[String]) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = format!("  aftercrest {verb}");
    for word in lists.iter().chain(more) {
        // Room for the mark that the line goes on.
        if line.chars().count() + 1 + word.chars().count() > WIDTH - 2 {
            lines.push(format!("{line} \\"));
            line = format!("      {word}");
            continue;
        }
        line.push(' ');
        line.push_str(word);
    }
    lines.push(line);
    lines
}

fn name(path: &Path) -> String {
    let name = path.file_name().map_or_else(|| path.display().to_string(), |name| name.to_string_lossy().into_owned());
    crate::report::fitted::shortened(&name, 40)
}
