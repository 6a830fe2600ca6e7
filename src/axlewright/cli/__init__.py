"""The command line: parses, shows, exits; no physics."""
