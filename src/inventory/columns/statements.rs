//! What the file states of how a column is measured, in its heading, a row of units, a group or a note.

use std::borrow::Cow;

use super::evidence::{Reading, is_counted};
use super::units::{Settled, Source};
use crate::field::rules::UnitSystem;
use crate::field::{Field, WellType};
use crate::inventory::heading::{self, Datum, HeadingUnit};
use crate::inventory::layout::Layout;
use crate::inventory::lexicon;
use crate::inventory::notes::{self, About, Stated};
use crate::quantity::unit::{Dimension, Unit};

/// Wells that are a pipe.
const PIPES: [WellType; 2] = [WellType::Drilled, WellType::Driven];

/// What groups, rows of units and notes state for a field.
pub struct Statements {
    /// The unit for all types of well, and where it stands.
    pub unit: Option<Settled>,
    /// Units for some types of well.
    pub by_type: Vec<(WellType, &'static Unit)>,
    /// What it is counted from.
    pub datum: Option<Datum>,
    /// The same for some types of well.
    pub datum_by_type: Vec<(WellType, Datum)>,
}

/// Whether a clause says from where a tape was let down, and names nothing that was measured with it.
fn only_dips(words: &[String]) -> bool {
    const TAKEN: [&str; 8] = ["dipped", "taped", "sounded", "plumbed", "measured", "sondeado", "medido", "mesure"];
    const FROM: [&str; 5] = ["from", "off", "below", "desde", "depuis"];
    matches!(words, [taken, from, ..] if TAKEN.contains(&taken.as_str()) && FROM.contains(&from.as_str()))
        && !words.iter().any(|word| ["water", "level", "swl", "static", "agua", "nivel"].contains(&word.as_str()))
}

/// Whether a depth was measured with a line at the well.
fn is_plumbed(heading: &[String]) -> bool {
    const PLUMBED: [&str; 8] = ["plumbed", "plumb", "sounded", "taped", "dipped", "sondeada", "sondeado", "plombee"];
    heading.iter().any(|word| PLUMBED.contains(&word.as_str()))
}

/// Gathers what is stated about a column beside its heading.
///
/// `codes` are the list's own words for types of well.
pub fn statements(
    reading: &Reading,
    heading: &str,
    layout: &Layout,
    system: Option<UnitSystem>,
    codes: &[(String, WellType)],
) -> Statements {
    let field = reading.named.field;
    let gallon = system.and_then(UnitSystem::gallon);
    let mut found = Statements { unit: None, by_type: Vec::new(), datum: None, datum_by_type: Vec::new() };
    let Some(quantity) = field.quantity() else { return found };
    if quantity.dimension != Dimension::Length {
        return found;
    }
    let counted = is_counted(field);
    // `TD sounded` among other depths is named by a note that says `Sounded TD off top of casing`.
    let name = lexicon::tokens(&super::plain_heading::without_brackets(heading));
    let names_it = |words: &[String]| name.len() >= 2 && name.iter().all(|word| words.contains(word));
    // A unit in the band above the heading is as good as its own.
    let group = layout.groups.get(reading.column);
    let of_group = group.map_or_else(Vec::new, |group| notes::stated(group, layout.language, gallon, codes));
    let banded = of_group
        .iter()
        .any(|stated| stated.types.is_empty() && stated.unit.is_some_and(|unit| unit.dimension == Dimension::Length));
    let mut of_this = None;
    let mut of_levels = None;
    let mut take = |text: &str, own: bool, found: &mut Statements| {
        let said = notes::stated(text, layout.language, gallon, codes);
        let of_length = |stated: &&Stated| stated.unit.is_some_and(|unit| unit.dimension == Dimension::Length);
        // `Pulgadas de tubo` is in inches, whatever kind of well it is: a pipe in a heading is the thing that is measured.
        let only_unit = own && said.iter().filter(of_length).count() == 1;
        // `in feet and inches`: feet are how deep, inches how wide.
        let both = !own
            && said.iter().filter(of_length).any(is_long)
            && said.iter().filter(of_length).any(|one| !is_long(one));
        for Stated { unit, about, mut types, mut datum, words } in said {
            if only_unit {
                types.clear();
            }
            // What stands in the heading itself is about this column, whatever words it uses.
            // `Dipped from top of casing` is said of a depth that was plumbed as well: both hang from one line.
            let same_line = field == Field::TotalDepth && datum.is_some() && only_dips(&words) && is_plumbed(&name);
            if !own && !notes::concerns(about, field) && !same_line {
                continue;
            }
            let types_are_none = types.is_empty();
            // `Dug wells: bottom and water from the rim. Bores: from the ground`.
            if let Some(of_types) = datum.filter(|_| !types.is_empty() && !own) {
                found.datum_by_type.extend(types.iter().map(|well_type| (*well_type, of_types)));
                datum = None;
            }
            if let Some(unit) = unit.filter(|unit| unit.dimension == Dimension::Length) {
                let long = matches!(unit.symbol, "ft" | "m" | "yd");
                if both && about == About::All && (heading::goes_down(field) && !long || field == Field::StickUp) {
                    continue;
                }
                // No pipe is a foot across, whatever the title says of bores.
                types.retain(|of| !super::is_diameter(field) || own || !long || !PIPES.contains(of));
                if types.is_empty() && !types_are_none {
                    continue;
                }
                if !types.is_empty() {
                    // `mm for bores` says nothing of how deep they are, and `tubes in inches` neither.
                    let narrow = matches!(unit.symbol, "in" | "cm") && field != Field::StickUp && about == About::All;
                    if !super::is_diameter(field) && !own && (unit.symbol == "mm" || narrow) {
                        continue;
                    }
                    // What a heading says itself counts before what is said of everything.
                    if !own && about == About::All && (banded || matches!(reading.named.unit, HeadingUnit::Unit(_))) {
                        continue;
                    }
                    for well_type in types {
                        if !found.by_type.iter().any(|(known, _)| *known == well_type) {
                            found.by_type.push((well_type, unit));
                        }
                    }
                } else if found.unit.is_none() && sensible(unit, field, about, own) {
                    let source = if own { Source::Heading } else { Source::Note(text.to_owned()) };
                    found.unit = Some(Settled { unit, source });
                }
            }
            if !own && counted && types_are_none && names_it(&words) {
                of_this = of_this.or(datum);
            }
            // `Depths from the ground. Level from the rim`: what is said of levels alone counts before what is said of depths.
            if about == About::Levels && field == Field::StaticWaterLevel && !own {
                of_levels = of_levels.or(datum);
            } else if about != About::All || own || datum.is_some() && counted && says_of_measures(text) {
                found.datum = found.datum.or(datum);
            }
        }
    };
    if let Some((narrow, wide)) = heading::narrow_and_wide(heading).filter(|_| super::is_diameter(field)) {
        let of_wide = [WellType::Dug, WellType::SpringBox];
        found.by_type.extend(of_wide.map(|well_type| (well_type, wide)));
        found.unit = Some(Settled { unit: narrow, source: Source::Heading });
    } else if !heading::ends_in_preposition(heading, field) {
        take(heading, true, &mut found);
    }
    if let Some(cell) = layout.units.get(reading.column) {
        take(cell, true, &mut found);
    }
    if let Some(group) = group {
        take(group, false, &mut found);
        // `MEASURED FROM THE RIM (m)` above a column is said of that column, whatever it measures.
        let of_all = of_group.iter().filter(|stated| counted && stated.about == About::All && stated.types.is_empty());
        found.datum = found.datum.or_else(|| of_all.filter_map(|stated| stated.datum).next());
    }
    for note in &layout.notes {
        match explained_with_others(note, &layout.headings) {
            // `HOLE_DIA = …; CSG_DIA = …; all in inches` is said of these columns and of no other.
            Some((columns, all)) if columns.contains(&reading.column) => {
                let settled = found.unit.is_some();
                take(all, true, &mut found);
                if let Some(unit) = found.unit.as_mut().filter(|_| !settled) {
                    unit.source = Source::Note(note.clone());
                }
            }
            Some(_) => {}
            None => take(&without_others(note, layout, reading.column), false, &mut found),
        }
    }
    found.datum = of_this.or(of_levels).or(found.datum);
    // `pipe is inches`, and nothing said of wells that are no pipes: how wide they are, whatever they are.
    if found.unit.is_none()
        && let [(one, unit), (other, same)] = found.by_type.as_slice()
        && PIPES.contains(one)
        && PIPES.contains(other)
        && std::ptr::eq(*unit, *same)
        && let Some(note) = layout.notes.iter().find(|note| lexicon::tokens(note).iter().any(|word| word == "pipe"))
    {
        found.unit = Some(Settled { unit, source: Source::Note(note.clone()) });
        found.by_type.clear();
    }
    found
}

/// Whether a statement names a unit that depths are measured in.
fn is_long(stated: &Stated) -> bool {
    stated.unit.is_some_and(|unit| matches!(unit.symbol, "ft" | "m" | "yd"))
}

/// Whether words speak of whatever is measured: `MEASURED FROM THE RIM`, `medidas desde el borde del brocal`.
fn says_of_measures(text: &str) -> bool {
    const MEASURES: [&str; 12] = [
        "measurements",
        "measurement",
        "measures",
        "measured",
        "medidas",
        "medidos",
        "medido",
        "mediciones",
        "mesures",
        "mesurees",
        "medicoes",
        "everything",
    ];
    lexicon::tokens(text).iter().any(|word| MEASURES.contains(&word.as_str()))
}

/// A note without the sentences that begin with another heading, which say nothing of this column: `HT_EAU : hauteur en m ; HT_TUB en
/// cm`.
fn without_others<'a>(note: &'a str, layout: &Layout, column: usize) -> Cow<'a, str> {
    const SHORTEST: usize = 3;
    const SAYS: [&str; 7] = ["=", ":", "en ", "in ", "em ", "is ", "are "];
    let own = layout.headings.get(column).map_or("", String::as_str);
    // `Depth and level in feet` is said of more than it begins with.
    let begins = |sentence: &str, heading: &String| {
        let rest = sentence.trim_start().strip_prefix(heading.as_str()).map(str::trim_start);
        rest.is_some_and(|rest| SAYS.iter().any(|says| rest.starts_with(says)))
    };
    let is_of_another = |sentence: &str| {
        let mut others = layout.headings.iter().filter(|heading| heading.len() >= SHORTEST && *heading != own);
        others.any(|heading| begins(sentence, heading)) && (own.is_empty() || !sentence.contains(own))
    };
    let mut kept = String::new();
    for part in note.split_inclusive([';', '.']) {
        if !is_of_another(part) {
            kept.push_str(part);
        }
    }
    if kept.len() == note.len() { Cow::Borrowed(note) } else { Cow::Owned(kept) }
}

/// The columns that a note explains by their headings, two at least, and what it says at its end of all of them.
fn explained_with_others<'a>(note: &'a str, headings: &[String]) -> Option<(Vec<usize>, &'a str)> {
    const ALL: [&str; 8] = ["all", "both", "todo", "toda", "todos", "todas", "tout", "toutes"];
    let all = note.rsplit([';', '.']).map(str::trim).find(|part| !part.is_empty())?;
    if !lexicon::tokens(all).first().is_some_and(|first| ALL.contains(&first.as_str())) {
        return None;
    }
    let is_explained = |heading: &str| {
        heading.len() >= 2
            && note.match_indices(heading).any(|(at, _)| {
                let before = note[..at].chars().next_back();
                let behind = note[at + heading.len()..].trim_start();
                behind.starts_with('=') && !before.is_some_and(|c| c.is_alphanumeric() || c == '_')
            })
    };
    let columns: Vec<usize> = (0..headings.len()).filter(|at| is_explained(&headings[*at])).collect();
    (columns.len() >= 2).then_some((columns, all))
}

/// `all in feet` says nothing of diameters, `dia. inches` nothing of depths; a person measures neither so.
fn sensible(unit: &Unit, field: Field, about: About, own: bool) -> bool {
    let diameter = super::is_diameter(field);
    own || about != About::All
        || if diameter { !matches!(unit.symbol, "ft" | "m" | "yd") } else { !matches!(unit.symbol, "mm") }
}
