"""Speaker adaptation: the model's means moved towards one person, and whether that helps.

Three steps, each for frames that were aligned with states (`alignment.py`), whose streams are treated alike:

1. Occupation. Frame o(t) of a state belongs to density d, of weight w, mean mu and variance v, by the share

       g_d(t) = w_d N(o(t); mu_d, v_d) / sum over e of w_e N(o(t); mu_e, v_e)

2. Maximum likelihood linear regression (MLLR; Leggetter and Woodland, Computer Speech and Language 9, 1995): one matrix
   W a stream for all means of speech, mu' = W [mu; 1], the likeliest for the frames. As covariances are diagonal, each
   row i of W has equations of its own, with x_d = [mu_d; 1]:

       (sum over d, t of g_d(t) / v_d,i x_d x_d') W_i = sum over d, t of g_d(t) / v_d,i o_i(t) x_d

   regularised towards the identity by a part HELD of the diagonal, because there is little data (ridge regression).
3. Maximum a posteriori (MAP) estimation of each mean of which frames were heard (Gauvain and Lee, IEEE Transactions on
   Speech and Audio Processing 2, 1994), with tau = WORTH:

       mu'' = (tau mu' + sum over t of g(t) o(t)) / (tau + sum over t of g(t))
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt

from guide.errors import FOUND, HingesideError
from guide.speech.confidence import scores, shipped_weights
from guide.speech.endpoint import Segment
from guide.speech.engine import Engine
from guide.speech.own.alignment import Aligner, Stretch
from guide.speech.own.lesson import LessonLine
from guide.speech.own.model import STREAMS, WIDTH, Means, Model, written

ROUNDS = 2
"""Sayings are aligned again by what was learned from them; measured: the second time gains as much again for a
strange voice (lengths 12 to 19 of 24), and nothing for others."""
FEWEST = 20
"""Sayings; from fewer, a transform of 182 numbers a stream is a guess."""
HELD = 0.02
"""How strongly the transform is held to changing nothing, as a part of what speaks for a change."""
WORTH = 5.0
"""The model's own mean counts as so many frames; measured: 3 to 10 are alike, 25 hears less right."""
LEAST_SHARE = 1e-3
"""A density with a smaller share of a frame is left out."""
_NEAR = 12.0
"""So far below the likeliest density, in natural logarithms, another has no part in a frame."""


class TooFew(HingesideError):
    """Too little was said that could be learned from; `str` is one sentence."""

    status = FOUND


@dataclass(frozen=True, slots=True)
class Said:
    """A saying of the lesson, as it was said."""

    asked: LessonLine
    segment: Segment


def learned(model: Model, sayings: Sequence[Said], path: Path) -> bytes:
    """The file of means for this person, which is also left at `path`. Raises TooFew."""
    model_means = model.means
    own: Path | None = None
    data = b""
    for _ in range(ROUNDS):
        stretches = _aligned(sayings, own)
        if len(stretches) < FEWEST:
            raise TooFew(
                f"Only {len(stretches)} sayings could be followed, and {FEWEST} are needed; "
                "say the lesson again, nearer to the microphone."
            )
        model_means = mllr(model, occupied(model, model_means, stretches))
        means = map_estimate(model_means, occupied(model, model_means, stretches))
        data = written(model, means)
        path.write_bytes(data)
        own = path
    return data


def understood(engine: Engine, sayings: Sequence[Said]) -> int:
    """How many of them an engine understands with enough confidence, as in a run."""
    weights = shipped_weights()
    right = 0
    for said in sayings:
        engine.set_grammar(said.asked.grammar)
        heard = engine.decode(said.segment.pcm, said.segment.plain)
        meaning = said.asked.grammar.parse(heard.text).meaning if heard is not None else None
        if heard is None or meaning is None or meaning != said.asked.meaning:
            continue
        belief = weights.belief(scores(heard, said.segment, said.asked.grammar), meaning.kind)
        right += belief >= weights.enough(meaning, quiet=said.segment.quiet)
    return right


def _aligned(sayings: Sequence[Said], means: Path | None) -> list[list[Stretch]]:
    aligner = Aligner(means)
    try:
        found = [aligner.align(said.asked.words, said.segment.pcm) for said in sayings]
    finally:
        aligner.close()
    return [one for one in found if one]


@dataclass(frozen=True, slots=True)
class Occupation:
    """Sufficient statistics of each mean: the occupation (shares of frames) and the weighted sum of frames."""

    frames: npt.NDArray[np.float64]
    """(phones, STREAMS, densities)."""
    totals: npt.NDArray[np.float64]
    """(phones, STREAMS, densities, WIDTH)."""


def occupied(model: Model, means: Means, sayings: Iterable[Sequence[Stretch]]) -> Occupation:
    """Share out the frames of sayings among densities that have these means."""
    found = Occupation(np.zeros(means.shape[:3]), np.zeros(means.shape))
    places = {name: place for place, name in enumerate(model.phones)}
    mu, v = means.astype(np.float64), model.variances.astype(np.float64)
    constants = -0.5 * (mu * mu / v + np.log(v)).sum(axis=3)
    linear, squared = mu / v, -0.5 / v
    for stretch in (stretch for saying in sayings for stretch in saying):
        phone = places[stretch.phone]
        for stream in range(STREAMS):
            at, frames = (phone, stream), stretch.frames[:, stream]
            likely = model.log_weights(stretch.state, stream) + constants[at]
            likely = likely + frames @ linear[at].T + (frames * frames) @ squared[at].T
            shares = _shares(likely)
            found.frames[at] += shares.sum(axis=0)
            found.totals[at] += shares.T @ frames
    return found


def _shares(likely: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """From logarithms of likelihoods by frame and density, each frame's shares."""
    behind = likely - likely.max(axis=1, keepdims=True)
    shares = np.where(behind > -_NEAR, np.exp(behind), 0.0)
    shares /= shares.sum(axis=1, keepdims=True)
    shares[shares < LEAST_SHARE] = 0.0
    return shares


def mllr(model: Model, heard: Occupation) -> Means:
    """The model's means, those of speech moved by one linear transform a stream, the likeliest for what was heard."""
    speech = model.speech()
    found = model.means.copy()
    for stream in range(STREAMS):
        means = model.means[speech, stream].astype(np.float64)
        extended = np.concatenate([means, np.ones((*means.shape[:2], 1))], axis=2)
        transform = mllr_transform(
            extended.reshape(-1, WIDTH + 1),
            model.variances[speech, stream].reshape(-1, WIDTH).astype(np.float64),
            heard.frames[speech, stream].reshape(-1),
            heard.totals[speech, stream].reshape(-1, WIDTH),
        )
        found[speech, stream] = extended @ transform.T
    return found


def mllr_transform(
    extended: npt.NDArray[np.float64],
    variances: npt.NDArray[np.float64],
    frames: npt.NDArray[np.float64],
    totals: npt.NDArray[np.float64],
) -> npt.NDArray[np.float64]:
    """The matrix W, (WIDTH, WIDTH + 1), of the equations above, from densities in rows: x, v, sums of g and of g o."""
    width = variances.shape[1]
    weights = frames[:, None] / variances
    square: npt.NDArray[np.float64] = np.stack(
        [extended.T @ (weights[:, i, None] * extended) for i in range(width)]
    )
    right = (totals / variances).T @ extended
    diagonal = np.arange(width + 1)
    held = HELD * square[:, diagonal, diagonal] + 1e-6
    square[:, diagonal, diagonal] += held
    right[diagonal[:-1], diagonal[:-1]] += held[diagonal[:-1], diagonal[:-1]]
    return np.asarray(np.linalg.solve(square, right[:, :, None])[:, :, 0], np.float64)


def map_estimate(means: Means, heard: Occupation) -> Means:
    """Means, each moved towards what was heard of it by as much as was heard."""
    count = heard.frames[..., None]
    prior = WORTH * means.astype(np.float64)
    return ((prior + heard.totals) / (WORTH + count)).astype(np.float32)
