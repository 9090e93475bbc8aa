"""The sense of an activity's words with its notes: for each word, how much it speaks of care for each hazard.

The tables in ``data/sense.npz`` are the lower layers of an open sentence encoder, trained further on activities that
were written and labelled for this purpose (``tests/safety/README.md``). Weights are whole numbers with a scale for each
column. Running them takes nothing but numpy. Results are rounded, so that two machines do not differ in what they say.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from lint_rules.tables import table_path

Numbers = NDArray[np.float32]
_HEADS = 12
_ROUND = 2  # decimals that are kept: what different processors agree on


@dataclass(frozen=True, slots=True)
class Words:
    """What is read at once: numbers of word pieces and of the places where they stand."""

    pieces: tuple[int, ...]
    places: tuple[int, ...]


@dataclass(frozen=True)
class _Layer:
    inner: tuple[Numbers, Numbers]
    out: tuple[Numbers, Numbers]
    up: tuple[Numbers, Numbers]
    down: tuple[Numbers, Numbers]
    norms: tuple[Numbers, Numbers, Numbers, Numbers]


@dataclass(frozen=True)
class _Tables:
    pieces: NDArray[np.int8]  # as stored: a text needs few of these rows
    scale_of_pieces: Numbers
    positions: Numbers
    places: Numbers
    norm: tuple[Numbers, Numbers]
    layers: tuple[_Layer, ...]
    head: tuple[Numbers, Numbers]
    hazards: tuple[str, ...]


def hazard_ids() -> tuple[str, ...]:
    """The hazards that the tables know, in the order of the columns of what ``of_care`` gives."""
    return _tables().hazards


def of_care(read: Sequence[Words]) -> list[Numbers]:
    """For each sequence a table: a row a piece, a column a hazard; what is high names a care for it."""
    if not read:
        return []
    tables = _tables()
    lengths = [len(one.pieces) for one in read]
    ids = np.concatenate([np.array(one.pieces) for one in read])
    places = np.concatenate([np.array(one.places) for one in read])
    at = np.concatenate([np.arange(length) for length in lengths])
    pieces = tables.pieces[ids].astype(np.float32) * tables.scale_of_pieces[ids]
    x = _normal(pieces + tables.positions[at] + tables.places[places], *tables.norm)
    for layer in tables.layers:
        x = _through(x, layer, lengths)
    weights, bias = tables.head
    scores = np.round(x @ weights + bias, _ROUND)
    return [np.asarray(part) for part in np.split(scores, np.cumsum(lengths)[:-1])]


def _through(x: Numbers, layer: _Layer, lengths: Sequence[int]) -> Numbers:
    inner = x @ layer.inner[0] + layer.inner[1]
    seen = np.empty_like(x)
    at = 0
    for length in lengths:
        asked, key, value = inner[at : at + length].reshape(length, 3, _HEADS, -1).transpose(1, 2, 0, 3)
        weight = asked @ key.transpose(0, 2, 1) * np.float32(asked.shape[-1] ** -0.5)
        weight = np.exp(weight - weight.max(-1, keepdims=True))
        weight /= weight.sum(-1, keepdims=True)
        seen[at : at + length] = (weight @ value).transpose(1, 0, 2).reshape(length, -1)
        at += length
    x = _normal(x + seen @ layer.out[0] + layer.out[1], *layer.norms[:2])
    up = x @ layer.up[0] + layer.up[1]
    # The usual bend between the two (GELU), by way of exp, which numpy does fast.
    slope = np.maximum(np.float32(1.5957691) * (up + np.float32(0.044715) * up * up * up), np.float32(-80))
    bent = up / (1 + np.exp(-slope))
    return _normal(x + bent @ layer.down[0] + layer.down[1], *layer.norms[2:])


def _normal(x: Numbers, gain: Numbers, bias: Numbers) -> Numbers:
    x = x - x.mean(-1, keepdims=True)
    return np.asarray(x / np.sqrt((x * x).mean(-1, keepdims=True) + np.float32(1e-12)) * gain + bias)


@cache
def _tables() -> _Tables:
    with np.load(table_path("sense.npz"), allow_pickle=False) as stored:

        def whole(name: str) -> Numbers:
            return np.asarray(stored[name].astype(np.float32) * stored[f"{name}.scale"].astype(np.float32))

        def plain(name: str) -> Numbers:
            return np.asarray(stored[name], dtype=np.float32)

        def pair(name: str) -> tuple[Numbers, Numbers]:
            return whole(name), plain(f"{name}.bias")

        layers = tuple(
            _Layer(
                inner=pair(f"{index}.inner"),
                out=pair(f"{index}.out"),
                up=pair(f"{index}.up"),
                down=pair(f"{index}.down"),
                norms=_four(plain(f"{index}.norms")),
            )
            for index in range(int(stored["layers"]))
        )
        norm = plain("norm")
        hazards: Any = stored["hazards"]
        return _Tables(
            stored["pieces"],
            plain("pieces.scale"),
            plain("positions"),
            plain("places"),
            (norm[0], norm[1]),
            layers,
            (plain("care"), plain("care.bias")),
            tuple(str(name) for name in hazards),
        )


def _four(norms: Numbers) -> tuple[Numbers, Numbers, Numbers, Numbers]:
    return norms[0], norms[1], norms[2], norms[3]
