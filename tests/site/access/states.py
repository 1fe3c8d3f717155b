"""Every kind of page, in the states that a reader brings it into."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tests.lots.files import many_lots
from tests.site.browser import STANDS

CROPS = ("lettuce", "tomato", "artichoke", "cowpea", "cosmos")  # with and without cautions, treatments, curves, a calculator, values at all
CALCULATORS = ("count", "daily-counts", "emergence", "old-seed", "repeated-tests", "seeds-to-sow", "soil", "sowing-times", "storage", "test-size", "tray", "treatment-times", "two-treatments", "warm-spots")
GUIDES = ("", "checklist", "glossary", "safety", "testing")  # with all that guides are made of
GUIDES_ALIKE = ("depth-light-mix", "evidence", "keeping-seed", "seed-coats", "seed-library", "soaks", "warmth", "water", "what-went-wrong")
OTHERS = ("", "crops/", "calculators/", "treatments/", "disagreements/", "what-changed/", "sources/", "methods/", "print/", "downloads/", "api/", "correct/", "contributing/", "fields/", "checks/", "credits/")
CORRECT = "correct/?crop=lettuce&quantity=maximum_c&shown=29.5+%C2%B0C+%2885+%C2%B0F%29&source=osu-harrington-2013&file=data%2Fcrops%2Flettuce.yml&line=26"
NOWHERE = "seed-library/no/such/page/"
OPEN_FOLDS = "() => { for (const fold of document.querySelectorAll('details')) fold.open = true; }"


@dataclass(frozen=True)
class State:
    """A page, what is done to it once it is there, and the width it is opened at, in CSS px; what is opened on a phone is looked at there only."""

    name: str
    path: str
    prepare: Callable | None = None
    width: int = 1280


def calculator_path(name: str) -> str:
    """Where a calculator is."""
    return "calculator/" if name == "count" else f"calculators/{name}/"


def open_page(page, site: str, state: State) -> None:
    """Go there, wait until its scripts have done their part, and bring it into the state, all folds open."""
    page.set_viewport_size({"width": state.width, "height": 900})
    page.goto(site + state.path)
    page.wait_for_function("() => document.documentElement.dataset.unit !== undefined")
    page.wait_for_function(STANDS)
    if page.locator("section.calculator").count():
        page.locator(".headline, .stale-note").first.wait_for()
    if page.locator(".poster-form").count():
        page.locator(".sheet-page").first.wait_for()
    page.evaluate(OPEN_FOLDS)
    if state.prepare:
        state.prepare(page)
    page.evaluate(OPEN_FOLDS)


def spoil(page) -> None:
    """Something that no field of a calculator takes, in every field of text that is in sight."""
    for field in page.locator(".calculator-form input[type=text]:visible").all():
        field.fill("soon")
    page.locator(".stale-note").wait_for()


def empty(page) -> None:
    """Nothing in any field of a calculator."""
    for field in page.locator(".calculator-form :is(input, textarea):visible").all():
        field.fill("")


def explore(page) -> None:
    """The chart to explore, started."""
    page.locator(".explore-open").click()
    page.locator(".explore-chart .main-svg").first.wait_for()
    page.locator(".explore-save button").first.wait_for()


def file_of_lots(page) -> None:
    """A file of lots, good and bad lines, read."""
    page.locator("#lots-file").set_input_files({"name": "lots.csv", "mimeType": "text/csv", "buffer": many_lots(40) + b"A9,Tomatoe,,,,\n"})
    page.locator(".lots-rows tr").first.wait_for()


def search(page) -> None:
    """The search, with something found."""
    if page.viewport_size["width"] < 900:
        page.get_by_role("button", name="Search", exact=True).click()
    page.locator("input.md-search__input").click()
    page.locator("input.md-search__input").press_sequentially("lettuce")
    page.locator(".md-search-result__link").first.wait_for(timeout=20_000)


def menu(page) -> None:
    """The menu of a phone."""
    page.get_by_role("button", name="Menu", exact=True).click()
    page.locator(".md-sidebar--primary .md-nav__link").first.wait_for()


def wrong_labels(page) -> None:
    """Labels on a sheet of one's own, with a measure and a line that can't be."""
    page.locator("#labels-sheet").select_option("own")
    page.locator(".labels-own input").first.fill("wide")
    page.locator("#labels-tests").fill("lot,crop,tested,seeds,normal\nA1,Tomatoe,2026-03-12,50,36\n")
    page.locator(".labels-problems li").first.wait_for()


def wrong_soil(page) -> None:
    """A temperature on a crop page that is none."""
    page.locator("#reader-c").fill("99")


def typed_correction(page) -> None:
    """A value proposed."""
    page.wait_for_selector("article.correct-page[data-ready]")
    page.locator("#correct-should-be").fill("99")


STATES = (
    *(State(path or "home", path) for path in OTHERS),
    *(State(f"guide {name}", f"guides/{name}/".replace("//", "/")) for name in GUIDES),
    *(State(f"guide {name}", f"guides/{name}/", width=360) for name in GUIDES_ALIKE),
    *(State(f"crop {name}", f"crops/{name}/") for name in CROPS),
    State("crop, wrong temperature", "crops/lettuce/", wrong_soil),
    *(State(f"calculator {name}", calculator_path(name)) for name in CALCULATORS),
    *(State(f"calculator {name}, wrong", calculator_path(name), spoil, 360) for name in CALCULATORS),
    *(State(f"calculator {name}, empty", calculator_path(name), empty, 360) for name in ("count", "soil", "sowing-times", "treatment-times")),
    *(State(f"compare {name}", f"compare/{name}/") for name in ("warmth", "days", "seed-life")),
    *(State(f"compare {name}, explored", f"compare/{name}/", explore) for name in ("warmth", "days", "seed-life")),
    State("lots", "calculators/lots/"),
    State("lots, read", "calculators/lots/", file_of_lots),
    State("labels", "print/labels/"),
    State("labels, wrong", "print/labels/", wrong_labels),
    State("poster", "print/poster/"),
    State("correct, a value", CORRECT, typed_correction),
    State("correct, an odd address", "correct/?crop=lettuce&quantity=%3Cb%3E&file=..%2Fx", lambda page: page.wait_for_selector("article.correct-page[data-ready]")),
    State("an address that leads nowhere", NOWHERE),
    State("search", "guides/warmth/", search),
    State("search on a phone", "guides/warmth/", search, width=360),
    State("menu on a phone", "guides/warmth/", menu, width=360),
    *(State(f"{path or 'home'} on a phone", path, width=360) for path in ("", "crops/tomato/", "calculators/soil/", "print/poster/")),  # they start otherwise there
)
