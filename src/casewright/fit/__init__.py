"""Will it close? Chains of sizes, their spread in this shop, and what a measurement changes."""
