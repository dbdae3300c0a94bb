//! Lines that texts quote: each stands once, in `kernel::constants`, and every text that names its figure names the constant's.
//!
//! Texts that are put together take the figure from the constant; those that are written down (cautions, words of the cards, meanings
//! of columns) are held to it here, and no other text of the program may write it.

use std::path::Path;

use aftercrest::caution::{Caution, raised};
use aftercrest::kernel::constants::{
    ACID_PH, CHLORATE_GUIDELINE, Constant, GREATEST_CODED_DOSE, SLOW_PH, STOCK_NEARLY_GONE, STOCK_SPENT, USUAL_CAUSTIC,
};

use super::equations::{root, texts};

/// A constant as a text quotes it: in percent where it is a share.
fn said(constant: &Constant) -> String {
    if [STOCK_SPENT.id, STOCK_NEARLY_GONE.id].contains(&constant.id) {
        return format!("{} %", constant.value * 100.0);
    }
    match constant.unit {
        "mg/L" => format!("{} mg/L", constant.value),
        _ => format!("{}", constant.value),
    }
}

/// Cautions that quote a line; whether their words do too, which are permanent and stand in tables.
const QUOTED: [(Caution, &Constant, bool); 6] = [
    (Caution::AboveFiveHundred, &GREATEST_CODED_DOSE, true),
    (Caution::PhAboveEight, &SLOW_PH, true),
    (Caution::AcidAfterNeutralizing, &ACID_PH, false),
    (Caution::StockSpent, &STOCK_SPENT, false),
    (Caution::StockNearlyGone, &STOCK_NEARLY_GONE, false),
    (Caution::ChlorateLeft, &CHLORATE_GUIDELINE, false),
];

fn words_of(language: &str) -> toml::Table {
    let path = root().join("src/report/crew/words").join(language);
    std::fs::read_to_string(path).unwrap().parse().unwrap()
}

#[test]
fn cautions_in_every_language_say_the_figure_of_the_constant() {
    for (caution, constant, in_word) in QUOTED {
        let (_, entry) = raised().find(|(other, _)| *other == caution).unwrap();
        let figure = said(constant);
        assert!(entry.text.contains(&figure), "{figure}: {}", entry.text);
        assert!(!in_word || entry.word.contains(&format!("{}", constant.value)), "{figure}: {}", entry.word);
        for file in std::fs::read_dir(root().join("src/report/crew/words")).unwrap() {
            let name = file.unwrap().file_name().into_string().unwrap();
            let words = words_of(&name);
            let text = words["caution"][entry.word].as_str().unwrap();
            assert!(text.contains(&figure), "{name}: {figure}: {text}");
        }
    }
}

#[test]
fn columns_that_name_a_line_name_that_of_the_constant() {
    let columns = std::fs::read_to_string(root().join("src/report/scenarios.rs")).unwrap();
    let slow = SLOW_PH.value;
    let expected =
        format!("\"visits_ph_above_{}\", \"Visits with a pH above {slow} after", slow.to_string().replace('.', "_"));
    assert!(columns.contains(&expected), "{expected}");
    let coded = GREATEST_CODED_DOSE.value;
    let expected = format!("\"visits_above_{coded}_mg_per_l\", \"Visits dosed above {coded} mg/L.\"");
    assert!(columns.contains(&expected), "{expected}");
    let ledger = std::fs::read_to_string(root().join("src/ledger/after.rs")).unwrap();
    assert!(ledger.contains(&format!("leaves a pH below {}.", ACID_PH.value)));
}

/// Texts beside those above that write one of the figures as what it is.
#[test]
fn no_other_text_writes_a_line() {
    let allowed = ["kernel/constants.rs", "caution/raised.rs", "report/scenarios.rs", "ledger/after.rs"];
    let lines = [
        format!("pH {}", SLOW_PH.value),
        format!("pH above {}", SLOW_PH.value),
        format!("above {}", GREATEST_CODED_DOSE.value),
        format!("{} mg/L", GREATEST_CODED_DOSE.value),
        format!("below {} mg/L", CHLORATE_GUIDELINE.value),
        format!("below pH {} ", ACID_PH.value),
        format!("{} wt %", USUAL_CAUSTIC.value),
    ];
    for (path, text) in texts(&root().join("src")) {
        let name = path.strip_prefix(root().join("src")).unwrap().to_path_buf();
        if allowed.iter().any(|allowed| name == Path::new(allowed)) {
            continue;
        }
        let code = text.split("#[cfg(test)]").next().unwrap();
        for line in &lines {
            // `2500 mg/L` is another figure.
            let mut found = code.match_indices(line.as_str()).map(|(at, _)| code[..at].chars().next_back());
            let written = found.any(|before| !before.is_some_and(|letter| letter.is_ascii_digit()));
            assert!(!written, "{} writes {line:?}: take it from the constant", name.display());
        }
    }
}
