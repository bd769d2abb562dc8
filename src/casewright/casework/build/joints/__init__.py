"""The joints, a file each: each cuts a feature into one part and records how the other part meets it."""
