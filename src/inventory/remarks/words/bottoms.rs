//! The words beside the ones that a statement of depth begins with.

/// Words that say alone that a hole has fallen in.
pub const CAVED: &[&str] =
    &["caved", "collapsed", "bridged", "effondre", "derrumbado", "colapsado", "desmoronado", "desabou", "eboule"];

/// Words before `down to` that make a well deeper.
pub const GOES_DOWN: &[&str] = &["drilled", "went", "dug", "bored", "drove", "go", "taken", "took", "carried", "put"];

/// What stops at the bottom of a well.
pub const SOUNDING: &[&str] =
    &["line", "weight", "tape", "sounder", "plumb", "bob", "lead", "string", "sonda", "sonde", "plomada"];

/// Words behind what is left of a depth.
pub const LEFT: &[&str] = &["now", "left", "open", "remain", "remains", "remaining", "ahora", "maintenant", "agora"];
