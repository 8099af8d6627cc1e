"""Codes of reading: a file, its YAML, its place."""

from __future__ import annotations

from benchleaf.diagnose import Code

CODES = (
    Code(
        "R101",
        "A file cannot be read",
        why="A breakdown that is not read is a page that is missing.",
        instead="Check that the file exists, is a plain file and may be read.",
    ),
    Code(
        "R102",
        "A file is not UTF-8",
        why="A wrong encoding turns ° and ± into other signs, and a figure into another figure.",
        instead="Save the file as UTF-8 in the editor.",
    ),
    Code(
        "R103",
        "A file is too long",
        why="A breakdown of such length cannot be taught, and is most likely another file.",
        instead="Split the job, or move the file out of content/.",
    ),
    Code(
        "R104",
        "Lists are nested too deep",
        why="No record here needs such depth; it is most likely a slip of indentation.",
        instead="Check the indentation near the place named.",
    ),
    Code(
        "R105",
        "A merge conflict is left in a file",
        why="Half of each version would be published as one job.",
        instead="Choose one side and take the marker lines out.",
    ),
    Code(
        "R106",
        "A tab stands in a file",
        why="YAML counts spaces; a tab moves a line to another level without showing it.",
        instead="Indent with two spaces.",
    ),
    Code(
        "R107",
        "The YAML cannot be understood",
        why="Everything after the slip is lost.",
        instead="Look at the place named and the line above it.",
    ),
    Code(
        "R108",
        "A key is written twice",
        why="Plain YAML keeps the last one silently: a key point would vanish.",
        instead="Keep one, or join the two.",
    ),
    Code(
        "R109",
        "An anchor, alias or merge key is used",
        why="A reviewer must see what a step says where it stands, not look it up elsewhere.",
        instead="Write the text out; share a record (hazard, tool, machine) by its id.",
    ),
    Code(
        "R110",
        "A file is not one record",
        why="One file holds one record, so that its history is its own.",
        instead="Start with `key: value` lines, and keep one document a file.",
    ),
    Code(
        "R111",
        "A YAML tag is used",
        why="Tags change a value's meaning in a way nobody reading the page can see.",
        instead="Take the tag out; the field gives the value its meaning.",
    ),
    Code(
        "R112",
        "A key has no value",
        why="An empty value says nothing; often a bare # made the rest of the line a comment.",
        instead="Write the value, quoted if it starts with #. A key that may be left out can go.",
    ),
    Code(
        "R113",
        "A file or folder will not be read",
        why="What stands there looks published and is not.",
        instead="Name the file .yml and put it in the folder of its kind.",
    ),
    Code(
        "R114",
        "A text is cut at a #",
        why="The rest of the line is taken for a comment, and half a key point is published.",
        instead="Quote the text; or, for a comment, write a space after the #.",
    ),
    Code(
        "R115",
        "A file is not put in order",
        why="Nothing is rewritten unless every value and every comment is sure to stay.",
        instead="Put comments on lines of their own, then run `benchleaf tidy` again.",
    ),
    Code(
        "R116",
        "A spreadsheet cannot be taken in as it is",
        why="A value that is guessed from a cell might be another one at the machine.",
        instead="Correct the cell that is named, and run `benchleaf take-in` again.",
    ),
    Code(
        "R117",
        "What a command wrote half cannot be finished",
        why="The registers belong together: some of them would be old, and some new.",
        instead="Make room on the disk, or give yourself the right to write, and run it again.",
    ),
    Code(
        "R118",
        "A file does not belong where it lies",
        why=(
            "All that lies below pages/ is published: people's data too, or a page that runs"
            " something, or a file from another place of the computer."
        ),
        instead="Put pictures, PDF and text there, and nothing else; everything else lies outside.",
    ),
    Code(
        "R119",
        "A name does not work on every system",
        why="The manual is copied to screens of many kinds: there the file would be missing.",
        instead="Use small letters, digits and hyphens, and no name twice.",
    ),
    Code(
        "R120",
        "A drawing or a sheet does more than show itself",
        why="Opened at the kiosk it would run a program or ask a network.",
        instead="Save it again as a plain drawing. A data sheet is a PDF, a text or a picture.",
    ),
    Code(
        "R121",
        "There is too much in one place",
        why="It is hours of reading for the tool, and came there by mistake or by malice.",
        instead="Look where it comes from, and take it out.",
    ),
    Code(
        "R122",
        "The day in the environment cannot be read",
        why="Every page says when its copy was made, and reviews are looked at on that day.",
        instead="Set SOURCE_DATE_EPOCH to seconds since 1970, or take it out of the environment.",
    ),
    Code(
        "R123",
        "A line at the top of a page is taken for a setting",
        why="It is not shown: a warning that stands there is read by nobody.",
        instead="Begin the page with its heading. Only title and description are settings.",
    ),
    Code(
        "R124",
        "A line is no slip",
        why="A slip that is passed over is a fault of a page that nobody looks at.",
        instead="Write job, step, revision and ready words, with semicolons between them.",
    ),
    Code(
        "R125",
        "The table of layouts is not used",
        why="Without it a step that is too full for a screen scrolls, and its end is overlooked.",
        instead="Build the manual, run `benchleaf layouts`, and build again. Edit nothing by hand.",
    ),
)
