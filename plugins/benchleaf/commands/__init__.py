"""Families of commands, one a module; each adds its own to the parser."""
