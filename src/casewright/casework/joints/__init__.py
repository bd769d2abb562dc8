"""The joints: each cuts its feature into one part and says how the other meets it."""
