"""What to buy for a plan: from food as eaten to packs in a shop."""
