"""Amounts of the job's money as printed."""

from __future__ import annotations

from fractions import Fraction


def price_text(amount: Fraction, money: str) -> str:
    """`$94`, `$94.50`, `€ 1,034`: two decimals where the amount is not whole."""
    figure = f"{int(amount):,}" if amount.denominator == 1 else f"{float(amount):,.2f}"
    return f"{money} {figure}" if len(money) > 1 else f"{money}{figure}"
