"""The page: what an athlete uses in the kitchen and a coach at a desk, over `mealopt.api` and nothing below it."""
