"""The workbench: pages and JSON on the same core as the command line; no physics here."""
