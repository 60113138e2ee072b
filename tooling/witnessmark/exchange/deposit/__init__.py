"""A deposit: the records and all that explains them, for readers who have nothing of ours."""

from witnessmark.exchange.deposit.compare import Compared, Old, compare_deposits
from witnessmark.exchange.deposit.contents import deposit_files
from witnessmark.exchange.deposit.kit import Agreed, Kit, Listed, Sort

__all__ = [
    "Agreed",
    "Compared",
    "Kit",
    "Listed",
    "Old",
    "Sort",
    "compare_deposits",
    "deposit_files",
]
