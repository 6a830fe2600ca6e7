"""The command line: parses, shows, exits; no physics."""

import os

# Matrices here are many and small: threads of a linear-algebra library only get in each other's
# way (a gear study took 54 s with them and 12 s without, two busy cores). Read when NumPy loads.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ.setdefault("OMP_NUM_THREADS", "1")
