"""Time grows with size, never with its square. All characters are doubled in `tests/benchmarks/growth.py`; here, those
that once grew so."""

import importlib.util
from pathlib import Path

import pytest

_FILE = Path(__file__).parents[1] / "benchmarks" / "growth.py"
_SPEC = importlib.util.spec_from_file_location("growth", _FILE)
assert _SPEC is not None
assert _SPEC.loader is not None
growth = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(growth)


@pytest.mark.parametrize("mark", ["!", "'", "#", "(", "[", "![", "](", "_", "zxq vbn "])
def test_twice_the_size_takes_about_twice_the_time(mark, language):
    seconds = growth.timer(language)
    times = list(growth.times_of(mark, seconds, (2_000, 4_000, 8_000)))
    assert len(times) == 3
    assert times[-1] < max(3.2 * times[-2], 1.0), times
