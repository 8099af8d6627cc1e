"""Each rule that spans records: what it finds, where it points, and what it leaves alone."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf.diagnose import Code, Finding, Place, Severity
from benchleaf.validate import JOB_RULES, RECORD_RULES, SHOP_RULES, rules
from benchleaf.validate.rule import Rule

Found = Callable[..., tuple[Finding, ...]]
Edited = Callable[..., dict[str, str]]
J1, J2 = "jobs/vg-0010.yml", "jobs/vg-0020.yml"
MACHINE = "machines/bench-drill.yml"


def codes(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.code for finding in findings]


def line_of(files: dict[str, str], name: str, text: str) -> int:
    return files[name].split("\n").index(text) + 1


def test_there_is_a_rule_a_module() -> None:
    every: tuple[Rule, ...] = (*RECORD_RULES, *JOB_RULES, *SHOP_RULES)
    modules = [rule.check.__module__.rsplit(".", 1)[1] for rule in every]
    assert len(set(modules)) == len(modules)
    folder = Path(rules.__file__).parent
    helpers = {"__init__", "wording", "hands_words"}
    assert set(modules) == {path.stem for path in folder.glob("*.py")} - helpers


def test_the_rule_that_looks_at_what_others_needed_comes_last() -> None:
    assert [rule.check.__module__.rsplit(".", 1)[1] for rule in JOB_RULES if rule.is_last] == [
        "acceptances"
    ]
    assert JOB_RULES[-1].is_last


@pytest.mark.parametrize("rule", rules.RULES, ids=lambda rule: rule.check.__module__)
def test_a_rule_opens_with_its_codes_and_declares_its_own(rule: Rule) -> None:
    module = sys.modules[rule.check.__module__]
    told = (module.__doc__ or "").split(".")[0]
    own = [value for value in vars(module).values() if isinstance(value, Code)]
    assert set(own) <= set(rule.codes)
    assert [code.id for code in own if code.id not in told] == []


# L301, fields


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        (J1, "machine: bench-drill", "machine: lathe"),
        (J1, "fluid: soluble-oil", "fluid: water"),
        (
            J1,
            "by the drill.\n        kind: can injure\n    hazards:\n      - work-turns",
            "by the drill.\n        kind: can injure\n    hazards:\n      - noise",
        ),
        (J1, "        gauge: plug-gauge-8", "        gauge: calliper"),
        (J1, "operation_after: VG-0020", "operation_after: VG-0030"),
        (J2, "know_first:\n  - VG-0010", "know_first:\n  - VG-0001"),
        (MACHINE, "hazards:\n  - work-turns", "hazards:\n  - noise"),
        ("terms.yml", "      - burr\n", "      - burrs\n"),
    ],
)
def test_l301_a_reference_that_points_nowhere(
    found: Found, edited: Edited, name: str, old: str, new: str
) -> None:
    files = edited(name, old, new)
    finding = next(each for each in found(files) if each.code == "L301")
    assert finding.place.file == f"content/{name}"
    wrong = new.split(":")[-1].split("-", 1)[-1] if "\n" in new else new.split(": ")[-1]
    line = files[name].split("\n")[finding.place.line - 1]
    assert line[finding.place.column - 1 :].lower() == wrong.strip().split("\n")[-1].lower()


def test_l301_says_when_the_id_is_of_another_kind(found: Found, edited: Edited) -> None:
    finding = next(iter(found(edited(J1, "fluid: soluble-oil", "fluid: drill-8"))))
    assert finding.help[0] == "'drill-8' is one of the tools"


# L301, running text


@pytest.mark.parametrize(
    "link",
    ["[[VG-0030]]", "[[tool:saw]]", "[[terms:quil]]", "[[VG-0020#nowhere]]", "[[gauge:x]]", "[[]]",
     "[[two words]]", "[[VG-0020#]]"],
)  # fmt: skip
@pytest.mark.parametrize(
    ("name", "old"),
    [
        (J1, "Push the plate down on both parallels."),
        (J2, "Go over it once more."),
        (MACHINE, "Press the green button, with the chuck guard down."),
        ("terms.yml", "The sharp edge a drill leaves round a hole."),
        ("manual.yml", "Nobody minds being asked twice."),
    ],
)
def test_l301_a_link_in_text_that_leads_nowhere(
    found: Found, edited: Edited, name: str, old: str, link: str
) -> None:
    (finding,) = found(edited(name, old, f"See {link} first."))
    assert (finding.code, finding.place.file) == ("L301", f"content/{name}")


@pytest.mark.parametrize(
    "link",
    ["[[VG-0020]]", "[[vg-0020#Deburr]]", "[[job:VG-0010#guide-hole]]", "[[term:burr]]",
     "[[machines:bench-drill]]", "[[ fluid :soluble-oil ]]", "[not a link]", "[[open"],
)  # fmt: skip
def test_l301_a_link_that_leads_somewhere(found: Found, edited: Edited, link: str) -> None:
    assert found(edited(J1, "Push the plate down on both parallels.", f"See {link} first.")) == ()


@pytest.mark.parametrize("link", ["[[tool:drill-8#nowhere]]", "[[term:burr#nowhere]]"])
def test_l301_only_a_job_has_places_to_link_to(found: Found, edited: Edited, link: str) -> None:
    findings = found(edited(J1, "Push the plate down on both parallels.", f"See {link} first."))
    assert codes(findings) == ["L301"]


def test_l301_a_link_is_quoted_as_written_so_that_it_can_be_searched_for(
    found: Found, edited: Edited
) -> None:
    text = (
        "hand_on: >-\n  Stack the plates, one edge to the rail,\n  on the trolley of [[VG-0030]].\n"
    )
    (finding,) = found(
        edited(
            J2,
            "hand_on: Stack the plates, one edge to the rail, on the trolley for the fitters.\n",
            text,
        )
    )
    assert "[[VG-0030]]" in " ".join((finding.text, *finding.help))


def test_l301_a_link_on_a_free_page(found: Found, edited: Edited) -> None:
    (finding,) = found(edited("pages/safety.md", "Gloves off,", "Gloves off, [[term:glove]],"))
    assert (finding.code, finding.place) == ("L301", Place("content/pages/safety.md", 3, 13))


# L302


def test_l302_a_ring_is_told_once_whatever_its_length(
    found: Found, base_shop: dict[str, str], edited: Edited
) -> None:
    def job(number: str, needs: str) -> dict[str, str]:
        text = base_shop[J2].replace("id: VG-0020", f"id: {number}")
        text = text.replace("know_first:\n  - VG-0010", f"know_first:\n  - {needs}")
        return {f"jobs/{number.lower()}.yml": text.replace("operation_before: VG-0010\n", "")}

    ring = [job("VG-0030", "VG-0050"), job("VG-0040", "VG-0030"), job("VG-0050", "VG-0040")]
    rings = [each for each in found(*ring) if each.code == "L302"]
    assert len(rings) == 1
    assert rings[0].text.endswith("VG-0030 needs VG-0050 needs VG-0040 needs VG-0030")
    assert rings[0].place.file == "content/jobs/vg-0030.yml"
    assert [each.place.file for each in rings[0].related] == [
        "content/jobs/vg-0050.yml", "content/jobs/vg-0040.yml",
    ]  # fmt: skip


def test_l302_a_job_that_leads_into_a_ring_is_not_told_of_it(
    found: Found, base_shop: dict[str, str], edited: Edited
) -> None:
    third = base_shop[J2].replace("id: VG-0020", "id: VG-0030").replace(
        "operation_before: VG-0010\n", "")  # fmt: skip
    findings = found(
        edited(J1, "must_know:", "know_first:\n  - VG-0020\nmust_know:"),
        {"jobs/vg-0030.yml": third},
    )
    assert [each.place.file for each in findings if each.code == "L302"] == [
        "content/jobs/vg-0010.yml"
    ]


def test_l302_two_ways_to_one_job_are_no_ring(found: Found, base_shop: dict[str, str]) -> None:
    third = base_shop[J2].replace("id: VG-0020", "id: VG-0030").replace(
        "operation_before: VG-0010\n", "")  # fmt: skip
    third = third.replace("  - VG-0010", "  - VG-0010\n  - VG-0020")
    assert "L302" not in codes(found({"jobs/vg-0030.yml": third}))


# L303 within a job


def test_l303_points_at_the_later_of_the_two(found: Found, edited: Edited) -> None:
    files = edited(J1, "  - id: gauge\n", "  - id: guide-hole\n")
    finding = next(each for each in found(files) if each.code == "L303")
    assert finding.place.line == line_of(files, J1, "  - id: guide-hole")
    assert finding.related[0].place.line == line_of(files, J1, "    id: guide-hole")


@pytest.mark.parametrize("reserved", ["wear", "steps", "hazards", "revision", "top", "set-up"])
def test_l306_anchors_of_the_page_itself(found: Found, edited: Edited, reserved: str) -> None:
    findings = found(edited(J1, "  - id: gauge\n", f"  - id: {reserved}\n"))
    assert "L306" in codes(findings)


# L304


def test_l304_a_word_with_two_entries(found: Found, edited: Edited) -> None:
    findings = found(edited("terms.yml", "      - spindle sleeve", "      - RACK plate"))
    (finding,) = (each for each in findings if each.code == "L304")
    assert "'quill'" in finding.text
    assert "'rack-plate'" in finding.text


def test_l304_a_variant_that_repeats_its_own_word_names_one_entry(
    found: Found, edited: Edited
) -> None:
    (finding,) = found(edited("terms.yml", "      - spindle sleeve", "      - Quill"))
    assert finding.code == "L304"
    assert finding.text.count("'quill'") <= 1
    assert not any("one of the two" in line for line in finding.help)


def test_l304_a_variant_that_is_another_terms_plural(found: Found, edited: Edited) -> None:
    """Plurals are found in text by themselves, so they lead somewhere already."""
    findings = found(edited("terms.yml", "      - spindle sleeve", "      - burrs"))
    assert codes(findings) == ["L304"]


# L305


def test_l305_a_job_that_hands_on_to_itself(found: Found, edited: Edited) -> None:
    findings = found(
        edited(
            J1, "operation_after: VG-0020", "operation_after: VG-0010\noperation_before: VG-0010"
        ),
        edited(J2, "operation_before: VG-0010\n", ""),
    )
    assert "L305" in codes(findings)


@pytest.mark.parametrize("taken", ["after", "before"])
def test_l305_half_a_route(found: Found, edited: Edited, taken: str) -> None:
    lines = {
        "after": (J1, "operation_after: VG-0020\n"),
        "before": (J2, "operation_before: VG-0010\n"),
    }
    name, line = lines[taken]
    kept = J2 if taken == "after" else J1
    untold = {"after": ("leaves: drilled\n", ""), "before": ()}[taken]
    others = {} if taken == "after" else edited(J1, "leaves: drilled\n", "")
    findings = found(edited(name, line, "", *untold), others)  # no state tells the route
    ends = ("V524", "V410")  # the route ends there, too
    (finding,) = (one for one in findings if one.code not in ends)
    assert (finding.code, finding.place.file) == ("L305", f"content/{kept}")


# V401: jobs that hold copies of a part


COPY = (
    "part:\n  number: VG-R1\n  name: Rack plate\n  drawing: VG-R1 sheet 1\n"
    "  material: mild-steel\n  stock: sawn flat bar, 40 x 6 mm\n"
)
STATES = {
    J1: "part: vg-r1\ntakes: sawn\nleaves: drilled\n",
    J2: "part: vg-r1\ntakes: drilled\nleaves: deburred\n",
}


def copied(edited: Edited, *pairs: str) -> dict[str, str | None]:
    """Both jobs with a copy of the part and without its record; some of the second copy changed."""
    other = COPY
    for old, new in zip(pairs[::2], pairs[1::2], strict=True):
        assert other.count(old) >= 1
        other = other.replace(old, new)
    return {
        "parts/vg-r1.yml": None,
        **edited(J1, STATES[J1], COPY),
        **edited(J2, STATES[J2], other),
    }


@pytest.mark.parametrize(
    ("old", "new"),
    [("  name: Rack plate", "  name: Plate"), ("sheet 1", "sheet 2")],
)
def test_v401_jobs_that_disagree_about_a_part(
    found: Found, edited: Edited, old: str, new: str
) -> None:
    (finding,) = (one for one in found(copied(edited, old, new)) if one.code != "V406")
    assert (finding.code, finding.place.file) == ("V401", "content/jobs/vg-0020.yml")
    assert finding.related[0].place.file == "content/jobs/vg-0010.yml"


def test_v401_a_part_arrives_at_each_job_as_it_says(found: Found, edited: Edited) -> None:
    findings = found(copied(edited, "40 x 6 mm", "40 x 6 mm, drilled"))
    assert [(one.code, one.severity) for one in findings] == [("V406", Severity.NOTE)]


def test_v401_the_material_of_a_part(
    found: Found, edited: Edited, base_shop: dict[str, str]
) -> None:
    brass = base_shop["materials/mild-steel.yml"].replace("id: mild-steel", "id: brass")
    register = edited("addresses.yml", "  - materials/index.html\n",
                      "  - materials/index.html\n  - materials/brass.html\n")  # fmt: skip
    job = copied(edited, "  material: mild-steel", "  material: brass")
    assert codes(found({"materials/brass.yml": brass}, register, job)) == ["V406", "V401"]


def test_v401_a_part_number_is_one_whatever_its_capitals(found: Found, edited: Edited) -> None:
    findings = found(copied(edited, "number: VG-R1", "number: vg-r1", "sheet 1", "sheet 2"))
    assert set(codes(findings)) == {"V401", "V406"}


def test_v401_two_parts_may_differ(found: Found, edited: Edited) -> None:
    files = copied(edited, "number: VG-R1", "number: VG-R2", "sheet 1", "sheet 2", "x 6", "x 8")
    assert "V401" not in codes(found(files))


# V402


def test_v402_is_not_told_of_a_tool_that_there_is_not(found: Found, edited: Edited) -> None:
    findings = found(edited(J1, "    tool: drill-8", "    tool: drill-9"))
    assert codes(findings) == ["L301"]


def test_v402_is_told_of_a_tool_that_there_is(found: Found, edited: Edited) -> None:
    files = edited(J1, "tools:\n  - drill-8\n", "tools:\n")
    (finding,) = found(files)
    assert (finding.code, finding.severity) == ("V402", Severity.ERROR)
    assert finding.place.line == line_of(files, J1, "    tool: drill-8")


def test_v402_a_step_that_names_a_set_up_of_another_job(found: Found, edited: Edited) -> None:
    title = "title: Take off the burr on both sides\n"
    (finding,) = found(edited(J2, title, f"{title}    set_up: guide-hole\n"))
    assert finding.code == "V402"


# S501 to S509


def test_stops_are_told_at_the_field_they_come_from(found: Found, edited: Edited) -> None:
    files = edited(MACHINE, "quill_travel: 60 mm", "quill_travel: 12 mm")
    (finding,) = found(files)
    assert (finding.code, finding.severity) == ("S504", Severity.STOP)
    assert finding.text.startswith("do not run VG-0010 (guide-hole): ")
    assert finding.place == Place("content/jobs/vg-0010.yml", 48, 16)
    assert not finding.blocks_publishing
    assert finding.fails_check


def test_what_is_not_computed_is_a_warning_that_names_the_key(found: Found, edited: Edited) -> None:
    (finding,) = found(edited(MACHINE, "efficiency: 0.8\n", ""))
    assert (finding.code, finding.severity) == ("S507", Severity.WARNING)
    assert "efficiency in machines/bench-drill" in finding.text
    assert not finding.fails_check


def test_a_factor_that_the_holding_hangs_on_is_a_stop_too(found: Found, edited: Edited) -> None:
    findings = found(edited("materials/mild-steel.yml", "  kd_thrust: 24000\n", ""))
    assert sorted(one.code for one in findings) == ["S506", "S507"]
    for one in findings:
        assert "drilling.kd_thrust in materials/mild-steel" in one.text


@pytest.mark.parametrize(
    ("name", "old", "new", "code"),
    [
        (MACHINE, "  - 400 rpm\n  - 650 rpm\n  - 1000 rpm\n", "", "S501"),
        (J1, "  clamping:\n    force: 20 kN\n    friction: 0.15\n    arm: 40 mm\n    faces: 1\n"
             "    source: jaw force entered for the tests, not measured\n", "", "S506"),
    ],
)  # fmt: skip
def test_one_cause_is_one_finding(
    found: Found, edited: Edited, name: str, old: str, new: str, code: str
) -> None:
    assert codes(found(edited(name, old, new))) == [code]


def test_the_cure_of_an_unknown_torque_is_the_factor_and_not_the_clamp(
    found: Found, edited: Edited
) -> None:
    findings = found(edited("materials/mild-steel.yml", "  kd_torque: 24000\n", ""))
    stop = next(each for each in findings if each.code == "S506")
    assert any("kd_torque" in line for line in stop.help)
    assert not any("clamp force" in line for line in stop.help)


def test_cautions_are_warnings(found: Found, edited: Edited) -> None:
    strong = edited(
        "machines/bench-drill.yml",
        *("rated_thrust: 4 kN", "rated_thrust: 6 kN", " radius: 350 mm", " radius: 400 mm"),
    )
    (finding,) = found(edited(J1, "feed: 0.15 mm/rev", "feed: 0.2 mm/rev") | strong)
    assert (finding.code, finding.severity) == ("S509", Severity.WARNING)
