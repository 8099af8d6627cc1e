"""Benchleaf: job breakdowns to an offline training manual for a machine shop.

The journey is in `benchleaf.pipeline`, one call a stop.
"""

from .pipeline import Loaded, SitePlan, check, load, plan_site, register
from .questions import schema

__version__ = "0.1.0"

__all__ = ["Loaded", "SitePlan", "__version__", "check", "load", "plan_site", "register", "schema"]
