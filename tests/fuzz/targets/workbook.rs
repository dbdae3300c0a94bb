//! Workbooks by their bytes: the archive around XLSX, ODS and XLSB, and the sectors and records of XLS.
#![no_main]

use aftercrest_fuzz::{forgive_the_readers, read_list};
use libfuzzer_sys::fuzz_target;

fuzz_target!(init: forgive_the_readers(), |data: &[u8]| {
    let has = |word: &[u8]| data.windows(word.len()).any(|window| window == word);
    let name = if data.starts_with(&[0xd0, 0xcf]) {
        "list.xls"
    } else if has(b"workbook.bin") {
        "list.xlsb"
    } else if has(b"content.xml") {
        "list.ods"
    } else {
        "list.xlsx"
    };
    read_list(name, data);
});
