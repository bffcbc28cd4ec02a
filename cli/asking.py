"""Ask for a job on a terminal: each answer is judged at once, by the same rules as the job file itself."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import click

from edgewright.cli.guard import say
from edgewright.errors import InputError, JobError
from edgewright.job_fields import brief
from edgewright.jobfile import parse_job
from edgewright.starter import QUESTIONS, Question, StarterAnswers, write_job
from edgewright.units import read_length

__all__ = ["ask_job", "complaint"]

#: Where in the job file an answer lands; a fault there is a fault of the answer.
_PLACES: Final[dict[str, tuple[str, ...]]] = {
    "title": ("job.title",),
    "material": ("top.material",),
    "thickness": ("top.thickness",),
    "length": ("top.length",),
    "width": ("top.width",),
    "diagonals": ("top.diagonals",),
    "cut_side": ("trim",),
    "wanted_thickness": ("edge.layers", "edge.strip_thickness"),
    "top_round_over": ("edge.top_round_over",),
    "bottom_round_over": ("edge.bottom_round_over",),
    "corner_radius": ("edge.corner_radius",),
    "overhang": ("base",),
    "kerf": ("saw.kerf",),
    "guide_offset": ("saw.guide_offset_wide",),
    "arm_height": ("seating.arm_height",),
    "table_height": ("seating.table_height",),
    "flood_film": ("coating.flood_film",),
}
_NOTHING: Final = ("0", "none")
_NO_TEXT: Final = (
    "what was typed is not text in the encoding of this terminal: type it again, in plain letters"
)


def ask_job() -> str:
    """Ask all questions in order and give the text of the job file.

    Raises
    ------
    click.Abort
        The person stopped.
    """
    say("Every length needs its unit, like 41 5/8 in or 1057 mm. Enter takes what stands in [ ].")
    answers = StarterAnswers()
    number = 0
    while number < len(QUESTIONS):
        question = QUESTIONS[number]
        if question.key == "cut_side" and answers.cut_amount.strip() in _NOTHING:
            number += 1
            continue
        answered = replace(answers, **{question.key: _ask(question)})
        wrong = complaint(question.key, answered)
        if wrong is None:
            answers = answered
            number += 1
            continue
        say(f"  {wrong}")
        # too much off a side may be the fault of the amount, so both are asked again
        if question.key == "cut_side":
            number -= 1
    text = write_job(answers)
    parse_job(text, "the answers")
    return text


def complaint(key: str, answers: StarterAnswers) -> str | None:
    """Say what is wrong with the answer to one question, given those before it; None when nothing is."""
    if any("\ud800" <= c <= "\udfff" for c in getattr(answers, key)):
        return _NO_TEXT  # bytes that could not be decoded arrive as lone surrogates
    try:
        if key == "cut_amount":
            return _amount_complaint(answers.cut_amount)
        if key == "diagonals":
            _two_or_none(answers.diagonals)
        text = write_job(answers)
        parse_job(text)
    except JobError as error:
        places = _PLACES[key]
        for fault in error.faults:
            # the answers before were sound, so a fault of the whole comes from this one
            if not fault.key or fault.key.startswith(places):
                return fault.message
    except InputError as error:
        return str(error)
    return None


def _amount_complaint(amount: str) -> str | None:
    if amount.strip() in _NOTHING:
        return None
    if read_length(amount).exact_mm < 0:
        return f"{amount.strip()} is less than nothing: give what comes off, kerf included, or 0"
    return None


def _two_or_none(diagonals: str) -> None:
    count = len([part for part in diagonals.split(";") if part.strip()])
    if diagonals.strip() and count != 2:
        raise InputError(
            f"{brief(diagonals)} is not a pair: write two lengths with ; between them, or nothing"
        )


def _ask(question: Question) -> str:
    words = f"{question.prompt} ({question.help})" if question.help else question.prompt
    while True:
        try:
            answer: str = click.prompt(words, default=question.default, show_default=bool(question.default))
        except UnicodeDecodeError:
            say(f"  {_NO_TEXT}")
        except click.Abort:
            say("")  # the prompt was left without a line end
            raise
        else:
            return answer
