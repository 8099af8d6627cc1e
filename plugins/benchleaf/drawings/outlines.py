"""Outlines of machines, tools, materials and parts on a square of 96: plain lines, no words.

What stands on a floor or a bench stands on the lower edge; what is held hangs in the middle. The
lines of a cut metal follow the drawing offices' usual way of telling metals apart by their section
lining (from memory): pairs of lines for steel, even ones for cast iron, and so on.
"""

from __future__ import annotations

from types import MappingProxyType

from benchleaf.model import Looks


def _thin(data: str) -> str:
    return f'<path stroke-width="2.4" d="{data}"/>'


def _full(data: str) -> str:
    return f'<path fill="currentColor" stroke="none" d="{data}"/>'


def _line(data: str) -> str:
    return f'<path d="{data}"/>'


def _ring(x: float, y: float, radius: float) -> str:
    return f'<circle cx="{x:g}" cy="{y:g}" r="{radius:g}"/>'


def _dot(x: float, y: float, radius: float) -> str:
    return f'<circle cx="{x:g}" cy="{y:g}" r="{radius:g}" fill="currentColor" stroke="none"/>'


def _lined(step: int, *, pairs: bool = False, dash: bool = False) -> str:
    """The cut face of a bar, lined at 45 degrees."""
    lines: list[str] = []
    dashed: list[str] = []
    for number, at in enumerate(range(28, 28 + 104, step)):
        for shift in (0, 5) if pairs else (0,):
            n = at + shift - 12
            x1, y1 = (12, n + 8) if n + 8 <= 76 else (n + 8 - 64, 76)
            x2, y2 = (n - 12, 32) if n - 12 <= 84 else (84, n - 64)
            if x2 - x1 > 5:
                (dashed if dash and number % 2 else lines).append(f"M{x1} {y1}L{x2} {y2}")
    drawn = _line("M12 32H84V76H12Z") + _thin("".join(lines))
    return drawn + (
        f'<path stroke-width="2.4" stroke-dasharray="6 4" d="{"".join(dashed)}"/>' if dashed else ""
    )


_BED = "M6 78H90V84H6Z"

OUTLINES = MappingProxyType(
    {
        # Machines
        Looks.PILLAR_DRILL: _line(
            "M20 94V87H72V94M30 87V36M42 87V36M22 36V14H74V36ZM56 36V48H68V36M42 68H84V74H42"
        )
        + _full("M58 48H66L64 58H63V66L62 68L61 66V58H60Z")
        + _thin("M78 25L90 44M78 25L70 14")
        + _dot(90, 46, 4)
        + _line("M74 20H80V30H74"),
        Looks.BENCH_GRINDER: _ring(42, 34, 20)
        + _dot(42, 34, 4)
        + _line("M67 20A29 29 0 1 0 58 58M62 27L70 17")
        + _line("M65 38H88V45H65ZM78 45V60H54M30 62L26 94M58 60L64 94M20 94H70")
        + _thin("M72 8L84 24"),
        Looks.LATHE: _line(
            "M6 26H34V58H6ZM34 34H42V50H34M6 58V94M90 58V94M6 62H90V72H6M66 62V40H88V62"
        )
        + _line("M42 42H56M66 46L57 42")
        + _thin("M42 39H54V45H42M50 62V52H58V62"),
        Looks.MILLING_MACHINE: _line(
            "M14 94V12H64V28H38V94ZM50 28V42H60V28M38 62H90V70H38M52 70V94M76 70V94M14 94H84"
        )
        + _full("M52 42H58V56H52Z"),
        Looks.SAW: _line("M8 94V66H88V94M8 66L20 18H80L88 30L30 58")
        + _thin("M26 56l4 5 4-5 4 5 4-5 4 5 4-5 4 5 4-5 4 5 4-5 4 5 4-5")
        + _dot(13, 62, 5),
        Looks.HAND_PRESS: _line(
            "M16 94V86H82V94M22 86V10H66V34H40V86M48 34V60H60V34M44 60H64M40 76H76V86"
        )
        + _line("M66 20L90 34")
        + _dot(90, 35, 5),
        Looks.BENCH: _line("M6 48H90V57H6ZM14 57V94M82 57V94")
        + _thin("M14 80H82")
        + _line("M52 48V34H60V26H70V34H78V48M70 30H84V36H70"),
        Looks.INSPECTION_TABLE: _line("M6 58H90V70H6ZM18 70V94M78 70V94M24 58V22H30V58M20 58H40")
        + _line("M30 30H62M58 30V50M54 50H62")
        + _thin("M70 58V42H84V58"),
        Looks.CELL: _line("M6 40H34V94M6 40V94M62 40H90V94M62 40V94M30 8H66V32H30Z")
        + _thin("M12 50H28M68 50H84")
        + _ring(48, 62, 8)
        + _line("M36 94V84Q36 74 48 74Q60 74 60 84V94"),
        Looks.OTHER_MACHINE: _line("M14 94V30H82V94ZM26 30V12H70V30M30 50H66V66H30Z")
        + _dot(68, 80, 6),
        # Tools
        Looks.TWIST_DRILL: _line("M38 6H58V40M38 6V40M38 40V76L48 90L58 76V40")
        + _thin("M38 40H58")
        + _line("M38 54L58 42M38 68L58 54M40 79L58 66"),
        Looks.CENTRE_DRILL: _line("M34 6H62V58L54 72V84L48 92L42 84V72L34 58Z")
        + _thin("M34 26L62 12M34 48L62 34M44 88L52 80"),
        Looks.REAMER: _line("M40 6H56V34H40ZM36 34H60V84L56 90H40L36 84Z")
        + _thin("M42 34V88M48 34V90M54 34V88"),
        Looks.TAP: _line("M42 4H54V14H42ZM40 14H56V42H40ZM36 42H60V80L54 92H42L36 80Z")
        + _thin("M36 50L60 46M36 57L60 53M36 64L60 60M36 71L60 67M36 78L60 74M39 85L58 81"),
        Looks.COUNTERSINK: _line("M40 6H56V44H40ZM40 44H56L76 60V64L48 92L20 64V60Z")
        + _thin("M48 92V64M48 92L34 62M48 92L62 62"),
        Looks.COUNTERBORE: _line("M40 6H56V38H40ZM26 38H70V72H26ZM40 72H56V90H40Z")
        + _thin("M26 62L44 38M44 72L66 38"),
        Looks.GRINDING_WHEEL: _ring(48, 48, 40)
        + _ring(48, 48, 17)
        + _dot(48, 48, 6)
        + _thin("M20 34l2 1M26 62l2 1M36 20l2 1M62 18l2 1M74 36l2 1M72 62l2 1M56 78l2 1M36 76l2 1"),
        Looks.PLUG_GAUGE: _line("M34 38H62V66H34ZM14 40V64M34 42H4V62H34M62 42H80V62H62")
        + _thin("M40 44V60M48 44V60M56 44V60")
        + _full("M84 36H92V68H84Z"),
        Looks.THREAD_GAUGE: _line("M34 38H62V66H34ZM34 42H4V62H34M62 42H84V62H62")
        + _thin(
            "M8 62L12 42M14 62L18 42M20 62L24 42M26 62L30 42"
            "M66 62L70 42M72 62L76 42M40 44V60M48 44V60M56 44V60"
        ),
        Looks.CALIPER: _line("M6 22H90V36H6ZM6 36V66L14 78V36M46 36V78L54 66V36M40 22V36M66 22V36")
        + _thin("M20 36V30M26 36V30M32 36V30M72 36V30M78 36V30M84 36V30"),
        Looks.STEP_GAUGE: _line("M10 24H58V36H72V48H88V60H10Z") + _ring(22, 42, 5),
        Looks.TEMPLATE: _line("M10 10H34V62H86V86H28L10 68Z") + _ring(24, 24, 4),
        Looks.RULE: _line("M4 36H92V60H4Z")
        + _thin("M14 36V46M24 36V42M34 36V46M44 36V42M54 36V46M64 36V42M74 36V46M84 36V42"),
        Looks.VICE: _line("M6 90V76H16V46H36V76M6 90H90V76H62M56 76V46H74V76M36 76H56")
        + _line("M74 58H90M90 50V66")
        + _full("M36 46H42V60H36ZM50 46H56V60H50Z"),
        Looks.BENCH_VICE: _line(
            "M10 50V28H44V50ZM54 28H70V50H54M70 34H82M82 18V56M24 50V70H58V50M14 70H70V78H14Z"
        )
        + _full("M44 28H49V40H44ZM49 28H54V40H49Z")
        + _thin("M4 78H92"),
        Looks.V_BLOCK: _line("M10 86V46H28L48 66L68 46H86V86Z")
        + _ring(48, 38, 20)
        + _line("M20 14H76V20H20Z"),
        Looks.FIXTURE: _line(
            "M8 88V74H88V88ZM18 74V50H30V74M66 74V50H78V74M18 26H78V36H18M24 36V50M72 36V50"
        )
        + _line("M78 31L92 14")
        + _dot(92, 13, 4),
        Looks.PARALLELS: _line("M8 28H66L88 20H30ZM8 28V44H66V28M66 44L88 36V20")
        + _line("M8 64H66L88 56H30ZM8 64V80H66V64M66 80L88 72V56"),
        Looks.TOOL_HOLDER: _line("M40 4H56V26H40ZM30 26H66V44H30ZM34 44H62V62H34ZM42 62H54V92H42Z")
        + _thin("M48 62V92M30 35H66"),
        Looks.TAP_GUIDE: _line("M38 6H58V58H38ZM43 58H53V78L48 90L43 78Z")
        + _thin("M38 16H58M43 66l10 4M43 72l10 4"),
        Looks.WORK_HOLDER: _line("M4 40H18V56H4M18 36H56Q84 32 92 48Q84 64 56 60H18Z")
        + _line("M36 36V26M28 26H44")
        + _thin("M60 36V60"),
        Looks.FILE: _line("M26 34L90 30V58L26 54ZM26 38H14Q4 38 4 44Q4 50 14 50H26")
        + _thin("M34 52L44 34M42 53L52 34M50 54L60 33M58 55L68 33M66 56L76 33M74 57L84 32"),
        Looks.BRUSH: _line("M4 24H52V36H4ZM52 18H90V42H52Z")
        + _thin("M56 42L50 76M62 42L58 76M68 42L66 78M74 42L76 78M80 42L84 76M86 42L92 76"),
        Looks.CHUCK_KEY: _line("M12 14H84V26H12ZM42 26H54V62H42ZM34 62H62V76H34ZM44 76H52V88H44Z")
        + _thin("M40 62V76M48 62V76M56 62V76"),
        Looks.MALLET: _line("M20 10H76V42H20ZM43 42H53V92H43Z") + _thin("M30 10V42M66 10V42"),
        Looks.TAP_WRENCH: _line("M34 38H62V58H34ZM34 44H4V52H34M62 44H92V52H62")
        + _line("M43 43H53V53H43Z"),
        Looks.TORQUE_HANDLE: _line("M6 34H26V62H6ZM26 42H64V54H26M64 38H92V58H64Z")
        + _thin("M70 38V58M78 38V58M86 38V58")
        + _dot(16, 48, 5),
        Looks.CENTRE_PUNCH: _line("M38 6H58V30H38ZM40 30H56V66L48 92L40 66Z")
        + _thin("M40 38L56 34M40 48L56 44M40 58L56 54"),
        Looks.LOCK_AND_TAG: _line("M8 44H50V84H8ZM16 44V28Q16 14 29 14Q42 14 42 28V44")
        + _dot(29, 60, 5)
        + _line("M60 30H90V84H60Z")
        + _ring(75, 38, 3)
        + _thin("M66 52H84M66 62H84M66 72H84M42 22Q60 16 75 35"),
        Looks.WHEEL_DRESSER: _line("M34 42H92V54H34ZM4 30H28V66H4ZM28 36H34V60H28")
        + _thin("M4 38l6-4 6 4 6-4 6 4M4 50l6-4 6 4 6-4 6 4M4 62l6-4 6 4 6-4 6 4"),
        Looks.OTHER_TOOL: _line("M10 40H86V84H10ZM34 40V28H62V40")
        + _thin("M10 56H86M42 52H54V62H42Z"),
        # Materials, cut
        Looks.STEEL: _lined(16, pairs=True),
        Looks.CAST_IRON: _lined(10),
        Looks.ALUMINIUM: _lined(18, dash=True) + _thin("M12 54H84"),
        Looks.BRASS: _lined(9, dash=True),
        Looks.PLASTIC: _line("M12 32H84V76H12Z")
        + '<path stroke-width="5" d="M14 62L42 34M36 74L76 34M66 74L82 58"/>'
        + _thin("M22 74L62 34M52 74L82 44"),
        # Parts
        Looks.PLATE: _line("M6 52L34 34H90L62 52ZM6 52V60H62V52M62 60L90 42V34"),
        Looks.ROUND_BAR: _line("M20 34H76M20 62H76M76 34A8 14 0 0 1 76 62")
        + '<ellipse cx="20" cy="48" rx="8" ry="14"/>',
        Looks.TUBE: _line("M20 30H76M20 66H76M76 30A10 18 0 0 1 76 66")
        + '<ellipse cx="20" cy="48" rx="10" ry="18"/><ellipse cx="20" cy="48" rx="6" ry="12"/>',
        Looks.BLOCK: _line("M12 40H62V80H12ZM12 40L34 20H84L62 40M84 20V60L62 80"),
        Looks.CASTING: _line("M4 40H30Q32 70 48 70Q64 70 66 40H92V52H76Q72 82 48 82Q24 82 20 52H4Z")
        + _thin("M14 36V56M82 36V56"),
    }
)
"""The lines of each outline; a test sees that none is left out."""

__all__ = ["OUTLINES"]
