"""Benchleaf: job breakdowns to an offline training manual for a machine shop.

The journey is in `benchleaf.pipeline`, one call a stop.
"""

from .commands.schema import schema
from .pipeline import Loaded, SitePlan, check, load, plan_site, register

__version__ = "0.1.0"

__all__ = ["Loaded", "SitePlan", "__version__", "check", "load", "plan_site", "register", "schema"]
