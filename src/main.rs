//! The `aftercrest` command: hands the arguments to the library and returns its exit code.

use std::process::ExitCode;

/// Rows are made of many small texts on all cores; the system's allocator spends a tenth of a run on them.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    aftercrest::cli::main()
}
