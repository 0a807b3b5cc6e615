"""One file a page, in the order of the job; `mealopt.ui.main` lists them."""
