"""What the sentences are about: one weighing, with the short names of its options."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from witnessmark.weighing.outcome import Weighed
from witnessmark.weighing.partition import Partition, Territory
from witnessmark.weighing.weigh import Weighing
from witnessmark.weighing.words import Standing

OUT_OF_THE_RUNNING = frozenset({Standing.SET_ASIDE, Standing.NOT_SCORED})


@dataclass(frozen=True, slots=True)
class Subject:
    """A weighing and what its options are called."""

    weighing: Weighing
    names: Mapping[str, str]

    def name(self, option: str) -> str:
        """Give what an option is called."""
        return self.names.get(option, option)

    @property
    def running(self) -> tuple[Weighed, ...]:
        """Give the options that were weighed against each other."""
        return tuple(o for o in self.weighing.options if o.standing not in OUT_OF_THE_RUNNING)

    @property
    def winners(self) -> tuple[str, ...]:
        """Give every option with the highest value; none without weights."""
        return self.weighing.winner or ()

    @property
    def contest(self) -> bool:
        """Tell whether options were weighed against each other at the policy's weights."""
        return len(self.running) > 1 and bool(self.winners)

    @property
    def allowed(self) -> Partition:
        """Give the divided ranges of the policy, or all weights where it has none."""
        return self.weighing.policy or self.weighing.all_weights

    @property
    def allowed_in_words(self) -> str:
        """Give what the weights of `allowed` are called."""
        if self.weighing.policy is None:
            return "all weightings"
        return "the weightings our policy allows"

    def leads_throughout(self, partition: Partition) -> bool:
        """Tell whether the sole winner is never behind in a region."""
        return self.territory(partition).region == partition.domain

    def territory(self, partition: Partition) -> Territory:
        """Give where the winner leads, or the first of several."""
        return partition.of(self.winners[0])

    @property
    def nothing_flips(self) -> bool:
        """Tell whether neither weights nor a step of one score would end a sole lead."""
        return (
            self.contest
            and len(self.winners) == 1
            and not self.weighing.flips
            and self.leads_throughout(self.weighing.all_weights)
        )
