"""Fits the reader's encoder on the labelled replies of the building part.

    python fit.py --base BASE --out OUT                     one fit on all of it; OUT/fitted.npz
    python fit.py --base BASE --out OUT --jobs jobs.json    a list of jobs, each DEFAULTS with what differs and a "name"

BASE: what base.py made. Needs torch, safetensors and tokenizers (the optional group `fit`); a minute on an
accelerator, about three hours on two cores. One model for both languages: heads over the mean and the maximum of the
last layer's vectors (three cumulative tiers, findings, signals, and the reply's contexts as an auxiliary task), and a
head a token for the words that a finding rests on. Each job writes NAME.npz: `p`, a row a reply of replies.json.
"""

from __future__ import annotations

import argparse
import json
import random
import re
import unicodedata
from pathlib import Path
from time import perf_counter
from typing import Any

import numpy as np
import torch
from safetensors.torch import load_file
from tokenizers import Tokenizer
from torch import nn
from torch.nn import functional as F

TIERS = ("none", "routine", "urgent", "emergency")
FINDINGS = [
    "adrenal_sign", "allergic_reaction", "better", "bleeding", "breathing_trouble", "cannot_swallow_saliva",
    "chest_pain", "fever", "herpes_sign", "hoarseness", "impaction_now", "impaction_resolved", "missed_doses",
    "new_medicine", "odynophagia", "pregnancy", "self_harm", "thrush", "wants_stop", "worse_dysphagia",
    "x:taken_twice", "x:another_took", "x:exposure", "x:marked_dysphagia", "x:keeps_vomiting", "x:collapse",
    "x:airway_swelling", "x:none_left", "x:other_sign", "x:call_for_help",
]
CONTEXTS = ["denied", "other_person", "past", "supposed", "asked", "scary", "plain"]
N = 3 + len(FINDINGS)
DEFAULTS: dict[str, Any] = {
    "seed": 1, "epochs": 10, "lr": 2e-4, "head_lr": 1e-3, "decay": 0.9, "batch": 64, "weight_decay": 0.01,
    "dropout": 0.1, "warmup": 0.06, "noise": 0.4, "join": 0.25, "smooth": 0.02, "fgm": 1.0, "author_weight": 2.0,
    "leave": [],        # authors left out
    "only": [],         # [] or the only authors kept beside the rules' own
    "own": 1.0,         # the share kept of the replies by no other author
    "save": False,
}


class Layer(nn.Module):
    """One layer of BERT (Devlin 2019), as published."""

    def __init__(self, c: dict[str, Any], dropout: float) -> None:
        super().__init__()
        h = c["hidden"]
        self.heads, self.p = c["heads"], dropout
        self.q, self.k, self.v, self.ao = (nn.Linear(h, h) for _ in range(4))
        self.fi, self.fo = nn.Linear(h, c["ff"]), nn.Linear(c["ff"], h)
        self.aln, self.oln = nn.LayerNorm(h, eps=c["eps"]), nn.LayerNorm(h, eps=c["eps"])
        self.drop = nn.Dropout(dropout)

    def forward(self, x: torch.Tensor, mask: torch.Tensor) -> torch.Tensor:
        b, n, h = x.shape
        q, k, v = (m(x).view(b, n, self.heads, -1).transpose(1, 2) for m in (self.q, self.k, self.v))
        a = F.scaled_dot_product_attention(q, k, v, attn_mask=mask, dropout_p=self.p if self.training else 0.0)
        x = self.aln(x + self.drop(self.ao(a.transpose(1, 2).reshape(b, n, h))))
        return self.oln(x + self.drop(self.fo(F.gelu(self.fi(x)))))


class Encoder(nn.Module):
    """ids, keep (batch x length) -> logits of the reply (tiers, findings, contexts) and of each token (findings)."""

    def __init__(self, c: dict[str, Any], dropout: float) -> None:
        super().__init__()
        h = c["hidden"]
        self.word, self.pos = nn.Embedding(c["vocab"], h), nn.Embedding(128, h)
        self.kind = nn.Embedding(c["types"], h)
        self.eln, self.drop = nn.LayerNorm(h, eps=c["eps"]), nn.Dropout(dropout)
        self.layers = nn.ModuleList(Layer(c, dropout) for _ in range(c["layers"]))
        self.hidden, self.out = nn.Linear(2 * h, h), nn.Linear(h, N + len(CONTEXTS))
        self.token = nn.Linear(h, 1 + len(FINDINGS))        # 0: the words that the tier rests on

    def forward(self, ids: torch.Tensor, keep: torch.Tensor) -> tuple[torch.Tensor, torch.Tensor]:
        x = self.word(ids) + self.pos.weight[: ids.shape[1]] + self.kind.weight[0]
        x = self.drop(self.eln(x))
        for layer in self.layers:
            x = layer(x, keep[:, None, None, :])
        m = keep[:, :, None]
        both = torch.cat([(x * m).sum(1) / m.sum(1), x.masked_fill(~m, -1e4).amax(1)], 1)
        return self.out(self.drop(torch.tanh(self.hidden(self.drop(both))))), self.token(self.drop(x))


def unpack_q4(blocks: torch.Tensor) -> torch.Tensor:
    """4-bit blocks of 32 (a half-precision scale, 16 bytes of two nibbles) as numbers."""
    b = blocks.numpy().reshape(-1, 18)
    q = np.concatenate([b[:, 2:] & 15, b[:, 2:] >> 4], 1).astype(np.float32) - 8
    return torch.from_numpy((q * b[:, :2].copy().view("<f2").astype(np.float32)).reshape(blocks.shape[0], -1))


def load_base(folder: Path, dropout: float) -> tuple[Encoder, dict[str, Any], Tokenizer]:
    c = json.loads((folder / "base.json").read_text())
    w = {k.removesuffix(".q4"): unpack_q4(v) if k.endswith(".q4") else v.float()
         for k, v in load_file(str(folder / "base.safetensors")).items()}
    model = Encoder(c, dropout)
    missing, extra = model.load_state_dict(w, strict=False)
    assert not extra and all(m.startswith(("hidden", "out", "token")) for m in missing), (missing, extra)
    return model, c, Tokenizer.from_file(str(folder / "tokenizer.json"))


def plain(text: str) -> str:
    """One spelling of quotes, dashes, spaces and case; as bot/understanding/encoder.py has it."""
    text = unicodedata.normalize("NFKC", text).lower()
    return re.sub(r"\s+", " ", text.translate(str.maketrans("’‘´`“”–—", "''''\"\"--"))).strip()


def shown(row: dict[str, Any], text: str | None = None) -> str:
    return ("parent: " if row["writer"] == "parent" else "") + plain(row["text"] if text is None else text)


KEYS = ("qwertyuiop", "asdfghjkl", "zxcvbnm")
NEAR = {key: row[max(0, at - 1) : at] + row[at + 1 : at + 2] for row in KEYS for at, key in enumerate(row)}


def disturbed(text: str, rng: random.Random) -> str:
    """Slips of the thumb: letters, marks, accents, apostrophes."""
    kind = rng.random()
    if kind < 0.25:
        text = re.sub(r"[.,!?;:¡¿]", "", text)
    elif kind < 0.4:
        text = text.replace("'", "")
    elif kind < 0.55:
        text = "".join(c for c in unicodedata.normalize("NFD", text) if not unicodedata.combining(c))
    elif kind < 0.62:
        text = text.rstrip(".") + rng.choice(["!", "!!", "...", " :(", " pls", " ok?", "??"])
    if rng.random() < 0.6 and text:
        letters = list(text)
        for _ in range(max(1, len(letters) // 40)):
            at = rng.randrange(len(letters))
            way = rng.random()
            if not letters[at].isalpha():
                continue
            if way < 0.3:
                letters[at] = ""
            elif way < 0.5:
                letters[at] *= 2
            elif way < 0.75 and at + 1 < len(letters):
                letters[at], letters[at + 1] = letters[at + 1], letters[at]
            else:
                letters[at] = rng.choice(NEAR.get(letters[at], letters[at]))
        text = "".join(letters)
    return text


def joined(first: dict[str, Any], second: dict[str, Any], rng: random.Random) -> dict[str, Any]:
    """Two replies sent as one: the worse tier, both findings."""
    if rng.random() < 0.5:
        first, second = second, first
    also = {"en": [" and ", ". also ", " btw "], "es": [" y ", ". además ", " por cierto "]}[first["language"]]
    link = rng.choice([". ", ". ", " ", ", ", "! ", " ", *also])
    head = first["text"].rstrip(" .!,") if rng.random() < 0.8 else first["text"]
    return dict(first, text=head + link + second["text"], tier=max(first["tier"], second["tier"], key=TIERS.index),
                findings=sorted({*first["findings"], *second["findings"]}), tags=[], free_tags=True,
                evidence=first["evidence"] + second["evidence"] if first["quoted"] and second["quoted"] else [],
                quoted=first["quoted"] and second["quoted"])


def epoch_rows(rows: list[dict[str, Any]], job: dict[str, Any], rng: random.Random) -> list[dict[str, Any]]:
    """This epoch's replies: each once (some disturbed), and some joined with a harmless one."""
    out = [dict(row, shown=shown(row, disturbed(row["text"], rng) if rng.random() < job["noise"] else None))
           for row in rows]
    by: dict[tuple[str, str], list[dict[str, Any]]] = {}
    for row in rows:
        if row["tier"] == "none" or rng.random() < 0.15:
            by.setdefault((row["language"], row["writer"]), []).append(row)
    for _ in range(int(job["join"] * len(rows))):
        a = rng.choice(rows)
        others = by.get((a["language"], a["writer"]))
        if others and len(a["text"]) <= 200:
            row = joined(a, rng.choice(others), rng)
            out.append(dict(row, shown=shown(row)))
    rng.shuffle(out)
    return out


def tokens_of(row: dict[str, Any], encoded: Any, length: int) -> tuple[np.ndarray, np.ndarray]:
    """Targets and weights of the tokens: 1 where a token lies within quoted words of a finding."""
    y = np.zeros((length, 1 + len(FINDINGS)), np.float32)
    w = np.zeros_like(y)
    if not row["quoted"]:
        return y, w
    w[1 : 1 + len(encoded.ids)] = 0.1
    w[1 : 1 + len(encoded.ids), 0] = 1.0
    for finding, words in row["evidence"]:
        at = row["shown"].find(plain(words))
        if at < 0:
            w[:] = 0                 # disturbed beyond finding: this copy teaches nothing of places
            return y, w
        for n, (a, b) in enumerate(encoded.offsets[: length - 2]):
            if a < at + len(plain(words)) and b > at and b > a:
                y[1 + n, 0] = 1
                if finding in FINDINGS:
                    y[1 + n, 1 + FINDINGS.index(finding)] = 1
                    w[1 + n, 1 + FINDINGS.index(finding)] = 1.0
    return y, w


def target(row: dict[str, Any]) -> list[float]:
    tier = TIERS.index(row["tier"])
    y = [float(tier >= n) for n in (1, 2, 3)] + [float(f in row["findings"]) for f in FINDINGS]
    return y + [float(t in row["tags"]) for t in CONTEXTS]


def weight_of(row: dict[str, Any], job: dict[str, Any]) -> list[float]:
    w = [1.0, 1.5, 1.5] + [0.25] * len(FINDINGS) + [0.0 if row.get("free_tags") else 0.15] * len(CONTEXTS)
    if not row["fresh"]:             # labelled before these signals had names
        for name in ("x:collapse", "x:airway_swelling", "x:none_left", "x:other_sign", "x:call_for_help"):
            w[3 + FINDINGS.index(name)] = 0.0
    return [x * (job["author_weight"] if row["author"] else 1.0) for x in w]


LENGTHS = (32, 64, 96)


def batches_of(plan: list[list[dict[str, Any]]], job: dict[str, Any], tok: Tokenizer, c: dict[str, Any],
               device: str) -> list[tuple[int, list[torch.Tensor]]]:
    """The epochs' batches on the device, in order; each holds replies of one length. An epoch's last part batch of a
    length is left out."""
    batches = []
    shuffle = random.Random(job["seed"])
    for replies in plan:
        held: dict[int, list[Any]] = {n: [] for n in LENGTHS}
        for row, e in zip(replies, tok.encode_batch([r["shown"] for r in replies], add_special_tokens=False),
                          strict=True):
            held[next((n for n in LENGTHS if len(e.ids) + 2 <= n), LENGTHS[-1])].append((row, e))
        some = []
        for n, items in held.items():
            for at in range(0, len(items) // job["batch"] * job["batch"], job["batch"]):
                part = items[at : at + job["batch"]]
                ids = [[c["bos"], *e.ids[: n - 2], c["eos"]] for _, e in part]
                places = [tokens_of(row, e, n) for row, e in part]
                some.append((n, [torch.tensor([one + [c["pad"]] * (n - len(one)) for one in ids]),
                                 torch.tensor([[True] * len(one) + [False] * (n - len(one)) for one in ids]),
                                 torch.tensor([target(r) for r, _ in part]) * (1 - 2 * job["smooth"]) + job["smooth"],
                                 torch.tensor([weight_of(r, job) for r, _ in part]),
                                 torch.from_numpy(np.stack([y for y, _ in places])),
                                 torch.from_numpy(np.stack([w for _, w in places]))]))
        shuffle.shuffle(some)
        batches += some
    return [(n, [t.to(device) for t in rest]) for n, rest in batches]


def chosen(rows: list[dict[str, Any]], job: dict[str, Any]) -> list[dict[str, Any]]:
    rng = random.Random(job["seed"] * 7919)
    kept = [r for r in rows if r["part"] == "build" and r["author"] not in job["leave"]]
    if job["only"]:
        kept = [r for r in kept if r["author"] in ("", *job["only"])]
    return [r for r in kept if r["author"] or rng.random() < job["own"]]


def rates(model: Encoder, job: dict[str, Any]) -> dict[float, list[nn.Parameter]]:
    """Learning rate -> parameters: the heads fastest, the lower layers slowest."""
    sized: dict[float, list[nn.Parameter]] = {}
    for name, p in model.named_parameters():
        if name.startswith(("hidden", "out", "token")):
            lr = job["head_lr"]
        else:
            depth = len(model.layers) - 1 - int(name.split(".")[1]) if name.startswith("layers.") else len(model.layers)
            lr = job["lr"] * job["decay"] ** (depth / 2)
        sized.setdefault(lr, []).append(p)
    return sized


def trained(model: Encoder, batches: list[tuple[int, list[torch.Tensor]]], job: dict[str, Any], device: str) -> None:
    """AdamW; each step once more where the word vectors are moved the worst way (Miyato 2017)."""
    steps = len(batches)
    sized = rates(model, job)
    adam = torch.optim.AdamW([{"params": ps, "lr": lr} for lr, ps in sized.items()], betas=(0.9, 0.98),
                             weight_decay=job["weight_decay"], fused=device == "cuda")
    rise = max(1, int(job["warmup"] * steps))
    model.train()
    for at, (_, (ids, keep, y, w, ty, tw)) in enumerate(batches):
        share = min((at + 1) / rise, max(0.0, (steps - at) / max(1, steps - rise)))
        for group, lr in zip(adam.param_groups, sized, strict=True):
            group["lr"] = lr * share

        def loss(ids=ids, keep=keep, y=y, w=w, ty=ty, tw=tw) -> torch.Tensor:  # type: ignore[no-untyped-def]
            with torch.autocast(device, dtype=torch.bfloat16, enabled=device == "cuda"):
                whole, places = model(ids, keep)
            a = (F.binary_cross_entropy_with_logits(whole.float(), y, reduction="none") * w).sum() / job["batch"]
            b = (F.binary_cross_entropy_with_logits(places.float(), ty, reduction="none") * tw).sum() / (
                tw.sum().clamp_min(1))
            return a + 0.5 * b

        adam.zero_grad(set_to_none=True)
        loss().backward()
        if job["fgm"]:
            p = model.word.weight
            assert p.grad is not None
            move = job["fgm"] * p.grad / (p.grad.norm() + 1e-9)
            p.data.add_(move)
            loss().backward()
            p.data.sub_(move)
        nn.utils.clip_grad_norm_(model.parameters(), 1.0, foreach=True)
        adam.step()


def run(job: dict[str, Any], rows: list[dict[str, Any]], folder: Path, out: Path, device: str) -> str:
    job = {**DEFAULTS, **job}
    begun = perf_counter()
    random.seed(job["seed"])
    np.random.seed(job["seed"])
    torch.manual_seed(job["seed"])
    rng = random.Random(job["seed"])
    model, c, tok = load_base(folder, job["dropout"])
    model.to(device)
    train = chosen(rows, job)
    batches = batches_of([epoch_rows(train, job, rng) for _ in range(job["epochs"])], job, tok, c, device)
    trained(model, batches, job, device)
    model.eval()
    outputs = []
    with torch.no_grad():
        for at in range(0, len(rows), 256):
            ids = [[c["bos"], *e.ids[:94], c["eos"]] for e in tok.encode_batch(
                [shown(r) for r in rows[at : at + 256]], add_special_tokens=False)]
            n = max(map(len, ids))
            grid = torch.tensor([one + [c["pad"]] * (n - len(one)) for one in ids], device=device)
            keep = torch.tensor([[True] * len(one) + [False] * (n - len(one)) for one in ids], device=device)
            outputs.append(torch.sigmoid(model(grid, keep)[0][:, :N].float()).cpu().numpy())
    np.savez_compressed(out / f"{job['name']}.npz", p=np.concatenate(outputs).astype(np.float16))
    if job["save"]:
        state = model.state_dict().items()
        np.savez(out / "fitted.npz", **{name: value.float().cpu().numpy() for name, value in state})
    return f"{job['name']}: {len(train)} replies, {len(batches)} steps, {perf_counter() - begun:.0f} s"


def worker(jobs: Any, rows: list[dict[str, Any]], folder: Path, out: Path, device: str) -> None:
    torch.set_num_threads(2)
    torch.backends.cuda.matmul.allow_tf32 = True
    for job in iter(jobs.get, None):
        try:
            print(run(job, rows, folder, out, device), flush=True)
        except Exception as error:  # one job's fault must not end the rest
            print(job.get("name"), repr(error)[:400], flush=True)


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--base", type=Path, required=True)
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--jobs", type=Path)
    parser.add_argument("--workers", type=int, default=1)
    args = parser.parse_args()
    rows = json.loads((args.base / "replies.json").read_text(encoding="utf-8"))
    args.out.mkdir(parents=True, exist_ok=True)
    jobs = json.loads(args.jobs.read_text()) if args.jobs else [{"name": "full", "save": True}]
    import torch.multiprocessing as mp

    context = mp.get_context("spawn")
    queue = context.Queue()
    for job in jobs:
        queue.put(job)
    count = min(args.workers, len(jobs))
    for _ in range(count):
        queue.put(None)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    workers = [context.Process(target=worker, args=(queue, rows, args.base, args.out, device)) for _ in range(count)]
    for one in workers:
        one.start()
    for one in workers:
        one.join()


if __name__ == "__main__":
    main()
