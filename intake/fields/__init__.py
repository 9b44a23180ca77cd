"""Fields: lines become candidate values, candidates become fields with a confidence."""
