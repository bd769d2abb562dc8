"""Whether the joints close: chains of sizes, their spread in this shop, and what a measurement changes.

Use from outside: `outcomes.gap_spread.fit`, `outcomes.case_outcome`, `advice`, `as_built`,
`tolerance_wording`, and `errors.shared_settings` for a plan's own settings.
"""
