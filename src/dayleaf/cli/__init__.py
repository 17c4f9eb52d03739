"""The same verbs in a terminal."""
