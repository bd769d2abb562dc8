"""What each command takes, and the examples its help ends with.

A module for each, with `add_arguments(parser)` and `EXAMPLE`. None imports what the command works with,
so that help comes at once.
"""
