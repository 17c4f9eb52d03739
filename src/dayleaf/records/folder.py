"""The household's folder: making it private, its secret key, and whether it lies on this computer's own disk.

Nothing here imports Django, so that a command can look at a folder before anything heavy starts.
"""

from __future__ import annotations

import os
import secrets
from pathlib import Path

from dayleaf.core.errors import DayleafError

DATABASE = "dayleaf.sqlite3"
KEY_FILE = "secret.key"
PRIVATE_FOLDER = 0o700
PRIVATE_FILE = 0o600

_FAR_FILESYSTEMS = frozenset(
    {"nfs", "nfs4", "cifs", "smb3", "smbfs", "afs", "9p", "ncpfs", "davfs", "ceph", "glusterfs"}
)


class NotAHome(DayleafError):
    """The path given cannot be a household's folder."""

    def __init__(self, folder: Path, why: str) -> None:
        self.folder = folder
        super().__init__(f"{folder} cannot be the household's folder: {why}.")


def folder_made(folder: Path) -> Path:
    """The folder, made if it was not there, open to its owner only. Raises `NotAHome`."""
    folder = folder.expanduser()
    if folder.exists() and not folder.is_dir():
        raise NotAHome(folder, "it is a file")
    if (
        folder.is_dir()
        and not (folder / DATABASE).exists()
        and any(folder.iterdir())
        and not (folder / KEY_FILE).exists()
    ):
        raise NotAHome(folder, "it already holds other things; name a new or an empty folder")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        folder.chmod(PRIVATE_FOLDER)
    except OSError as error:
        raise NotAHome(folder, error.strerror or "it cannot be written") from error
    if not os.access(folder, os.W_OK | os.X_OK):
        raise NotAHome(folder, "it cannot be written")
    return folder.resolve()


def secret_key(folder: Path) -> str:
    """The folder's own secret key, made on the first call and readable by its owner only."""
    path = folder / KEY_FILE
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, PRIVATE_FILE)
    except FileExistsError:
        key = path.read_text(encoding="ascii").strip()
        if key:
            return key
        raise NotAHome(folder, f"its {KEY_FILE} is empty; delete that file and start again") from None
    key = secrets.token_urlsafe(48)
    with os.fdopen(handle, "w", encoding="ascii") as file:
        file.write(key)
    return key


def far_away(folder: Path, mounts: str | None = None) -> bool:
    """Whether the folder lies on a network disk, where a database may be damaged.

    Args:
        folder: an absolute path.
        mounts: the text of the table of mounts (`fstab(5)` columns); read from the system when None.
            A system without that table is only asked whether the path is a network path by its form.
    """
    if str(folder).startswith("\\\\"):
        return True
    if mounts is None:
        table = Path("/proc/mounts")
        mounts = table.read_text(encoding="utf-8", errors="replace") if table.exists() else ""
    best, kind = "", ""
    for line in mounts.splitlines():
        columns = line.split()
        if len(columns) < 3:
            continue
        point = columns[1].replace("\\040", " ")
        inside = folder == Path(point) or Path(point) in folder.parents
        if inside and len(point) >= len(best):
            best, kind = point, columns[2]
    return kind in _FAR_FILESYSTEMS or kind.startswith("fuse.")
