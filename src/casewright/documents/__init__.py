"""Documents: the shop packet and its tables. Sizes are read from the project and plan, never made here."""
