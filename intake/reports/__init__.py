"""What the commands answer: tables and lines for a reader, JSON for a script."""
