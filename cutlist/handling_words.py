"""How findings 501 and 502 are worded, for a rectangle and for any other outline."""

from __future__ import annotations

from edgewright.findings import Finding

__all__ = ["guide_advice", "guide_finding", "held_finding", "wood_under_guide"]


def held_finding(where: str, left: str, least: str) -> Finding:
    """Finding 501: the panel left under the guide and the least that is held by hand, as they are shown."""
    return Finding(
        501, "stop", "panel too narrow to hold", where,
        f"{left} of panel left under the guide, at least {least}",
        "fix the panel to the bench so that no hand holds it, then override this; or trim less",
    )  # fmt: skip


def guide_finding(where: str, wood: str, advice: str, *, mostly_off: bool) -> Finding:
    """Finding 502, a stop where less than half of the guide lies on wood."""
    return Finding(
        502, "stop" if mostly_off else "warn", "guide stands off the wood", where, f"{where}: {wood}", advice
    )


def wood_under_guide(under: str, beside: str, guide: str, side: str) -> str:
    """Say what lies under the guide; ``under`` and ``beside`` are empty where there is none of it."""
    off = f": its edge lies {beside} off the panel" if beside else ""
    return f"{f'{under} of' if under else 'no'} wood under a guide {guide} wide, on the {side} side{off}"


def guide_advice(*, to_keep_side: bool, to_narrow_shoe: bool) -> str:
    """Only what is not set already and leaves more wood under the guide."""
    ways = ["put the guide on the keep side"] * to_keep_side
    ways += ["use the narrow side of the shoe"] * to_narrow_shoe
    ways.append("pack up with wood of equal thickness")
    return ", ".join(ways[:-1]) + (", or " if len(ways) > 1 else "") + ways[-1]
