"""Exports: the stash as spreadsheets and back, tags on paper for part balls, and plots."""
