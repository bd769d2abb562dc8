"""The numbers that saws are set to: marks of the rule, chosen for all chains of a job together."""
