"""Drawings: what is drawn (scenes), where on paper (pages), and with what (svg, dxf, recorder)."""
