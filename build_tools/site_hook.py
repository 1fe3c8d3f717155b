"""Hands the rendered pages and files to MkDocs. The only place, with site.py, that knows MkDocs."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path

from markupsafe import Markup
from mkdocs.exceptions import Abort
from mkdocs.structure.files import File
from mkdocs.structure.toc import AnchorLink, TableOfContents

ROOT = Path(__file__).resolve().parent.parent
if str(ROOT) not in sys.path:  # MkDocs loads a hook by its path, not as part of the package
    sys.path.insert(0, str(ROOT))

from build_tools import model, render  # noqa: E402
from build_tools.content_policy import moved_out, with_policy  # noqa: E402
from build_tools.printers import as_text  # noqa: E402
from build_tools.progress import Progress  # noqa: E402
from build_tools.render.packages_files import unsound_packages  # noqa: E402
from build_tools.render.published.soundness import unsound  # noqa: E402

INDENT = re.compile(r"\n\s+")
OTHER_LANGUAGES = "assets/javascripts/lunr/"
START, END = "<!-- summary -->", "<!-- /summary -->"
_rendered: render.Rendered | None = None
_library = {}
_scripts: dict[str, str] = {}
_progress = Progress()
_serving = False


def on_startup(command, dirty):
    """Remember whether this is a single build or a server that rebuilds."""
    global _serving
    _serving = command == "serve"


def on_config(config):
    """Check the data and render everything before MkDocs cleans the output: a failure leaves the last good site."""
    global _rendered, _library
    root = Path(config.config_file_path).parent
    _progress.start("pages")
    reference, problems = model.load(root)
    problems = problems or unsound(reference, root) or unsound_packages()
    if problems and _serving and _rendered is not None:
        # Printed, not logged: in strict mode a logged error would stop the server from answering at all.
        print(f"{as_text(problems)}\nThe last good data is shown until this is mended.", file=sys.stderr, flush=True)
    elif problems:
        raise Abort(as_text(problems) + "\nThe site was not built; the last good one is untouched.")
    else:
        _rendered = render.render(reference, root)
        _library = reference.library
    if _library.get("logo") and not (root / "docs" / "assets" / str(_library["logo"])).is_file():
        raise Abort(f"data/library.yml: the logo docs/assets/{_library['logo']} does not exist. Put the file there, or leave the key out.")
    config.site_name = str(_library["name"])
    config.site_url = config.site_url or str(_library["site_url"])
    if _library.get("logo"):
        config.theme["logo"] = f"assets/{_library['logo']}"
    return config


def _searched(config):
    """The languages that the search is set to."""
    return next((plugin.config.lang for name, plugin in config.plugins.items() if name.endswith("search")), None)


def on_files(files, config):
    """Add the rendered pages: a title and nothing else, their body comes later. What the theme brings for searching in other languages stays out."""
    for file in [file for file in files if file.src_uri.startswith(OTHER_LANGUAGES)] if _searched(config) == ["en"] else ():
        files.remove(file)
    for path, page in _rendered.pages.items():
        matter = f"---\ntitle: {json.dumps(page.title, ensure_ascii=False)}\ndescription: {json.dumps(page.description, ensure_ascii=False)}\nhide: [navigation]\n---\n"
        existing = files.get_file_from_path(path)
        if existing is not None:
            files.remove(existing)
        files.append(File.generated(config, path, content=matter))
    return files


def on_env(env, config, files):
    """The theme's templates do not escape by themselves: a crop or a library may be called anything, and stays text."""
    env.autoescape = True
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
        return _guarded(output, page)
    if START not in output or END not in output:
        raise Abort(f"{page.file.src_uri}: the template lost the place of the page's body.")
    _progress.step(len(_rendered.pages))
    before, _, rest = output.partition(START)
    _, _, after = rest.partition(END)
    return _guarded(INDENT.sub("\n", before) + rendered.body() + INDENT.sub("\n", after), page)


def _guarded(html, page):
    """The page with its policy; scripts that are the same on every page are kept, to be written once."""
    html, scripts = moved_out(html, "../" * page.file.dest_uri.count("/"))
    _scripts.update(scripts)
    return html if _serving else with_policy(html)  # the server that rebuilds adds a script of its own to each page


def on_post_template(output, template_name, config):
    """The page for addresses that lead nowhere has its policy too."""
    return with_policy(output) if template_name.endswith(".html") and not _serving else output


def on_post_build(config):
    """Write the data files beside the pages."""
    for name, make in [*_rendered.files.items(), *((name, lambda text=text: text) for name, text in _scripts.items())]:
        path = Path(config.site_dir, *name.split("/"))
        path.parent.mkdir(parents=True, exist_ok=True)
        content = make()
        path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
