"""Amounts of medicine with their unit: exact, comparable, printable so that a tired reader cannot misread them."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True, order=True)
class Amount:
    """A mass of medicine, kept exactly in micrograms."""

    micrograms: Decimal
