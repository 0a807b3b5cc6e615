"""`python -m mealopt` is the command."""

from mealopt.cli.main import main

if __name__ == "__main__":
    main()
