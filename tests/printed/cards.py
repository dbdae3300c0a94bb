"""Prints a run's crew cards and notices on A4 and on Letter with Chromium, and reads the pages back.

    python3 tests/printed/cards.py FOLDER

FOLDER holds what `aftercrest plan --demo` wrote. Holds that every visit's card is printed once and whole on one page, that
two cards of half a page share one, that no page is cut off, that the figures on paper are those of the page, and that every box
to write in is large enough for a hand outdoors, measured on paper. Needs chromium and pdftotext (Debian: chromium,
poppler-utils).
"""

import html
import re
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

SIZES = ("A4", "Letter")
POINTS = {"A4": (595, 842), "Letter": (612, 792)}
# Shares of the drilled wells with amounts; the others carry more words than half a page has room for.
LEAST_HALVES = 0.65
# Millimeters of a box to write in, label and all, from label to label: common practice, no source.
LEAST_HEIGHT, LEAST_WIDTH = 9.0, 18
# So much lower than the label of another row stands the foot below the last one.
ABOVE_FOOT = 0.1
CARD = re.compile(r'<article class="card ([a-z ]+)" data-well="([^"]*)" data-visit="([^"]*)">(.*?)</article>', re.S)


def printed(page: str, size: str, folder: Path) -> list[str]:
    """The text of each page on paper of a size; the pages stay in the folder."""
    source, target = folder / "page.html", folder / "page.pdf"
    source.write_text(page.replace("@page {", f"@page {{ size: {size};", 1), encoding="utf-8")
    subprocess.run(
        ["chromium", "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder / 'profile'}",
         "--no-pdf-header-footer", f"--print-to-pdf={target}", source.as_uri()],
        check=True, capture_output=True, timeout=300,
    )
    info = subprocess.run(["pdfinfo", str(target)], check=True, capture_output=True, text=True).stdout
    width, height = (round(float(part)) for part in re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", info).groups())
    assert (width, height) == POINTS[size], f"{size} is {width} x {height} points"
    text = subprocess.run(["pdftotext", "-raw", str(target), "-"], check=True, capture_output=True, text=True).stdout
    return text.split("\f")[:-1]


def plain(text: str) -> str:
    """Letters and digits only: a line break on paper must not count."""
    return "".join(letter for letter in text if letter.isalnum())


def words(markup: str) -> str:
    return html.unescape(re.sub(r"<[^>]+>", "", markup))


WORD = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="[\d.]+" yMax="[\d.]+">(.*?)</word>', re.S)


def boxes_on_paper(folder: Path, labels: list[str], foot: str) -> list[tuple[float, float]]:
    """Height and width in millimeters of each box with these labels, wherever they stand one after another before the foot."""
    done = subprocess.run(["pdftotext", "-raw", "-bbox", str(folder / "page.pdf"), "-"], check=True, capture_output=True, text=True)
    sizes = []
    for page in done.stdout.split("<page ")[1:]:
        letters, places = "", []
        for x, y, word in WORD.findall(page):
            word = plain(html.unescape(word))
            places += [(float(x), float(y))] * len(word)
            letters += word
        run = "".join(labels) + foot
        at = letters.find(run)
        while at >= 0:
            starts = [at]
            for label in labels:
                starts.append(starts[-1] + len(label))
            x, y = zip(*(places[start] for start in starts))
            rows = sorted(set(y))
            below = dict(zip(rows, rows[1:]))
            last = rows[-2]
            for box in range(len(labels)):
                beside = [x[other] for other in range(len(labels)) if y[other] == y[box] and x[other] > x[box]]
                height = (below[y[box]] - y[box]) * 25.4 / 72 - (ABOVE_FOOT if y[box] == last else 0)
                sizes.append((height, (min(beside) - x[box]) * 25.4 / 72 if beside else float("inf")))
            at = letters.find(run, at + 1)
    return sizes


def can_be_written_in(cards: list, foot: str, size: str, scratch: Path) -> None:
    """Every box of every card is as high and as wide as a hand needs."""
    kinds = {}
    for kind, *_, markup in cards:
        labels = tuple(plain(words(box)) for box in re.findall(r'<div class="box">(.*?)</div>', markup, re.S))
        kinds.setdefault(labels, []).append(kind)
    smallest = (float("inf"), float("inf"))
    for labels, of in kinds.items():
        found = boxes_on_paper(scratch, list(labels), foot)
        assert len(found) == len(labels) * len(of), f"{size}: {len(found)} boxes of {len(of)} cards with {labels}"
        smallest = tuple(map(min, smallest, (min(height for height, _ in found), min(width for _, width in found))))
    assert smallest[0] >= LEAST_HEIGHT and smallest[1] >= LEAST_WIDTH, f"{size}: a box of {smallest} mm"
    print(f"{size}: boxes at least {smallest[0]:.1f} mm high and {smallest[1]:.1f} mm wide")


def sheets(folder: Path, scratch: Path) -> None:
    page = (folder / "crew-sheets.html").read_text(encoding="utf-8")
    foot = plain(words(re.search(r"<footer>(.*?)</footer>", page, re.S)[1]))
    cards = CARD.findall(page)
    kinds = [kind.split()[0] for kind, *_ in cards]
    # An ordinary drilled well has half a page, in every language.
    language = re.search(r'<html lang="([a-z]+)"', page)[1]
    words_of = Path(__file__).parents[2] / "src/report/crew/words" / f"{language}.toml"
    kind_of = tomllib.loads(words_of.read_text(encoding="utf-8"))["kind"]["drilled"]
    drilled = [kind for kind, _, _, markup in cards if f'<span class="kind">{kind_of}</span>' in markup and "measure" not in kind]
    halves = sum(kind.startswith("half") for kind in drilled)
    assert drilled and halves >= LEAST_HALVES * len(drilled), \
        f"{language}: {halves} of {len(drilled)} cards of drilled wells take half a page"
    # A run of cards of one size fills pages: two halves on each, a full one alone.
    pages = 1 + page.count('class="page load"')
    for block in re.findall(r'<div class="cards">(.*?)</div>(?=<section|<div class="cards">|</main>)', page, re.S):
        found = CARD.findall(block)
        pages += -(-len(found) // 2) if found[0][0].startswith("half") else len(found)
    for size in SIZES:
        texts = [plain(text) for text in printed(page, size, scratch)]
        assert len(texts) == pages, f"{size}: {len(texts)} pages, {pages} were expected"
        # No page stands empty, and none ends in the middle of a card.
        assert all(texts), f"{size}: an empty page"
        assert sum(text.count(foot) for text in texts) == len(cards), f"{size}: not every card ends on a page"
        for _, well, visit, markup in cards:
            header = plain(words(re.search(r"<header>(.*?)</header>", markup, re.S)[1]))
            steps = [plain(words(step)) for step in re.findall(r"<li>(.*?)</li>", markup, re.S)]
            boxes = [plain(words(box)) for box in re.findall(r'<div class="box">(.*?)</div>', markup, re.S)]
            whole = [
                text for text in texts
                if header[:12] in text and all(step in text for step in steps) and all(box in text for box in boxes)
            ]
            assert whole, f"{size}: the card of {html.unescape(well)}, visit {html.unescape(visit)} is on no page whole"
        can_be_written_in(cards, foot, size, scratch)
        print(f"{size}: {len(cards)} cards ({kinds.count('half')} of half a page) on {len(texts)} pages, each whole")


def notices(folder: Path, scratch: Path) -> None:
    page = (folder / "notices.html").read_text(encoding="utf-8")
    count = page.count('class="page notice"')
    for size in SIZES:
        texts = printed(page, size, scratch)
        assert len(texts) == 2 * count, f"{size}: {count} notices with tags on {len(texts)} pages"
        print(f"{size}: {count} notices, each with its tags on 2 pages")


def main() -> None:
    folder = Path(sys.argv[1])
    with tempfile.TemporaryDirectory() as scratch:
        sheets(folder, Path(scratch))
        notices(folder, Path(scratch))


if __name__ == "__main__":
    main()
