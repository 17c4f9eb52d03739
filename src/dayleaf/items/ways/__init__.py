"""Ways to go astray, as procedures over numbers. One id is one procedure wherever it is used."""
