"""What the audit finds in small drawings written by the DXF library itself, R12 to R2018, and in plain text."""

import io
import math
from contextlib import suppress

import ezdxf
import pytest
from dxf_files_of import one_file
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.dxf_audit.audit import UnreadableError, audit_dxf
from edgewright.dxf_audit.units import unit_evidence

SQUARE = [(0, 0), (100, 0), (100, 100), (0, 100)]
#: tan(90° / 4), the bulge of a quarter circle
QUARTER = math.sqrt(2) - 1


def drawn(*add, version="R2010", units=4, metric=1) -> bytes:
    """Bytes of a drawing in millimetres that each function adds something to."""
    document = ezdxf.new(version, units=units)
    document.header["$MEASUREMENT"] = metric
    for one in add:
        one(document.modelspace())
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode("utf-8")


def outline(points, close=True, layer="PART", form="xy"):
    return lambda space: space.add_lwpolyline(points, format=form, close=close, dxfattribs={"layer": layer})


def line(*ends, layer="PART"):
    return lambda space: space.add_line(*ends, dxfattribs={"layer": layer})


def kinds(data: bytes, name="part.dxf", **more) -> list[str]:
    return sorted({fault.kind for fault in audit_dxf(data, name, **more).faults})


def messages(data: bytes) -> list[str]:
    return [fault.message for fault in audit_dxf(data, "part.dxf").faults]


@pytest.mark.parametrize("version", ["R2000", "R2004", "R2007", "R2010", "R2013", "R2018"])
def test_a_sound_square_of_any_version_passes(version):
    found = audit_dxf(drawn(outline(SQUARE), version=version), "part.dxf")
    assert (found.faults, found.version, found.units.unit) == ((), version, "mm")
    [layer] = found.layers
    assert (layer.closed, layer.open, layer.box) == (1, 0, (0, 0, 100, 100))
    assert (layer.area, layer.length) == pytest.approx((10_000, 400))


def test_a_binary_file_is_read_as_well(tmp_path):
    document = ezdxf.new("R2010", units=4)
    document.header["$MEASUREMENT"] = 1
    document.modelspace().add_lwpolyline(SQUARE, close=True)
    document.saveas(tmp_path / "b.dxf", fmt="bin")
    found = audit_dxf((tmp_path / "b.dxf").read_bytes(), "b.dxf")
    assert found.faults == ()
    assert found.layers[0].area == pytest.approx(10_000)
    with pytest.raises(UnreadableError, match=r"damaged binary|cut off"):
        audit_dxf((tmp_path / "b.dxf").read_bytes()[:3000], "b.dxf")


def test_r12_names_no_unit_unless_it_is_put_in():
    # R12 knows neither variable, and the library drops $INSUNITS
    data = drawn(*(line(a, b) for a, b in zip(SQUARE, [*SQUARE[1:], SQUARE[0]], strict=True)), version="R12")
    assert kinds(data) == ["units"]
    assert len(messages(data)) == 2
    assert "$INSUNITS is missing" in messages(data)[0]


@pytest.mark.parametrize(
    ("units", "metric", "says"),
    [
        (1, 1, "contradicts itself"),
        (4, 0, "contradicts itself"),
        (0, 1, "$INSUNITS is 0"),
        (9, 0, "few readers know"),
    ],
)
def test_headers_that_contradict_or_say_nothing(units, metric, says):
    [message] = messages(drawn(outline(SQUARE), units=units, metric=metric))
    assert says in message


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("1 drawing unit = 1 inch", "the unit note says in"),
        ("All dimensions in inches", "the unit note says in"),
        ("units: MM", ""),
        ("made in one piece", ""),
    ],
)
def test_a_note_may_contradict_the_header(words, says):
    def note(space):
        space.add_text(words, height=5, dxfattribs={"layer": "NOTES"})

    found = messages(drawn(outline(SQUARE), note))
    assert bool(found) == bool(says)
    assert all(says in message for message in found)


@pytest.mark.parametrize(("length", "fine"), [(100, True), (101, False), (25.4, False)])
def test_a_scale_bar_is_measured_against_its_own_text(length, fine):
    def bar(space):
        space.add_line((0, -20), (length, -20), dxfattribs={"layer": "NOTES"})
        space.add_text("this bar is 100 mm long", height=5, dxfattribs={"layer": "NOTES"}).set_placement(
            (0, -30)
        )

    found = messages(drawn(outline(SQUARE), bar))
    assert found == (
        [] if fine else [f"the scale bar says 100 mm (100 mm) and measures {length:g} mm, {length:g} mm"]
    )


def test_lines_and_arcs_are_chained_in_any_order_and_direction():
    ends = [((0, 0), (90, 0)), ((100, 10), (100, 100)), ((0, 100), (100, 100)), ((0, 100), (0, 0))]

    def corner(space):
        space.add_arc((90, 10), 10, 270, 360, dxfattribs={"layer": "PART"})

    order = [line(*ends[2]), line(*ends[0][::-1]), corner, line(*ends[3]), line(*ends[1])]
    found = audit_dxf(drawn(*order), "part.dxf")
    assert found.faults == ()
    # a square of 100 less the corner, (4 - pi) 10^2 / 4
    assert found.layers[0].area == pytest.approx(10_000 - (4 - math.pi) * 25)
    assert (found.layers[0].closed, found.layers[0].open) == (1, 0)


@pytest.mark.parametrize(("gap", "closed"), [(0.0009, True), (0.0012, False), (0.3, False), (50, False)])
def test_ends_within_a_micrometre_are_one_point_and_wider_gaps_are_told(gap, closed):
    sides = [line(a, b) for a, b in zip(SQUARE, [*SQUARE[1:], (0, gap)], strict=True)]
    data = drawn(*sides)
    assert kinds(data) == ([] if closed else ["open"])
    if not closed:
        [message] = messages(data)
        assert f"is open by {gap:g} mm between " in message


def test_single_straight_lines_are_saw_lines_and_may_cross():
    data = drawn(line((0, 0), (100, 0), layer="RIP"), line((50, -50), (50, 50), layer="RIP"))
    found = audit_dxf(data, "part.dxf")
    assert found.faults == ()
    assert found.notes == ("RIP: 2 single lines, taken for straight saw cuts",)
    assert kinds(drawn(line((0, 0), (100, 0)), line((50, 0), (150, 0)))) == ["double"]


def test_an_outline_that_gapes_at_every_corner_is_not_taken_for_saw_lines():
    # each side of the square is 0.3 mm short at both ends: no two lines meet
    short = [
        line((0.3, 0), (99.7, 0)),
        line((100, 0.3), (100, 99.7)),
        line((99.7, 100), (0.3, 100)),
        line((0, 99.7), (0, 0.3)),
    ]
    assert messages(drawn(*short))[0].startswith("an outline on PART is open by 0.4243 mm between ")
    # both edges of a kerf end side by side
    kerf = [line((0, 0), (100, 0)), line((0, 1.5), (100, 1.5))]
    assert kinds(drawn(*kerf)) == []


def test_other_lines_beside_the_scale_bar_are_not_taken_for_it():
    def bar(space):
        for x, length in ((0, 100), (-5, 152.4)):
            space.add_line((x, -20 + x), (x + length, -20 + x), dxfattribs={"layer": "NOTES"})
        space.add_text("this bar is 100 mm long", height=5, dxfattribs={"layer": "NOTES"}).set_placement(
            (0, -30)
        )

    assert messages(drawn(outline(SQUARE), bar)) == []


@pytest.mark.parametrize(
    ("add", "kind"),
    [
        (outline([(0, 0), (100, 100), (100, 0), (0, 100)]), "crossing"),
        (outline([(0, 0), (100, 0), (100, 100), (50, 0), (0, 100)]), "crossing"),
        (outline([*SQUARE, (0, 0)]), "repeated vertex"),
        (outline([*SQUARE, (0, 0)], close=False), "repeated vertex"),
        (outline([(0, 0), (100, 0), (100, 0), (100, 100)]), "no length"),
        (lambda space: space.add_line((5, 5), (5, 5), dxfattribs={"layer": "PART"}), "no length"),
        (lambda space: space.add_lwpolyline(SQUARE, close=True, dxfattribs={"elevation": 3}), "height"),
        (lambda space: space.add_line((0, 0, 1), (9, 0, 0)), "height"),
        (lambda space: space.add_circle((0, 0), 5, dxfattribs={"extrusion": (0, 1, 0)}), "height"),
        (lambda space: space.add_spline([(0, 0), (50, 20), (80, 0)], dxfattribs={"layer": "PART"}), "curve"),
        (lambda space: space.add_ellipse((0, 0), (50, 0), 0.5, dxfattribs={"layer": "PART"}), "curve"),
        (lambda space: space.add_text("A", dxfattribs={"layer": "PART"}), "text on a cut layer"),
        (lambda space: space.add_hatch(dxfattribs={"layer": "PART"}), "text on a cut layer"),
        (
            lambda space: space.add_3dface([(0, 0), (1, 0), (1, 1)], dxfattribs={"layer": "PART"}),
            "other kind",
        ),
        (outline(SQUARE), "double"),
        (outline([(100, 20), (100, 80), (150, 80), (150, 20)]), "double"),
        (outline([(50, 50), (150, 50), (150, 60), (50, 60)]), "crossing"),
    ],
)
def test_each_fault_is_named(add, kind):
    assert kind in kinds(drawn(outline(SQUARE), add))
    assert kinds(drawn(outline(SQUARE))) == []


def test_a_block_is_to_be_exploded():
    document = ezdxf.new("R2010", units=4)
    document.header["$MEASUREMENT"] = 1
    document.blocks.new("LEG").add_circle((0, 0), 5)
    document.modelspace().add_blockref("LEG", (0, 0), dxfattribs={"layer": "PART"})
    document.modelspace().add_lwpolyline(SQUARE, close=True, dxfattribs={"layer": "PART"})
    stream = io.StringIO()
    document.write(stream)
    [fault] = audit_dxf(stream.getvalue().encode(), "a.dxf").faults
    assert fault.kind == "block"
    assert "the block LEG" in fault.message


def test_parts_may_touch_and_lie_within_each_other():
    hole = outline([(40, 40), (60, 40), (60, 60), (40, 60)])

    def circle(space):
        # touches the square from within at one point
        space.add_circle((80, 90), 10, dxfattribs={"layer": "PART"})

    corner = outline([(100, 50), (130, 20), (160, 50)])
    assert kinds(drawn(outline(SQUARE), hole, circle, corner)) == []


def rounded(*signs) -> list[tuple[float, float, float]]:
    """Square of 100 with corners of radius 10 whose bulges have the signs given."""
    places = [(10, 0), (90, 0), (100, 10), (100, 90), (90, 100), (10, 100), (0, 90), (0, 10)]
    bends = [0, signs[0], 0, signs[1], 0, signs[2], 0, signs[3]]
    return [(x, y, bend * QUARTER) for (x, y), bend in zip(places, bends, strict=True)]


@pytest.mark.parametrize(
    ("signs", "count"), [((1, 1, 1, 1), 0), ((1, 1, -1, 1), 1), ((-1, 1, -1, 1), 2), ((-1, -1, -1, -1), 0)]
)
def test_a_corner_that_was_flipped_is_told_and_hollow_corners_alike_are_left_in_peace(signs, count):
    found = audit_dxf(drawn(outline(rounded(*signs), form="xyb")), "part.dxf").faults
    assert [fault.kind for fault in found] == ["flipped arc"] * count
    if count == 1:
        # the middle of the chord of the north-west corner
        assert "the arc at 5, 95 bends the wrong way" in found[0].message


def test_one_of_many_equal_bows_that_bends_against_the_others():
    # a hexagon with bowed sides, no arc of which runs on into the next
    points = [(100 * math.cos(n * math.pi / 3), 100 * math.sin(n * math.pi / 3), 0.1) for n in range(6)]
    assert kinds(drawn(outline(points, form="xyb"))) == []
    points[2] = (*points[2][:2], -0.1)
    assert kinds(drawn(outline(points, form="xyb"))) == ["flipped arc"]


def test_layers_for_notes_and_layers_that_are_off_are_not_cut():
    def off(space):
        space.doc.layers.add("OLD").off()
        space.add_line((0, 0), (50, 50), dxfattribs={"layer": "OLD"})
        space.add_text("x", dxfattribs={"layer": "DIMS AND NOTES"})

    data = drawn(outline(SQUARE), off)
    assert kinds(data) == []
    assert kinds(data, cut=("old", "part")) == []  # one line alone is a saw line
    assert kinds(data, cut=("PART", "none such")) == ["empty"]


def test_the_box_in_the_header_is_compared():
    data = drawn(outline(SQUARE), lambda space: space.doc.header.__setitem__("$EXTMIN", (0, 0, 0)))
    data = data.replace(b"$EXTMAX\n 10\n-1e+20", b"$EXTMAX\n 10\n2540.0")
    assert kinds(data) == ["extents"]


def test_nothing_in_the_model_space_is_a_fault():
    assert kinds(drawn()) == ["empty"]


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\n\n\n",
        b"AC1015" + bytes(100),
        b"%PDF-1.7\n1 0 obj\n",
        b"0\nSECTION\n",
        b"  0\nSECTION\n  2\nENTITIES\n  0\nEOF\n",
        b"  0\nSECTION\n  2\nHEADER\n  0\nENDSEC\n  0\nEOF\n",
        b"  0\nEOF\n",
        bytes(range(256)) * 4,
        b"0\nSECTION\n2\nENTITIES\n0\nLINE\nacht\n0\n",
    ],
)
def test_what_is_no_whole_dxf_file_is_refused_with_one_sentence(data):
    with pytest.raises(UnreadableError) as told:
        audit_dxf(data, "thing.dxf")
    assert str(told.value).startswith("thing.dxf ")
    assert "\n" not in str(told.value)


def test_line_ends_of_any_system_are_read():
    data = drawn(outline(SQUARE)).replace(b"\r\n", b"\n")
    for end in (b"\r\n", b"\r"):
        assert kinds(data.replace(b"\n", end)) == []
    assert kinds(b"\xef\xbb\xbf" + data) == []


def test_many_faults_of_a_kind_are_counted_not_listed():
    data = drawn(*(lambda space, n=n: space.add_text("x", dxfattribs={"layer": "PART"}) for n in range(60)))
    faults = [fault for fault in audit_dxf(data, "a.dxf").faults if fault.kind == "text on a cut layer"]
    assert len(faults) == 21
    assert faults[-1].message == "and 40 more like those before"


def test_too_much_is_refused_and_a_tangle_ends():
    many = drawn(lambda space: [space.add_lwpolyline([(n % 250, n // 250) for n in range(50_002)])])
    with pytest.raises(UnreadableError, match="more than 50000 lines and arcs"):
        audit_dxf(many, "a.dxf")
    # all of 700 lines cross all others: more pairs than are looked at
    tangle = [(100 * math.cos(2.4 * n), 100 * math.sin(2.4 * n)) for n in range(700)]
    found = audit_dxf(drawn(outline(tangle)), "a.dxf")
    assert "crossing" in {fault.kind for fault in found.faults}
    assert found.notes == (
        "PART: too many lines lie close together; crossings were looked for in 200000 pairs",
    )


def test_what_says_the_unit_is_listed():
    from edgewright.dxf_audit.drawing import read_drawing

    drawing = read_drawing(drawn(outline(SQUARE)), "a")
    assert unit_evidence(drawing, (), "leg_x1_mm.dxf").said == (
        ("$INSUNITS 4", "mm"),
        ("$MEASUREMENT 1", "metric"),
        ("file name", "mm"),
    )


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(st.data())
def test_no_damage_makes_it_crash(data):
    sound = one_file("narrow_one_side", "in", "R2000", "top")[1]
    way = data.draw(st.sampled_from(["bytes", "lines", "figures", "cut"]))
    if way == "cut":
        broken = sound[: data.draw(st.integers(0, len(sound)))]
    elif way == "bytes":
        broken = bytearray(sound)
        for _ in range(data.draw(st.integers(1, 20))):
            broken[data.draw(st.integers(0, len(sound) - 1))] = data.draw(st.integers(0, 255))
    else:
        lines = sound.split(b"\n")
        start = lines.index(b"ENTITIES")
        for _ in range(data.draw(st.integers(1, 6))):
            at = data.draw(st.integers(start, len(lines) - 3))
            if way == "lines":
                del lines[at]
            else:
                lines[at] = data.draw(
                    st.sampled_from([b"nan", b"inf", b"-1e300", b"1e400", b"0", b"", b"5000", b"x"])
                )
        broken = b"\n".join(lines)
    with suppress(UnreadableError):
        audit_dxf(bytes(broken), "a.dxf")
