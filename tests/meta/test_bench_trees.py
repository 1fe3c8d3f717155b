"""The made-up projects that are measured are sound: what the data says of single rows follows their copies."""

from build_tools.bench_trees import synthetic_project
from build_tools.check import check_data


def test_a_project_with_copied_crops_has_no_problem(root, tmp_path):
    originals = len(list((root / "data" / "crops").glob("*.yml")))
    project = synthetic_project(root, tmp_path / "project", 3 * originals)
    tree, problems = check_data(project)
    assert problems == [] and len(tree.crops) == 3 * originals
