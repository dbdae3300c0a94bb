//! Standard output without control characters: a name in a list may hold what a terminal obeys (clear the screen, set its title).

use std::io::{self, Write};

/// What is written in place of a control character: the replacement character, U+FFFD.
const INSTEAD: &[u8] = "\u{FFFD}".as_bytes();

/// A writer that lets ends of lines and tabs through, and no other control character of ASCII.
pub(super) struct Harmless<W: Write>(pub(super) W);

const fn acts(byte: u8) -> bool {
    (byte < 0x20 && !matches!(byte, b'\n' | b'\t')) || byte == 0x7F
}

impl<W: Write> Write for Harmless<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match bytes.iter().position(|byte| acts(*byte)) {
            None => self.0.write(bytes),
            Some(0) => self.0.write_all(INSTEAD).map(|()| 1),
            Some(at) => self.0.write(&bytes[..at]),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        self.0.flush()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)] // A test may stop at what it did not expect.

    use super::*;

    #[test]
    fn a_terminal_is_given_nothing_to_obey() {
        let mut kept = Vec::new();
        Harmless(&mut kept).write_all("a\u{1b}[2Jb\tc\nÄ\u{7f}".as_bytes()).unwrap();
        assert_eq!(String::from_utf8(kept).unwrap(), "a\u{FFFD}[2Jb\tc\nÄ\u{FFFD}");
    }
}
