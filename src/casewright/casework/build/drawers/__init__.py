"""Drawer boxes behind the drawer fronts of a case. Start at `draw_drawers`."""
