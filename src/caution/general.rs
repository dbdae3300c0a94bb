//! Cautions printed with every answer, whatever the well.

use super::{Entry, derived, practice, seen};

/// Cautions printed with every answer, in the order of printing.
pub static GENERAL: [Entry; 10] = [
    Entry {
        word: "local-code",
        text: "Local code and licensed practice come first. These figures are a planning aid: the authority's target, \
               contact time, discharge and sampling rules, and a licensed contractor's judgment, overrule them.",
        source: practice(),
    },
    Entry {
        word: "never-mix",
        text: "Never mix chlorine products with acid, vinegar, ammonia, other cleaners, fuel or another chlorine product: poison \
               gas, fire or explosion. Add product to water, never water to dry product.",
        source: seen("IMDG code extracts for hypochlorites; Alberta Agriculture, Water Wells, module 6 p. 53"),
    },
    Entry {
        word: "protective-gear",
        text: "Wear goggles or a face shield, chemical gloves, apron and boots; work upwind; keep eye-wash water at hand.",
        source: practice(),
    },
    Entry {
        word: "power-off",
        text: "Switch the pump off and lock it out before opening the well. After a flood, do not energize wet wiring or a wet \
               pump until an electrician has checked it.",
        source: seen("US EPA, flood precautions for private wells"),
    },
    Entry { word: "confined-space", text: "Never enter a dug well, a well pit or a spring box.", source: practice() },
    Entry {
        word: "do-not-drink",
        text: "Do not drink, cook with, bathe in or water animals from the well while chlorine is in it. Do not drink until a \
               sample taken after flushing is free of coliform bacteria. Neither boiling nor chlorine removes fuel or pesticides.",
        source: seen("US CDC and US EPA flood guidance for private wells"),
    },
    Entry {
        word: "discharge",
        text: "Chlorinated water kills fish at a few hundredths of a milligram per liter and upsets septic systems: flush to open \
               ground away from streams and ponds, or neutralize and test. Treat a storm drain as a stream.",
        source: seen("US EPA 440/5-84-030 and AWWA C655-18 as excerpted"),
    },
    Entry {
        word: "stop-on-measurement",
        text: "Flush volumes and times are estimates between plug flow and a mixed tank: stop on a measured residual, not on the \
               clock.",
        source: derived("equations F1 and F2"),
    },
    Entry {
        word: "metal",
        text: "Strong chlorine corrodes metal: do not leave it in the well, the pump or the heater longer than the contact time; bypass \
               softeners and carbon filters.",
        source: practice(),
    },
    Entry {
        word: "unscented",
        text: "Use plain product only: no scented, thickened or color-safe bleach, and no stabilized pool tablets. Check what \
               the label percent means: sodium hypochlorite or available chlorine, by weight or by volume.",
        source: practice(),
    },
];

/// The cautions of every well in a sentence each, the gravest first; [`GENERAL`] has them whole.
pub fn in_short() -> impl Iterator<Item = &'static str> {
    GENERAL.iter().map(|entry| entry.text.split_inclusive(". ").next().unwrap_or(entry.text).trim_end())
}
