"""What a person does next at each machine: settings, channels, holes, sheets, assembly, order, safety.

Use from outside: `work.work` (all the work of a job), `order.batches.order`, `batch_wording.Telling`,
`sheets.cut_problems`, `sheets.purchases`, and `operations` for what one step is.
"""
