"""Slips that say *this page is wrong*, read back and listed by job and step."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchleaf.cli import main
from benchleaf.workbooks.slips import HEAD, WORDS, Slip, slips_of

SHOP = Path(__file__).parents[1] / "shop"
GOOD = f"""\
{HEAD}
VG-0010; drill; revision 2; a number is wrong
vg-0010 ;drill; Revision 2;A number is wrong

VG-0010; clamp; revision 1; {WORDS[0]}
VG-0010; whole page; revision 2; something else is wrong
VG-0010; ream; revision 2; the picture does not match
VG-0999; x; revision 1; a number is wrong
"""
LISTED = """\
VG-0010  Drill the guide hole in a rack plate
  whole page
    something else is wrong  (revision 2)
  step 1, Clamp the plate
    a hazard is missing  (revision 1, now revision 2)
  step 2, Drill the hole
    a number is wrong  (revision 2)  2 times
  step 'ream', which is not there now
    the picture does not match  (revision 2)
VG-0999  no job of this content
  step 'x', which is not there now
    a number is wrong  (revision 1)
6 slips
"""


def test_slips_are_listed_by_job_and_step(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "slips.txt"
    file.write_text(GOOD, encoding="utf-8")
    assert main(["slips", str(file), "--content", str(SHOP)]) == 0
    assert capsys.readouterr().out == LISTED


def test_each_line_that_is_no_slip_is_told_and_the_others_are_listed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "slips.txt"
    file.write_text(
        "VG-0010; drill\nVG-0010; drill; revision 2; a numbr is wrong\n" + GOOD, "utf-8"
    )
    assert main(["slips", str(file), "--content", str(SHOP)]) == 1
    said = capsys.readouterr().out
    assert (
        "slips.txt:1:1: error R124 'VG-0010; drill' is no slip: 2 parts, and a slip has 4" in said
    )
    assert "slips.txt:2:28: error R124 no slip says 'a numbr is wrong'" in said
    assert "did you mean 'a number is wrong'?" in said
    assert said.endswith(LISTED)
    assert main(["slips", str(file), "--content", str(tmp_path / "none")]) == 2


def test_a_slip_holds_four_things_and_none_about_a_person() -> None:
    assert list(Slip.__slots__) == ["job", "step", "revision", "what"]
    slips, findings = slips_of("TR-1; a; draft of TR-1; I cannot do this as written; Jo\n", "f")
    assert not slips
    assert len(findings) == 1
