"""Typesetting: pages for the child, keys, guides; the map of answer boxes; sheet ids and their code."""
