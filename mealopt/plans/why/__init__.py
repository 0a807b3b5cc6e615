"""Why a day is as it is: which limits bind, and what would follow if a food or a dish were in it."""
