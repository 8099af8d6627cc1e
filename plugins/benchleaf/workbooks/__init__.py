"""A job as a workbook and back: tables, the library for spreadsheets, what was watched."""
