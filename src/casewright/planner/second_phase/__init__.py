"""The second phase: of the plans on the same sheets, the one with fewer settings, cuts and turns."""
