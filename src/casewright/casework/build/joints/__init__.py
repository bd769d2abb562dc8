"""The joints, a file each: each cuts its feature into one part and says how the other meets it."""
