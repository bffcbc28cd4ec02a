"""What the data sheets of filler and resin say, in [coating]: bounds, pairs, and the digest of jobs without it."""

import pytest

from edgewright.errors import JobError
from edgewright.job_used import given_and_used, job_digest
from edgewright.jobfile import parse_job
from edgewright.starter_text import STARTER


def job(keys=""):
    return parse_job(STARTER.replace("[coating]\n", f"[coating]\n{keys}\n"))


@pytest.mark.example
@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ('mix_ratio = "2:1"', "may be by volume or by weight"),
        ('mix_ratio = "21:1 by weight"', "20:1 to 1:20 is allowed"),
        ('mix_ratio = "100:83 by volume"', "at most 30 parts together can be measured by volume"),
        ('largest_batch = "7.9 fl oz"', "8 fl oz to 3/4 gal is allowed"),
        ('largest_batch = "97 fl oz"', "8 fl oz to 3/4 gal is allowed"),
        ("largest_batch = 64", "is not a volume"),
        ('pot_life = "4 min"', "5 min to 3 h is allowed"),
        ('filler_work_time = "2 min"', "3 min to 60 min is allowed"),
        ('density_a = "0.6 g/ml"\ndensity_b = "1 g/ml"', "0.7 g/ml to 2.5 g/ml is allowed"),
        ('density_a = "1.1 g/ml"', "is given without density_b"),
        ('density_b = "1.1 g/ml"', "is given without density_a"),
        ('recoat_until = "4 h"', "is given without recoat_from"),
        ('recoat_from = "4 h"\nrecoat_until = "4 h"', "is not after recoat_from"),
        ("tint_percent = 5.1", "out of range: 0 to 5 is allowed"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(keys, said):
    with pytest.raises(JobError, match=said):
        job(keys)


@pytest.mark.example
@pytest.mark.parametrize(
    "keys",
    [
        'mix_ratio = "20:1 by weight"',
        'largest_batch = "8 fl oz"',
        'largest_batch = "3/4 gal"',
        'pot_life = "5 min"',
        'filler_work_time = "60 min"',
        "tint_percent = 5",
        'recoat_from = "4 h"',
    ],
)
def test_the_bounds_themselves_are_allowed(keys):
    assert job(keys)


@pytest.mark.example
def test_a_default_that_is_written_out_changes_no_plan():
    said = 'mix_ratio = "2:2 by volume"\npot_life = "20 min"\nlargest_batch = "96 fl oz"'

    assert job_digest(job(said)) == job_digest(job())
    assert job_digest(job('mix_ratio = "1:1 by weight"')) != job_digest(job())


@pytest.mark.example
def test_each_key_is_shown_with_what_is_used_and_its_origin():
    rows = {row.key: row for row in given_and_used(job('pot_life = "1/2 h"'))}

    assert rows["coating.pot_life"].used == "1/2 h = 30 min"
    assert rows["coating.mix_ratio"].used == "1:1 by volume"
    assert rows["coating.mix_ratio"].origin == "common practice, no source"
    assert rows["coating.largest_batch"].used == "3/4 gal = 2839 ml"
    assert rows["coating.density_a"].used == "-"
