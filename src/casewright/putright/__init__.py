"""A part is spoiled: what can be done with what is there, and what each way costs."""
