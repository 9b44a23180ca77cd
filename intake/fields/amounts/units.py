"""Units of length and mass as tags print them, and fractions before them."""

from __future__ import annotations

import re

METRES_PER_YARD = 0.9144
GRAMS_PER_OUNCE = 28.349523125
"""Exact: international yard and pound agreement, 1959; so is the pound below."""

GRAMS_PER_KILOGRAM = 1000.0
GRAMS_PER_HECTOGRAM = 100.0
GRAMS_PER_DECAGRAM = 10.0
GRAMS_PER_POUND = 453.59237
METRIC = (1.0, GRAMS_PER_DECAGRAM, GRAMS_PER_HECTOGRAM, GRAMS_PER_KILOGRAM)

METRES = r"m|mtrs?|mts?|met(?:er|ers|re|res|ri|ro|ros)|lfm|rn"
YARDS = r"yds?|yards?|yrds?"
GRAMS = r"g|gr|grs|gms?|gram(?:s|m|me|mes|mi|mo|os|o)?"
OUNCES = r"ozs?|ounces?|onces?|onzas?|unzen|unze"
KILOGRAMS = r"kgs?|kilos?|kilogram(?:m|mi?|mes?|mos?|os?|s)?"
HECTOGRAMS = r"hg|hekto(?:gram)?|hecto(?:gram(?:me)?s?)?|ettogramm[oi]|ett[oi]"
"""Hundred grams, by which yarn is sold in the north and in Italy."""
DECAGRAMS = r"dkg|deka(?:gramm)?"
"""Ten grams, in Austria."""
POUNDS = r"lbs?|pounds?"
NATIVE = rf"(?:{METRES}|{KILOGRAMS}|{HECTOGRAMS}|{DECAGRAMS}|{GRAMS}|{YARDS}|{OUNCES}|{POUNDS})"
UNITS = (
    ("length", re.compile(METRES), 1.0),
    ("length", re.compile(YARDS), METRES_PER_YARD),
    ("mass", re.compile(KILOGRAMS), GRAMS_PER_KILOGRAM),
    ("mass", re.compile(GRAMS), 1.0),
    ("mass", re.compile(HECTOGRAMS), GRAMS_PER_HECTOGRAM),
    ("mass", re.compile(DECAGRAMS), GRAMS_PER_DECAGRAM),
    ("mass", re.compile(OUNCES), GRAMS_PER_OUNCE),
    ("mass", re.compile(POUNDS), GRAMS_PER_POUND),
)
FRACTIONS = {"¼": 0.25, "½": 0.5, "¾": 0.75, "1/4": 0.25, "1/2": 0.5, "3/4": 0.75, "⅛": 0.125}
FRACTIONS |= {
    f"{raised}{stroke}{digit}": over / under
    for raised, over in (("¹", 1), ("³", 3))
    for stroke in "/⁄"
    for digit, under in (("2", 2), ("₂", 2), ("4", 4), ("₄", 4))
}
FRACTIONS |= {"⅜": 0.375, "⅝": 0.625, "⅞": 0.875, "⅓": 1 / 3, "⅔": 2 / 3}
