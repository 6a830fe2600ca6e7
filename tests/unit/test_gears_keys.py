"""Keys of the gear pair: every one has a default with its source, and none is ignored."""

import numpy as np
import pytest

from axlewright.build.model_gears import Gears
from axlewright.build.problems import BuildError
from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.catalogue import rows
from axlewright.catalogue.load import rows_of
from axlewright.quantities.estimate import Estimate, Plain, leaves
from axlewright.quantities.fields import meta_of
from axlewright.quantities.sampling import Samples

HEAD = 'format = 1\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "{ring}"\n{axle}'


def pair(gears="", ring="8.8", axle=""):
    text = HEAD.format(ring=ring, axle=axle) + ("[gears]\n" + gears if gears else "")
    return resolve(read_build(text, "build.toml"))


def plain(build):
    filler = Plain()
    return filler.tree(build.machine), filler.tree(build.meshing)


@pytest.mark.parametrize("name", Gears.model_fields)
def test_every_key_has_a_default_and_says_where_it_is_from(name):
    meta = meta_of(Gears.model_fields[name])
    assert meta.default
    assert meta.because
    assert meta.means.endswith(".")


@pytest.mark.parametrize("ring", rows_of(rows.RingGear))
def test_every_ring_class_resolves_and_samples(ring):
    build = pair(ring=ring)
    found = leaves(build.meshing)
    assert all(e.source or not isinstance(e, Estimate) for e in found.values())
    drawn = Samples(1, 50)
    for path, leaf in found.items():
        if isinstance(leaf, Estimate):
            assert np.isfinite(drawn.fill(leaf)).all(), path
    _, x = plain(build)
    h = x.holding
    assert 0.03 < h.head.bore < h.head.outside < 0.14
    assert h.tail.outside < h.head.outside
    assert h.span > 0.5 * (h.head.width + h.tail.width)
    assert 1e3 < h.pinion_preload < 10e3


def test_the_load_path_reads_none_of_it_but_the_sizes_of_teeth():
    stated = 'pinion_shim = "0.003 in"\ncutter_radius = "3.6 in"\ncaps = "billet"\n'
    build = pair(stated)
    assert {p for p in leaves(build.machine) if p.startswith("gears.")} == {"gears.cutter_radius"}
    m, x = plain(build)
    assert m.gears.cutter_radius == pytest.approx(3.6 * 0.0254)
    assert x.setting.pinion_shim == pytest.approx(0.003 * 0.0254)
    assert x.iron.billet_caps
    assert not x.iron.loaded_cover


def test_backlash_is_the_one_of_the_launch():
    build = pair(axle='backlash = "0.009 in"\n')
    _, x = plain(build)
    assert x.setting.backlash == pytest.approx(0.009 * 0.0254)
    assert "axle.backlash" in leaves(build.launching)


def test_a_named_bearing_is_taken_by_its_size():
    _, x = plain(pair('head_bearing = "32210"\n'))
    assert x.holding.head.name == "32210"
    assert x.holding.head.bore == pytest.approx(0.050)
    assert x.holding.tail.name == "by ring diameter"


@pytest.mark.parametrize(
    ("name", "why"), [("6209", "tapered"), ("no such", "not in the catalogue")]
)
def test_a_bearing_that_will_not_do_is_refused_with_its_line(name, why):
    build = pair(f'tail_bearing = "{name}"\n')
    with pytest.raises(BuildError) as caught:
        _ = build.meshing
    (problem,) = caught.value.problems
    assert (problem.key, problem.line) == ("gears.tail_bearing", 7)
    assert why in problem.message


def test_preload_follows_condition_and_reading():
    used, new = (plain(pair(axle=f'condition = "{c}"\n'))[1] for c in ("used", "new"))
    assert new.holding.pinion_preload > 1.5 * used.holding.pinion_preload
    _, read = plain(pair('pinion_preload = "11.5 lbf*in"\n'))
    assert read.holding.pinion_preload == pytest.approx(used.holding.pinion_preload)


def test_a_known_thrust_goes_before_the_turning_torque():
    _, x = plain(pair('pinion_preload = "11.5 lbf*in"\npinion_thrust = "6 kN"\n'))
    assert x.holding.pinion_preload == pytest.approx(6e3)


def test_rated_torque_is_by_size_or_as_stated():
    _, by_size = plain(pair())
    # (1000 D/K)³ with D = 8.8 in and K = 14.5, handbook proportion from memory, worked by hand
    assert by_size.rated_torque == pytest.approx((223.52 / 14.5) ** 3, rel=1e-9)
    _, stated = plain(pair('rated_torque = "2000 lbf*ft"\n'))
    assert stated.rated_torque == pytest.approx(2000 * 1.3558179483)


def test_teeth_of_even_depth_are_told_and_contradictions_refused():
    build = pair('depth = "even"\n')
    assert not plain(build)[1].tapered
    assert any("even depth" in c for c in build.cautions)
    with pytest.raises(BuildError, match="even depth"):
        pair('depth = "even"\n', axle='gear_cutting = "face-milled"\n')
