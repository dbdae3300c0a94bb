//! What a person reads at a prompt of 80 columns, the least that a terminal is expected to have, and of others: no line runs
//! over, and each caution is said once. `check` has tests of its own in `causes`.

use aftercrest::caution;

use crate::running::{Answer, answer, command, folder, place, root};

fn at(width: &str, folder: &std::path::Path, arguments: &[&str]) -> Answer {
    answer(command().current_dir(folder).env("COLUMNS", width).args(arguments))
}

#[track_caller]
fn fits(said: &str, width: usize) {
    for line in said.lines() {
        assert!(line.chars().count() <= width, "{} wide: {line:?}\n{said}", line.chars().count());
    }
}

fn counted(said: &str, text: &str) -> usize {
    said.split_whitespace().collect::<Vec<_>>().join(" ").matches(text).count()
}

#[test]
fn plan_fits_its_terminal_and_says_each_caution_once() {
    let folder = folder();
    for (width, columns) in [(80, "80"), (60, "60"), (120, "120")] {
        let said = at(columns, folder.path(), &["plan", "--demo", "--out", "out", "--replace"]).ended(1);
        fits(&said.out, width);
        fits(&said.err, width);
        for text in caution::in_short() {
            assert!(counted(&said.out, text) <= 1, "{text:?} is said more than once:\n{}", said.out);
        }
        assert_eq!(counted(&said.out, "Never enter a dug well, a well pit or a spring box."), 1, "{}", said.out);
        // The answer stands at the end, with nothing of it lost.
        let end = said.out.split("well visits planned;").last().unwrap();
        assert_eq!(counted(end, "3,472 USD for everything on the order."), 1, "{}", said.out);
    }
    // Without `COLUMNS` a pipe has its own width, whatever the terminal.
    let piped = answer(command().current_dir(folder.path()).args(["plan", "--demo", "--out", "out", "--replace"]));
    assert!(piped.out.lines().any(|line| line.chars().count() > 80));
    fits(&piped.out, 100);
}

#[test]
fn names_as_long_as_people_make_them_fit_as_well() {
    let folder = folder();
    let name = "Private drinking-water wells of the Sorrel valleys.csv";
    place(folder.path(), name, std::fs::read(root().join("tests/pages/long.csv")).unwrap());
    for stated in ["long.toml", "long-unpriced.toml"] {
        place(folder.path(), stated, std::fs::read(root().join("tests/pages").join(stated)).unwrap());
        let said =
            at("80", folder.path(), &["plan", name, "--scenarios", stated, "--out", "out", "--replace"]).ended(1);
        fits(&said.out, 80);
    }
}
