"""Django's settings for one household's folder, named by the environment's DAYLEAF_HOME.

Without a folder the database lives in memory and the key in this process: good for tools that only want
to look at the models, and nothing is kept.
"""

from __future__ import annotations

import os
import secrets
from pathlib import Path
from typing import Any

from dayleaf.records.folder import DATABASE, folder_made, secret_key

_named = os.environ.get("DAYLEAF_HOME")
HOME: Path | None = folder_made(Path(_named)) if _named else None

# Slow to guess by its memory (RFC 7914); one passphrase closes a home's pages, where a household wants that.
PASSWORD_HASHERS = ["django.contrib.auth.hashers.ScryptPasswordHasher"]

SECRET_KEY = secret_key(HOME) if HOME else secrets.token_urlsafe(48)
DEBUG = False
ALLOWED_HOSTS = ["localhost", "127.0.0.1", "[::1]"]

INSTALLED_APPS = [
    "django.contrib.staticfiles",
    "django_htmx",
    "dayleaf.records",
    "dayleaf.web",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "dayleaf.web.middleware.only_from_here",
    "dayleaf.web.through.through_the_door",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "dayleaf.web.middleware.reads_once",
    "dayleaf.web.passphrase.asked_first",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "dayleaf.web.middleware.InWords",
]
ROOT_URLCONF = "dayleaf.web.urls"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {"context_processors": ["django.template.context_processors.request"]},
    },
]

# synchronous=FULL: a mark that was confirmed survives a power cut. IMMEDIATE: two writers wait for each other
# at the start of a transaction, where waiting is safe. trusted_schema=OFF: a file from elsewhere runs nothing.
SQLITE_OPTIONS: dict[str, Any] = {
    "timeout": 20,
    "transaction_mode": "IMMEDIATE",
    "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA trusted_schema=OFF;",
}
DATABASES: dict[str, dict[str, Any]] = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": str(HOME / DATABASE) if HOME else ":memory:",
        "OPTIONS": SQLITE_OPTIONS,
        "CONN_MAX_AGE": None,
    },
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

# The session lies in a signed cookie: there is nobody to log in, and one table less to keep.
SESSION_ENGINE = "django.contrib.sessions.backends.signed_cookies"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Strict"
CSRF_COOKIE_SAMESITE = "Strict"
CSRF_COOKIE_HTTPONLY = True
CSRF_FAILURE_VIEW = "dayleaf.web.views.errors.came_from_elsewhere"
X_FRAME_OPTIONS = "SAMEORIGIN"
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CONTENT_TYPE_NOSNIFF = True
DATA_UPLOAD_MAX_MEMORY_SIZE = 1_000_000

USE_TZ = True
TIME_ZONE = "UTC"
USE_I18N = False
LANGUAGE_CODE = "en-us"

STATIC_URL = "/static/"
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False

LOGGING_CONFIG = None
