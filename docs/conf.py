"""The documentation as a site: `make docs` writes it. Its pages ask no other host for anything."""

project = "casewright"
author = "the casewright founders"
html_title = "casewright"
extensions = ["myst_parser", "sphinx.ext.autodoc"]
html_theme = "furo"
html_copy_source = False
html_show_copyright = False

myst_heading_anchors = 3
nitpicky = False  # types of other libraries are named in signatures and not described here
autodoc_typehints = "signature"
autodoc_member_order = "bysource"
autodoc_preserve_defaults = True
