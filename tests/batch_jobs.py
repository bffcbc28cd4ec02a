"""Jobs for tests of batches: small tables in round numbers, and random ones."""

from __future__ import annotations

from random import Random

from edgewright.job import Job
from edgewright.jobfile import parse_job

BOARD = '[[stock]]\nname = "{name}"\nlength = {length}\nwidth = {width}\nthickness = "3/4"\n{more}'


def job_text(
    length: object,
    width: object,
    north: object,
    strip: str = "2",
    *,
    title: str = "Table",
    boards: tuple[tuple[str, object, object, object], ...] = (),
    more: str = "",
    edge: str = "",
    top: str = "",
) -> str:
    """Text of a job file; boards are (name, length, width, price or None for on hand)."""
    stock = "".join(
        BOARD.format(name=name, length=a, width=b, more="" if price is None else f"price = {price}\n")
        for name, a, b, price in boards
    )
    return (
        f'[job]\ntitle = "{title}"\nunits = "in"\n[top]\nlength = {length}\nwidth = {width}\nthickness = "3/4"\n'
        f'material = "plywood"\n{top}[trim]\nnorth = {north}\n[edge]\nstrip_width = "{strip}"\n'
        f'top_round_over = "1/4"\nbottom_round_over = "1/4"\n{edge}{more}{stock}'
    )


def table(*args: object, **more: object) -> tuple[str, Job]:
    """A job with the name of its file."""
    text = job_text(*args, **more)  # type: ignore[arg-type]
    return "table.toml", parse_job(text)


SALE = (("long board", 96, 6, 24), ("middle board", 72, 4, 13), ("short board", 48, 6, 15))


def random_tables(
    number: int,
    seed: int,
    strips: tuple[str, ...] = ("1", "1 1/4", "1 1/2", "2", "2 1/2", "3"),
    edge: str = "",
) -> list[tuple[str, Job]]:
    """Tables of random size and trim, with three kinds of boards for sale."""
    random = Random(seed)
    found = []
    for n in range(1, number + 1):
        length, width = random.randrange(192, 388) / 4, random.randrange(120, 196) / 4
        north, strip = random.choice([3, 4, 5, 6, 8, 10]), random.choice(strips)
        found.append(table(length, width, north, strip, title=f"Table {n}", boards=SALE, edge=edge))
    return found
