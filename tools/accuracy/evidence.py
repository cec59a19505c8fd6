"""What is known about each reading of a clip, for the fit of doubt. Pure."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.hearing.words import Hypothesis, Utterance, typed
from saywright.understanding.discourse import Discourse
from saywright.understanding.doubt import TYPED, choose
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import Correction, Reading, Unclear

from .calibrate import Heard, Sample
from .outcomes import meanings, meant


def heard(utterances: Sequence[Utterance], lexicon: Lexicon, *, lead: str, truth: Sequence[str]) -> Heard:
    """Every reading that *utterances* give, with what is known about it and whether it is right."""
    state = Discourse()
    if lead:
        state, _ = understand(typed(lead), state, lexicon)
    wanted = meanings(truth)
    found: dict[str, Sample] = {}
    unclear = False
    for utterance in utterances:
        alone = [
            (h.probability, *understand(_only(utterance, h), state, lexicon)) for h in utterance.hypotheses
        ]
        chosen, known = choose(alone, lexicon.sheet)
        _, state, statements = alone[chosen]
        for statement in statements:
            if isinstance(statement, Reading):
                right = meant(statement) in wanted
                found[statement.id] = Sample(known[statement.id], right, statement.asks)
            elif isinstance(statement, Correction):
                for gone in statement.supersedes:
                    found.pop(gone, None)
            unclear = unclear or isinstance(statement, Unclear)
    return Heard(tuple(found.values()), unclear)


def _only(utterance: Utterance, hypothesis: Hypothesis) -> Utterance:
    """The utterance with one hypothesis, as if its words were certain."""
    sure = hypothesis.model_copy(update={"probability": 1.0})
    return utterance.model_copy(update={"hypotheses": (sure,), "listener": TYPED})
