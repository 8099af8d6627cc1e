"""Codes of the built site, and of settings that cannot work from disk."""

from __future__ import annotations

from benchleaf.diagnose import Code

CODES = (
    Code(
        "P701",
        "A link leads to no file",
        why="The reader would meet the browser's own error page.",
        instead="Correct the link.",
    ),
    Code(
        "P702",
        "A link leads to no place on its page",
        why="The reader would land at the top and look for the step.",
        instead="Correct the part after #.",
    ),
    Code(
        "P703",
        "A page asks for something outside the disk",
        why="The kiosk has no network: the page would wait, or break.",
        instead="Name the source in plain text, or ship the file.",
    ),
    Code(
        "P704",
        "An anchor stands twice on a page",
        why="A link to it leads to the first one only.",
        instead="Give one of the two another id.",
    ),
    Code(
        "P705",
        "A published address is not in the built site",
        why="A link on a list or card in the shop leads nowhere.",
        instead="Look for an own template or a plugin that leaves the page or the anchor out.",
    ),
    Code(
        "P706",
        "A setting in mkdocs.yml cannot work from disk",
        why=(
            "Whoever set it expects it on the shop floor, and it does nothing there or asks "
            "a network."
        ),
        instead="Take the setting out; what the manual has instead stands in the guide.",
    ),
    Code(
        "P707",
        "A setting in mkdocs.yml contradicts where the content lies",
        why="Pages would be missing from the manual, or a build would write over the content.",
        instead="Write the line that is named.",
    ),
    Code(
        "P708",
        "A photograph cannot be read to its end",
        why="Half a picture, or none, would stand where the learner needs it.",
        instead="Save it again from the program that made it.",
    ),
    Code(
        "P709",
        "A file of a copy is not as it was built",
        why="A page may show another figure, or half a job, and look as ever.",
        instead="Copy the whole folder again from where it was built, or build it again.",
    ),
    Code(
        "P710",
        "A file of a copy is missing",
        why="A page, a picture or a part of the screen is not there when it is needed.",
        instead="Copy the whole folder again from where it was built, or build it again.",
    ),
    Code(
        "P711",
        "A file lies in a copy that was not built",
        why="It may be a page of an older copy, and search or a bookmark leads to it still.",
        instead="Copy into an empty folder, never over an older copy.",
    ),
    Code(
        "P712",
        "A copy has no list of sums that can be used",
        why="Nothing can be said of the copy: it may be whole, or not.",
        instead="Build it again, and copy the whole folder.",
    ),
)
