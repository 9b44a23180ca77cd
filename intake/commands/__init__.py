"""The commands of ``balltag``, a file a command: thin over the functions that Python calls.

Nothing heavy is imported before a command runs, so that ``--help`` is quick.
"""
