"""How long the phone takes for a whole frame answer, in Chromium slowed down four times; printed, never asserted.

Run: python tests/bench/bench_frame_phone.py. Two rounds of fourteen readings with a correction between them; target
under 16 ms after the last keystroke. The first answer of a page also compiles the modules, and is printed by itself.
"""

import statistics
import sys
import threading
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path

import numpy as np
from playwright.sync_api import sync_playwright

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from browsers import FLAGS, _Quiet, chromium
from frame_world import frame

from fieldapp.places import folder
from fieldapp.trade.frame import sheet

SLOWER, CASES = 4, 40
SCRIPT = """async ([module, sheet, cases]) => {
  const {answer} = await import(module);
  const took = [];
  for (const given of cases) {
    await new Promise(done => setTimeout(done, 20));
    const begun = performance.now();
    answer(sheet, given);
    took.push(performance.now() - begun);
  }
  return took;
}"""


def cases(rng):
    """What is given, two rounds each."""
    made = []
    for _ in range(CASES):
        one = frame(rng)
        rounds = [{"readings": one.round(), "done": [{"do": "push_head_left", "by": 3.0}]}, {"readings": one.round()}]
        made.append({"rounds": rounds})
    return made


def main():
    """Print the first answer's time and the median of the others."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder("static"))))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    origin = f"http://127.0.0.1:{server.server_address[1]}"
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=chromium(), args=FLAGS)
        page = browser.new_page()
        page.goto(origin + "/")
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        asked = [origin + "/phone/estimate.js", sheet(914, 2057, "left"), cases(np.random.default_rng(5))]
        first, *rest = page.evaluate(SCRIPT, asked)
        browser.close()
    server.shutdown()
    server.server_close()
    usual = statistics.median(rest)
    print(f"{SLOWER}× slower: first {first:.1f} ms, then median {usual:.1f}, quickest {min(rest):.1f} ms")


if __name__ == "__main__":
    main()
