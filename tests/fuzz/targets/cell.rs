//! One cell as every field it might feed, with and without a unit of its column.
//!
//! The first byte chooses the field, the second the unit, the third the kind of cell and what a comma means.
#![no_main]

use std::sync::LazyLock;

use aftercrest::field::rules::{ReadingRules, UnitSystem};
use aftercrest::field::{FIELDS, Field};
use aftercrest::inventory::CellKind;
use aftercrest::inventory::cell::{CellRules, ColumnUnit, Datum};
use aftercrest::quantity::parse::Comma;
use aftercrest::quantity::unit::{self, Unit};
use libfuzzer_sys::fuzz_target;

static UNITS: LazyLock<Vec<&'static Unit>> = LazyLock::new(|| unit::all().collect());
static RULES: LazyLock<[CellRules; 3]> = LazyLock::new(|| {
    [None, Some(UnitSystem::Us), Some(UnitSystem::Imperial)]
        .map(|system| CellRules::new(&ReadingRules { system, ..ReadingRules::default() }))
});

fuzz_target!(|data: &[u8]| {
    let [which, measure, how, text @ ..] = data else { return };
    let text = String::from_utf8_lossy(text);
    let text = text.trim();
    let field: Field = FIELDS[usize::from(*which) % FIELDS.len()].field;
    let dimension = field.quantity().map(|quantity| quantity.dimension);
    let of_column = (measure % 8 > 0).then(|| UNITS[usize::from(measure / 8) % UNITS.len()]);
    let unit = of_column.filter(|unit| Some(unit.dimension) == dimension);
    let kind = [CellKind::Text, CellKind::Number, CellKind::Date, CellKind::Error][usize::from(how % 4)];
    let comma = if how & 4 == 0 { Comma::ByForm } else { Comma::Decimal };
    let rules = &RULES[usize::from(how / 8) % RULES.len()];
    let column = ColumnUnit { unit, stated: how & 128 != 0 };
    let read = rules.read(field, text, kind, column, comma);
    if let Datum::Number(si) = read.datum {
        assert!(si.is_finite());
    }
    if let Some((low, high)) = read.spread {
        assert!(low.is_finite() && high.is_finite());
    }
    for remark in read.remarks {
        assert!(!remark.says.to_string().is_empty() && !remark.help.to_string().is_empty());
    }
});
