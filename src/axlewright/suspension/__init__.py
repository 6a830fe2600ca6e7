"""Where the axle goes: links, leaves and what they do to angles, loads and grip."""
