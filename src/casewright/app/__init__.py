"""The use cases: what each way in asks for. Only here are the core and the outside world joined."""
