"""How Django finds the templates and static files."""

from django.apps import AppConfig


class WebConfig(AppConfig):
    """The web room."""

    name = "dayleaf.web"
