"""Shades: read shade names are matched to known ones; lots and codes never are."""
