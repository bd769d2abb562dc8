"""Phones and tablets on the shop's network: how they are let in, and how they are put out again."""
