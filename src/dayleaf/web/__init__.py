"""The same verbs on pages."""
