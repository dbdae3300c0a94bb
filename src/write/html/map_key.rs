//! Names of a map's groups: beside the frame, each with a line to one of its wells, or in rows below where they are many.

use maud::{Markup, html};

use super::map_mark::{look, shape};
use super::picture::tenth;
use super::text::{cut, plain};

/// From one name to the next, and from a line of a name to the next.
const STEP: f64 = 22.0;
const LINE: f64 = 13.0;
/// From the frame to the marks of the names.
const GAP: f64 = 26.0;
/// Letters of a line of a name beside the frame; a name has two lines at most.
const LETTERS: usize = 21;
/// Letters of a name below.
const LETTERS_BELOW: usize = 48;
/// Names below the map at most; the others are counted.
const BELOW: usize = 24;

/// A group with its name and one of its wells, as it lies in the drawing.
pub(super) struct Entry<'a> {
    pub(super) group: usize,
    pub(super) name: &'a str,
    pub(super) well: (f64, f64),
}

/// The names beside a frame of this width and height, and those that must go below: all of them, where they do not fit.
pub(super) fn beside<'a>(mut entries: Vec<Entry<'a>>, frame: f64, height: f64) -> (Markup, Vec<Entry<'a>>) {
    entries.sort_by(|a, b| a.well.1.total_cmp(&b.well.1));
    let tall = |entry: &Entry<'_>| STEP + LINE * (in_lines(entry.name).len() - 1) as f64;
    if entries.iter().map(tall).sum::<f64>() > height {
        return (html! {}, entries);
    }
    // Each as high as its well, those below it pushed down; and what then runs over is pushed up again.
    let mut middles: Vec<f64> = Vec::with_capacity(entries.len());
    let mut free = 0.0;
    for entry in &entries {
        let middle = (entry.well.1).max(free + tall(entry) / 2.0);
        middles.push(middle);
        free = middle + tall(entry) / 2.0;
    }
    let mut end = height;
    for (middle, entry) in middles.iter_mut().zip(&entries).rev() {
        *middle = middle.min(end - tall(entry) / 2.0);
        end = *middle - tall(entry) / 2.0;
    }
    let x = frame + GAP;
    let markup = html! {
        @for (entry, y) in entries.iter().zip(&middles) {
            @let (well_x, well_y) = entry.well;
            @let lines = in_lines(entry.name);
            path.leader d={ "M" (well_x) " " (well_y) "L" (frame + 6.0) " " (tenth(*y)) "h" (GAP - 14.0) } {}
            path class=(look(entry.group, 0)) d={ "M" (x) " " (tenth(*y)) (shape(entry.group, 0)) } {}
            @let top = y + 4.0 - LINE * (lines.len() - 1) as f64 / 2.0;
            @for (at, line) in lines.iter().enumerate() {
                text.place-name x=(x + 9.0) y=(tenth(top + LINE * at as f64)) { (plain(line)) }
            }
        }
    };
    (markup, Vec::new())
}

/// Names in rows below a map, and how high they are.
pub(super) fn below(entries: &[Entry<'_>], top: f64, width: f64) -> (Markup, f64) {
    const ROW: f64 = 17.0;
    if entries.is_empty() {
        return (html! {}, 0.0);
    }
    let (mut x, mut y) = (8.0, top + 12.0);
    let more = entries.len().saturating_sub(BELOW);
    let mut named: Vec<(Option<usize>, String)> =
        entries.iter().take(BELOW).map(|entry| (Some(entry.group), cut(entry.name, LETTERS_BELOW))).collect();
    if more > 0 {
        named.push((None, format!("and {more} more, in the tables")));
    }
    let mut placed = Vec::with_capacity(named.len());
    for (group, name) in named {
        let needs = 30.0 + name.chars().count() as f64 * 6.6;
        if x + needs > width && x > 8.0 {
            (x, y) = (8.0, y + ROW);
        }
        placed.push((group, name, x, y));
        x += needs;
    }
    let markup = html! {
        @for (group, name, x, y) in &placed {
            @if let Some(group) = group {
                path class=(look(*group, 0)) d={ "M" (x + 6.0) " " (tenth(y - 4.0)) (shape(*group, 0)) } {}
            }
            text x=(x + 15.0) y=(tenth(*y)) { (plain(name)) }
        }
    };
    (markup, y + 8.0 - top)
}

/// A name in two lines at most, cut at its words where they are short enough.
fn in_lines(name: &str) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in name.split_whitespace() {
        let used = lines.last().map_or(0, |line| line.chars().count());
        if used > 0 && used + 1 + word.chars().count() > LETTERS {
            if lines.len() == 2 {
                let last = lines.pop().unwrap_or_default();
                lines.push(cut(&format!("{last} {word}"), LETTERS));
                return lines;
            }
            lines.push(String::new());
        }
        if let Some(line) = lines.last_mut() {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
    }
    lines.iter().map(|line| cut(line, LETTERS)).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)] // A test may stop at what it did not expect.

    use super::*;

    fn entries<'a>(names: &'a [String], step: f64) -> Vec<Entry<'a>> {
        let at = |at: usize| (10.0, 480.0 - at as f64 * step);
        names.iter().enumerate().map(|(group, name)| Entry { group, name, well: at(group) }).collect()
    }

    #[test]
    fn names_stand_beside_the_map_in_the_order_of_their_wells_or_all_of_them_below() {
        let names: Vec<String> = (0..12).map(|at| format!("Depot {at}")).collect();
        let (markup, left) = beside(entries(&names, 2.0), 530.0, 500.0);
        assert!(left.is_empty());
        // None stands on another, and none outside of the height.
        let markup = markup.into_string();
        let mut heights: Vec<f64> = Vec::new();
        for text in markup.split("<text").skip(1) {
            heights.push(text.split("y=\"").nth(1).unwrap().split('"').next().unwrap().parse().unwrap());
        }
        assert_eq!(heights.len(), 12);
        assert!(heights.windows(2).all(|pair| pair[1] - pair[0] >= STEP - 0.2), "{heights:?}");
        assert!(heights.iter().all(|y| (0.0..=504.0).contains(y)), "{heights:?}");
        let many: Vec<String> = (0..40).map(|at| format!("Depot {at}")).collect();
        let (_, left) = beside(entries(&many, 2.0), 530.0, 500.0);
        assert_eq!(left.len(), 40);
        assert!(below(&left, 0.0, 720.0).0.into_string().contains("and 16 more"));
    }

    #[test]
    fn a_long_name_has_two_lines_and_says_that_it_is_cut() {
        assert_eq!(in_lines("Station Yard"), ["Station Yard"]);
        assert_eq!(
            in_lines("Depot of the fire station number 11 at the long road"),
            ["Depot of the fire", "station number 11 at…"]
        );
        assert_eq!(in_lines(&"x".repeat(60))[0].chars().count(), LETTERS);
    }
}
