//! The cautions: what can hurt someone or kill a stream, each once, with its text and source.
//!
//! General cautions are printed with every answer; the others are raised by a well's own data and travel with its results
//! as a small set. The kernel raises them, the reports print them. Never a substitute for local code.

use crate::source::{Provenance, Source};

/// One caution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// The word in the `cautions` column.
    pub word: &'static str,
    /// What people read.
    pub text: &'static str,
    /// Where it comes from.
    pub source: Source,
}

/// A caution that a well's own data raise; the order is the order of printing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[repr(u8)]
#[allow(missing_docs)] // Each is spelled out in `RAISED`.
pub enum Caution {
    ConfinedSpace,
    SeawaterDoNotEmpty,
    FlowingWell,
    NeutralizeBeforeStream,
    SepticOverload,
    RouteUnknown,
    FlushRateUnknown,
    FlushLong,
    AboveFiveHundred,
    PhAboveEight,
    PhUnknown,
    AcidAfterNeutralizing,
    SettleLime,
    SulfiteTakesOxygen,
    MetalCasing,
    IronStains,
    AmmoniaBreakpoint,
    AgeOutOfRange,
    StockSpent,
    StockNearlyGone,
    ChlorateLeft,
    Assumed,
    HoldTooShort,
    ResidualTooLow,
    MeasureResidual,
    SpringIsolated,
    SpringFed,
    SpringInflowUnknown,
    EmptyAndRefill,
    CannotBeEmptied,
    HoursAtLeast,
    PlumbingUncounted,
    SepticKeepOut,
}

/// How many raised cautions there are.
const COUNT: usize = 33;
/// A set holds one bit for each.
const _: () = assert!(COUNT <= 64);

const fn seen(citation: &'static str) -> Source {
    Source { citation, locator: "", provenance: Provenance::Seen }
}

const fn practice() -> Source {
    Source { citation: "common practice", locator: "", provenance: Provenance::CommonPractice }
}

const fn derived(citation: &'static str) -> Source {
    Source { citation, locator: "", provenance: Provenance::Derived }
}

/// Texts of [`Caution`], in its order.
static RAISED: [(Caution, Entry); COUNT] = [
    (
        Caution::ConfinedSpace,
        Entry {
            word: "confined-space",
            text: "Dug and bored wells and spring boxes are confined spaces: gas, lack of air and collapse kill. Never enter \
               one; work from above, with a second person present.",
            source: practice(),
        },
    ),
    (
        Caution::SeawaterDoNotEmpty,
        Entry {
            word: "seawater-do-not-empty",
            text: "Seawater got in: do not pump this well empty. Pump slowly and keep the water level up, because salt \
               water follows from below; do not pump again and again to make the water less salty.",
            source: seen("IWMI, After the wave (2011), on the 2004 Indian Ocean tsunami; WHO/WEDC Technical Note 15"),
        },
    ),
    (
        Caution::FlowingWell,
        Entry {
            word: "flowing-well",
            text: "The well flows by itself: it carries the chlorine out at once, onto the ground around it. The amount is for the \
               water below ground only; stop the flow or ask a licensed contractor.",
            source: practice(),
        },
    ),
    (
        Caution::NeutralizeBeforeStream,
        Entry {
            word: "neutralize-before-water",
            text: "Flush water goes toward a stream: neutralize it, and test it before it reaches the stream, with a method \
               that can read as low as the limit. Test strips cannot.",
            source: seen("AWWA C655-18, 4.2.2.5 to 4.2.2.6, as excerpted"),
        },
    ),
    (
        Caution::SepticOverload,
        Entry {
            word: "septic",
            text: "Never send the whole flush into the septic system: run it by hose to open ground away from water \
               and from the drain field, or haul it away. Neutralizer is included for all of it; neutralize and test \
               whatever must go in.",
            source: seen("USDA Forest Service tech tip 0523 1301 (2005)"),
        },
    ),
    (
        Caution::RouteUnknown,
        Entry {
            word: "route-unknown",
            text: "No discharge point on record; neutralizer is included to be safe. Check where the water will go before flushing.",
            source: practice(),
        },
    ),
    (
        Caution::FlushRateUnknown,
        Entry {
            word: "flush-rate-unknown",
            text: "Neither the pump rate nor the yield is known, so no flush time can be given.",
            source: practice(),
        },
    ),
    (
        Caution::FlushLong,
        Entry {
            word: "flush-over-a-day",
            text: "Flushing takes more than 24 hours at this rate: plan rests for the pump and the well.",
            source: practice(),
        },
    ),
    (
        Caution::AboveFiveHundred,
        Entry {
            word: "above-500-mg-per-l",
            text: "The dose is above 500 mg/L: at least one state code forbids that, it attacks metal and rubber, raises pH, and \
               works no better.",
            source: seen("COMAR 26.04.04.24 (Maryland)"),
        },
    ),
    (
        Caution::PhAboveEight,
        Entry {
            word: "ph-above-8.5",
            text: "After dosing the pH is above 8.5: little of the chlorine is hypochlorous acid, so it works slowly. Plan a longer \
               contact time, unless this one was lengthened for it already, or dose less. Never add acid to hypochlorite; acid, if used at all, goes into the water first, added by someone \
               trained.",
            source: derived("equations H3 and P2"),
        },
    ),
    (
        Caution::PhUnknown,
        Entry {
            word: "ph-unknown",
            text: "pH or alkalinity was not measured: the pH after dosing, and after neutralizing, is not known. In soft water \
               acid neutralizers (bisulfites, sulfur dioxide, ascorbic acid) can leave pH 3.",
            source: practice(),
        },
    ),
    (
        Caution::AcidAfterNeutralizing,
        Entry {
            word: "acid-after-neutralizing",
            text: "The neutralizer can leave this water more acidic than pH 6, which harms a stream as chlorine does. Use one that \
               leaves no acid (sodium ascorbate, sodium thiosulfate or sodium sulfite; the tables and the crew sheet name \
               one for this water), and test the pH before the water is released.",
            source: derived("equation R6; agrees with a geochemistry solver"),
        },
    ),
    (
        Caution::SettleLime,
        Entry {
            word: "bleaching-powder",
            text: "Bleaching powder: stir it into a bucket of water, let it settle for ten minutes, and pour only the clear \
               liquid; the sludge stays out of the well. Its lime makes water alkaline by an unknown amount, so no \
               pH is given: measure it.",
            source: seen("Directorate of Health Services, Kerala, notes on chlorinating wells after the flood (2018)"),
        },
    ),
    (
        Caution::SulfiteTakesOxygen,
        Entry {
            word: "agent-takes-oxygen",
            text: "Too much of this neutralizer takes the oxygen out of the stream: meter it and test, do not add by eye.",
            source: seen(
                "Lauer & Sanchez, Disinfection of Pipelines and Storage Facilities Field Guide (AWWA 2006), table 7-2",
            ),
        },
    ),
    (
        Caution::MetalCasing,
        Entry {
            word: "metal-casing",
            text: "Metal casing: strong chlorine loosens scale and corrodes pump, cable and fittings. Dilute first, do not exceed \
               the contact time, flush well.",
            source: seen("Washtenaw County (Michigan), well disinfection sheet"),
        },
    ),
    (
        Caution::IronStains,
        Entry {
            word: "iron-or-manganese",
            text: "Iron or manganese will come out of solution: rusty or black water, stains, clogged filters. Bypass softeners \
               and filters; flush by hose, not through the house.",
            source: practice(),
        },
    ),
    (
        Caution::AmmoniaBreakpoint,
        Entry {
            word: "ammonia",
            text: "This dose does not reach breakpoint because of the ammonia in the water, so there will be no free chlorine. \
               Measure free chlorine, not total.",
            source: derived("equation N1"),
        },
    ),
    (
        Caution::AgeOutOfRange,
        Entry {
            word: "age-out-of-range",
            text: "The aging data do not cover this product at its age and storage temperature: have the strength tested.",
            source: seen("Adam & Gordon 1999, Inorg. Chem. 38:1299"),
        },
    ),
    (
        Caution::StockSpent,
        Entry {
            word: "stock-spent",
            text: "The product has less than 60 % of the strength on its label: have it tested, or buy fresh. What it lost has \
               become chlorate, which a chlorine test does not show: flush all of the volume stated and until the residual is below \
               the limit, not by the residual alone.",
            source: derived("equations A3 and A6; the 60 % limit is ours"),
        },
    ),
    (
        Caution::StockNearlyGone,
        Entry {
            word: "stock-nearly-gone",
            text: "DO NOT TREAT BY THIS FIGURE: by its age the product has less than 30 % of its strength left. Test it, or buy \
               fresh. If it is stronger than its age says, this amount is several times too much. It adds much chlorate, \
               which a chlorine test does not show: flush all of the volume stated and until the residual is below the limit.",
            source: derived("equations A3 and A6; the 30 % limit is ours"),
        },
    ),
    (
        Caution::ChlorateLeft,
        Entry {
            word: "chlorate-left",
            text: "The flush that is planned leaves more chlorate than drinking water may hold (0.7 mg/L): flush more volumes than \
               planned and until the residual is below the limit, or use fresher product.",
            source: Source {
                citation: "WHO, Guidelines for drinking-water quality, 4th edition; equations A6 and F2",
                locator: "chlorate, provisional",
                provenance: Provenance::FromMemory,
            },
        },
    ),
    (
        Caution::Assumed,
        Entry {
            word: "rests-on-assumption",
            text: "Part of this figure is assumed, not measured: check depth, diameter and water level at the well.",
            source: practice(),
        },
    ),
    (
        Caution::HoldTooShort,
        Entry {
            word: "hold-too-short",
            text: "The contact time stated is shorter than the chosen rule requires at this concentration: the rule's time is planned \
               instead. Where the concentration is below any that the rule allows, no time is enough: dose more.",
            source: practice(),
        },
    ),
    (
        Caution::ResidualTooLow,
        Entry {
            word: "residual-too-low",
            text: "Less chlorine is left after the contact time than the chosen rule requires: clean the well and dose again.",
            source: seen("Montana ARM 36.21.662: 25 ppm left after 24 h, as an example of such a rule"),
        },
    ),
    (
        Caution::MeasureResidual,
        Entry {
            word: "measure-residual",
            text: "The chosen rule requires a residual after the contact time: measure it before flushing; it cannot be computed.",
            source: practice(),
        },
    ),
    (
        Caution::SpringIsolated,
        Entry {
            word: "spring-close-overflow",
            text: "The spring flows: shut off the supply, close the overflow and, where it can be done, route the inflow \
               around the box. Test the chlorine every few hours and top up: water that finds another way out takes \
               chlorine with it.",
            source: seen("Oregon Health Authority, start-up disinfection of seasonal systems; MIL-HDBK-1164, p. 27"),
        },
    ),
    (
        Caution::SpringFed,
        Entry {
            word: "spring-overflow",
            text: "The spring overflows while chlorine is fed: all of it leaves by the overflow at full strength. \
               Shut off the supply, route the overflow away from streams and ponds, neutralize it where it can reach a stream, and \
               never leave it alone.",
            source: seen("MIL-HDBK-1164, p. 27, Disinfecting Springs; US EPA 440/5-84-030"),
        },
    ),
    (
        Caution::SpringInflowUnknown,
        Entry {
            word: "spring-inflow-unknown",
            text: "It is not on record whether this spring flows: the amount is for the standing water only. Measure the \
               overflow with a bucket and a watch; if it overflows, one dose is gone in a few hours.",
            source: practice(),
        },
    ),
    (
        Caution::EmptyAndRefill,
        Entry {
            word: "empty-and-refill",
            text: "Brush the walls from above with the wall wash before dosing. After the contact time pump the well empty, \
               let it refill, wait, and measure; empty it again until the chlorine is below the limit. Stop pumping \
               if sand comes with the water or the wall moves: the wall of an emptied well can cave in.",
            source: seen("WHO/WEDC Technical Note 1 (2011); UNHCR/WHO, Selecting and using disinfectants (1997)"),
        },
    ),
    (
        Caution::CannotBeEmptied,
        Entry {
            word: "pump-too-weak-to-empty",
            text: "Water flows in faster than half of what this pump takes: the well cannot be pumped empty, and the \
               flush is computed as mixing instead. Bring a stronger pump to empty it.",
            source: practice(),
        },
    ),
    (
        Caution::HoursAtLeast,
        Entry {
            word: "hours-at-least",
            text: "Pump rate or yield is not known: the hours for emptying and refilling are a minimum.",
            source: practice(),
        },
    ),
    (
        Caution::PlumbingUncounted,
        Entry {
            word: "plumbing-not-counted",
            text: "No plumbing is included and the well is small: once this dose circulates through pipes, tank and \
               heater it is far weaker (the figure for 80 US gal of plumbing is listed with the amounts). Include the \
               plumbing, or state a minimum volume.",
            source: seen(
                "COMAR 26.04.04.24 (Maryland): two charges of at least 10 gal, as an example of such a minimum",
            ),
        },
    ),
    (
        Caution::SepticKeepOut,
        Entry {
            word: "septic-keep-out",
            text: "None of the flush goes into the septic system: no neutralizer is included for it. Run all of \
               it by hose to open ground away from water and from the drain field, or haul it away; list septic \
               among the routes that are neutralized if some must go in.",
            source: seen("USDA Forest Service tech tip 0523 1301 (2005)"),
        },
    ),
];

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

/// A set of raised cautions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Cautions(u64);

impl Cautions {
    /// Adds a caution.
    pub fn raise(&mut self, caution: Caution) {
        self.0 |= 1 << caution as u8;
    }

    /// Adds a caution where `condition` holds.
    pub fn raise_if(&mut self, condition: bool, caution: Caution) {
        if condition {
            self.raise(caution);
        }
    }

    /// Whether it is raised.
    pub const fn has(self, caution: Caution) -> bool {
        self.0 >> caution as u8 & 1 == 1
    }

    /// The raised ones in order of printing.
    pub fn iter(self) -> impl Iterator<Item = &'static Entry> {
        RAISED.iter().filter(move |(caution, _)| self.has(*caution)).map(|(_, entry)| entry)
    }

    /// Their words, separated by blanks, as the `cautions` column prints them.
    pub fn words(self) -> String {
        self.iter().map(|entry| entry.word).collect::<Vec<_>>().join(" ")
    }

    /// What people read of them, separated by blanks.
    pub fn sentences(self) -> String {
        self.iter().map(|entry| entry.text).collect::<Vec<_>>().join(" ")
    }

    /// As bits, for counting and caching.
    pub const fn bits(self) -> u64 {
        self.0
    }
}

/// Every caution that a well's data can raise.
pub fn raised() -> impl Iterator<Item = (Caution, &'static Entry)> {
    RAISED.iter().map(|(caution, entry)| (*caution, entry))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_stand_in_the_order_of_the_cautions() {
        for (place, (caution, _)) in RAISED.iter().enumerate() {
            assert_eq!(*caution as usize, place);
        }
    }
}
