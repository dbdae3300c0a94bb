"""The workbook of the demo on paper: how many pages, on which sheets, and whether they are worth printing.

    python tests/living/pages.py target/release/aftercrest target/living-pages

needs LibreOffice Calc (`soffice`) and `pdftotext`. The demo is planned in US units, which prints on Letter, and in metric ones, which
prints on A4; both workbooks are printed whole. On each paper

1. there are at most 40 pages without Wells;
2. About, Checks and workings (Packages, Needs, Scenarios, Practices, Numbers) take no page;
3. no page but the last of a sheet stands nearly empty;
4. the control: with one sheet of workings that is printed the same look must find it.

The limit of 40 pages is our own; there is no standard for it.
"""

import collections
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import openpyxl

ROOT = pathlib.Path(__file__).resolve().parents[2]
LISTS = ["fixtures/demo/harrowfen-county.xlsx", "fixtures/demo/quillmoor-county.csv"]
MOST = 40
FEWEST_LINES = 7
UNPRINTED = {"About", "Checks", "Packages", "Needs", "Scenarios", "Practices", "Numbers"}


def planned(binary, folder, metric):
    """The demo's workbook; in metric units a bare gallon must say whose it is."""
    text = (ROOT / "scenarios/demo.toml").read_text()
    if metric:
        text = text.replace('units    = "us"', 'units    = "metric"')
        text = text.replace(' gal"', ' US gal"').replace(' gpm"', ' US gpm"').replace(' fl oz"', ' US fl oz"')
    scenarios = folder / "plan.toml"
    scenarios.write_text(text)
    out = folder / "out"
    command = [binary, "plan", *(str(ROOT / name) for name in LISTS), "--scenarios", scenarios, "--out", out, "--table", "none"]
    done = subprocess.run(command, capture_output=True)
    if done.returncode != 1:
        sys.exit(f"the plan ended with {done.returncode}: {done.stderr.decode()[-2000:]}")
    return out / "campaign.xlsx"


def printed(book, folder):
    """The sheet and the lines of every page; the sheet's name stands at the right of its head."""
    with tempfile.TemporaryDirectory() as profile:
        command = ["soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--convert-to", "pdf", "--outdir", folder, book]
        subprocess.run(command, check=True, capture_output=True, timeout=1200)
    names = openpyxl.load_workbook(book, read_only=True).sheetnames
    text = subprocess.run(["pdftotext", "-layout", folder / (book.stem + ".pdf"), "-"], check=True, capture_output=True, text=True).stdout
    pages = []
    for page in text.split("\f")[:-1]:
        lines = [line for line in page.split("\n") if line.strip()]
        head = lines[0].rstrip() if lines else ""
        own = [name for name in names if re.search(rf"(^|\s){re.escape(name)}$", head)]
        pages.append((max(own, key=len, default="?"), len(lines)))
    return pages


def looked_at(pages):
    faults = []
    counts = collections.Counter(sheet for sheet, _ in pages)
    rest = len(pages) - counts["Wells"]
    if rest > MOST:
        faults.append(f"{rest} pages without Wells, more than {MOST}: {dict(counts)}")
    if not counts["Summary"] or not counts["Order"] or counts["?"]:
        faults.append(f"pages are not told apart: {dict(counts)}")
    for sheet in UNPRINTED & set(counts):
        faults.append(f"{sheet} is printed")
    for (sheet, lines), (following, _) in zip(pages, pages[1:]):
        if sheet == following and lines < FEWEST_LINES:
            faults.append(f"a page of {sheet} has {lines} lines")
    return faults, rest


def main():
    binary, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    shutil.rmtree(folder, ignore_errors=True)
    faults = []
    for paper, metric in [("Letter", False), ("A4", True)]:
        own = folder / paper
        own.mkdir(parents=True)
        book = planned(binary, own, metric)
        pages = printed(book, own)
        found, rest = looked_at(pages)
        print(f"{paper}: {len(pages)} pages, {rest} without Wells")
        faults += [f"{paper}: {fault}" for fault in found]
        if not metric:
            spoilt = openpyxl.load_workbook(book)
            spoilt["Needs"].print_area = "A1:R60"
            spoilt.save(own / "spoilt.xlsx")
            if "Needs is printed" not in looked_at(printed(own / "spoilt.xlsx", own))[0]:
                faults.append("the control was not seen")
    for fault in faults:
        print("FAULT", fault)
    sys.exit(1 if faults else 0)


main()
