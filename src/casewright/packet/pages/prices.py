"""Prices as they are printed."""

from __future__ import annotations

from fractions import Fraction


def price_text(amount: Fraction, money: str) -> str:
    """For example `$94`, `$94.50`, `EUR 1,034`: two decimals unless the amount is whole."""
    figure = f"{int(amount):,}" if amount.denominator == 1 else f"{float(amount):,.2f}"
    return f"{money} {figure}" if len(money) > 1 else f"{money}{figure}"
