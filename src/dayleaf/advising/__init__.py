"""Families who share what they choose: the files that travel, the calls worth making, plans sent back."""
