"""The Content-Security-Policy of the built pages, in the browser and as text (W3C, Content Security Policy Level 3)."""

import base64
import hashlib
import re
from html import unescape

import pytest

from build_tools.content_policy import inline_hashes, policy, with_policy
from build_tools.finish_page import Finisher

POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">')


def directives(html):
    (found,) = POLICY.findall(html)
    return {name: values.split() for part in unescape(found).split("; ") for name, _, values in [part.partition(" ")]}


def test_every_page_has_one_before_anything_loads(built):
    for path in built.rglob("*.html"):
        html = path.read_text(encoding="utf-8")
        rules = directives(html)
        assert html.index("Content-Security-Policy") < min(html.find(mark) for mark in ("<link", "<script", "<img", "<style") if mark in html)
        assert rules["default-src"] == ["'none'"] and rules["form-action"] == ["'none'"] and rules["base-uri"] == ["'none'"]
        everything = " ".join(value for values in rules.values() for value in values)
        assert "unsafe" not in everything and "http" not in everything and "*" not in everything.replace("sha256-", ""), path


def test_hashes_are_those_of_the_scripts_in_the_page(built):
    """Worked out anew with the standard's own words: the SHA-256 of what stands between the tags, in base64."""
    html = (built / "404.html").read_text(encoding="utf-8")
    texts = re.findall(r"<script>(.*?)</script>", html, re.DOTALL)
    wanted = {"'sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() + "'" for text in texts}
    assert wanted and wanted | {"'self'"} == set(directives(html)["script-src"])


def test_scripts_that_are_the_same_everywhere_are_sent_once(built):
    """Of inline scripts a page keeps the one that says where it is; the others stand in files that it names."""
    for path in built.rglob("index.html"):
        html = path.read_text(encoding="utf-8")
        assert len(directives(html)["script-src"]) == 2, path
        named = re.findall(r'<script src="([./]*)(assets/js/page-[0-9a-f]{12}\.js)"></script>', html)
        assert named and all((path.parent / up / name).is_file() for up, name in named), path


def test_no_page_carries_styles_or_handlers_of_its_own(built):
    for path in built.rglob("*.html"):
        html = re.sub(r"<script\b.*?</script>", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
        assert not re.search(r"<[a-z][^>]*\s(?:style|on[a-z]+)\s*=", html), path
        assert "<style" not in html and not re.search(r'(?:href|src)="\s*javascript:', html, re.IGNORECASE), path


# The known answer of CSP 3, section 8.2's example: sha256 of alert('Hello, world.'); (from memory).
def test_the_published_example():
    assert inline_hashes("<script>alert('Hello, world.');</script>") == ["qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng="]


@pytest.mark.parametrize("html, count", [
    ('<script type="application/json">{"a": 1}</script>', 0), ('<script src="a.js"></script>', 0), ('<script type="module">a</script><script>a</script>', 1), ("<script>a</script><script>b</script>", 2),
])
def test_which_scripts_are_hashed(html, count):
    assert len(inline_hashes(html)) == count and policy(html).count("sha256-") == count


def test_an_empty_style_element_is_allowed_where_charts_are_explored_only(built):
    for path in built.rglob("index.html"):
        html = path.read_text(encoding="utf-8")
        (told,) = re.findall(r"style-src [^;]*", html)
        assert told == ("style-src 'self' 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='" if path.parent.parent.name == "compare" else "style-src 'self'"), path  # SHA-256 of nothing, FIPS 180-4


def test_nothing_is_fetched_ahead(built, root):
    """Some browsers fetch what the link type “next” names (HTML Standard, Link types, from memory; so Firefox, seen in 153): the policy would stop it, and say so on every page."""
    ahead = re.compile(r'<link[^>]+rel="(?:prev|next|prefetch|prerender|preconnect|dns-prefetch)"')
    assert [path for path in built.rglob("*.html") if ahead.search(path.read_text(encoding="utf-8"))] == []
    theirs = '<html><head><meta charset="utf-8">\n  <link rel="prev" href="../">\n  <link rel="next" href="../b/"><link rel="icon" href="i.svg"></head><body></body></html>'
    made = Finisher(root / "docs", published=True).page(theirs, "../")
    assert ahead.search(theirs) and not ahead.search(made) and '<link rel="icon" href="i.svg">' in made


def test_a_page_without_a_place_for_it_is_an_error():
    with pytest.raises(ValueError, match="charset"):
        with_policy("<html><head></head></html>")


def test_the_server_for_editing_may_reload_the_page(root):
    """It puts an inline script into what it sends, which the policy of a published page would stop."""
    html = '<html><head><meta charset="utf-8"></head><body></body></html>'
    for published in (True, False):
        finisher = Finisher(root / "docs", published)
        assert [("Content-Security-Policy" in made) for made in (finisher.page(html, "../"), finisher.elsewhere(html))] == [published, published]
    assert finisher.page(html, "../") == html == finisher.elsewhere(html)


@pytest.mark.browser
@pytest.mark.parametrize("path", ["compare/warmth/", "compare/days/", "compare/seed-life/"])
def test_the_charts_to_explore_keep_to_it(path, browser, site):
    """Their script puts in no style but an empty one."""
    context = browser.new_context()
    page, told = context.new_page(), []
    page.on("console", lambda message: told.append(message.text) if message.type == "error" else None)
    page.goto(site + path)
    page.locator(".explore-open").click()
    page.locator(".explore-chart .main-svg").first.wait_for(timeout=60_000)
    page.wait_for_timeout(300)
    assert told == []
    context.close()


@pytest.mark.browser
def test_the_policy_bites_and_every_page_keeps_to_it(built, browser, site):
    """A script typed into a page does not run; the pages as they are break nothing."""
    context = browser.new_context()
    page, told = context.new_page(), []
    page.on("console", lambda message: told.append(message.text) if message.type == "error" else None)
    for path in sorted(built.rglob("index.html")):
        page.goto(site + path.parent.relative_to(built).as_posix().removeprefix(".").rstrip("/") + "/" if path.parent != built else site)
        assert told == [], (path, told)
    page.evaluate("() => { const s = document.createElement('script'); s.textContent = 'window.ran = true'; document.body.append(s); const i = document.createElement('img'); i.src = 'https://example.org/x.png'; document.body.append(i); }")
    page.wait_for_timeout(200)
    assert page.evaluate("window.ran") is None
    assert any("script-src" in line for line in told) and any("img-src" in line for line in told)
    page.evaluate("() => { setTimeout(() => { try { new Function('return 1')(); window.made = 'made'; } catch (error) { window.made = error.name; } }, 0); }")
    page.wait_for_function("() => window.made")
    assert page.evaluate("window.made") == "EvalError"
    context.close()
