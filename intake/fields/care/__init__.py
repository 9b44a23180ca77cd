"""Care in words: the processes of ISO 3758 that a tag allows or forbids."""
