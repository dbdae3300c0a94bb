"""The report in a browser: what only a browser can tell.

    python3 tests/pages/report.py campaign/report.html AXE.JS [HOSTILE/report.html]

No console error, no request leaves the page, an accessibility checker finds nothing serious in light and dark, tables sort and
filter from the keyboard, the page prints to the expected number of pages on A4 and Letter with the director's page on exactly
one, and (for a report made of hostile lists) nothing that was typed acts. Needs chromium and pdftotext (poppler-utils); AXE.JS
is axe.min.js of npm's axe-core. `--control` shows that the checks can fail.
"""

import json
import subprocess
import sys
from pathlib import Path

from browser import Browser

PAPERS = {"A4": (8.27, 11.69), "Letter": (8.5, 11.0)}
# Pages that the demo's report prints to, with room for another font's widths. Folded parts are not printed.
PAGES = range(8, 21)
SERIOUS = {"serious", "critical"}

faults = []


def expect(holds, fault):
    if not holds:
        faults.append(fault)


def pages_of(printed):
    """The text of each printed page, read back by another program."""
    done = subprocess.run(["pdftotext", "-layout", "-", "-"], input=printed, capture_output=True, check=True)
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
        if rule["impact"] in SERIOUS:
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


def prints(browser, what, expected):
    for paper, (width, height) in PAPERS.items():
        pages = pages_of(browser.pdf(width, height))
        expect(len(pages) in expected, f"{what}: {len(pages)} pages on {paper}, expected {expected}")
        first, second = pages[0], pages[1] if len(pages) > 1 else ""
        for text in ("What must be decided", "The cheapest choice", "What is uncertain", "Three risks", "To decide", "Decided"):
            expect(text in first, f"{what}, {paper}: {text!r} is not on the director's page")
        expect("The scenarios compared" not in first, f"{what}, {paper}: the director's page runs on into the rest")
        expect(second.strip().startswith("The scenarios compared"), f"{what}, {paper}: the director's page is not one page")


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
    control = "--control" in sys.argv
    report, axe_file, *hostile = [argument for argument in sys.argv[1:] if argument != "--control"]
    axe = Path(axe_file).read_text(encoding="utf-8")
    browser = Browser()
    try:
        browser.open(report)
        quiet(browser, "report")
        for scheme in ("light", "dark"):
            browser.media(prefers_color_scheme=scheme)
            if control:
                browser.run("document.querySelector('html').removeAttribute('lang');"
                            "document.querySelector('.subtitle').style.color = '#888'")
            accessible(browser, axe, scheme)
        if control:
            browser.run("fetch('https://example.com/').catch(() => 0); console.error('planted');"
                        "document.querySelector('#decision').style.minHeight = '40cm'; document.title")
            browser.run("new Promise(done => setTimeout(done, 300))")
            quiet(browser, "control")
        sorts_and_filters(browser)
        browser.open(report)
        prints(browser, "report", PAGES)
        for path in hostile:
            harmless(browser, path)
    finally:
        browser.close()
    if control:
        print(f"control: {len(faults)} faults found of those planted")
        sys.exit(0 if len(faults) >= 4 else 1)
    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"pages: {len(faults)} faults")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
