"""The workbook of the demo is alive: a spreadsheet program recalculates it to what the engine computed.

    python tests/living/living.py target/release/aftercrest target/living

needs openpyxl and LibreOffice Calc (`soffice`). With a number behind it, it plans so many visits of a list that repeats the demo's
under its first scenarios, and does the first of these only, with the seconds that the workbook takes to open. Else it plans the demo, then

1. takes every stored result out of the workbook, has it recalculated, and compares every formula with the engine's value;
2. changes inputs, has that recalculated, and compares it with a fresh run of the program on a scenario file with the same changes:
   with the counts of packages of that run every figure of Summary, Compare, Charts, Order and cost too.
   The changed workbook is also planned by the program itself, which must give the tables of that run;
   counts of packages that were changed are ordered, and what is no count is refused with its cell;
3. shows that it would see a fault: the same comparison must fail on a workbook with one wrong formula;
4. picks another scenario on Summary: Summary, Order and Crew must then say what a run of that scenario alone says of it;
5. looks at the workbook itself: no number but 0 and 1 in a formula, and a unit, a note and a bound beside every input.

LibreOffice recalculates a workbook on loading only where its profile says so: the profile used here is made for this and thrown away.
"""

import csv
import itertools
import math
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time
import zipfile

import openpyxl

ROOT = pathlib.Path(__file__).resolve().parents[2]
LISTS = ["fixtures/demo/harrowfen-county.xlsx", "fixtures/demo/quillmoor-county.csv"]
NEAR = 1e-9
INPUT = "FFFFFBE0"
PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""


def plan(binary, scenarios, out, lists=(), only=()):
    """Runs the program; the demo holds rows back, so it ends with 1."""
    shutil.rmtree(out, ignore_errors=True)
    lists = lists or [str(ROOT / name) for name in LISTS]
    chosen = [part for name in only for part in ("--only", name)]
    command = [binary, "plan", *lists, "--scenarios", scenarios, "--out", out, "--table", "none", *chosen]
    done = subprocess.run(command, capture_output=True)
    if done.returncode != 1:
        sys.exit(f"the plan ended with {done.returncode}: {done.stderr.decode()[-2000:]}")
    return pathlib.Path(out) / "campaign.xlsx"


def stripped(book, out):
    """A copy without the stored results of its formulas."""
    with zipfile.ZipFile(book) as parts, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as copy:
        for part in parts.infolist():
            data = parts.read(part)
            if part.filename.startswith("xl/worksheets/sheet"):
                data = re.sub(rb"(<f(?: [^>]*)?>[^<]*</f>|<f [^>]*/>)<v>[^<]*</v>", rb"\1", data)
            copy.writestr(part, data)
    return out


def recalculated(book, folder):
    """The workbook as a spreadsheet program leaves it after computing every formula."""
    with tempfile.TemporaryDirectory() as profile:
        user = pathlib.Path(profile) / "user"
        user.mkdir()
        (user / "registrymodifications.xcu").write_text(PROFILE)
        out = pathlib.Path(folder) / "recalculated"
        out.mkdir(exist_ok=True)
        command = ["soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--convert-to", "xlsx", "--outdir", out, book]
        subprocess.run(command, check=True, capture_output=True, timeout=1200)
        return out / pathlib.Path(book).name


def values(book):
    return openpyxl.load_workbook(book, data_only=True)


def formulas(book):
    """Every formula: sheet, cell, text."""
    for sheet in openpyxl.load_workbook(book):
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "f":
                    yield sheet.title, cell.coordinate, cell.column, cell.row, cell.value


def same(a, b):
    a, b = ("" if a is None else a), ("" if b is None else b)
    if isinstance(a, (int, float)) and isinstance(b, (int, float)):
        return math.isclose(a, b, rel_tol=NEAR, abs_tol=1e-9)
    return a == b


# Sheets with lines of words above their table, of which another plan may have more: what the table's head begins with.
HEADS = {"Summary": "Scenario", "Order": "Item"}


def head_of(sheet, rows):
    """The row of the table's head on a sheet that has words above it; nothing where there is none."""
    return next((at for at, row in enumerate(rows) if row[0] == HEADS[sheet] and row[1]), None)


def moved_by_plan(text):
    """Whether a formula says what only holds as the plan was made: its sentences, and how much its cards round up."""
    return any(name in text for name in ("As_planned", "Needs_cards_short"))


def differences(theirs, ours, cells, limit=20):
    """Cells in which two workbooks do not say the same, by the formulas of one of them."""
    theirs, ours = values(theirs), values(ours)
    rows = {name: (list(theirs[name].values), list(ours[name].values)) for name in {cell[0] for cell in cells}}
    heads = {sheet: [head_of(sheet, part) for part in parts] for sheet, parts in rows.items() if sheet in HEADS}
    found = []
    for sheet, coordinate, column, row, text in cells:
        mine, others = rows[sheet]
        first, second = heads.get(sheet, (None, None))
        # From the line right above the head on, rows go by where the head stands.
        moved = second - first if first is not None and second is not None and row >= first else 0
        one, other = mine[row - 1][column - 1], others[row - 1 + moved][column - 1]
        if not same(one, other):
            found.append(f"{sheet}!{coordinate}: {one!r} recalculated, {other!r} by the engine: {text[:160]}")
    return found


# Whom it holds for begins with, what, the new value, and the same in the scenario file.
CHANGES = [
    ("all", "Target", 120, "target_mg_per_l   = 100 ", "target_mg_per_l   = 120 "),
    ("all", "Contact time", 30, "hold_hours        = 24", "hold_hours        = 30"),
    ("all", "Treated ÷ standing volume", 1.25, "volume_allowance  = 1.1 ", "volume_allowance  = 1.25 "),
    ("all", "Demand where nothing was measured", 4, "demand_mg_per_l   = 3 ", "demand_mg_per_l   = 4 "),
    ("all", "Plumbing where the list gives none", 40, 'plumbing_volume   = "30 gal"', 'plumbing_volume   = "40 gal"'),
    ("all", "Water per product before pouring", 12, "predilution_ratio = 10 ", "predilution_ratio = 12 "),
    ("all", "Flush until", 0.2, "until_mg_per_l = 0.1, volumes = 5", "until_mg_per_l = 0.2, volumes = 6"),
    ("all", "Flush at least, treated volumes", 6, None, None),
    ("all", "Empty again until below", 0.4, "emptying          = { until_mg_per_l = 0.5,", "emptying          = { until_mg_per_l = 0.4,"),
    ("all", "Chlorine there again after one emptying", 0.12, "carry_over = 0.10", "carry_over = 0.12"),
    ("all", "Wait after each refill", 0.75, "wait_hours = 0.5", "wait_hours = 0.75"),
    ("all", "Strength of the wall wash", 150, "wall_wash_mg_per_l = 200", "wall_wash_mg_per_l = 150"),
    ("all", "Wall wash per wall", 1.2, "liters_per_square_meter = 1.0", "liters_per_square_meter = 1.2"),
    ("all", "Room above a spring box's overflow, of its water", 0.3, "spring_rise       = 0.25", "spring_rise       = 0.3"),
    ("all", "Discharge limit", 0.02, "discharge         = { limit_mg_per_l = 0.011", "discharge         = { limit_mg_per_l = 0.02"),
    ("all", "Extra neutralizer", 0.15, 'neutralizer = "ascorbic_acid", excess = 0.10', 'neutralizer = "ascorbic_acid", excess = 0.15'),
    ("all", "Wells re-treated", 0.25, "repeat_share      = 0.20", "repeat_share      = 0.25"),
    ("all", "Product lost in handling", 0.06, "handling_loss     = 0.05", "handling_loss     = 0.06"),
    ("granules, 30", "Wells re-treated", 0.35, "repeat_share = 0.30 ", "repeat_share = 0.35 "),
    ("liquid 12.5, 150", "Target", 160, "target_mg_per_l = 150", "target_mg_per_l = 160"),
    ("liquid 12.5, 150", "Residual after the contact time", 50, "residual_after_hold_mg_per_l = 60 ", "residual_after_hold_mg_per_l = 50 "),
    ("exception 1", "Target", 250, "set   = { target_mg_per_l = 200 }", "set   = { target_mg_per_l = 250 }"),
    ("exception 2", "Contact time", 40, "set   = { hold_hours = 36 }", "set   = { hold_hours = 40 }"),
    ("exception 3", "Water per product before pouring", 25, "predilution_ratio = 20, plumbing", "predilution_ratio = 25, plumbing"),
    ("exception 5", "Discharge limit", 0.004, "set   = { discharge = { limit_mg_per_l = 0.005", "set   = { discharge = { limit_mg_per_l = 0.004"),
    ("exception 5", "Extra neutralizer", 0.25, 'neutralizer = "sodium_sulfite", excess = 0.20', 'neutralizer = "sodium_sulfite", excess = 0.25'),
    ("granules 65", "Strength", 68, 'percent = 65, basis', 'percent = 68, basis'),
]
# Sheet, line, column, new value, and the same in the scenario file.
CELLS = [
    ("Prices", "nitrile gloves", 5, 12, "price      = 11.00", "price      = 12.00"),
    ("Prices", "chlorine test strips", 7, 4, "per_visit  = 3\n", "per_visit  = 4\n"),
    ("Stock", "Mill Lane|liquid 12.5", 3, 12, 'on_hand  = "10 gal"', 'on_hand  = "12 gal"'),
]


def changed(book, scenarios, folder):
    """The workbook with changed inputs, and the scenario file with the same changes."""
    edited = openpyxl.load_workbook(book)
    text = (ROOT / scenarios).read_text()
    count = 0
    for whom, what, new, old_text, new_text in CHANGES:
        rows = [row for row in edited["Inputs"].iter_rows(min_row=4) if str(row[0].value).startswith(whom) and row[1].value == what]
        assert len(rows) == 1, (whom, what, len(rows))
        assert rows[0][2].value != new, (whom, what)
        rows[0][2].value = new
        count += 1
        if old_text:
            assert text.count(old_text) == 1, (old_text, text.count(old_text))
            text = text.replace(old_text, new_text)
    for sheet, line, column, new, old_text, new_text in CELLS:
        first, _, second = line.partition("|")
        rows = [
            row
            for row in edited[sheet].iter_rows(min_row=4)
            if str(row[0].value).startswith(first) and (not second or row[1].value == second)
        ]
        assert len(rows) == 1, (sheet, line, len(rows))
        rows[0][column - 1].value = new
        count += 1
        assert text.count(old_text) == 1, (old_text, text.count(old_text))
        text = text.replace(old_text, new_text)
    out, toml = folder / "edited.xlsx", folder / "changed.toml"
    edited.save(out)
    toml.write_text(text)
    return out, toml, count


def taken_back(binary, edited, folder):
    """The workbook with changed inputs is planned itself: the tables must be those of the fresh run."""
    for name in LISTS:
        shutil.copy(ROOT / name, folder)
    done = subprocess.run([binary, "plan", edited, "--out", folder / "again", "--table", "none"], capture_output=True)
    if done.returncode != 1:
        return [f"the changed workbook is not planned, {done.returncode}: {done.stderr.decode()[-2000:]}"]
    tables = ["totals.csv", "orders.csv", "findings.csv"]
    differ = [name for name in tables if (folder / "again" / name).read_bytes() != (folder / "fresh" / name).read_bytes()]
    print(f"the changed workbook planned again: {len(tables) - len(differ)} of {len(tables)} tables are those of the fresh run")
    return [f"{name} of the changed workbook is another" for name in differ]


# Crew: what is said in words gives way to figures where inputs were changed.
CREW_FIGURES = ("Resulting dose (mg/L as Cl2)", "Flush time (h, approx.)", "Lowest dose (mg/L as Cl2)", "Times to empty")


def follows(sheet, column, head):
    """Whether a formula depends on nothing but inputs and counts of packages."""
    if sheet == "Needs" and str(head).startswith("Cards take more"):
        return False
    if sheet == "Crew":
        return head in CREW_FIGURES or head.startswith(("Flush water", "Water treated"))
    # The columns of Checks that say what has changed are what differs from a fresh run.
    return sheet in ("Wells", "Practices", "Scenarios", "Numbers", "Needs", "Packages", "Summary", "Compare", "Charts", "Order")


def with_counts(edited, fresh, out):
    """The changed workbook with as many packages of each kind as a fresh run buys; how many counts that changed."""
    book, counts = openpyxl.load_workbook(edited), values(fresh)["Packages"]
    moved = 0
    for row in book["Packages"].iter_rows(min_row=4, max_col=8):
        theirs = [counts.cell(row[0].row, column).value for column in range(1, 9)]
        assert [cell.value for cell in row][3:7] == theirs[3:7], (row[0].row, theirs)
        moved += row[7].value != theirs[7]
        row[7].value = theirs[7]
    book.save(out)
    return out, moved


def count_taken(binary, book, folder):
    """Counts of packages that a person changed are ordered when the workbook is planned again; what is no count is refused."""
    faults = []
    line = [cell.value or "" for cell in openpyxl.load_workbook(book)["Packages"][5]]
    for typed, code in [(7, 1), ("x", 2)]:
        edited = openpyxl.load_workbook(book)
        edited["Packages"]["H5"].value = typed
        edited.save(folder / "counts.xlsx")
        shutil.rmtree(folder / "counted", ignore_errors=True)
        done = subprocess.run([binary, "plan", folder / "counts.xlsx", "--out", folder / "counted", "--table", "none"], capture_output=True)
        told = done.stderr.decode() + done.stdout.decode()
        if code == 2:
            is_right = "sheet Packages, H5: a count of packages is a whole number" in told
        else:
            with (folder / "counted" / "orders.csv").open(encoding="utf-8-sig", newline="") as file:
                orders = [row for row in csv.DictReader(file) if [row["scenario"], row["depot"], row["item"]] == line[3:6]]
            is_right = len(orders) == 1 and f"7 x {line[6]}" in orders[0]["packages"]
        if done.returncode != code or not is_right:
            faults.append(f"a count of {typed!r} ended with {done.returncode}: {told[:600]}")
    print(f"counts of packages: {2 - len(faults)} of 2 ordered, or refused with their cell")
    return faults


def under(sheet, first):
    """Rows under the row that begins with these headings, by heading, up to the next gap."""
    rows = list(sheet.values)
    at = next(at for at, row in enumerate(rows) if row[: len(first)] == first)
    return [dict(zip(rows[at], row)) for row in itertools.takewhile(lambda row: row[0] is not None, rows[at + 1 :])]


def ordered(sheet):
    """What an order says, line by line, without its empty lines."""
    rows = list(sheet.values)
    at = next(at for at, row in enumerate(rows) if row[0] == "Item")
    # What is to be known on the road is said of every product of the campaign, whichever is picked.
    road = next((at for at, row in enumerate(rows) if str(row[0]).startswith("On the road")), len(rows))
    lines = [tuple("" if value is None else value for value in row[:10]) for row in rows[at + 1 : road]]
    return [line for line in lines if any(value != "" for value in line)]


def crew(sheet):
    rows = list(sheet.values)
    at = next(at for at, row in enumerate(rows) if "Measure out" in row)
    last = rows[at].index("Not understood")
    return {(row[1], row[2]): dict(zip(rows[at][: last + 1], row)) for row in rows[at + 1 :]}


def picked(binary, book, folder, name, only):
    """Another scenario is picked: Summary, Order and Crew are those of a run of that scenario alone."""
    edited = openpyxl.load_workbook(book)
    assert edited["Summary"]["A3"].value != name
    edited["Summary"]["A3"].value = name
    edited.save(folder / "picked.xlsx")
    now, alone, before = values(recalculated(folder / "picked.xlsx", folder)), values(only), values(book)
    faults, compared, moved = [], 0, 0

    def look(where, ours, theirs, earlier):
        nonlocal compared, moved
        compared += 1
        moved += not same(ours, earlier)
        if not same(ours, theirs):
            faults.append(f"{name} is picked: {where} says {ours!r}, a run of it alone {theirs!r}")

    for row in range(3, 8):
        for column in range(1, 4):
            cell = [part["Summary"].cell(row, column).value for part in (now, alone, before)]
            if (row, column) != (3, 3):
                look(f"Summary, row {row}, column {column}", *cell)
    for ours, theirs, earlier in zip(*(under(part["Summary"], ("region / depot",)) for part in (now, alone, before)), strict=True):
        for head in ours:
            if head:
                look(f"Summary, {ours['region / depot']}, {head}", ours[head], theirs[head], earlier[head])
    lines = [ordered(part["Order"]) for part in (now, alone, before)]
    if len(lines[0]) != len(lines[1]):
        faults.append(f"{name} is picked: Order has {len(lines[0])} lines, not {len(lines[1])}")
    for ours, theirs in zip(*lines[:2]):
        for at, (one, other) in enumerate(zip(ours, theirs)):
            look(f"Order, {ours[:3]}, column {at + 1}", one, other, other)
    visits = [crew(part["Crew"]) for part in (now, alone, before)]
    if list(visits[0]) != list(visits[1]):
        faults.append(f"{name} is picked: other visits on Crew")
    for visit, ours in visits[0].items():
        for head, value in ours.items():
            look(f"Crew, {visit}, {head}", value, visits[1][visit][head], visits[2][visit][head])
    titles = [part["Crew"]["A1"].value for part in (now, alone)]
    look("Crew, title", *titles, titles[0])
    if "DO NOT TAKE THE CARDS ALONG" not in str(now["Crew"]["A3"].value):
        faults.append("Crew does not say that the cards are those of another scenario")
    print(f"{name} is picked: {compared} cells of Summary, Order and Crew compared, {moved} moved, {len(faults)} differ")
    if moved < 1_000:
        faults.append(f"only {moved} cells moved with the scenario")
    return faults


def alerted(book, folder):
    """A price that makes another count cheaper is alerted where the order is signed, and sentences of the plan say whose they are."""
    edited = openpyxl.load_workbook(book)
    # Of the scenario that is picked as the workbook comes, which is the first: what its order holds first.
    picked_rows = [row for row in edited["Packages"].iter_rows(min_row=4) if row[16].value == 1]
    product = picked_rows[0][5].value
    bought = {row[6].value for row in picked_rows if row[5].value == product and (row[7].value or 0) > 0}
    dear = [row for row in edited["Prices"].iter_rows(min_row=4) if row[0].value == product and row[1].value in bought]
    assert dear, product
    dear[0][4].value = 100_000
    out = folder / "dear.xlsx"
    edited.save(out)
    planned, now = values(book), values(recalculated(out, folder))
    faults = []
    texts = lambda part, sheet: [str(cell) for row in part[sheet].values for cell in row if cell is not None]
    for sheet, words in [("Order", "CHEAPER NOW"), ("Checks", "LOOK: cheaper now, see Order"), ("Order", "AS THE PLAN WAS MADE"), ("Crew days", "AS THE PLAN WAS MADE"), ("Summary", "AS THE PLAN WAS MADE")]:
        if sheet not in now.sheetnames:
            continue
        if any(text.startswith(words) for text in texts(planned, sheet)):
            faults.append(f"{sheet} says {words!r} before anything is changed")
        if not any(text.startswith(words) for text in texts(now, sheet)):
            faults.append(f"{sheet} does not say {words!r} once {product} in {dear[0][1].value} is dear")
    print(f"{product} in {dear[0][1].value} for 100,000: {len(faults)} alerts are missing")
    return faults


def heads(book):
    found = {}
    for sheet in openpyxl.load_workbook(book, read_only=True):
        for row in sheet.iter_rows(max_row=40, values_only=True):
            if sum(value is not None for value in row) > 4:
                found[sheet.title] = row
                break
    return found


def looked_at(book):
    """What is wrong with the workbook as it stands."""
    faults = []
    for sheet, coordinate, _, _, text in formulas(book):
        bare = re.sub(r'"[^"]*"', "", text)
        bare = re.sub(r"[A-Za-z_]+!\$?[A-Z]+\$?\d+|\$?\b[A-Z]{1,3}\$?\d+\b|[A-Za-z_][A-Za-z0-9_.]*", "", bare)
        numbers = set(re.findall(r"\d+(?:\.\d+)?", bare)) - {"0", "1"}
        if numbers:
            faults.append(f"{sheet}!{coordinate} counts with {sorted(numbers)}: {text}")
    whole = openpyxl.load_workbook(book)
    inputs = 0
    for sheet in whole:
        bounds = [(rule, area) for rule in sheet.data_validations.dataValidation for area in rule.sqref.ranges]
        for row in sheet.iter_rows():
            for cell in row:
                if cell.fill.fgColor.rgb != INPUT:
                    continue
                inputs += 1
                rules = [rule for rule, area in bounds if area.min_row <= cell.row <= area.max_row and area.min_col <= cell.column <= area.max_col]
                if not any(rule.formula1 and rule.prompt for rule in rules):
                    faults.append(f"{sheet.title}!{cell.coordinate} has no bound or no note")
    for row in whole["Inputs"].iter_rows(min_row=4, values_only=True):
        if row[1] and not (row[3] and row[6] and row[4] is not None and row[5] is not None):
            faults.append(f"an input without unit, bounds or note: {row}")
    if inputs < 80:
        faults.append(f"only {inputs} inputs")
    return faults, inputs


def repeated(visits, folder):
    """The demo's second list again and again, each time a little deeper and with other numbers of wells."""
    with (ROOT / LISTS[1]).open(encoding="utf-8-sig", newline="") as file:
        head, *lines = csv.reader(file, delimiter=";")
    depth = head.index("total depth (m)")
    lines = [line for line in lines if len(line) > depth]
    made = [head]
    for at in range(visits):
        cells = list(lines[at % len(lines)])
        turn = at // len(lines)
        cells[0] = f"R{turn:03d}-{cells[0]}"
        try:
            cells[depth] = f"{float(cells[depth]) + 0.1 * turn:.2f}"
        except ValueError:
            pass  # A decimal comma or a remark stays as it is typed.
        made.append(cells)
    out = folder / "repeated.csv"
    with out.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, delimiter=";").writerows(made)
    return out


def many(binary, folder, visits):
    """Many visits, recalculated."""
    only = ["liquid 12.5, as delivered", "granules, 30 % re-treated", "liquid 12.5, 150 mg/L, 60 left after contact"]
    book = plan(binary, str(ROOT / "scenarios/demo.toml"), str(folder / "many"), [str(repeated(visits, folder))], only)
    begun = time.monotonic()
    with tempfile.TemporaryDirectory() as profile:
        command = ["soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--convert-to", "csv", "--outdir", folder, book]
        subprocess.run(command, check=True, capture_output=True, timeout=1200)
    print(f"opened in {time.monotonic() - begun:.0f} s, in a profile that is made first")
    cells = list(formulas(book))
    faults, inputs = looked_at(book)
    found = differences(recalculated(stripped(book, folder / "stripped.xlsx"), folder), book, cells)
    print(f"{visits} visits: {len(cells)} formulas recalculated, {len(found)} differ; {inputs} inputs")
    return faults + found


def main():
    binary, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    if len(sys.argv) > 3:
        faults = many(binary, folder, int(sys.argv[3]))
        for fault in faults[:60]:
            print("FAULT", fault)
        sys.exit(1 if faults else 0)
    demo = "scenarios/demo.toml"
    book = plan(binary, str(ROOT / demo), str(folder / "demo"))
    cells = list(formulas(book))
    faults, inputs = looked_at(book)

    bare = stripped(book, folder / "stripped.xlsx")
    alive = recalculated(bare, folder)
    found = differences(alive, book, cells)
    print(f"{len(cells)} formulas recalculated, {len(found)} differ; {inputs} inputs")
    faults += found

    # The control: one formula that is wrong on purpose must be seen, and by the program that recalculates.
    wrong = openpyxl.load_workbook(bare)
    sheet, coordinate = next((cell[0], cell[1]) for cell in cells if cell[0] == "Wells" and "*" in cell[4])
    wrong[sheet][coordinate].value += "*(1+1)"
    wrong.save(folder / "wrong.xlsx")
    seen = differences(recalculated(folder / "wrong.xlsx", folder), book, cells)
    print(f"control: {len(seen)} differences from one wrong formula")
    if not any(text.startswith(f"{sheet}!{coordinate}:") for text in seen):
        faults.append("the control was not seen: nothing was recalculated")

    edited, toml, count = changed(book, demo, folder)
    fresh = plan(binary, str(toml), str(folder / "fresh"))
    faults += taken_back(binary, edited, folder)
    faults += count_taken(binary, book, folder)
    faults += alerted(book, folder)
    other = "granules 65, 200 mg/L"
    faults += picked(binary, book, folder, other, plan(binary, str(ROOT / demo), str(folder / "alone"), only=[other]))
    edited, counts = with_counts(edited, fresh, folder / "counted.xlsx")
    head = heads(book)
    following = [cell for cell in cells if follows(cell[0], cell[2], head.get(cell[0], {})[cell[2] - 1] if cell[0] in head else "")]
    # What the plan said in words of its own counts stays the plan's.
    following = [cell for cell in following if "Said_on_the_order" not in cell[4] and not moved_by_plan(cell[4])]
    found = differences(recalculated(edited, folder), fresh, following)
    moved = len(differences(book, fresh, following))
    print(f"{count} inputs and {counts} counts of packages changed: {len(following)} formulas compared with a fresh run, {moved} of them moved, {len(found)} differ")
    faults += found
    costs = [cell for cell in following if cell[0] == "Order" and "Needs_cost" in cell[4]]
    if not costs or not differences(book, fresh, costs):
        faults.append("no cost of Order moved")
    if moved < 10_000:
        faults.append(f"only {moved} figures moved")

    for fault in faults[:60]:
        print("FAULT", fault)
    sys.exit(1 if faults else 0)


main()
