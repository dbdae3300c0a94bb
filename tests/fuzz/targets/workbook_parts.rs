//! Workbooks by their parts: XLSX, ODS and XLSB with what stands inside the archive changed, and the archive sound.
//!
//! The input is a line with the kind (`xlsx`, `ods`, `xlsb`), then each part after a line `--part-- name`.
#![no_main]

use aftercrest_fuzz::{archive, forgive_the_readers, read_list};
use libfuzzer_sys::fuzz_target;

fuzz_target!(init: forgive_the_readers(), |data: &[u8]| {
    let name = match data.first() {
        Some(b'o') => "list.ods",
        _ if data.starts_with(b"xlsb") => "list.xlsb",
        _ => "list.xlsx",
    };
    read_list(name, &archive(data));
});
