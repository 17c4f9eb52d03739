"""An item, a figure or a step said in a language: sentences, plurals, units, number names."""
