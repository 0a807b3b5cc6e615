"""Starts the page: `streamlit run app.py`, or `mealopt app`."""

from mealopt.ui.main import main

if __name__ == "__main__":
    main()
