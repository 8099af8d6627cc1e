"""Wear factors, and the bounds both unit systems of the handbook's drilling model share."""

WEAR_SHARP = 1.0
"""Sharp drill (source mh31-table-3, from memory)."""
WEAR_NORMAL = 1.3
"""Normal drilling (source mh31-table-3, from memory)."""
WEAR_DULL_OR_HARD = 1.5
"""Hard-to-machine material, or a very dull drill (source mh31-table-3, from memory)."""
WEAR_RANGE = (1.0, 2.0)
"""From sharp to the largest wear factor of any operation in that table, from memory. Below 1 the
model would promise less force than a sharp drill needs."""

KD_RANGE = (4000.0, 70000.0)
"""Smallest and largest Kd of Table 6, magnesium to a nickel superalloy (source mh31-table-6, from
memory). It refuses a specific cutting force in N/mm2 (500 to 3000) put in Kd's place, which would
show a tenth of the real force."""
