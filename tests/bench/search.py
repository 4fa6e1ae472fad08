"""How long the page's search takes to answer: `python -m tests.bench.search`, in Chromium, key by key. No test.

The index is that of a generated workshop of so many cards; a time is from the letter typed to the list laid out.
"""

from __future__ import annotations

import argparse
from pathlib import Path
from statistics import median
from tempfile import mkdtemp

from playwright.sync_api import sync_playwright

from procgen.compose import compose_deck, shop
from procgen.draw.fonts import prepare
from procgen.load.workshop import load_workshop
from procgen.web import data
from procgen.web.site import pages
from tests.bench.workshops import write

TYPED = ("thumbnail over the ridge", "plug MG-F", "ring travel", "bore gauge", "danger solvent", "oil", "zzz")
ASK = """typed => {
  const box = document.querySelector("input[type=search]")
  const times = []
  for (const words of typed) for (let end = 1; end <= words.length; end += 1) {
    const begun = performance.now()
    box.value = words.slice(0, end)
    box.dispatchEvent(new Event("input"))
    document.querySelector("#found").getBoundingClientRect()
    times.push(performance.now() - begun)
  }
  return times
}"""


def main() -> None:
    words = argparse.ArgumentParser(prog="python -m tests.bench.search", description=__doc__)
    words.add_argument("--cards", type=int, default=1000)
    words.add_argument("--rounds", type=int, default=5)
    given = words.parse_args()
    folder = Path(mkdtemp(prefix="search-"))
    cards = write(folder / "shed", given.cards)
    workshop = load_workshop(folder / "shed", Path.read_bytes).workshop
    assert workshop is not None
    decks = [compose_deck(workshop, family) for family in workshop.families.values()]
    site = dict(pages(shop(workshop), decks[:1], (), fonts=prepare(folder / "fonts")))
    site["data/search.js"] = data.search(decks)
    for path, content in site.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(content)
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 360, "height": 740})
        page.goto((folder / "index.html").as_uri())
        page.wait_for_selector("html[data-ready]")
        page.get_by_role("searchbox").focus()
        page.wait_for_timeout(2000)  # the index is fetched when the box is entered
        rounds = [page.evaluate(ASK, list(TYPED)) for _ in range(given.rounds)]
        browser.close()
    size = len(site["data/search.js"]) / 1024
    print(f"{cards} cards, index {size:.0f} KB, {len(rounds)} rounds of {len(rounds[0])} keys")
    print(f"a key: median {median(map(median, rounds)):.1f} ms, longest {max(map(max, rounds)):.1f} ms (goal: 50)")


if __name__ == "__main__":
    main()
