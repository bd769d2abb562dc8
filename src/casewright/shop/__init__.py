"""What stands in the shop: sheet goods, saws, dado stack, pin jigs and the rack of offcuts."""
