"""The ground floor: ids, problems found in what a family gave us, the error base, seeds."""
