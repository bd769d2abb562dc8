"""The packet's files: labels, notices, everything written or downloaded."""
