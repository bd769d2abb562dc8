"""What the shop's own readings, and its joints at the dry fit, say of how it works."""
