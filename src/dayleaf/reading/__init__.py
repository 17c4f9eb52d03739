"""A photo becomes answers with certainty."""
