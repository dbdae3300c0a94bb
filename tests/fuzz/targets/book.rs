//! Campaign books, and workbooks of plans that come back: sheets with whatever people and programs leave in their cells.
//!
//! The input is text: a line `== name` begins a sheet, every other line is a row, its cells parted by tabs (see
//! `aftercrest_fuzz::laid_out`). The other target of workbooks damages the file itself.
#![no_main]

use aftercrest_fuzz::{forgive_the_readers, laid_out, read_book};
use libfuzzer_sys::fuzz_target;

fuzz_target!(init: forgive_the_readers(), |data: &[u8]| {
    let Ok(text) = std::str::from_utf8(data) else { return };
    read_book(&laid_out(text));
});
