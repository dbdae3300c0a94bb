//! Findings about words that change what a person does at the well.

use super::{Code, Entry};
use crate::finding::Severity;

catalogue! {
    ELECTRIC_DANGER = "S601" "electric-danger" Warning,
        "A crew must know about wires that are down or wet before going near.",
        "What it finds: words in notes, state, casing material or a carried column that report an electrical danger: wires down, exposed wiring, an electric shock, a panel under water.\n\
         Why it matters: a wet or broken wire at the pump kills.\n\
         Example: Notes: power line down across the well house.\n\
         How to fix it: no action needed if correct: the row is planned, and the column Crew flags says electric. If there is no danger, write it in other words.";
    GAS_REPORTED = "S602" "gas-reported" Warning,
        "A crew must know about gas before leaning over a well.",
        "What it finds: words that report methane, a leak or a smell of gas.\n\
         Why it matters: gas in a well, a pit or a pump house burns, explodes or suffocates.\n\
         Example: Notes: smells of gas in the pump house.\n\
         How to fix it: no action needed if correct: the column Crew flags says gas.";
    FUEL_REPORTED = "S603" "fuel-reported" Warning,
        "Chlorine does not remove fuel or oil.",
        "What it finds: words that report fuel, oil, diesel, gasoline or kerosene. What is denied (no fuel smell) is not reported, nor is an oil-lubricated pump.\n\
         Why it matters: the water stays unsafe whatever is poured in, and chlorine products must not meet fuel.\n\
         Example: Notes: smells of fuel, ask before treating.\n\
         How to fix it: ask the health department; leave the well out of the campaign until it has answered.";
    CHEMICALS_REPORTED = "S604" "chemicals-reported" Warning,
        "Chlorine does not remove pesticides or other chemicals.",
        "What it finds: words that report pesticides, solvents, fertilizer or other chemicals.\n\
         Why it matters: the water stays unsafe whatever is poured in.\n\
         Example: Notes: flood water came through the pesticide store.\n\
         How to fix it: ask the health department which tests to take; leave the well out of the campaign until it has answered.";
    DAMAGE_REPORTED = "S605" "damage-reported" Warning,
        "A broken well is repaired before it is treated.",
        "What it finds: words that report a caved-in, collapsed or cracked well or casing.\n\
         Why it matters: the edge may give way, and surface water gets in again.\n\
         Example: Notes: wall caved in on one side.\n\
         How to fix it: have it repaired, or leave it out; the row is planned as it stands, and the column Crew flags says damaged.";
    UNCOVERED = "S606" "uncovered" Warning,
        "A well has a sound cap or cover.",
        "What it finds: words that report an open hole, or a cap, lid, cover or sanitary seal that is missing, loose or broken. A driller's open hole (open hole 60 to 200 ft) is not meant.\n\
         Why it matters: people and animals fall in, and dirt gets in again.\n\
         Example: Notes: cap missing.\n\
         How to fix it: bring a cap; the column Crew flags says uncovered.";
    SEWAGE_REPORTED = "S607" "sewage-reported" Warning,
        "Sewage is stopped before a well is treated.",
        "What it finds: words that report sewage, an overflowing septic tank, a latrine or manure.\n\
         Why it matters: a well that keeps taking it in does not stay clean, and one treatment is often not enough.\n\
         Example: Notes: septic tank overflowed beside the well.\n\
         How to fix it: stop the source first; plan a second round; the column Crew flags says sewage.";
    DEAD_ANIMAL_REPORTED = "S608" "dead-animal-reported" Warning,
        "A dead animal is taken out before a well is treated.",
        "What it finds: words that report a dead animal or a carcass.\n\
         Why it matters: it uses up the chlorine and fouls the water again.\n\
         Example: Notes: dead rat in the water.\n\
         How to fix it: take it out and clean first; the column Crew flags says dead-animal.";
    INFANT_REPORTED = "S609" "infant-reported" Warning,
        "Where an infant or a pregnant woman drinks, other water is left until a sample is clean.",
        "What it finds: words that report a baby, an infant or a pregnancy; also a carried column headed so that says yes or gives a number.\n\
         Why it matters: infants fall ill from less, and nitrate, which chlorine does not remove, harms them most.\n\
         Example: Notes: young family, baby of 3 months.\n\
         How to fix it: bring other water; the column Crew flags says infant-or-pregnant.";
    PATIENT_REPORTED = "S610" "patient-reported" Warning,
        "Where a patient drinks, other water is left until a sample is clean, and a clinic is told beforehand.",
        "What it finds: words that report a patient, dialysis, chemotherapy, oxygen at home, a transplant or weak immunity.\n\
         Why it matters: such people fall ill from less, and chlorine that reaches a dialysis machine injures.\n\
         Example: Notes: home dialysis, call first.\n\
         How to fix it: call before treating; bring other water; the column Crew flags says patient.";
    NOT_FOUND_REPORTED = "S611" "not-found-reported" Warning,
        "A crew can find and reach the well it is sent to.",
        "What it finds: words that say that the well could not be found, is buried or cannot be reached.\n\
         Why it matters: a crew makes the trip for nothing, or treats the wrong well.\n\
         Example: Status: could not locate.\n\
         How to fix it: ask the owner; give coordinates; the column Crew flags says not-found.";
    LOCKED = "S612" "locked" Warning,
        "A crew can get in.",
        "What it finds: words that report a lock, a gate code or a key that someone has.\n\
         Why it matters: a crew makes the trip for nothing.\n\
         Example: Notes: gate code 1-2-3.\n\
         How to fix it: get the key or the code before; the column Crew flags says locked, the notes say more.";
    DOG_REPORTED = "S613" "dog-reported" Warning,
        "A crew knows about a dog before getting out of the truck.",
        "What it finds: words that report a dog, friendly or not; also a carried column headed so that says yes.\n\
         Why it matters: dogs bite strangers.\n\
         Example: Notes: dog is friendly.\n\
         How to fix it: call ahead; the column Crew flags says dog.";
    STINGS_REPORTED = "S614" "stings-reported" Warning,
        "A crew knows about animals that sting or bite before reaching under a cap.",
        "What it finds: words that report bees, wasps, ants, snakes, spiders or scorpions.\n\
         Why it matters: well caps and pump houses are where they nest.\n\
         Example: Notes: wasps under the cap.\n\
         How to fix it: bring what is needed; the column Crew flags says stings-or-bites.";
    UNDER_WATER_REPORTED = "S615" "under-water-reported" Warning,
        "A well is treated once the flood water has gone.",
        "What it finds: words that report that the well is still flooded or under water.\n\
         Why it matters: the water carries the chlorine off and the dirt back in, and hides wires and holes.\n\
         Example: Notes: still flooded.\n\
         How to fix it: go there once the water has gone; the row is planned as it stands, and the column Crew flags says under-water.";
    FLOWING_REPORTED = "S616" "flowing-reported" Warning,
        "The flow of a well is stopped before it is treated.",
        "What it finds: words that report a well that flows over: flows over the top, flowing well; artesian where no level below the ground is given. A spring box is not meant.\n\
         Why it matters: what is poured in runs out onto the ground at once.\n\
         Example: Notes: flows over the top.\n\
         How to fix it: stop the flow, or leave the well to a licensed contractor; the column Crew flags says flowing.";
    SEAWATER_REPORTED = "S617" "seawater-reported" Warning,
        "A well that sea water got into is not pumped empty.",
        "What it finds: words that report sea water, salt water, a storm surge or a tsunami. The row is taken as if its column seawater said yes.\n\
         Why it matters: salt water follows from below into a well that is emptied, and chlorine does not take salt out.\n\
         Example: Notes: storm surge over the well.\n\
         How to fix it: no action needed if correct; the column Crew flags says seawater. If none got in, write it in other words.";
    PIT_REPORTED = "S618" "pit-reported" Warning,
        "Nobody enters a well pit.",
        "What it finds: words that say that the well or its pump stands in a pit. A gravel pit and a pit latrine are not meant.\n\
         Why it matters: gas or a lack of air in a pit kills without warning, and whoever goes in to help as well.\n\
         Example: Notes: well in a pit behind the house.\n\
         How to fix it: no action needed if correct: the row is planned, and the column Crew flags says pit. If there is none, write it in other words.";
    CANNOT_PUMP_REPORTED = "S619" "cannot-pump-reported" Warning,
        "A crew can pump out what it pours in.",
        "What it finds: words that say that there is no power, or that the pump does not run.\n\
         Why it matters: without a pump the chlorine is neither spread nor flushed out, and stays in the water of the house.\n\
         Example: Notes: no power since Friday.\n\
         How to fix it: bring a generator or a pump, or go there once the power is back; the column Crew flags says cannot-pump.";
    ROAD_CLOSED_REPORTED = "S620" "road-closed-reported" Warning,
        "A crew can drive to the well it is sent to.",
        "What it finds: words that say that a road, a driveway or a bridge is closed, flooded or gone.\n\
         Why it matters: a crew makes the trip for nothing, or drives into flood water.\n\
         Example: Notes: road closed at the bridge.\n\
         How to fix it: ask when it opens, and go there then; the column Crew flags says road-closed.";
}
