"""How Django finds the models."""

from importlib import import_module

from django.apps import AppConfig


class RecordsConfig(AppConfig):
    """The records room."""

    name = "dayleaf.records"
    default_auto_field = "django.db.models.BigAutoField"

    def import_models(self) -> None:
        """Besides `models`, the rows of the ledgers."""
        super().import_models()
        import_module("dayleaf.records.ledgers")
