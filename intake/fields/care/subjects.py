"""What processes of care are about, and which of those about the same is milder."""

from __future__ import annotations

MILDEST_FIRST: dict[str, tuple[str, ...]] = {
    "washing": (
        "do not wash",
        "hand wash",
        "machine wash 30 mild",
        "machine wash 30",
        "machine wash 40 mild",
        "machine wash 40",
        "machine wash 60 mild",
        "machine wash 60",
        "machine wash 95",
    ),
    "bleaching": ("do not bleach", "oxygen bleach only", "any bleach"),
    "tumble drying": ("do not tumble dry", "tumble dry low", "tumble dry"),
    "natural drying": ("dry flat", "drip line dry", "line dry"),
    "shade": ("dry in shade",),
    "ironing": ("do not iron", "iron low", "iron medium", "iron high"),
    "dry cleaning": ("do not dry clean", "dry clean"),
    "wet cleaning": ("do not wet clean", "wet clean"),
}
"""The processes of each subject, of which a tag can mean one; mildest first, the orders
where ISO 3758 gives none being common practice, no source."""

SUBJECT_OF = {
    process: subject for subject, processes in MILDEST_FIRST.items() for process in processes
} | dict.fromkeys(("machine", "mild", "no machine"), "washing")
"""Process, or part of a washing, to its subject."""
