"""When exercises come back. Boxes as in S. Leitner, "So lernt man lernen" (from memory): right one
up, wrong back to the first. Expected dates are counted by hand from the days 1, 2, 4, 8, 16.
"""

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.practice.kernels import ARC, PIN
from tests.refusals.refusal import examples, refused
from workbook.practice.progress import Answered
from workbook.practice.schedule import due, next_up, standings

START = datetime(2026, 3, 1, 10, tzinfo=UTC)
LATE = START + timedelta(days=1000)


def day(n, hour=10):
    return START.replace(hour=hour) + timedelta(days=n)


def right(n, exercise=ARC, hints=0, hour=10):
    return Answered(exercise, 1, "4", "correct", hints, day(n, hour))


def wrong(n, exercise=ARC):
    return Answered(exercise, 1, "3", "not yet", 0, day(n))


def arc(*answers, now=LATE):
    return standings(answers, now)[ARC]


def test_right_moves_up_and_the_last_box_is_mastered():
    answers = []
    for n, box, back in ((0, 2, 2), (2, 3, 6), (6, 4, 14), (14, 5, 30), (30, 5, 46)):
        answers.append(right(n))
        one = arc(*answers)
        assert (one.box, one.mastered) == (box, box == 5)
        assert one.due == day(back, hour=2)  # eight hours early
    assert (one.right, one.wrong) == (5, 0)


def test_wrong_goes_back_to_the_first_box():
    mastered = [right(0), right(2), right(6), right(14)]
    assert arc(*mastered).mastered
    one = arc(*mastered, wrong(15))
    assert (one.box, one.mastered, one.right, one.wrong) == (1, False, 4, 1)
    assert one.due == day(16, hour=2)


def test_a_first_wrong_answer_is_in_the_first_box():
    assert (arc(wrong(0)).box, arc(wrong(0)).due) == (1, day(1, hour=2))


@pytest.mark.parametrize(("hints", "box", "back"), [(0, 3, 6), (2, 3, 6), (3, 2, 4)])
def test_right_after_all_hints_stays(hints, box, back):
    one = arc(right(0), right(2, hints=hints))
    assert (one.box, one.due, one.right) == (box, day(back, hour=2), 2)


def test_right_before_it_is_due_changes_nothing_but_the_count():
    one = arc(right(0), right(0, hour=11), right(1))
    assert (one.box, one.due, one.right) == (2, day(2, hour=2), 3)
    assert arc(wrong(0), right(0, hour=11)).box == 1
    assert arc(right(0), wrong(1)).box == 1  # wrong counts at any time


def test_ten_o_clock_and_nine_the_next_morning_are_a_day_apart():
    assert arc(wrong(0), right(1, hour=9)).box == 2
    assert arc(wrong(0), right(0, hour=23)).box == 1


def test_an_answer_from_a_clock_that_was_ahead_does_not_keep_the_exercise_away():
    ahead = right(1000)
    assert standings([ahead], day(0)) == {}
    one = standings([ahead, wrong(1), right(2), right(4)], day(5))[ARC]
    assert (one.box, one.right, one.wrong) == (3, 2, 1)
    assert one.due in (day(7, hour=2), day(8, hour=2))


def test_due_and_next():
    answers = [right(0, "a"), wrong(0, "b"), right(3, "c"), wrong(1, "gone")]
    found, catalogue = standings(answers, day(4)), ["new 1", "c", "a", "new 2", "b"]
    assert due(found, day(0, hour=11)) == []
    assert due(found, day(1)) == ["b"]
    assert due(found, day(4)) == ["b", "a", "gone"]  # back on days 1, 2 and 2; the same: by name
    assert due(found, day(9)) == ["b", "a", "gone", "c"]
    assert next_up(catalogue, found, day(4)) == ["b", "a", "new 1"]
    assert next_up(catalogue, found, day(4), count=9) == ["b", "a", "new 1", "new 2"]
    assert next_up(catalogue, {}, day(0), count=2) == ["new 1", "c"]
    assert next_up([], found, day(9)) == [] == next_up(catalogue, found, day(9), count=0)


def test_nothing_answered():
    assert standings([], START) == {} and due({}, START) == []


def test_the_zone_of_now_does_not_matter():
    there = LATE.astimezone(timezone(timedelta(hours=-9)))
    assert standings([right(0)], there) == standings([right(0)], LATE)


@pytest.mark.parametrize("now", [datetime(2026, 3, 1), None, "today"])
def test_a_time_without_a_zone_is_refused(now):
    calls = (lambda: standings([], now), lambda: due({}, now), lambda: next_up([], {}, now))
    for call in calls:
        refused(call, "time zone")


ANSWERS = st.lists(
    st.builds(
        Answered, st.sampled_from([ARC, PIN]), st.just(1), st.just(""),
        st.sampled_from(["correct", "not yet"]), st.integers(0, 3),
        st.integers(0, 100_000).map(lambda minutes: START + timedelta(minutes=minutes)),
    ),
    max_size=40, unique_by=lambda one: one.at,
)  # fmt: skip


@examples(200)
@given(ANSWERS, st.randoms(use_true_random=False))
def test_what_holds_for_any_answers(answers, chance):
    found = standings(answers, LATE)
    mixed = chance.sample(answers, len(answers))
    assert standings(mixed, LATE) == found
    for exercise, one in found.items():
        own = sorted((a for a in answers if a.exercise == exercise), key=lambda a: a.at)
        assert one.right + one.wrong == len(own)
        assert 1 <= one.box <= 5 and one.mastered == (one.box == 5)
        since_wrong = len(own)
        for back, a in enumerate(reversed(own)):
            if a.outcome == "not yet":
                since_wrong = back
                break
        assert one.box <= 1 + since_wrong  # at most one box for each right answer since
        assert one.due <= own[-1].at + timedelta(days=16)
