//! Values of a Parquet column as text cells: numbers with every digit, dates as ISO text, yes and no.

use polars_arrow::array::{Array, BooleanArray, PrimitiveArray, Utf8ViewArray};
use polars_arrow::datatypes::{ArrowDataType, TimeUnit};
use polars_arrow::types::NativeType;

use crate::inventory::rows::{CellKind, Rows};

/// No decimal number of 128 bits has more places; a file may claim as many as it likes.
const MOST_PLACES: usize = 38;

/// A word for what no text can be made of.
pub(super) fn without_text(dtype: &ArrowDataType) -> Option<&'static str> {
    use ArrowDataType as Type;
    match dtype {
        Type::Binary | Type::LargeBinary | Type::BinaryView | Type::FixedSizeBinary(_) => Some("(binary)"),
        Type::List(_) | Type::LargeList(_) | Type::FixedSizeList(..) => Some("(list)"),
        Type::Struct(_) | Type::Map(..) | Type::Union(_) => Some("(structure)"),
        Type::Interval(_) | Type::Decimal256(..) | Type::Unknown => Some("(not readable)"),
        Type::Decimal(_, scale) | Type::Decimal32(_, scale) | Type::Decimal64(_, scale) if *scale > MOST_PLACES => {
            Some("(not readable)")
        }
        _ => None,
    }
}

fn native<T: NativeType>(array: &dyn Array, row: usize) -> Option<T> {
    array.as_any().downcast_ref::<PrimitiveArray<T>>().map(|array| array.value(row))
}

/// Adds a cell to the row that is being built.
pub(super) fn push_cell(into: &mut Rows, array: &dyn Array, row: usize) {
    use ArrowDataType as Type;
    let whole = |value: Option<i64>| value.map(|value| value.to_string());
    let number = match array.dtype() {
        Type::Utf8View => {
            let text = array.as_any().downcast_ref::<Utf8ViewArray>().map_or("", |array| array.value(row));
            return into.push_typed(text, CellKind::Text);
        }
        Type::Boolean => {
            let value = array.as_any().downcast_ref::<BooleanArray>().is_some_and(|array| array.value(row));
            return into.push_typed(if value { "yes" } else { "no" }, CellKind::Text);
        }
        Type::Date32 => {
            let seconds = native::<i32>(array, row).map(|days| i64::from(days) * 86_400);
            return into.push_typed(&moment(seconds, 0), CellKind::Date);
        }
        Type::Timestamp(unit, _) => {
            let per_second = match unit {
                TimeUnit::Second => 1,
                TimeUnit::Millisecond => 1_000,
                TimeUnit::Microsecond => 1_000_000,
                TimeUnit::Nanosecond => 1_000_000_000,
            };
            let value = native::<i64>(array, row);
            let rest = value.map_or(0, |value| value.rem_euclid(per_second));
            return into.push_typed(&moment(value.map(|value| value.div_euclid(per_second)), rest), CellKind::Date);
        }
        Type::Int8 => whole(native::<i8>(array, row).map(i64::from)),
        Type::Int16 => whole(native::<i16>(array, row).map(i64::from)),
        Type::Int32 | Type::Time32(_) => whole(native::<i32>(array, row).map(i64::from)),
        Type::Int64 | Type::Time64(_) | Type::Duration(_) | Type::Date64 => whole(native::<i64>(array, row)),
        Type::UInt8 => whole(native::<u8>(array, row).map(i64::from)),
        Type::UInt16 => whole(native::<u16>(array, row).map(i64::from)),
        Type::UInt32 => whole(native::<u32>(array, row).map(i64::from)),
        Type::UInt64 => native::<u64>(array, row).map(|value| value.to_string()),
        Type::Float32 => native::<f32>(array, row).filter(|value| !value.is_nan()).map(|value| value.to_string()),
        Type::Float64 => native::<f64>(array, row).filter(|value| !value.is_nan()).map(|value| value.to_string()),
        Type::Decimal(_, scale) | Type::Decimal32(_, scale) | Type::Decimal64(_, scale) => {
            let digits = native::<i128>(array, row)
                .or_else(|| native::<i64>(array, row).map(i128::from))
                .or_else(|| native::<i32>(array, row).map(i128::from));
            digits.map(|digits| decimal(digits, *scale))
        }
        Type::Null => None,
        _ => Some("(not readable)".to_owned()),
    };
    into.push_typed(number.as_deref().unwrap_or(""), CellKind::Number);
}

/// A day or a moment as ISO text, without the time at midnight.
fn moment(seconds: Option<i64>, rest: i64) -> String {
    let Some(moment) = seconds.and_then(|seconds| chrono::DateTime::from_timestamp(seconds, 0)) else {
        return String::new();
    };
    if seconds.is_some_and(|seconds| seconds.rem_euclid(86_400) == 0) && rest == 0 {
        moment.format("%Y-%m-%d").to_string()
    } else {
        moment.format("%Y-%m-%d %H:%M:%S").to_string()
    }
}

fn decimal(digits: i128, scale: usize) -> String {
    let figures = format!("{:0>width$}", digits.unsigned_abs(), width = scale + 1);
    let (whole, part) = figures.split_at(figures.len() - scale);
    let sign = if digits < 0 { "-" } else { "" };
    let part = part.trim_end_matches('0');
    if part.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{part}") }
}
