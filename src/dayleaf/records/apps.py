"""How Django finds the models."""

from django.apps import AppConfig


class RecordsConfig(AppConfig):
    """The records room."""

    name = "dayleaf.records"
    default_auto_field = "django.db.models.BigAutoField"
