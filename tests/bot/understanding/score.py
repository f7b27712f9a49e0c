"""Scores the reader on the labelled replies: counts with 95 % Wilson intervals, as Markdown.

.venv/bin/python tests/bot/understanding/score.py                 the scored part, both languages
.venv/bin/python tests/bot/understanding/score.py --part build --errors
"""

from __future__ import annotations

import argparse
import csv
import io
import math
import time
from collections.abc import Callable
from contextlib import redirect_stdout
from dataclasses import dataclass
from pathlib import Path

from bot.understanding import Reading, read

FOLDER = Path(__file__).resolve().parents[3] / "fixtures" / "replies"
BEGIN, END = "<!-- scores -->", "<!-- end of scores -->"
TIERS = ("none", "routine", "urgent", "emergency")
CONTEXTS = ("denied", "other_person", "past", "supposed", "asked", "uncertain", "since_medicine")


@dataclass(frozen=True)
class Labelled:
    """One labelled reply."""

    tier: str
    findings: frozenset[str]
    signals: frozenset[str]
    tags: frozenset[str]
    asked: str
    writer: str
    text: str


def load(part: str, language: str) -> list[Labelled]:
    """The labelled replies of a part ('build' or 'scored') in a language."""
    with (FOLDER / f"{part}_{language}.tsv").open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE))
    return [
        Labelled(
            row["tier"],
            frozenset(f for f in row["findings"].split(",") if f and not f.startswith("x:")),
            frozenset(f[2:] for f in row["findings"].split(",") if f.startswith("x:")),
            frozenset(filter(None, row["tags"].split(","))),
            row["asked"],
            row["writer"],
            row["text"],
        )
        for row in rows
    ]


def author_of(reply: Labelled) -> str:
    """Which other author wrote a reply ('author3'), or '' where the rules' author did."""
    return next((tag for tag in reply.tags if tag.startswith("author")), "")


def wilson(good: int, total: int) -> tuple[float, float]:
    """95 % Wilson score interval of a proportion, in percent (Wilson 1927)."""
    if total == 0:
        return 0.0, 100.0
    z, p = 1.959964, good / total
    middle = (p + z * z / (2 * total)) / (1 + z * z / total)
    half = z * math.sqrt(p * (1 - p) / total + z * z / (4 * total * total)) / (1 + z * z / total)
    return 100 * (middle - half), 100 * (middle + half)


def read_labelled(reply: Labelled, language: str) -> Reading:
    """The reader on one labelled reply."""
    return read(reply.text, language=language, asked=reply.asked, writer=reply.writer)


Pairs = list[tuple[Labelled, Reading]]


def measures(pairs: Pairs) -> dict[str, tuple[int, int, Callable[[Labelled, Reading], bool]]]:
    """Named proportions: (good, total, the test that a good one passes)."""
    top = {"urgent", "emergency"}
    chosen: dict[str, tuple[Callable[[Labelled], bool], Callable[[Labelled, Reading], bool]]] = {
        "emergency and urgent in those tiers": (lambda x: x.tier in top, lambda _, r: str(r.urgency) in top),
        "emergencies in the emergency tier": (
            lambda x: x.tier == "emergency",
            lambda _, r: str(r.urgency) == "emergency",
        ),
        "emergency or urgent closed without a person": (lambda x: x.tier in top, lambda _, r: not r.needs_human),
        "harmless put in the urgent or emergency tier": (
            lambda x: x.tier not in top,
            lambda _, r: str(r.urgency) in top,
        ),
        "plain harmless replies that reach a nurse": (lambda x: "plain" in x.tags, lambda _, r: r.needs_human),
        "denied, other person or supposed, handled": (
            lambda x: bool(x.tags & {"denied", "other_person", "supposed"}),
            handled,
        ),
        "findings exactly as labelled": (lambda _: True, lambda x, r: {str(f) for f in r.findings} == x.findings),
    }
    result = {}
    for name, (belongs, passes) in chosen.items():
        group = [(x, r) for x, r in pairs if belongs(x)]
        result[name] = (sum(passes(x, r) for x, r in group), len(group), passes)
    return result


def brief(pairs: Pairs) -> dict[str, str]:
    """The measures as 'good/total'."""
    return {name: f"{good}/{total}" for name, (good, total, _) in measures(pairs).items()}


def between(good: int, total: int) -> str:
    """The interval as text."""
    low, high = wilson(good, total)
    return f"{low:.0f} to {high:.0f}"


def handled(reply: Labelled, reading: Reading) -> bool:
    """No finding stands beyond the labelled ones, and none of those is lost."""
    return {str(f) for f in reading.findings} == reply.findings


def show(pairs: Pairs, title: str, *, short: bool = False) -> None:
    """Prints the tables."""
    print(f"### {title}: {len(pairs)} replies\n\n| measure | count | percent | 95 % interval |\n|---|---|---|---|")
    for name, (good, total, _) in measures(pairs).items():
        low, high = wilson(good, total)
        print(f"| {name} | {good}/{total} | {100 * good / max(total, 1):.1f} | {low:.1f} to {high:.1f} |")
    if short:
        print()
        return
    print("\n| finding | labelled | recall | recall 95 % | precision | precision 95 % |\n|---|---|---|---|---|---|")
    names = sorted({f for x, _ in pairs for f in x.findings} | {str(f) for _, r in pairs for f in r.findings})
    for name in names:
        both = sum(name in x.findings and name in {str(f) for f in r.findings} for x, r in pairs)
        labelled = sum(name in x.findings for x, _ in pairs)
        found = sum(name in {str(f) for f in r.findings} for _, r in pairs)
        print(
            f"| {name} | {labelled} | {both}/{labelled} | {between(both, labelled)} | {both}/{found} | "
            f"{between(both, found)} |"
        )
    print("\n| context of the reply | labelled | findings as labelled | 95 % interval |\n|---|---|---|---|")
    for name in CONTEXTS:
        group = [(x, r) for x, r in pairs if name in x.tags]
        good = sum(handled(x, r) for x, r in group)
        print(f"| {name} | {len(group)} | {good}/{len(group)} | {between(good, len(group))} |")
    print()


def show_questions() -> None:
    """Prints how many common questions the closed grammar takes: of the plain ones, and of those that tell more."""
    print("### Common questions\n\n| part | plain, closed by their fixed answer | worrying, closed |\n|---|---|---|")
    for part, language in (("scored", "en"), ("scored", "es"), ("fresh", "en"), ("fresh", "es")):
        pairs = [(reply, read_labelled(reply, language)) for reply in load(f"questions_{part}", language)]
        plain = [bool(reading.asks) for reply, reading in pairs if "plain" in reply.tags]
        more = [bool(reading.asks) for reply, reading in pairs if "plain" not in reply.tags]
        name = {"en": "English", "es": "Spanish"}[language] + f", {part}"
        print(f"| {name} | {sum(plain)}/{len(plain)} | {sum(more)}/{len(more)} |")
    print()


def errors(pairs: Pairs) -> None:
    """Prints the replies whose tier or findings differ from the label."""
    for x, r in pairs:
        found = {str(f) for f in r.findings}
        closed = not r.needs_human
        wrong_close = (closed and "plain" not in x.tags and x.tier != "none") or (not closed and "plain" in x.tags)
        if (
            (str(r.urgency) != x.tier and not {str(r.urgency), x.tier} <= {"none", "routine"})
            or found != x.findings
            or wrong_close
        ):
            print(
                f"{x.tier[:4]}>{str(r.urgency)[:4]} {sorted(x.findings)} > {sorted(found)} {list(r.extra)} "
                f"[{','.join(x.tags)}] {x.asked}: {x.text}"
            )


def write_into(document: Path) -> None:
    """Replaces what stands between the score marks of a document by the tables of all parts but the building part."""
    tables = io.StringIO()
    with redirect_stdout(tables):
        for part, language in (
            ("scored", "en"), ("scored", "es"), ("fresh", "en"), ("voices", "en"), ("voices", "es")
        ):
            pairs = [(reply, read_labelled(reply, language)) for reply in load(part, language)]
            title = {"en": "English", "es": "Spanish"}[language] + f", {part} part"
            show(pairs, title, short=part in ("fresh", "voices"))
        show_questions()
    text = document.read_text(encoding="utf-8")
    before, rest = text.split(BEGIN, 1)
    _, after = rest.split(END, 1)
    document.write_text(f"{before}{BEGIN}\n\n{tables.getvalue().strip()}\n\n{END}{after}", encoding="utf-8")


def main() -> None:
    """Command line."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--part", default="scored", choices=("build", "scored", "fresh", "voices"))
    parser.add_argument("--language", default="", choices=("", "en", "es"))
    parser.add_argument("--errors", action="store_true")
    parser.add_argument("--brief", action="store_true")
    parser.add_argument("--into", type=Path, help="a Markdown file whose text between the score marks is replaced")
    args = parser.parse_args()
    if args.into:
        write_into(args.into)
        return
    for language in [args.language] if args.language else ["en", "es"]:
        if not (FOLDER / f"{args.part}_{language}.tsv").exists():
            continue
        replies = load(args.part, language)
        read("warm up", language=language)
        begun = time.perf_counter()
        pairs = [(reply, read_labelled(reply, language)) for reply in replies]
        taken = 1000 * (time.perf_counter() - begun) / len(replies)
        if args.brief:
            print(language, args.part, brief(pairs))
        elif not args.errors:
            show(pairs, {"en": "English", "es": "Spanish"}[language] + f", {args.part} part")
        if args.errors and args.part == "voices":
            print("the voices part is counted, never read")
        elif args.errors:
            errors(pairs)
        print(f"{taken:.2f} ms a reply")


if __name__ == "__main__":
    main()
