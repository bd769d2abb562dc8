"""What a job's cases bear: its shelves under their load, hung cases on their screws, tall ones on their feet.

`strength` knows loads, panels and screws; here they are asked about the parts of a project.
"""
