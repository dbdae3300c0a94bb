//! One heading, asked everything that is asked of headings. The first byte chooses the gallon and the field.
#![no_main]

use aftercrest::field::FIELDS;
use aftercrest::inventory::heading;
use aftercrest::quantity::unit::Gallon;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let [which, text @ ..] = data else { return };
    let text = String::from_utf8_lossy(text);
    let gallon = [None, Some(Gallon::Us), Some(Gallon::Imperial)][usize::from(*which) % 3];
    let field = FIELDS[usize::from(which / 3) % FIELDS.len()].field;
    let tidy = heading::tidy(&text);
    let named = heading::name(&tidy, gallon);
    // The stem without its unit is never longer than what was written.
    let (stem, _) = heading::stem(&tidy, gallon);
    assert!(stem.chars().count() <= 3 * tidy.chars().count());
    heading::unit_for(&tidy, field, gallon);
    heading::unit_below(&tidy, field, gallon);
    heading::is_water_depth(&tidy, gallon);
    if named.is_none() {
        heading::near(&tidy, gallon);
    }
    if let Some((group, below)) = tidy.split_once('|') {
        heading::named_together(group, below, gallon);
    }
});
