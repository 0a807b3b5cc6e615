"""Cooks one dish in a small whole-number program, for the tests: least, most or nearest to an amount of a nutrient."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.core.filters import FoodFilter
from mealopt.core.nutrients import ENERGY
from mealopt.core.slots import Slot
from mealopt.menu.dishes import Dish, Menu
from mealopt.menu.plates import Larder, Plate, plate
from mealopt.milp.highs import Highs
from mealopt.milp.model import Row
from mealopt.rules.components import components
from mealopt.rules.one_plate import one_plate
from mealopt.rules.problem import Problem, Serving, Wishes

#: Wide enough for every plate; a dish's own limits are what is asked about.
ANY = 5000.0


@dataclass(frozen=True)
class Cooked:
    """A plate as solved. grams: (role, food) -> grams, of what is there."""

    dish: Dish
    plate: Plate
    grams: dict[tuple[str, str], float]

    def of(self, role: str) -> float:
        """Grams of a role."""
        return sum(grams for (part, _), grams in self.grams.items() if part == role)

    def amount(self, key: str) -> float:
        """A nutrient of the whole plate, from the choices' own numbers."""
        per_gram = {
            (part.role, choice.name): choice.per_gram.get(key, 0.0)
            for part in self.plate.parts
            for choice in part.choices
        }
        return sum(per_gram[where] * grams for where, grams in self.grams.items())


class Kitchen:
    """One dish, posed once, cooked as often as asked; for an eater of anything where no filter is given."""

    def __init__(
        self,
        dish: Dish,
        menu: Menu,
        foods: FoodFilter | None = None,
        limits: dict[str, float] | None = None,
        energy_least: float = 0.0,
    ) -> None:
        limits = limits or {}
        slot = Slot(0, dish.slots[0], 600, 620, "meal", limits=limits, energy_most=ANY, settles=bool(limits))
        self.dish = dish
        anything = FoodFilter(prefer=frozenset(menu.pantry.foods))
        self.found = plate(dish, slot, Larder(menu, foods or anything))
        if self.found is None:
            return
        self._problem = Problem((slot,), ((self.found,),), {}, Wishes())
        self.serving: Serving = self._problem.servings[0][0]
        self._rows = [*one_plate(self._problem), *components(self._problem)]
        energy = self.terms(ENERGY)
        self._rows.append(Row("energy", energy, max(dish.energy[0], energy_least), dish.energy[1]))
        for number, (key, most) in enumerate(limits.items()):
            self._rows.append(Row(f"limit_{number}", self.terms(key), most=most))

    def terms(self, key: str) -> tuple[tuple[int, float], ...]:
        """A nutrient of the plate, by column."""
        return tuple(term for food in self.serving.foods for term in food.amounts(food.choice.per_gram.get(key, 0.0)))

    def engine(self, key: str | None = None, sign: float = 1.0, near: tuple[float, float] | None = None) -> Highs:
        """The program: any plate, least (sign 1) or most (-1) of a nutrient, or a plate that holds it within near."""
        model = self._problem.model
        model.cost = [0.0] * len(model.cost)
        model.rows = list(self._rows)
        if key is not None and near is not None:
            model.rows.append(Row("near", self.terms(key), *near))
        elif key is not None:
            for column, amount in self.terms(key):
                model.cost[column] += sign * amount
        return Highs(model)

    def cook(self, key: str | None = None, sign: float = 1.0, near: tuple[float, float] | None = None) -> Cooked | None:
        """A plate, or None where there is none."""
        return self.read(self.engine(key, sign, near)) if self.found is not None else None

    def read(self, engine: Highs) -> Cooked | None:
        """What the engine finds now."""
        assert self.found is not None
        answer = engine.solve(gap=1e-2, seconds=10.0)
        if not answer.status.solved:
            return None
        grams = {
            (part.part.role, food.choice.name): amount
            for part in self.serving.parts
            for food in part.foods
            if (amount := food.grams(answer.values))
        }
        return Cooked(self.dish, self.found, grams)
