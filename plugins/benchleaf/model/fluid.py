"""A cutting fluid: what a job is done under."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from .ids import FileIn, HazardRef, Id, Text, Title
from .marks import Area, Each, Example, Order, Trait
from .record import Record
from .still_open import StillOpen


class Fluid(Record):
    """One cutting fluid: use, mixing, hazards and where its safety data sheet is kept."""

    about = Area.FLUID

    id: Id
    """The fluid's id, such as `soluble-oil`."""
    name: Annotated[Title, Trait.NAME, Example("Soluble oil")]
    """What the fluid is called in the shop."""
    what: Annotated[Text, Trait.ON_ITS_OWN_PAGE, Example("Oil in water, white like milk.")]
    """What it is."""
    use: Annotated[
        tuple[Text, ...],
        Order.COUNTS,
        Trait.ON_ITS_OWN_PAGE,
        Example("Let it run on the drill from the first touch."),
    ] = Field(min_length=1)
    """How and where it is put on."""
    mixing: Annotated[
        Text | None,
        Trait.ON_ITS_OWN_PAGE,
        Example("One part oil into 20 parts water, the oil last."),
    ] = None
    """How it is mixed and tested, and by whom."""
    safety_data_sheet: Annotated[
        Text, Trait.ON_ITS_OWN_PAGE, Trait.PLACE, Example("The red folder beside the kiosk")
    ]
    """Where the sheet is kept."""
    safety_data_sheet_file: Annotated[
        Annotated[str, FileIn("sheets")] | None,
        Trait.ON_ITS_OWN_PAGE,
        Trait.DOCUMENT,
        Example("soluble-oil.pdf"),
    ] = None
    """The sheet itself, a PDF or text file below content/sheets/; it goes with the manual."""
    hazards: Annotated[tuple[HazardRef, ...], Area.HAZARD, Order.FREE, Each("hazard")] = ()
    """Hazards of the fluid itself, by id."""
    also: Annotated[tuple[str, ...], Area.NAMES, Order.FREE, Trait.LATER, Example("suds")] = ()
    """Other names people use for it."""
    still_open: StillOpen = ()
    """What is still to be given, a line each; while one is left, nobody is taught from it."""
