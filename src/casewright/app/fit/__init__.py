"""Will it close, as pages and commands print it: as planned and as built."""
