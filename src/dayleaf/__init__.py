"""Dayleaf: plan, print, mark and understand a year of primary mathematics taught at home."""

__version__ = "0.1.0"
