"""Every guide of the project: each number on its page is what the data holds, also when the data changes, and nothing is built without it."""

import re
import shutil

import pytest
import yaml

from build_tools.model import load
from build_tools.printers import as_text
from build_tools.read.guide_text import read_guides
from build_tools.render.environment import make_environment
from build_tools.render.guides import _page, path_of

from .test_written import Html

from tests.conftest import ROOT

GUIDES = read_guides(ROOT / "docs" / "guides")[0]
TAKEN = re.compile(r'<a class="value" href="[^"]*">(.*?)</a>', re.DOTALL)
TEMPERATURES = ("°C", "°C more")


def body(reference, root, guide):
    return _page(reference, make_environment(reference), reference.guides[guide]).body()


def shown(html: str) -> list[str]:
    """The values on a page as they read, in order."""
    return [re.sub(r"<[^>]*>", "", words) for words in TAKEN.findall(html.partition('<summary>The numbers on this page')[0])]


class Raw:
    """The data as a plain YAML parser reads it."""

    def __init__(self, root):
        def read(path):
            return yaml.safe_load((root / "data" / path).read_text(encoding="utf-8"))

        self.read, self.figures, self.practice, self.crops = read, read("figures.yml"), read("quantities.yml")["practice"], {}

    def numbers(self, name: str) -> tuple[list[float], str]:
        """(numbers, unit) of a name in braces; no numbers for a choice."""
        owner, _, key = name.partition(".")
        if not key:
            return [self.practice[name]["value"]], "°C more" if name.endswith("_rise_c") else self.practice[name]["unit"]
        if owner in self.figures:
            found = self.figures[owner][key]
            return [found[k] for k in ("value", "low", "high") if k in found], found["unit"]
        crop = self.crops.setdefault(owner, self.read(f"crops/{owner}.yml"))
        if key == "best":
            return [crop["temperature"]["optimum_low_c"]["value"], crop["temperature"]["optimum_high_c"]["value"]], "°C"
        value = crop.get("temperature", {}).get(key) or crop.get(key) or crop.get("frost", {}).get(key) or {}
        unit = "°C" if key.endswith("_c") else "mm" if key.endswith("_mm") else "years" if key.endswith("_years") else ""
        return ([value[k] for k in ("value", "low", "high") if k in value] if unit else []), unit


def expected(number: float, unit: str) -> list[str]:
    """The numbers that must stand in the words: the data's own, and a temperature in °F by the formula."""
    own = f"{round(number, 1) if unit in TEMPERATURES else number:g}".replace("-", "−")
    fahrenheit = number * 9 / 5 + (32 if unit == "°C" else 0)
    return [own, *([f"{int(abs(fahrenheit) + 0.5)}"] if unit == "°C" or unit == "°C more" and fahrenheit >= 1 else [])]


@pytest.fixture(scope="module")
def raw(root):
    return Raw(root)


@pytest.mark.parametrize("guide", sorted(GUIDES))
def test_each_value_on_the_page_is_what_the_data_holds(guide, reference, root, raw):
    words = shown(body(reference, root, guide))
    pulls = [pull for pull in GUIDES[guide].pulls() if pull.kind == "value"]
    assert len(words) == len(pulls)
    for text, pull in zip(words, pulls, strict=True):
        numbers = set(re.findall(r"[−\d.]+\d|\d", text))
        for name in pull.names:
            for value in (found := raw.numbers(name))[0]:
                if not (found[1] == "mm" and value == 0):
                    assert set(expected(value, found[1])) <= numbers, (pull.raw, text, value)
            assert found[1] in ("", "points") or found[1].removesuffix(" more").rstrip("s") in text or "on the surface" in text, (pull.raw, text)


@pytest.mark.parametrize("guide", sorted(GUIDES))
def test_each_guide_is_sound_html_with_its_anchors_and_no_leftovers(guide, reference, root):
    html = body(reference, root, guide)
    seen = Html(html)
    ids = [attributes["id"] for _, attributes in seen.tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    assert not re.search("[{}\ue000\ue001]", seen.text), "something in braces was not taken in"
    assert all(a["href"][1:] in {*ids, "top"} for a in seen.all("a") if a.get("href", "").startswith("#"))
    assert not any("style" in attributes or any(name.startswith("on") for name in attributes) for _, attributes in seen.tags)
    assert all(re.match(r"(\.\./|#|\./|mailto:|https://)", a["href"]) for a in seen.all("a") if "href" in a and guide != "index")


def test_every_guide_has_its_page_and_its_place_in_the_list(reference):
    assert set(reference.guides) == set(GUIDES)
    assert [path_of(name) for name in list(reference.guides)][:1] == ["guides/index.md"]


def changed(project, file: str, old: str, new: str) -> None:
    path = project / file
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1, (file, old, text.count(old))
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_a_guide_shows_the_value_of_a_changed_crop_file(project):
    with (project / "docs/guides/warmth.md").open("a", encoding="utf-8") as file:
        file.write("\nLettuce bears {lettuce.maximum_c}, and lives {lettuce.seed_life_years}. {no claim}\n")
    lettuce = (project / "data/crops/lettuce.yml").read_text(encoding="utf-8")
    life = re.search(r"seed_life_years: \{value: ([0-9.]+)", lettuce) or re.search(r"seed_life_years: \{low: ([0-9.]+), high: [0-9.]+", lettuce)
    before, problems = load(project)
    assert before, as_text(problems)
    words = shown(body(before, project, "warmth"))[-2:]
    maximum = re.search(r"maximum_c: \{value: ([0-9.]+)", lettuce)[1]
    assert words[0].startswith(f"{float(maximum):g} °C (") and life[1] in words[1]
    changed(project, "data/crops/lettuce.yml", f"maximum_c: {{value: {maximum},", f"maximum_c: {{value: {float(maximum) - 0.5:g},")
    after, problems = load(project)
    assert after, as_text(problems)
    assert shown(body(after, project, "warmth"))[-2].startswith(f"{float(maximum) - 0.5:g} °C (")


def test_a_list_of_crops_follows_the_crop_files(project):
    with (project / "docs/guides/warmth.md").open("a", encoding="utf-8") as file:
        file.write("\nThese are cool: {crops: season=cool}. {no claim}\n")
    reference, problems = load(project)
    assert reference, as_text(problems)
    cool = {path.stem for path in (project / "data/crops").glob("*.yml") if yaml.safe_load(path.read_text(encoding="utf-8"))["season"]["choice"] == "cool"}
    html = body(reference, project, "warmth").partition("These are cool")[2].partition("</p>")[0]
    assert set(re.findall(r'href="../../crops/([a-z0-9-]+)/"', html)) == cool and len(cool) > 20


@pytest.mark.parametrize("gone", [("gray-lettuce-1975", "lowest"), ("oregonlive-2011", None)])
def test_without_a_figure_that_a_guide_uses_nothing_is_built(project, gone, capsys):
    """The build stops with file, line and a hint."""
    from build_tools.site import build

    section, name = gone
    figures = yaml.safe_load((project / "data/figures.yml").read_text(encoding="utf-8"))
    users = [(g.file, p.line) for g in read_guides(project / "docs/guides")[0].values() for p in g.pulls() if p.kind == "value" and any(n == f"{section}.{name}" or name is None and n.startswith(f"{section}.") for n in p.names)]
    if not users or section not in figures:
        pytest.skip(f"no guide takes in a figure of {section}")
    text = (project / "data/figures.yml").read_text(encoding="utf-8")
    part = re.search(rf"^{section}:\n(?:  .*\n)*", text, re.MULTILINE)[0]
    kept = re.sub(rf"^  {name}: .*\n", "", part, flags=re.MULTILINE) if name else ""
    (project / "data/figures.yml").write_text(text.replace(part, kept), encoding="utf-8")
    assert load(project)[0] is None
    shutil.copy(ROOT / "mkdocs.yml", project)
    (project / "build_tools").symlink_to(ROOT / "build_tools", target_is_directory=True)
    assert build(project, project / "site") != 0 and not (project / "site").exists()
    said = "".join(capsys.readouterr())
    for file, line in users:
        assert re.search(rf"{re.escape(file)}:{line}:\d+  guide-value", said), said[-2000:]
    assert (f"has no {name} under {section}" if name else f'"{section}" is neither') in said and re.search("Did you mean|Allowed:|Mend the name", said)
