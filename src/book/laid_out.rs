//! The sheets of a book, of what is stated and what was understood of the lists.

use super::about_lists::{columns, lists, names, words};
use super::cells::{allowed, shown};
use super::conditions;
use super::form::{
    OWN_COLUMNS, ROWS, RowForm, Slot, UPRIGHT, axis_title, heading, row_slots, setting_titled, sheet, slots,
};
use super::lists::Understood;
use super::missing::missing;
use super::sheets::{Choices, SPARE_ROWS, among, blank, tables, text_of, titled};
use super::start_here::start;
use crate::document::cell::{Book, Cell, Paper, Role, Sheet, Value};
use crate::document::entry::{Allowed, Entry, Remark};
use crate::field::rules::UnitSystem;
use crate::parameter::{GRID, Kind, Measured, PACKAGES, PRACTICE, Parameter, Taken, Within};
use crate::quantity::unit;
use crate::scenario::plain_word;
use crate::scenario::stated::{Stated, Table};

/// Pairs of columns for settings without a column of their own.
const PAIRS: usize = 3;
/// Columns of values on the sheet of combinations.
const STEPS: usize = 6;

/// What a book is made of.
pub struct Contents<'a> {
    /// What the campaign states, as a tree of keys and values, whichever file it comes from.
    pub stated: &'a Table,
    /// What was understood of the lists.
    pub lists: &'a Understood,
    /// The sheet of repairs.
    pub repairs: Option<Sheet>,
    /// The sheet of wells, where the wells stand in the book itself.
    pub wells: Option<Sheet>,
    /// The campaign's units, where they are known.
    pub system: Option<UnitSystem>,
    /// The book that this one goes on from under a name of its own, in words.
    pub replaces: Option<&'a str>,
}

/// Lays a campaign out as the sheets of a book, with cells to fill in and what may be typed in them.
pub fn book(contents: Contents<'_>) -> Book {
    let stated = contents.stated;
    let choices = Choices::of(stated);
    let mut sheets = vec![
        start(stated, contents.lists, contents.replaces),
        lists(stated, contents.lists),
        columns(stated, contents.lists, &choices),
    ];
    sheets.push(words(stated, contents.lists));
    sheets.push(names(stated, contents.lists));
    sheets.extend(contents.repairs);
    sheets.extend(UPRIGHT.iter().map(|(name, tables)| upright(name, tables, stated, contents.system)));
    let row_sheet = |key: &str| ROWS.iter().find(|form| form.key == key).map(|form| rows(form, stated, &choices));
    sheets.extend(row_sheet("product"));
    sheets.push(packages(stated, &choices));
    sheets.extend(row_sheet("stock"));
    sheets.extend(row_sheet("scenario"));
    sheets.push(combinations(stated, &choices));
    sheets.extend(row_sheet("override"));
    sheets.push(missing(stated, contents.lists));
    sheets.extend(row_sheet("supply"));
    sheets.extend(row_sheet("buy"));
    sheets.extend(row_sheet("crew"));
    sheets.extend(contents.wells);
    sheets.push(choices.sheet());
    let title = stated.get("campaign").and_then(|stated| stated.value.table()).and_then(|table| table.get("title"));
    let title = title.and_then(|title| title.value.text()).unwrap_or("Campaign book");
    Book { title: title.to_owned(), date: None, sheets, names: Vec::new(), paper: Paper::default() }
}

/// The value at the end of a path of keys. A lone word of a group is the group's first key.
fn at_path<'a>(table: &'a Table, path: &[&str]) -> Option<&'a Stated> {
    let (first, rest) = path.split_first()?;
    let stated = table.get(first)?;
    match (rest.is_empty(), stated.value.table()) {
        (true, _) => Some(stated),
        (false, Some(inner)) => at_path(inner, rest),
        (false, None) => Some(stated).filter(|stated| rest == ["method"] && stated.value.text().is_some()),
    }
}

/// What a drop-down or a bound is for one value.
/// `unit` is that of a bare number, where the row has one.
fn entry(
    slot: &Slot,
    column: u16,
    rows: (u32, u32),
    unit: Option<&'static str>,
    choices: Option<&Choices>,
) -> Option<Entry> {
    let words = allowed(slot.parameter);
    let allowed = match slot.parameter.kind {
        Kind::Choice(_) | Kind::ChoiceOrTable(..) => {
            let words: Vec<String> = slot.parameter.words().unwrap_or_default().into_iter().map(plain_word).collect();
            if words.iter().map(|word| word.len() + 1).sum::<usize>() > 250 {
                return None;
            }
            Allowed::Among(words)
        }
        Kind::Flag => Allowed::Among(["yes", "no"].map(str::to_owned).to_vec()),
        Kind::Number { bounds: (low, high), .. } | Kind::Count { bounds: (low, high) }
            if low.is_finite() && slot.parameter.key != "percent" =>
        {
            Allowed::Between(low, high.min(1e12))
        }
        // A spreadsheet program keeps 20 % as 0.2; a text is read as it stands.
        Kind::Share { bounds: (low, high) } => Allowed::TextOrBetween(low, high, false),
        Kind::Quantity(of) | Kind::QuantityOrTables(of, _) => bare(&of, unit),
        Kind::Text if slot.parameter.key == "product" => choices?.among("Products"),
        _ => return None,
    };
    Some(Entry {
        column,
        first_row: rows.0,
        last_row: rows.1,
        allowed,
        title: slot.parameter.title.to_owned(),
        help: in_words(slot.parameter),
        refusal: format!("This is not {words}. It is read if it makes sense; keep it?"),
    })
}

/// What a quantity may be as a bare number, in the unit of its row; without one only a text has a unit.
fn bare(of: &Measured, symbol: Option<&'static str>) -> Allowed {
    let own = (of.units[0] == of.units[1]).then_some(of.unit);
    let (Some(symbol), Some(bounds)) = (symbol.or(own).and_then(unit::by_symbol), unit::by_symbol(of.unit)) else {
        return Allowed::Words;
    };
    match of.within {
        Within::NotNegative => Allowed::TextOrBetween(0.0, f64::INFINITY, false),
        Within::Positive => Allowed::TextOrBetween(0.0, f64::INFINITY, true),
        Within::Between(low, high) => {
            let shown = |bound: f64| (symbol.from_si(bounds.to_si(bound)) * 1e6).round() / 1e6;
            Allowed::TextOrBetween(shown(low), shown(high), false)
        }
    }
}

/// What is taken where nothing is stated, in the units of the campaign.
fn default_of(slot: &Slot, system: Option<UnitSystem>) -> String {
    match slot.parameter.default {
        Taken::Words(words) => words.to_owned(),
        Taken::Word(word) => plain_word(word),
        Taken::Several(words) => words.iter().copied().map(plain_word).collect::<Vec<_>>().join("; "),
        Taken::Number(number) => match slot.parameter.kind {
            Kind::Share { .. } => format!("{} %", crate::quantity::format::number(number * 100.0, 4)),
            Kind::Quantity(of) => {
                let symbol = of.units[system.unwrap_or(UnitSystem::Metric).index()];
                let si = unit::by_symbol(of.unit).map_or(number, |unit| unit.to_si(number));
                let shown = unit::by_symbol(symbol).map_or(number, |unit| unit.from_si(si));
                format!("{} {symbol}", crate::quantity::format::number(shown, 4))
            }
            _ => crate::quantity::format::number(number, 6),
        },
    }
}

/// What a parameter means, with its words as they stand in the book.
fn in_words(parameter: &Parameter) -> String {
    let words = parameter.words().unwrap_or_default();
    words
        .iter()
        .filter(|word| word.contains('_'))
        .fold(parameter.meaning.to_owned(), |meaning, word| meaning.replace(word, &plain_word(word)))
}

/// A sheet with one value a row.
fn upright(
    name: &'static str,
    tables: &[(&str, &'static crate::parameter::Vocabulary)],
    stated: &Table,
    system: Option<UnitSystem>,
) -> Sheet {
    let mut made = titled(name, if name == sheet::PRACTICE { "what is done at every well" } else { "the campaign" });
    made.note("Fill in the column Value; what is left blank is taken as the column Otherwise says.");
    made.heads(["What", "Value", "Unit", "Otherwise", "May be", "What it means", "Source"]);
    for (key, keys) in tables {
        let of_table = stated.get(key).and_then(|stated| stated.value.table());
        for slot in slots(keys) {
            let row = made.rows.len() as u32;
            let value = of_table.and_then(|table| at_path(table, &slot.path));
            let unit = match slot.parameter.kind {
                Kind::Number { unit, .. } => unit,
                Kind::Share { .. } => "%",
                Kind::Quantity(of) => of.units[system.unwrap_or(UnitSystem::Us).index()],
                _ => "",
            };
            let missing = slot.parameter.is_needed && value.is_none();
            let cell = shown(slot.parameter, value);
            let note = |text: String| Cell::new(Value::text(text), Role::Note);
            made.layout.entries.extend(entry(&slot, 1, (row, row), Some(unit).filter(|unit| !unit.is_empty()), None));
            made.push(vec![
                Cell::text(slot.title.clone()),
                if missing { cell.with_role(Role::Flagged) } else { cell },
                Cell::text(unit),
                note(if slot.parameter.is_needed { "must be stated".to_owned() } else { default_of(&slot, system) }),
                note(allowed(slot.parameter)),
                Cell::text(in_words(slot.parameter)),
                note(slot.parameter.source.to_owned()),
            ]);
        }
    }
    made.layout.widths = vec![30.0, 20.0, 8.0, 20.0, 22.0, 40.0, 18.0];
    made.layout.frozen_columns = 1;
    made.layout.filter_row = None;
    made
}

/// Settings of a row: those with columns of their own, and the others in pairs.
struct Settings<'a> {
    table: Option<&'a Table>,
}

impl Settings<'_> {
    fn own(&self, key: &str) -> Option<&Stated> {
        self.table?.get(key)
    }

    /// Titles and values of all others; a group's keys one by one where each fits a cell, else the group as a whole.
    fn others(&self) -> Vec<(String, Cell)> {
        let Some(table) = self.table else { return Vec::new() };
        let mut others = Vec::new();
        for slot in slots(&PRACTICE) {
            if OWN_COLUMNS.contains(&slot.path[0]) {
                continue;
            }
            if let Some(stated) = at_path(table, &slot.path) {
                others.push((slot.title.clone(), shown(slot.parameter, Some(stated))));
            }
        }
        others
    }
}

/// A sheet with one table a row.
fn rows(form: &RowForm, stated: &Table, choices: &Choices) -> Sheet {
    let mut made = titled(form.sheet, &form.sheet.to_lowercase());
    form.notes.iter().for_each(|note| made.note(*note));
    let slots = row_slots(form);
    let listed: Vec<&Table> = tables(stated, form.key).collect();
    let settings: Vec<Settings<'_>> = listed
        .iter()
        .map(|table| Settings {
            table: match form.settings {
                Some("set") => table.get("set").and_then(|stated| stated.value.table()),
                Some(_) => Some(table),
                None => None,
            },
        })
        .collect();
    let pairs = settings.iter().map(|of| of.others().len()).max().unwrap_or_default().max(PAIRS);
    let is_conditional = form.key == "override";
    let lead = if is_conditional { conditions::COLUMNS.len() + 1 } else { 0 };
    let mut heads: Vec<String> = Vec::new();
    if is_conditional {
        heads.extend(conditions::COLUMNS.map(|(title, _)| title.to_owned()));
        heads.push(conditions::OTHERWISE.to_owned());
    }
    heads.extend(slots.iter().map(heading));
    let own: Vec<Slot> = OWN_COLUMNS.iter().filter_map(|key| setting_titled(key)).collect();
    if form.settings.is_some() {
        heads.extend(own.iter().map(heading));
        heads.extend((1..=pairs).flat_map(|pair| [format!("Setting {pair}"), format!("Value {pair}")]));
    }
    made.heads(heads.iter().cloned());
    let first = made.rows.len() as u32;
    for (table, settings) in listed.iter().zip(&settings) {
        let mut row = if is_conditional { conditions::cells(text_of(table, "where")) } else { Vec::new() };
        row.extend(slots.iter().map(|slot| shown(slot.parameter, at_path(table, &slot.path))));
        if form.settings.is_some() {
            row.extend(own.iter().map(|slot| shown(slot.parameter, settings.own(slot.path[0]))));
            let others = settings.others();
            for pair in 0..pairs {
                let (title, value) = others.get(pair).cloned().unwrap_or_else(|| (String::new(), blank()));
                row.extend([Cell::new(Value::text(title), Role::Blank), value]);
            }
        }
        made.push(row);
    }
    for _ in 0..SPARE_ROWS {
        made.push(vec![blank(); heads.len()]);
    }
    let last = made.rows.len() as u32 - 1;
    if is_conditional {
        made.layout.entries.extend(conditions::entries((first, last)));
    }
    for (place, slot) in slots.iter().chain(form.settings.map(|_| own.as_slice()).unwrap_or_default()).enumerate() {
        let column = lead + place;
        made.layout.entries.extend(entry(slot, column as u16, (first, last), None, Some(choices)));
        let text = format!("{}\n{}", slot.parameter.meaning, allowed(slot.parameter)).trim().to_owned();
        if !text.is_empty() {
            made.layout.remarks.push(Remark { row: first - 1, column: column as u16, text });
        }
    }
    if form.settings.is_some() {
        for pair in 0..pairs {
            let column = lead + slots.len() + own.len() + 2 * pair;
            made.layout.entries.push(among(choices.among("Settings"), column as u16, (first, last), "Setting"));
        }
    }
    made.layout.widths = heads.iter().enumerate().map(|(column, head)| width(column, head)).collect();
    made.layout.frozen_columns = 1;
    made
}

fn width(column: usize, head: &str) -> f64 {
    match head {
        _ if column == 0 => 24.0,
        head if head.starts_with("Setting") => 24.0,
        "Label" | "Source" => 42.0,
        "Reason" | conditions::OTHERWISE => 28.0,
        "Basis" => 20.0,
        _ => (head.chars().count() as f64 / 3.0 + 4.0).clamp(12.0, 18.0),
    }
}

/// Packages of products and of neutralizers.
fn packages(stated: &Table, choices: &Choices) -> Sheet {
    let mut made = titled(sheet::PACKAGES, "packages and prices");
    made.note("One row a package. Prices are yours to fill in: without one an order says nothing of its cost.");
    made.note(
        "A neutralizer is written by its name, such as ascorbic acid; sizes with their unit, such as 5 gal or 25 lb.",
    );
    made.note(
        "Available: how many such packages can be had in all, a whole number such as 12. Leave it blank where as many can be had as are \
         needed.",
    );
    let slots = slots(&PACKAGES);
    made.heads(["Product or neutralizer".to_owned()].into_iter().chain(slots.iter().map(heading)));
    let first = made.rows.len() as u32;
    for (key, name) in [("product", "name"), ("neutralizer", "agent")] {
        for table in tables(stated, key) {
            let item = text_of(table, name).unwrap_or_default();
            let item = if key == "neutralizer" { plain_word(item) } else { item.to_owned() };
            let listed: Vec<&Table> = tables(table, "packages").collect();
            for package in &listed {
                let mut row = vec![Cell::new(Value::text(item.clone()), Role::Blank)];
                row.extend(slots.iter().map(|slot| {
                    let cell = shown(slot.parameter, package.get(slot.path[0]));
                    let open = slot.parameter.key == "price" && package.get("price").is_none();
                    if open { cell.with_role(Role::Flagged) } else { cell }
                }));
                made.push(row);
            }
            if listed.is_empty() && key == "neutralizer" {
                let mut row = vec![blank(); 1 + slots.len()];
                row[0] = Cell::new(Value::text(item), Role::Blank);
                made.push(row);
            }
        }
    }
    for _ in 0..SPARE_ROWS {
        made.push(vec![blank(); 1 + slots.len()]);
    }
    let last = made.rows.len() as u32 - 1;
    made.layout.entries.push(among(choices.among("Products and neutralizers"), 0, (first, last), "Product"));
    for (column, slot) in slots.iter().enumerate() {
        made.layout.entries.extend(entry(slot, column as u16 + 1, (first, last), None, None));
    }
    made.layout.widths = vec![30.0, 20.0, 16.0, 16.0, 30.0];
    made
}

/// The axes of the grid.
fn combinations(stated: &Table, choices: &Choices) -> Sheet {
    let mut made = titled(sheet::COMBINATIONS, "combinations");
    made.note("Every combination of the values below is a scenario too, beside those of the sheet Scenarios.");
    let axes = stated.get("grid").and_then(|stated| stated.value.table());
    let lists: Vec<(&str, &[Stated])> = axes.map_or_else(Vec::new, |axes| {
        axes.entries.iter().map(|axis| (axis.key.as_str(), axis.stated.value.list().unwrap_or_default())).collect()
    });
    let steps = lists.iter().map(|(_, steps)| steps.len()).max().unwrap_or_default().max(STEPS);
    made.heads(["What varies".to_owned()].into_iter().chain((1..=steps).map(|step| format!("Value {step}"))));
    let first = made.rows.len() as u32;
    for (key, values) in &lists {
        let mut row = vec![Cell::new(Value::text(axis_title(key)), Role::Blank)];
        let parameter = GRID.get(key);
        row.extend((0..steps).map(|step| match (values.get(step), parameter) {
            (Some(stated), Some(parameter)) => shown(parameter, Some(stated)),
            _ => blank(),
        }));
        made.push(row);
    }
    for _ in 0..SPARE_ROWS / 2 {
        made.push(vec![blank(); steps + 1]);
    }
    let last = made.rows.len() as u32 - 1;
    made.layout.entries.push(among(choices.among("What varies"), 0, (first, last), "What varies"));
    made.layout.widths = vec![44.0];
    made.layout.widths.extend(std::iter::repeat_n(18.0, steps));
    made.layout.filter_row = None;
    made
}
