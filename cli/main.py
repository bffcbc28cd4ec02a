"""The command ``edgewright``: its commands, and the one place where errors become exit codes.

Nothing heavy is imported here or at the top of a command's module, so that ``--help`` is quick.
"""

from __future__ import annotations

import sys

try:
    import contextlib
    from collections.abc import Sequence
    from typing import Any

    import click

    from edgewright import __version__
    from edgewright.cli.ask_command import ask_command
    from edgewright.cli.audit_command import audit_command
    from edgewright.cli.batch_command import batch_command
    from edgewright.cli.check_command import check_command
    from edgewright.cli.compare_command import compare_command
    from edgewright.cli.guard import PipeClosedError, exit_code_of, plain_streams, quiet_stdout
    from edgewright.cli.new_command import new_command
    from edgewright.cli.plan_command import plan_command
    from edgewright.cli.prove_command import prove_command
    from edgewright.cli.schema_command import schema_command
    from edgewright.cli.stopping import held, signals_taken
except KeyboardInterrupt:  # stopped before there is anything that could say so
    if sys.stderr is not None:
        sys.stderr.write("edgewright: stopped\n")
    sys.exit(130)

__all__ = ["main"]


class _Group(click.Group):
    """A group whose errors become one sentence and an exit code, see `edgewright.cli.guard`."""

    # click declares what comes back for each mode; here there is one mode, and it exits
    def main(  # type: ignore[override]
        self, args: Sequence[str] | None = None, prog_name: str | None = None, **extra: Any
    ) -> Any:
        """Run the command line and exit."""
        extra["standalone_mode"] = False
        plain_streams()
        code: Any = 130
        with signals_taken():
            try:
                code = super().main(args, prog_name or "edgewright", **extra)
                sys.stdout.flush()
            except (Exception, KeyboardInterrupt) as error:
                # stopped once is enough
                with contextlib.suppress(KeyboardInterrupt), held():
                    code = exit_code_of(error)
                    quiet_stdout()
        sys.exit(code if isinstance(code, int) else 0)

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command; what click would answer in its own way is told apart before."""
        try:
            return super().invoke(ctx)
        except BrokenPipeError:
            raise PipeClosedError from None
        except KeyboardInterrupt:
            raise click.Abort from None


@click.group(
    "edgewright",
    cls=_Group,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="edgewright", message="%(prog)s %(version)s")
def main() -> None:
    """Trim plan, proven strip cut list, DXF and quantities for refitting table and counter tops.

    Start with "edgewright new job.toml", fill in what you measured, then run
    "edgewright plan job.toml --out plan".

    Exit codes: 0 done, 1 a stop is open or there is no plan (NOT FOR CUTTING), 2 wrong usage or job file,
    3 a file could not be written.
    """


for _command in (
    new_command,
    check_command,
    compare_command,
    ask_command,
    plan_command,
    batch_command,
    prove_command,
    schema_command,
    audit_command,
):
    main.add_command(_command)

if __name__ == "__main__":
    main()
