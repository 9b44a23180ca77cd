"""What a tag counts and measures: length, mass, weight class, balls, tension, tools."""
