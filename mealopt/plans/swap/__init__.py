"""A plan changed as little as can be: a food or dish for another, a meal held, a meal skipped."""
