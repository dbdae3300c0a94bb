"""Draws the pictures of the README from what the demo wrote.

    python3 tests/pages/pictures.py FOLDER INTO

FOLDER holds what `aftercrest plan --demo` wrote; director.png, card.png and map.png go INTO a folder. The test
`documents::pictures` runs it when its outputs are blessed, and holds the pictures against the demo; see there for which parts
are drawn. Needs chromium.
"""

import base64
import json
import sys
from pathlib import Path

from browser import Browser

# Page, part, width in CSS pixels, room around it, whether as on paper. The card is the first of a drilled well.
PICTURES = {
    "director.png": ("report.html", "document.querySelector('#decision')", 712, 12, True),
    "card.png": ("crew-sheets.html", "[...document.querySelectorAll('article.card')]"
                 ".find(card => card.querySelector('.kind').textContent === 'Drilled well')", 700, 0, True),
    "map.png": ("report.html", "document.querySelector('#map figure')", 760, 8, False),
}


def drawn(browser, page, part, width, room, as_printed):
    browser.call("Emulation.setDeviceMetricsOverride", width=width, height=1000, deviceScaleFactor=1, mobile=False)
    browser.call("Emulation.setEmulatedMedia", media="print" if as_printed else "screen",
                 features=[{"name": "prefers-color-scheme", "value": "light"}])
    browser.call("Emulation.setScrollbarsHidden", hidden=True)
    browser.open(page)
    # Paper has margins, a screen that shows it as printed has none.
    browser.run(f"document.body.style.padding = '{room if as_printed else 22}px'; 0")
    # The title stands above the director's page, outside of its section.
    left, top, right, bottom = json.loads(browser.run(
        f"(() => {{ const part = {part}; const box = part.getBoundingClientRect();"
        f" const top = part.id === 'decision' ? {room} : box.top + scrollY;"
        " return JSON.stringify([box.left, top, box.right, box.bottom + scrollY]); })()"))
    area = {"x": left - room, "y": top - room, "width": right - left + 2 * room, "height": bottom - top + 2 * room}
    picture = browser.call("Page.captureScreenshot", format="png", captureBeyondViewport=True, clip={**area, "scale": 1})
    return base64.b64decode(picture["data"])


def main():
    folder, into = (Path(argument) for argument in sys.argv[1:3])
    into.mkdir(parents=True, exist_ok=True)
    browser = Browser()
    try:
        for name, (page, part, width, room, as_printed) in PICTURES.items():
            picture = drawn(browser, folder / page, part, width, room, as_printed)
            (into / name).write_bytes(picture)
            print(f"{name}: {len(picture) / 1000:.0f} kB")
    finally:
        browser.close()


if __name__ == "__main__":
    main()
