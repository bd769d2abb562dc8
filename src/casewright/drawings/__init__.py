"""Drawings: what is drawn (views), and with what (kit): scenes, pens, pages, SVG and DXF."""
