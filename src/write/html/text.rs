//! Text that cannot do harm on a page, and that fits where it stands.

pub use crate::document::plain::plain;

/// The beginning of a text, with an ellipsis where something was cut off.
pub(super) fn cut(text: &str, letters: usize) -> String {
    if text.chars().count() <= letters {
        return text.to_owned();
    }
    let kept: String = text.chars().take(letters.saturating_sub(1)).collect();
    format!("{}…", kept.trim_end())
}
