"""What a thing that is taught can be about."""

from __future__ import annotations

from enum import StrEnum


class About(StrEnum):
    """What a statement is about; `meaning/verdicts.py` says what follows when it changes."""

    ACT = "what is done"
    NUMBER = "a number to work to or to gauge"
    SETTING = "a number to set"
    FIGURE = "a reckoned figure"
    LIMIT = "a broken limit"
    DOUBT = "a figure outside what is recommended"
    HAZARD = "a hazard"
    CONTROL = "what keeps harm away"
    WORN = "equipment worn"
    KEY_POINT = "a key point"
    REASON = "a reason"
    EASIER = "a key point that makes it easier"
    ORDER = "the order"
    REACHED = "a place reached for in danger"
    CALL = "whom to call and what to do in an emergency"
    TROUBLE = "what to do when something goes wrong"
    PART = "the part and its stock"
    MACHINE = "the machine"
    TOOL = "a tool"
    MATERIAL = "the material"
    FLUID = "the fluid"
    RATING = "a rating"
    PLACE = "a place"
    NAME = "a name"
    DOCUMENT = "a document"
    HELP = "a help text"
    PREFACE = "the safety preface"
    PAGE = "a free page"
