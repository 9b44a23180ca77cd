"""The composition: which fibres, and how much of each."""
