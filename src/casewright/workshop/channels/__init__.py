"""Dados, grooves and rabbets: which cutter, how a stack is packed, in how many passes."""
