"""How one case is drawn up: its shell, what stands inside it, its joints, and where every part goes.

Use from outside: `case.Case` and `meetings`; the rest is the drawing up itself.
"""
