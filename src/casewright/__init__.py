"""From a measured opening to cabinets whose every part fits."""
