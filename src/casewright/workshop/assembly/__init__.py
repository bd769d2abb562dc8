"""How a case goes together: dry fit, glue-ups, screws, clamps."""
