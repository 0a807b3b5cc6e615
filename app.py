"""Starts the page: `streamlit run app.py`, or `mealopt app`."""

from mealopt.ui.main import main

main()
