"""Bench sheets: what is on the bench, how people call it, and the shop's limits.

In comes a TOML file or the id of a shipped sheet, out goes a `Sheet`. Here live its types
(`model`), what can be wrong with it (`form`, `check`), where a key stands (`locate`), how one
sheet extends another (`merge`), all pure; `load` alone reads files.
"""

from saywright.sheets.fault import Fault
from saywright.sheets.load import ShippedSheet, check_file, list_sheets, load_sheet
from saywright.sheets.model import Sheet

__all__ = ["Fault", "Sheet", "ShippedSheet", "check_file", "list_sheets", "load_sheet"]
