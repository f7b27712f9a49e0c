"""Makes the file that the program reads with: the fitted encoder as an ONNX graph with 8-bit weights.

    python export.py BASE FITTED.npz bot/understanding/encoder.onnx

Matrices are 8-bit whole numbers in blocks of 128 with one scale each; what enters them is rounded to 8 bits too, and
the sums are whole numbers: every machine gives the same result to that rounding.
The word pieces, the names of the outputs and the longest reply travel in
the file's metadata. Needs onnx (the optional group `fit`).
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import numpy as np
import onnx
from onnx import TensorProto, helper, numpy_helper

BLOCK = 128
LONGEST = 96


class Graph:
    """Nodes and weights as they are added; `add` names the result."""

    def __init__(self, weights: dict[str, np.ndarray], eps: float) -> None:
        self.weights, self.eps = weights, eps
        self.nodes: list[Any] = []
        self.kept: dict[str, np.ndarray] = {}

    def keep(self, name: str, value: Any, kind: type = np.float32) -> str:
        self.kept[name] = np.ascontiguousarray(np.asarray(value, dtype=kind))
        return name

    def add(self, kind: str, inputs: list[str], *, output: str = "", domain: str = "", **more: Any) -> str:
        output = output or f"t{len(self.nodes)}"
        self.nodes.append(helper.make_node(kind, inputs, [output], domain=domain, **more))
        return output

    def normal(self, x: str, name: str) -> str:
        both = [self.keep(f"{name}.{part}", self.weights[f"{name}.{part}"]) for part in ("weight", "bias")]
        return self.add("LayerNormalization", [x, *both], axis=-1, epsilon=self.eps)

    def linear(self, x: str, name: str, output: str = "") -> str:
        w, bias = self.weights[f"{name}.weight"], self.keep(f"{name}.bias", self.weights[f"{name}.bias"])
        if w.shape[0] < BLOCK:           # the heads are small: in full
            return self.add("Add", [self.add("MatMul", [x, self.keep(f"{name}.weight", w.T)]), bias], output=output)
        n, k = w.shape
        blocks = w.reshape(n, k // BLOCK, BLOCK)
        scale = np.abs(blocks).max(-1, keepdims=True).clip(1e-8) / 127
        whole = np.round(blocks / scale) + 128
        inputs = [x, self.keep(f"{name}.q", whole, np.uint8), self.keep(f"{name}.scale", scale.reshape(-1))]
        y = self.add("MatMulNBits", inputs, domain="com.microsoft", K=k, N=n, bits=8, block_size=BLOCK,
                     accuracy_level=4)
        return self.add("Add", [y, bias], output=output)


def embedded(g: Graph) -> str:
    w = g.weights["word.weight"]
    scale = np.abs(w).max(1, keepdims=True).clip(1e-8) / 127
    rows = g.add("Gather", [g.keep("word.q", np.round(w / scale), np.int8), "ids"])
    scales = g.add("Gather", [g.keep("word.scale", scale), "ids"])
    x = g.add("Mul", [g.add("Cast", [rows], to=TensorProto.FLOAT), scales])
    length = g.add("Gather", [g.add("Shape", ["ids"]), g.keep("one", [1], np.int64)], axis=0)
    ends = [g.keep("start", [0], np.int64), length, g.keep("axis", [0], np.int64)]
    places = g.keep("positions", g.weights["pos.weight"][:LONGEST] + g.weights["kind.weight"][0])
    return g.normal(g.add("Add", [x, g.add("Slice", [places, *ends])]), "eln")


def build(weights: dict[str, np.ndarray], c: dict[str, Any], meta: dict[str, str]) -> onnx.ModelProto:
    """ids (1 x length) -> p (1 x outputs) and places (1 x length x findings), all probabilities."""
    g = Graph(weights, c["eps"])
    x = embedded(g)
    heads, size = c["heads"], c["hidden"] // c["heads"]
    split = g.keep("split", [0, 0, heads, size], np.int64)
    whole = g.keep("whole", [0, 0, c["hidden"]], np.int64)
    soft = g.keep("soft", size**-0.5)
    for layer in range(c["layers"]):
        name = f"layers.{layer}"
        q, k, v = (g.add("Reshape", [g.linear(x, f"{name}.{one}"), split]) for one in "qkv")
        q, v = (g.add("Transpose", [one], perm=[0, 2, 1, 3]) for one in (q, v))
        k = g.add("Transpose", [k], perm=[0, 2, 3, 1])
        seen = g.add("Softmax", [g.add("Mul", [g.add("MatMul", [q, k]), soft])], axis=-1)
        out = g.add("Reshape", [g.add("Transpose", [g.add("MatMul", [seen, v])], perm=[0, 2, 1, 3]), whole])
        x = g.normal(g.add("Add", [x, g.linear(out, f"{name}.ao")]), f"{name}.aln")
        inner = g.add("Gelu", [g.linear(x, f"{name}.fi")])
        x = g.normal(g.add("Add", [x, g.linear(inner, f"{name}.fo")]), f"{name}.oln")
    axis = g.keep("axis1", [1], np.int64)
    both = g.add("Concat", [g.add("ReduceMean", [x, axis], keepdims=0), g.add("ReduceMax", [x, axis], keepdims=0)],
                 axis=-1)
    g.add("Sigmoid", [g.linear(g.add("Tanh", [g.linear(both, "hidden")]), "out")], output="p")
    g.add("Sigmoid", [g.linear(x, "token")], output="places")
    graph = helper.make_graph(
        g.nodes, "reader", [helper.make_tensor_value_info("ids", TensorProto.INT64, [1, "length"])],
        [helper.make_tensor_value_info("p", TensorProto.FLOAT, None),
         helper.make_tensor_value_info("places", TensorProto.FLOAT, None)],
        [numpy_helper.from_array(value, name) for name, value in g.kept.items()])
    model = helper.make_model(graph, opset_imports=[helper.make_opsetid("", 20),
                                                    helper.make_opsetid("com.microsoft", 1)], ir_version=10)
    helper.set_model_props(model, meta)
    return model


def loaded(path: Path) -> dict[str, np.ndarray]:
    held = np.load(path)
    return {name: held[name].astype(np.float32) for name in held.files}


def main() -> None:
    base, fitted, out = map(Path, sys.argv[1:4])
    from fit import CONTEXTS, FINDINGS

    tokenizer = json.loads((base / "tokenizer.json").read_text(encoding="utf-8"))
    meta = {"pieces": json.dumps([[piece, round(score, 4)] for piece, score in tokenizer["model"]["vocab"]],
                                 ensure_ascii=False, separators=(",", ":")),
            "findings": " ".join(FINDINGS), "contexts": " ".join(CONTEXTS), "longest": str(LONGEST)}
    onnx.save(build(loaded(fitted), json.loads((base / "base.json").read_text()), meta), out)
    print(f"{out.stat().st_size / 1e6:.1f} MB")


if __name__ == "__main__":
    main()
