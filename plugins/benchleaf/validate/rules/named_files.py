"""V403: every picture and sheet that a record names is there and can be read."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Place, Sample, Severity, suggestion
from benchleaf.model import Record, Shop, files
from benchleaf.read import PICTURE_TYPES

from ..places import Places
from ..rule import RecordRule

CODE = Code(
    "V403",
    "A file that a record names is missing or cannot be read",
    why="The page would show an empty frame where the learner needs the picture.",
    instead="Put the file into its folder under content/, or correct the name.",
    bad=(
        Sample(
            """
            # A picture whose name is mistyped.
            - file: jobs/vg-0010.yml
              find: "file: clamped-plate.svg"
              put: "file: clamped-plates.svg"
            """,
            """
            content/jobs/vg-0010.yml:66:13: error V403 'clamped-plates.svg' below
                    content/pictures/ is not there, or is no picture
                did you mean 'clamped-plate.svg'?
                in pictures: clamped-plate.svg
                pictures end in .svg, .png, .jpg, .jpeg, .gif, .webp
            """,
        ),
        Sample(
            """
            # A safety data sheet that is not there.
            - file: fluids/soluble-oil.yml
              find: "safety_data_sheet: In the green folder beside the wash basin."
              put: |-
                safety_data_sheet: In the green folder beside the wash basin.
                safety_data_sheet_file: soluble-oil.pdf
            """,
            """
            content/fluids/soluble-oil.yml:7:25: error V403 'soluble-oil.pdf' below
                    content/sheets/ is not there
                in sheets: nothing yet
            """,
        ),
        Sample(
            """
            # A picture that is none.
            - file: pictures/clamped-plate.svg
              text: |
                not drawn yet
            """,
            """
            content/jobs/vg-0010.yml:66:13: error V403 'clamped-plate.svg' below
                    content/pictures/ cannot be read as a picture
                save it again from the program that made it
                an SVG begins with <svg xmlns="http://www.w3.org/2000/svg" width="" height="">
            """,
        ),
    ),
    good="""
        # A picture that is there.
        - file: pictures/clamped-plate.svg
          text: |
            <svg xmlns="http://www.w3.org/2000/svg" width="10" height="10"/>
    """,
)


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding for each file that is missing, and for each picture without a size."""
    for path, folder, name in files(record):
        problem = _problem(shop, folder, name)
        if problem:
            yield _finding(shop, folder, name, problem, places.of(kind, record_id, path))


def _problem(shop: Shop, folder: str, name: str) -> str | None:
    if folder == "sheets":
        return None if name in shop.sheets else "is not there"
    if name not in shop.pictures:
        return "is not there, or is no picture"
    size = shop.pictures[name]
    if size.is_too_large:
        return f"is {size.width} by {size.height} pixels: save it with at most 100 million"
    return None if size.width else "cannot be read as a picture"


def _finding(shop: Shop, folder: str, name: str, problem: str, place: Place) -> Finding:
    known = shop.sheets if folder == "sheets" else shop.pictures
    help_lines = suggestion(name, known, what=f"in {folder}")
    if name in known:
        help_lines = (
            "save it again from the program that made it",
            'an SVG begins with <svg xmlns="http://www.w3.org/2000/svg" width="" height="">',
        )
    elif folder == "pictures":
        help_lines += (f"pictures end in {', '.join(PICTURE_TYPES)}",)
        if name.lower().endswith(_FROM_A_PHONE):
            help_lines += ("set the phone to save JPEG, or save this photograph as JPEG",)
    return Finding(
        CODE.id,
        Severity.ERROR,
        place,
        f"'{name}' below content/{folder}/ {problem}",
        help_lines,
    )


_FROM_A_PHONE = (".heic", ".heif")

RULE = RecordRule(check, (CODE,))
