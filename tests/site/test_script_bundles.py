"""Scripts linked from modules: what runs is what a browser would run from the modules themselves."""

from __future__ import annotations

import re

import pytest

from build_tools.one_stylesheet import joined
from build_tools.script_bundles import Linker, Unlinkable, linked
from build_tools.theme_scripts import ThemeChanged, adapt_script
from tests.site.browser import serve


def write(folder, files):
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return Linker(folder)


TREE = {
    "main.js": 'import { say, many as more } from "./parts/say.js";\nimport {\n  LIMIT,\n  Holder,\n} from "./parts/limits.js";\nimport { say as again } from "./parts/say.js";\n'
               'window.told = [say("a"), more, LIMIT, new Holder().n, again === say, import.meta.url.split("/").slice(-1)[0], (() => this)()];\n',
    "parts/say.js": 'import { LIMIT } from "./limits.js";\nwindow.order = [...(window.order ?? []), "say"];\nexport async function later() { return 1; }\nexport const say = (text) => `${text} of ${LIMIT}`;\nconst several = 3;\nexport { several as many };\n',
    "parts/limits.js": 'window.order = [...(window.order ?? []), "limits"];\n// export nothing by mistake\nexport const LIMIT = 12;\nexport class Holder { n = 7; }\nexport function* count() { yield 1; }\n',
}


@pytest.mark.browser
def test_a_bundle_does_what_the_modules_do(tmp_path, browser):
    """Run both ways in a real browser: same values, same order, each module once, strict."""
    bundle = write(tmp_path, TREE).bundle("main.js")
    (tmp_path / bundle.name).write_text(bundle.text, encoding="utf-8")
    (tmp_path / "modules.html").write_text('<meta charset="utf-8"><script type="module" src="main.js"></script>')
    (tmp_path / "plain.html").write_text(f'<meta charset="utf-8"><script defer src="{bundle.name}"></script>')
    told = {}
    with serve(tmp_path) as base:
        page = browser.new_context().new_page()
        for name in ("modules", "plain"):
            page.goto(f"{base}{name}.html")
            page.wait_for_function("() => window.told")
            told[name] = page.evaluate("() => [window.told, window.order]")
        page.context.close()
    assert told["plain"] == told["modules"] == [["a of 12", 3, 12, 7, True, "main.js", None], ["limits", "say"]]


def test_a_worker_is_linked_as_well(tmp_path):
    linker = write(tmp_path, {
        "lots/page.js": 'const worker = new Worker(new URL("./worker.js", import.meta.url), { type: "module" });\n',
        "lots/worker.js": 'import { A } from "../a.js";\nself.postMessage(A);\n', "a.js": "export const A = 1;\n",
    })
    bundle = linker.bundle("lots/page.js")
    (worker,) = bundle.workers
    assert re.fullmatch(r"lots-worker-[0-9a-f]{12}\.js", worker.name) and f'new Worker(new URL("{worker.name}", $here))' in bundle.text and "const A = 1" in worker.text
    html, files = linked('<script type="module" src="../assets/js/lots/page.js"></script>', linker)
    assert html == f'<script defer src="../assets/js/{bundle.name}"></script>' and files == {f"assets/js/{one.name}": one.text for one in (bundle, worker)}


@pytest.mark.parametrize("text, line", [
    ('export default 1;\n', 1), ('const a = 1;\nimport * as b from "./b.js";\n', 2), ('import b from "./b.js";\n', 1), ('import "./b.js";\n', 1), ("\nexport let c = 1;\n", 2),
    ('const a = 1;\n\n  const d = await import("./b.js");\n', 3), ("await fetch('x');\n", 1), ('export { b } from "./b.js";\n', 1), ('  import { b } from "./b.js";\n', 1),
])
def test_what_is_not_linked_is_refused_with_its_place(tmp_path, text, line):
    linker = write(tmp_path, {"main.js": text, "b.js": "export const b = 1;\n"})
    with pytest.raises(Unlinkable, match=rf"main\.js:{line}: .*Write imports as"):
        linker.bundle("main.js")


def test_a_circle_is_refused(tmp_path):
    linker = write(tmp_path, {"a.js": 'import { b } from "./b.js";\nexport const a = 1;\n', "b.js": 'import { a } from "./a.js";\nexport const b = 1;\n'})
    with pytest.raises(Unlinkable, match="a.js imports itself by way of b.js"):
        linker.bundle("a.js")


def test_a_module_that_is_not_there(tmp_path):
    with pytest.raises(FileNotFoundError, match="gone.js"):
        write(tmp_path, {"a.js": 'import { b } from "./gone.js";\n'}).bundle("a.js")


def test_other_scripts_are_left_alone(tmp_path):
    html = '<script src="../assets/js/page-1.js"></script><script type="application/json" id="x">{}</script><script type="module" src="https://example.org/a.js"></script>'
    assert linked(html, Linker(tmp_path)) == (html, {})


def test_every_page_asks_for_one_script_of_its_own_at_most(built):
    """No page has a module left, and what it asks for is there, under a name that changes with its text."""
    for path in built.rglob("index.html"):
        html = path.read_text(encoding="utf-8")
        assert 'type="module"' not in html, path
        own = re.findall(r'<script (?:defer )?src="([./]*assets/js/(?!page-)[^"]+)"', html)
        assert 1 <= len(own) <= 2 and all((path.parent / name).is_file() and re.search(r"-[0-9a-f]{12}\.js$", name) for name in own), (path, own)
    assert not [file for file in (built / "assets" / "js").rglob("*.js") if not re.search(r"-[0-9a-f]{12}(\.min)?\.js$", file.name)], "modules are not published"


# The theme's script, changed at two places; and style sheets joined into one.


@pytest.mark.browser
def test_the_search_is_fetched_when_it_is_opened(browser, site):
    context = browser.new_context()
    page, asked = context.new_page(), []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(site + "crops/leek/")
    page.wait_for_load_state("networkidle")
    assert not [url for url in asked if "search_index" in url]
    with page.expect_request("**/search/search_index.json"):
        page.keyboard.press("/")
    context.close()


def test_another_version_of_the_theme_is_refused_with_the_remedy(built, tmp_path):
    scripts = tmp_path / "assets" / "javascripts"
    scripts.mkdir(parents=True)
    with pytest.raises(ThemeChanged, match="one script of the theme was expected"):
        adapt_script(tmp_path)
    (script,) = (built / "assets" / "javascripts").glob("bundle.*.min.js")
    (scripts / script.name).write_text(script.read_text(encoding="utf-8"), encoding="utf-8")
    with pytest.raises(ThemeChanged, match="0 that decide when the search is fetched.*adapt build_tools/theme_scripts.py"):  # it has been changed already
        adapt_script(tmp_path)


def test_style_sheets_are_joined_in_their_order(tmp_path):
    for name, text in (("b.css", "/* first */\n.a { color: red; }\n"), ("a.css", ".a { color: blue; }\n"), ("late.css", ".b {}\n")):
        (tmp_path / name).write_text(text, encoding="utf-8")
    link = '<link rel="stylesheet" href="../assets/css/{}.css">'.format
    made = {}
    html = joined(f'<link rel="stylesheet" href="../assets/stylesheets/theme.css">{link("b")}\n{link("a")}\n</head><body>{link("late")}', tmp_path, made)
    ((path, text),) = made.items()
    assert text == ".a { color: red; }\n.a { color: blue; }\n" and re.fullmatch(r"assets/css/site-[0-9a-f]{12}\.css", path)
    assert html == f'<link rel="stylesheet" href="../assets/stylesheets/theme.css"><link rel="stylesheet" href="../{path}">\n</head><body>{link("late")}'


def test_the_joined_sheet_says_what_its_parts_say(built, root):
    """Rule by rule, comments aside: nothing is lost, and nothing is published twice."""
    (sheet,) = (built / "assets" / "css").glob("site-*.css")
    names = re.findall(r"^  - assets/css/(.+\.css)$", (root / "mkdocs.yml").read_text(encoding="utf-8"), re.M)
    parts = "".join((root / "docs" / "assets" / "css" / name).read_text(encoding="utf-8") for name in names)
    assert len(names) > 5 and "".join(sheet.read_text(encoding="utf-8").split()) == "".join(re.sub(r"/\*.*?\*/", "", parts, flags=re.S).split())
    assert {file.name for file in (built / "assets" / "css").iterdir()} == {sheet.name, "lots.css"}
