#!/usr/bin/env python3
"""A campaign book as a person has it: made from two lists, filled in, saved by a spreadsheet program, planned.

    python3 tests/books/books.py path/to/aftercrest

Needs openpyxl and LibreOffice (soffice). The book is filled in by openpyxl, opened and saved by LibreOffice as XLSX and as ODS, and
planned in all three forms: the tables must be the same bytes. Ends non-zero on the first difference.
"""

import pathlib
import shutil
import subprocess
import sys
import tempfile

import openpyxl

ROOT = pathlib.Path(__file__).resolve().parents[2]
LISTS = ["county_health_form.csv", "conservation_district.xlsx"]
TABLES = ["treatments.csv", "totals.csv", "orders.csv", "findings.csv"]


def run(program, *arguments, ends=(0, 1)):
    answer = subprocess.run([program, *map(str, arguments)], capture_output=True, text=True)
    if answer.returncode not in ends:
        sys.exit(f"{arguments} ended with {answer.returncode}:\n{answer.stdout}{answer.stderr}")
    return answer


def line(sheet, title, value):
    """The value beside a name."""
    for row in sheet.iter_rows():
        if row[0].value == title:
            row[1].value = value
            return
    sys.exit(f"{sheet.title} has no line {title}")


def fill(book):
    """What a planner types: percentages, a price with its sign, a decimal comma, a day in words, meanings of words."""
    campaign, practice = book["Campaign"], book["Practice"]
    line(campaign, "Units", "us")
    line(campaign, "Title", "Two counties (invented) ")
    line(campaign, "Currency", "USD")
    line(campaign, "Day of the plan", "31 May 2026")
    line(practice, "Wells re-treated", "20 %")
    line(practice, "Product lost in handling", "5%")
    line(practice, "Treated ÷ standing volume", "1,1")
    line(practice, "Plumbing where the list gives none", "30 gal")
    words = book["Words"]
    heads = [cell.value for cell in next(row for row in words.iter_rows() if row[0].value == "File")]
    answered = 0
    for row in words.iter_rows(min_row=5):
        if row[heads.index("Word")].value and row[heads.index("Field")].value == "well_type":
            row[heads.index("Means")].value = "drilled"
            answered += 1
    packages = book["Packages and prices"]
    priced = 0
    for row in packages.iter_rows(min_row=5):
        if row[0].value and row[1].value:
            row[2].value = "$24.50" if priced % 2 else 31.0
            priced += 1
    if not priced:
        sys.exit("no package to price")
    return answered, priced


def saved_as(folder, book, ending):
    """The book as LibreOffice saves it."""
    into = folder / f"saved-{ending}"
    into.mkdir()
    profile = (folder / "profile").as_uri()
    subprocess.run(
        ["soffice", "--headless", f"-env:UserInstallation={profile}", "--convert-to", ending, "--outdir", into, book],
        check=True,
        capture_output=True,
    )
    made = into / f"{book.stem}.{ending}"
    back = folder / f"by-{ending}.{ending}"
    shutil.move(made, back)
    return back


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as temporary:
        folder = pathlib.Path(temporary)
        for name in LISTS:
            shutil.copy(ROOT / "fixtures/lists" / name, folder / name)
        made = folder / "book.xlsx"
        run(program, "start", *(folder / name for name in LISTS), "--out", made, ends=(0,))
        refused = run(program, "plan", made, "--out", folder / "open", ends=(2,))
        if "sheet Campaign, B" not in refused.stderr:
            sys.exit(f"units that are open are not asked by their cell:\n{refused.stderr}")
        book = openpyxl.load_workbook(made)
        answered, priced = fill(book)
        book.save(made)
        books = {"openpyxl": made, "xlsx": saved_as(folder, made, "xlsx"), "ods": saved_as(folder, made, "ods")}
        tables = {}
        for name, path in books.items():
            run(program, "check", path)
            run(program, "plan", path, "--out", folder / f"plan-{name}")
            tables[name] = {table: (folder / f"plan-{name}" / table).read_bytes() for table in TABLES}
        for name, found in tables.items():
            for table in TABLES:
                if found[table] != tables["openpyxl"][table]:
                    sys.exit(f"{table} of the book saved by {name} differs")
        # Brought up to date, everything that was filled in is there still.
        run(program, "start", made, "--update", ends=(0,))
        run(program, "plan", made, "--out", folder / "updated")
        for table in TABLES:
            if (folder / "updated" / table).read_bytes() != tables["openpyxl"][table]:
                sys.exit(f"{table} differs after an update of the book")
        rows = tables["openpyxl"]["treatments.csv"].count(b"\n") - 1
        print(f"{len(books)} books, {answered} words answered, {priced} prices, {rows} rows of treatments: all the same")


if __name__ == "__main__":
    main()
