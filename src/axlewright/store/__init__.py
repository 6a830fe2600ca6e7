"""The store: builds with every revision, attachments, and a cache of results, in one SQLite file.

A build *is* its text: the store is the history of that text, and findings are only cache.  What
``save`` has returned is on the disk, whatever happens next.
"""
