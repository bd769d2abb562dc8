"""What a person does next at each machine: settings, channels, holes, sheets, assembly, order, safety.

Use from outside: `work.work` (every operation of a job), `order.batches.order`, `batch_wording.BatchWriter`,
`sheets.cut_problems`, `sheets.purchases`, and `operations` for a single step.
"""
