//! Values as people read them: so many digits after the point, thousands apart. Every writer of text shows values alike.

use super::cell::Value;
use super::formula::Outcome;
use crate::quantity::format::grouped;

impl Value {
    /// The value as text; nothing for nothing.
    pub fn shown(&self) -> String {
        match self {
            Self::Empty => String::new(),
            Self::Text(text) => text.clone(),
            Self::Number { value, digits } => number(*value, *digits),
            Self::Count(count) => grouped(&count.to_string()),
            Self::Formula(formula) => match &formula.outcome {
                Outcome::Number(value) => number(*value, formula.digits),
                Outcome::Text(text) => text.clone(),
            },
        }
    }

    /// The number of a value, where it is one.
    pub fn figure(&self) -> Option<f64> {
        match self {
            Self::Number { value, .. } => Some(*value),
            Self::Count(count) => Some(*count as f64),
            Self::Formula(formula) => match formula.outcome {
                Outcome::Number(value) => Some(value),
                Outcome::Text(_) => None,
            },
            Self::Empty | Self::Text(_) => None,
        }
    }
}

/// A number with so many digits after the point.
pub fn number(value: f64, digits: usize) -> String {
    if value.is_infinite() {
        return if value > 0.0 { "beyond measure".to_owned() } else { "below measure".to_owned() };
    }
    let text = format!("{value:.digits$}");
    let (sign, text) = text.strip_prefix('-').map_or(("", text.as_str()), |rest| ("-", rest));
    // A number that rounds to nothing has no sign.
    let sign = if text.bytes().all(|digit| matches!(digit, b'0' | b'.')) { "" } else { sign };
    match text.split_once('.') {
        Some((whole, decimals)) => format!("{sign}{}.{decimals}", grouped(whole)),
        None => format!("{sign}{}", grouped(text)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thousands_stand_apart_and_nothing_has_no_sign() {
        let shown = |value, digits| Value::number(value, digits).shown();
        assert_eq!(shown(1_234_567.891, 2), "1,234,567.89");
        assert_eq!(shown(-0.04, 1), "0.0");
        assert_eq!(shown(-1_000.5, 0), "-1,000");
        assert_eq!(shown(999.5, 0), "1,000");
        assert_eq!(shown(f64::NAN, 1), "");
        assert_eq!(Value::Count(12_000).shown(), "12,000");
    }
}
