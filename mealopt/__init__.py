"""Turns a training week into food: targets, real meals chosen by mixed-integer programming, and proof that they hold.

Everything public stands in `mealopt.api`; importing this package alone loads nothing else.
"""

__version__ = "0.1.0"
