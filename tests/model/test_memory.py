"""What thousands of crops take in memory is bounded: what was read goes when the model is built, equal parts are kept once. Sizes are Python's own, not the machine's."""

import gc
import tracemalloc
import weakref

import pytest

from build_tools.bench_trees import synthetic_project
from build_tools.check import check_data
from build_tools.check.printed import collect
from build_tools.check.tables import evidence_kinds
from build_tools.model import build_reference

# Bytes. Measured: 11,300 and 16,700; before equal parts were kept once, 17,600 and 32,700.
A_CROP = 13_000  # of the model
A_CROP_READ = 18_000  # of what is read


@pytest.fixture(scope="module")
def projects(root, reference, tmp_path_factory):
    """(folder, crops) of projects with twice and three times the real crops."""
    return [(synthetic_project(root, tmp_path_factory.mktemp("memory") / str(times), times * len(reference.crops)), times * len(reference.crops)) for times in (2, 3)]


def held(make):
    """(what `make` gives, the bytes that are held for it)."""
    gc.collect()
    tracemalloc.start()
    try:
        made = make()
        gc.collect()
        return made, tracemalloc.get_traced_memory()[0]
    finally:
        tracemalloc.stop()


def test_what_was_read_goes_once_the_model_is_built(projects):
    tree, problems = check_data(projects[0][0])
    assert not problems and collect(tree) is collect(tree) and evidence_kinds(tree) is evidence_kinds(tree)
    gone = weakref.ref(tree)
    reference = build_reference(tree)
    del tree
    gc.collect()
    assert gone() is None and reference.crops, "the model, or something remembered about the tree, keeps all of it"


def test_a_crop_takes_so_much_and_no_more(projects):
    check_data(projects[1][0])  # what is remembered from one reading to the next belongs to no crop
    read, built = [], []
    for project, _ in projects:
        tree, size = held(lambda project=project: check_data(project)[0])
        read.append(size)
        built.append(held(lambda tree=tree: build_reference(tree))[1])
    more = projects[1][1] - projects[0][1]
    assert 0 < (read[1] - read[0]) / more < A_CROP_READ
    assert 0 < (built[1] - built[0]) / more < A_CROP


def test_equal_parts_are_kept_once(projects):
    tree, _ = check_data(projects[0][0])
    one, other = (tree.crops[crop].places for crop in ("tomato", "lettuce"))
    paths = [{path: path for path in places} for places in (one, other)]
    alike = paths[0].keys() & paths[1].keys()
    assert len(alike) > 20 and all(paths[0][path] is paths[1][path] for path in alike)
    reference = build_reference(tree)
    copies = [crop for crop in reference.crops.values() if crop.id.startswith("copy-") and crop.botanical == reference.crops["tomato"].botanical]
    assert copies and all(mine is its for copy in copies for mine, its in zip(reference.crops["tomato"].days, copy.days, strict=True))
    assert all(not hasattr(row, "__dict__") for row in reference.crops["tomato"].days)
