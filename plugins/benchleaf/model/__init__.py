"""Stop 2: frozen records. They know nothing of files or pages."""

from .hazard import Certainty, Controls, Hazard, Severity, SignalWord, signal_word
from .job import Check, Job, KeyPoint, KeyPointKind, Part, Step, Trouble
from .record import Record, revision_order
from .setup import Clamping, DrillingSetUp, Holding, HoldingMethod, HoleKind, PositiveStop, SetUp
from .shop import FOLDERS, KINDS, Manual, Shop, name_of
from .term import Term
from .things import (
    CuttingSpeed,
    DrillingFactors,
    Fluid,
    Machine,
    MachineControls,
    Material,
    Tool,
    ToolKind,
)
from .walk import references, texts

__all__ = [
    "FOLDERS",
    "KINDS",
    "Certainty",
    "Check",
    "Clamping",
    "Controls",
    "CuttingSpeed",
    "DrillingFactors",
    "DrillingSetUp",
    "Fluid",
    "Hazard",
    "Holding",
    "HoldingMethod",
    "HoleKind",
    "Job",
    "KeyPoint",
    "KeyPointKind",
    "Machine",
    "MachineControls",
    "Manual",
    "Material",
    "Part",
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
    "name_of",
    "references",
    "revision_order",
    "signal_word",
    "texts",
]
