"""The names on a tag: maker, range and shade."""
