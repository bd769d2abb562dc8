"""What happens at the dry fit, as pages and commands print it: as planned and as built."""
