//! The pictures of the README belong to today's demo: beside them stands what was drawn, which is what the demo says now.
//!
//! Blessing draws those that are out of date anew, by `tests/pages/pictures.py`, which needs python3 and chromium.

use std::fmt::Write as _;
use std::path::Path;
use std::process::Command;

use sha2::{Digest, Sha256};

use super::{blessing, root, same_or_bless};

fn digest(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().fold(String::new(), |mut text, byte| {
        write!(text, "{byte:02x}").unwrap();
        text
    })
}

/// From one text to the next, both included.
fn between<'a>(page: &'a str, from: &str, to: &str) -> &'a str {
    let start = page.find(from).unwrap_or_else(|| panic!("no {from:?}"));
    let end = page[start..].find(to).unwrap_or_else(|| panic!("no {to:?} behind {from:?}"));
    &page[start..start + end + to.len()]
}

/// The markup of what each picture shows.
fn parts(out: &Path) -> [(&'static str, String); 3] {
    let page = |name: &str| std::fs::read_to_string(out.join(name)).unwrap();
    let (report, cards) = (page("report.html"), page("crew-sheets.html"));
    let title = between(&report, "<header>", "</header>");
    let of_a_drilled_well = |card: &&str| card.contains("<span class=\"kind\">Drilled well</span>");
    let card = cards.split("<article class=\"card ").skip(1).find(of_a_drilled_well).unwrap();
    [
        ("director.png", format!("{title}{}", between(&report, "<section id=\"decision\"", "</section>"))),
        ("card.png", card.split("</article>").next().unwrap().to_owned()),
        ("map.png", between(&report, "<section id=\"map\"", "</section>").to_owned()),
    ]
}

/// What a reader sees of a piece of markup, a line for each piece of text.
fn text_of(markup: &str) -> String {
    let mut text = String::new();
    for piece in markup.split('<') {
        let seen = piece.split_once('>').map_or("", |(_, seen)| seen).trim();
        if !seen.is_empty() {
            text.push_str(seen);
            text.push('\n');
        }
    }
    text
}

/// What is written beside the pictures: what they were drawn from, and which bytes came of it.
fn drawn(parts: &[(&str, String)], pictures: &Path) -> String {
    let mut page = String::from(
        "What the pictures of this folder show, and what they were drawn from. Written when the reports are blessed.\n",
    );
    for (name, markup) in parts {
        let picture = std::fs::read(pictures.join(name)).unwrap_or_default();
        write!(page, "\n# {name}\npicture {}\nmarkup {}\n", digest(&picture), digest(markup.as_bytes())).unwrap();
        page.push_str(&text_of(markup));
    }
    page
}

/// Holds the pictures, and what the README says beside them, against a run of the demo.
pub fn hold(out: &Path) {
    let pictures = root().join("reports/pictures");
    let beside = pictures.join("drawn.txt");
    let parts = parts(out);
    let stored = std::fs::read_to_string(&beside).unwrap_or_default();
    if blessing() && stored != drawn(&parts, &pictures) {
        let script = root().join("tests/pages/pictures.py");
        let ran = Command::new("python3").arg("-B").args([&script, out, &pictures]).output().unwrap();
        assert!(ran.status.success(), "the pictures were not drawn:\n{}", String::from_utf8_lossy(&ran.stderr));
    }
    same_or_bless(&beside, drawn(&parts, &pictures).as_bytes());
    // Whoever cannot see a picture is told what it shows, with no figure that it does not show.
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    for (name, markup) in &parts {
        let link = format!("](reports/pictures/{name})");
        let before = readme.split(&link).next().filter(|before| before.len() < readme.len());
        let alternative = before.and_then(|before| before.rsplit("![").next()).unwrap_or_else(|| panic!("no {link}"));
        assert!(alternative.len() > 60, "{name}: {alternative:?} does not say what there is to see");
        let text = text_of(markup);
        for number in alternative.split(|letter: char| !letter.is_ascii_digit() && letter != ',' && letter != '.') {
            let number = number.trim_matches([',', '.']);
            assert!(text.contains(number), "{name}: {number:?} of {alternative:?} is not in the picture");
        }
    }
    assert_eq!(readme.matches("](reports/pictures/").count(), parts.len());
}
