"""Background jobs: progress, stop, failure, one at a time; and the fine verdict that they run."""

import contextlib
import math
import threading

import numpy as np
import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.studies.load_path import load_path
from axlewright.workshop.fine_verdict import StoppedError, fine_verdict
from axlewright.workshop.jobs import Jobs, NoJobError, Task
from axlewright.workshop.template import template

SOON = 10.0


def kind_of(work, known=None):
    return lambda text: Task(f"hash of {text}", known, work)


def steady(tell):
    return {"sum": 3} if all(tell(k / 4) for k in range(1, 5)) else None


class Held:
    """Work that waits to be let go, one step at a time."""

    def __init__(self):
        self.begun, self.go = threading.Event(), threading.Event()
        self.stopped = False

    def __call__(self, tell):
        tell(0.25)
        self.begun.set()
        assert self.go.wait(SOON)
        self.stopped = not tell(0.5)
        return None if self.stopped else {"late": True}


@pytest.fixture
def held():
    work = Held()
    yield work
    work.go.set()


@pytest.fixture
def jobs(held):
    def fails(tell):
        raise ZeroDivisionError

    made = Jobs({"steady": kind_of(steady), "held": kind_of(held), "fails": kind_of(fails)})
    yield made
    held.go.set()
    made.close()


def test_a_job_ends_with_its_result(jobs):
    started = jobs.start("steady", "b1", "text")
    over = jobs.wait(started.id, SOON)
    assert (over.state, over.progress, over.result) == ("done", 1.0, {"sum": 3})
    assert over.build_hash == "hash of text"


def test_progress_is_told_while_it_runs(jobs, held):
    started = jobs.start("held", "b1", "text")
    assert started.state == "running" and started.progress == 0.0
    assert held.begun.wait(SOON)
    now = jobs.get(started.id)
    assert (now.state, now.progress, now.message) == ("running", 0.25, "25 % done")


def test_a_stopped_job_stays_stopped_and_gives_nothing(jobs, held):
    started = jobs.start("held", "b1", "text")
    assert held.begun.wait(SOON)
    assert jobs.stop(started.id).state == "stopped"
    held.go.set()
    over = jobs.wait(started.id, SOON)
    assert held.stopped
    assert (over.state, over.result, over.progress) == ("stopped", None, 0.25)
    assert jobs.stop(started.id).state == "stopped"


def test_a_job_over_stays_as_it_is_when_stopped(jobs):
    over = jobs.wait(jobs.start("steady", "b1", "text").id, SOON)
    assert jobs.stop(over.id) == over


def test_a_failure_is_told_in_words(jobs, capfd):
    over = jobs.wait(jobs.start("fails", "b1", "text").id, SOON)
    assert over.state == "failed" and over.result is None
    assert "fault of axlewright" in over.message and "ZeroDivisionError" in over.message
    assert "ZeroDivisionError" in capfd.readouterr().err


def test_the_same_work_is_joined_not_doubled(jobs, held):
    first = jobs.start("held", "b1", "text")
    assert jobs.start("held", "b1", "text").id == first.id
    assert jobs.start("held", "b1", "other text").id != first.id
    assert jobs.start("held", "b2", "text").id != first.id


def test_one_at_a_time(jobs, held):
    first = jobs.start("held", "b1", "text")
    assert held.begun.wait(SOON)
    second = jobs.start("steady", "b1", "text")
    assert jobs.wait(second.id, 0.05).state == "running"
    assert jobs.get(second.id).message == "waiting for its turn"
    held.go.set()
    assert jobs.wait(second.id, SOON).state == "done"
    assert jobs.wait(first.id, SOON).state == "done"


def test_one_stopped_while_it_waits_never_begins(jobs, held):
    jobs.start("held", "b1", "text")
    assert held.begun.wait(SOON)
    second = jobs.start("steady", "b1", "text")
    jobs.stop(second.id)
    held.go.set()
    over = jobs.wait(second.id, SOON)
    assert (over.state, over.progress) == ("stopped", 0.0)


def test_a_kept_answer_is_given_at_once():
    jobs = Jobs({"kept": kind_of(steady, {"sum": 9})})
    started = jobs.start("kept", "b1", "text")
    assert (started.state, started.progress, started.result) == ("done", 1.0, {"sum": 9})


def test_jobs_of_a_build_newest_first(jobs):
    ids = [jobs.start("steady", "b1", f"text {k}").id for k in range(3)]
    jobs.wait(jobs.start("steady", "b2", "text").id, SOON)
    assert [j.id for j in jobs.of("b1")] == ids[::-1]
    assert jobs.of("none") == ()


def test_old_jobs_are_forgotten():
    jobs = Jobs({"kept": kind_of(steady, {"sum": 9})})
    ids = [jobs.start("kept", "b1", "text").id for _ in range(130)]
    assert [j.id for j in jobs.of("b1")] == ids[:-101:-1]


def test_what_is_not_there_is_told(jobs):
    with pytest.raises(NoJobError, match="there is no job 'x'"):
        jobs.get("x")
    with pytest.raises(NoJobError, match="there is no job 'x'"):
        jobs.stop("x")
    with pytest.raises(NoJobError, match="known are steady, held, fails"):
        jobs.start("dig", "b1", "text")


def test_closing_stops_what_runs_and_starts_nothing_more(jobs, held):
    started = jobs.start("held", "b1", "text")
    assert held.begun.wait(SOON)
    held.go.set()
    jobs.close()
    assert jobs.get(started.id).state in {"stopped", "done"}
    with pytest.raises(NoJobError, match="shutting down"):
        jobs.start("steady", "b1", "text")


# The fine verdict ------------------------------------------------------------------------------

SEED, COUNT = 3, 2_000


@pytest.fixture(scope="module")
def build():
    return resolve(read_build(template()))


@pytest.fixture(scope="module")
def fine(build):
    return fine_verdict(build, SEED, contextlib.nullcontext(), lambda share: True, COUNT, 700)


def test_it_agrees_with_the_study_on_the_same_samples(build, fine):
    report = load_path(build, SEED, COUNT).report
    by_name = {x.link: x for x in report.links}
    assert {x.link for x in fine.links} == {x.link for x in report.links if x.breaks}
    for x in fine.links:
        assert x.first_share == by_name[x.link].first_share, x.link
    alone = [x for x in fine.links if by_name[x.link].breaks.short_share > 0]
    assert alone
    for x in alone:
        assert x.short_share >= by_name[x.link].breaks.short_share, x.link


def test_chunks_do_not_matter(build, fine):
    whole = fine_verdict(build, SEED, contextlib.nullcontext(), lambda share: True, COUNT, COUNT)
    assert [x.short_share for x in whole.links] == [x.short_share for x in fine.links]
    assert [(x.low, x.high) for x in whole.links] == [(x.low, x.high) for x in fine.links]


def test_shares_fit_together(fine):
    assert math.isclose(sum(x.first_share for x in fine.links), 1.0)
    most = max(x.short_share for x in fine.links)
    assert most <= fine.short_share <= sum(x.short_share for x in fine.links)
    assert all(x.low <= x.high for x in fine.links)
    assert fine.low <= min(x.low for x in fine.links) + 1e-9


def test_the_error_left_is_that_of_counting(fine):
    """Closed form of the binomial against the scatter of counted coin throws."""
    p = fine.short_share
    thrown = np.random.default_rng(5).random((4_000, 500)) < p
    scatter = float(np.std(np.mean(thrown, axis=1))) * math.sqrt(500 / COUNT)
    assert fine.short_error == pytest.approx(scatter, rel=0.05)


def test_it_can_be_stopped_between_chunks(build):
    told = []

    def tell(share):
        told.append(share)
        return len(told) < 2

    with pytest.raises(StoppedError):
        fine_verdict(build, SEED, contextlib.nullcontext(), tell, 400, 100)
    assert told == [0.25, 0.5]


def test_its_turn_is_held_for_a_chunk_only(build):
    taken = []

    class Slot:
        def __enter__(self):
            taken.append("in")

        def __exit__(self, *_):
            taken.append("out")

    fine_verdict(build, SEED, Slot(), lambda share: taken.append(share) or True, 300, 100)
    assert taken == ["in", "out", 1 / 3, "in", "out", 2 / 3, "in", "out", 1.0]
