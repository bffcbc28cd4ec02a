"""Random jobs whose figures are hard to show: odd kerfs, grids and offsets, the other unit now and then."""

from __future__ import annotations

from random import Random

__all__ = ["odd_job", "odd_new_top", "odd_stock_job"]

_KERFS = ("1/8 in", "3.2 mm", "0.093 in", "2.4 mm", "0.1 in", "3 mm", "3.175 mm", "7/64 in", "2.37 mm")
_GRIDS = {
    "in": ("1/64 in", "1/32 in", "1/32 in", "0.5 mm", "1/16 in"),
    "mm": ("0.5 mm", "0.5 mm", "1 mm", "1/64 in"),
}
_OFFSETS = ("1 1/4 in", "1.27 in", "32 mm", "31.7 mm", "1 17/64 in")


def _head(pick: Random, units: str) -> str:
    return (
        f'[job]\ntitle = "Odd"\nunits = "{units}"\nbench_grid = "{pick.choice(_GRIDS[units])}"\n'
        f'[saw]\nkerf = "{pick.choice(_KERFS)}"\nguide_offset_narrow = "{pick.choice(_OFFSETS)}"\n'
        f'shoe_side = "narrow"\nguide_width = "1/2 in"\nguide_side = "{pick.choice(["keep", "waste"])}"\n'
    )


def _size(pick: Random, low: int, high: int, units: str) -> str:
    """A length between whole inches as a person measures it, now and then in the other units."""
    inches = pick.randint(low * 64, high * 64)
    if (units == "in") == (pick.random() < 0.85):
        return f'"{inches // 64} {inches % 64}/64 in"'
    return f'"{inches * 254 // 640} mm"' if pick.random() < 0.7 else f'"{inches * 0.396875:.1f} mm"'


def odd_job(seed: int) -> str:
    """A rectangular top: spliced or not, with boards or not."""
    pick = Random(seed)
    units = pick.choice(["in", "mm"])
    sides = pick.sample(["north", "south", "east", "west"], pick.choice([1, 1, 2, 3]))
    trims = "".join(f"{side} = {_size(pick, 5, 9, units)}\n" for side in sides)
    wide = pick.choice(['"widest"', _size(pick, 1, 2, units)])
    boards = "".join(
        f'[[stock]]\nname = "board {n}"\nlength = {_size(pick, 70, 100, units)}\n'
        f'width = {_size(pick, 5, 13, units)}\nthickness = "3/4 in"\n'
        f"{'price = 12' if pick.random() < 0.5 else ''}\n"
        for n in range(pick.choice([1, 1, 2]))
    )
    return (
        f"{_head(pick, units)}[top]\nlength = {_size(pick, 55, 96, units)}\nwidth = {_size(pick, 34, 48, units)}\n"
        f'thickness = "3/4 in"\nmaterial = "plywood"\n[trim]\n{trims}'
        f'[edge]\nlayers = {pick.choice([1, 1, 2])}\ncorners = "{pick.choice(["butt", "pinwheel", "mitre"])}"\n'
        f'top_round_over = "1/4 in"\nbottom_round_over = "1/8 in"\ncorner_radius = "1/2 in"\n'
        f"strip_width = {wide}\n{boards}"
    )


def _sheets(pick: Random) -> str:
    long, wide = ("96 in", "48 in") if pick.random() < 0.5 else ("2440 mm", "1220 mm")
    size = f'length = "{long}"\nwidth = "{wide}"\nthickness = "3/4 in"\n'
    return f'[[stock]]\nname = "sheet"\n{size}price = 60\ncount = 4\n'


def odd_new_top(seed: int) -> str:
    """A top that is cut new from sheets."""
    pick = Random(seed)
    units = pick.choice(["in", "mm"])
    return (
        f"{_head(pick, units)}[top]\nnew = true\n"
        f'thickness = "3/4 in"\nmaterial = "plywood"\noversize = "{pick.choice(["1/4 in", "5 mm"])}"\n[top.outline]\n'
        f'shape = "racetrack"\nlength = {_size(pick, 50, 80, units)}\nwidth = {_size(pick, 26, 38, units)}\n'
        f'[edge]\ntop_round_over = "1/4 in"\nbottom_round_over = "1/8 in"\n{_sheets(pick)}'
    )


def odd_stock_job(seed: int) -> str:
    """An old top with clipped corners whose build-up is cut from boards."""
    pick = Random(seed)
    units = pick.choice(["in", "mm"])
    return (
        f'{_head(pick, units)}[top]\nthickness = "3/4 in"\nmaterial = "plywood"\n[top.outline]\n'
        f'shape = "rectangle"\nlength = {_size(pick, 50, 80, units)}\nwidth = {_size(pick, 30, 40, units)}\n'
        f'[edge]\ntop_round_over = "1/4 in"\nbottom_round_over = "1/8 in"\n'
        f"{_sheets(pick)}"
        f'[[stock]]\nname = "board"\nlength = {_size(pick, 40, 90, units)}\nwidth = {_size(pick, 5, 9, units)}\n'
        f'thickness = "3/4 in"\n'
    )
