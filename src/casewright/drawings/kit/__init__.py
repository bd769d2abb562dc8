"""The kit every drawing is made with: scenes, pens, lettering, pages, and SVG and DXF files."""
