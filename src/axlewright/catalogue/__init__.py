"""Generic size classes and materials, each row with its source; no makes.

Rows stand in ``data/*.toml`` as the shop writes them and are read by the same grammar as a build
file.  A builder's own ``[parts.…]`` rows have the same keys and come first.
"""
