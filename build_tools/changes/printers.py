"""The printers of a report: text for a terminal, Markdown for a comment, HTML, JSON. All but JSON print the same document."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from dataclasses import asdict
from html import escape
from textwrap import fill

from .document import Block, document
from .report import Report

SCHEMA_VERSION = "1.0"
LONGEST_COMMENT = 60_000  # letters; the usual hosts take 65,536
CUT = "The report is longer than a comment may be: {more} more lines are left out here. Run the command for the rest."
SPECIAL = re.compile(r"[\\`*_{}\[\]<>#|~&$@!\"']")
START = re.compile(r"^([0-9]{0,9})([-+=.)])")  # what begins a list or underlines a heading
ADDRESS = re.compile(r"://|\bwww\.|\bGH-(?=\d)|\bmailto:|\bxmpp:", re.IGNORECASE)


def as_text(report: Report) -> str:
    """Lines for a terminal; **what stands out** between asterisks."""
    lines: list[str] = []
    for block in document(report):
        mark = "** " if block.strong and block.kind == "item" else ""
        if block.kind == "heading":
            lines += ["", block.text, "-" * min(len(block.text), 79)]
        elif block.kind == "paragraph":
            lines.append(fill(block.text, 100, break_long_words=False, break_on_hyphens=False) if lines else block.text)
        else:
            lead = f"{block.lead}: {block.text}".rstrip(": ") if block.lead else block.text
            lines.append(_wrapped(f"{mark}{lead}{' **' if mark else ''}", "  "))
            lines += [_wrapped(line, "    ") for line in block.lines]
    return "\n".join(lines) + "\n"


def _wrapped(text: str, indent: str) -> str:
    return fill(text, 100, initial_indent=indent, subsequent_indent=indent + "  ", break_long_words=False, break_on_hyphens=False)


def markdown_escaped(text: str) -> str:
    """Text that Markdown shows as it is: no markup, mention, reference, link or image comes of it, and no table or list is broken.

    Special letters become numeric references; after @ and #, and inside what begins an address, stands a zero-width space, since hosts look for
    mentions and addresses after references are resolved.
    """
    text = ADDRESS.sub(lambda m: m[0][:-1] + "\0" + m[0][-1] if not m[0].endswith("-") else m[0] + "\0", text)
    text = SPECIAL.sub(lambda m: f"&#{ord(m[0])};" + ("\0" if m[0] in "@#" else ""), text)
    return START.sub(lambda m: f"{m[1]}&#{ord(m[2])};", text).replace("\0", "&#8203;")


def as_markdown(report: Report, longest: int = LONGEST_COMMENT) -> str:
    """Markdown for a comment of a pull request, at most `longest` letters; whole lines only, and a note when some are left out."""
    lines: list[str] = []
    for number, block in enumerate(document(report)):
        lines += _markdown_block(block, first=number == 0)
    text = "\n".join(lines) + "\n"
    if len(text) <= longest:
        return text
    kept, size = 0, len(CUT) + 20
    while kept < len(lines) and size + len(lines[kept]) + 1 <= longest:
        size += len(lines[kept]) + 1
        kept += 1
    return "\n".join([*lines[:kept], "", CUT.format(more=len(lines) - kept)]) + "\n"


def _markdown_block(block: Block, first: bool) -> list[str]:
    text, lead = markdown_escaped(block.text), markdown_escaped(block.lead)
    if block.kind == "heading":
        return ["", f"### {text}", ""]
    if block.kind == "paragraph":
        return [*([] if first else [""]), f"**{text}**" if block.strong else text, *([""] if block.strong and not first else [])]
    head = ": ".join(filter(None, (f"**{lead}**" if lead else "", f"**{text}**" if block.strong and text else text)))
    return [f"- {head}", *(f"  - {markdown_escaped(line)}" for line in block.lines)]


STYLE = "body{font:1.1rem/1.5 serif;max-width:46rem;margin:2rem auto;padding:0 1rem;color:#222;background:#fffdf8}h2{font-size:1.15rem;margin-top:1.6rem}.out{border-left:.3rem solid #9a3412;padding-left:.7rem}@media(prefers-color-scheme:dark){body{color:#eee;background:#1c1b19}}"


def as_html(report: Report) -> str:
    """A whole small page: no script, nothing fetched, and a policy that lets a browser hold it to that."""
    digest = base64.b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()
    parts, in_list = [], False
    blocks = document(report)
    for block in blocks[1:]:
        if in_list != (block.kind == "item"):
            in_list = not in_list
            parts.append("<ul>" if in_list else "</ul>")
        text, lead = escape(block.text), escape(block.lead)
        if block.kind == "heading":
            parts.append(f"<h2>{text}</h2>")
        elif block.kind == "paragraph":
            parts.append(f"<p><strong>{text}</strong></p>" if block.strong else f"<p>{text}</p>")
        else:
            head = ": ".join(filter(None, (f"<strong>{lead}</strong>" if lead else "", f"<strong>{text}</strong>" if block.strong and text else text)))
            inner = "".join(f"<li>{escape(line)}</li>" for line in block.lines)
            out = ' class="out"' if block.strong else ""
            parts.append(f"<li{out}>{head}{f'<ul>{inner}</ul>' if inner else ''}</li>")
    parts += ["</ul>"] if in_list else []
    return (
        f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; style-src \'sha256-{digest}\'">\n<title>Changes of the data</title>\n<style>{STYLE}</style>\n</head>\n<body>\n'
        f"<h1>{escape(blocks[0].text)}</h1>\n" + "\n".join(parts) + "\n</body>\n</html>\n"
    )


def as_json(report: Report) -> str:
    """Everything, as schema/report-changes.schema.json says."""
    def sources(pairs):
        return [{"id": key, "label": label} for key, label in pairs]

    data = {
        "schema_version": SCHEMA_VERSION, "summary": report.summary, "base": report.base, "head": report.head, "counts": report.counts,
        "changes": [{**asdict(c), "sources_added": sources(c.sources_added), "sources_dropped": sources(c.sources_dropped)} for c in report.changes],
        "touched": {"known": not report.touched.why_not, "why_not": report.touched.why_not, "notes": list(report.touched.notes), **{word: list(names) for word, names in report.touched.groups}},
        "unread": [{"version": version, "file": file, "problem": words} for version, file, words in report.unread],
        "notes": list(report.notes), "form_only": [f"data/{name}" for name in report.form_only],
    }
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


PRINTERS = {"text": as_text, "markdown": as_markdown, "html": as_html, "json": as_json}
