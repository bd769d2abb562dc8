"""The pages of the packet, a kind a file."""
