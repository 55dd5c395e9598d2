"""The phone's shell over the wire, and its cold start without network. Bytes are held to a limit; times are printed."""

import gzip
import json
import statistics
import urllib.request

import pytest
from browsers import FLAGS, chromium, driver
from demos import running
from faults import FaultProxy
from phones import SIZE, Phone

SHELL_LIMIT = 45_000
SLOWER = 4
STARTS = 7
UNWATCHED_MS = 3000


@pytest.fixture(scope="module")
def demo():
    with running() as found:
        yield found


def fetched(address, path):
    """Bytes of `path` as they go over the wire to whoever takes gzip."""
    request = urllib.request.Request(address + path, headers={"Accept-Encoding": "gzip"})
    with urllib.request.urlopen(request, timeout=30) as answer:
        return answer.read()


def test_shell_over_the_wire(demo):
    body = fetched(demo.address, "/shell.json")
    shell = json.loads(gzip.decompress(body) if body[:2] == b"\x1f\x8b" else body)
    sizes = {path: len(fetched(demo.address, path)) for path in shell["files"]}
    later = sum(len(fetched(demo.address, path)) for path in shell["later"])
    total = sum(sizes.values())
    print(f"\nshell: {len(sizes)} files, {total} bytes; later: {len(shell['later'])} files, {later} bytes")
    assert total < SHELL_LIMIT, sorted(((n, path) for path, n in sizes.items()), reverse=True)[:8]


@pytest.mark.bench
def test_cold_start_without_network(demo, tmp_path):
    """A new window at a step, no network, the processor four times slower: ms from its start to its screen.

    The browser keeps its profile on disk, as a phone's does.
    """
    program = chromium()
    proxy = FaultProxy(demo.address)
    context = driver().chromium.launch_persistent_context(
        str(tmp_path), executable_path=program, args=FLAGS, viewport=SIZE)
    phone = Phone(context, proxy, demo).start("lena")
    unit, step = phone.run("""const all = await store.units();
        for (const unit of all) await store.noteUnit(unit.id, {seen: true});
        const {whole} = await part('packet'); const {packet} = await whole(all[0].packet);
        return [all[0].id, packet.steps[0].id];""")
    phone.page.close()
    context.set_offline(True)
    took = [_start(phone, f"{proxy.address}/#unit/{unit}/step/{step}") for _ in range(STARTS)]
    context.close()
    proxy.close()
    assert phone.errors == []
    print(f"\ncold start at {SLOWER}x: median {statistics.median(took):.0f} ms of {[round(ms) for ms in took]}")


def _start(phone, address):
    page = phone.window()
    phone.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(address, wait_until="commit")
    page.wait_for_timeout(UNWATCHED_MS)  # a driver that looks on takes its share of the slowed processor
    page.wait_for_selector("body[data-screen=step]")
    took = page.evaluate("performance.getEntriesByName('usable')[0].startTime")
    page.close()
    return took
