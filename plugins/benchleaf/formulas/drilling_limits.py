"""The bounds both unit systems of the handbook's drilling model share."""

WEAR_RANGE = (1.0, 2.0)
"""From sharp to the largest wear factor of any operation (source mh31-table-3, from memory):
1.3 is normal drilling, 1.5 a very dull drill or a material hard to machine. Below 1 the
model would promise less force than a sharp drill needs."""

KD_RANGE = (4000.0, 70000.0)
"""Smallest and largest Kd of Table 6, magnesium to a nickel superalloy (source mh31-table-6, from
memory). It refuses a specific cutting force in N/mm2 (500 to 3000) put in Kd's place, which would
show a tenth of the real force."""
