"""How fast `layout` answers, whole lines as they come; times are printed, never asserted.

`python tests/bench/bench_layout.py`. Against: scipy's least squares over the same edges, numbered beforehand.
"""

from time import process_time

import numpy as np
from scipy.optimize import least_squares

from fieldapp.work.registry import CALCULATORS

TIMES = 10


def wall(rng, count, long, wrong):
    """An end wall of `long` mm with `count` edges read, `wrong` of them misread; and the flats they belong to."""
    number, end = rng.integers(0, int(long / 251), count), rng.integers(0, 2, count)
    at = 100 + 250.7 * number + 110 * end + rng.normal(0, 1, count)
    at[rng.choice(count, wrong, replace=False)] += 25.4
    edges = [{"at": round(float(a), 1), "edge": ("outer_start", "outer_end")[e], "z": int(z)}
             for a, e, z in zip(at, end, rng.choice([0, 2000], count), strict=True)]
    line = {"wall": "corrugated end", "edges": edges, "wall_from": 0, "wall_to": long, "opening": {"width": 926},
            "flange": {"covers": 50, "needs_land": 25}}
    return line, (number.astype(float), end.astype(float), at)


def theirs(number, end, at):
    """scipy's fit of phase, pitch and outer flat."""
    return least_squares(lambda x: np.concatenate([x[0] + x[1] * number + x[2] * end - at, [(x[1] - 250) / 3,
                                                                                           (x[2] - 110) / 2]]),
                         [at[0], 250, 110], x_scale=[1, 0.1, 1])


def timed(what, *of):
    """Milliseconds of processor time, the mean of a few after one to warm up."""
    what(*of)
    begun = process_time()
    for _ in range(TIMES):
        what(*of)
    return 1000 * (process_time() - begun) / TIMES


def main():
    """Print the times."""
    rng = np.random.default_rng(5)
    for count, long, wrong in ((6, 2400, 0), (36, 12_000, 0), (36, 12_000, 2), (200, 30_000, 0), (200, 30_000, 5)):
        line, fitted = wall(rng, count, long, wrong)
        ours, scipys = timed(CALCULATORS["layout"].answer, line), timed(theirs, *fitted)
        print(f"{count} edges over {long / 1000:g} m, {wrong} misread: {ours:.1f} ms for the whole answer; "
              f"scipy, one fit of edges already numbered: {scipys:.1f} ms")


if __name__ == "__main__":
    main()
