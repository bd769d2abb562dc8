"""Work done while somebody waits."""
