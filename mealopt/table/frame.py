"""The food-composition table as a pandas frame, for those who want to analyse it or recompute a plan by themselves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from mealopt.table.files import foods_folder

if TYPE_CHECKING:
    import pandas as pd


def composition_frame() -> pd.DataFrame:
    """One row a food, indexed by its number ("08120"); nutrients per 100 g, NaN where the table leaves a blank.

    Source: USDA SR28, as foods/SOURCES.md says.
    """
    import pandas as pd

    frame = pd.read_csv(foods_folder() / "composition.csv", dtype={"ndb": str, "group": str})
    return frame.set_index("ndb")
