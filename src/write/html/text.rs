//! Text that cannot do harm on a page.

pub use crate::document::plain::plain;
