"""``edgewright ask``: questions beyond one plan, before anything is cut."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from edgewright.cutlist.asking.ask import Replies
    from edgewright.cutlist.asking.model import Answer
    from edgewright.units import Units

__all__ = ["ask_command"]

#: The names of `edgewright.cutlist.asking.ask.ASKED`, so that --help loads nothing; a test compares them.
WORDS = ("widest", "trim", "best", "margins", "scarce")


def _questions(ctx: click.Context, param: click.Parameter, given: tuple[str, ...]) -> tuple[str, ...]:
    """Read the names of --question; several may stand in one, with commas between."""
    words = [word.strip().lower() for text in given for word in text.split(",")]
    for word in words:
        if word not in WORDS:
            raise click.BadParameter(f'"{word}" is no question: ask {", ".join(WORDS)}.', ctx, param)
    return tuple(word for word in WORDS if word in words)


@click.command("ask")
@click.argument("file")
@click.option(
    "--question",
    "questions",
    multiple=True,
    default=WORDS,
    metavar="NAME",
    callback=_questions,
    help=f"Ask this only; may be given again. One of {', '.join(WORDS)}.",
)
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
def ask_command(file: str, questions: tuple[str, ...], as_json: bool) -> int:
    """Answer what the plan of the job in FILE leaves open.

    The widest strip from own wood; the least extra trim that saves a splice or a purchase; the best side to trim and
    the best corners; margins: how far kerf, old sizes and thickness may be off; what is scarce: what one more inch of
    each offcut or board would save.

    Each answer says what was tried and whether it is proven.

    Exit code 0: answered, whether or not there is a plan; 2: the file has faults.
    """
    from edgewright.cli.ask_text import answer_lines
    from edgewright.cli.guard import say
    from edgewright.cli.plan_json import json_text
    from edgewright.cli.progress import Progress
    from edgewright.cli.stopping import computing
    from edgewright.cli.text import screen_width
    from edgewright.cutlist.asking.ask import ask
    from edgewright.errors import JobError

    try:
        with Progress() as progress, computing():
            replies = ask(file, questions, progress)
    except JobError as error:
        if not as_json:
            raise
        faults = [{"key": f.key, "line": f.line, "message": f.message} for f in error.faults]
        say(json_text(_result("faulty", faults=faults)))
        return 2
    say(json_text(_content(replies)) if as_json else "\n".join(answer_lines(replies, screen_width())))
    return 0


def _result(status: str, **more: Any) -> dict[str, Any]:
    empty: dict[str, Any] = {"title": None, "units": None, "faults": [], "answers": []}
    return {"format": "edgewright ask", "version": 1, "status": status} | empty | more


def _content(replies: Replies) -> dict[str, Any]:
    """Give the answers as plain data; figures of a row stand beside its words, keys carry their unit."""
    job = replies.job
    answers = [_answer(answer, job.units) for answer in replies.answers]
    return _result("answered", title=job.info.title, units=job.units, answers=answers)


def _answer(answer: Answer, units: Units) -> dict[str, Any]:
    from edgewright.cli.text import ticks_in_words

    return {
        "question": answer.question,
        "applies": answer.applies,
        "sentence": answer.sentence,
        "more": [ticks_in_words(sentence, units) for sentence in answer.more],
        "rows": [{"name": row.name, "words": row.words, **dict(row.figures)} for row in answer.rows],
        "proven": answer.proven,
        "tried": answer.tried,
    }
