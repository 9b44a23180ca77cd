"""Symbols: what a tag says in drawings, found, told apart and named."""
