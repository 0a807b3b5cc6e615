"""A plan document's day posed again, with what stands in it: what swaps, replans and questions begin with."""
