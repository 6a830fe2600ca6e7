"""Published cases: every formula held against a number that does not come from this program.

A case names a formula, its inputs and what others got from them: a worked example of a book, a
standard, a closed form worked out by other means, a reference library.  The cases of the package
stand in ``cases/``; a reader may add a file of the same form and run it with them.
"""
