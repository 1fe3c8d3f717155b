"""Computed fields of the model: like bands, official methods, replicate table."""

import numpy as np


def test_neighbours_have_like_bands(reference):
    for crop in reference.crops.values():
        assert crop.id not in crop.neighbours and len(set(crop.neighbours)) == len(crop.neighbours) <= 5
        if crop["minimum_c"].known and crop["maximum_c"].known and crop["optimum_c"].known:
            for name in crop.neighbours:
                near = reference.crops[name]
                shared = [abs(near[q].low - crop[q].low) for q in ("minimum_c", "maximum_c") if near[q].known]
                assert shared and np.mean(shared) <= 10, (crop.id, name)


def test_a_warm_crop_is_not_told_to_be_like_a_cool_one(reference):
    assert not {"lettuce", "spinach", "pea"} & set(reference.crops["cucumber"].neighbours)
    assert not {"cucumber", "okra", "eggplant"} & set(reference.crops["spinach"].neighbours)


def test_the_model_cannot_be_changed(reference):
    import dataclasses

    import pytest

    with pytest.raises(dataclasses.FrozenInstanceError):
        reference.crops["pea"].name = "other"
    with pytest.raises(TypeError):
        reference.crops["pea"].values["minimum_c"] = None
