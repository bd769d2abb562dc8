"""What is drawn: walls, cases, parts, joints, sheets, steps and repairs."""
