//! Whether a note says that the hole below a casing is as wide as the casing: `Hole below casing is same size as casing`.

use crate::inventory::lexicon::{self, Concept, Language};

/// Whether a sentence says so of every well.
pub fn hole_is_as_casing(text: &str, language: Language) -> bool {
    const SAME: [&str; 7] = ["same", "mismo", "misma", "meme", "mesmo", "mesma", "igual"];
    const NOT: [&str; 6] = ["not", "unless", "except", "salvo", "sauf", "exceto"];
    text.split(['.', ';']).any(|sentence| {
        let words = lexicon::tokens(sentence);
        let has = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
        let meaning = lexicon::meaning(&words, language);
        let size = meaning.has(Concept::Size) || meaning.has(Concept::Diameter);
        let hole = meaning.has(Concept::Hole) || meaning.has(Concept::Bore);
        has(&SAME) && !has(&NOT) && size && hole && meaning.has(Concept::Casing)
    })
}

#[cfg(test)]
mod tests {
    use super::hole_is_as_casing;
    use crate::inventory::lexicon::Language;

    #[test]
    fn a_note_tells_of_the_hole_below() {
        for (note, said) in [
            ("TD and SWL below grade. Hole below casing is same size as casing. NR = not recorded", true),
            ("Open hole is the same diameter as the casing", true),
            ("Hole below casing is not the same size as casing", false),
            ("Casing size in inches, same for all. Depth in feet", false),
        ] {
            assert_eq!(hole_is_as_casing(note, Language::English), said, "{note}");
        }
    }
}
