"""Stop 2: frozen records. They know nothing of files or pages."""

from .hazard import Certainty, Controls, Hazard, Severity, SignalWord, signal_word
from .job import Check, Job, KeyPoint, KeyPointKind, LockoutStage, Part, Step, Trouble
from .picture import Picture, PictureFile
from .record import Record, revision_order
from .setup import (
    Clamping,
    DrillingSetUp,
    Holding,
    HoldingMethod,
    HoleKind,
    PositiveStop,
    SetUp,
    Walls,
    WorkShape,
)
from .shop import FOLDERS, KINDS, Manual, Shop, name_of
from .term import Term, plurals
from .things import (
    ControlPart,
    CuttingSpeed,
    DrillingFactors,
    FeedLever,
    Fluid,
    GrindingWheel,
    Machine,
    MachineControls,
    Material,
    Tool,
    ToolKind,
)
from .walk import files, references, texts

__all__ = [
    "FOLDERS",
    "KINDS",
    "Certainty",
    "Check",
    "Clamping",
    "ControlPart",
    "Controls",
    "CuttingSpeed",
    "DrillingFactors",
    "DrillingSetUp",
    "FeedLever",
    "Fluid",
    "GrindingWheel",
    "Hazard",
    "Holding",
    "HoldingMethod",
    "HoleKind",
    "Job",
    "KeyPoint",
    "KeyPointKind",
    "LockoutStage",
    "Machine",
    "MachineControls",
    "Manual",
    "Material",
    "Part",
    "Picture",
    "PictureFile",
    "PositiveStop",
    "Record",
    "SetUp",
    "Severity",
    "Shop",
    "SignalWord",
    "Step",
    "Term",
    "Tool",
    "ToolKind",
    "Trouble",
    "Walls",
    "WorkShape",
    "files",
    "name_of",
    "plurals",
    "references",
    "revision_order",
    "signal_word",
    "texts",
]
