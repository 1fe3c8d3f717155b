"""The house's order: a stage imports earlier stages only; the renderer knows no site generator; no path of a machine."""

import ast
import re
import subprocess

import pytest

ORDER = ["lock_files", "problem", "registry", "printers", "rule_examples", "progress", "write_file", "ahead", "kept", "fitted", "compiled", "preview", "units", "content_policy", "script_bundles", "theme_scripts", "theme_styles", "one_stylesheet", "finish_page", "from_folder", "offline", "checksums", "packages", "spreadsheet", "icalendar", "covered", "mutants", "read", "form", "science", "lots", "check", "model", "contribute", "render", "changes", "other_generator"]
MACHINE_PATH = re.compile(r"(?<![\w.])/(?:home|root|tmp|mnt|srv|usr/local|opt)/\w")


def imports(path, package):
    """Top-level stage names that a module of build_tools imports."""
    found = set()
    parts = path.relative_to(package).with_suffix("").parts
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            base = list(parts[: len(parts) - node.level]) if node.level else []
            names = (node.module or "").split(".") if node.module else []
            if node.level or names[:1] == ["build_tools"]:
                full = base + names if node.level else names[1:]
                found.update([full[0]] if full else [alias.name for alias in node.names])
        elif isinstance(node, ast.Import):
            found.update(alias.name.split(".")[0] for alias in node.names if alias.name.split(".")[0] in ("mkdocs", "material"))
    return found


@pytest.mark.parametrize("stage", ORDER)
def test_a_stage_imports_earlier_stages_only(stage, root):
    package = root / "build_tools"
    files = sorted((package / stage).rglob("*.py")) or [package / f"{stage}.py"]
    allowed = set(ORDER[: ORDER.index(stage) + 1])
    for file in files:
        assert file.exists()
        assert imports(file, package) - allowed <= {"annotations"}, f"{file} imports {imports(file, package) - allowed}"


def test_only_the_hook_the_builder_and_bench_know_the_site_generator(root):
    knowing = {p.relative_to(root / "build_tools").as_posix() for p in (root / "build_tools").rglob("*.py") if "mkdocs" in p.read_text(encoding="utf-8") and re.search(r"^\s*(from|import) mkdocs", p.read_text(encoding="utf-8"), re.M)}
    assert knowing == {"site_hook.py", "site.py"}


def test_bootstrap_uses_the_standard_library_only(root):
    import sys

    for name in ("__main__.py", "set_up.py", "lock_files.py", "environment.py", "__init__.py"):
        tree = ast.parse((root / "build_tools" / name).read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            modules = [a.name for a in node.names] if isinstance(node, ast.Import) else [node.module] if isinstance(node, ast.ImportFrom) and not node.level else []
            assert all(m.split(".")[0] in sys.stdlib_module_names for m in modules), (name, modules)


def test_the_top_level_holds_what_is_agreed(root):
    """A picture left lying there, or a scratch file, goes with every clone."""
    files = subprocess.run(["git", "ls-files", "-co", "--exclude-standard"], cwd=root, capture_output=True, text=True, check=True).stdout.split()
    assert {name.split("/")[0] for name in files if (root / name).exists()} == {
        "README.md", "DEVELOPERS.md", "mkdocs.yml", "data", "schema", "build_tools", "docs", "tests",
        "CITATION.cff", "LICENSE", "pyproject.toml", "requirements.lock", "requirements-test.lock", ".ci", ".github", ".gitignore",
    }


def test_no_path_of_a_machine(root):
    files = subprocess.run(["git", "ls-files", "-co", "--exclude-standard"], cwd=root, capture_output=True, text=True, check=True).stdout.split()
    hits = []
    for name in files:
        if name.endswith((".lock", ".png")) or name == "tests/meta/test_layers.py" or not (root / name).is_file():
            continue
        text = (root / name).read_text(encoding="utf-8", errors="replace")
        hits += [f"{name}: {m[0]}" for m in MACHINE_PATH.finditer(text)]
    assert not hits, hits[:10]


def test_every_module_has_a_docstring(root):
    for path in (root / "build_tools").rglob("*.py"):
        assert ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))), path


def test_lock_files_hold_hashes_for_every_package(root):
    for name in ("requirements.lock", "requirements-test.lock"):
        text = (root / name).read_text(encoding="utf-8")
        packages = re.split(r"\n(?=\S)", text.strip())
        assert len(packages) > 30 and all("--hash=sha256:" in p for p in packages), name
        assert "://" not in text, "no registry host in the lock file"
