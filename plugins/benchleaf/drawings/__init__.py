"""Drawings as SVG, from plain values: set-ups, the tray, plans, symbols; no pages."""
