//! The sheet of missing values, both ways: what is assumed where the lists say nothing, and where they say nothing at all.

use super::cells::shown;
use super::form::{sheet, slots};
use super::lists::Understood;
use super::plain;
use super::read::UNITS_OPEN;
use super::sheets::{SPARE_ROWS, among, blank, titled, titled_yes_no};
use super::table_reader::Reader;
use crate::document::cell::{Cell, Role, Sheet, Value};
use crate::document::entry::Allowed;
use crate::field::WellType;
use crate::inventory::CellKind;
use crate::parameter::ASSUMED;
use crate::scenario::stated::{Stated, Table, Written};

/// Fields that may be assumed.
const FIELDS: [&str; 6] =
    ["total_depth", "static_water_level", "casing_diameter", "water_column", "water_volume", "plumbing_volume"];
/// Headings of the first columns, and of the last, which are for reading.
const HEADS: [&str; 2] = ["Type of well", "Field"];
const SAID: [&str; 2] = ["Wells without it", "What the lists' own wells of this type have"];

/// What is assumed, and below it a line for each field that wells of a type lack.
pub(super) fn missing(stated: &Table, understood: &Understood) -> Sheet {
    let mut made = titled(sheet::MISSING, "missing values");
    made.note(
        "What to assume where the lists say nothing, by type of well. A line that is left blank assumes nothing: such wells are held \
         back until somebody measures.",
    );
    made.note(
        "Either yes under Drawn from the list: the value is taken from the list's own wells of the same type. Or Low, Mid and High with \
         their unit, such as 4 in, 6 in, 8 in: the mid one is planned with. Both: from the list, else from these.",
    );
    if understood.status.iter().any(|(_, status)| status.starts_with(UNITS_OPEN)) {
        made.note("The units are not stated yet, so it is not known what the lists have: once they are, this sheet says what is lacking.");
    }
    let slots = slots(&ASSUMED);
    let heads = HEADS.map(str::to_owned).into_iter().chain(slots.iter().map(|slot| slot.title.clone()));
    made.heads(heads.chain(SAID.map(str::to_owned)));
    let first = made.rows.len() as u32;
    let row = |of_type: &str, field: &str, stated: Option<&Stated>| {
        let lacking = understood.lacking.iter().find(|known| known.well_type == of_type && known.field == field);
        let input = |text: String| Cell::new(Value::text(text), Role::Blank);
        let mut row = vec![input(plain::shown(of_type)), input(plain::shown(field))];
        row.extend(slots.iter().map(|slot| match (stated.map(|stated| &stated.value), slot.path[0]) {
            (Some(Written::Text(_)), "from_list") => Cell::new(Value::text("yes"), Role::Blank),
            (Some(Written::Table(table)), key) => shown(slot.parameter, table.get(key)),
            _ => blank(),
        }));
        let is_open = lacking.is_some() && stated.is_none();
        row.push(lacking.map_or_else(Cell::empty, |known| {
            Cell::count(known.wells).with_role(if is_open { Role::Flagged } else { Role::Body })
        }));
        row.push(Cell::new(Value::text(lacking.map_or("", |known| &known.own)), Role::Note));
        row
    };
    let types = stated.get("missing").and_then(|stated| stated.value.table());
    for of_type in types.map_or(&[][..], |types| &types.entries) {
        let fields = of_type.stated.value.table().map_or(&[][..], |fields| &fields.entries);
        fields.iter().for_each(|field| made.push(row(&of_type.key, &field.key, Some(&field.stated))));
    }
    for known in &understood.lacking {
        let rule = types.and_then(|types| types.get(known.well_type)?.value.table()?.get(known.field));
        if rule.is_none() {
            made.push(row(known.well_type, known.field, None));
        }
    }
    for _ in 0..SPARE_ROWS {
        made.push(vec![blank(); HEADS.len() + slots.len()]);
    }
    let rows = (first, made.rows.len() as u32 - 1);
    let types = WellType::ALL.map(|of| plain::shown(of.name())).to_vec();
    made.layout.entries.push(among(Allowed::Among(types), 0, rows, HEADS[0]));
    made.layout.entries.push(among(Allowed::Among(FIELDS.map(plain::shown).to_vec()), 1, rows, HEADS[1]));
    made.layout.entries.push(titled_yes_no(2, rows, "Drawn from the list"));
    made.layout.widths = vec![14.0, 20.0, 12.0, 11.0, 11.0, 11.0, 12.0, 60.0];
    made
}

impl Reader<'_> {
    pub(super) fn missing(&self, whole: &mut Table) {
        let Some(page) = self.page(sheet::MISSING, HEADS[0]) else { return };
        let slots = slots(&ASSUMED);
        let mut missing = Table::default();
        for row in page.body() {
            let mut table = Table::default();
            for slot in &slots {
                let Some(filled) = page.filled(row, page.column(&slot.title)) else { continue };
                let value = match filled.kind {
                    CellKind::Number => filled.typed.parse().map(Written::Number).ok(),
                    _ => self.value(slot.parameter, &filled, ""),
                };
                if let Some(value) = value {
                    self.put(&mut table, &slot.path, value, &filled.at);
                }
            }
            // A line that nobody has filled in assumes nothing.
            if table.entries.is_empty() {
                continue;
            }
            let (of_type, field) = (page.filled(row, Some(0)), page.filled(row, Some(1)));
            let (Some(of_type), Some(field)) = (of_type, field) else {
                self.document.fault(&page.at(row, 0), "say of which type of well and which field");
                continue;
            };
            let drawn_alone = table.entries.len() == 1
                && table.get("from_list").is_some_and(|stated| stated.value == Written::Flag(true));
            let value = if drawn_alone { Written::Text("from_list".to_owned()) } else { Written::Table(table) };
            let (of_type, key) = (plain::well_type(of_type.typed), plain::field(field.typed));
            self.put(&mut missing, &[&of_type, &key], value, &field.at);
        }
        if !missing.entries.is_empty() {
            whole.put("missing", Written::Table(missing), page.at(page.first - 1, 0));
        }
    }
}
