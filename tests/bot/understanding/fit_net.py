"""Fits the second reader on the building part of the labelled replies and writes its weights.

    python tests/bot/understanding/fit_net.py --language en

Needs scikit-learn, which the program itself does not: the weights are shipped as data and used in plain Python. The
scored part is never read here.
"""

from __future__ import annotations

import argparse
import json
import math
import random
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]
sys.path[:0] = [str(ROOT), str(Path(__file__).parent)]

from score import Labelled, load  # noqa: E402

from bot.understanding.language import language_of  # noqa: E402
from bot.understanding.net import seen  # noqa: E402

STRENGTH = 20.0  # inverse of the ridge penalty
LEAST = 0.12  # weights below this in both tables are dropped
TABLES = {"urgent": {"urgent", "emergency"}, "emergency": {"emergency"}}


def vector(reply: Labelled, language: str) -> dict[str, float]:
    """Presence of the model's features, scaled to unit length."""
    found = seen(reply.text, language_of(language))
    return dict.fromkeys(found, 1 / math.sqrt(max(len(found), 1)))


def fit(replies: list[Labelled], language: str) -> dict[str, tuple[float, float]]:
    """Weights (urgent, emergency) by feature; the biases under ''."""
    from sklearn.feature_extraction import DictVectorizer
    from sklearn.linear_model import LogisticRegression

    vectorizer = DictVectorizer()
    matrix = vectorizer.fit_transform([vector(reply, language) for reply in replies])
    names = vectorizer.get_feature_names_out()
    tables = {}
    for table, tiers in TABLES.items():
        model = LogisticRegression(C=STRENGTH, class_weight="balanced", max_iter=3000)
        model.fit(matrix, [reply.tier in tiers for reply in replies])
        tables[table] = {"": float(model.intercept_[0])} | {
            name: float(weight) for name, weight in zip(names, model.coef_[0], strict=True)
        }
    return {
        name: (round(tables["urgent"][name], 2), round(tables["emergency"][name], 2))
        for name in tables["urgent"]
        if not name or max(abs(tables[table][name]) for table in TABLES) >= LEAST
    }


def held_out(replies: list[Labelled], language: str, folds: int = 5) -> list[tuple[Labelled, dict[str, float]]]:
    """Each reply with the probabilities of a model that has not seen it."""
    from bot.understanding.net import score

    shuffled = random.Random(7).sample(replies, len(replies))
    result = []
    for fold in range(folds):
        table = fit([reply for n, reply in enumerate(shuffled) if n % folds != fold], language)
        for reply in shuffled[fold::folds]:
            found = seen(reply.text, language_of(language))
            result.append((reply, dict(zip(("urgent", "emergency"), score(found, table), strict=True))))
    return result


def main() -> None:
    """Command line."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--language", default="en")
    parser.add_argument("--check", action="store_true", help="five-fold check instead of writing the weights")
    args = parser.parse_args()
    replies = load("build", args.language)
    if args.check:
        for table, tiers in TABLES.items():
            pairs = [
                (reply.tier in tiers, reply.tier in TABLES["urgent"], found[table])
                for reply, found in held_out(replies, args.language)
            ]
            for bar in (0.5, 0.6, 0.7, 0.8, 0.85, 0.9):
                hit = [p > bar for wanted, _, p in pairs if wanted]
                false = [p > bar for _, top, p in pairs if not top]
                print(f"{table} above {bar}: {sum(hit)}/{len(hit)} found, harmless {sum(false)}/{len(false)}")
        return
    table = fit(replies, args.language)
    place = ROOT / "bot" / "understanding" / f"net_{args.language}.json"
    place.write_text(
        json.dumps(table, ensure_ascii=False, separators=(",", ":"), sort_keys=True) + "\n", encoding="utf-8"
    )
    print(place.name, len(table), "features,", place.stat().st_size, "bytes")


if __name__ == "__main__":
    main()
