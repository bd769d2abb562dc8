"""The shop: sheet goods, woods and their moisture, saws, dado stack, pin jigs, hinges, drawer slides,
measuring tools and the rack of offcuts."""
