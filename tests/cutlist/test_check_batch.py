"""Faults planted in a sound batch: each is found by name; and a certificate proves no more than it can."""

import copy

import pytest
from batch_jobs import SALE, table

from edgewright.cutlist.batch.batch import plan_jobs
from edgewright.cutlist.check_batch import batch_bounds, batch_faults, proven_batch


@pytest.fixture(scope="module")
def sound():
    # the ring of C is 60 + 60 + 27 + 27 of strips 3 wide from 7 in: 3 strips; A and B share; splices and boards occur
    jobs = [
        table(72, 42, 10, title="A", boards=SALE),
        table(66, 40, 3, title="B", boards=SALE),
        table(60, 40, 3, "3", title="C", boards=SALE),
    ]
    return plan_jobs(jobs).plain


def names(batch):
    return {fault.name for fault in batch_faults(batch)}


def test_a_sound_batch_has_no_fault(sound):
    assert batch_faults(sound) == ()


def short_kerf(batch):
    lane = next(p for p in batch["pieces"] if p["lane_start_ticks"])
    lane["lane_start_ticks"] -= 1


def overlap(batch):
    piece = next(p for p in batch["pieces"] if p["lane_start_ticks"])
    piece["lane_start_ticks"] = 0


def missing(batch):
    del batch["pieces"][0]


def stick_twice(batch):
    batch["sticks"].append(batch["sticks"][0])


def too_many(batch):
    batch["groups"][batch["sticks"][0]["group"]]["count"] = 0


def other_way(batch):
    way = batch["groups"][batch["sticks"][0]["group"]]["ways"][batch["sticks"][0]["way"]]
    way[0]["count"] += 1


def cheaper(batch):
    batch["stages"][0]["value"] -= 100


def hidden_price(batch):
    next(group for group in batch["groups"] if group["for_sale"] and group["ids"])["price_cents"] = 0


def proven_by_word(batch):
    stage = next((s for s in batch["stages"] if not s["proven"]), batch["stages"][0])
    stage["proven"] = not stage["proven"]


def higher_bound(batch):
    batch["stages"][3]["bound"] = batch["stages"][3]["value"] + 1


def other_width(batch):
    job = next(job for job in batch["jobs"] if job["strip_width_ticks"] == 3 * 8128)
    piece = next(p for p in batch["pieces"] if p["job"] == job["number"])
    other = next(p for p in batch["pieces"] if p["job"] != job["number"])
    piece["lane_id"] = other["lane_id"]


def side_gone(batch):
    batch["side_kinds"][0]["ids"].pop()


def longer_side(batch):
    batch["side_kinds"][0]["length_ticks"] += 1


def wide_strips(batch):
    batch["sticks"][0]["width_ticks"] = batch["sticks"][0]["lanes"][0]["width_ticks"] - 1


def foreign_family(batch):
    batch["families"][0]["joint_ticks"] -= 1


FAULTS = {
    short_kerf: "dropped kerf",
    overlap: "overlap in a lane",
    missing: "missing piece",
    stick_twice: "stick used twice",
    too_many: "too many sticks",
    other_way: "wrong way",
    cheaper: "stage value wrong",
    hidden_price: "stage value wrong",
    proven_by_word: "bound not met",
    higher_bound: "stage bound wrong",
    other_width: "strip of another width",
    side_gone: "side missing",
    longer_side: "wrong kind of side",
    wide_strips: "strips wider than their stick",
    foreign_family: "wrong family",
}


@pytest.mark.parametrize(("plant", "name"), FAULTS.items(), ids=[plant.__name__ for plant in FAULTS])
def test_each_planted_fault_is_found(sound, plant, name):
    batch = copy.deepcopy(sound)
    plant(batch)
    assert name in names(batch)


@pytest.mark.parametrize("key", ["jobs", "groups", "sticks", "pieces", "stages", "families", "side_kinds"])
@pytest.mark.parametrize("junk", [None, 3, [{}], "x"], ids=str)
def test_malformed_data_is_a_fault_and_raises_nothing(sound, key, junk):
    batch = copy.deepcopy(sound) | {key: junk}
    faults, _ = proven_batch(batch)
    assert faults


def test_prices_raised_at_will_prove_nothing(sound):
    # dearer sides are worth more than their strips: that excess is taken off again, so the bound stays below the value
    batch = copy.deepcopy(sound)
    for stage in batch["stages"]:
        for entry in (stage["certificate"] or {"sides": []})["sides"]:
            entry["value"] *= 3
    for stage in batch["stages"]:
        bound = batch_bounds(batch)[stage["name"]][0]
        assert bound is None or bound <= stage["value"]


def test_free_strips_prove_nothing(sound):
    batch = copy.deepcopy(sound)
    for stage in batch["stages"]:
        if stage["certificate"]:
            stage["certificate"]["lanes"] = []
    for stage in batch["stages"]:
        bound = batch_bounds(batch)[stage["name"]][0]
        assert bound is None or bound <= stage["value"]
