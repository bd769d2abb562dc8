"""The shop floor: work handed out, steps, and what the benches say happened."""
