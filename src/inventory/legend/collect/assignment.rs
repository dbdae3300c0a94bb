//! Lists of codes, each given to the column whose codes it explains.

use std::collections::BTreeSet;

use super::super::{Explained, Legend, Page, code_key};
use super::columns::{Column, columns_for, named, used_in};
use crate::field::squash;
use crate::inventory::choices;

/// Cells of a row that may hold codes below or above a table; a well has more.
pub(super) const MOST_CELLS: usize = 3;

/// One code list before it is known whose it is.
#[derive(Debug, Default)]
pub(super) struct Found {
    pub(super) page: usize,
    pub(super) row: u32,
    pub(super) title: String,
    pub(super) codes: Vec<(String, String)>,
    /// Whether signs or a heading mark it as a list of codes; else the codes must be in use.
    pub(super) marked: bool,
    pub(super) rows: BTreeSet<u32>,
}

/// Gives every list its column.
pub(super) fn assigned(pages: &[Page<'_>], columns: &[Column], lists: &[Found]) -> Legend {
    let mut legend = Legend::default();
    for found in lists {
        let Page { sheet, rows, heading_row } = pages[found.page];
        let columns = columns_for(pages, columns, found.page);
        let mut targets = named(&found.title, &columns);
        let (nothing, meant): (Vec<_>, Vec<_>) =
            found.codes.iter().cloned().partition(|(_, meaning)| choices::says_nothing(meaning));
        // `Level: G = from the ground, R = from the rim`: codes that stand in another column than the one they speak of.
        let strange: Vec<(String, String)> =
            meant.iter().filter(|(code, _)| !is_held(code, &targets, &columns)).cloned().collect();
        let most = strange.len() > 1 && 2 * strange.len() >= meant.len();
        let elsewhere = used_in(&strange, &columns).filter(|_| !targets.is_empty() && most);
        if let Some(heading) = elsewhere.filter(|heading| !targets.contains(heading)) {
            targets = vec![heading];
        }
        let mut common = Vec::new();
        if targets.is_empty() {
            targets.extend(used_in(&meant, &columns));
            if !found.marked && targets.is_empty() {
                continue; // Two cells beside each other, and no column has such codes.
            }
            common = nothing;
        } else if !found.marked {
            // `Kind: DR drilled, DG dug; 998 = not measured`: a code that its column never holds is one of the others.
            common = nothing.into_iter().filter(|(code, _)| !is_held(code, &targets, &columns)).collect();
        }
        // Wells with a code beside them stay wells.
        let alone = |number: &&u32| {
            let row = (0..rows.len()).find(|row| rows.number(*row) == **number);
            heading_row.is_none() || row.is_some_and(|row| rows.filled(row).count() <= MOST_CELLS)
        };
        legend.rows.extend(found.rows.iter().filter(alone).map(|row| (sheet.to_owned(), *row)));
        let scope = heading_row.map(|_| sheet.to_owned());
        let own: Vec<(String, String)> = found.codes.iter().filter(|code| !common.contains(code)).cloned().collect();
        let (own, of_others) = if found.title.is_empty() { apart(own, &targets, &columns) } else { (own, Vec::new()) };
        let of_targets = targets.iter().filter(|_| !own.is_empty()).map(|heading| (heading.clone(), own.clone()));
        for (heading, of_it) in of_targets.chain(of_others) {
            let codes = legend.columns.entry((scope.clone(), squash(&heading))).or_default();
            for (code, meaning) in &of_it {
                codes.entry(code_key(code)).or_insert_with(|| meaning.clone());
            }
            legend.say(sheet, found.row, Some(&heading), of_it);
        }
        if !common.is_empty() {
            let codes = legend.everywhere.entry(scope).or_default();
            for (code, meaning) in &common {
                codes.entry(code_key(code)).or_insert_with(|| meaning.clone());
            }
            legend.say(sheet, found.row, None, common);
        }
    }
    for page in pages.iter().filter(|page| !page.rows.is_empty()) {
        let on = legend.rows.iter().filter(|(sheet, _)| sheet == page.sheet).count();
        // A title, a row of headings and a few lines of words may stand among the codes.
        if on >= 2 && on * 2 >= page.rows.len() && !page.sheet.is_empty() {
            legend.sheets.insert(page.sheet.to_owned());
        }
    }
    legend
}

/// Codes with their meanings, as written.
type Meanings = Vec<(String, String)>;

/// One list may explain the codes of several columns: `DR = drilled, DU = dug; GS = ground surface, SP = septic`. What stands in none of
/// the targets and in another column is that one's.
fn apart(codes: Meanings, targets: &[String], columns: &[&Column]) -> (Meanings, Vec<(String, Meanings)>) {
    const FEWEST: usize = 2;
    let mut of_others = Vec::new();
    let (mut own, mut rest): (Meanings, Meanings) =
        codes.into_iter().partition(|(code, _)| is_held(code, targets, columns));
    while let Some(heading) = used_in(&rest, columns).filter(|_| !targets.is_empty()) {
        let of_one = [heading];
        let (of_it, others): (Meanings, Meanings) =
            rest.iter().cloned().partition(|(code, _)| is_held(code, &of_one, columns));
        if of_it.len() < FEWEST {
            break;
        }
        rest = others;
        let [heading] = of_one;
        of_others.push((heading, of_it));
    }
    own.extend(rest);
    (own, of_others)
}

/// Whether a code stands in a column of one of these headings.
fn is_held(code: &str, headings: &[String], columns: &[&Column]) -> bool {
    let named = |column: &&&Column| headings.contains(&column.heading);
    columns.iter().filter(named).any(|column| column.values.contains_key(&code_key(code)))
}

impl Legend {
    fn say(&mut self, sheet: &str, row: u32, heading: Option<&str>, codes: Vec<(String, String)>) {
        let heading = heading.map(str::to_owned);
        let same = |said: &&mut Explained| said.sheet == sheet && said.heading == heading;
        match self.explained.iter_mut().find(same) {
            Some(said) => said.codes.extend(codes),
            None => self.explained.push(Explained { sheet: sheet.to_owned(), row, heading, codes }),
        }
    }
}
