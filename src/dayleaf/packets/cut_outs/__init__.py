"""Sets to cut out: which pieces a set has, how they lie on paper for the fewest cuts, both sides, one lost piece."""
