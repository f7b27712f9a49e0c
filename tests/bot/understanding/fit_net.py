"""Fits the second reader on the building part of the labelled replies and writes its weights.

    python tests/bot/understanding/fit_net.py --language en
    python tests/bot/understanding/fit_net.py --language en --check     leave one author out, the whole reader

Needs scikit-learn, which the program itself does not: the weights are shipped as data and used in plain Python. The
scored, fresh and voices parts are never read here.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
from collections import Counter
from collections.abc import Iterable, Mapping
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]
sys.path[:0] = [str(ROOT), str(Path(__file__).parent)]

from score import Labelled, Pairs, author_of, brief, load, read_labelled  # noqa: E402

from bot.understanding import net  # noqa: E402
from bot.understanding.language import language_of  # noqa: E402

STRENGTH = 20.0  # inverse of the ridge penalty
OTHER_AUTHOR = 4.0  # weight of a reply by another author than the rules': its words are nearer to what will come
LEAST_SEEN = 2  # a feature of one reply only says nothing of the next
LEAST = 0.15  # weights below this in both tables are dropped
TABLES = {"urgent": {"urgent", "emergency"}, "emergency": {"emergency"}}
Table = dict[str, tuple[float, float]]


def fit(replies: list[Labelled], language: str) -> Table:
    """Weights (urgent, emergency) by feature; the biases under ''."""
    from sklearn.feature_extraction import DictVectorizer
    from sklearn.linear_model import LogisticRegression

    known = language_of(language)
    found = [net.seen(reply.text, known) for reply in replies]
    times = Counter(name for names in found for name in names)
    rows = [
        {name: 1 / math.sqrt(max(len(names), 1)) for name in names if times[name] >= LEAST_SEEN} for names in found
    ]
    vectorizer = DictVectorizer()
    matrix = vectorizer.fit_transform(rows)
    matrix.indices, matrix.indptr = matrix.indices.astype("int32"), matrix.indptr.astype("int32")
    tables = []
    for tiers in TABLES.values():
        model = LogisticRegression(C=STRENGTH, class_weight="balanced", max_iter=1000, solver="liblinear")
        model.fit(
            matrix,
            [reply.tier in tiers for reply in replies],
            sample_weight=[OTHER_AUTHOR if author_of(reply) else 1.0 for reply in replies],
        )
        tables.append([float(model.intercept_[0]), *model.coef_[0].tolist()])
    names = ["", *vectorizer.get_feature_names_out()]
    return {
        name: (round(urgent, 2), round(emergency, 2))
        for name, urgent, emergency in zip(names, *tables, strict=True)
        if not name or max(abs(urgent), abs(emergency)) >= LEAST
    }


def without_author(replies: list[Labelled], language: str) -> Iterable[tuple[str, Pairs]]:
    """Each other author's replies, read with a net that has seen none of them."""
    shipped = net.weights
    for author in sorted({author_of(reply) for reply in replies} - {""}):
        table: Mapping[str, tuple[float, float]] = fit([r for r in replies if author_of(r) != author], language)
        net.weights = lambda _language, table=table: table  # type: ignore[assignment,misc]
        try:
            yield author, [(r, read_labelled(r, language)) for r in replies if author_of(r) == author]
        finally:
            net.weights = shipped


def main() -> None:
    """Command line."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--language", default="en")
    parser.add_argument("--check", action="store_true", help="leave one author out instead of writing the weights")
    args = parser.parse_args()
    replies = load("build", args.language) + load("questions_build", args.language)
    if args.check:
        every: Pairs = []
        for author, pairs in without_author(replies, args.language):
            every += pairs
            print(author, brief(pairs))
        print("all", brief(every))
        return
    table = fit(replies, args.language)
    place = ROOT / "bot" / "understanding" / f"net_{args.language}.json"
    place.write_text(
        json.dumps(table, ensure_ascii=False, separators=(",", ":"), sort_keys=True) + "\n", encoding="utf-8"
    )
    print(place.name, len(table), "features,", place.stat().st_size, "bytes")


if __name__ == "__main__":
    main()
