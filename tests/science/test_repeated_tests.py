"""Repeated tests: dispersion against published analyses of open data, scipy and statsmodels.

The data sets and where they come from: open_data/README.md.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import stats

from build_tools.science.repeated_tests import dispersion, judge_tests
from build_tools.science.replicates import judge_replicates
from tests.science.open_data import grouped, rows_of, whole

MEAD = rows_of("seeds_temperature_concentration.csv")
DILUTION = rows_of("orobanche_dilution.csv")
ROOT = rows_of("orobanche_root.csv")


def deviance_within(rows, seeds, counts, *columns):
    """Deviance, Pearson's chi-squared and freedom about the pooled percentage of each group, added up."""
    parts = [dispersion(whole(group, counts), whole(group, seeds)) for group in grouped(rows, *columns).values()]
    return {key: sum(part[key] for part in parts) for key in ("deviance", "pearson", "freedom")}


def glm(rows, seeds, counts, design):
    """The same by a binomial generalised linear model (statsmodels)."""
    k, n = np.array(whole(rows, counts)), np.array(whole(rows, seeds))
    return sm.GLM(np.column_stack([k, n - k]), design, family=sm.families.Binomial()).fit()


def dummies(rows, *columns):
    """One column of 0 and 1 for each combination of values."""
    labels = [tuple(row[column] for column in columns) for row in rows]
    return np.array([[float(label == value) for value in sorted(set(labels))] for label in labels])


@pytest.mark.parametrize(("columns", "published", "freedom"), [
    ((), 1193.80, 63), (("temp",), 430.11, 60), (("conc",), 980.10, 60), (("temp", "conc"), 55.64, 48)])
def test_deviances_of_mead(columns, published, freedom):
    # Mead, Curnow & Hasted 2002, pages 350-351, as on the agridat help page (read in a copy); the freedom
    # is 64 counts less one for each group. statsmodels' GLM beside it.
    found = deviance_within(MEAD, "seeds", "germ", *columns)
    assert abs(found["deviance"] - published) < 0.006
    assert found["freedom"] == freedom
    model = glm(MEAD, "seeds", "germ", dummies(MEAD, *columns))
    assert math.isclose(found["deviance"], model.deviance, rel_tol=1e-9)
    assert math.isclose(found["pearson"], model.pearson_chi2, rel_tol=1e-9)


def test_additive_model_of_mead():
    # Mead, Curnow & Hasted 2002: 148.11 for temp + conc (read in a copy). No pooling of groups gives it, so
    # statsmodels does; it has to lie between temp alone and every combination by itself.
    design = np.column_stack([dummies(MEAD, "temp"), dummies(MEAD, "conc")[:, 1:]])
    additive = glm(MEAD, "seeds", "germ", design).deviance
    assert abs(additive - 148.11) < 0.006
    each = deviance_within(MEAD, "seeds", "germ", "temp", "conc")["deviance"]
    assert each < additive < deviance_within(MEAD, "seeds", "germ", "temp")["deviance"]


def pearson_about(group, fraction):
    k, n = np.array(whole(group, "y")), np.array(whole(group, "n"))
    return float(((k - n * fraction) ** 2 / (n * fraction * (1 - fraction))).sum())


def test_pooled_percentages_of_orobanche():
    # Crowder 1978, Table 1, as on the aod help page (read in a copy): .142 .872 .842, all .614, pooled.
    # The mean of the plates' own percentages is another number, .108 .876 .838 (computed): a trap.
    groups = grouped(DILUTION, "dilution")
    published = {"1/1": (0.142, 0.108), "1/25": (0.872, 0.876), "1/625": (0.842, 0.838)}
    assert {key for key, in groups} == set(published)
    for (name,), group in [*groups.items(), (("all",), DILUTION)]:
        k, n = np.array(whole(group, "y")), np.array(whole(group, "n"))
        pooled, trap = published.get(name, (0.614, None))
        assert abs(k.sum() / n.sum() - pooled) < 5e-4
        # dispersion is about the pooled percentage, not about the mean of plates
        found = dispersion(k.tolist(), n.tolist())["pearson"]
        assert math.isclose(found, pearson_about(group, pooled), rel_tol=2e-3)
        if trap is not None:
            assert abs((k / n).mean() - trap) < 5e-4
            assert abs(found - pearson_about(group, trap)) > 0.01 * found


def test_dispersion_of_orobanche():
    # Crowder 1978, kind of seed by root extract: residual deviance 33.28 on 17, Pearson/df 1.862 (both from
    # memory, textbook analyses); statsmodels' GLM beside it
    found = deviance_within(ROOT, "n", "y", "seed", "root")
    assert abs(found["deviance"] - 33.28) < 0.005
    assert found["freedom"] == 17
    assert abs(found["pearson"] / found["freedom"] - 1.862) < 0.001
    model = glm(ROOT, "n", "y", dummies(ROOT, "seed", "root"))
    assert math.isclose(found["deviance"], model.deviance, rel_tol=1e-9)
    assert math.isclose(found["pearson"], model.pearson_chi2, rel_tol=1e-9)
    # more than chance: such a deviance comes by chance about once in a hundred times (scipy.stats.chi2)
    assert stats.chi2.sf(found["deviance"], found["freedom"]) < 0.011


def test_dispersion_against_scipy():
    # scipy.stats.chi2_contingency, Pearson's and the log-likelihood statistic, without correction
    for counts, seeds in (([0, 10], [10, 10]), ([8, 9, 7], [10, 10, 12]), ([399, 1], [400, 3]),
                          ([0, 5, 30, 12], [1, 50, 30, 40]), ([k % 7 for k in range(30)], [7] * 30),
                          ([90_000, 89_000], [100_000, 100_000])):
        table = [counts, [n - k for k, n in zip(counts, seeds, strict=True)]]
        pearson = stats.chi2_contingency(table, correction=False)
        deviance = stats.chi2_contingency(table, correction=False, lambda_="log-likelihood")
        found = dispersion(counts, seeds)
        assert math.isclose(found["pearson"], pearson.statistic, rel_tol=1e-9)
        assert math.isclose(found["deviance"], deviance.statistic, rel_tol=1e-9)
        assert found["freedom"] == pearson.dof


@pytest.mark.parametrize(("counts", "seeds"), [([0, 0, 0], [10, 5, 1]), ([10, 5], [10, 5]), ([4], [9]), ([8, 4], [10, 5])])
def test_nothing_lies_apart(counts, seeds):
    # none, all, one count, equal percentages: no distance at all
    found = dispersion(counts, seeds)
    assert abs(found["deviance"]) < 1e-12
    assert abs(found["pearson"]) < 1e-12
    assert found["freedom"] == len(counts) - 1


def test_other_tests_are_judged_as_replicates():
    # our own rule: anything but two tests of 400 is judged as replicates are, without a printed table
    for counts, seeds in (([8, 5], [10, 10]), ([350, 80], [400, 100]), ([300, 350, 340], [400] * 3), ([8000, 8500], [10_000] * 2)):
        assert judge_tests(counts, seeds) == judge_replicates(counts, seeds)
    assert judge_tests([300], [400]) is None
