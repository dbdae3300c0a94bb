"""The demo campaign computed a second time, by another road, and compared with what Aftercrest wrote.

    aftercrest plan --demo --out campaign --table csv        # or parquet, the usual
    python3 tests/second_route/second_route.py campaign      # needs requirements.txt beside this file

Reads fixtures/demo/* and scenarios/demo.toml itself and shares nothing with the program but the stated method. Compares
every number of `treatments`, `visits` and `scenarios` (parquet or csv), of `totals.csv` and of the product lines of `orders.csv` to 1e-9 relative
(pH and the share of HOCl to 1e-6), and the words too: outcome, route, agent, unit, what was assumed. Prints how many
cells agreed; ends with 1 on any disagreement and names the first twenty. With `--control` it spoils one number of its
own in each of treatments and totals by 1e-8 and ends with 0 only if it finds exactly those two.

It is a check and no product: its reading of the lists is written for the faults of the demo and for nothing else.

The equations, as stated in the method (mg/L of chlorine are as Cl2 throughout):

water        V = sum of pi/4 d^2 over the stretches between max(level, 0) and the bottom;
             treated = allowance V + plumbing
demand       Fe 0.5, Mn 1, H2S 4 (to sulfate), N of ammonia 1.5 (breakpoint), N of nitrite 1 mol Cl2 per mol, 1 mg/mg C;
             the sum over what was measured, or the allowance where nothing was
strength     trade % x 10 = g/L; % NaOCl by weight through the density SG = 1 + 1.3083e-3 G + 0.01507 w
aging       G = G0 / (1 + m k2 c0 t), Adam & Gordon 1999, m = 1.25 (0.8 to 1.6); dry: exp(-0.04 a), 0.03 to 0.05
measure      rounded up to the graduation of a measure chosen by the amount; for the typical or the high reading
chlorate     a third of what is lost of the hypochlorite, by moles, with the product that is poured
pH           strong-ion balance, carbonate system closed, constants of Plummer & Busenberg 1982 and Morris 1966, ion
             pairs with the sodium and calcium of the product, activities by Davies
flush        volumes = max(1, ln(C0 / until)), and the stated number; C0 as measured out, unless a residual is stated
emptying     dug wells and spring boxes: every emptying leaves a share s; counted until below the limit; water and hours by
             the balance of pump and inflow; walls washed with pi d depth (a box: four sides of a cube) times L/m2
springs      isolated: the inflow fills the box up by a share at most; fed: dose x inflow x hold on top, which runs over
neutralized  the same balance without the chlorine, with what the agent leaves on what chlorine is left: ascorbic acid 0 or -1
             eq/mol, sulfite 0
neutralizer  (C0 treated - limit flush + wash + what runs over above the limit) x agent ratio x (1 + excess), where the
             route asks for it or is unknown
roll-up      first round; repeat = share x first; loss = share x (first + repeat); whole packages at least cost

Readings chosen where the method leaves room:

* Overrides come last: over the practice and over what a scenario sets.
* The pH is computed for the dose that is really measured out; the caustic is that of the label strength.
* A stock is stored through its legs up to its age; the last leg lasts to the end.
* The least amount takes the least water and the least aged product, the greatest the most of both.
* A cell that cannot be read, or cannot be true, holds a well back where the water volume or the demand rests on it;
  elsewhere (pH, temperature, rates, route) the value counts as not known.
* A range counts with its middle, and its ends are the least and the greatest value. One that changes the water by a
  tenth or more holds the well back.
* A well of no known kind counts by its width and depth; below its casing a bore of no known width is as wide as the
  casing, or up to a quarter inch less. Both count as assumed.
* A row without an id goes by its place.
* A pump that takes less than twice the inflow does not empty a well: it is flushed as a mixed tank. A well without a pump
  is emptied by one of the practice's flush rate.
* A route that is not known counts as assumed, though it changes only the neutralizer.
"""

import csv
import math
import re
import sys
import tomllib
from pathlib import Path

import openpyxl
import pandas as pd

ROOT = Path(__file__).resolve().parent.parent.parent
WORKBOOK = ROOT / "fixtures/demo/harrowfen-county.xlsx"
TABLE = ROOT / "fixtures/demo/quillmoor-county.csv"
SCENARIOS = ROOT / "scenarios/demo.toml"

# --- Units, each from its definition ---------------------------------------------------------------------------------

INCH = 0.0254
FOOT = 12 * INCH
GALLON = 231 * INCH**3  # m3
POUND = 0.45359237  # kg

LENGTH = {"m": 1.0, "mm": 0.001, "ft": FOOT, "'": FOOT, "in": INCH, '"': INCH}
VOLUME = {"L": 0.001, "gal": GALLON, "fl oz": GALLON / 128}  # m3
FLOW = {"L/min": 0.001 / 60, "m3/h": 1 / 3600, "gpm": GALLON / 60}  # m3/s
CONCENTRATION = {"mg/L": 1.0, "ug/L": 0.001}
NUMBER = {"": 1.0}

# --- Reading ---------------------------------------------------------------------------------------------------------

NOT_KNOWN = {"", "na", "n/a", "nd", "-", "?", "unknown", "not measured", "see attached map", "-999", "-9999"}
UNREADABLE = object()

# What each heading of the two counties means: field, unit where the cell names none.
SHEETS = {
    "Sorrel valley": (4, {
        "Well No.": "well_id", "Visit": "visit", "Valley": "region", "Supply depot": "depot", "Type": "well_type",
        "Lat": "latitude", "Long": "longitude", "Depth (ft)": ("total_depth", "ft"),
        "Static level (ft)": ("static_water_level", "ft"), "Casing dia (in)": ("casing_diameter", "in"),
        "Casing depth (ft)": ("casing_depth", "ft"), "Open hole dia (in)": ("open_hole_diameter", "in"),
        "Box volume (gal)": ("water_volume", "gal"), "Plumbing (gal)": ("plumbing_volume", "gal"),
        "Pump capacity (gpm)": ("pump_rate", "gpm"), "Yield (gpm)": ("well_yield", "gpm"),
        "Water temp (F)": ("water_temperature", "F"), "pH": ("ph", ""), "Alkalinity (mg/L)": ("alkalinity", "mg/L"),
        "Iron (mg/L)": ("iron", "mg/L"), "Mn (mg/L)": ("manganese", "mg/L"), "H2S (mg/L)": ("sulfide", "mg/L"),
        "Discharge": "discharge_route", "Flooded": "flooded", "Users": "users_served", "Notes": "notes",
        "Casing material": "casing_material",
    }),
    "Orrith valley": (3, {
        "Well ID": "well_id", "Valley": "region", "Supply depot": "depot", "Construction": "well_type",
        "Well depth": ("total_depth", "ft"), "Depth to water": ("static_water_level", "ft"),
        "Casing size": ("casing_diameter", "in"), "Water volume (gal)": ("water_volume", "gal"),
        "Pump (gpm)": ("pump_rate", "gpm"), "Yield (gpm)": ("well_yield", "gpm"),
        "Temp (F)": ("water_temperature", "F"), "pH": ("ph", ""), "Total alkalinity (mg/L)": ("alkalinity", "mg/L"),
        "Iron (mg/L)": ("iron", "mg/L"),
        "Manganese (mg/L)": ("manganese", "mg/L"), "Sulfide (mg/L)": ("sulfide", "mg/L"), "Flush to": "discharge_route",
        "Submerged": "flooded", "People served": "users_served", "Remarks": "notes", "Lining": "casing_material",
    }),
}
QUILLMOOR = {
    "bore id": "well_id", "visit no": "visit", "district": "region", "depot": "depot", "source type": "well_type",
    "lat_deg": "latitude", "lon_deg": "longitude", "total depth (m)": ("total_depth", "m"),
    "rest water level (m)": ("static_water_level", "m"), "height of water": ("water_column", "m"),
    "inside diameter (mm)": ("casing_diameter", "mm"), "lined to (m)": ("casing_depth", "m"),
    "hole diameter (mm)": ("open_hole_diameter", "mm"), "tank volume (L)": ("water_volume", "L"),
    "system volume (L)": ("plumbing_volume", "L"), "pumping rate (L/min)": ("pump_rate", "L/min"),
    "safe yield (m3/h)": ("well_yield", "m3/h"), "temperature (°C)": ("water_temperature", "C"),
    "ph value": ("ph", ""), "alkalinity as CaCO3 (mg/L)": ("alkalinity", "mg/L"), "Fe (µg/L)": ("iron", "ug/L"),
    "Mn (µg/L)": ("manganese", "ug/L"), "ammonia as N (mg/L)": ("ammonia_n", "mg/L"),
    "DOC (mg/L)": ("organic_carbon", "mg/L"), "drains to": "discharge_route", "under water": "flooded",
    "population served": "users_served", "observations": "notes", "lining": "casing_material",
}

# What can be true, in metres, cubic metres, cubic metres per second, degrees Celsius, mg/L.
POSSIBLE = {
    "total_depth": (0.3, 1500), "static_water_level": (-20, 1500), "water_column": (0.05, 1500),
    "casing_diameter": (0.012, 9.2), "casing_depth": (0.3, 1500), "open_hole_diameter": (0.012, 3.1),
    "water_volume": (0.001, 5000), "plumbing_volume": (0, 1000), "pump_rate": (0.2 * 0.001 / 60, 1),
    "well_yield": (0.01 * 0.001 / 60, 1), "water_temperature": (-1, 60), "ph": (2, 12.5), "alkalinity": (0, 5000),
    "iron": (0, 500), "manganese": (0, 100), "sulfide": (0, 500), "ammonia_n": (0, 500), "organic_carbon": (0, 1000),
}
# A nought here is a blank in disguise.
NEVER_ZERO = {
    "total_depth", "water_column", "casing_diameter", "casing_depth", "open_hole_diameter", "water_volume", "pump_rate",
    "well_yield", "ph",
}
# What the dose does not rest on: left out where it cannot be read or cannot be true.
ASIDE = {"water_temperature", "ph", "alkalinity", "pump_rate", "well_yield", "plumbing_volume"}
UNITS_OF = {
    "total_depth": LENGTH, "static_water_level": LENGTH, "water_column": LENGTH, "casing_diameter": LENGTH,
    "casing_depth": LENGTH, "open_hole_diameter": LENGTH, "water_volume": VOLUME, "plumbing_volume": VOLUME,
    "pump_rate": FLOW, "well_yield": FLOW, "ph": NUMBER,
}
TYPES = {
    "drilled": "drilled", "drilled well": "drilled", "borehole": "drilled",
    "driven": "driven", "sand point": "driven", "driven point": "driven",
    "bored": "bored", "bored well": "bored", "augered": "bored",
    "dug": "dug", "dug well": "dug", "hand dug": "dug",
    "spring box": "spring_box", "spring": "spring_box", "spring chamber": "spring_box",
}
ROUTES = {
    "land": "land", "field": "land", "on land": "land",
    "storm drain": "storm_drain", "storm sewer": "storm_drain", "stormwater": "storm_drain",
    "ditch": "storm_drain",
    "stream": "stream", "creek": "stream",
    "sanitary sewer": "sanitary_sewer", "public sewer": "sanitary_sewer",
    "septic": "septic", "septic tank": "septic", "septic system": "septic",
    "hauled": "hauled", "tanker": "hauled", "hauled away": "hauled",
}
FLAGS = {"yes": True, "y": True, "no": False, "n": False}


class Range(float):
    """A range as typed: its middle, with its ends."""

    def __new__(cls, low, high):
        middle = super().__new__(cls, (low + high) / 2)
        middle.ends = (low, high)
        return middle


class About(Range):
    """An estimate: a tenth either way, half of that for a width."""


def plain(text):
    """A number as typed: `120`, `54,9`, `1,200`, `6 1/4`, or None."""
    text = text.strip()
    fraction = re.fullmatch(r"(\d+) (\d+)/(\d+)", text)
    if fraction:
        whole, top, bottom = map(int, fraction.groups())
        return whole + top / bottom
    if re.fullmatch(r"\d{1,3}(,\d{3})+", text):
        text = text.replace(",", "")
    elif re.fullmatch(r"-?\d+,\d+", text):
        text = text.replace(",", ".")
    return float(text) if re.fullmatch(r"-?\d+(\.\d+)?", text) else None


def quantity(cell, units, unit):
    """The value in SI of one cell: None if it says "not known", UNREADABLE if nobody can tell."""
    if cell is None:
        return None
    if isinstance(cell, (int, float)):
        return None if cell in (-999, -9999) else cell * units[unit]
    text = cell.strip()
    if text.startswith("approx. "):
        about = quantity(text.removeprefix("approx. "), units, unit)
        return about if about in (None, UNREADABLE) else About(0.9 * about, 1.1 * about)
    if text.lower() in NOT_KNOWN:
        return None
    bare = plain(text)
    if bare is not None:
        return bare * units[unit]
    ends = re.fullmatch(r"(\d+)-(\d+)", text)
    if ends:
        return Range(*(float(end) * units[unit] for end in ends.groups()))
    total, rest = 0.0, text
    names = "|".join(sorted(map(re.escape, filter(None, units)), key=len, reverse=True))
    while rest:
        part = re.match(rf"(\d+(?: \d+/\d+)?(?:[.,]\d+)?) ?({names})(?: |$)", rest)
        if not part:
            return UNREADABLE
        total += plain(part[1]) * units[part[2]]
        rest = rest[part.end():].strip()
    return total


WIDEST_DUG_M = 120 * 0.0254


def read_row(place, cells):
    """One row: fields in SI, and the reasons why it cannot be planned that can be seen cell by cell."""
    row, troubles = {"place": place, "zeros": set()}, []
    for target, cell in cells:
        if isinstance(target, str):
            text = "" if cell is None else str(cell).strip()
            row[target] = None if text == "" else text
            continue
        field, unit = target
        if field == "water_temperature":
            value = quantity(cell, NUMBER, "")
            if isinstance(value, float | int) and unit == "F":
                value = (value - 32) / 1.8
        elif unit in CONCENTRATION:
            value = quantity(cell, CONCENTRATION, unit)
        else:
            value = quantity(cell, UNITS_OF[field], unit)
        if value is UNREADABLE:
            if field not in ASIDE:
                troubles.append(f"{field} unreadable")
            value = None
        if value == 0 and field in NEVER_ZERO:
            row["zeros"].add(field)
            value = None
        if value is not None and not POSSIBLE[field][0] <= value <= POSSIBLE[field][1]:
            if field not in ASIDE:
                troubles.append(f"{field} impossible")
            value = None
        row[field] = value
    row["visit"] = row.get("visit") or "1"
    row["no_well"] = (row["well_type"] or "").lower() == "cistern"
    row["well_type"] = TYPES.get((row["well_type"] or "").lower())
    row["discharge_route"] = ROUTES.get((row["discharge_route"] or "").lower())
    row["flooded"] = FLAGS.get((row["flooded"] or "").lower())
    # A dug well wider than ten feet was measured around as often as across: it is asked.
    if row["well_type"] == "dug" and (row.get("casing_diameter") or 0) > WIDEST_DUG_M * (1 + 1e-9):
        troubles.append("casing_diameter far from usual")
    row["troubles"] = troubles
    return row


def blank_levels(rows):
    """In a list where a depth or a width is zero, a level of zero is one that nobody measured."""
    if any(row["zeros"] & {"total_depth", "casing_diameter"} for row in rows):
        for row in rows:
            if row.get("static_water_level") == 0:
                row["static_water_level"] = None


def read_lists():
    """Every row of both counties, in the order of the files."""
    rows = []
    book = openpyxl.load_workbook(WORKBOOK)
    for name, (top, meaning) in SHEETS.items():
        lines = [[cell.value for cell in line] for line in book[name].iter_rows(min_row=top)]
        headings = lines[0]
        for number, line in enumerate(lines[1:], start=top + 1):
            if any(cell is not None for cell in line):
                place = f"{WORKBOOK.name}!{name}:{number}"
                rows.append(read_row(place, [(meaning[h], cell) for h, cell in zip(headings, line) if h in meaning]))
        blank_levels([row for row in rows if row["place"].startswith(f"{WORKBOOK.name}!{name}:")])
    with TABLE.open(encoding="utf-8-sig", newline="") as file:
        lines = list(csv.reader(file, delimiter=";"))
    for number, line in enumerate(lines[1:], start=2):
        cells = [(QUILLMOOR[h], cell) for h, cell in zip(lines[0], line) if h in QUILLMOOR]
        rows.append(read_row(f"{TABLE.name}:{number}", cells))
    blank_levels([row for row in rows if row["place"].startswith(f"{TABLE.name}:")])
    seen = set()
    rows = [row for row in rows if not row["no_well"]]  # A cistern is no well: in no table.
    for row in rows:
        key = (row["well_id"], row["visit"])
        if row["well_id"] is None:
            row["troubles"].append("no id")
        elif key in seen:
            row["troubles"].append("seen before")
        seen.add(key)
        row["inferred_type"] = row["well_type"] is None and row["casing_diameter"] is not None
        if row["inferred_type"]:
            row["well_type"] = type_by_shape(row["casing_diameter"], row["total_depth"])
        if row["well_type"] is None:
            row["troubles"].append("no type")
    return rows


def type_by_shape(diameter, depth):
    """The kind a width and a depth (m) point to, said as assumed (common practice, no source)."""
    inches = float(diameter) / 0.0254
    if inches <= 2.5 and (depth is None or depth <= 31):
        return "driven"
    return "dug" if inches >= 22 else "bored" if inches >= 14 else "drilled"


# --- Water -----------------------------------------------------------------------------------------------------------

SHAPE = ["total_depth", "static_water_level", "water_column", "casing_diameter", "casing_depth", "open_hole_diameter"]


def volume_of(row):
    """Standing volume (m3) and height of the water (m), or None where it cannot be told."""
    if row.get("water_volume") is not None:
        return row["water_volume"], None
    diameter = row.get("casing_diameter")
    if diameter is None:
        return None
    bottom, level = row.get("total_depth"), row.get("static_water_level")
    if bottom is not None and level is not None:
        top = max(level, 0.0)
        if top >= bottom:
            return None
        volume = 0.0
        for start, end, width in stretches(row, bottom, diameter):
            volume += math.pi / 4 * width**2 * max(0.0, min(end, bottom) - max(start, top))
        return volume, bottom - top
    if row.get("water_column") is not None:
        return math.pi / 4 * diameter**2 * row["water_column"], row["water_column"]
    return None


def stretches(row, bottom, diameter):
    cased, hole = row.get("casing_depth"), row.get("open_hole_diameter")
    if cased is not None and hole is not None and cased < bottom:
        return [(0.0, cased, diameter), (cased, bottom, hole)]
    return [(0.0, bottom, diameter)]


def fill_in(row, missing):
    """Assumes what is missing and needed; gives the names, and the row's low, mid and high volumes."""
    needed = []
    if row.get("water_volume") is None:
        needed.append("casing_diameter")
        by_level = row.get("total_depth") is not None and row.get("static_water_level") is not None
        if not by_level and row.get("water_column") is None:
            needed += ["total_depth", "static_water_level"]
    rules = missing.get(row["well_type"], {})
    assumed = [field for field in needed if row.get(field) is None]
    if not all(field in rules for field in assumed):
        return None
    spreads = {field: [quantity(rules[field][end], LENGTH, "m") for end in ("low", "high")] for field in assumed}
    spreads |= {field: value.ends for field, value in row.items() if isinstance(value, Range)}
    middle = {**row, **{field: quantity(rules[field]["mid"], LENGTH, "m") for field in assumed if field in rules}}
    bore = [middle.get(field) for field in ("casing_depth", "total_depth", "casing_diameter")]
    if None not in bore and bore[0] < bore[1] and None is row.get("open_hole_diameter") is row.get("water_volume"):
        # The bore below the casing, not written: as wide as the casing, down to a quarter inch less.
        assumed = [*assumed, "open_hole_diameter"]
        spreads["open_hole_diameter"] = [0.00635, 0.0]
    if row["inferred_type"]:
        assumed = [*assumed, "well_type"]
    options = [dict(row)]
    for field, ends in spreads.items():
        options = [{**option, field: end} for option in options for end in ends]
    if "open_hole_diameter" in assumed:
        for option in options:
            option["open_hole_diameter"] = option["casing_diameter"] - option["open_hole_diameter"]
    volumes = [volume_of(option) for option in options]
    water = volume_of(middle)
    if water is None or None in volumes:
        return None
    for field, value in row.items():
        if type(value) is Range:
            # A range that changes the water by a tenth or more is not used.
            low, high = (volume_of({**middle, field: end}) for end in value.ends)
            if abs(high[0] - low[0]) >= 0.1 * water[0]:
                return None
    # The wall to brush goes with the option that holds least, or most, water.
    least = min(range(len(options)), key=lambda at: volumes[at][0])
    most = max(range(len(options)), key=lambda at: volumes[at][0])
    walls = wall_of(middle), wall_of(options[least]), wall_of(options[most])
    return assumed, water, volumes[least][0], volumes[most][0], walls


def wall_of(row):
    """Wall to brush, m2: the lining from the ground down, or beside a height of water, or a cube's four sides."""
    if row.get("water_volume") is not None:
        return 4 * row["water_volume"] ** (2 / 3)
    if row.get("total_depth") is not None and row.get("static_water_level") is not None:
        parts = stretches(row, row["total_depth"], row["casing_diameter"])
        return sum(math.pi * width * (end - start) for start, end, width in parts)
    return math.pi * row["casing_diameter"] * row["water_column"]


# --- Chemistry -------------------------------------------------------------------------------------------------------

CL2, NAOCL = 70.906, 74.442
FE, MN, H2S, N = 55.845, 54.938, 34.076, 14.007
DEMAND = {
    "iron": 0.5 * CL2 / FE, "manganese": CL2 / MN, "sulfide": 4 * CL2 / H2S, "ammonia_n": 1.5 * CL2 / N,
    "nitrite_n": CL2 / N, "organic_carbon": 1.0,
}
# mg of agent per mg of chlorine.
AGENTS = {"ascorbic_acid": 176.124 / CL2, "sodium_sulfite": 126.0365 / CL2, "sodium_ascorbate": 198.1058 / CL2}


def liquid_label(product):
    """Grams of chlorine per litre and kilograms per litre, as labelled."""
    percent, basis = product["strength"]["percent"], product["strength"]["basis"]
    caustic = product.get("caustic_percent", 0.2)
    if basis == "trade":
        grams = 10 * percent
    elif basis == "weight_naocl":
        per_gravity = 10 * percent * CL2 / NAOCL
        grams = per_gravity * (1 + 0.01507 * caustic) / (1 - 1.3083e-3 * per_gravity)
    else:
        raise NotImplementedError(basis)
    return grams, 1 + 1.3083e-3 * grams + 0.01507 * caustic, caustic


def second_order(kelvin, ionic_strength):
    """Rate constant of hypochlorite's decay, 1/(M s)."""
    gas = 8.314
    rate = 2.083e10 * kelvin * math.exp(-1.018e5 / (gas * kelvin)) * math.exp(-56.5 / gas)
    return 10 ** (0.149 * ionic_strength) * rate


def celsius(text):
    number, unit = re.fullmatch(r"(-?[\d.]+) ?([CF])", text).groups()
    return float(number) if unit == "C" else (float(number) - 32) / 1.8


def storage_steps(product, scenario):
    """Days and temperatures up to the stock's age; the last step lasts to the end."""
    storage = scenario.get("storage", product.get("storage", "20 C"))
    left = scenario.get("age_days", product.get("age_days", 0))
    if isinstance(storage, str):
        return [(left, celsius(storage))]
    steps = []
    for step in storage:
        days = left if step is storage[-1] else min(left, step["days"])
        steps.append((days, celsius(step["at"])))
        left -= days
    return steps


def strengths(product, scenario):
    """Strength labelled and used (least, usually and most aged), g/L or g/kg; density; what comes with the chlorine."""
    steps = storage_steps(product, scenario)
    if product["chemical"] == "sodium_hypochlorite":
        label, density, caustic = liquid_label(product)
        molar = label / CL2
        ionic = 2 * molar + 0.08
        spent = sum(second_order(at + 273.15, ionic) * days * 86400 for days, at in steps)
        used = [label / (1 + multiplier * spent * molar) for multiplier in (0.8, 1.25, 1.6)]
        excess = 10 * caustic * density / 39.997 / (label / CL2)
        salts = 1 + excess + 1  # hypochlorite, caustic, as much salt as hypochlorite
        return label, used, density, (1 + excess, salts, salts, 0.0)
    label = 10 * product["strength"]["percent"]
    years = sum(days for days, _ in steps) / 365.25
    used = [label * math.exp(-rate * years) for rate in (0.03, 0.04, 0.05)]
    return label, used, None, (1.09, 1.5 * 1.09, 0.0, 0.5 * 1.09)  # half a Ca2+ counts double its equivalents


# What an agent leaves of alkalinity per mole of chlorine, least and most.
LEAVES = {"ascorbic_acid": (-1, 0), "sodium_sulfite": (0, 0), "sodium_ascorbate": (0, 1)}
CHLORATE = 35.453 + 3 * 15.999  # g/mol


def davies(ionic, kelvin):
    """log10 of the activity coefficient of a singly charged ion; permittivity of Malmberg and Maryott 1956."""
    warm = kelvin - 273.15
    permittivity = 87.740 - 0.40008 * warm + 9.398e-4 * warm**2 - 1.410e-6 * warm**3
    slope = 1.82e6 * (permittivity * kelvin) ** -1.5
    root = math.sqrt(ionic)
    return -slope * (root / (1 + root) - 0.3 * ionic)


def after_dosing(ph, alkalinity, temperature, dose, brought, left=None):
    """pH after dosing, and the share of free chlorine that is HOCl; or, with what an agent has `left` of alkalinity per
    mole of chlorine, the pH once the chlorine is gone.

    `brought` is what the product brings per mole of chlorine: alkalinity, ionic strength, sodium and calcium. The ionic
    strength is 1.3 times the alkalinity and what is brought. Carbonate pairs with the sodium (which is plentiful) and
    with the calcium (which is not: its balance is solved) that are brought.
    """
    kelvin = temperature + 273.15
    log = math.log10
    pk1 = 356.3094 + 0.06091964 * kelvin - 21834.37 / kelvin - 126.8339 * log(kelvin) + 1684915 / kelvin**2
    pk2 = 107.8871 + 0.03252849 * kelvin - 5151.79 / kelvin - 38.92561 * log(kelvin) + 563713.9 / kelvin**2
    pkw = -(293.29227 + 0.1360833 * kelvin - 10576.913 / kelvin - 123.73158 * log(kelvin) - 6.996455e-5 * kelvin**2)
    pka = 3000 / kelvin - 10.0686 + 0.0253 * kelvin
    # Ion pairs as in phreeqc.dat: CaCO3, CaHCO3+ (from bicarbonate), NaCO3- (8.91 kcal/mol).
    pair_ca = -1228.732 - 0.299440 * kelvin + 35512.75 / kelvin + 485.818 * log(kelvin)
    pair_cah = 1209.120 + 0.31294045 * kelvin - 34765.05 / kelvin - 478.782 * log(kelvin)
    pair_na = 1.27 + 8.91 * 4184 / (8.314 * math.log(10)) * (1 / 298.15 - 1 / kelvin)
    base = 2 * alkalinity / 100086
    chlorine = dose / 70906

    def alkalinity_of(h, carbon, chlorine, sodium, calcium, ionic):
        """Alkalinity (eq/L) of a solution of known pH, and its share of HOCl."""
        one = davies(ionic, kelvin)
        two = 4 * one
        bicarbonate = 10 ** (-pk1 - one) / h  # over CO2
        carbonate = bicarbonate * 10 ** (-pk2 + one - two) / h
        with_sodium = carbonate * 10 ** (pair_na + two) * sodium
        all_free = 1 + bicarbonate + carbonate + with_sodium
        # CO2 that is left so that all forms of carbon, and all forms of calcium, add up.
        to_calcium = bicarbonate * 10 ** (pair_cah + two) + carbonate * 10 ** (pair_ca + 2 * two)
        low, high = 0.0, carbon / all_free
        for _ in range(200):
            dissolved = (low + high) / 2
            free_calcium = calcium / (1 + dissolved * to_calcium)
            if dissolved * (all_free + free_calcium * to_calcium) < carbon:
                low = dissolved
            else:
                high = dissolved
        charge = (
            bicarbonate * (1 + 10 ** (pair_cah + two) * free_calcium)
            + 2 * (carbonate * (1 + 10 ** (pair_ca + 2 * two) * free_calcium) + with_sodium)
        )
        ka = 10 ** (-pka - one)
        water = 10 ** (-pkw - one) / h - h / 10**one
        return dissolved * charge + chlorine * ka / (ka + h) + water, h / (ka + h)

    # Before dosing every unit of carbon has the same charge, so the carbon follows from the alkalinity.
    bare, _ = alkalinity_of(10**-ph, 0.0, 0.0, 0.0, 0.0, 1.3 * base)
    unit, _ = alkalinity_of(10**-ph, 1.0, 0.0, 0.0, 0.0, 1.3 * base)
    carbon = (base - bare) / (unit - bare)
    wanted, ionic, sodium, calcium = (chlorine * part for part in brought)
    wanted += base
    ionic += 1.3 * base
    if left is not None:  # the hypochlorite was counted as alkalinity; hydroxide and agent stay
        wanted += chlorine * (left - 1)
        chlorine = 0.0
    low, high = 2.0, 13.5
    for _ in range(60):
        middle = (low + high) / 2
        found, share = alkalinity_of(10**-middle, carbon, chlorine, sodium, calcium, ionic)
        if found < wanted:
            low = middle
        else:
            high = middle
    return middle, share


# --- Measuring -------------------------------------------------------------------------------------------------------

TEASPOON, TABLESPOON, CUP, QUART, OUNCE = GALLON / 768, GALLON / 256, GALLON / 16, GALLON / 4, POUND / 16


def measure(ladder, amount):
    """Up to the next part of a unit, chosen by the amount."""
    for unit, size, below, parts in ladder:
        steps = amount / size * parts
        if amount / size < below:
            break
    whole = round(steps)
    if abs(steps - whole) > 1e-9 * max(1, whole):
        whole = math.ceil(steps)
    count = max(whole, 1) / parts
    return count, unit, count * size


# Unit, size, up to so many of it, parts of the unit.
SPOONS = [
    ("US tsp", TEASPOON, 2, 8), ("US tsp", TEASPOON, 4, 4), ("US tsp", TEASPOON, 12, 2), ("US tbsp", TABLESPOON, 8, 2),
    ("US tbsp", TABLESPOON, 16, 1), ("US cup", CUP, 2, 8), ("US cup", CUP, 4, 4),
]
LIQUID = SPOONS + [
    ("US qt", QUART, 2, 8), ("US qt", QUART, 4, 4), ("US gal", GALLON, 2, 8), ("US gal", GALLON, 10, 4),
    ("US gal", GALLON, 50, 2), ("US gal", GALLON, math.inf, 1),
]
POUNDS = [
    ("oz", OUNCE, 0.4, 100), ("oz", OUNCE, 0.8, 20), ("oz", OUNCE, 2, 10), ("oz", OUNCE, 4, 4), ("oz", OUNCE, 16, 2),
    ("lb", POUND, 4, 16), ("lb", POUND, 16, 8), ("lb", POUND, 100, 2), ("lb", POUND, math.inf, 1),
]


def measure_dry(kilograms, bulk):
    """Cups and spoons by bulk density (kg per m3), pounds and ounces from four cups on."""
    if kilograms / bulk < 4 * CUP:
        count, unit, volume = measure(SPOONS, kilograms / bulk)
        return count, unit, volume * bulk
    return measure(POUNDS, kilograms)


# --- The chain -------------------------------------------------------------------------------------------------------


def overrides(campaign, row):
    """The settings of [[override]] tables that apply to this well, their conditions written out by hand."""
    conditions = {
        "well_type = 'dug' AND flooded": lambda: row["well_type"] == "dug" and row["flooded"] is True,
        "ph > 7.9 OR alkalinity >= 300":
            lambda: (row["ph"] is not None and row["ph"] > 7.9)
            or (row["alkalinity"] is not None and row["alkalinity"] >= 300),
        "well_type = 'spring_box'": lambda: row["well_type"] == "spring_box",
        "well_id = '00199'": lambda: row["well_id"] == "00199",
        "region = 'Tarrow' AND discharge_route IN ('stream', 'storm_drain')":
            lambda: row["region"] == "Tarrow" and row["discharge_route"] in ("stream", "storm_drain"),
    }
    changed = {}
    for override in campaign["override"]:
        if conditions[override["where"]]():
            changed |= override["set"]
    return changed


def hours_required(practice):
    """Hours that the rule's strongest reached pair asks for; nothing without a rule."""
    rule = practice.get("hold_rule", {})
    reached = [pair["hours"] for pair in rule.get("table", []) if practice["target_mg_per_l"] >= pair["mg_per_l"]]
    return rule.get("at_least_hours", reached[-1] if reached else None)


def treat(row, scenario, product, practice):
    """Every result of one planned visit."""
    assumed, (standing, column), least, most, walls = row["water"]
    kind, inflow = row["well_type"], row.get("well_yield")
    spring = kind == "spring_box" and inflow is not None
    fed = spring and practice["flowing_spring"] == "feed"
    # The rule's time counts where a shorter one is stated.
    hold_hours = max(practice["hold_hours"], hours_required(practice) or 0)
    hold = 3600 * hold_hours

    def held(volume):
        """Water in a closed spring box: what flows in stays, until the box is full."""
        if not spring or fed:
            return volume
        return volume + min(inflow * hold, practice["spring_rise"] * volume)

    plumbing = row.get("plumbing_volume")
    if plumbing is None:
        plumbing = quantity(practice["plumbing_volume"], VOLUME, "L")
    treated, treated_least, treated_most = (
        1000 * (practice["volume_allowance"] * held(volume) + plumbing) for volume in (standing, least, most)
    )
    measured = [DEMAND[name] * row[name] for name in DEMAND if row.get(name) is not None]
    demand = sum(measured) if measured else practice["demand_mg_per_l"]
    dose = practice["target_mg_per_l"] + demand
    emptying = practice["emptying"]
    wanted = kind in ("dug", "spring_box") and not fed
    washes = [emptying["liters_per_square_meter"] * wall if wanted else 0.0 for wall in walls]  # L
    wash_grams = [emptying["wall_wash_mg_per_l"] * liters / 1000 for liters in washes]
    fed_grams = dose * inflow * hold if fed else 0.0  # mg/L is g/m3
    chlorine = dose * treated / 1000 + wash_grams[0] + fed_grams
    label, (least_aged, used, most_aged), density, brought = strengths(product, scenario)
    out = {
        "water_column_m": column, "standing_volume_l": 1000 * standing, "treated_volume_l": treated,
        "demand_mg_per_l": demand, "dose_mg_per_l": dose, "chlorine_g": chlorine,
    }
    low = (dose * treated_least / 1000 + wash_grams[1] + fed_grams) / least_aged
    high = (dose * treated_most / 1000 + wash_grams[2] + fed_grams) / most_aged
    # The amount is measured out for the typical reading or for the high one.
    side = practice.get("measure_for", "typical")
    reading, counted, water_treated = (2, most_aged, treated_most) if side == "high" else (0, used, treated)
    for_water = dose * water_treated / 1000 / counted
    planned = for_water + (wash_grams[reading] + fed_grams) / counted
    if density is not None:
        liters = planned
        count, unit, volume = measure(LIQUID, for_water / 1000)
        wash_count, wash_unit, _ = measure(LIQUID, wash_grams[reading] / counted / 1000)
        poured = 1000 * volume
        if fed:
            per_hour = dose * inflow * 3600 / counted
            out |= {"feed_l_per_h": per_hour, "feed_kg_per_h": per_hour * density}
            out |= {"feed_l": fed_grams / counted, "feed_kg": fed_grams / counted * density}
        out |= {
            "strength_label_g_per_l": label, "strength_used_g_per_l": used, "product_l": liters,
            "product_kg": liters * density, "product_low_l": low, "product_high_l": high,
        }
    else:
        kilograms = planned
        bulk, bulk_unit = product["bulk_density"].split()
        assert bulk_unit == "kg/L"
        count, unit, poured = measure_dry(for_water, 1000 * float(bulk))
        wash_count, wash_unit, _ = measure_dry(wash_grams[reading] / counted, 1000 * float(bulk))
        if fed:
            out |= {"feed_kg_per_h": dose * inflow * 3600 / counted, "feed_kg": fed_grams / counted}
        out |= {
            "strength_label_g_per_kg": label, "strength_used_g_per_kg": used, "product_kg": kilograms,
            "product_low_kg": low, "product_high_kg": high,
        }
    real = poured * used / treated * 1000
    if wanted:
        out |= {"wall_wash_l": washes[reading], "wall_wash_amount": wash_count, "wall_wash_unit": wash_unit}
    if fed:
        out["overflow_l"] = 1000 * inflow * hold
    out["dose_if_spread_mg_per_l"] = None
    uncounted = row.get("plumbing_volume") is None and plumbing == 0
    if uncounted and kind != "spring_box" and (kind == "driven" or treated < 302.8):
        out["dose_if_spread_mg_per_l"] = real * treated / (treated + 302.8)
    out |= {
        "measured_amount": count, "measured_unit": unit, "measured_dose_mg_per_l": real,
        "measured_for": side, "least_dose_mg_per_l": poured * most_aged / treated_most * 1000,
        "predilution_l": practice["predilution_ratio"] * poured, "hold_h": hold_hours,
        "hold_required_h": hours_required(practice),
    }
    if density is not None:  # three hypochlorite lost, one chlorate made
        out["chlorate_mg_per_l"] = poured * (label - used) / CL2 / 3 * CHLORATE / treated * 1000
    water = None
    if row["ph"] is not None and row["alkalinity"] is not None:
        temperature = row["water_temperature"]
        if temperature is None:
            temperature = celsius(practice["water_temperature"])
        water = row["ph"], row["alkalinity"], temperature
        out["ph_after"], out["hocl_share"] = after_dosing(*water, real, brought)
    start = practice.get("residual_after_hold_mg_per_l", real)
    volumes = practice["flush"].get("volumes", 0)
    if "until_mg_per_l" in practice["flush"]:
        volumes = max(volumes, 1, math.log(start / practice["flush"]["until_mg_per_l"]))
    flush = volumes * treated
    own = 60000 * quantity(practice["flush_rate"], FLOW, "L/min")
    pump = None if fed or row.get("pump_rate") is None else 60000 * row["pump_rate"]
    supply = None if inflow is None else 60000 * inflow
    rates = [rate for rate in (pump, supply) if rate is not None]
    rate = min(rates) if rates else own
    hours, out["flush_method"] = flush / rate / 60, "mixed_tank"
    rate_of_emptying = pump or own
    if wanted and (supply is None or rate_of_emptying >= 2 * supply):
        # Emptying by emptying, until what the refill brings back is below the limit.
        times, left = 0, start
        while times == 0 or left > emptying["until_mg_per_l"] * (1 + 1e-9):
            left *= emptying["carry_over"]
            times += 1
        rate, sinks = rate_of_emptying, rate_of_emptying - (supply or 0.0)
        minutes = treated / sinks + (treated / supply if supply else 0.0) + 60 * emptying["wait_hours"]
        flush, hours = times * rate * (treated / sinks), times * minutes / 60
        out |= {"flush_method": "empty_and_refill", "emptyings": times}
    out |= {"flush_volume_l": flush, "flush_rate_l_per_min": rate, "flush_h": hours}
    route, discharge = row["discharge_route"], practice["discharge"]
    out["discharge_route"] = route or ""
    if route is None:
        assumed = [*assumed, "discharge_route"]
    out["neutralizer"], out["neutralizer_kg"] = "", 0.0
    if route is None or route in discharge["routes"]:
        remove = max(0.0, start * treated - discharge["limit_mg_per_l"] * flush) / 1e6 + wash_grams[reading] / 1000
        if fed:
            remove += max(0.0, dose - discharge["limit_mg_per_l"]) * inflow * hold / 1000
        out["neutralizer"] = discharge["neutralizer"]
        out["neutralizer_kg"] = remove * AGENTS[discharge["neutralizer"]] * (1 + discharge["excess"])
        if water is not None:
            least, most = (
                after_dosing(*water, real, brought, left * start / real)[0] for left in LEAVES[discharge["neutralizer"]]
            )
            out["ph_neutralized_low"], out["ph_neutralized_high"] = least, most
            # Ascorbate leaves no acid: the pH is at least that of the water with a little caustic.
            if least < 6 and after_dosing(*water, real, brought, 0)[0] >= min(6, water[0]):
                out["neutralizer_instead"] = "sodium_ascorbate"
                out["neutralizer_instead_kg"] = remove * AGENTS["sodium_ascorbate"] * (1 + discharge["excess"])
    out["assumed"] = " ".join(sorted(assumed))
    return out


def scenarios(campaign):
    """The scenarios by name: those written out, then the grid's in order."""
    for scenario in campaign["scenario"]:
        yield scenario
    axes = campaign["grid"]
    for product in axes["product"]:
        for target in axes["target_mg_per_l"]:
            yield {"name": f"{product}, {target} mg/L", "product": product, "target_mg_per_l": target}


def campaign_of():
    return tomllib.loads(SCENARIOS.read_text(encoding="utf-8"))


def treatments(campaign):
    """One record per scenario and row of the lists."""
    rows = read_lists()
    for row in rows:
        row["water"] = None
        if not row["troubles"]:
            row["water"] = fill_in(row, campaign["missing"])
            if row["water"] is None:
                row["troubles"].append("no water to be told")
    products = {product["name"]: product for product in campaign["product"]}
    records = []
    for scenario in scenarios(campaign):
        for row in rows:
            record = {
                "scenario": scenario["name"], "product": scenario["product"], "well_id": row["well_id"] or row["place"],
                "visit": row["visit"], "region": row["region"] or "", "depot": row["depot"] or "",
                "well_type": row["well_type"] or "",
                "outcome": "held_back" if row["troubles"] else "planned", "why": row["troubles"],
                "flooded": {True: "yes", False: "no", None: ""}[row["flooded"]], "notes": row["notes"] or "",
                "casing_material": row["casing_material"] or "",
                "users_served": row["users_served"] and plain(row["users_served"]),
            }
            if not row["troubles"]:
                practice = campaign["practice"] | scenario | overrides(campaign, row)
                record |= treat(row, scenario, products[scenario["product"]], practice)
                # What was assumed shows in the volume.
                assumed = record["assumed"].split(" ")
                record["given"] = {
                    column: None if row.get(field) is None else float(row[field]) / scale
                    for column, (field, scale) in GIVEN.items() if field not in assumed
                }
            records.append(record)
    return records


# --- Comparing -------------------------------------------------------------------------------------------------------

RELATIVE, ABSOLUTE = 1e-9, 1e-6
FOUND_BY_ITERATION = {"ph_after", "hocl_share", "ph_neutralized_low", "ph_neutralized_high"}  # compared to 1e-6 absolute
NOT_COMPARED = {"cautions", "crew_flags", "not_understood"}  # words for people


class Comparison:
    """Counts agreeing cells and keeps the disagreements."""

    def __init__(self):
        self.agreed = 0
        self.disagreements = []

    def number(self, place, column, ours, theirs):
        ours = math.nan if ours is None else float(ours)
        theirs = math.nan if theirs is None or theirs == "" else float(theirs)
        if math.isnan(ours) or math.isnan(theirs):
            same = math.isnan(ours) and math.isnan(theirs)
        elif column in FOUND_BY_ITERATION:
            same = abs(ours - theirs) <= ABSOLUTE
        else:
            same = abs(ours - theirs) <= RELATIVE * max(abs(ours), abs(theirs))
        self.count(same, place, column, ours, theirs)

    def text(self, place, column, ours, theirs):
        self.count(ours == theirs, place, column, repr(ours), repr(theirs))

    def count(self, same, place, column, ours, theirs):
        if same:
            self.agreed += 1
        else:
            self.disagreements.append(f"{place} {column}: second route {ours}, aftercrest {theirs}")


def read_table(folder, stem):
    """A table as texts; numbers keep every digit. Blank is the empty text."""
    parquet, text = folder / f"{stem}.parquet", folder / f"{stem}.csv"
    if parquet.exists():
        table = pd.read_parquet(parquet)
        return table.astype(object).where(table.notna(), "")
    return pd.read_csv(text, dtype=str, keep_default_na=False, encoding="utf-8-sig")


def numbered(records):
    """Records by scenario, well and visit; a repeated visit also by its turn."""
    found = {}
    for record in records:
        key = (record["scenario"], record["well_id"], record["visit"])
        turn = sum((*key, turn) in found for turn in range(1, 4)) + 1
        found[(*key, turn)] = record
    return found


def joined(folder, comparison):
    """The treatments, each with its visit and the strengths of its scenario.

    A visit's treatments stand together, one for each scenario, in the order of both tables; their keys must say the same.
    """
    treatments, visits, scenarios = (read_table(folder, stem) for stem in ("treatments", "visits", "scenarios"))
    if len(treatments) != len(visits) * len(scenarios):
        comparison.disagreements.append("treatments are not one for each visit and scenario")
        return treatments
    keys = ["well_id", "visit", "region", "depot", "outcome", "reasons"]
    of_visits = visits.loc[visits.index.repeat(len(scenarios))].reset_index(drop=True)
    same = (of_visits[keys] == treatments[keys]).all().all()
    same &= list(treatments["scenario"]) == list(scenarios["scenario"]) * len(visits)
    comparison.count(bool(same), "treatments", "keys", "those of visits and scenarios", "others")
    strengths = scenarios.set_index("scenario")[[name for name in scenarios.columns if name.startswith("strength_") and "_g_" in name]]
    strengths = strengths.loc[treatments["scenario"]].reset_index(drop=True)
    # A product's strength is no figure of a visit that is not treated.
    strengths = strengths.where(treatments["outcome"] == "planned", "")
    others = of_visits.drop(columns=keys)
    return pd.concat([treatments, others, strengths], axis=1)


# What the table of visits gives as it was understood, by the fields of this file: column, field, SI units in one of the column's.
GIVEN = {
    "total_depth_m": ("total_depth", 1), "static_water_level_m": ("static_water_level", 1),
    "casing_diameter_mm": ("casing_diameter", 0.001), "casing_depth_m": ("casing_depth", 1),
    "open_hole_diameter_mm": ("open_hole_diameter", 0.001), "water_volume_l": ("water_volume", 0.001),
    "plumbing_volume_l": ("plumbing_volume", 0.001), "pump_rate_l_per_min": ("pump_rate", 0.001 / 60),
    "well_yield_l_per_min": ("well_yield", 0.001 / 60), "water_temperature_c": ("water_temperature", 1), "ph": ("ph", 1),
    "alkalinity_mg_per_l": ("alkalinity", 1), "iron_mg_per_l": ("iron", 1), "manganese_mg_per_l": ("manganese", 1),
    "sulfide_mg_per_l": ("sulfide", 1), "ammonia_n_mg_per_l": ("ammonia_n", 1),
    "organic_carbon_mg_per_l": ("organic_carbon", 1),
}


def compare_scenarios(campaign, sums, folder, comparison):
    """The table of scenarios: what each is of, and its sums over the campaign, which are those of `totals`."""
    theirs = {row["scenario"]: row for row in read_table(folder, "scenarios").to_dict("records")}
    for scenario in scenarios(campaign):
        row = theirs.get(scenario["name"])
        if row is None:
            comparison.disagreements.append(f"scenarios lacks {scenario['name']}")
            continue
        comparison.text(f"scenarios {scenario['name']}", "product", scenario["product"], row["product"])
        ours = next(sums[key] for key in sums if key[0] == scenario["name"] and key[1] == "campaign")
        for column, value in ours.items():
            if column in row:
                comparison.number(f"scenarios {scenario['name']}", column, value, row[column])
            else:
                comparison.disagreements.append(f"scenarios lacks the column {column}")


def compare_treatments(ours, folder, comparison):
    theirs = joined(folder, comparison)
    if len(theirs) != len(ours):
        comparison.disagreements.append(f"treatments has {len(theirs)} rows, not {len(ours)}")
        return
    texts = {
        "scenario", "product", "well_id", "visit", "region", "depot", "well_type", "outcome", "measured_unit",
        "discharge_route", "neutralizer", "neutralizer_instead", "measured_for", "assumed", "flooded", "notes",
        "casing_material", "flush_method", "wall_wash_unit",
    }
    known = set().union(*(record.keys() for record in ours)) | NOT_COMPARED | {"reasons"}
    known -= {"given"}
    missing = sorted((known | set(GIVEN)) - set(theirs.columns) - {"why"})
    if missing:
        comparison.disagreements.append(f"treatments lacks the columns {missing}")
    left_out = [column for column in theirs.columns if column not in known | set(GIVEN) or column in NOT_COMPARED]
    print(f"columns of treatments that are not compared: {', '.join(left_out) or 'none'}")
    theirs = numbered(theirs.to_dict("records"))
    for key, record in numbered(ours).items():
        place = " / ".join(map(str, key))
        other = theirs.get(key)
        if other is None:
            comparison.disagreements.append(f"{place} is not in treatments")
            continue
        held = record["outcome"] == "held_back"
        comparison.count((other["reasons"] != "") == held, place, "reasons", record["why"], other["reasons"])
        for column, value in record.get("given", {}).items():
            comparison.number(place, column, value, other[column])
        for column in sorted(known - NOT_COMPARED - {"reasons", "why"}):
            if column not in other:
                continue
            if column in texts:
                # A text that a spreadsheet would take for a formula stands behind an apostrophe in CSV.
                seen = re.sub(r"^'(?=[=+@-])", "", str(other[column]))
                if column == "assumed":
                    seen = " ".join(sorted(re.split(r"[;, ]+", seen)))
                comparison.text(place, column, record.get(column, ""), seen)
            else:
                comparison.number(place, column, record.get(column), other[column])


# --- Totals and orders -----------------------------------------------------------------------------------------------


def totals(campaign, made):
    """Sums over the campaign and over each group, for each scenario, keyed by scenario, level and group."""
    practice = {scenario["name"]: campaign["practice"] | scenario for scenario in scenarios(campaign)}
    planned = made["outcome"] == "planned"
    rests = planned & (made["assumed"].fillna("") != "")
    repeat = made["scenario"].map(lambda name: practice[name]["repeat_share"])
    loss = made["scenario"].map(lambda name: practice[name]["handling_loss"]) * (1 + repeat)
    work = made.assign(
        visits=1, visits_planned=planned.astype(int), visits_held_back=(made["outcome"] == "held_back").astype(int),
        visits_excluded=(made["outcome"] == "excluded").astype(int),
        visits_assumed=rests.astype(int), assumed_volume_l=made["treated_volume_l"].where(rests),
        visits_without_flush_h=(planned & made["flush_h"].isna()).astype(int), product_weight_kg=made["product_kg"],
        neutralizer_repeat_kg=repeat * made["neutralizer_kg"], neutralizer_loss_kg=loss * made["neutralizer_kg"],
    )
    liquid = made["product_l"].notna()
    for unit in ("l", "kg"):
        # A product is counted in the unit it is bought by.
        own = liquid if unit == "l" else ~liquid
        for name in ("product", "product_low", "product_high"):
            work[f"{name}_{unit}"] = made[f"{name}_{unit}"].where(own)
        work[f"product_repeat_{unit}"] = repeat * work[f"product_{unit}"]
        work[f"product_loss_{unit}"] = loss * work[f"product_{unit}"]
        work[f"product_in_all_{unit}"] = (1 + repeat + loss) * work[f"product_{unit}"]
    columns = [
        "visits", "visits_planned", "visits_held_back", "visits_excluded", "visits_assumed", "treated_volume_l", "assumed_volume_l",
        "chlorine_g", *(f"product{part}_{unit}" for unit in ("l", "kg")
                        for part in ("", "_low", "_high", "_repeat", "_loss", "_in_all")),
        "product_weight_kg", "neutralizer_kg", "neutralizer_repeat_kg", "neutralizer_loss_kg", "flush_volume_l",
        "flush_h", "visits_without_flush_h",
    ]
    dry = {product["name"] for product in campaign["product"] if product["chemical"] != "sodium_hypochlorite"}
    found = {}
    keys = ["scenario", "product", *campaign["campaign"]["group_by"]]
    for level, by in (("campaign", keys[:2]), ("group", keys)):
        for key, sums in work.groupby(by)[columns].sum().iterrows():
            sums = sums.to_dict()
            other = "l" if key[1] in dry else "kg"  # the unit this product is not bought by stays blank
            blank = [name for name in columns if name.startswith("product") and name.endswith(f"_{other}")]
            sums |= {name: None for name in blank if name != "product_weight_kg"}
            group = key[2:] if level == "group" else ("",) * (len(keys) - 2)
            found[key[0], level, *group] = sums
    return found


def compare_totals(campaign, ours, folder, comparison):
    theirs = read_table(folder, "totals").to_dict("records")
    groups = campaign["campaign"]["group_by"]
    theirs = {(row["scenario"], row["level"], *(row[group] for group in groups)): row for row in theirs}
    for key in sorted(set(ours) ^ set(theirs)):
        comparison.disagreements.append(f"totals: only {'second route' if key in ours else 'aftercrest'} has {key}")
    for key in ours.keys() & theirs.keys():
        place = "totals " + " / ".join(key)
        given = {name: value for name, value in theirs[key].items() if name not in {"scenario", "level", *groups}}
        if set(given) != set(ours[key]):
            comparison.disagreements.append(f"{place}: columns {sorted(set(given) ^ set(ours[key]))} on one side only")
        for column in sorted(set(given) & set(ours[key])):
            comparison.number(place, column, ours[key][column], given[column])


def cheapest(gap, sizes, prices):
    """Least cost of whole packages that cover a gap, by trying every number of each package but the last."""
    if gap <= 0:
        return 0.0
    if len(sizes) == 1:
        return math.ceil(gap / sizes[0] - 1e-12) * prices[0]
    most = math.ceil(gap / sizes[0])
    return min(
        count * prices[0] + cheapest(gap - count * sizes[0], sizes[1:], prices[1:]) for count in range(most + 1)
    )


def compare_orders(campaign, made, folder, comparison):
    """Product orders: need, gap, that the packages cover it, and that nothing cheaper would.

    The stated availability of packages is far above what any scenario of the demo needs: each depot is its own case.
    """
    products = {product["name"]: product for product in campaign["product"]}
    practice = {scenario["name"]: campaign["practice"] | scenario for scenario in scenarios(campaign)}
    needs = made.groupby(["scenario", "product", "depot"])[["product_l", "product_kg"]].sum()
    for row in read_table(folder, "orders").to_dict("records"):
        if row["kind"] != "product":
            continue
        product = products[row["item"]]
        liquid = product["chemical"] == "sodium_hypochlorite"
        units, scale = (VOLUME, 1000) if liquid else ({"lb": POUND}, 1)
        place = f"orders {row['scenario']} / {row['depot']}"
        share = practice[row["scenario"]]["repeat_share"], practice[row["scenario"]]["handling_loss"]
        first = needs.loc[row["scenario"], row["item"], row["depot"]]["product_l" if liquid else "product_kg"]
        there = [0.0, 0.0]
        for line in campaign["stock"]:
            if (line["depot"], line["product"]) == (row["depot"], row["item"]):
                amounts = (line.get(key, f"0 {min(units)}") for key in ("on_hand", "on_order"))
                there = [scale * quantity(amount, units, "") for amount in amounts]
        gap = max(0.0, first * (1 + share[0]) * (1 + share[1]) - sum(there))
        sizes = [scale * quantity(package["size"], units, "") for package in product["packages"]]
        prices = [package["price"] for package in product["packages"]]
        expected = {
            "first_round": first, "repeat_round": share[0] * first, "handling_loss": share[1] * (1 + share[0]) * first,
            "on_hand": there[0], "on_order": there[1], "gap": gap, "short": 0.0, "cost": cheapest(gap, sizes, prices),
        }
        for column, value in expected.items():
            comparison.number(place, column, value, row[column])
        bought = dict.fromkeys((package["size"] for package in product["packages"]), 0)
        for part in filter(None, row["packages"].split(" + ")):
            count, size = part.split(" x ")
            bought[size] += int(count)
        amount = sum(count * size for count, size in zip(bought.values(), sizes))
        comparison.number(place, "amount_bought", amount, row["amount_bought"])
        comparison.count(amount >= gap * (1 - 1e-12), place, "packages", f"a gap of {gap}", row["packages"])


def main(folder, control=False):
    campaign = campaign_of()
    folder = Path(folder)
    ours = treatments(campaign)
    made = pd.DataFrame(ours)
    sums = totals(campaign, made)
    if control:
        next(record for record in ours if record["outcome"] == "planned")["chlorine_g"] *= 1 + 1e-8
        next(value for key, value in sums.items() if key[1] == "group")["flush_volume_l"] *= 1 - 1e-8
    comparison = Comparison()
    for name, compare in {
        "treatments": lambda: compare_treatments(ours, folder, comparison),
        "totals": lambda: compare_totals(campaign, sums, folder, comparison),
        "scenarios": lambda: compare_scenarios(campaign, sums, folder, comparison),
        "product lines of orders": lambda: compare_orders(campaign, made, folder, comparison),
    }.items():
        before = comparison.agreed
        compare()
        print(f"{name}: {comparison.agreed - before} cells agree")
    found = len(comparison.disagreements)
    print(f"{comparison.agreed} cells agree, {found} do not" + (" (2 were spoilt)" if control else ""))
    for line in comparison.disagreements[:20]:
        print(f"  {line}")
    return 0 if comparison.agreed and found == (2 if control else 0) else 1


if __name__ == "__main__":
    arguments = [argument for argument in sys.argv[1:] if argument != "--control"]
    if len(arguments) != 1:
        sys.exit("usage: second_route.py OUTDIR [--control]")
    sys.exit(main(arguments[0], control="--control" in sys.argv))
