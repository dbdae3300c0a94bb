//! Parquet lists. The bytes are the file; its first four are put right.
#![no_main]

use aftercrest_fuzz::{forgive_the_readers, read_list};
use libfuzzer_sys::fuzz_target;

fuzz_target!(init: forgive_the_readers(), |data: &[u8]| {
    let mut file = data.to_vec();
    // A file without the mark is read as text, which is another target.
    if let Some(mark) = file.first_chunk_mut() {
        *mark = *b"PAR1";
    }
    read_list("list.parquet", &file);
});
