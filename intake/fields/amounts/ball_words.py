"""Words for a ball of yarn, in nine languages: common practice, no source."""

from __future__ import annotations

BALL = (
    r"(?:balls?|skeins?|hanks?|knauel\w*|strange?|docken?|pelotes?|echeveaux?|gomitol[oi]|matass[ae]"
    r"|ovillos?|madejas?|bollen|bol|kluwens?|strengen|nystan|harv(?:a|or)|noster?|hesper?"
    r"|nogler?)(?![a-z])"
)
"""A ball or skein in nine languages."""

MINI = (
    r"(?:mini[ -]?(?:skeins?|hanks?|balls?|strange?|echeveaux?|pelotes?|matass\w*|gomitol\w*"
    r"|madejas?|ovillos?|bollen|strengen|streng\w*|harv\w*|nystan|noster|nogler|hesper|docken)|minis)(?![a-z])"
)
"""A small one, of which several are sold together."""

COUNTED = {
    word: number
    for number, words in {
        2: "two zwei deux due dos twee tva", 3: "three drei trois tre tres drie",
        4: "four vier quatre quattro cuatro fyra fire", 5: "five funf cinq cinque cinco vijf fem",
        6: "six sechs sei seis zes sex seks", 7: "seven sieben sept sette siete zeven sju syv",
        8: "eight acht huit otto ocho atta atte", 9: "nine neun neuf nove nueve negen nio ni",
        10: "ten zehn dix dieci diez tien tio ti", 12: "twelve zwolf douze dodici doce twaalf tolv",
    }.items()
    for word in words.split()
}  # fmt: skip
"""Words for numbers of balls; that for two in the north is "to", too many other things."""
