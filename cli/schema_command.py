"""``edgewright schema``: the JSON Schema of a job file."""

from __future__ import annotations

import click

__all__ = ["schema_command"]


@click.command("schema")
def schema_command() -> None:
    """Print the JSON Schema of a job file, for editors that complete and check as you type."""
    import json

    from edgewright.cli.guard import say
    from edgewright.job import job_schema

    say(json.dumps(job_schema(), indent=2))
