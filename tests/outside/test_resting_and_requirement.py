"""Resting equations and the estimated energy requirement against published figures and hand arithmetic."""

from __future__ import annotations

import pytest

from mealopt.errors import BadInput
from mealopt.targets.baseline import requirement_2005, requirement_2023
from mealopt.targets.body import Body
from mealopt.targets.coefficients import EQUATIONS
from mealopt.targets.resting import resting_kcal, row_for


def body(sex: str, age: int, mass: float, height: float, lean: float = 50.0) -> Body:
    """A body with a known fat-free mass."""
    return Body(sex, age, mass, height, 100 * (1 - lean / mass), lean, lean, fat_given=True, fat_known=True)


MAN_25 = body("male", 25, 80, 180, 68)
WOMAN_25 = body("female", 25, 60, 165, 46.8)
MAN_35 = body("male", 35, 80, 180, 68)
WOMAN_35 = body("female", 35, 60, 165, 46.8)

#: Worked by hand from each publication's coefficients: 25-year-old man and woman, 35-year-old man and woman.
WORKED = {
    "harris_benedict_1919": (1898.32, 1417.19, 1830.77, 1370.44),
    "roza_shizgal_1984": (1882.02, 1405.33, 1825.25, 1362.03),
    "mifflin_st_jeor_1990": (1805.00, 1345.25, 1755.00, 1295.25),
    "cunningham_1980": (1996.0, 1529.6, 1996.0, 1529.6),
    "cunningham_1991": (1838.8, 1380.88, 1838.8, 1380.88),
    "schofield_1985": (1896.76, 1375.68, 1790.86, 1333.16),
    "henry_2005": (1828.40, 1356.75, 1748.80, 1307.50),
    "ten_haaf_mass_2014": (2029.87, 1511.97, 1948.58, 1430.68),
    "ten_haaf_lean_2014": (2032.69, 1549.95, 2032.69, 1549.95),
}


def test_every_equation_has_a_worked_example() -> None:
    assert set(WORKED) == set(EQUATIONS)


@pytest.mark.parametrize("name", WORKED)
def test_resting_equations_give_the_worked_examples(name: str) -> None:
    """Worked examples R1 to R10: Harris & Benedict 1919; Roza & Shizgal 1984; Mifflin and others 1990; Cunningham 1980
    and 1991; Schofield 1985; Henry 2005 (coefficients [memory]); ten Haaf & Weijs 2014."""
    for person, expected in zip((MAN_25, WOMAN_25, MAN_35, WOMAN_35), WORKED[name], strict=True):
        assert resting_kcal(name, person) == pytest.approx(expected, abs=0.01)


def test_schofield_bands_change_at_thirty() -> None:
    """Schofield 1985, FAO/WHO/UNU 1985: 29 and 30 years at the edge of a band."""
    assert resting_kcal("schofield_1985", body("male", 29, 80, 180)) == pytest.approx(1896.76, abs=0.01)
    assert resting_kcal("schofield_1985", body("male", 30, 80, 180)) == pytest.approx(1790.86, abs=0.01)
    assert resting_kcal("schofield_1985", body("female", 29, 60, 165)) == pytest.approx(1375.68, abs=0.01)
    assert resting_kcal("schofield_1985", body("female", 30, 60, 165)) == pytest.approx(1333.16, abs=0.01)


def test_schofield_agrees_with_its_kilojoule_form() -> None:
    """FAO 2004 prints the same lines in kJ: men 63 W + 2896 and 49 W + 2459, women 62 W + 2036 and 38 W + 2755."""
    for sex, age, slope, constant in (
        ("male", 25, 63, 2896), ("male", 70, 49, 2459), ("female", 25, 62, 2036), ("female", 70, 38, 2755),
    ):  # fmt: skip
        row = row_for(EQUATIONS["schofield_1985"], sex, age)
        assert 4.184 * row.mass == pytest.approx(slope, abs=0.5)
        assert 4.184 * row.constant == pytest.approx(constant, abs=0.6)


def test_no_adult_equation_under_eighteen() -> None:
    """Every band here begins at 18 years (Schofield 1985; Henry 2005)."""
    for equation in EQUATIONS.values():
        with pytest.raises(BadInput, match="adults"):
            row_for(equation, "male", 17)


def test_requirement_of_2023() -> None:
    """NASEM 2023, summary table S-1: 30 years, 170 cm, 70 kg, four classes."""
    man = requirement_2023(body("male", 30, 70, 170))
    woman = requirement_2023(body("female", 30, 70, 170))
    assert list(man.values()) == pytest.approx([2520.17, 2713.37, 2902.02, 3148.62], abs=0.01)
    assert list(woman.values()) == pytest.approx([2166.70, 2337.27, 2475.55, 2722.63], abs=0.01)


def test_requirement_of_2023_is_not_for_eighteen() -> None:
    """NASEM 2023: the adult equations begin at 19 years."""
    with pytest.raises(BadInput, match="19 years"):
        requirement_2023(body("male", 18, 70, 170))


@pytest.mark.parametrize(
    ("sex", "height", "mass", "printed"),
    [
        ("male", 150, 56.2, (2080, 2267, 2506, 2898)),
        ("female", 150, 56.2, (1762, 1956, 2198, 2489)),
        ("male", 165, 68.0, (2349, 2566, 2842, 3296)),
        ("female", 165, 68.0, (1982, 2202, 2477, 2807)),
        ("male", 180, 81.0, (2635, 2884, 3200, 3720)),
        ("female", 180, 81.0, (2211, 2459, 2769, 3141)),
    ],
)
def test_requirement_of_2005_gives_the_printed_table(
    sex: str, height: float, mass: float, printed: tuple[float, ...]
) -> None:
    """IOM 2002/2005, the printed table of energy requirements at 30 years (weights in it are rounded: 2 kcal)."""
    assert requirement_2005(body(sex, 30, mass, height)) == pytest.approx(printed, abs=2)
