"""How long a whole plan takes with all its drawings, and how large a unit's packet is; printed, never asserted.

`PYTHONPATH=tests taskset -c 0 python tests/bench/bench_plan.py`. Processor time, the best of some, so that what else
runs on the machine counts little. Against: numpy's least squares of the same edges alone.
"""

import gzip
from time import process_time

import numpy as np
from plan.conftest import PEOPLE, UNIT, plan, some_plans

from fieldapp.plan import packet
from fieldapp.work.registry import CALCULATORS

TIMES = 20
WANTED_MS, WANTED_BYTES = 50, 60_000
EDGES = [{"at": 100 + 250.4 * n + part, "edge": edge, "z": z} for n in range(6)
         for part, edge in ((0, "outer_start"), (110, "outer_end")) for z in (0, 2093)]
ASKED = {
    "opening": CALCULATORS["opening"].example,
    "layout": CALCULATORS["layout"].example | {
        "edges": EDGES, "opening": {"width": 926, "height": 2093}, "between": [60, 2200],
        "swing": {"hand": "left", "leaf": 880, "clear_from": 0, "clear_to": 2400}},
    "cut": CALCULATORS["cut"].example,
    "fixings": CALCULATORS["fixings"].example,
    "seal": CALCULATORS["seal"].example,
    "sealant": CALCULATORS["sealant"].example,
}


def timed(what):
    """Milliseconds of processor time, the best of TIMES after one to warm up."""
    what()
    taken = []
    for _ in range(TIMES):
        begun = process_time()
        what()
        taken.append(process_time() - begun)
    return 1000 * min(taken)


def worked(name):
    """A calculator's whole answer with its drawings."""
    made = CALCULATORS[name]
    answer, problems = made.answer(ASKED[name])
    assert not problems, problems
    return answer, made.drawings(ASKED[name], answer)


def fitted():
    """The least squares of the same edges, already numbered."""
    rows = [[1, n, part, z / 2093] for n in range(6) for part in (0, 1) for z in (0, 2093)]
    return np.linalg.lstsq(np.array(rows), np.array([edge["at"] for edge in EDGES]), rcond=None)


def main():
    """Print times and sizes."""
    parts = {"packet with its drawings": timed(lambda: packet.build(plan(), UNIT, PEOPLE))}
    parts |= {name: timed(lambda name=name: worked(name)) for name in ASKED}
    for name, taken in parts.items():
        pictures = len(worked(name)[1]) if name in ASKED else len(packet.build(plan(), UNIT, PEOPLE).packet["drawings"])
        print(f"{taken:7.2f} ms  {name}, {pictures} drawings")
    print(f"{sum(parts.values()):7.2f} ms  a whole plan with all drawings (wanted: under {WANTED_MS}); "
          f"numpy, the same edges, one fit: {timed(fitted):.2f} ms")
    built = [packet.build(plan(**chosen), UNIT, PEOPLE) for chosen in some_plans()]
    sizes = sorted(len(gzip.compress(one.packet_bytes)) for one in built)
    shared = max(sum(len(gzip.compress(part)) for part in one.parts.values()) for one in built)
    print(f"packet of a unit, compressed, without shared parts: {sizes[0]} to {sizes[-1]} bytes over {len(built)} "
          f"plans (wanted: under {WANTED_BYTES}); its parts, shared by units: up to {shared} bytes")


if __name__ == "__main__":
    main()
