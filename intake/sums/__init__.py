"""The sums that the tags were kept for: metres left, enough of one lot, common care."""
