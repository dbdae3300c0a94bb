//! The type that every well of a list has, where a note says so: `All wells on this list are driven sand points`.

use super::clauses::sentences;
use crate::field::WellType;
use crate::inventory::choices;
use crate::inventory::lexicon;

/// The type that a note gives for all wells; nothing where it makes exceptions, or names another type as well.
pub fn type_of_all(text: &str) -> Option<WellType> {
    const ALL: [&str; 11] =
        ["all", "every", "each", "todos", "todas", "cada", "tous", "toutes", "chaque", "only", "exclusively"];
    const EXCEPT: [&str; 16] = [
        "except",
        "excepting",
        "unless",
        "but",
        "otherwise",
        "most",
        "mostly",
        "nearly",
        "almost",
        "not",
        "salvo",
        "excepto",
        "sauf",
        "menos",
        "casi",
        "quase",
    ];
    let sentences = sentences(text);
    sentences.iter().flat_map(|sentence| sentence.split([';', ','])).find_map(|clause| {
        let words = lexicon::tokens(clause);
        let has = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
        let said = choices::well_type(clause).value().copied();
        said.filter(|_| has(&ALL) && !has(&EXCEPT) && !clause.contains(|c: char| c.is_ascii_digit()))
    })
}

#[cfg(test)]
mod tests {
    use super::type_of_all;
    use crate::field::WellType;

    #[test]
    fn a_note_gives_the_type_of_all_wells() {
        for (note, said) in [
            ("All wells on this list are driven sand points", Some(WellType::Driven)),
            ("Every well on this sheet is a driven sandpoint", Some(WellType::Driven)),
            ("All drilled. Overburden casing to rock, open hole below.", Some(WellType::Drilled)),
            ("Todos los pozos son excavados a mano", Some(WellType::Dug)),
            ("All wells are drilled except where noted", None),
            ("All wells drilled or dug before 1980", None),
            ("All wells to be treated this week", None),
            ("All measured in feet from the ground", None),
            ("Drilled wells: depth in feet", None),
        ] {
            assert_eq!(type_of_all(note), said, "{note}");
        }
    }
}
