"""The workshop: answers kept and worked out once, comparing, papers, problems in words."""

import threading
import time

import pytest

from axlewright.build.edit import edit
from axlewright.build.problems import BuildError
from axlewright.build.reader import read_build
from axlewright.store.builds import Store
from axlewright.studies import limits, load_path
from axlewright.workshop import shop
from axlewright.workshop.keeping import Kept
from axlewright.workshop.shop import Workshop, file_name, text_hash
from axlewright.workshop.template import template

TEXT = template()
WRONG = edit(TEXT, "car.weight", "3 bananas")
FEW = 200


@pytest.fixture
def workshop():
    made = Workshop(Store(None))
    yield made
    made.close()


@pytest.fixture(scope="module")
def shared():
    made = Workshop(Store(None))
    yield made
    made.close()


def together(work, count):
    """Run the same work in many threads; gives what each got."""
    got, gate = [], threading.Barrier(count)

    def one(k):
        gate.wait()
        try:
            got.append(work(k))
        except Exception as e:
            got.append(e)

    threads = [threading.Thread(target=one, args=(k,)) for k in range(count)]
    for t in threads:
        t.start()
    for t in threads:
        t.join(30)
    return got


# Keeping ---------------------------------------------------------------------------------------


def test_an_answer_is_made_once_for_many_who_ask():
    made, kept = [], Kept(4)

    def make():
        made.append(1)
        time.sleep(0.05)
        return object()

    got = together(lambda k: kept.get("key", make), 12)
    assert len(made) == 1 and len(set(map(id, got))) == 1


def test_a_failure_reaches_all_who_wait_and_is_not_kept():
    kept, made = Kept(4), []

    def fail():
        made.append(1)
        time.sleep(0.05)
        raise ValueError("no")

    got = together(lambda k: kept.get("key", fail), 6)
    assert all(isinstance(g, ValueError) for g in got)
    assert kept.get("key", lambda: 7) == 7


def test_the_least_asked_goes_first():
    kept = Kept(2)
    for key in ("a", "b"):
        kept.get(key, lambda: 1)
    kept.get("a", lambda: pytest.fail("a is kept"))
    kept.get("c", lambda: 1)
    assert len(kept) == 2
    assert kept.get("a", lambda: 2) == 1
    assert kept.get("b", lambda: 2) == 2


# Studies ---------------------------------------------------------------------------------------


def test_a_study_is_kept_by_text_seed_and_samples(workshop):
    first = workshop.study(TEXT, samples=FEW)
    assert workshop.study(TEXT, samples=FEW) is first
    assert workshop.study(TEXT, seed=2, samples=FEW) is not first
    assert workshop.study(TEXT, samples=FEW + 1) is not first
    assert workshop.study(edit(TEXT, "car.weight", "3000 lb"), samples=FEW) is not first
    assert first.report.made.build_hash == text_hash(TEXT)


def test_no_more_than_two_are_worked_out_at_a_time(workshop, monkeypatch):
    now, most, lock = [0], [0], threading.Lock()
    real = load_path.load_path

    def counted(build, seed, samples):
        with lock:
            now[0] += 1
            most[0] = max(most[0], now[0])
        try:
            time.sleep(0.02)
            return real(build, seed, 50)
        finally:
            with lock:
                now[0] -= 1

    monkeypatch.setattr(load_path, "load_path", counted)
    got = together(lambda k: workshop.study(TEXT, seed=k), 8)
    assert len({id(g) for g in got}) == 8 and most[0] == 2


def test_a_wrong_text_raises_in_words_each_time(workshop):
    for _ in range(2):
        with pytest.raises(BuildError, match=r"car\.weight: 'bananas' is no unit of mass"):
            workshop.study(WRONG)


def test_problems_are_those_of_the_command_line(workshop):
    with pytest.raises(BuildError) as told:
        read_build(WRONG)
    assert workshop.problems(WRONG) == told.value.problems
    assert workshop.problems(TEXT) == ()
    (caution,) = workshop.problems(edit(TEXT, "car.weight", "9000 lb"))
    assert (caution.severity, caution.key) == ("caution", "car.weight")
    assert "is unusual" in caution.message


def test_cautions_of_resolving_are_told_too(workshop):
    text = TEXT + '\n[engine.air]\npressure = "28.5 inHg"\n'
    said = [p.message for p in workshop.problems(text) if p.severity == "caution"]
    assert any("engine.air needs both" in s for s in said)


def test_inputs_as_used(shared):
    inputs = shared.inputs(TEXT)
    assert inputs["car.weight"].value == "3,650 lb"
    assert inputs["car.wheelbase"].origin == "assumed"
    assert shared.inputs(WRONG) == {}


def test_working_of_a_number(shared):
    number = next(iter(shared.study(TEXT).nodes))
    assert shared.working(TEXT, number) is shared.study(TEXT).nodes[number]
    assert shared.working(TEXT, "none") is None


def test_a_limit_card_outlives_the_server(tmp_path, monkeypatch):
    first = Workshop(Store(tmp_path / "kept.sqlite"))
    card = first.card(TEXT)
    assert first.card(TEXT) is card
    first.close()
    monkeypatch.setattr(limits, "limit_card", lambda *_: pytest.fail("worked out again"))
    second = Workshop(Store(tmp_path / "kept.sqlite"))
    again = second.card(TEXT)
    second.close()
    assert again == card and type(again.lines) is tuple


def test_another_version_works_a_card_out_again(tmp_path, monkeypatch):
    workshop = Workshop(Store(tmp_path / "kept.sqlite"))
    card = workshop.card(TEXT)
    workshop.close()
    made = []
    monkeypatch.setattr(shop, "__version__", "99.0")
    monkeypatch.setattr(limits, "limit_card", lambda *_, **__: made.append(1) or card)
    again = Workshop(Store(tmp_path / "kept.sqlite"))
    again.card(TEXT)
    again.close()
    assert made == [1]


# Comparing -------------------------------------------------------------------------------------


def test_the_same_text_differs_in_nothing(shared):
    same = shared.compare(TEXT, TEXT)
    assert same.inputs == () and same.links == ()
    assert same.old_sentence == same.new_sentence and same.old_holds == same.new_holds


def test_a_comment_changes_nothing(shared):
    assert shared.compare(TEXT, TEXT + "\n# a thought\n").inputs == ()


def test_a_lighter_car_is_easier_on_the_driveline(shared):
    told = shared.compare(TEXT, edit(TEXT, "car.weight", "3000 lb"))
    (weight,) = told.inputs
    assert (weight.key, weight.old, weight.new) == ("car.weight", "3650 lb", "3000 lb")
    assert weight.stated and weight.means.startswith("Weight of the car")
    by_name = {x.link: x for x in told.links}
    assert "axle_shaft" in by_name
    for x in told.links:
        assert x.new.value >= x.old.value * (1 - 1e-9), x.link
        assert x.change.value == pytest.approx(x.new.value / x.old.value, rel=1e-9), x.link


def test_a_key_left_out_shows_what_is_taken_for_it(shared):
    told = shared.compare(TEXT, edit(TEXT, "car.weight", None))
    weight = next(i for i in told.inputs if i.key == "car.weight")
    assert weight.old == "3650 lb"
    assert weight.new.endswith("(assumed)") and weight.new.startswith("3,500 lb")


def test_what_follows_from_a_key_is_told_after_it(shared):
    told = shared.compare(TEXT, edit(TEXT, "axle.shaft", "28-spline factory"))
    assert told.inputs[0].key == "axle.shaft" and told.inputs[0].stated
    followed = [i for i in told.inputs if not i.stated]
    assert any(i.key.startswith("axle.shaft.") for i in followed)
    assert all(i.old != i.new for i in told.inputs)


def test_the_change_is_surer_than_the_margins(shared):
    """Both sides share their draws, so the ratio has less spread than bands set side by side."""
    told = shared.compare(TEXT, edit(TEXT, "car.weight", "3000 lb"))
    x = next(x for x in told.links if x.link == "axle_shaft")
    apart = x.new.high / x.old.low - x.new.low / x.old.high
    assert 0.0 <= x.change.high - x.change.low < 0.5 * apart


def test_comparing_a_wrong_text_raises_in_words(shared):
    with pytest.raises(BuildError, match="bananas"):
        shared.compare(TEXT, WRONG)


# Papers and names ------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["check", "card"])
def test_papers_are_pdf(shared, kind):
    assert shared.paper(TEXT, "Copper Wren", kind).startswith(b"%PDF-")


def test_no_paper_of_a_wrong_text(shared):
    with pytest.raises(BuildError):
        shared.paper(WRONG, "x", "card")


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("Copper Wren", "copper-wren.toml"),
        ("../../etc/passwd", "etc-passwd.toml"),
        ('a"b\r\nc', "a-b-c.toml"),
        ("Zaunkönig", "zaunkonig.toml"),
        ("鷦鷯", "build.toml"),
        ("x" * 300, "x" * 60 + ".toml"),
    ],
)
def test_file_names_are_plain(name, file):
    assert file_name(name, ".toml") == file


# The job of the workshop -----------------------------------------------------------------------


def test_the_fine_verdict_is_kept_in_the_store(workshop, monkeypatch):
    monkeypatch.setattr(shop, "FINE_SAMPLES", 300)
    real = shop.fine_verdict
    monkeypatch.setattr(shop, "fine_verdict", lambda *a: real(*a, samples=300, chunk=100))
    started = workshop.jobs.start(shop.FINE, "b1", TEXT)
    over = workshop.jobs.wait(started.id, 30)
    assert over.state == "done" and over.result["samples"] == 300
    assert over.build_hash == workshop.study(TEXT, samples=FEW).report.made.build_hash
    again = workshop.jobs.start(shop.FINE, "b1", TEXT)
    assert (again.state, again.result) == ("done", over.result)


def test_no_job_on_a_wrong_text(workshop):
    with pytest.raises(BuildError, match="bananas"):
        workshop.jobs.start(shop.FINE, "b1", WRONG)
