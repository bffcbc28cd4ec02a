"""Findings: what the bench checks found, numbered, with their figures.

Numbers by hundreds: 1xx material, 2xx edge profile and router, 3xx build-up and fastening, 4xx base, seating and
room, 5xx saw and handling. A number never changes its meaning.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["Finding", "Severity", "open_stops"]

Severity = Literal["stop", "warn", "note"]


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding of a bench check.

    Attributes
    ----------
    number
        Stable number, see the module.
    severity
        ``stop`` withholds everything one could cut by; ``warn`` and ``note`` do not.
    title
        A few words, the same for every job.
    place
        Where on the top: a side, a corner, "edge", "saw" ...
    figures
        The numbers that decide, exactly as an override must repeat them.
    change
        What to change.
    overridable
        False where no override can make sense (a profile that does not exist).
    overridden
        The person's reason when the job overrides it with the same figures.
    """

    number: int
    severity: Severity
    title: str
    place: str
    figures: str
    change: str
    overridable: bool = True
    overridden: str | None = None


def open_stops(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Stops that the job has not overridden."""
    return tuple(f for f in findings if f.severity == "stop" and f.overridden is None)
