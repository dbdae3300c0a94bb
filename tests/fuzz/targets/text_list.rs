//! Lists as text: encoding, delimiter, headings, quotation marks, cells, checks; gzip too. The bytes are the file.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| aftercrest_fuzz::read_list("list.csv", data));
