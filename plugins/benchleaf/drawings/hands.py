"""Hands as plain outlines, each at its own origin: fist, pointing finger, pinch, flat hand."""

from __future__ import annotations

from .ink import FINE, Ink


def fist() -> str:
    """Fingers closed round something that comes out at both sides; the arm goes down."""
    ink = Ink()
    ink.shape("M-26 -8V22Q-24 36 -18 42V92H18V42Q26 34 26 20V-8Z", 0)
    ink.line("M-26 6V22Q-24 36 -18 42V92M18 92V42Q26 34 26 20V-6", FINE)
    for x in (-28, -14, 0, 14):
        ink.shape(f"M{x} -14q0 -8 7 -8t7 8v20q0 8 -7 8t-7 -8Z", FINE)
    ink.shape("M-30 4q-6 8 2 14l22 6q10 2 10 -6t-8 -9l-14 -5q-6 -6 -12 0Z", FINE)
    return ink.joined()


def pointing() -> str:
    """The index finger touches the origin from the right; the arm goes to the right."""
    ink = Ink()
    ink.shape("M48 -6Q60 -18 78 -14L 130 -10V30L80 34Q60 36 50 26Z", 0)
    ink.line("M 130 -10L78 -14Q64 -17 52 -8M52 30Q62 36 80 34L 130 30", FINE)
    for y in (30, 19, 8):
        ink.shape(f"M40 {y - 2}q-8 0 -8 -5t8 -5h18q7 0 7 5t-7 5Z", FINE)
    ink.shape("M8 -7H52Q62 -4 62 0T52 7H8Q1 6 1 0T8 -7Z", FINE)
    ink.shape("M34 -13q-2 -8 6 -9l22 4q8 3 5 9t-12 4Z", FINE)
    return ink.joined()


def pinch() -> str:
    """Thumb and finger hold something at the origin from the right; the arm goes to the right."""
    ink = Ink()
    ink.shape("M60 -16L 140 -20V26L64 28Q44 24 40 6Z", 0)
    ink.shape("M36 2q-8 2 -8 9t9 7h24q9 -2 8 -9t-9 -8Z", FINE)
    ink.shape("M 140 -20L80 -22Q62 -26 46 -20L10 -12Q-2 -8 0 -2T12 2L44 -4", FINE)
    ink.shape("M56 12L40 10L12 3Q2 2 0 8T10 18L40 28Q54 34 66 30L 140 26", FINE)
    return ink.joined()


def flat() -> str:
    """A flat hand seen from above, fingers to the left of the origin; the arm goes to the right."""
    ink = Ink()
    ink.shape("M4 -22Q30 -28 48 -18L 110 -14V18L52 20Q30 30 4 20Z", 0)
    ink.line("M 110 -14L50 -18Q34 -26 4 -22M4 20Q30 30 54 20L 110 18", FINE)
    for y, long in ((-22, 40), (-11, 50), (0, 46), (11, 34)):
        ink.shape(f"M6 {y}H{-long + 6}q-6 0 -6 5t6 5H6", FINE)
    ink.shape("M36 22Q20 36 0 36q-8 0 -8 -6t8 -6Q14 22 22 14", FINE)
    return ink.joined()


FIST, POINTING, PINCH, FLAT = fist(), pointing(), pinch(), flat()
