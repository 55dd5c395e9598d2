"""How fast the frame calculator answers, as ratios within one run; times are printed, never asserted.

`python tests/bench/bench_frame.py [frames]`. Against: scipy's least squares over exact geometry with
each reading left out once, on the same cases (what finding misreadings would cost without the one inversion).
"""

import sys
from pathlib import Path
from time import process_time

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from frame_world import frame
from trade.test_frame_exact import exact_fit

from fieldapp.trade.frame import frame as calculator


def main(frames):
    """Print both times and their ratio."""
    rng = np.random.default_rng(5)
    cases = [(one := frame(rng), one.round()) for _ in range(frames)]
    size = {"width": 914.0, "height": 2057.0, "hinge": "left"}
    begun = process_time()
    for _, readings in cases:
        calculator({"frame": size, "rounds": [{"readings": readings}]})
    ours = (process_time() - begun) / frames
    begun = process_time()
    for one, readings in cases[:3]:
        for left_out in range(len(readings)):
            exact_fit(one, [each for at, each in enumerate(readings) if at != left_out])
    theirs = (process_time() - begun) / len(cases[:3])
    print(f"a whole answer: {1000 * ours:.2f} ms of processor time, {60 / ours:.0f} a minute on one core")
    print(f"scipy, each reading left out once: {1000 * theirs:.0f} ms; {theirs / ours:.0f} times as long")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
