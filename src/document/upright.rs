//! Where the pages begin of a sheet that is printed upright: what belongs together stands on one page.

use super::cell::Sheet;

/// Lines of a page, on the safe side, and letters of a line that runs over it.
const PAGE: usize = 56;
const LETTERS: usize = 105;

impl Sheet {
    /// A page for so many lines that stay together where the one that is begun has no room for them; else a line between.
    pub fn keep_together(&mut self, lines: usize) {
        let has_room = self.filled() + 1 + lines <= PAGE;
        self.turn(!has_room);
    }

    /// The same; a page that is more than half full has no room either.
    pub fn set_apart(&mut self, lines: usize) {
        let filled = self.filled();
        self.turn(2 * filled > PAGE || filled + 1 + lines > PAGE);
    }

    fn turn(&mut self, is_full: bool) {
        if is_full {
            self.layout.breaks.push(self.rows.len() as u32);
        } else {
            self.gap();
        }
    }

    /// Lines of the page that is begun.
    fn filled(&self) -> usize {
        let begun = self.layout.breaks.last().copied().unwrap_or(0);
        let of = |row: u32| match (self.layout.wide_rows.contains(&row), &self.rows[row as usize][..]) {
            (true, [only]) => only.value.as_text().unwrap_or_default().chars().count().div_ceil(LETTERS).max(1),
            _ => 1,
        };
        (begun..self.rows.len() as u32).map(of).sum()
    }
}
