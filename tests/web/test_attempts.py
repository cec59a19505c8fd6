"""Tries that are slowed down."""

from __future__ import annotations

from saywright.web.attempts import MAX_KEYS, Attempts, Patience

SLOW = Patience(free=3, longest_s=60.0, forget_s=600.0)


def waits(attempts, times, key="ada", patience=SLOW):
    """What a try at each of these seconds has to wait."""
    return [attempts.take((("name", key, patience),), now_s) for now_s in times]


def test_the_wait_doubles():
    """Three tries are free, then one second, two, four, up to the longest."""
    attempts, now_s, seen = Attempts(), 0.0, []
    for _ in range(12):
        wait_s = attempts.take((("name", "ada", SLOW),), now_s)
        seen.append(wait_s)
        now_s += wait_s
        if wait_s:
            attempts.take((("name", "ada", SLOW),), now_s)
    assert [0.0, 0.0, 0.0, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 60.0, 60.0, 60.0] == seen


def test_a_try_that_comes_too_soon_is_not_counted():
    """Hammering makes the wait no longer, and no shorter."""
    attempts = Attempts()
    assert [0.0, 0.0, 0.0, 0.5, 0.5, 0.25, 0.0] == waits(attempts, [0, 0, 0, 0.5, 0.5, 0.75, 1.0])


def test_many_at_once_are_counted():
    """A burst gets the free tries and no more, since each is counted before it is checked."""
    assert 3 == waits(Attempts(), [5.0] * 50).count(0.0)


def test_a_right_try_clears_the_name():
    """After it the free tries are there again."""
    attempts = Attempts()
    waits(attempts, [0, 0, 0])
    attempts.clear("name", "ada")
    assert [0.0, 0.0, 0.0] == waits(attempts, [0, 0, 0])


def test_failures_are_forgotten_after_a_while():
    """Ten minutes of quiet, as set here, and all is as at first."""
    attempts = Attempts()
    waits(attempts, [0, 0, 0])
    assert 0.0 < waits(attempts, [0.5])[0]
    assert [0.0, 0.0, 0.0] == waits(attempts, [700, 700, 700])


def test_keys_do_not_touch_each_other():
    """Another name waits for nothing; a try that one key stops counts on none."""
    attempts = Attempts()
    waits(attempts, [0, 0, 0])
    assert [0.0] == waits(attempts, [0], key="ben")
    both = (("name", "ada", SLOW), ("address", "192.0.2.40", SLOW))
    assert 0.0 < attempts.take(both, 0.0)
    assert [0.0, 0.0, 0.0] == [attempts.take((both[1],), 0.0) for _ in range(3)]


def test_a_right_try_is_taken_back_from_the_address():
    """What failed before from there still counts: one's own passphrase is no way to clear it."""
    attempts = Attempts()
    waits(attempts, [0, 0, 0])
    attempts.take_back("name", "ada")
    assert [0.0, 1.0] == waits(attempts, [0, 0])


def test_memory_is_bounded():
    """Made-up names push out the oldest and nothing grows for ever."""
    attempts = Attempts()
    for number in range(MAX_KEYS + 50):
        attempts.take((("name", str(number), SLOW),), 0.0)
    assert MAX_KEYS == len(attempts._tries)
