"""`coatwell recipe` and `taper`: the shapes, the words on the page and the exit statuses that others rely on."""

from __future__ import annotations

import pytest
from commandline import Run, document

SLURRY = ("recipe", "--medicine", "budesonide", "--ampoule", "0.5 mg / 2 mL", "--dose")

# --- recipe


def test_recipe_of_ampoules(run: Run) -> None:
    found = document(run, *SLURRY, "1 mg", "--vehicle", "sweetener", "--json")
    cautions = found.pop("cautions")
    assert found == {
        "ampoules": 2,
        "medicine_ml": 4,
        "sweetener_g": 10,
        "packets": 10,
        "vehicle_ml": None,
        "total_ml": 10.2,
        "dose_ml": 10.2,
        "mg_per_ml": 0.098,
    }
    assert cautions and all(list(one) == ["text", "source"] for one in cautions)


def test_recipe_with_honey_and_with_another_rule(run: Run) -> None:
    honey = document(run, *SLURRY, "0.5 mg", "--vehicle", "honey", "--json")
    assert (honey["vehicle_ml"], honey["total_ml"], honey["packets"], honey["sweetener_g"]) == (5, 7, None, None)
    assert any("12 months" in one["text"] for one in honey["cautions"])
    other = document(run, *SLURRY, "1 mg", "--sweetener", "10 g per ampoule", "--json")
    assert other["packets"] == 20 and any("Published rules differ" in one["text"] for one in other["cautions"])


def test_recipe_of_several_doses(run: Run) -> None:
    found = document(run, *SLURRY, "1 mg", "--doses", "4", "--json")
    assert (found["ampoules"], found["total_ml"], found["dose_ml"]) == (8, 40.8, 10)
    assert any("Mix again before every dose" in one["text"] for one in found["cautions"])


def test_the_label_of_several_doses(run: Run) -> None:
    words = (*SLURRY, "1 mg", "--doses", "2")
    page = " ".join(run(*words)[1].split())
    assert (
        "Label: budesonide, 2 x 1 mg, 10 mL each." in page
        and ".0 mL" not in page
        and "nothing is kept for another day" in page
    )
    assert "Label" not in run(*words[:-2])[1]


def test_recipe_of_puffs(run: Run) -> None:
    found = document(
        run, "recipe", "--medicine", "fluticasone", "--dose", "880 microgram", "--inhaler", "220 microgram", "--json"
    )
    assert list(found) == ["puffs", "cautions"] and found["puffs"] == 4


AMPOULE = ("--ampoule", "0.5 mg / 2 mL")


@pytest.mark.parametrize(
    ("words", "status", "told"),
    [
        (
            ("budesonide", "1 microgram", *AMPOULE),
            1,
            "1 microgram? or 1 mg? the protocol allows 0.25 mg to 2 mg per dose",
        ),
        (("budesonide", "5 mg", *AMPOULE), 1, "the protocol allows 0.25 mg to 2 mg per dose"),
        (("budesonide", "1 mg", "--ampoule", "0.7 mg / 2 mL"), 1, "the protocol lists"),
        (("budesonide", "1 mg", *AMPOULE, "--ahead", "3"), 1, "limit is 0 days"),
        (("budesonide", "0.5 mg", *AMPOULE, "--vehicle", "honey", "--age", "0"), 1, "under 12 months"),
        (("budesonide", "0.75 mg", *AMPOULE, "--vehicle", "formula powder"), 1, "volume is not known"),
        (("fluticasone", "500 microgram", "--inhaler", "220 microgram"), 1, "no whole number of puffs"),
        (("budesonide", "1 mgg", *AMPOULE), 2, "no unit of medicine"),
        (("budesonide", "1", *AMPOULE), 2, "lacks its unit"),
        (("budesonide", "1 mg", "--ampoule", "half"), 2, "is not a strength"),
        (("budesonide", "1 mg", *AMPOULE, "--sweetener", "lots"), 2, "no sweetener rule"),
        (("budesonide", "1 mg"), 2, "needs --ampoule"),
        (("budesonide", "1 mg", "--inhaler", "220 microgram"), 2, "needs --ampoule"),
        (
            ("fluticasone", "880 microgram", "--inhaler", "220 microgram", "--vehicle", "honey"),
            2,
            "an inhaler takes no",
        ),
        (("budesonide", "1 mg", *AMPOULE, "--doses", "0"), 2, "--doses is 1 to 60"),
        (("budesonide", "1 mg", *AMPOULE, "--vehicle", "jam"), 2, "invalid choice"),
        (("aspirin", "1 mg", *AMPOULE), 2, "invalid choice"),
    ],
)
def test_recipes_refused(words: tuple[str, ...], status: int, told: str, run: Run) -> None:
    medicine, dose, *more = words
    left, out, err = run("recipe", "--medicine", medicine, "--dose", dose, *more, "--json")
    assert (left, out) == (status, "") and told in err and "Traceback" not in err


def test_recipe_as_a_page(run: Run) -> None:
    status, out, _ = run("recipe", "--medicine", "budesonide", "--dose", "1 mg", "--ampoule", "1 mg / 2 mL")
    assert status == 0 and "example, not signed" in out and "about 8.2 mL" in out and "Published rules differ" in out


# --- taper


def test_taper(run: Run) -> None:
    found = document(run, "taper", "--from", "1 mg", "--to", "0.5 mg", "--times-per-day", "2", "--unit", "0.25 mg",
        "--weeks", "8", "--json")
    assert found["largest_drop_percent"] == 20
    assert [
        (step["from_day"], step["days"], step["morning_units"], step["evening_units"], step["daily_amount"])
        for step in found["steps"]
    ] == [(1, 14, 3, 4, "1.75 mg"), (15, 14, 3, 3, "1.5 mg"), (29, 14, 2, 3, "1.25 mg"), (43, 14, 2, 2, "1 mg")]
    assert all(
        list(step) == ["from_day", "days", "morning_units", "evening_units", "daily_amount"] for step in found["steps"]
    )


def test_taper_once_and_four_times_a_day(run: Run) -> None:
    once = document(run, "taper", "--from", "1 mg", "--to", "0.5 mg", "--times-per-day", "1", "--unit", "0.25 mg",
        "--weeks", "8", "--json")
    assert [(step["morning_units"], step["evening_units"]) for step in once["steps"]] == [(None, 3), (None, 2)]
    four = document(run, "taper", "--from", "440 microgram", "--to", "220 microgram", "--times-per-day", "4",
        "--unit", "220 microgram", "--weeks", "8", "--json")
    assert four["steps"][-1]["units"] == [1, 1, 1, 1]


def test_taper_from_several_strengths(run: Run) -> None:
    words = ("taper", "--from", "1 mg", "--to", "0.5 mg", "--unit", "0.5 mg", "--unit", "0.25 mg", "--weeks", "8")
    found = document(run, *words, "--json")
    assert found["steps"][0]["evening_units"] == 4 and found["made_of"] == {
        "1 mg": {"0.5 mg": 2},
        "0.75 mg": {"0.5 mg": 1, "0.25 mg": 1},
        "0.5 mg": {"0.5 mg": 1},
    }
    assert "0.75 mg: 1 x 0.5 mg + 1 x 0.25 mg" in run(*words)[1]
    left, _, err = run(
        "taper", "--from", "1 mg", "--to", "0.5 mg", "--unit", "0.5 mg", "--unit", "0.2 mg", "--weeks", "8"
    )
    assert left == 1 and "not multiples" in err


def test_the_larger_part_in_the_morning(run: Run) -> None:
    found = document(run, "taper", "--from", "1 mg", "--to", "0.5 mg", "--unit", "0.25 mg", "--weeks", "8",
        "--larger", "morning", "--json")
    assert (found["steps"][0]["morning_units"], found["steps"][0]["evening_units"]) == (4, 3)


def test_taper_as_a_page_shows_alternatives(run: Run) -> None:
    status, out, _ = run("taper", "--from", "1 mg", "--to", "0.5 mg", "--unit", "0.25 mg", "--weeks", "8")
    page = " ".join(out.split())
    assert status == 0
    for words in (
        "closest to a straight line",
        "fewer steps",
        "once daily at the end",
        "largest drop 20 % 50 % 20 %",
        "units in all 308 224 308",
    ):
        assert words in page


def test_a_rough_taper_names_the_gentler_one(run: Run) -> None:
    """8 units to 2 in steps of 14 days: the default ends with 4 to 2, 50 %; 6, 4, 3, 2 falls by 33.3 % at most."""
    words = ("taper", "--from", "2 mg", "--to", "0.5 mg", "--unit", "0.5 mg", "--times-per-day", "2", "--weeks", "8")
    found = document(run, *words, "--json")
    assert found["largest_drop_percent"] == 50
    assert "at most 33.3 %: 14 days 1.5 mg + 1.5 mg, 14 days 1 mg + 1 mg" in found["cautions"][0]
    assert "Gentler in the same days" in " ".join(run(*words)[1].split())


@pytest.mark.parametrize("unit", ["0.00001 mg", "0.0001 microgram", "1 microgram"])
def test_an_absurd_unit_is_refused_at_once(unit: str, run: Run) -> None:
    status, out, err = run("taper", "--from", "1 mg", "--to", "0.5 mg", "--unit", unit, "--weeks", "8", "--json")
    assert (status, out) == (2, "") and f"--unit {unit}: one dose of 1 mg would be" in err
    assert "the protocol's most is 40 ampoules or puffs" in err


@pytest.mark.parametrize(
    ("words", "status", "told"),
    [
        (("--from", "0.5 mg", "--to", "1 mg", "--unit", "0.25 mg", "--weeks", "8"), 1, "never raises"),
        (("--from", "1 mg", "--to", "0.5 mg", "--unit", "0.25 mg", "--weeks", "1"), 1, "too few"),
        (
            ("--from", "1 mg", "--to", "0.3 mg", "--unit", "0.25 mg", "--weeks", "8"),
            1,
            "whole ones make 0.25 mg or 0.5 mg",
        ),
        (("--from", "1 mg", "--to", "0.5 mg", "--unit", "0.25 mg", "--weeks", "0"), 2, "--weeks is 1 to 104"),
        (("--from", "one", "--to", "0.5 mg", "--unit", "0.25 mg", "--weeks", "8"), 2, "not an amount"),
        (("--from", "1 mg", "--to", "0 mg", "--unit", "0.25 mg", "--weeks", "8"), 2, "no medicine at all"),
        (("--from", "1 mg", "--to", "0.5 mg", "--unit", "0.25 mg"), 2, "--weeks"),
    ],
)
def test_tapers_refused(words: tuple[str, ...], status: int, told: str, run: Run) -> None:
    left, out, err = run("taper", *words, "--json")
    assert (left, out) == (status, "") and told in err
