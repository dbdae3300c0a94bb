"""Makes the invented demo campaign under fixtures/demo/: the lists of two counties after a flood over three valleys.

Run from the root of the repository:

    python3 tests/fixtures_from/demo.py          # needs openpyxl, see tests/second_route/requirements.txt

Every place, name, number and price is invented; the coordinates lie in the open Atlantic. The spread of depths,
diameters, levels and yields follows what public registers show for each type of well (British Columbia casing table,
export of 2024-03-28; California domestic wells): drilled wells mostly 6 in and 60 to 400 ft, dug wells about 36 in and
15 to 30 ft, driven points 2 in. The faults are those that real lists have; each one is planted by name in `plant_*`
below and listed, with its place, in fixtures/demo/planted-faults.csv.

The same bytes come out on every run: own random numbers, fixed time stamps inside the workbook.
"""

import csv
import io
import re
import zipfile
from pathlib import Path

from openpyxl import Workbook
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter

HERE = Path(__file__).resolve().parent
OUT = HERE.parent.parent / "fixtures" / "demo"
SCENARIOS = HERE.parent.parent / "scenarios" / "demo.toml"
WORKBOOK = "harrowfen-county.xlsx"
TABLE = "quillmoor-county.csv"


class Dice:
    """A linear congruential generator (constants of Knuth's MMIX), so that no library update can move a number."""

    def __init__(self, seed):
        self.state = seed

    def share(self):
        """A number from 0 up to 1."""
        self.state = (6364136223846793005 * self.state + 1442695040888963407) % 2**64
        return (self.state >> 11) / 2**53

    def between(self, low, high, step):
        """A multiple of `step` from `low` to `high`."""
        return round(low + step * int(self.share() * ((high - low) / step + 1)), 6)

    def lean(self, low, high, step):
        """The same, with small values more frequent."""
        return round(low + step * int(self.share() ** 2 * ((high - low) / step + 1)), 6)

    def pick(self, *weighted):
        """One of (value, weight) pairs."""
        mark = self.share() * sum(weight for _, weight in weighted)
        for value, weight in weighted:
            mark -= weight
            if mark < 0:
                return value
        return weighted[-1][0]

    def happens(self, share):
        return self.share() < share


def well(dice, kind):
    """One well in feet, inches, US gallons and degrees Fahrenheit; None is a blank cell."""
    row = dict.fromkeys(
        "depth level diameter casing_depth open_hole material volume column plumbing".split()
    )
    row["kind"] = kind
    if kind == "drilled":
        row["depth"] = dice.pick(
            (dice.between(60, 200, 10), 5), (dice.between(140, 400, 20), 4), (dice.between(60, 400, 1), 2)
        )
        row["level"] = min(dice.lean(8, 90, 1), row["depth"] - 25)
        row["diameter"] = dice.pick((6, 14), (6.25, 2), (5, 2), (8, 1))
        row["material"] = dice.pick(("steel", 5), ("PVC", 3))
        if dice.happens(0.45):
            row["casing_depth"] = min(dice.between(20, 120, 5), row["depth"] - 10)
            if dice.happens(0.8):
                row["open_hole"] = dice.pick((row["diameter"] - 0.125, 2), (row["diameter"], 1))
        row["plumbing"] = dice.between(20, 120, 10) if dice.happens(0.5) else None
    elif kind == "driven":
        row["depth"] = dice.between(18, 45, 1)
        row["level"] = dice.between(4, 14, 0.5)
        row["diameter"] = dice.pick((2, 5), (1.25, 2))
        row["material"] = "steel"
    elif kind == "bored":
        row["depth"] = dice.between(25, 60, 1)
        row["level"] = dice.between(6, 20, 0.5)
        row["diameter"] = dice.pick((24, 4), (18, 1), (30, 2), (36, 1))
        row["material"] = dice.pick(("concrete tile", 3), ("fiberglass", 1))
    elif kind == "dug":
        row["depth"] = dice.between(15, 30, 0.5)
        row["level"] = dice.between(2, 11, 0.5)
        row["diameter"] = dice.pick((36, 6), (30, 1), (42, 1), (48, 3), (60, 1))
        row["material"] = dice.pick(("stone", 3), ("concrete ring", 2), ("brick", 1))
    else:
        row["volume"] = dice.between(150, 900, 10)
        row["material"] = "concrete"
    pumped = kind == "drilled" or dice.happens(0.6)
    row["pump"] = dice.between(4, 15, 0.5) if pumped and dice.happens(0.85) else None
    row["yield"] = dice.lean(1, 40, 0.5) if dice.happens(0.55) else None
    row["temperature"] = dice.between(47, 58, 0.5) if dice.happens(0.6) else None
    measured = dice.happens(0.55)
    row["ph"] = dice.between(6.1, 8.3, 0.1) if measured else None
    row["alkalinity"] = dice.between(25, 340, 5) if measured and dice.happens(0.85) else None
    row["iron"] = dice.lean(0, 8, 0.05) if dice.happens(0.5) else None
    row["manganese"] = dice.lean(0, 0.7, 0.01) if row["iron"] is not None and dice.happens(0.6) else None
    row["sulfide"] = dice.lean(0, 1.5, 0.1) if dice.happens(0.12) else None
    row["ammonia"] = dice.lean(0, 0.8, 0.05) if dice.happens(0.15) else None
    row["carbon"] = dice.lean(0.5, 6, 0.1) if dice.happens(0.15) else None
    row["route"] = dice.pick(
        ("land", 8), ("storm_drain", 2), ("stream", 3), ("sanitary_sewer", 1), ("septic", 1), ("hauled", 0.5)
    )
    row["flooded"] = dice.pick(("yes", 6), ("no", 3), (None, 1))
    row["users"] = dice.pick((dice.between(1, 8, 1), 8), (dice.between(10, 80, 5), 2), (dice.between(100, 600, 10), 1))
    row["road"] = dice.pick(("paved", 5), ("gravel", 4), ("track, 4x4 only", 1), (None, 1))
    row["note"] = dice.pick(
        (None, 12), ("key with neighbour", 1), ("cap missing", 1), ("silt on the pump house floor", 1), ("dog", 1),
        ("smells of fuel, ask before treating", 0.4), ("shared by two houses", 1), ("softener in the cellar", 0.6),
    )
    return row


def wells(dice, counts):
    """Wells of all types, mixed."""
    left = dict(counts)
    made = []
    while any(left.values()):
        kind = dice.pick(*left.items())
        if left[kind]:
            left[kind] -= 1
            made.append(well(dice, kind))
    return made


def place(dice, row, south, west):
    row["latitude"] = round(south + 0.15 * dice.share(), 5)
    row["longitude"] = round(west + 0.2 * dice.share(), 5)


# --- Harrowfen County, sheet "Sorrel valley": units in the headings -------------------------------------------------

SORREL_HEADINGS = [
    "Well No.", "Visit", "Valley", "Supply depot", "Type", "Lat", "Long", "Depth (ft)", "Static level (ft)",
    "Casing dia (in)", "Casing depth (ft)", "Open hole dia (in)", "Casing material", "Box volume (gal)",
    "Plumbing (gal)", "Pump capacity (gpm)", "Yield (gpm)", "Water temp (F)", "pH", "Alkalinity (mg/L)",
    "Iron (mg/L)", "Mn (mg/L)", "H2S (mg/L)", "Discharge", "Flooded", "Users", "Access road", "Notes",
]
SORREL_TYPES = {"drilled": "Drilled", "driven": "Driven", "bored": "Bored", "dug": "Dug", "spring_box": "Spring box"}
ROUTES = {
    "land": "Land", "storm_drain": "Storm drain", "stream": "Stream", "sanitary_sewer": "Sanitary sewer",
    "septic": "Septic", "hauled": "Hauled",
}


def sorrel():
    dice = Dice(20260402)
    table = []
    for number, row in enumerate(
        wells(dice, {"drilled": 48, "driven": 12, "bored": 9, "dug": 19, "spring_box": 6}), start=1
    ):
        place(dice, row, 45.40, -30.70)
        depot = dice.pick(("Mill Lane", 3), ("North Barn", 2))
        table.append(dict(zip(SORREL_HEADINGS, [
            f"{100 + number:05}", None, "Sorrel", depot, SORREL_TYPES[row["kind"]], row["latitude"], row["longitude"],
            row["depth"], row["level"], row["diameter"], row["casing_depth"], row["open_hole"], row["material"],
            row["volume"], row["plumbing"], row["pump"], row["yield"], row["temperature"], row["ph"],
            row["alkalinity"], row["iron"], row["manganese"], row["sulfide"], ROUTES[row["route"]],
            {"yes": "Yes", "no": "No", None: None}[row["flooded"]], row["users"], row["road"], row["note"],
        ], strict=True)))
    return table


# --- Harrowfen County, sheet "Orrith valley": units in the cells, or nowhere -------------------------------------------

ORRITH_HEADINGS = [
    "Well ID", "Valley", "Supply depot", "Construction", "Well depth", "Depth to water", "Casing size", "Lining",
    "Water volume (gal)", "Pump (gpm)", "Yield (gpm)", "Temp (F)", "pH", "Total alkalinity (mg/L)", "Iron (mg/L)",
    "Manganese (mg/L)", "Sulfide (mg/L)", "Flush to", "Submerged", "People served", "Access road", "Remarks",
]
ORRITH_TYPES = {
    "drilled": "Drilled well", "driven": "Sand point", "bored": "Bored well", "dug": "Dug well", "spring_box": "Spring",
}
ORRITH_ROUTES = {
    "land": "field", "storm_drain": "storm sewer", "stream": "creek", "sanitary_sewer": "sewer",
    "septic": "septic tank", "hauled": "tanker",
}


def feet_text(feet):
    """`27 ft`, `12 ft 6 in`."""
    whole = int(feet)
    inches = round((feet - whole) * 12, 3)
    return f"{whole} ft {inches:g} in" if inches else f"{whole} ft"


def inch_text(inches):
    """`6"`, `6 1/4"`."""
    fractions = {0: "", 0.25: " 1/4", 0.5: " 1/2", 0.75: " 3/4"}
    return f'{int(inches)}{fractions[inches - int(inches)]}"'


def orrith():
    dice = Dice(77001)
    table = []
    for number, row in enumerate(
        wells(dice, {"drilled": 38, "driven": 8, "bored": 8, "dug": 14, "spring_box": 5}), start=1
    ):
        depot = dice.pick(("North Barn", 2), ("Fairground", 3))
        style = dice.pick(("number", 6), ("text", 4))
        depth, level, diameter = row["depth"], row["level"], row["diameter"]
        if style == "text" and depth is not None:
            depth, level, diameter = feet_text(depth), feet_text(level), inch_text(diameter)
        table.append(dict(zip(ORRITH_HEADINGS, [
            f"W-{200 + number}", "Orrith", depot, ORRITH_TYPES[row["kind"]], depth, level, diameter, row["material"],
            row["volume"], row["pump"], row["yield"], row["temperature"], row["ph"], row["alkalinity"], row["iron"],
            row["manganese"], row["sulfide"], ORRITH_ROUTES[row["route"]],
            {"yes": "Y", "no": "N", None: None}[row["flooded"]], row["users"], row["road"], row["note"],
        ], strict=True)))
    return table


# --- Quillmoor County: semicolons, metres, millimetres, other words ---------------------------------------------------

QUILLMOOR_HEADINGS = [
    "bore id", "visit no", "district", "depot", "source type", "lat_deg", "lon_deg", "total depth (m)",
    "rest water level (m)", "height of water", "inside diameter (mm)", "lined to (m)", "hole diameter (mm)", "lining",
    "tank volume (L)", "system volume (L)", "pumping rate (L/min)", "safe yield (m3/h)", "temperature (°C)", "ph value",
    "alkalinity as CaCO3 (mg/L)", "Fe (µg/L)", "Mn (µg/L)", "ammonia as N (mg/L)", "DOC (mg/L)", "drains to",
    "under water", "population served", "Access road", "observations",
]
QUILLMOOR_TYPES = {
    "drilled": "borehole", "driven": "driven point", "bored": "augered", "dug": "hand dug",
    "spring_box": "spring chamber",
}
QUILLMOOR_ROUTES = {
    "land": "on land", "storm_drain": "stormwater", "stream": "ditch", "sanitary_sewer": "public sewer",
    "septic": "septic system", "hauled": "hauled away",
}


def metric(value, factor, digits):
    return None if value is None else round(value * factor, digits)


def quillmoor():
    dice = Dice(5150)
    table = []
    for number, row in enumerate(
        wells(dice, {"drilled": 38, "driven": 8, "bored": 8, "dug": 13, "spring_box": 5}), start=1
    ):
        district = "Orrith" if number <= 14 else "Tarrow"
        place(dice, row, 45.10, -30.35)
        depot = "Fairground" if district == "Orrith" else dice.pick(("Station Yard", 4), ("Fairground", 1))
        level, column = metric(row["level"], 0.3048, 2), None
        if row["kind"] == "dug" and dice.happens(0.3):  # measured with a stick: the height of the water, not its depth
            level, column = None, round((row["depth"] - row["level"]) * 0.3048, 2)
        temperature = None if row["temperature"] is None else round((row["temperature"] - 32) / 1.8, 1)
        table.append(dict(zip(QUILLMOOR_HEADINGS, [
            f"{4100 + number}-{number % 7:02}", 1, district, depot, QUILLMOOR_TYPES[row["kind"]], row["latitude"],
            row["longitude"], metric(row["depth"], 0.3048, 1), level, column,
            metric(row["diameter"], 25.4, 0), metric(row["casing_depth"], 0.3048, 1), metric(row["open_hole"], 25.4, 0),
            row["material"], metric(row["volume"], 3.785, 0), metric(row["plumbing"], 3.785, 0),
            metric(row["pump"], 3.785, 0), metric(row["yield"], 0.2271, 2), temperature, row["ph"], row["alkalinity"],
            metric(row["iron"], 1000, 0), metric(row["manganese"], 1000, 0), row["ammonia"], row["carbon"],
            QUILLMOOR_ROUTES[row["route"]], row["flooded"], row["users"], row["road"], row["note"],
        ], strict=True)))
    return table


# --- The faults ------------------------------------------------------------------------------------------------------


class Faults:
    """Plants faults in one table and remembers where."""

    def __init__(self, table, id_heading, type_heading, types):
        self.table, self.id_heading, self.type_heading = table, id_heading, type_heading
        self.types = {word: kind for kind, word in types.items()}
        self.planted = []
        self.used = set()
        self.dice = Dice(len(table))

    def next(self, kind, *filled):
        """Any row of a type that has no fault yet and has something in the headings named."""
        free = [
            row for row in self.table
            if id(row) not in self.used and self.types.get(row[self.type_heading]) == kind
            and all(row[heading] is not None for heading in filled)
        ]
        row = free[int(self.dice.share() * len(free))]
        self.used.add(id(row))
        return row

    def put(self, row, heading, value, fault):
        row[heading] = value
        self.planted.append((row, heading, value, fault))

    def repeat(self, row, fault, **changes):
        """Inserts a second row of the same well some rows further down."""
        again = dict(row)
        self.used.add(id(again))
        at = next(index for index, other in enumerate(self.table) if other is row)
        self.table.insert(min(at + 4, len(self.table)), again)
        self.planted.append((again, self.id_heading, again[self.id_heading], fault))
        for heading, value in changes.items():
            again[heading] = value
        return again


def plant_sorrel(table):
    faults = Faults(table, "Well No.", "Type", SORREL_TYPES)
    depth, level, diameter = "Depth (ft)", "Static level (ft)", "Casing dia (in)"
    # The spring boxes' and the driven points' blanks in other columns are no faults.
    for _ in range(3):
        faults.put(faults.next("drilled"), diameter, None, "diameter blank; [missing] has a rule for drilled wells")
    faults.put(faults.next("drilled"), diameter, "NA", "diameter written NA")
    faults.put(faults.next("drilled"), diameter, 0, "a zero that means not known")
    for _ in range(2):
        faults.put(faults.next("drilled"), level, None, "water level blank; assumed for drilled wells")
    row = faults.next("drilled")
    faults.put(row, level, None, "water level and diameter blank")
    faults.put(row, diameter, None, "water level and diameter blank")
    for _ in range(4):
        faults.put(faults.next("dug"), diameter, None, "dug well without diameter, the usual case; assumed")
    faults.put(faults.next("driven"), diameter, "unknown", "diameter written unknown; assumed for driven wells")
    faults.put(faults.next("dug"), depth, None, "dug well without depth: no rule, held back")
    faults.put(faults.next("drilled"), depth, -999, "depth -999")
    faults.put(faults.next("bored"), diameter, None, "bored well without diameter: no rule, held back")
    row = faults.next("drilled", "Casing depth (ft)")
    faults.put(row, depth, 142, "water level below the bottom")
    faults.put(row, level, 157.3, "water level below the bottom")
    row["Casing depth (ft)"] = 40
    faults.put(faults.next("drilled"), diameter, 600, "decimal point lost: 6.00 in became 600")
    row = faults.next("dug")
    faults.put(row, diameter, 132, "very wide for a dug well: unlikely, not impossible")
    faults.put(faults.next("drilled", "pH"), "pH", 72, "decimal point lost: pH 7.2 became 72")
    faults.put(faults.next("drilled", "Water temp (F)"), "Water temp (F)", 521, "decimal point lost: 52.1 F became 521")
    faults.put(faults.next("drilled"), level, -4, "a flowing well: level above ground, no fault")
    faults.put(faults.next("dug"), level, 0, "water at the ground after the flood: a real zero, no fault")
    faults.put(faults.next("drilled"), "Discharge", None, "route unknown")
    faults.put(faults.next("drilled"), "Discharge", "unknown", "route unknown, in words")
    faults.put(faults.next("dug"), "Supply depot", None, "no depot")
    faults.put(faults.next("drilled"), depth, "180", "a number typed as text")
    row = faults.next("drilled")
    faults.put(row, depth, "60-80", "a range instead of a depth, of a third of the water: held back")
    row[level] = 22
    faults.put(faults.next("spring_box"), "Box volume (gal)", None, "spring box without volume: held back")
    faults.put(faults.next("drilled"), "Type", None, "no type: held back")
    faults.put(faults.next("dug"), "Type", "cistern", "not a well: left out and counted")
    faults.put(faults.next("drilled"), "Iron (mg/L)", "ND", "not detected, in words")
    faults.put(faults.next("drilled"), "Long", 30.61204, "west written without its minus: outside the campaign's box")
    faults.put(faults.next("dug"), "Notes", "=crew 2 went, nobody home", "text that starts like a formula")
    faults.put(faults.next("drilled"), "Notes", "+ second tap in the barn", "text that starts like a formula")
    faults.put(faults.next("drilled"), "Notes", "-pump pulled 2019, see file", "text that starts like a formula")
    faults.put(faults.next("drilled"), "Notes", "@home after five", "text that starts like a formula")
    faults.put(faults.next("drilled"), "Users", "1,200", "thousands separator")
    row = faults.next("drilled", "Plumbing (gal)")
    row["Visit"] = 1
    faults.repeat(row, "second visit of the same well, no fault", Visit=2, Notes="second round after a positive sample")
    row = faults.next("dug")
    row["Visit"] = 1
    faults.repeat(row, "second visit of the same well, no fault", Visit=2, Notes="treated again")
    row = faults.next("drilled", level)
    row["Visit"] = 1
    again = faults.repeat(row, "second visit with depth and water level exchanged", Visit=2)
    again[depth], again[level] = row[level], row[depth]
    faults.put(faults.next("drilled"), "Well No.", None, "no id")
    row = faults.next("spring_box", "Box volume (gal)")
    row["Visit"] = None
    faults.put(row, "Box volume (gal)", 500, "a spring that flows: turns over in 100 minutes, fed in the demo, no fault")
    faults.put(row, "Yield (gpm)", 5, "a spring that flows: turns over in 100 minutes, fed in the demo, no fault")
    row["Well No."], row["Discharge"], row["Notes"] = "00199", "Stream", "overflow cannot be closed"
    row = faults.next("dug", diameter)
    faults.put(row, diameter, 60, "a wide dug well of slow yield: emptied, not flushed for a week, no fault")
    row[depth], row[level], row["Yield (gpm)"], row["Pump capacity (gpm)"] = 22, 2, 2, 12
    row["Well No."], row["Discharge"] = "00198", "Land"
    return faults


def plant_orrith(table):
    faults = Faults(table, "Well ID", "Construction", ORRITH_TYPES)
    faults.put(faults.next("drilled"), "Well depth", "120 ft", "unit glued on")
    faults.put(faults.next("drilled"), "Casing size", '6 1/4"', "fraction and inch mark")
    faults.put(faults.next("dug"), "Depth to water", "6 ft 6 in", "feet and inches in one cell")
    faults.put(faults.next("dug"), "Casing size", "3 ft", "feet in a column of inches")
    row = faults.next("drilled")
    faults.put(row, "Well depth", "55 m", "metres in a list of feet")
    faults.put(row, "Depth to water", "12.5 m", "metres in a list of feet")
    faults.put(faults.next("driven"), "Casing size", "2in", "unit glued on without blank")
    faults.put(faults.next("drilled"), "Casing size", "see attached map", "a remark that means not known; assumed")
    for _ in range(3):
        faults.put(faults.next("dug"), "Casing size", None, "dug well without diameter; assumed")
    for _ in range(2):
        faults.put(faults.next("drilled"), "Casing size", "N/A", "diameter written N/A; assumed")
    faults.put(faults.next("drilled"), "Well depth", None, "depth blank; assumed for drilled wells")
    faults.put(faults.next("drilled"), "Well depth", "approx. 90", "a remark before the number")
    faults.put(faults.next("bored"), "Depth to water", None, "bored well without water level: no rule, held back")
    faults.put(faults.next("spring_box"), "Water volume (gal)", "not measured", "spring box without volume")
    row = faults.next("dug")
    faults.put(row, "Well depth", "18 ft", "level below the bottom")
    faults.put(row, "Depth to water", "21 ft", "level below the bottom")
    row = faults.next("drilled")
    faults.repeat(row, "the same row pasted twice", Remarks="copied from the spring list")
    row = faults.next("drilled")
    faults.repeat(row, "one id on two wells", **{"Well depth": 95, "Depth to water": 22, "Casing size": 6})
    faults.put(faults.next("drilled"), "Supply depot", None, "no depot")
    faults.put(faults.next("dug"), "Submerged", "partly", "neither yes nor no")
    faults.put(faults.next("drilled"), "Flush to", "behind the barn", "not a route")
    faults.put(faults.next("drilled"), "Yield (gpm)", 0, "a zero that means not known")
    faults.put(faults.next("drilled"), "Remarks", "=HYPERLINK(\"#A1\",\"map\")", "text that starts like a formula")
    faults.put(faults.next("bored"), "Well depth", "deep", "no number: held back")
    return faults


def plant_quillmoor(table):
    faults = Faults(table, "bore id", "source type", QUILLMOOR_TYPES)
    depth, level, diameter = "total depth (m)", "rest water level (m)", "inside diameter (mm)"
    faults.put(faults.next("drilled"), depth, "54,9", "decimal comma")
    faults.put(faults.next("dug", level), level, "2,35", "decimal comma")
    faults.put(faults.next("drilled"), diameter, "152 mm", "unit glued on")
    faults.put(faults.next("drilled"), diameter, "6 in", "inches in a column of millimetres")
    faults.put(faults.next("drilled"), diameter, 6, "inches in a column of millimetres, unit unsaid: impossible")
    for _ in range(3):
        faults.put(faults.next("drilled"), diameter, None, "diameter blank; assumed")
    for _ in range(3):
        faults.put(faults.next("dug"), diameter, None, "dug well without diameter; assumed")
    faults.put(faults.next("drilled"), level, "-", "a dash for not known; assumed")
    faults.put(faults.next("driven"), level, None, "water level blank; assumed for driven wells")
    faults.put(faults.next("bored"), depth, "?", "a question mark for not known: no rule, held back")
    faults.put(faults.next("drilled"), depth, -9999, "depth -9999")
    row = faults.next("drilled")
    faults.put(row, depth, 18.2, "depth and water level exchanged")
    faults.put(row, level, 61.0, "depth and water level exchanged")
    faults.put(faults.next("spring_box"), "tank volume (L)", None, "spring box without volume: held back")
    faults.put(faults.next("drilled"), "drains to", None, "route unknown")
    row = faults.next("drilled")
    faults.put(row, "pumping rate (L/min)", 0.7, "litres per second in a column of litres per minute: unlikely")
    row = faults.next("drilled")
    faults.put(row, "observations", "two casings;\nsecond one capped", "semicolon and line break in a cell")
    faults.put(faults.next("dug"), "observations", "+44 is not a phone number", "text that starts like a formula")
    faults.put(faults.next("drilled"), "depot", None, "no depot")
    row = faults.next("drilled")
    faults.repeat(row, "the same well and visit again", observations="entered on paper as well")
    row = faults.next("drilled")
    faults.repeat(row, "second visit of the same well, no fault", **{"visit no": 2, "observations": "second round"})
    faults.put(faults.next("drilled"), "lat_deg", -45.17004, "north written with a minus: outside the campaign's box")
    row = faults.next("drilled", depth, level, diameter)
    faults.put(row, diameter, 1524, "decimal point lost: 152.4 mm became 1524, unlikely, and swallows the order")
    row["bore id"], row["depot"], row["hole diameter (mm)"], row["lined to (m)"] = "4199-00", "Station Yard", None, None
    return faults


# --- Writing ---------------------------------------------------------------------------------------------------------


def write_sheet(sheet, titles, headings, table, blank_after=None):
    """Titles above the headings, as counties do; returns the row number of each record."""
    for number, title in enumerate(titles, start=1):
        sheet.cell(number, 1, title).font = Font(bold=number == 1)
    top = len(titles) + 1
    for number, heading in enumerate(headings, start=1):
        sheet.cell(top, number, heading).font = Font(bold=True)
        sheet.column_dimensions[get_column_letter(number)].width = max(9, len(heading) + 2)
    sheet.freeze_panes = sheet.cell(top + 1, 2)
    at, rows = top, {}
    for index, record in enumerate(table):
        at += 2 if index == blank_after else 1
        rows[id(record)] = at
        for number, heading in enumerate(headings, start=1):
            value = record[heading]
            if value is None:
                continue
            if isinstance(value, float) and value == int(value):
                value = int(value)
            cell = sheet.cell(at, number)
            cell.value = value
            if isinstance(value, str):
                cell.data_type = "s"  # text that starts like a formula is text
                if number == 1:
                    cell.number_format = "@"
    return rows


def freeze(data):
    """The same workbook with fixed time stamps, and stored uncompressed: compressors differ between machines."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        for name in sorted(old.namelist(), key=lambda name: (name != "[Content_Types].xml", name)):
            text = old.read(name)
            if name == "docProps/core.xml":
                text = re.sub(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", b"2026-04-02T08:00:00Z", text)
            entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            entry.external_attr = 0o600 << 16
            new.writestr(entry, text)
    return out.getvalue()


def csv_text(value):
    if value is None:
        return ""
    return str(int(value)) if isinstance(value, float) and value == int(value) else str(value)


def spent_drum():
    """Where the scenario file speaks of a drum that nobody should use: planted by hand, found by its words."""
    for number, line in enumerate(SCENARIOS.read_text().splitlines(), start=1):
        if line.startswith("age_days = 400"):
            return ["demo.toml", "", number, "age_days", 400, "a drum forgotten for 400 days at 35 C: nearly nothing is left"]
    raise SystemExit("scenarios/demo.toml has no spent drum")


def main():
    OUT.mkdir(parents=True, exist_ok=True)
    sorrel_table, orrith_table, quillmoor_table = sorrel(), orrith(), quillmoor()
    planted = [
        (WORKBOOK, "Sorrel valley", plant_sorrel(sorrel_table), SORREL_HEADINGS),
        (WORKBOOK, "Orrith valley", plant_orrith(orrith_table), ORRITH_HEADINGS),
        (TABLE, "", plant_quillmoor(quillmoor_table), QUILLMOOR_HEADINGS),
    ]
    book = Workbook()
    first = book.active
    first.title = "Sorrel valley"
    rows = write_sheet(
        first,
        [
            "Harrowfen County (invented) - wells in the flooded area, Sorrel valley",
            "List of 2 April 2026, as far as known", None,
        ],
        SORREL_HEADINGS, sorrel_table, blank_after=40,
    )
    rows |= write_sheet(
        book.create_sheet("Orrith valley"),
        ["Harrowfen County (invented) - Orrith valley, from the paper cards; feet and inches", None],
        ORRITH_HEADINGS, orrith_table,
    )
    data = io.BytesIO()
    book.save(data)
    (OUT / WORKBOOK).write_bytes(freeze(data.getvalue()))

    text = io.StringIO()
    writer = csv.writer(text, delimiter=";", lineterminator="\r\n")
    writer.writerow(QUILLMOOR_HEADINGS)
    line = 2
    for record in quillmoor_table:
        rows[id(record)] = line
        writer.writerow([csv_text(record[heading]) for heading in QUILLMOOR_HEADINGS])
        line += 1 + sum(str(value).count("\n") for value in record.values())
    (OUT / TABLE).write_bytes(b"\xef\xbb\xbf" + text.getvalue().encode())

    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(["file", "sheet", "row", "column", "typed", "fault"])
    for file, sheet, faults, headings in planted:
        for record, heading, value, fault in faults.planted:
            writer.writerow([file, sheet, rows[id(record)], heading, csv_text(value), fault])
    writer.writerow(spent_drum())
    (OUT / "planted-faults.csv").write_text(text.getvalue())
    for file, sheet, faults, _ in planted:
        print(f"{file} {sheet}: {len(faults.table)} rows, {len(faults.planted)} planted")


if __name__ == "__main__":
    main()
