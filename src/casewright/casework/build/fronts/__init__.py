"""Doors and drawer fronts before the bays of a case. Start at `draw_fronts`."""
