"""The shop: sheet goods, saws, dado stack, pin jigs, measuring tools and the rack of offcuts."""
