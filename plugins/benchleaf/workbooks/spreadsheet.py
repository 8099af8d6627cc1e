"""Workbooks (.xlsx) and tables of text (.csv) to tables, and tables to a workbook."""

from __future__ import annotations

import csv
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime, time, timedelta
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any

from openpyxl import Workbook, load_workbook
from openpyxl.cell.cell import Cell as SheetCell
from openpyxl.cell.cell import MergedCell
from openpyxl.comments import Comment
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter
from openpyxl.utils.exceptions import InvalidFileException
from openpyxl.worksheet.datavalidation import DataValidation

from benchleaf.diagnose import Finding, Place, Severity

from .tables import Cell, Helps, Table

LARGEST = 20_000_000
"""Bytes, also of what is packed inside: a breakdown has a hundredth of it."""
MOST_ROWS, MOST_COLUMNS = 5_000, 200
_EXPANDED = 200_000_000


def read_tables(path: Path) -> tuple[tuple[Table, ...], tuple[Finding, ...]]:
    """Every table of a file, and what in it cannot be taken in."""
    problem = _cannot_be_read(path)
    if problem is not None:
        return (), (problem,)
    if path.suffix.lower() == ".csv":
        return _csv_tables(path)
    try:
        book = load_workbook(path, data_only=False)
    except (InvalidFileException, OSError, KeyError, ValueError, zipfile.BadZipFile) as error:
        return (), (_problem(Place(path.name), f"'{path.name}' cannot be read: {error}",
                             "save it again as .xlsx"),)  # fmt: skip
    tables, findings = [], []
    for sheet in book.worksheets:
        if sheet.sheet_state == "visible":
            table, found = _table(path.name, sheet)
            findings += found
            tables += [table] if table else []
    return tuple(tables), tuple(findings)


def _cannot_be_read(path: Path) -> Finding | None:
    place, kind = Place(path.name), path.suffix.lower()
    if kind in (".xlsm", ".xltm", ".xlsb"):
        return _problem(place, f"'{path.name}' holds macros", "save it as .xlsx, without macros")
    if kind not in (".xlsx", ".csv"):
        return _problem(place, f"'{path.name}' is neither .xlsx nor .csv", "save it as .xlsx")
    if not path.is_file():
        return _problem(place, f"there is no file '{path}'", "name the file as it is on disk")
    size = path.stat().st_size
    if kind == ".xlsx" and zipfile.is_zipfile(path):
        with zipfile.ZipFile(path) as packed:
            size = sum(one.file_size for one in packed.infolist())
            if any(one.filename.endswith("vbaProject.bin") for one in packed.infolist()):
                return _problem(place, f"'{path.name}' holds macros", "save it without macros")
    if size > (_EXPANDED if kind == ".xlsx" else LARGEST):
        return _problem(place, f"'{path.name}' is too large for one job", "take the rest out")
    return None


def _problem(place: Place, text: str, *help_lines: str) -> Finding:
    return Finding("R116", Severity.ERROR, place, text, help_lines)


def cell_place(file: str, sheet: str, row: int, column: int) -> Place:
    """The place of a cell as people name it."""
    return Place(f"{file}, sheet {sheet}, cell {get_column_letter(column)}{row}")


def _table(file: str, sheet: Any) -> tuple[Table | None, list[Finding]]:
    """One sheet: its first row gives the heads."""
    name = str(sheet.title)
    where = Place(f"{file}, sheet {name}")
    if sheet.max_row > MOST_ROWS or sheet.max_column > MOST_COLUMNS:
        text = f"the sheet goes to row {sheet.max_row}, column {sheet.max_column}"
        return None, [_problem(where, text, "delete the empty rows and columns beyond the work")]
    findings = [_merged(file, name, one) for one in sheet.merged_cells.ranges]
    heads: dict[int, str] = {}
    rows: list[Mapping[str, Cell]] = []
    for number, cells in enumerate(sheet.iter_rows(), 1):
        texts = list(_texts(file, name, cells, findings))
        if number == 1:
            heads = {column: one.text.strip().lower() for column, one in texts}
            findings += _twice(file, name, heads)
            continue
        row = {heads[column]: one for column, one in texts if column in heads}
        findings += [
            _problem(one.place, "a value in a column without a head", "write the column's head")
            for column, one in texts if column not in heads
        ]  # fmt: skip
        rows += [row] if row else []
    if not heads:
        return None, findings
    places = tuple(cell_place(file, name, 1, column) for column in heads)
    return Table(name, tuple(heads.values()), tuple(rows), where, places), findings


def _twice(file: str, sheet: str, heads: Mapping[int, str]) -> Iterator[Finding]:
    seen: set[str] = set()
    for column, head in heads.items():
        if head in seen:
            place = cell_place(file, sheet, 1, column)
            yield _problem(place, f"the head '{head}' stands twice", "take one of the two out")
        seen.add(head)


def _merged(file: str, sheet: str, found: Any) -> Finding:
    return _problem(cell_place(file, sheet, found.min_row, found.min_col),
                    f"the cells {found.coord} are merged",
                    "split them: a row of its own for each entry")  # fmt: skip


def _texts(
    file: str, sheet: str, cells: Sequence[SheetCell | MergedCell], findings: list[Finding]
) -> Iterator[tuple[int, Cell]]:
    """The filled cells of a row as text."""
    for cell in cells:
        if isinstance(cell, MergedCell) or cell.value is None:
            continue
        place = cell_place(file, sheet, cell.row, cell.column)
        problem = _no_text(cell)
        if problem:
            findings.append(_problem(place, *problem))
            continue
        text = _as_text(cell.value)
        if text.strip():
            yield cell.column, Cell(text.strip(), place)


def _no_text(cell: SheetCell) -> tuple[str, str] | None:
    if cell.data_type == "f":
        return "a formula", "put the value itself in: paste it as a value"
    if cell.data_type == "e":
        return f"the spreadsheet shows an error, {cell.value}", "write the value"
    if isinstance(cell.value, (time, timedelta)):
        return (f"the spreadsheet took it for a time of day, {cell.value}",
                "format the cell as text, and write the unit: 12 s")  # fmt: skip
    if "%" in str(cell.number_format) and isinstance(cell.value, (int, float)):
        return "a number shown as percent", "format the cell as text, and write what you mean"
    return None


def _as_text(value: Any) -> str:
    """A cell's value as it would be written in a job file."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        return repr(int(value)) if value.is_integer() else repr(value)
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date):
        return value.isoformat()
    return str(value)


def _csv_tables(path: Path) -> tuple[tuple[Table, ...], tuple[Finding, ...]]:
    """One table, named like the file's last word: `tr-0600-steps.csv` holds the steps."""
    data = path.read_bytes()
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return (), (_problem(Place(path.name), f"'{path.name}' is not UTF-8",
                             "save it as CSV UTF-8, or as .xlsx"),)  # fmt: skip
    first = text.split("\n", 1)[0]
    mark = max((";", ",", "\t"), key=first.count)
    findings: list[Finding] = []
    heads: list[str] = []
    rows: list[Mapping[str, Cell]] = []
    name = path.stem.rsplit("-", 1)[-1].lower()
    for number, values in enumerate(csv.reader(StringIO(text), delimiter=mark), 1):
        if number == 1:
            heads = [one.strip().lower() for one in values]
            findings += _twice(path.name, name, dict(enumerate(heads, 1)))
            continue
        row: dict[str, Cell] = {}
        for column, value in enumerate(values, 1):
            place = _csv_place(path.name, number, column)
            if value.strip() and column <= len(heads) and heads[column - 1]:
                row[heads[column - 1]] = Cell(value.strip(), place)
            elif value.strip():
                findings.append(_problem(place, "a value in a column without a head",
                                         "write the column's head"))  # fmt: skip
        rows += [row] if row else []
    places = tuple(_csv_place(path.name, 1, column) for column in range(1, len(heads) + 1))
    table = Table(name, tuple(heads), tuple(rows), Place(path.name), places)
    return (table,), tuple(findings)


def _csv_place(file: str, row: int, column: int) -> Place:
    return Place(f"{file}, row {row}, column {get_column_letter(column)}")


def workbook(tables: Sequence[Table], helps: Helps) -> bytes:
    """A workbook of these tables: heads with their help, lists to choose from, text everywhere."""
    book = Workbook()
    book.remove(book.worksheets[0])
    lists = book.create_sheet("lists")
    for table in tables:
        sheet = book.create_sheet(table.name)
        _fill(sheet, table)
        _help(sheet, table, helps, lists)
    book.move_sheet(lists, len(tables))
    lists.sheet_state = "hidden"
    book.active = 0
    book.properties.creator = "benchleaf"
    out = BytesIO()
    book.save(out)
    return out.getvalue()


_WIDE, _NARROW, _SPARE = 46, 16, 200


def _fill(sheet: Any, table: Table) -> None:
    for column, head in enumerate(table.heads, 1):
        cell = sheet.cell(1, column, head)
        cell.font = Font(bold=True)
        longest = max((len(row[head].text) for row in table.rows if head in row), default=0)
        sheet.column_dimensions[get_column_letter(column)].width = (
            _WIDE if longest > _NARROW or head == "value" else _NARROW + 8
        )
    sheet.freeze_panes = "B2" if table.heads[0] in ("key", "of", "id") else "A2"
    for number, row in enumerate(table.rows, 2):
        for column, head in enumerate(table.heads, 1):
            cell = sheet.cell(number, column)
            cell.number_format = "@"  # text: the spreadsheet changes nothing by itself
            cell.alignment = Alignment(wrap_text=True, vertical="top")
            if head in row:
                cell.value = row[head].text
                cell.data_type = "s"  # also where it begins with =
    for number in range(len(table.rows) + 2, len(table.rows) + _SPARE):
        for column in range(1, len(table.heads) + 1):
            sheet.cell(number, column).number_format = "@"


def _help(sheet: Any, table: Table, helps: Helps, lists: Any) -> None:
    """Each head, or each key of the record's own table, with what it holds and allows."""
    is_own = table.heads[:2] == ("key", "value")
    places = (
        [(row["key"].text, sheet.cell(number, 1), f"B{number}")
         for number, row in enumerate(table.rows, 2) if "key" in row]
        if is_own
        else [(head, sheet.cell(1, column),
               f"{get_column_letter(column)}2:{get_column_letter(column)}{_SPARE}")
              for column, head in enumerate(table.heads, 1)]
    )  # fmt: skip
    for head, cell, reach in places:
        found = helps.get(("" if is_own else table.name, head))
        if found is None:
            continue
        needed = f"{found.needed} " if found.needed else ""
        cell.comment = Comment(f"{needed}{found.says}", "benchleaf", width=320, height=120)
        if found.allowed:
            chosen = DataValidation("list", formula1=_listed(lists, found.allowed))
            chosen.error = "Choose one of the list."
            chosen.showErrorMessage = True
            chosen.add(reach)
            sheet.add_data_validation(chosen)


def _listed(lists: Any, allowed: Sequence[str]) -> str:
    """The list in a column of the hidden sheet; one of the same words is used again."""
    for column in range(1, lists.max_column + 1):
        words = [lists.cell(row, column).value for row in range(1, len(allowed) + 2)]
        if words == [*allowed, None]:
            break
    else:
        column = lists.max_column + (1 if lists.cell(1, 1).value else 0)
        for row, word in enumerate(allowed, 1):
            lists.cell(row, column, word)
    letter = get_column_letter(column)
    return f"lists!${letter}$1:${letter}${len(allowed)}"
