"""Strength: how far shelves sag at once and after years, what holds a case on its wall, what a person
lifts, and when a case tips.

Everything here takes and gives plain values: inches, pounds and pounds per square inch. An answer says
that a figure of a named source is met or not under named assumptions; it never calls anything safe.
"""
