"""Openings, cases, joints, parts and features: from a job as decided to parts as cut."""
