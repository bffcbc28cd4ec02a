"""Starter files: they work as they are and hold whatever was answered."""

import dataclasses
import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.errors import InputError, JobError
from edgewright.job import Job
from edgewright.jobfile import parse_job
from edgewright.starter import QUESTIONS, StarterAnswers, quote_toml, starter_job, write_job

INCH = Fraction("25.4")


@pytest.mark.example
def test_the_starter_works_as_it_is() -> None:
    job = parse_job(starter_job())

    assert job.info.title == "Reading-room table"
    assert job.finished_width == 36 * INCH


@pytest.mark.example
def test_each_hidden_key_of_the_starter_is_known() -> None:
    """Taking the # away in front of an example gives a key that the reader knows."""
    text = starter_job().partition("# [as_cut]")[0]
    for row in text.split("\n"):
        if re.match(r"# (\[|[a-z_.]+ = )", row) and "finished_width" not in row and "width_from" not in row:
            bare = row[2:]
            shown = text.replace(row, bare)
            if row.startswith("# [planning]"):
                shown = re.sub(r"\n# (objective|labour_rate) = ", r"\n\1 = ", shown)
            elif row.startswith("# [[stock]]"):
                shown = text.replace("# [[stock]]", "[[stock]]")
                for key in ("name", "length", "width", "thickness"):
                    shown = re.sub(rf"\n# ({key} = )", r"\n\1", shown)
            elif re.match(
                '# (name|length|width|thickness|min_piece|from_corner|lengths|objective|labour_rate|"1057)',
                row,
            ):
                continue
            assert isinstance(parse_job(shown), Job), row


@pytest.mark.example
def test_the_hidden_table_of_cuts_made_is_known() -> None:
    before, begin, after = starter_job().partition("# [as_cut]")
    job = parse_job(before + (begin + after).replace("\n# ", "\n").removeprefix("# "))

    assert job.as_cut is not None
    assert (job.as_cut.cuts, job.as_cut.width.given, job.as_cut.kerf.given) == (1, "40 1/32 in", "5/32 in")
    assert [piece.side for piece in job.as_cut.pieces] == ["north"]


@pytest.mark.example
def test_default_answers_make_a_job() -> None:
    job = parse_job(write_job(StarterAnswers()))

    assert job.amounts.north == 6 * INCH
    assert (job.edge.layers, job.edge.strip_thickness, job.base.overhang) == (1, None, None)
    assert job.coating.film_range[0].given == "35 mil"


@pytest.mark.example
def test_questions_stand_in_the_order_of_the_answers() -> None:
    assert [q.key for q in QUESTIONS] == [f.name for f in dataclasses.fields(StarterAnswers)]
    assert [q.default for q in QUESTIONS] == [getattr(StarterAnswers(), q.key) for q in QUESTIONS]
    assert all(q.prompt and q.help for q in QUESTIONS)


@pytest.mark.example
def test_all_answers_reach_the_job() -> None:
    answers = StarterAnswers(
        title='A "big" table \\ 2', material="mdf", thickness='3/4"; 0.76 in', length="6 ft", width="1066 mm",
        diagonals="83 in; 83 1/8 in", cut_amount="2 in", cut_side=" West ", wanted_thickness="2 1/4 in",
        top_round_over="0", bottom_round_over="1/8 in", corner_radius="0", overhang="1 in; 2 in; 3 in; 4 in",
        kerf="3 mm", guide_offset="5 in", arm_height="26 in", table_height="29 in", flood_film="3 fl oz/ft^2",
    )  # fmt: skip
    job = parse_job(write_job(answers))

    assert job.info.title == answers.title
    assert job.top.material == "mdf"
    assert [t.given for t in job.top.thickness] == ['3/4"', "0.76 in"]
    assert (job.amounts.west, job.amounts.north) == (2 * INCH, 0)
    assert job.top.diagonals is not None
    assert job.edge.top_round_over.exact_mm == 0
    assert job.base.overhang is not None
    assert [length.given for _, length in job.base.overhang.per_side().items()] == [
        "1 in",
        "2 in",
        "3 in",
        "4 in",
    ]
    assert (job.saw.kerf.mm, job.saw.guide_offset.given) == (3.0, "5 in")
    assert job.seating.arm_height is not None
    # 2 1/4 in wanted over a mean top of 0.755 in: 1.495 in below it, two layers of 0.7475 in
    assert job.edge.layers == 2
    assert job.strip_thickness.exact_mm == Fraction("0.7475") * INCH


@pytest.mark.example
@pytest.mark.parametrize(
    ("wanted", "layers", "strip"),
    [("double", 1, None), ("Double ", 1, None), ("", 1, None), ("1 1/2 in", 1, None), ("2 1/4 in", 2, None),
     ("1 3/4 in", 1, Fraction(1)), ("7/8 in", 1, Fraction(1, 8)), ("1\n1/2\tin", 1, None)],
)  # fmt: skip
def test_a_wanted_thickness_becomes_layers(wanted: str, layers: int, strip: Fraction | None) -> None:
    """Over a top of 3/4 in."""
    job = parse_job(write_job(StarterAnswers(thickness="3/4 in", wanted_thickness=wanted)))

    assert job.edge.layers == layers
    assert job.strip_thickness.exact_mm == (strip or Fraction(3, 4)) * INCH


@pytest.mark.example
@pytest.mark.parametrize(
    ("answer", "words"),
    [
        ({"cut_side": "up"}, '"up" is not a side'),
        ({"wanted_thickness": "1/2 in"}, "not thicker than the top of 23/32 in"),
        ({"wanted_thickness": "10 in"}, "at most 4"),
        ({"wanted_thickness": "thick"}, "thick"),
        ({"wanted_thickness": "1", "thickness": ""}, "thickness of the top is missing"),
        ({"overhang": "1 in; 2 in"}, "2 overhangs"),
    ],
)
def test_answers_without_sense_are_refused(answer: dict[str, str], words: str) -> None:
    with pytest.raises(InputError, match=re.escape(words)):
        write_job(StarterAnswers(**answer))


@pytest.mark.example
def test_bare_numbers_take_the_units_given() -> None:
    answers = StarterAnswers(
        thickness="18", length="1829", width="1067", cut_amount="150", wanted_thickness="36",
        top_round_over="9", bottom_round_over="6", corner_radius="50", kerf="3", guide_offset="110",
    )  # fmt: skip
    job = parse_job(write_job(answers, units="mm"))

    assert (job.units, job.top.length.mm, job.strip_thickness.mm) == ("mm", 1829.0, 18.0)
    with pytest.raises(JobError, match="no unit"):
        parse_job(write_job(dataclasses.replace(answers, wanted_thickness="double")))


_TITLE = st.text(st.characters(exclude_categories=("Cs", "Cc", "Zl", "Zp")), min_size=1, max_size=200)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(_TITLE.filter(str.strip))
def test_any_title_comes_back(title: str) -> None:
    assert parse_job(write_job(StarterAnswers(title=title))).info.title == title


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(st.text(st.characters(exclude_categories=("Cs",)), max_size=40))
def test_any_text_is_quoted_so_that_toml_reads_it_back(text: str) -> None:
    import tomllib

    assert tomllib.loads(f"a = {quote_toml(text)} # end\n") == {"a": text}


_ANSWER = st.one_of(
    st.text(max_size=20), st.sampled_from(["1 in", "0", "", "1; 2", "'''", '"""', "3/4 in", "nan"])
)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.dictionaries(st.sampled_from([q.key for q in QUESTIONS]), _ANSWER, max_size=5))
def test_any_answers_are_written_or_refused(answers: dict[str, str]) -> None:
    """Answers are either refused, or the file is sound TOML whose faults stand at a key."""
    try:
        text = write_job(StarterAnswers(**answers))
    except InputError:
        return
    try:
        parse_job(text)
        keys = ["all read"]
    except JobError as error:
        keys = [fault.key for fault in error.faults]
    assert all(keys)
