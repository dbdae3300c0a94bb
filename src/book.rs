//! The campaign book: everything that a campaign states, as one workbook.
//!
//! [`laid_out`] makes its sheets of a tree of stated values and of what was understood of the lists; [`read`] makes the same
//! tree of a book that comes back, every value with its sheet and cell. What the values mean is left to the scenario room, so
//! that a book and a scenario file go through the same readers.

mod about_lists;
mod cells;
mod conditions;
mod counts;
mod dates;
mod edited;
mod figures;
mod form;
mod laid_out;
mod lists;
mod missing;
mod plain;
mod read;
mod read_lists;
mod sheets;
mod standing;
mod start_here;
mod table_reader;

pub use conditions::names_in;
pub use edited::{is_edited, read_edited};
pub use laid_out::{Contents, book};
pub use lists::{Alike, Column, Lacking, Understood, Unread};
pub use read::{Book, LIST_ROWS, PRODUCTS_SHEET, UNITS_OPEN, is_book, read};
pub use read_lists::Repair;
pub use standing::open_points;
