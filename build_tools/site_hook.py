"""Hands the rendered pages and files to MkDocs. The only place, with site.py, that knows MkDocs."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path

from markupsafe import Markup
from mkdocs.commands.build import get_context
from mkdocs.exceptions import Abort
from mkdocs.structure.files import File
from mkdocs.structure.toc import AnchorLink, TableOfContents

ROOT = Path(__file__).resolve().parent.parent
if str(ROOT) not in sys.path:  # MkDocs loads a hook by its path, not as part of the package
    sys.path.insert(0, str(ROOT))

from build_tools import ahead, model, render  # noqa: E402
from build_tools.compiled import Compiled  # noqa: E402
from build_tools.finish_page import Finisher  # noqa: E402
from build_tools.printers import as_text  # noqa: E402
from build_tools.progress import Progress  # noqa: E402
from build_tools.render.packages_files import unsound_packages  # noqa: E402
from build_tools.render.published.soundness import unsound  # noqa: E402
from build_tools.render.sheets.typeset import font_folder  # noqa: E402
from build_tools.script_bundles import Unlinkable  # noqa: E402

INDENT = re.compile(r"\n\s+")
PAGE = "body of "  # what a page's body is called among the jobs of a second process
MOST_FILES = 2_000
TOGETHER = 64  # pages
SEARCH = "search/search_index.json"
OTHER_LANGUAGES = "assets/javascripts/lunr/"
START, END = "<!-- summary -->", "<!-- /summary -->"
_rendered: render.Rendered | None = None
_library = {}
_finisher: Finisher | None = None
_progress = Progress()
_serving = False
_ahead = None
_preview = None  # while serving: what makes pages and files when they are asked for
_loaded = None  # a rendering that waits for a whole build
_whole = {}  # while serving: files, navigation and templates of the last whole build


def on_startup(command, dirty):
    """Remember whether this is a single build or a server that rebuilds."""
    global _serving
    _serving = command == "serve"


def on_config(config):
    """Check the data and render everything before MkDocs cleans the output: a failure leaves the last good site."""
    global _rendered, _library, _loaded, _finisher
    root = Path(config.config_file_path).parent
    _progress.start("pages")
    _finisher = Finisher(root / "docs", published=not _serving)
    _whole.clear()
    loaded, _loaded = _loaded or _load(root), None
    if loaded is not None:
        _rendered, _library = loaded
    if _library.get("logo") and not (root / "docs" / "assets" / str(_library["logo"])).is_file():
        raise Abort(f"data/library.yml: the logo docs/assets/{_library['logo']} does not exist. Put the file there, or leave the key out.")
    config.site_name = str(_library["name"])
    config.site_url = config.site_url or str(_library["site_url"])
    if _library.get("logo"):
        config.theme["logo"] = config.theme["favicon"] = f"assets/{_library['logo']}"
    return config


def _searched(config):
    """The languages that the search is set to."""
    return next((plugin.config.lang for name, plugin in config.plugins.items() if name.endswith("search")), None)


def _load(root):
    """(rendering, library) of the data as they are; None where the server goes on with the last good ones."""
    reference, problems = model.load(root)
    problems = problems or unsound(reference, root) or unsound_packages()
    if not problems:
        return render.render(reference, root), reference.library
    if _serving and _rendered is not None:
        # Printed, not logged: in strict mode a logged error would stop the server from answering at all.
        print(f"{as_text(problems)}\nThe last good data is shown until this is mended.", file=sys.stderr, flush=True)
        return None
    raise Abort(as_text(problems) + "\nThe site was not built; the last good one is untouched.")


def on_files(files, config):
    """Add the rendered pages: a title and nothing else, their body comes later. What pages have joined is not published by itself, nor what the
    theme brings for searching in other languages.
    """
    english = _searched(config) == ["en"]
    joined = () if _serving else config.extra_css
    for file in list(files):
        if re.fullmatch(r"assets/js/.+\.js", file.src_uri) or file.src_uri in joined or (english and file.src_uri.startswith(OTHER_LANGUAGES)):
            files.remove(file)
    for path, page in _rendered.pages.items():
        matter = _matter(page)
        existing = files.get_file_from_path(path)
        if existing is not None:
            files.remove(existing)
        files.append(File.generated(config, path, content=matter))
    return files


def _matter(page):
    return f"---\ntitle: {json.dumps(page.title, ensure_ascii=False)}\ndescription: {json.dumps(page.description, ensure_ascii=False)}\nhide: [navigation]\n---\n"


def on_nav(nav, config, files):
    """Remember the navigation: a page made anew needs it."""
    _whole["nav"] = nav
    return nav


def on_env(env, config, files):
    """The theme's templates do not escape by themselves: a crop or a library may be called anything, and stays text."""
    global _ahead
    _whole.update(config=config, files=files, env=env)
    env.autoescape, env.bytecode_cache = True, Compiled("theme")
    _ahead = None
    if not _serving:
        font_folder()
        _ahead = ahead.begin(_jobs(), [name for name in _rendered.files if name.endswith(".pdf")])
    return env


def on_page_context(context, page, config, nav):
    """What is HTML already says so; everything else is escaped."""
    page.content = Markup(page.content)
    return context


def on_page_content(html, page, config, files):
    """Give the search the page's summary; hand-written pages get their fragments."""
    rendered = _rendered.pages.get(page.file.src_uri)
    if rendered is None:
        for name, fragment in _rendered.fragments.items():
            html = html.replace(f"<p>[[{name}]]</p>", fragment)
        return html
    title = AnchorLink(page.title, "top", 1)
    title.children = [AnchorLink(text, anchor, 2) for anchor, text in rendered.headings]
    page.toc = TableOfContents([title])
    return START + rendered.summary + END


def on_post_page(output, page, config):
    """Put the body in last: neither Markdown nor the template need carry it, and only one is in memory at a time.

    The theme's indentation around it is half a kilobyte a page as sent, and goes.
    """
    rendered = _rendered.pages.get(page.file.src_uri)
    if rendered is None:
        return _finish(output, page)
    if START not in output or END not in output:
        raise Abort(f"{page.file.src_uri}: the template lost the place of the page's body.")
    _progress.step(len(_rendered.pages))
    before, _, rest = output.partition(START)
    _, _, after = rest.partition(END)
    return _finish(INDENT.sub("\n", before) + _body(page.file.src_uri) + INDENT.sub("\n", after), page)


def _body(path):
    name = PAGE + path
    return _ahead.take(name) if _ahead is not None and name in _ahead else _rendered.pages[path].body()


def _finish(html, page):
    """The finished page."""
    return _finished(_finisher.page, html, "../" * page.file.dest_uri.count("/"))


def _finished(finish, *given):
    try:
        return finish(*given)
    except (Unlinkable, OSError) as error:
        raise Abort(f"The scripts and styles of a page could not be joined: {error}\nThe site was not built; the last good one is untouched.") from None


def on_post_template(output, template_name, config):
    """The page for addresses that lead nowhere has its policy too."""
    return _finished(_finisher.elsewhere, output) if template_name.endswith(".html") else output


def on_post_build(config):
    """Write the data files beside the pages; while serving, they are made when they are asked for."""
    if _preview is not None:
        _preview.renew(_rendered.files)
    else:
        files = dict(_rendered.files)
        for name, content in _ahead.rest() if _ahead is not None else ():
            if files.pop(name, None) is not None:
                _write(config, name, content)
        for name, make in files.items():
            _write(config, name, make())
    for name, text in _finisher.files.items():
        _write(config, name, text)


def on_build_error(error):
    """A build that fails leaves no second process."""
    ahead.stop()


def _jobs():
    """What a second process begins to make: bodies of pages, then files, sheets first.

    Pages come a few together, the last of them first since MkDocs begins with the others: what is made ahead waits in memory, so it must not be far ahead.
    The many small files of a large library are left to this process.
    """
    paths = list(_rendered.pages)
    near = [path for start in range(0, len(paths), TOGETHER) for path in reversed(paths[start : start + TOGETHER])]
    pages = {PAGE + path: _rendered.pages[path].body for path in near}
    small = len(_rendered.files) > MOST_FILES
    files = {name: make for name, make in _rendered.files.items() if not name.endswith(".ics") and not (small and name.count("/") > 2)}
    return {**pages, **dict(sorted(files.items(), key=lambda entry: not entry[0].endswith(".pdf")))}


def _write(config, name: str, content: str | bytes) -> None:
    path = Path(config.site_dir, *name.split("/"))
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))


def serve_with(preview):
    """While serving, files are made when they are asked for, and pages after a change of data."""
    global _preview
    _preview = preview


def take_in(root) -> bool:
    """While serving: take in changed data without building the whole site. False where only that will do: pages come or go, the library changes."""
    global _rendered, _library, _loaded
    loaded = _load(root)
    if loaded is None:
        return True
    rendered, library = loaded
    if "env" not in _whole or rendered.pages.keys() != _rendered.pages.keys() or library != _library:
        _loaded = loaded
        return False
    _rendered, _library = loaded
    pages = {file.dest_uri: lambda file=file: _page_again(file) for file in _whole["files"].documentation_pages()}
    _preview.renew({**_rendered.files, **pages, SEARCH: _search_again})
    return True


def _read_again(file):
    """A page's own words and the context of its template, as a whole build would have them."""
    page, config, nav = file.page, _whole["config"], _whole["nav"]
    if file.src_uri in _rendered.pages:
        file.content_string = _matter(_rendered.pages[file.src_uri])
    page.read_source(config)
    page.render(config, _whole["files"])
    page.content = config.plugins.on_page_content(page.content, page=page, config=config, files=_whole["files"])
    context = get_context(nav, _whole["files"].documentation_pages(), config, page)
    return page, config.plugins.on_page_context(context, page=page, config=config, nav=nav)


def _page_again(file) -> str:
    """The HTML of one page."""
    _progress.start("pages")
    file.page.active = True
    try:
        page, context = _read_again(file)
        html = _whole["env"].get_template(page.meta.get("template", "main.html")).render(context)
        html = _whole["config"].plugins.on_post_page(html, page=page, config=_whole["config"])
    finally:
        file.page.active = False
    for name, text in _finisher.files.items():
        if not Path(_whole["config"].site_dir, name).exists():
            _write(_whole["config"], name, text)
    return html


def _search_again() -> bytes:
    """The search's index, from every page."""
    config = _whole["config"]
    search = next(plugin for plugin in config.plugins.values() if hasattr(plugin, "search_index"))
    search.search_index.entries.clear()
    for file in _whole["files"].documentation_pages():
        _read_again(file)
    search.on_post_build(config=config)
    return Path(config.site_dir, SEARCH).read_bytes()
