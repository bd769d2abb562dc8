"""Sizes as exact affine forms over named inputs, kept in one ledger.

Use from outside: `ledger` (`Ledger`, `Sizes`, `explain`) and `affine` (`Affine`, `size`).
"""
