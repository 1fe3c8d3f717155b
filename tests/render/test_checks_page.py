"""The page of all checks lists every rule once, with its text and an example, and every accepted finding."""

import re
from dataclasses import replace
from html import unescape
from types import MappingProxyType

import pytest

from build_tools.registry import RULES
from build_tools.render import checks_page, render


@pytest.fixture(scope="module")
def page(reference, root):
    return render(reference, root).pages["checks.md"]


def test_the_page_and_the_list_of_rules_are_the_same_set(page):
    body = page.body()
    assert sorted(re.findall(r'<dt id="rule-([a-z0-9-]+)">', body)) == sorted(RULES)
    text = unescape(body)
    assert all(rule.text in text for rule in RULES.values())
    assert body.count("<summary>Example") == len(RULES)


def test_every_stage_has_its_part(page):
    shown = {stage for _, _, _, stages in checks_page.GROUPS for stage in stages}
    assert {rule.stage for rule in RULES.values()} == shown
    assert [anchor for anchor, _ in page.headings] == re.findall(r'<h2 id="([a-z]+)">', page.body())


def test_an_accepted_finding_is_shown_with_its_reason(reference, root):
    assert "None: every finding has been mended." in render(reference, root).pages["checks.md"].body()
    entry = {"rule": "plausible", "file": "data/crops/leek.yml", "at": "maximum_c", "finding": "maximum_c is 95 & more.", "reason": "It was <measured> so."}
    body = render(replace(reference, accepted=(MappingProxyType(entry),)), root).pages["checks.md"].body()
    assert "maximum_c is 95 &amp; more." in body and "It was &lt;measured&gt; so." in body and "None: every finding" not in body
