"""People and jobs to a timetable: cover, lessons and their order, what is new, follow-up."""

from .authorities import NONE_RECORDED, Reason, Says
from .bounds import Known
from .by_list import TEACHES, stage_days
from .calendar_file import Event, calendar_text
from .clock import Session
from .cover import CoverLine, OnlyOne
from .follow_up import WHAT, FollowUp, FollowUpDay, Pace
from .lessons import Lesson, LessonKind
from .may import Answer, Doing, NotTeaching, WhoMay, who_may, who_may_each
from .novelty import NewStep, Novelty, novelty
from .promises import Moved
from .promising import promise_of
from .schedule import Load, Planned, PlannedCheck, Schedule, Unplanned
from .signings import Signed, Signing, pages_asked_for
from .since import Since, changed_since
from .situation import Situation, Standing, State
from .timetable import Progress, Timetable, progress, timetable

__all__ = [
    "NONE_RECORDED",
    "TEACHES",
    "WHAT",
    "Answer",
    "CoverLine",
    "Doing",
    "Event",
    "FollowUp",
    "FollowUpDay",
    "Known",
    "Lesson",
    "LessonKind",
    "Load",
    "Moved",
    "NewStep",
    "NotTeaching",
    "Novelty",
    "OnlyOne",
    "Pace",
    "Planned",
    "PlannedCheck",
    "Progress",
    "Reason",
    "Says",
    "Schedule",
    "Session",
    "Signed",
    "Signing",
    "Since",
    "Situation",
    "Standing",
    "State",
    "Timetable",
    "Unplanned",
    "WhoMay",
    "calendar_text",
    "changed_since",
    "novelty",
    "pages_asked_for",
    "progress",
    "promise_of",
    "stage_days",
    "timetable",
    "who_may",
    "who_may_each",
]
