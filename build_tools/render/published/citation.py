"""How to cite the data: in one line, and as a file in the Citation File Format (CFF 1.2.0)."""

from __future__ import annotations

import yaml

from ...model.reference import Reference

TITLE = "Germination reference"
ABSTRACT = "Germination of vegetables, herbs and flowers: warmth, days, depth, light and seed life, each value with its sources and how it stands to what they print."


def citation(reference: Reference) -> str:
    """How to cite the data, in one line."""
    library = reference.library
    return f"{', '.join(library['citation_authors'])}: {TITLE}, data version {library['data_version']}. {library['site_url']}"


def citation_cff(reference: Reference) -> str:
    """CITATION.cff, made from data/library.yml. The authors are named as entities: no name is taken apart."""
    library = reference.library
    fields = {
        "cff-version": "1.2.0",
        "message": "Please cite the data as below, and name the source of each figure as the tables do.",
        "type": "dataset",
        "title": TITLE,
        "abstract": ABSTRACT,
        "authors": [{"name": str(name)} for name in library["citation_authors"]],
        "version": str(library["data_version"]),
        "license": str(library["data_licence"]),
        "url": str(library["site_url"]),
        **({"repository-code": str(library["repository_url"])} if library.get("repository_url") else {}),
        "keywords": ["germination", "seed", "soil temperature", "seed storage", "seed library"],
    }
    return "# Written from data/library.yml by: python3 -m build_tools renew\n" + yaml.safe_dump(fields, sort_keys=False, allow_unicode=True, width=1000)
