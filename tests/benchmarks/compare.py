"""What delivery costs, beside the schedulers and queues that one would otherwise use, and beside bare SQL. One command:

    .venv/bin/uv pip install --group bench
    .venv/bin/python tests/benchmarks/compare.py [--sizes 1000 10000 100000] [--only bf]

Prints Markdown tables and draws deploy/pictures/cost.png. All in one run on one machine: the ratios count, not the
figures. The work is the same for all: render the message from its facts, send it over an instant network, mark it.
"""

from __future__ import annotations

import argparse
import asyncio
import sys
import tempfile
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent / "support")]

import alone  # noqa: E402
from contest import A_DAY, Contestant, contestants, killed, peak, stored  # noqa: E402
from peers import PEERS  # noqa: E402
from postgres import Server, server  # noqa: E402


def show(line: str) -> None:
    print(line, flush=True)


def peaks(running: Server, count: int, limit: float, everyone: list[Contestant]) -> None:
    """b. and d.: all due at once; how many a second, how late, and how soon the first."""
    show(f"\n{count:,} due at once\n\n| | database | messages a second | first after | half after | 99 % after |"
         "\n|---|---|---|---|---|---|")
    for one in everyone:
        found = _in_place(one, running, lambda place, one=one: peak(one, place, count, limit))
        if found.done == count:
            show(f"| {one.name} | {one.where} | {found.rate:,.0f} | {1000 * found.first:,.0f} ms | {found.half:.2f} s |"
                 f" {found.p99:.2f} s |")
        else:
            show(f"| {one.name} | {one.where} | not done in {limit:.0f} s | | | |")


def kills(running: Server, count: int, limit: float, everyone: list[Contestant]) -> None:
    """f.: SIGKILL in the middle, then one restart."""
    show(f"\n{count:,} due at once, killed in the middle, started once more\n\n| | database | lost | twice |"
         "\n|---|---|---|---|")
    for one in everyone:
        if one.where == "memory":
            show(f"| {one.name} | {one.where} | all that waits | 0 |")
            continue
        lost, twice = _in_place(one, running, lambda place, one=one: killed(one, place, count, limit))
        show(f"| {one.name} | {one.where} | {lost:,} | {twice:,} |")


def storing(running: Server, patients: int, limit: float) -> None:
    """a.: what waiting costs."""
    show(f"\n{patients:,} patients waiting, {A_DAY} messages a patient-day; one day held\n\n"
         "| | database | seconds | bytes a patient |\n|---|---|---|---|")
    own = [("**Coatwell**", "sqlite", None), ("**Coatwell**", "postgresql", None)]
    for name, where, peer in [*own, *((peer.name, peer.where, peer) for peer in PEERS if peer.render)]:
        if where == "memory":
            continue
        found = stored(where, peer, patients, limit, running)
        show(f"| {name} | {where} | {found[0]:,.1f} | {found[1] / patients:,.0f} |" if found
             else f"| {name} | {where} | not done in {limit:.0f} s | |")


def _in_place(one: Contestant, running: Server, measure: Any) -> Any:
    with tempfile.TemporaryDirectory() as folder:
        place = running.new_database() if one.where == "postgresql" else folder
        try:
            return measure(place)
        finally:
            if one.where == "postgresql":
                running.drop(place)


def others(folder: str, wanted: str, args: Any) -> None:
    show("\n| | measured | target |\n|---|---|---|")
    if "c" in wanted or "h" in wanted:
        for size in (100_000, args.most):
            cpu, memory = alone.idle(folder, size, 40)
            show(f"| c. CPU of a minute with nothing due, {size:,} patients | {cpu:.2f} s | under 0.1 s |")
            show(f"| h. memory of that process | {memory:.0f} MB | under 150 MB |")
    if "d" in wanted:
        mine, bare = asyncio.run(alone.restart(folder, 100_000))
        show(f"| d. database opened to first message, 100,000 patients (bare SQL {bare:.0f} ms) | {mine:.0f} ms |"
             " under twice bare SQL |")
    if "e" in wanted:
        few, many = (asyncio.run(alone.plan_change(folder, size)) for size in (1000, 100_000))
        show(f"| e. a new version of a plan, with 1,000 and with 100,000 others | {few:.1f} and {many:.1f} ms |"
             " under 5 ms |")
    if "g" in wanted:
        half, most, rate = asyncio.run(alone.words_to_flag(folder, 20_000, 24))
        show("| g. words in to flag out, 20,000 waiting, 30 a second (p50, worst of 24) |"
             f" {half:.2f} and {most:.2f} s | under 1 s |")
        show(f"| b. messages a second at the network's 30 | {rate:.1f} | close to 30 |")
    if "k" in wanted:
        points = asyncio.run(alone.curve(folder, args.most))
        draw(points, HERE.parents[1] / "deploy" / "pictures" / "cost.png")
        for size, look, work in points:
            show(f"| {size:,} patients stored: look for work; expand and claim 100 | {look:.1f} ms; {work:.0f} ms | |")


def draw(points: list[alone.Point], path: Path) -> None:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.4, 3.6), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    sizes = [point[0] for point in points]
    axes.plot(sizes, [point[1] for point in points], marker="o", color="#0b5394", label="look for work, none due")
    axes.plot(sizes, [point[2] for point in points], marker="s", color="#b45f06", label="expand and claim for 100 due")
    axes.set_xscale("log")
    axes.set_yscale("log")
    axes.set_xlabel("patients stored")
    axes.set_ylabel("milliseconds")
    axes.grid(True, which="both", alpha=0.25)
    axes.legend(frameon=False)
    path.parent.mkdir(exist_ok=True)
    figure.savefig(path, dpi=130)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--sizes", type=int, nargs="+", default=[1000, 10_000, 100_000], help="messages, and patients")
    parser.add_argument("--most", type=int, default=1_000_000, help="patients of the curve's last point")
    parser.add_argument("--limit", type=float, default=180.0, help="seconds that one contestant may take")
    parser.add_argument("--only", default="abcdefghk", help="letters of the measurements wanted, e.g. 'bf'")
    args = parser.parse_args()
    everyone = contestants()
    with server() as running:
        for size in args.sizes if "b" in args.only else ():
            peaks(running, size, args.limit, everyone)
        if "f" in args.only:
            kills(running, min(10_000, max(args.sizes)), args.limit, everyone)
        for size in args.sizes if "a" in args.only else ():
            storing(running, size, args.limit)
    with tempfile.TemporaryDirectory() as folder:
        others(folder, args.only, args)
    return 0


if __name__ == "__main__":
    sys.exit(main())
