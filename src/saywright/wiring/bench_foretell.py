"""Before it is settled: the part of `Bench` that tells what an utterance would leave in the record."""

from __future__ import annotations

from saywright.hearing.words import Utterance
from saywright.judging.judge import judge
from saywright.record.making import kept, leaves_item
from saywright.record.types import Item, Reading, Record
from saywright.wiring.bench_part import Part


class ForetellPart(Part):
    """What is shown of an utterance while it may still change."""

    def foretell(self, utterance: Utterance) -> tuple[Item, ...]:
        """The items it would leave if it ended now, its readings decided each by itself; nothing is kept.

        From any thread. Ids and event numbers are not given away.
        """
        statements = self._understander().preview(utterance)
        items = tuple(kept(one, 0, self.sheet) for one in statements if leaves_item(one))
        readings = tuple(item for item in items if isinstance(item, Reading))
        if not readings:
            return items
        bare = Record(job=self._log.folder.record().job, readings=readings)
        judged = {reading.id: reading for reading in judge(bare, self.sheet).readings}
        return tuple(judged.get(item.id, item) for item in items)
