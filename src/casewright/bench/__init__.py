"""What a person does next at each machine: cut lists, settings, passes, boring, order of work."""
