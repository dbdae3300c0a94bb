//! Planned wells that the flood did not reach by the lists, and those of which the lists say nothing: whether they are treated is
//! for the campaign to decide, and all of them are until it does.

use crate::engine::tally::FloodTally;

/// How wells that stayed dry are left out, by the sheets of a campaign book.
pub const BY_SHEET: &str = "a line on the sheet Exceptions with Flooded no, Leave out yes and a Reason";

/// The same by a scenario file.
pub const BY_FILE: &str = "an [[override]] with where = \"NOT flooded\", exclude = true and a reason";

/// `39 of 180 planned wells are called not flooded, of 42 nothing is said`; nothing where no list tells of the flood, or where every
/// well is said to be flooded.
pub fn counted(flood: FloodTally, planned: u64) -> Option<String> {
    let FloodTally { dry, unsaid } = flood;
    if dry + unsaid == 0 || unsaid >= planned {
        return None;
    }
    let are = |count: u64| if count == 1 { "is" } else { "are" };
    Some(match (dry, unsaid) {
        (0, unsaid) => format!("of {unsaid} of {planned} planned wells the lists do not say whether they were flooded"),
        (dry, 0) => format!("{dry} of {planned} planned wells {} not flooded by the lists", are(dry)),
        (dry, unsaid) => {
            format!(
                "{dry} of {planned} planned wells {} not flooded by the lists, of {unsaid} the lists do not say",
                are(dry)
            )
        }
    })
}

/// The same, with how the dry ones are left out.
pub fn says(flood: FloodTally, planned: u64, is_of_book: bool) -> Option<String> {
    let counted = counted(flood, planned)?;
    let leave_out = match flood.dry {
        0 => String::new(),
        _ => format!(" To leave dry wells out: {}.", if is_of_book { BY_SHEET } else { BY_FILE }),
    };
    let mut letters = counted.chars();
    let first: String = letters.next().map_or_else(String::new, |first| first.to_uppercase().collect());
    Some(format!("{first}{}: all of them are treated.{leave_out}", letters.as_str()))
}
