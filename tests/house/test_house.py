"""The house itself: what no file may hold, how long a module may be, what the documents may name."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import click
import pytest

from dayleaf.cli.main import VERBS, dayleaf

ROOT = Path(__file__).resolve().parents[2]
DOCUMENTS = ("README.md", "CONTRIBUTING.md", "CHANGELOG.md", *(f"docs/{path.name}" for path in ROOT.glob("docs/*.md")))
LONGEST = 400
"""Lines of a module (the project's style)."""
OURS = ("src/", "tests/", "docs/", "bench/", "requirements/", ".ci/")
WORDS_FOR_PEOPLE = re.compile(r"\b(oops|great job|awesome)\b", re.IGNORECASE)


def _tracked() -> tuple[Path, ...]:
    git = shutil.which("git")
    if git is None:
        pytest.skip("git is not here to say which files are kept")
    listed = subprocess.run([git, "ls-files", "-z"], cwd=ROOT, capture_output=True, check=False, text=True)
    if listed.returncode:
        pytest.skip("this copy is no git checkout")
    return tuple(path for name in listed.stdout.split("\0") if name and (path := ROOT / name).is_file())


def _texts() -> dict[str, str]:
    found = {}
    for path in _tracked():
        try:
            found[str(path.relative_to(ROOT))] = path.read_text("utf-8")
        except UnicodeDecodeError:
            continue
    return found


def test_no_file_names_a_package_host_or_a_folder_of_the_machine_it_was_written_on() -> None:
    hosts = ("pypi" + ".org", "pythonhosted" + ".org", "files.python" + "hosted", "npmjs" + ".org", "registry." + "npm")
    folders = (str(ROOT), "/" + "work/", "/" + "root/", "/home/" + "user", "/" + "Users/")

    found = [(name, word) for name, text in _texts().items() for word in (*hosts, *folders) if word in text]

    assert found == []


def test_lock_files_carry_hashes_and_no_addresses() -> None:
    for lock in ("run", "test", "dev"):
        text = (ROOT / "requirements" / f"{lock}.txt").read_text("utf-8")

        assert "://" not in text
        pins = re.findall(r"^[a-z0-9][\w.\-\[\]]*==", text, flags=re.MULTILINE)
        blocks = re.split(r"^(?=[a-z0-9])", text, flags=re.MULTILINE)
        assert pins
        assert all("--hash=sha256:" in block for block in blocks if "==" in block)


def test_what_runs_is_pinned_and_what_tests_is_pinned_too() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    names = {re.split(r"[<>=\[]", wish)[0] for wish in project["project"]["dependencies"]}
    tested = {re.split(r"[<>=\[]", wish)[0] for wish in project["dependency-groups"]["test"]}

    run, test = ((ROOT / "requirements" / f"{lock}.txt").read_text("utf-8") for lock in ("run", "test"))

    assert {name for name in names if f"\n{name}==" not in f"\n{run}"} == set()
    assert {name for name in names | tested if not re.search(rf"^{name}(\[[^\]]*\])?==", test, re.MULTILINE)} == set()


def test_no_module_is_longer_than_four_hundred_lines() -> None:
    long = {name: len(text.splitlines()) for name, text in _texts().items() if name.endswith(".py")}

    assert {name: lines for name, lines in long.items() if lines > LONGEST and "/migrations/" not in name} == {}


def test_no_module_is_a_drawer_for_everything() -> None:
    assert [path for path in _tracked() if path.stem in {"utils", "helpers", "misc", "common", "services_base"}] == []


def test_rooms_import_only_downwards() -> None:
    linter = Path(sys.executable).with_name("lint-imports")
    done = subprocess.run([linter, "--no-logo"], cwd=ROOT, capture_output=True, text=True, check=False)

    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize("name", DOCUMENTS)
def test_documents_name_only_files_that_are_there(name: str) -> None:
    text = (ROOT / name).read_text("utf-8")
    named = re.findall(r"`([^`\s]+/[^`\s]*|[\w-]+\.(?:md|py|toml|txt))`", text)
    linked = re.findall(r"\]\(([^)#:]+)\)", text)

    missing = [path for path in named if path.startswith(OURS) and not _there(path)]
    missing += [path for path in linked if not ((ROOT / name).parent / path).exists()]

    assert missing == []


def _there(path: str) -> bool:
    """Whether a path is there; capitals such as STRAND or NN stand for any name, … for any deeper one."""
    pattern = re.sub(r"\b[A-Z]{2,}\b|NNN", "*", path.removesuffix("…").rstrip("/"))
    return any(ROOT.glob(pattern))


@pytest.mark.parametrize("name", DOCUMENTS)
def test_documents_name_only_verbs_that_are_there(name: str) -> None:
    text = (ROOT / name).read_text("utf-8")

    named = {
        *re.findall(r"`dayleaf ([a-z][a-z-]*)", text),
        *re.findall(r"^    dayleaf ([a-z][a-z-]*)", text, re.MULTILINE),
    }

    assert named <= set(VERBS)
    assert all(dayleaf.get_command(click.Context(dayleaf), verb) for verb in named)


def test_the_two_commands_stand_in_the_readme_and_work_with_nothing_but_the_standard_library() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    imported = set(re.findall(r"^(?:import|from) (\w+)", (ROOT / "dev.py").read_text("utf-8"), re.MULTILINE))

    assert "    python3 dev.py start" in readme
    assert "    python3 dev.py test" in readme
    assert imported <= set(sys.stdlib_module_names)


def test_what_people_read_neither_cheers_nor_scolds() -> None:
    content = {name: text for name, text in _texts().items() if name.startswith("src/dayleaf/content/")}

    assert len(content) > 400
    assert [name for name, text in content.items() if WORDS_FOR_PEOPLE.search(text)] == []
