"""An independent judge of `fit`: shops are drawn, every part is cut with errors, every case is put together.

It shares no chain, limit or form with the package's own sums: it reads only where the parts lie, how large
they are and where they are channelled, and closes each case by a linear programme over leaning, bending
panels. `simulation.simulate_job` is the way in; docs/assembly-simulation.md tells what is modelled and what
is not.
"""
