"""The command line. It holds no rule of the trade: each command asks `app` and prints the answer."""
