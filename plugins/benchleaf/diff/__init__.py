"""Two shops, already read, to changes of meaning and their consequences."""

from .fingerprint import fingerprint

__all__ = ["fingerprint"]
