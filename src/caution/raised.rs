//! Cautions that a well's data raise: what each says, and its source.

use crate::source::{Provenance, Source};

use super::{COUNT, Caution, Entry, derived, practice, seen};

/// Texts of [`Caution`], in its order.
pub(super) static RAISED: [(Caution, Entry); COUNT] = [
    (
        Caution::ConfinedSpace,
        Entry {
            word: "confined-space",
            text: "Dug and bored wells, spring boxes and well pits are confined spaces: gas, lack of air and collapse kill. Never enter \
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
