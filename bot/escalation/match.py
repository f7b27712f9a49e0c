"""Which rules speak, for signals and a record. Pure."""

from __future__ import annotations

from collections.abc import Iterable

from bot.escalation.conditions import CONDITIONS, Look
from bot.escalation.rules import RULES, Rule
from bot.understanding.types import Finding, Urgency


def urgency_of(findings: Iterable[Finding], extra: Iterable[str] = ()) -> Urgency:
    """The tier that the table gives to findings and other signs with an empty record; whatever was found is routine."""
    signals = frozenset(map(str, findings)) | frozenset(extra)
    return max(most_urgent(matching(signals, frozenset(), None)), Urgency.ROUTINE if signals else Urgency.NONE)


def matching(now: frozenset[str], lately: frozenset[str], look: Look | None) -> tuple[Rule, ...]:
    """Rules that speak, the most urgent first, then in the table's order; those that another one replaces are left out.

    now: signals of this reply or event. lately: signals found shortly before; they complete a picture but raise nothing
    by themselves. look: the record, None for an empty one.
    """
    found = [rule for rule in RULES if _speaks(rule, now, lately, look)]
    replaced = {weaker for rule in found for weaker in rule.replaces}
    return tuple(sorted((rule for rule in found if rule.id not in replaced), key=lambda rule: -rule.urgency))


def most_urgent(rules: Iterable[Rule]) -> Urgency:
    return max((rule.urgency for rule in rules), default=Urgency.NONE)


def _speaks(rule: Rule, now: frozenset[str], lately: frozenset[str], look: Look | None) -> bool:
    known = now | lately
    first, second = known.intersection(rule.any_of), known.intersection(rule.also)
    if not first or (rule.also and not second):
        return False
    if not now.intersection((*rule.any_of, *rule.also)):
        return False                  # all of it is old news
    if not rule.when:
        return True
    return look is not None and all(CONDITIONS[name](look) for name in rule.when)
