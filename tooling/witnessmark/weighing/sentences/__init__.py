"""What a weighing found, in plain sentences made from its figures."""

from __future__ import annotations

from witnessmark.weighing.sentences.account import Account, account_of, beaten_in_words

__all__ = ["Account", "account_of", "beaten_in_words"]
