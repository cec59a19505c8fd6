"""The load on the desk, in short: what `make bench` measures at length."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import bench_desk
import pytest


@pytest.mark.slow
def test_a_crowd_loses_nothing_and_dictation_leaves_the_memory_flat():
    """Fifty readers and five writers for three seconds, then five minutes of talk, sent without the pauses.

    How quick it is depends on what else the machine does; `make bench` tells that.
    """
    with ThreadPoolExecutor(1) as pool:  # a browser that other tests drive keeps an event loop in this one
        found = pool.submit(bench_desk.run, 3.0, 52).result()
    assert (0, 0) == (found.gone, found.counts.failed)
    assert 5 < len(found.counts.written)
    assert bench_desk.READERS < len(found.counts.reads_s)
    assert 1 + bench_desk.QUARTERS == len(found.sizes_mb)
    assert found.growth < bench_desk.GROWTH_GOAL
