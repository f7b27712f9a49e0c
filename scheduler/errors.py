"""The scheduler's errors: one tree; each message says what, where and what to do."""

from __future__ import annotations

from dataclasses import dataclass


class SchedulerError(Exception):
    """Root of every error this package raises on purpose."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in a file a person wrote: the field (dotted path) and a sentence that says what to do."""

    field: str
    message: str

    def __str__(self) -> str:
        return f"{self.field}: {self.message}" if self.field else self.message


class WrongInput(SchedulerError):
    """Something typed or filed by a person cannot be used; carries every problem found, not only the first."""

    def __init__(self, where: str, problems: tuple[Problem, ...]) -> None:
        self.where = where
        self.problems = problems
        super().__init__(f"{where}: " + "; ".join(str(problem) for problem in problems))


class BadAmount(SchedulerError, ValueError):
    """A typed amount has no single meaning, or is not plausible."""


class Refused(SchedulerError):
    """An action that the plan, the protocol or the record does not allow."""
