"""What the pages do: find, parse, call one function, render."""
