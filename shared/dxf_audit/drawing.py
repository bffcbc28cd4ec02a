"""What a DXF file holds: header variables, layers and the entities of its model space, still as groups.

References
----------
DXF Reference (sections; group codes common to all entities: 5 handle, 8 layer, 67 paper space)
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain
from typing import Final

from edgewright.dxf_audit.tags import Group, UnreadableError, groups_of
from edgewright.unit_words import printable

__all__ = ["Drawing", "Entity", "read_drawing"]

MOST_ENTITIES: Final = 100_000
MOST_GROUPS: Final = 2_000_000


@dataclass(frozen=True, slots=True)
class Entity:
    """An entity of the model space.

    Attributes
    ----------
    number
        Its place among all entities, from 1.
    groups
        Its groups; of an old polyline those before its vertices.
    vertices
        Groups of each vertex of an old polyline.
    """

    number: int
    kind: str
    layer: str
    groups: tuple[Group, ...]
    vertices: tuple[tuple[Group, ...], ...] = ()

    @property
    def label(self) -> str:
        """Kind, number and layer, for a sentence."""
        return f"{printable(self.kind)[:30]} {self.number} on {printable(self.layer)[:60]}"

    def first(self, code: int, other: str = "") -> str:
        """Value of the first group with a code."""
        return next((value for found, value in self.groups if found == code), other)


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing.

    Attributes
    ----------
    header
        Groups of each header variable, by its name with the dollar sign.
    unseen
        Layers that are off, frozen or not plotted, as their names stand in upper case.
    """

    header: dict[str, tuple[Group, ...]]
    unseen: frozenset[str]
    entities: tuple[Entity, ...]

    def variable(self, name: str, code: int) -> str | None:
        """Value of a header variable; None where it is missing."""
        return next((value for found, value in self.header.get(name, ()) if found == code), None)


def read_drawing(data: bytes, name: str) -> Drawing:
    """Read the bytes of a file.

    Raises
    ------
    UnreadableError
        If it is no whole DXF file, or holds more than is read.
    """
    header: dict[str, tuple[Group, ...]] = {}
    unseen: set[str] = set()
    entities: tuple[Entity, ...] | None = None
    for title, records in _sections(data, name):
        if title == "HEADER":
            header.update(_variables(records))
        elif title == "TABLES":
            unseen.update(_unseen(records))
        elif title == "ENTITIES":
            found = tuple(_entities(records, name, 0 if entities is None else len(entities)))
            entities = (entities or ()) + found
    if entities is None:
        raise UnreadableError(f"{name} has no section of entities, hence no drawing: export it again")
    return Drawing(header, frozenset(unseen), entities)


_Record = list[Group]


def _sections(data: bytes, name: str) -> Iterator[tuple[str, list[_Record]]]:
    """Title and records of each section; a record begins with a group 0, the first holds what stands before."""
    title: str | None = None
    records: list[_Record] = []
    taken = 0
    for code, value in groups_of(data, name):
        if code == 0 and value == "SECTION":
            if title is not None:
                raise UnreadableError(
                    f"{name} is damaged: section {printable(title)[:30]} does not end; get it again"
                )
            title, records = "", [[]]
        elif title is None:
            if (code, value) != (0, "EOF"):
                raise UnreadableError(
                    f"{name} is damaged: something stands between two sections; get it again"
                )
        elif code == 0 and value == "ENDSEC":
            yield title, records
            title, records = None, []
        elif code == 0 and value == "EOF":
            raise UnreadableError(
                f"{name} is damaged: section {printable(title)[:30]} does not end; get it again"
            )
        elif not title and code == 2:
            title = value
        elif title in ("HEADER", "TABLES", "ENTITIES"):
            taken += 1
            if taken > MOST_GROUPS:
                raise UnreadableError(
                    f"{name} holds more than {MOST_GROUPS} figures, the most that is read: divide it"
                )
            if code == 0:
                records.append([])
            records[-1].append((code, value))


def _variables(records: list[_Record]) -> Iterator[tuple[str, tuple[Group, ...]]]:
    name = ""
    groups: list[Group] = []
    for code, value in chain.from_iterable(records):
        if code == 9:
            if name:
                yield name, tuple(groups)
            name, groups = value, []
        else:
            groups.append((code, value))
    if name:
        yield name, tuple(groups)


def _unseen(records: list[_Record]) -> Iterator[str]:
    """Layers with a negative colour (off), bit 1 of 70 (frozen), or 290 at 0 (not plotted)."""
    for record in records:
        groups = dict(reversed(record))
        if groups.get(0) != "LAYER":
            continue
        if (
            groups.get(62, "").startswith("-")
            or groups.get(290) == "0"
            or groups.get(70, "0")[-1:] in "13579"
        ):
            yield groups.get(2, "").upper()


def _entities(records: list[_Record], name: str, number: int) -> Iterator[Entity]:
    """Entities of the model space; an old polyline takes its vertices with it."""
    open_one: tuple[_Record, list[tuple[Group, ...]]] | None = None
    for record in records[1:]:
        kind = record[0][1]
        if open_one is not None:
            if kind == "VERTEX":
                open_one[1].append(tuple(record))
                continue
            if kind != "SEQEND":
                raise UnreadableError(
                    f"{name} is damaged: the vertices of a polyline do not end; get it again"
                )
            number += 1
            yield from _entity(open_one[0], number, open_one[1])
            open_one = None
        elif kind == "POLYLINE":
            open_one = (record, [])
        elif kind not in ("VERTEX", "SEQEND", "ATTRIB"):
            number += 1
            if number > MOST_ENTITIES:
                raise UnreadableError(
                    f"{name} holds more than {MOST_ENTITIES} entities, the most read: divide it"
                )
            yield from _entity(record, number, ())
    if open_one is not None:
        raise UnreadableError(f"{name} is damaged: the vertices of a polyline do not end; get it again")


def _entity(record: _Record, number: int, vertices: list[tuple[Group, ...]] | tuple[()]) -> Iterator[Entity]:
    if any(group == (67, "1") for group in record):
        return
    layer = next((value for code, value in record if code == 8), "0")
    yield Entity(number, record[0][1], layer, tuple(record), tuple(vertices))
