"""A few posters look as they did when somebody last looked at them: images compared by tolerance, so that another machine's smoothing does no harm."""

import pytest
from PIL import Image, ImageChops, ImageFilter

from .write_rasters import FOLDER, SHOWN, content_of, raster


def differing(one, other) -> float:
    """Share of dots that clearly differ after a slight blur."""
    blurred = [image.filter(ImageFilter.GaussianBlur(1)) for image in (one, other)]
    histogram = ImageChops.difference(*blurred).histogram()
    return sum(histogram[50:]) / sum(histogram)


@pytest.mark.parametrize("shown", SHOWN, ids="-".join)
def test_it_looks_as_stored(reference, shown):
    with Image.open(FOLDER / f"{'-'.join(shown)}.png") as stored:
        expected = stored.convert("L")
    made = raster(content_of(reference, *shown))
    assert abs(made.width - expected.width) <= 1 and abs(made.height - expected.height) <= 1
    assert differing(made.resize(expected.size), expected) < 0.004


def test_the_measure_tells_posters_apart(reference):
    one, other = (raster(content_of(reference, *shown)).resize((300, 420)) for shown in SHOWN[:2])
    assert differing(one, other) > 0.05


def test_every_stored_image_is_compared():
    assert {p.stem for p in FOLDER.iterdir()} == {"-".join(shown) for shown in SHOWN}
