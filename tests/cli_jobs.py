"""Job files that the tests of the command line share."""

READY = """
[job]
title = "Reading table × 2"
[top]
length = "72 in"
width = "42 in"
thickness = "23/32 in"
material = "plywood"
[trim]
north = "6 in"
[edge]
corner_radius = "2 in"
bottom_round_over = "1/4 in"
"""
#: Its drawings.
READY_DXF = [
    "dxf/audit.txt",
    *(
        f"dxf/{part}_x1_in.dxf"
        for part in (
            "stick_1_offcut_from_the_north_plywood_0-719in",
            "template",
            "top_plywood_0-719in",
            "underside_plywood_0-719in",
        )
    ),
]
# strips of 2 3/8 in from a trim of 2 in: no lane at all, so there is no plan
IMPOSSIBLE = READY.replace('north = "6 in"', 'north = "2 in"') + 'strip_width = "2 3/8 in"\n'
# an edge 1 7/16 in thick cannot carry two round-overs of 3/4 in: finding 201
NO_PROFILE = READY.replace('bottom_round_over = "1/4 in"', 'bottom_round_over = "3/4 in"').replace(
    "corner_radius", 'top_round_over = "3/4 in"\ncorner_radius'
)
FAULTY = READY.replace('width = "42 in"', 'widht = "42 in"')

# the trim of 1 in gives no strip, so all of them come from a board that is bought
BOARDS = READY.replace('north = "6 in"', 'north = "1 in"') + (
    'strip_width = "2 in"\n[[stock]]\nname = "board"\nlength = "96 in"\nwidth = "12 in"\n'
    'thickness = "23/32 in"\nprice = 20.5\n'
)


def run(*args: object, **more):
    """Run the command line in this process; the result holds exit code, standard output and error."""
    from click.testing import CliRunner

    from edgewright.cli.main import main

    return CliRunner().invoke(main, [str(arg) for arg in args], **more)


def program(*args: object, env: dict[str, str] | None = None, **more):
    """Run the command line as a program of its own, without a terminal."""
    import os
    import subprocess
    import sys

    command = [sys.executable, "-m", "edgewright.cli.main", *map(str, args)]
    keep = {"PATH": os.environ["PATH"], "PYTHONWARNINGS": "error::ResourceWarning"}
    return subprocess.run(command, env=keep | (env or {}), capture_output=True, timeout=60, **more)


def files_below(folder) -> dict[str, bytes]:
    """Every file below a folder with its content, hidden ones as well."""
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}
