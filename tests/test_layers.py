"""The house: imports go one way, and the package map names every folder and every data file."""

import ast
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
ROOMS = ["shared", "design", "cutlist", "cli"]
PACKAGES = {"design": "edgewright.design", "cutlist": "edgewright.cutlist", "cli": "edgewright.cli"}
SETUP = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["setuptools"]
MODULES = sorted(path for room in ROOMS for path in (ROOT / room).rglob("*.py"))


def imported(path: Path) -> set[str]:
    """Return the names of all modules a file imports, wherever the import stands."""
    names = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            names.add(node.module or "")
    return names


def room_of(module: str) -> str:
    """Return the room that a module of the package lies in."""
    return next(
        (room for room, package in PACKAGES.items() if (module + ".").startswith(package + ".")), "shared"
    )


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(ROOT)))
def test_imports_go_one_way(path):
    here = path.relative_to(ROOT).parts[0]
    for name in imported(path):
        if name.split(".")[0] != "edgewright" or path == ROOT / "shared" / "__init__.py":
            continue
        assert ROOMS.index(room_of(name)) <= ROOMS.index(here), f"{path.name} imports {name}"


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(ROOT)))
def test_no_bare_room_is_imported(path):
    assert not {name.split(".")[0] for name in imported(path)} & set(ROOMS)


def test_the_only_import_up_the_house_is_the_lazy_plan():
    assert {n for n in imported(ROOT / "shared" / "__init__.py") if n.startswith("edgewright")} == {
        "edgewright.cutlist.any_plan"
    }


def test_package_map_names_every_folder():
    folders = {path.parent.relative_to(ROOT) for path in MODULES}
    expected = set()
    for folder in folders:
        room, *rest = folder.parts
        expected.add(".".join([PACKAGES.get(room, "edgewright"), *rest]))
    assert set(SETUP["packages"]) == expected


def test_package_data_names_every_data_file():
    for room in ROOMS:
        for path in (ROOT / room).rglob("*"):
            if path.is_dir() or path.suffix in (".py", ".pyc"):
                continue
            folder = next(parent for parent in path.parents if (parent / "__init__.py").exists())
            package = ".".join([PACKAGES.get(room, "edgewright"), *folder.relative_to(ROOT / room).parts])
            patterns = SETUP["package-data"].get(package, [])
            inside = path.relative_to(folder)
            assert any(inside.match(pattern) for pattern in patterns), f"{path} is not in package-data"


def test_first_line_says_what_the_folder_is():
    first = (ROOT / "shared" / "__init__.py").read_text(encoding="utf-8").splitlines()[0]
    assert "This folder is the package" in first


def test_no_machine_path_and_no_registry_host_is_committed():
    words = ["/" + "work/", "/" + "root/", "py" + "pi.org", "python" + "hosted"]
    for path in [
        *ROOT.rglob("*.py"),
        *ROOT.rglob("*.md"),
        *ROOT.rglob("*.toml"),
        ROOT / "Makefile",
        ROOT / ".ci/run",
    ]:
        if ".venv" in path.parts or "build" in path.parts:
            continue
        text = path.read_text(encoding="utf-8")
        assert not [word for word in words if word in text], path
