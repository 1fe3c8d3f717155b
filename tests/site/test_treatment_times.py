"""Soak and treatment times, on the built site. Clock times by Python's datetime; amounts by exact fractions; tables as printed."""

from __future__ import annotations

import csv
import datetime as dt
import re
from fractions import Fraction

import pytest

from tests.site.browser import watched_context
from tests.site.calculators import Sheet, check_wrong_input

pytestmark = pytest.mark.browser
KEEPS_THE_PAGE = True
START = dt.datetime(2027, 3, 9, 14, 30)  # a Tuesday
PATH = "calculators/treatment-times/"


def address(site, **typed):
    entry = {"treatment": "soak", "crop": "", "seed": "raw", "way": "", "date": "2027-03-09", "time": "14:30", "weeks": "", "seeds": "100", "unit": "c", "give": "spoons",
             "stock": "3", "measures": "us", "spoons": "2", "cups": "1", "strength": "0.3", "volume": "250", "volumeunit": "ml"} | typed
    return f"{site}{PATH}#treatment-times=1&" + "&".join(f"{k}={v}" for k, v in entry.items())


def opened(page, site, **typed):
    return Sheet.open(page, address(site, **typed))


def steps(sheet):
    """Texts of the timed list."""
    return sheet.section.locator(".time-list li").all_inner_texts()


def at(**span):
    """"Wednesday 02:30": so much later than the start."""
    return (START + dt.timedelta(**span)).strftime("%A %H:%M")


# Soaking

def test_usual_soak(page, site):
    sheet = opened(page, site)
    assert sheet.headline == f"Soak in plain water: start Tuesday 14:30, drain and sow between {at(hours=8)} and {at(hours=12)}."
    first, water, sow = steps(sheet)
    assert first.startswith("Tuesday 14:30: Put the seed into a clean bowl") and "4–6 hours at 20–30 °C" in first and "common practice" in first
    assert water.startswith("Between Tuesday 18:30 and 20:30: About half-way: change the water. 8–12 hours in all.")
    assert sow.startswith("Between Tuesday 22:30 and Wednesday 02:30: Drain")
    assert "8 to 12 hours is common practice" in sheet.answer
    assert "Drain" in sow and "Never soak, rinse or sprout seed that came treated" in sheet.answer


def test_a_crop_with_times_of_its_own(page, site):
    # knust-okra 12 h, soga-okra 14 h, saima-okra 24 h, as their abstracts print
    sheet = opened(page, site, crop="okra")
    assert sheet.headline.endswith(f"drain and sow between {at(hours=12)} and {(START + dt.timedelta(hours=24)).strftime('%H:%M')}.")
    assert sheet.trust.startswith("May help (trial): 12 to 24 hours")
    # granata-2024: 24 hours in plain water, one figure
    assert opened(page, site, crop="pepper-sweet").headline.endswith(f"drain and sow {at(hours=24)}.")
    # 7 CFR 201.58: soak overnight (16 hours), air-dry 7 hours
    sheet = opened(page, site, crop="spinach-new-zealand")
    assert [text.split(": ")[0] for text in steps(sheet)] == ["Tuesday 14:30", at(hours=16), at(hours=23)]


@pytest.mark.parametrize("crop", ["bean-snap", "bean-dry", "pea", "pea-dry", "soybean", "bean-lima", "bean-fava", "bean-runner", "cowpea", "bean-asparagus"])
@pytest.mark.parametrize("treatment", ["soak", "herbal-tea", "prime"])
def test_beans_and_peas_are_not_soaked(page, site, treatment, crop):
    sheet = opened(page, site, treatment=treatment, crop=crop)
    assert "not for" in sheet.headline and steps(sheet) == []
    assert re.search("killed|hurt|harm|lost the power to germinate", sheet.trust)


def test_night_is_said(page, site):
    sheet = opened(page, site, crop="pepper-hot", time="13:00")  # one grower's 12 hours: 01:00
    assert "falls into the night (Wednesday 01:00)" in sheet.answer
    sheet.type("Start, time", "20:00")
    assert "falls into the night" not in sheet.answer


# Peroxide

@pytest.mark.parametrize(("measures", "spoon", "cup"), [("us", Fraction("14.78676478125"), Fraction("236.5882365")), ("metric", Fraction(15), Fraction(250))])
@pytest.mark.parametrize(("stock", "spoons", "cups"), [("3", "2", "1"), ("1.5", "2", "1"), ("3", "0.5", "2"), ("2", "8", "1")])
def test_what_spoons_give(page, site, measures, spoon, cup, stock, spoons, cups):
    sheet = opened(page, site, treatment="peroxide", crop="spinach", measures=measures, stock=stock, spoons=spoons, cups=cups)
    bottle, water = Fraction(spoons) * spoon, Fraction(cups) * cup
    added = float(Fraction(stock) * bottle / (bottle + water))
    topped = float(Fraction(stock) * bottle / water)
    assert sheet.number("Strength, spoons added") == f"{float(f'{added:.2g}'):g} %"
    assert sheet.number("Strength if the cup") == f"{float(f'{topped:.2g}'):g} %"
    name = {"us": "US", "metric": "metric"}[measures]
    assert float(sheet.section.locator(".answer-numbers tr", has_text=f"{name} tablespoon").locator("td").inner_text()[:-3]) == pytest.approx(float(bottle), abs=0.5 if bottle >= 100 else 0.05)


def test_two_tablespoons_in_a_cup(page, site):
    # 2 of 16 + 2 tablespoons: one ninth; 30 minutes, then plain water up to 12 hours in all (common practice)
    sheet = opened(page, site, treatment="peroxide", crop="spinach")
    first, water, sow = steps(sheet)
    assert first.startswith("Tuesday 14:30: Stir 2 tablespoons (29.6 mL) of 3 % hydrogen peroxide into 1 cup (237 mL) of water: one ninth of the bottle’s strength, 0.33 %.")
    assert "30 minutes" in first and water.startswith(f"{at(minutes=30)}: Pour off, rinse") and sow.startswith(f"By {at(hours=12)} at the latest")
    assert sheet.headline == f"Dilute hydrogen peroxide, spinach: 0.33 %, start Tuesday 14:30, drain and sow {at(hours=12)} at the latest."
    assert "do not support a general benefit" in sheet.trust and "No trial tested this very recipe" in sheet.answer
    label = sheet.section.locator(".packet-line").inner_text()
    assert label == f"Spinach: in the dip since Tue 9 March, 14:30; drain and sow {at(hours=12)} at the latest; hydrogen peroxide 0.33 %, not food or drink"
    page.get_by_role("button", name="Copy label").click()
    assert page.evaluate("navigator.clipboard.readText()") == label


@pytest.mark.parametrize(("stock", "wanted", "volume", "unit", "needed", "total"), [
    # C1V1 = C2V2 worked by hand: 3 % to 0.3 % is 100 mL in a litre, to 1 % 333 mL
    ("3", "0.3", "1000", "ml", "100 mL", "1000 mL"), ("3", "1", "1000", "ml", "333 mL", "1000 mL"), ("1.5", "0.3", "250", "ml", "50 mL", "250 mL"),
    ("3", "0.3", "2", "cup", "47.3 mL", "473 mL"), ("3 %", "0.3 %", "16", "tbsp", "23.7 mL", "237 mL"), ("2", "2", "100", "ml", "100 mL", "100 mL"),
])
def test_what_a_wanted_strength_needs(page, site, stock, wanted, volume, unit, needed, total):
    sheet = opened(page, site, treatment="peroxide", give="wanted")
    for label, text in (("Strength on the bottle", stock), ("Strength wanted", wanted), ("Volume wanted", volume), ("Unit of the volume", unit)):
        sheet.type(label, text)
    assert sheet.number("From the bottle") == needed
    assert sheet.number("All together").startswith(total)


def test_spoons_of_a_wanted_strength_have_their_range(page, site):
    sheet = opened(page, site, treatment="peroxide", give="wanted", volume="1000")
    # 100 mL is 6.763 US spoons: 6¾, and an eighth of a spoon either way in 1000 mL
    spoon = Fraction("14.78676478125")
    low, high = (float(3 * (Fraction("6.75") + slip) * spoon / 1000) for slip in (Fraction(-1, 8), Fraction(1, 8)))
    assert sheet.number("In spoons") == f"6¾ US tablespoons: {low:.2f}–{high:.1f} %" == "6¾ US tablespoons: 0.29–0.3 %"
    sheet.type("Volume wanted", "10")
    assert sheet.number("In spoons") == "no quarter fits: measure in mL"
    sheet.type("Volume wanted", "5000")  # 500 mL is 2.113 cups: 2, and an eighth of a cup either way
    assert sheet.number("In spoons") == "2 US cups: 0.27–0.3 %"


@pytest.mark.parametrize(("stock", "said"), [("6", "6 %"), ("35", "35 %"), ("3.1", "3.1 %"), ("12 %", "12 %"), ("90", "90 %"), ("100", "100 %")])
@pytest.mark.parametrize("give", ["spoons", "wanted"])
def test_strong_bottles_are_refused(page, site, stock, said, give):
    """No amount at all for a bottle above 3 %, but the reason and the cautions (poison centres' pages)."""
    sheet = opened(page, site, treatment="peroxide", give=give, crop="spinach")
    sheet.type("Strength on the bottle", stock)
    assert not sheet.is_stale() and sheet.headline == f"A bottle of {said} is not diluted here."
    assert "burn skin, mouth and eyes" in sheet.trust and "feed fire" in sheet.trust and "do not dilute them at home" in sheet.trust
    assert "call your poison centre" in sheet.answer and "never with vinegar, bleach or anything else" in sheet.answer
    assert steps(sheet) == [] and not re.search(r"\d\s*mL|tablespoon|\bcups?\b of|\bparts\b", sheet.answer)
    assert sheet.section.locator("table.answer-numbers").count() == 0
    page.get_by_role("button", name="Copy label").click()
    assert "mL" not in page.evaluate("navigator.clipboard.readText()")


def test_beans_get_the_dip_alone(page, site):
    first, sow = steps(opened(page, site, treatment="peroxide", crop="bean-snap"))
    assert "30 minutes" in first and sow.startswith(f"{at(minutes=30)}: Pour off, rinse, and sow at once")


# Hot water

def printed_baths():
    """Rows of the two tables that are counted and undoubted for these crops, as printed."""
    rows = {}
    for source in ("adirondack-2010", "dpird-wa-2014"):
        with open(f"data/sources/{source}/treatment-evidence.csv", encoding="utf-8") as file:
            for row in csv.DictReader(file):
                rows.setdefault(row["crop_id"], []).append((source, row))
    return rows


@pytest.mark.parametrize("crop", ["brussels-sprouts", "tomato", "cabbage", "radish", "celery", "pepper-hot", "eggplant"])
def test_hot_water_as_printed(page, site, crop):
    for source, row in printed_baths()[crop]:
        sheet = opened(page, site, treatment="hot-water", crop=crop)
        options = sheet.field("Way or table").evaluate("(s) => [...s.options].map((o) => [o.value, o.textContent])") if sheet.field("Way or table").is_visible() else []
        for value, text in options:
            if value.startswith(source) and f"{row['minutes']} minutes at {row['temp_c']} °C" in text:
                sheet.type("Way or table", value)
        found = steps(sheet)
        warm = int(row.get("preheat_min") or 0)
        bath = next(text for text in found if "exact bath" in text)
        assert f"{row['minutes']} minutes at {row['temp_c']} °C" in bath, (source, row)
        assert bath.startswith(f"{at(minutes=warm)}: ")
        assert found[-1].startswith(f"{at(minutes=warm + int(row['minutes']) + 5)}: Spread the seed")
        assert len(found) == (4 if warm else 3)
        for caution in ("A degree too many", "thermometer", "small part of the lot first", "hot enough to hurt", "ground-fault"):
            assert caution in sheet.section.locator(".take-care").inner_text()
        assert "do not mix tables" in sheet.answer


def test_hot_water_in_fahrenheit_is_as_printed(page, site):
    sheet = opened(page, site, treatment="hot-water", crop="pepper-hot", unit="f")
    assert "10 minutes at 100 °F" in steps(sheet)[0] and "30 minutes at 125 °F" in steps(sheet)[1]
    assert "°C" not in sheet.answer
    sheet.type("Temperatures in", "c")
    assert "30 minutes at 51.7 °C" in steps(sheet)[1] and "°F" not in sheet.answer


@pytest.mark.parametrize(("crop", "said"), [
    ("basil", "no published table for basil"), ("zinnia", "no published table"), ("onion", "no published table"),
    # a table prints these, but others warn: the crop's own page says avoid
    ("lettuce", "not for lettuce"), ("pumpkin", "not for pumpkin"), ("cucumber", "not for cucumber"), ("bean-snap", "not for"), ("pea", "not for"),
    ("", "choose the crop first"),
])
def test_no_hot_water_without_a_table(page, site, crop, said):
    sheet = opened(page, site, treatment="hot-water", crop=crop)
    assert said in sheet.headline and steps(sheet) == []
    assert not re.search(r"minutes at \d", sheet.section.locator(".headline, .trust").all_inner_texts()[0])


def test_a_doubtful_table_is_no_recipe(page, site):
    # a web digest with tomato and pepper the other way round, marked doubtful; and the row printed as 122 °F beside 52 °C
    sheet = opened(page, site, treatment="hot-water", crop="tomato")
    names = sheet.field("Way or table").evaluate("(s) => [...s.options].map((o) => o.value)")
    assert {name.rsplit("-", 1)[0] for name in names} == {"adirondack-2010", "dpird-wa-2014"}


@pytest.mark.parametrize(("treatment", "seed", "crop"), [
    (t, s, c) for t, c in (("hot-water", "tomato"), ("soak", "okra"), ("peroxide", "spinach"), ("leach", "beet")) for s in ("treated", "coated", "primed")] + [("hot-water", "old", "tomato")])
def test_seed_it_is_not_for(page, site, treatment, seed, crop):
    sheet = opened(page, site, treatment=treatment, crop=crop, seed=seed)
    assert "not for seed that is" in sheet.headline and steps(sheet) == [] and len(sheet.trust) > 40


# Chilling, rinsing, salts, sprouting, nicking

@pytest.mark.parametrize(("crop", "days", "degrees"), [("cabbage", 3, "5–10 °C"), ("lettuce", 3, "10 °C"), ("mustard-greens", 7, "10 °C"), ("salsify", 3, "10 °C")])
def test_chilling_as_in_the_official_test(page, site, crop, days, degrees):
    # 7 CFR 201.58, column for fresh and dormant seed
    sheet = opened(page, site, treatment="chill", crop=crop)
    end = START + dt.timedelta(days=days)
    assert sheet.headline.endswith(f" {end:%A} {end.day} {end:%B}.") and f"{days} days at {degrees}" in steps(sheet)[0]


def test_weeks_of_cold(page, site):
    # lavender, 6 to 10 weeks at 4 °C, read in a trial's abstract
    sheet = opened(page, site, treatment="chill", way="lavender")
    first, last = (START + dt.timedelta(weeks=w) for w in (6, 10))
    assert sheet.headline == f"Cold and moist, lavender: start Tuesday 14:30, sow between {first:%A} {first.day} {first:%B} and {last:%A} {last.day} {last:%B}."
    sheet.type("Weeks of cold on your packet", "8")
    end = START + dt.timedelta(weeks=8)
    assert sheet.headline.endswith(f"sow {end:%A} {end.day} {end:%B}.")
    assert opened(page, site, treatment="chill", crop="tomato").headline == "Cold and moist: no published times for tomato."


@pytest.mark.parametrize(("seeds", "water"), [("100", "250 mL"), ("400", "1000 mL"), ("10", "25 mL")])
def test_water_to_rinse_in(page, site, seeds, water):
    # 7 CFR 201.58: two hours, 250 mL or more of water for 100 seeds, 20 °C or warmer
    sheet = opened(page, site, treatment="leach", crop="beet", seeds=seeds)
    assert sheet.number("Water, at least") == water and "2 hours at 20 °C or warmer" in steps(sheet)[0]
    assert sheet.headline.endswith("rinse, blot and sow Tuesday 16:30.")


@pytest.mark.parametrize(("volume", "unit", "grams"), [("1000", "ml", "2 g"), ("250", "ml", "0.5 g"), ("1", "cup", "0.47 g")])
def test_potassium_nitrate(page, site, volume, unit, grams):
    # 7 CFR 201.58: 0.2 %, 2 g in a litre; last counts of the kinds
    sheet = opened(page, site, treatment="potassium-nitrate", crop="pepper-sweet", volume=volume, volumeunit=unit)
    assert sheet.number("Grams of potassium nitrate") == grams
    last = START + dt.timedelta(days=14)
    assert f"{last:%A} {last.day} {last:%B} at the latest" in sheet.headline and "laboratory doses" in sheet.answer


def test_sprouting_ends_with_the_last_count(page, site):
    sheet = opened(page, site, treatment="presprout", crop="celery")  # last count on day 21
    end = START + dt.timedelta(days=21)
    assert f"{end:%A} {end.day} {end:%B} at the latest" in sheet.headline and "Look on Thursday 11 March" in steps(sheet)[0] and "and so on" in steps(sheet)[0]
    sheet = opened(page, site, treatment="presprout", crop="")
    assert sheet.headline.endswith("whenever that is.") and "the list has no end" in sheet.answer


def test_nicking(page, site):
    sheet = opened(page, site, treatment="scarify", crop="sweet-pea")
    assert "holding it in pliers" in steps(sheet)[1] and "away from your fingers" in sheet.section.locator(".take-care").inner_text()
    assert "no published times for tomato" in opened(page, site, treatment="scarify", crop="tomato").headline


@pytest.mark.parametrize("treatment", ["bleach", "gibberellic-acid", "scarify-acid", "acid-soak", "decoat", "smoke-water"])
def test_without_a_recipe_the_reason_is_given(page, site, treatment, reference):
    sheet = opened(page, site, treatment=treatment, crop="spinach")
    assert sheet.headline.endswith("no recipe is given here.") and sheet.trust == reference.treatments[treatment].times.reason[0]
    assert steps(sheet) == [] and sheet.section.locator(".take-care").is_visible()
    assert not re.search(r"\d\s*mL", sheet.answer)


# What fits the crop

@pytest.mark.parametrize(("crop", "name"), [("okra", "Soak in plain water, okra"), ("tomato", "Sprout before sowing, tomato"), ("beet", "Rinse out inhibitors, beet"), ("salsify", "Cold and moist, salsify"), ("pea", "Nothing is needed before sowing pea")])
def test_the_best_supported_treatment(page, site, crop, name):
    assert opened(page, site, treatment="", crop=crop).headline.startswith(name)


@pytest.mark.parametrize(("label", "typed", "text", "said"), [
    ("Start, day", {}, "", "Nothing chosen."), ("Start, day", {}, "1027-03-09", "The year 1027 can’t be meant"),
    ("Strength on the bottle", {"treatment": "peroxide"}, "0.35", "A bottle of 35 % is not 0.35."), ("Start, time", {}, "24:00", "midnight is 0:00"),
    ("Start, time", {}, "", "Nothing typed."), ("Start, time", {}, "25:00", "Hours are 0 to 23"), ("Start, time", {}, "noon", "is not a time of day"), ("Start, time", {}, "13 pm", "1 to 12"),
    ("Weeks of cold on your packet", {"treatment": "chill"}, "0", "above 0"), ("Weeks of cold on your packet", {"treatment": "chill"}, "six", "is not a number"), ("Weeks of cold on your packet", {"treatment": "chill"}, "60", "at most 40 weeks"),
    ("Seeds", {"treatment": "leach", "crop": "beet"}, "", "Nothing typed."), ("Seeds", {"treatment": "leach", "crop": "beet"}, "2.5", "is not a whole number"), ("Seeds", {"treatment": "leach", "crop": "beet"}, "99999", "at most 10,000"),
    ("Strength on the bottle", {"treatment": "peroxide"}, "", "Nothing typed."), ("Strength on the bottle", {"treatment": "peroxide"}, "0", "above 0"), ("Strength on the bottle", {"treatment": "peroxide"}, "350", "at most 100 %"), ("Strength on the bottle", {"treatment": "peroxide"}, "weak", "is not a number"),
    ("Tablespoons of the bottle", {"treatment": "peroxide"}, "", "Nothing typed."), ("Tablespoons of the bottle", {"treatment": "peroxide"}, "two", "is not a number"), ("Tablespoons of the bottle", {"treatment": "peroxide"}, "32", "That would be 2 %"),
    ("Cups of water", {"treatment": "peroxide"}, "0", "above 0"), ("Cups of water", {"treatment": "peroxide"}, "20", "at most 16 cups"),
    ("Strength wanted", {"treatment": "peroxide", "give": "wanted"}, "2.5", "is stronger than this page works out"), ("Strength wanted", {"treatment": "peroxide", "give": "wanted", "stock": "1"}, "1.5", "A bottle of 1 % can’t give 1.5 %"), ("Strength wanted", {"treatment": "peroxide", "give": "wanted"}, "", "Nothing typed."),
    ("Volume wanted", {"treatment": "peroxide", "give": "wanted"}, "1", "Type 10 to 5000 mL"), ("Volume wanted", {"treatment": "peroxide", "give": "wanted"}, "250 mL", "is not a number"), ("Volume wanted", {"treatment": "potassium-nitrate", "crop": "tomato"}, "", "Nothing typed."),
])
def test_wrong_input(page, site, label, typed, text, said):
    if (label, text) == ("Tablespoons of the bottle", "32"):
        said = "stronger than this page works out"
        typed = typed | {"cups": "0.5"}
    sheet = opened(page, site, **typed)
    check_wrong_input(sheet, label, text, said)


def test_fields_that_are_not_used_do_not_matter(page, site):
    sheet = opened(page, site, stock="many", spoons="", cups="x", strength="-1", volume="0", seeds="none", weeks="long")
    assert not sheet.is_stale() and len(steps(sheet)) == 3
    for label in ("Strength on the bottle", "Seeds", "Weeks of cold on your packet", "Volume wanted", "Tablespoons of the bottle"):
        assert not sheet.field(label).is_visible()


CROPS = ("", "okra", "tomato", "bean-snap", "beet", "lettuce", "pepper-hot", "sweet-pea", "artichoke", "spinach")


@pytest.mark.parametrize("crop", CROPS)
def test_every_treatment_for_a_crop_is_said_in_whole_words(page, site, crop, reference):
    for treatment in ("", *reference.treatments):
        offered = treatment == "" or reference.treatments[treatment].times.ways or reference.treatments[treatment].times.reason
        for unit in ("c", "f") if offered else ():
            sheet = opened(page, site, treatment=treatment, crop=crop, unit=unit)
            assert not sheet.is_stale(), (treatment, crop)
            everything = sheet.section.locator(".calculator-output").inner_text() + sheet.section.locator(".calculator-output").evaluate("(o) => o.innerHTML")
            assert not re.search(r"NaN|Infinity|undefined|\bnull\b|\[object", everything), (treatment, crop)
            assert ("°F" if unit == "c" else "°C") not in sheet.answer, (treatment, crop)
            if reference.treatments.get(treatment) and reference.treatments[treatment].cautions:
                assert sheet.section.locator(".take-care").is_visible()


def test_treatments_offered_are_those_with_times_or_a_reason(page, site, reference):
    sheet = opened(page, site)
    shown = set(sheet.field("Treatment").evaluate("(s) => [...s.options].map((o) => o.value)"))
    assert shown == {""} | {t.id for t in reference.treatments.values() if t.times.ways or t.times.reason} and len(shown) > 15
    assert opened(page, site, treatment="none-such", crop="okra").headline.startswith("Soak in plain water, okra")


def test_clocks_change(browser, site):
    # Europe/London puts its clocks forward on Sunday 28 March 2027 at 01:00
    with watched_context(browser, site, locale="en-GB", timezone_id="Europe/London") as (context, trouble):
        sheet = Sheet.open(context.new_page(), address(site, date="2027-03-27", time="20:00"))
        assert "put forward by an hour" in sheet.answer and sheet.headline.endswith("between Sunday 04:00 and 08:00.")
        sheet = Sheet.open(sheet.page, address(site, date="2027-10-30", time="20:00"))
        assert "put back by an hour" in sheet.answer
        sheet = Sheet.open(sheet.page, address(site, date="2027-03-20", time="20:00"))
        assert "The clocks are put" not in sheet.answer
        assert trouble == []


def test_now_is_rounded_up_to_a_quarter(browser, site):
    with watched_context(browser, site, locale="en-GB", timezone_id="America/New_York") as (context, trouble):
        page = context.new_page()
        page.clock.set_fixed_time(dt.datetime(2027, 1, 1, 4, 52, tzinfo=dt.UTC))  # 23:52 on New Year's Eve there
        sheet = Sheet.open(page, site + PATH)
        assert (sheet.field("Start, day").input_value(), sheet.field("Start, time").input_value()) == ("2027-01-01", "00:00")
        assert trouble == []


def test_links_to_it(page, site):
    page.goto(site + "crops/beet/")
    page.get_by_role("link", name="Soak and treatment times").click()
    page.locator(".headline").wait_for()
    assert Sheet(page).headline.startswith("Rinse out inhibitors, beet")
    page.goto(site + "treatments/")
    page.locator("section:has(#peroxide) a", has_text="clock times").click()
    page.locator(".headline").wait_for()
    assert Sheet(page).headline.startswith("Dilute hydrogen peroxide, okra: 0.33 %")


def test_cautions_stand_on_the_page_itself(page, site):
    page.goto(site + PATH)
    for words in ("Do not buy or keep “food grade” peroxide", "A degree too many", "Not for home use. Strong sulphuric acid"):
        assert page.locator("article > p.caution", has_text=words).is_visible()
