//! The `aftercrest` command: hands the arguments to the library and returns its exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    aftercrest::cli::main()
}
