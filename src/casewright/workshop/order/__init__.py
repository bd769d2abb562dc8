"""The order of work: batches on one setting, and how long they take."""
