"""The report in a browser: what only a browser can tell.

    python3 tests/pages/report.py campaign/report.html AXE.JS [--hostile REPORT] [--long REPORT] [--unpriced REPORT]

No console error, no request leaves the page, an accessibility checker finds nothing in light and dark, tables sort and filter
from the keyboard, the page prints to the expected number of pages on A4 and Letter with the director's page on exactly one, no
heading stands alone at the foot of a page, heads of tables come again at the top of the next, and nothing is clipped at the
side of a picture. On a phone 390 pixels wide the page does not move sideways and the letters of pictures can be read. For a report made of hostile lists: nothing that was typed acts. For those made of long names, all priced and
not (long.csv with long.toml and long-unpriced.toml): the director's page is one page there, too. Needs chromium and pdftotext
(poppler-utils); AXE.JS is axe.min.js of npm's axe-core. `--control` shows that the checks can fail.
"""

import argparse
import json
import subprocess
import sys
from pathlib import Path

from browser import Browser

PAPERS = {"A4": (8.27, 11.69), "Letter": (8.5, 11.0)}
# Pages that each report prints to with the fonts of `.ci/run`; folded parts are not printed. Where a report has become longer
# or shorter for a good reason, the fault says the number to write here.
PAGES = {
    "report": {"A4": 16, "Letter": 18},
    "long names": {"A4": 13, "Letter": 14},
    "nothing priced": {"A4": 14, "Letter": 15},
}

faults = []


def expect(holds, fault):
    if not holds:
        faults.append(fault)


def pages_of(printed, order="-layout"):
    """The text of each printed page, read back by another program."""
    done = subprocess.run(["pdftotext", order, "-", "-"], input=printed, capture_output=True, check=True)
    pages = done.stdout.decode().split("\f")
    return pages[:-1] if pages and not pages[-1].strip() else pages


def quiet(browser, what):
    expect(not browser.complaints(), f"{what}: console says {browser.complaints()[:3]}")
    expect(not browser.requests(), f"{what}: asked for {browser.requests()[:3]}")


def accessible(browser, axe, what):
    browser.run(axe)
    browser.run("document.querySelectorAll('details').forEach(part => part.open = true)")
    found = json.loads(browser.run(
        "axe.run(document, {resultTypes: ['violations']}).then(result => JSON.stringify({passes: result.passes.length,"
        " violations: result.violations.map(rule => ({id: rule.id, impact: rule.impact, help: rule.help,"
        " nodes: rule.nodes.slice(0, 3).map(node => node.html.slice(0, 160))}))}))"))
    expect(found["passes"] > 20, f"{what}: the checker asked only {found['passes']} rules")
    for rule in found["violations"]:
        faults.append(f"{what}: {rule['id']} ({rule['impact']}): {rule['help']}: {rule['nodes']}")
    browser.run("document.querySelectorAll('details').forEach(part => part.open = false)")
    return found


COLUMN = """(() => {
  const table = [...document.querySelectorAll('table')].find(table => table.caption.textContent === %s);
  const at = [...table.tHead.rows[0].cells].findIndex(head => head.textContent.startsWith(%s));
  return JSON.stringify({sort: table.tHead.rows[0].cells[at].getAttribute('aria-sort'),
    rows: [...table.tBodies[0].rows].filter(row => !row.hidden).map(row => row.cells[at].textContent)});
})()"""


def column(browser, caption, head):
    return json.loads(browser.run(COLUMN % (json.dumps(caption), json.dumps(head))))


def sorts_and_filters(browser):
    caption, head = "Amounts by scenario", "Target"
    before = column(browser, caption, head)
    focus = ("[...document.querySelectorAll('table')].find(table => table.caption.textContent === %s)"
             ".tHead.querySelectorAll('button')[2].focus()" % json.dumps(caption))
    browser.run(focus)
    browser.press("Enter", 13)
    up = column(browser, caption, head)
    numbers = [float(text.replace(",", "")) for text in up["rows"]]
    expect(up["sort"] == "ascending" and numbers == sorted(numbers), f"does not sort upward by the keyboard: {up}")
    browser.press("Enter", 13)
    down = column(browser, caption, head)
    numbers = [float(text.replace(",", "")) for text in down["rows"]]
    expect(down["sort"] == "descending" and numbers == sorted(numbers, reverse=True), f"does not sort downward: {down}")
    expect(sorted(down["rows"]) == sorted(before["rows"]), "sorting lost rows")
    label = "Show rows with this text: " + caption
    browser.run("document.querySelector(%s).focus()" % json.dumps(f"input[aria-label={json.dumps(label)}]"))
    browser.call("Input.insertText", text="GRANULES")
    left = column(browser, caption, "Scenario")["rows"]
    expect(left and all("granules" in name for name in left), f"does not filter: {left}")
    said = browser.run("document.querySelector('.filter [role=status]').textContent")
    expect(said == f"{len(left)} of {len(before['rows'])} rows", f"the count says {said!r}")


# Everything that must not be the last on a page, and the heads of each table that is printed.
HEADINGS = """JSON.stringify([...document.querySelectorAll('h2, h3, figcaption, caption, thead')]
  .filter(part => !part.closest('details')).map(part => part.textContent))"""
TABLES = """JSON.stringify([...document.querySelectorAll('table')].filter(table => !table.closest('details'))
  .map(table => [table.tHead.textContent, [...table.tBodies[0].rows].map(row => row.textContent)]))"""


def letters(text):
    """Letters and digits alone: line breaks and blanks on paper must not count."""
    return "".join(letter for letter in text if letter.isalnum())


def prints(browser, what):
    headings = [letters(text) for text in json.loads(browser.run(HEADINGS))]
    tables = [(letters(head), [letters(row) for row in rows]) for head, rows in json.loads(browser.run(TABLES))]
    for paper, (width, height) in PAPERS.items():
        printed = browser.pdf(width, height)
        pages, raw = pages_of(printed), [letters(page) for page in pages_of(printed, "-raw")]
        expected = PAGES[what][paper]
        expect(len(pages) == expected, f"{what}: {len(pages)} pages on {paper}, expected {expected}")
        first, second = pages[0], pages[1] if len(pages) > 1 else ""
        for text in ("What must be decided", "The cheapest choice", "What is uncertain", "Three risks", "To decide", "Decided"):
            expect(text in first, f"{what}, {paper}: {text!r} is not on the director's page")
        expect("The scenarios compared" not in first, f"{what}, {paper}: the director's page runs on into the rest")
        expect(second.strip().startswith("The scenarios compared"), f"{what}, {paper}: the director's page is not one page")
        for number, page in enumerate(raw, 1):
            alone = [heading for heading in headings if heading and page.endswith(heading)]
            expect(not alone, f"{what}, {paper}: page {number} ends with the heading {alone[:1]}")
        over = 0
        for head, rows in tables:
            # A row may stand in two tables: those pages that hold this table's heads and first row begin it.
            on = [number for number, page in enumerate(raw) if head in page]
            ends = [number for number, page in enumerate(raw) if rows[-1] in page]
            if on and ends and (start := on[0]) < (end := min((page for page in ends if page >= on[0]), default=on[0])):
                over += end - start
                missing = [number + 1 for number in range(start, end + 1) if number not in on]
                expect(not missing, f"{what}, {paper}: the table {rows[0][:30]!r} goes on without its heads on pages {missing}")
        expect(over > 0, f"{what}, {paper}: no table goes on to another page, so nothing is known of its heads")


# Texts of pictures that reach over the edge of their drawing, at the width of printed paper.
CLIPPED = """JSON.stringify([...document.querySelectorAll('svg')].flatMap(svg => {
  const edge = svg.getBoundingClientRect();
  return [...svg.querySelectorAll('text')].filter(text => {
    const box = text.getBoundingClientRect();
    return box.width > 0 && (box.left < edge.left - 1 || box.right > edge.right + 1 || box.bottom > edge.bottom + 1);
  }).map(text => text.textContent);
}))"""


def whole_pictures(browser, what):
    clipped = json.loads(browser.run(CLIPPED))
    expect(not clipped, f"{what}: over the edge of their pictures: {clipped[:5]}")


# What reaches over the side of a phone, but for tables, which move within their frames; and the smallest letters of pictures.
PHONE = 390
SIDEWAYS = """JSON.stringify([document.scrollingElement.scrollWidth, window.visualViewport.scale,
  [...document.querySelectorAll('main *')].filter(part => !part.closest('.scroll, svg')
    && part.getBoundingClientRect().right > %d + 1).map(part => part.outerHTML.slice(0, 90))])"""
LETTERS = """JSON.stringify([...document.querySelectorAll('svg')].filter(svg => svg.getBoundingClientRect().width > 0).map(svg =>
  [svg.querySelector('title').textContent, svg.getBoundingClientRect().width / svg.viewBox.baseVal.width
    * Math.min(...[...svg.querySelectorAll('text')].map(text => parseFloat(getComputedStyle(text).fontSize)))]))"""
SMALLEST = 9.5


def fits_a_phone(browser, path, what, spoil=""):
    browser.screen(PHONE)
    browser.open(path)
    if spoil:
        browser.run(spoil)
    width, scale, over = json.loads(browser.run(SIDEWAYS % PHONE))
    expect(width <= PHONE and scale == 1 and not over, f"{what}, phone: the page is {width} pixels wide at {scale}: {over[:3]}")
    pictures = json.loads(browser.run(LETTERS))
    expect(len(pictures) > 4, f"{what}, phone: {len(pictures)} pictures are shown")
    for title, size in pictures:
        expect(size >= SMALLEST, f"{what}, phone: letters of {size:.1f} pixels in {title!r}")
    whole_pictures(browser, f"{what}, phone")
    browser.screen()


def harmless(browser, path):
    browser.open(path)
    quiet(browser, "hostile lists")
    expect(browser.run("document.querySelectorAll('main script, main img, main iframe').length") == 0, "hostile text became markup")
    expect(browser.run("window.hostile === undefined"), "hostile text ran")
    text = browser.run("document.body.textContent")
    for typed in ("<script>window.hostile=1</script>", "<img src=x onerror=window.hostile=1>", "[U+202E]", "=1+1"):
        expect(typed in text, f"hostile text {typed!r} does not show as it was typed")
    expect("\u202e" not in text, "a mark that turns the direction of text is on the page")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("report")
    parser.add_argument("axe")
    parser.add_argument("--hostile")
    parser.add_argument("--long")
    parser.add_argument("--unpriced")
    parser.add_argument("--control", action="store_true")
    given = parser.parse_args()
    axe = Path(given.axe).read_text(encoding="utf-8")
    browser = Browser()
    try:
        browser.open(given.report)
        quiet(browser, "report")
        for scheme in ("light", "dark"):
            browser.media(prefers_color_scheme=scheme)
            if given.control:
                browser.run("document.querySelector('html').removeAttribute('lang');"
                            "document.querySelector('.subtitle').style.color = '#888'")
            accessible(browser, axe, scheme)
        if given.control:
            browser.run("fetch('https://example.com/').catch(() => 0); console.error('planted'); document.title")
            browser.run("new Promise(done => setTimeout(done, 300))")
            quiet(browser, "control")
        sorts_and_filters(browser)
        browser.open(given.report)
        if given.control:
            browser.run("document.querySelector('#decision').style.minHeight = '40cm';"
                        "document.querySelectorAll('th button').forEach(button => button.style.display = 'inline-block');"
                        "document.querySelectorAll('svg text').forEach(text => text.setAttribute('dx', 60)); document.title")
        whole_pictures(browser, "report")
        prints(browser, "report")
        for path, what in ((given.long, "long names"), (given.unpriced, "nothing priced")):
            if path:
                browser.open(path)
                quiet(browser, what)
                whole_pictures(browser, what)
                prints(browser, what)
                fits_a_phone(browser, path, what)
        spoil = "document.querySelectorAll('.wide').forEach(part => part.style.display = 'block'); 0" if given.control else ""
        fits_a_phone(browser, given.report, "report", spoil)
        if given.hostile:
            fits_a_phone(browser, given.hostile, "hostile lists")
            harmless(browser, given.hostile)
    finally:
        browser.close()
    if given.control:
        for planted in PLANTED:
            if not any(planted in fault for fault in faults):
                sys.exit(f"control: nothing is said of what was planted: {planted!r} in {faults}")
        print(f"control: all {len(PLANTED)} faults found that were planted")
        return
    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"pages: {len(faults)} faults")
    sys.exit(1 if faults else 0)


# What each planted fault makes the checks say.
PLANTED = ("html-has-lang", "color-contrast", "console says", "director's page is not one page",
           "goes on without its heads", "over the edge of their pictures", "pages on A4, expected", "phone: letters of")


if __name__ == "__main__":
    main()
