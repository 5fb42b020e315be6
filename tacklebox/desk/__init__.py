"""The desk: what can be asked of Tacklebox, one function for each thing an angler does.

Each function takes the open desk and words or plain dataclasses, holds the transaction that it
needs, and answers with a frozen dataclass. It never prints, never folds a line, and names a
field rather than an option: each face words that for itself.
"""

from tacklebox.desk.answers import Amount, as_json
from tacklebox.desk.opening import Desk

__all__ = ["Amount", "Desk", "as_json"]
